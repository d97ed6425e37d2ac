//! The files that were open last.

use super::disk;
use crate::survey::file::{FileHead, read_file, read_head};
use std::io;
use std::path::{Path, PathBuf};

/// As many are remembered.
pub const MOST: usize = 8;

/// Longer lists than any that is written are not read.
const LARGEST_LIST_BYTES: u64 = 256 * 1024;

/// A file that was open.
#[derive(Clone, Debug, PartialEq)]
pub struct Recent {
    /// The file.
    pub path: PathBuf,
    /// Whether it is still there.
    pub there: bool,
    /// What its first part says; `None` where it is no survey, as far as that shows.
    pub head: Option<FileHead>,
}

/// The list, the last one first. One that cannot be read is empty: it is made again as files are
/// opened.
#[must_use]
pub fn read(list: &Path) -> Vec<Recent> {
    paths(list)
        .into_iter()
        .map(|path| Recent {
            there: path.is_file(),
            head: read_head(&path),
            path,
        })
        .collect()
}

/// Puts a file in front of the list. A name that is no text is not remembered.
///
/// # Errors
/// What the system says.
pub fn remember(list: &Path, path: &Path) -> io::Result<()> {
    let mut paths = paths(list);
    paths.retain(|other| other != path);
    paths.insert(0, path.to_owned());
    paths.truncate(MOST);
    write(list, &paths)
}

/// Takes a file out of the list.
///
/// # Errors
/// What the system says.
pub fn forget(list: &Path, path: &Path) -> io::Result<()> {
    let mut paths = paths(list);
    paths.retain(|other| other != path);
    write(list, &paths)
}

fn paths(list: &Path) -> Vec<PathBuf> {
    let bytes = read_file(list, LARGEST_LIST_BYTES).unwrap_or_default();
    let names: Vec<String> = ron::de::from_bytes(&bytes).unwrap_or_default();
    names.into_iter().map(PathBuf::from).take(MOST).collect()
}

fn write(list: &Path, paths: &[PathBuf]) -> io::Result<()> {
    let names: Vec<&str> = paths.iter().filter_map(|path| path.to_str()).collect();
    let pretty = ron::ser::PrettyConfig::new().new_line("\n");
    let text = ron::ser::to_string_pretty(&names, pretty).map_err(io::Error::other)?;
    if let Some(folder) = list.parent() {
        std::fs::create_dir_all(folder)?;
    }
    disk::write_shared(list, text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_stands_first_once_and_the_oldest_go() {
        let folder = tempfile::tempdir().unwrap();
        let list = folder.path().join("recent.ron");
        for number in 0..(MOST + 3) {
            remember(&list, Path::new(&format!("/far/{number}.ron"))).unwrap();
        }
        let near = folder.path().join("near.ron");
        std::fs::write(&near, "").unwrap();
        remember(&list, &near).unwrap();
        remember(&list, Path::new("/far/9.ron")).unwrap();
        let recent = read(&list);
        assert_eq!(recent.len(), MOST);
        let first = |at: usize| (recent[at].path.clone(), recent[at].there);
        assert_eq!(first(0), (PathBuf::from("/far/9.ron"), false));
        assert_eq!(first(1), (near.clone(), true));
        assert_eq!(recent[1].head, None);
        let survey = crate::survey::Survey::new(crate::survey::VehicleKind::PanelVan);
        std::fs::write(&near, crate::survey::file::print(&survey)).unwrap();
        let head = read(&list)[1].head.clone().unwrap();
        assert_eq!(head.vehicle, survey.vehicle);
        forget(&list, &near).unwrap();
        assert!(read(&list).iter().all(|recent| recent.path != near));
        std::fs::write(&list, "no list").unwrap();
        assert!(read(&list).is_empty());
    }
}
