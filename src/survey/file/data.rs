//! The data folder beside the survey file: loggers' and weather files, as they were taken in.
//!
//! A file goes into the program's *holding folder* when it is taken in, under a name by its
//! content. Saving copies what the survey names into `NAME.data`. The bytes are never changed, and
//! nothing that others wrote is ever moved or overwritten.

use super::by_content::{self, DATA_ENDINGS};
use super::disk::{Disk, RealDisk};
use super::error::LoadError;
use super::load::read_file;
use super::photos::is_plain_file_name;
use super::trouble::in_plain_words;
use crate::series::MOST_BYTES;
use crate::survey::Survey;
use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};

/// The largest file that is taken in, in bytes.
pub const LARGEST_DATA_BYTES: u64 = MOST_BYTES as u64;

/// Why a file of readings could not be taken in or read.
#[derive(Debug, thiserror::Error)]
pub enum DataError {
    /// It is in none of the folders.
    #[error(
        "the file \u{201c}{name}\u{201d} is missing: put it back into the folder {} beside the survey, or \
         choose it again",
        .folder.display()
    )]
    Missing {
        /// Its name.
        name: String,
        /// Where it should be.
        folder: PathBuf,
    },
    /// It is another file than the one that was taken in.
    #[error(
        "the file \u{201c}{name}\u{201d} in the survey\u{2019}s data folder was changed since it was taken in: \
         put the old one back, or choose the changed one as another file"
    )]
    Changed {
        /// Its name.
        name: String,
    },
    /// The weather file is in none of the folders.
    #[error(
        "there is no weather file \u{201c}{name}\u{201d} in {}{}: put it back there, or choose it again",
        .folder.display(),
        kept_as(.kept.as_deref())
    )]
    NoWeather {
        /// What it is called.
        name: String,
        /// The name under which it was kept.
        kept: Option<String>,
        /// Where it should be.
        folder: PathBuf,
    },
    /// A folder, a pipe or a device.
    #[error("\u{201c}{}\u{201d} is no file with readings but a folder, a pipe or a device", .path.display())]
    NotAFile {
        /// What it is.
        path: PathBuf,
    },
    /// More than is read.
    #[error(
        "\u{201c}{}\u{201d} is larger than {mb} MB: export a shorter stretch of time",
        .path.display(),
        mb = MOST_BYTES >> 20
    )]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// The disk refused.
    #[error("\u{201c}{}\u{201d} could not be read: {}", .path.display(), in_plain_words(.source))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// Its name leads out of the folder.
    #[error("the name \u{201c}{name}\u{201d} is not a plain file name; nothing was read")]
    LeadsElsewhere {
        /// The name.
        name: String,
    },
    /// It could not be written.
    #[error("the file could not be kept in {}: {}", .folder.display(), in_plain_words(.source))]
    Write {
        /// The folder.
        folder: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

fn kept_as(kept: Option<&str>) -> String {
    kept.map_or_else(String::new, |name| {
        format!(", where it was kept as \u{201c}{name}\u{201d}")
    })
}

/// The folder that the data of a survey file are in: `NAME.data` beside `NAME.ron`.
///
/// ```
/// # use std::path::Path;
/// use gapledger::survey::file::data_folder;
/// let folder = data_folder(Path::new("surveys/old van.ron"));
/// assert_eq!(folder, Path::new("surveys/old van.data"));
/// ```
#[must_use]
pub fn data_folder(survey_path: &Path) -> PathBuf {
    survey_path.with_extension("data")
}

/// The names of all files that a survey names in its data folder.
#[must_use]
pub fn data_names(survey: &Survey) -> BTreeSet<String> {
    let series = survey.series.iter().map(|series| &series.file);
    let weather = Some(&survey.stay.weather_file).filter(|name| !name.is_empty());
    series.chain(weather).cloned().collect()
}

/// Reads a file that may become one of the data folder.
///
/// # Errors
/// [`DataError`], before a byte is read where it is too large or no ordinary file.
pub fn read_data_file(path: &Path) -> Result<Vec<u8>, DataError> {
    read_file(path, LARGEST_DATA_BYTES).map_err(|error| match error {
        LoadError::Missing { path } => DataError::Missing {
            name: path
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned(),
            folder: path.parent().unwrap_or(Path::new("")).to_owned(),
        },
        LoadError::IsFolder { path } | LoadError::NotAFile { path } => DataError::NotAFile { path },
        LoadError::TooLarge { path } => DataError::TooLarge { path },
        LoadError::Unreadable { path, source } => DataError::Unreadable { path, source },
        LoadError::NoPermission { path } => DataError::Unreadable {
            path,
            source: io::ErrorKind::PermissionDenied.into(),
        },
        LoadError::Content { path, .. } => DataError::NotAFile { path },
    })
}

/// Keeps the bytes of a file in a folder under a name by their content, with the ending that the
/// file had, and gives the name. The same content is kept once.
///
/// # Errors
/// [`DataError::Write`]; the folder then holds what it held before.
pub fn keep_data(folder: &Path, bytes: &[u8], original: &str) -> Result<String, DataError> {
    keep_data_through(&mut RealDisk, folder, bytes, original)
}

/// The same on a disk that may fail.
///
/// # Errors
/// As [`keep_data`].
pub fn keep_data_through(
    disk: &mut impl Disk,
    folder: &Path,
    bytes: &[u8],
    original: &str,
) -> Result<String, DataError> {
    by_content::write_through(disk, folder, bytes, ending(original)).map_err(|source| {
        let folder = folder.to_owned();
        DataError::Write { folder, source }
    })
}

fn ending(original: &str) -> &'static str {
    let given = Path::new(original).extension().unwrap_or_default();
    DATA_ENDINGS
        .into_iter()
        .find(|ending| given.eq_ignore_ascii_case(ending))
        .unwrap_or("txt")
}

