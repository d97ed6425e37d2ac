//! What an output never takes the place of: what it was made from, and what this program was handed
//! open.

use crate::survey::file::{FIRST_LINE, data_folder, photo_folder};
use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};

/// Links that are followed one after another; more are a ring.
const MOST_LINKS: usize = 40;

/// Whether a file is one of those that something is made from.
#[must_use]
pub(super) fn is_one_of(target: &Path, inputs: &[&Path]) -> bool {
    let same = |input: &&Path| fs::canonicalize(input).is_ok_and(|input| input == target);
    inputs.iter().any(same)
}

/// Whether a file lies in the photo folder or the data folder of a survey, whose files are kept
/// nowhere else.
pub(super) fn is_kept_beside(target: &Path, survey_file: &Path) -> bool {
    let folders = [data_folder(survey_file), photo_folder(survey_file)];
    let whole = |folder: &PathBuf| fs::canonicalize(folder).ok();
    folders
        .iter()
        .filter_map(whole)
        .any(|folder| target.starts_with(folder))
}

/// Whether a file begins as a survey does, whatever its name.
pub(super) fn is_a_survey(target: &Path) -> bool {
    let mut begins = vec![0; FIRST_LINE.len()];
    let read = File::open(target).and_then(|mut file| file.read_exact(&mut begins));
    read.is_ok() && begins == FIRST_LINE.as_bytes()
}

/// Whether a path leads through the files that this program was handed open, such as `/dev/stderr`
/// and `/dev/fd/3`: a new file in the place of such a one would be another than that which whoever
/// started it goes on writing to.
pub(super) fn is_handed_over(output: &Path) -> bool {
    let mut path = output.to_owned();
    for _ in 0..MOST_LINKS {
        let parent = match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent,
            _ => Path::new("."),
        };
        let (Ok(parent), Some(name)) = (fs::canonicalize(parent), path.file_name()) else {
            return false;
        };
        if parent == Path::new("/dev/fd") || (parent.starts_with("/proc") && parent.ends_with("fd"))
        {
            return true;
        }
        match fs::read_link(parent.join(name)) {
            Ok(target) => path = parent.join(target),
            Err(_) => return false,
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::output::{write, write_beside, write_or_send};
    use crate::survey::{Survey, VehicleKind, file};

    #[cfg(target_os = "linux")]
    #[test]
    fn a_file_that_was_handed_over_open_is_not_replaced() {
        use std::os::fd::AsRawFd;
        let folder = tempfile::tempdir().unwrap();
        let log = folder.path().join("log.txt");
        fs::write(&log, "precious").unwrap();
        let open = fs::OpenOptions::new().append(true).open(&log).unwrap();
        let descriptor = format!("/dev/fd/{}", open.as_raw_fd());
        let link = folder.path().join("link.csv");
        std::os::unix::fs::symlink(&descriptor, &link).unwrap();
        for path in [Path::new(&descriptor), &link] {
            let refused = write_or_send(None, path, ".csv", b"a,b").unwrap_err();
            assert!(refused.to_string().contains("ends in .csv"), "{refused}");
        }
        assert_eq!(fs::read_to_string(&log).unwrap(), "precious");
        assert!(!is_handed_over(&log));
    }

    #[test]
    fn what_something_is_made_from_is_never_replaced_by_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        let (survey, data) = (path("van.ron"), path("van.data"));
        for made in [&data, &path("van.photos")] {
            fs::create_dir_all(made).unwrap();
        }
        let copy = path("copy.txt");
        let text = file::print(&Survey::new(VehicleKind::Other));
        fs::write(&copy, &text).unwrap();
        assert!(write(None, &copy, ".csv", b"x").is_err());
        assert_eq!(fs::read_to_string(&copy).unwrap(), text);
        let weather = path("in.epw");
        for kept in [
            data.join("inside.csv"),
            path("van.photos/door.jpg"),
            weather.clone(),
        ] {
            fs::write(&kept, "kept").unwrap();
            let refused = write_beside((&survey, &[&weather]), &kept, ".csv", b"x").unwrap_err();
            assert!(
                refused.to_string().contains("never overwritten"),
                "{refused}"
            );
            assert_eq!(fs::read_to_string(&kept).unwrap(), "kept");
        }
        write_beside((&survey, &[&weather]), &path("out.csv"), ".csv", b"x").unwrap();
        write(Some(&survey), &path("out.csv"), ".csv", b"y").unwrap();
    }
}
