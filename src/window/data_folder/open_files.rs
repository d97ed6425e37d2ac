//! Two programs on one file notice each other.
//!
//! Each program holds an entry for the file it has open. Its name begins with a hash of the
//! file's canonical path, so whoever opens the same file, by whatever path, finds it. A lock on
//! the survey's own file would not do: saving puts a new file in its place.

use super::DataFolder;
use super::held_file::{HeldFile, is_held};
use std::fs;
use std::path::{Path, PathBuf};

/// The file that this program has open.
#[derive(Debug)]
pub struct OpenFile {
    folder: PathBuf,
    key: String,
    /// `None` where the system has no locks: then nobody notices anybody.
    held: Option<HeldFile>,
}

impl OpenFile {
    /// Says that this run of the program has the file open.
    #[must_use]
    pub fn open(folder: &DataFolder, session: &str, path: &Path) -> Self {
        let folder = folder.open_files();
        let key = key(path);
        let entry = folder.join(format!("{key}-{session}.lock"));
        Self {
            held: HeldFile::take(entry).ok(),
            folder,
            key,
        }
    }

    /// Whether another program has the same file open.
    #[must_use]
    pub fn elsewhere(&self) -> bool {
        let own = self.held.as_ref().map(HeldFile::path);
        holders(&self.folder, &self.key, own)
    }
}

/// Whether a program other than this run has the file open.
#[must_use]
pub fn is_open_elsewhere(folder: &DataFolder, session: &str, path: &Path) -> bool {
    let folder = folder.open_files();
    let key = key(path);
    let own = folder.join(format!("{key}-{session}.lock"));
    holders(&folder, &key, Some(&own))
}

/// Looks at the entries for a file but one; what killed programs left is cleared away.
fn holders(folder: &Path, key: &str, own: Option<&Path>) -> bool {
    let mut found = false;
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        let name = entry.file_name();
        let for_this = name
            .to_str()
            .is_some_and(|name| name.starts_with(key) && name.ends_with(".lock"));
        if !for_this || own == Some(path.as_path()) {
            continue;
        }
        if is_held(&path) {
            found = true;
        } else {
            // Somebody else may clear it away at the same time.
            let _ = fs::remove_file(&path);
        }
    }
    found
}

/// A file's name in the folder: one for all paths that lead to it.
fn key(path: &Path) -> String {
    let path = path
        .canonicalize()
        .or_else(|_| std::path::absolute(path))
        .unwrap_or_else(|_| path.to_owned());
    let hash = blake3::hash(path.as_os_str().as_encoded_bytes()).to_hex();
    hash.chars().take(32).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_on_one_file_see_each_other_and_others_do_not() {
        let scratch = tempfile::tempdir().unwrap();
        let data = DataFolder::at(&scratch.path().join("data"));
        let path = scratch.path().join("van.ron");
        fs::write(&path, "").unwrap();
        let roundabout = scratch.path().join("data").join("..").join("van.ron");
        let first = OpenFile::open(&data, "1-a", &path);
        assert!(!first.elsewhere());
        let second = OpenFile::open(&data, "2-b", &roundabout);
        assert!(first.elsewhere() && second.elsewhere());
        assert!(is_open_elsewhere(&data, "3-c", &path));
        let third = OpenFile::open(&data, "3-c", &scratch.path().join("other.ron"));
        assert!(!third.elsewhere());
        drop(second);
        assert!(!first.elsewhere());
        assert!(!is_open_elsewhere(&data, "1-a", &path));
    }

    #[test]
    fn what_a_killed_program_left_is_cleared_away() {
        let scratch = tempfile::tempdir().unwrap();
        let data = DataFolder::at(scratch.path());
        let path = scratch.path().join("van.ron");
        let first = OpenFile::open(&data, "1-a", &path);
        let left = data.open_files().join(format!("{}-2-b.lock", key(&path)));
        fs::write(&left, "").unwrap();
        assert!(!first.elsewhere() && !left.exists());
    }
}