/// Where the weather file of a survey stands: in the first of the folders that has it, its data folder,
/// the holding folder, and last the folder of the survey itself, for files named by hand.
///
/// # Errors
/// [`DataError`] where its name leads elsewhere, or it is in none of them.
pub fn find_weather(folders: &[PathBuf], survey: &Survey) -> Result<PathBuf, DataError> {
    let name = survey.stay.weather_file.as_str();
    if !is_plain_file_name(name) {
        return Err(DataError::LeadsElsewhere {
            name: name.to_owned(),
        });
    }
    let mut there = folders.iter().map(|folder| folder.join(name));
    let found = there.find(|path| path.symlink_metadata().is_ok());
    found.ok_or_else(|| {
        let named_by_hand = survey.stay.weather_original.is_empty();
        let folder = if named_by_hand {
            folders.last()
        } else {
            folders.first()
        };
        DataError::NoWeather {
            name: survey.stay.weather_name().to_owned(),
            kept: (!named_by_hand).then(|| name.to_owned()),
            folder: folder.cloned().unwrap_or_default(),
        }
    })
}

/// The bytes of a file that a survey names, from the first of the folders that has it: its data
/// folder, then the holding folder.
///
/// # Errors
/// [`DataError`] says what is the matter.
pub fn find_data(folders: &[PathBuf], name: &str) -> Result<Vec<u8>, DataError> {
    if !is_plain_file_name(name) {
        return Err(DataError::LeadsElsewhere {
            name: name.to_owned(),
        });
    }
    let mut there = folders
        .iter()
        .map(|folder| folder.join(name))
        .filter(|path| path.symlink_metadata().is_ok());
    match there.next() {
        Some(path) => {
            let bytes = read_data_file(&path)?;
            match by_content::is_of(name, &bytes) {
                true => Ok(bytes),
                false => Err(DataError::Changed {
                    name: name.to_owned(),
                }),
            }
        }
        None => Err(DataError::Missing {
            name: name.to_owned(),
            folder: folders.first().cloned().unwrap_or_default(),
        }),
    }
}

/// Copies the files of these names into a folder from the first folder that has them. What is there
/// already stays. Gives the names that did not come through, with what the system says; a file that
/// is nowhere is none of them, it was missing before.
#[must_use]
pub fn carry_data<'a>(
    names: impl IntoIterator<Item = &'a str>,
    from: &[PathBuf],
    to: &Path,
) -> Vec<(String, io::Error)> {
    carry_data_through(&mut RealDisk, names, from, to)
}

/// The same onto a disk that may fail.
#[must_use]
pub fn carry_data_through<'a>(
    disk: &mut impl Disk,
    names: impl IntoIterator<Item = &'a str>,
    from: &[PathBuf],
    to: &Path,
) -> Vec<(String, io::Error)> {
    by_content::carry(names, from, to, |name, source| {
        let bytes = read_data_file(&source.join(name)).map_err(io::Error::other)?;
        by_content::write_whole_through(disk, to, &to.join(name), &bytes)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    const ROWS: &[u8] = b"time,t,rh\n2026-11-05 14:30,5.0,80\n";

    #[test]
    fn the_same_content_is_kept_once_and_unchanged_under_the_ending_it_had() {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("van.data");
        let name = keep_data(&to, ROWS, "Log 1.CSV").unwrap();
        assert!(name.ends_with(".csv") && is_plain_file_name(&name));
        assert_eq!(keep_data(&to, ROWS, "other name.csv").unwrap(), name);
        assert_eq!(fs::read_dir(&to).unwrap().count(), 1);
        assert_eq!(find_data(std::slice::from_ref(&to), &name).unwrap(), ROWS);
        let other = keep_data(&to, b"x", "run.sh").unwrap();
        assert!(other.ends_with(".txt"), "{other}");
    }

    #[test]
    fn a_name_that_leads_elsewhere_is_not_followed_and_a_missing_file_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("van.data");
        fs::create_dir_all(&to).unwrap();
        fs::write(folder.path().join("secret.csv"), ROWS).unwrap();
        for name in ["../secret.csv", "..", "a/b.csv", "c:\\x.csv"] {
            let refused = find_data(std::slice::from_ref(&to), name).unwrap_err();
            assert!(
                matches!(refused, DataError::LeadsElsewhere { .. }),
                "{name}"
            );
            assert!(carry_data([name], std::slice::from_ref(&to), folder.path()).is_empty());
        }
        let missing = find_data(std::slice::from_ref(&to), "gone.csv").unwrap_err();
        let words = missing.to_string();
        assert!(
            words.contains("gone.csv") && words.contains("van.data"),
            "{words}"
        );
    }

    #[test]
    fn a_file_that_was_changed_is_no_longer_the_one_taken_in() {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("van.data");
        let name = keep_data(&to, ROWS, "a.csv").unwrap();
        fs::write(to.join(&name), b"time,t,rh\n2026-11-05 14:30,9.0,80\n").unwrap();
        let refused = find_data(std::slice::from_ref(&to), &name).unwrap_err();
        assert!(matches!(refused, DataError::Changed { .. }), "{refused}");
        // A name that somebody gave says nothing of the content.
        fs::write(to.join("orchard-inside.csv"), b"anything").unwrap();
        assert!(find_data(&[to], "orchard-inside.csv").is_ok());
    }

    #[test]
    fn a_folder_is_refused_and_so_is_a_file_that_is_too_large() {
        let folder = tempfile::tempdir().unwrap();
        let refused = read_data_file(folder.path()).unwrap_err();
        assert!(matches!(refused, DataError::NotAFile { .. }));
        // Two gigabytes that take no room on the disk.
        let large = folder.path().join("large.csv");
        fs::File::create(&large).unwrap().set_len(2 << 30).unwrap();
        let refused = read_data_file(&large).unwrap_err();
        assert!(matches!(refused, DataError::TooLarge { .. }));
    }

    #[test]
    fn saved_under_another_name_the_files_come_along_and_nothing_is_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let (old, new) = (
            folder.path().join("old.data"),
            folder.path().join("new.data"),
        );
        let one = keep_data(&old, ROWS, "a.csv").unwrap();
        let two = keep_data(&old, b"two", "b.csv").unwrap();
        fs::create_dir_all(&new).unwrap();
        fs::write(new.join(&two), b"another's").unwrap();
        let failed = carry_data([&*one, &*two, "gone.csv"], &[old], &new);
        assert!(failed.is_empty());
        assert_eq!(fs::read(new.join(&one)).unwrap(), ROWS);
        assert_eq!(fs::read(new.join(&two)).unwrap(), b"another's");
    }
}
