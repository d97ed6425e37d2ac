//! Files that say: a running program is here.
//!
//! The lock on such a file goes when its program ends, however it ends, so what a killed program
//! leaves behind is told from what a running one works on.

use super::disk;
use std::collections::hash_map::RandomState;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::hash::{BuildHasher, Hasher};
use std::io;
use std::path::{Path, PathBuf};

/// A file that this program holds; dropping it lets it go and removes it.
#[derive(Debug)]
pub struct HeldFile {
    path: PathBuf,
    _file: File,
}

impl HeldFile {
    /// Makes the file and holds it. It gets its name only once it is held: nobody ever finds it
    /// free.
    ///
    /// # Errors
    /// What the system says; also where it has no locks.
    pub fn take(path: PathBuf) -> io::Result<Self> {
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        let unfinished = path.with_extension(disk::UNFINISHED);
        let file = File::create(&unfinished)?;
        let held = file
            .try_lock()
            .map_err(io::Error::from)
            .and_then(|()| fs::rename(&unfinished, &path));
        if let Err(error) = held {
            drop(file);
            // The first error is the one to report.
            let _ = fs::remove_file(&unfinished);
            return Err(error);
        }
        Ok(Self { path, _file: file })
    }

    /// The file.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }
}

impl Drop for HeldFile {
    fn drop(&mut self) {
        // Whoever looks next removes it in our stead.
        let _ = fs::remove_file(&self.path);
    }
}

/// Whether somebody holds the file. One that is not there is free; one that cannot be asked
/// counts as free too, so that nothing which was left behind is withheld.
#[must_use]
pub fn is_held(path: &Path) -> bool {
    // To open a pipe would wait for ever.
    if !path.is_file() {
        return false;
    }
    let Ok(file) = OpenOptions::new().read(true).open(path) else {
        return false;
    };
    // Shared: two who look at the same time do not take each other for the holder.
    matches!(file.try_lock_shared(), Err(TryLockError::WouldBlock))
}

/// A name for this run of the program that no other has.
#[must_use]
pub fn session_name() -> String {
    // The keys of a hasher are the random numbers that the standard library offers.
    let number = RandomState::new().build_hasher().finish();
    format!("{}-{number:016x}", std::process::id())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_held_until_it_is_let_go() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep").join("one.lock");
        assert!(!is_held(&path));
        let held = HeldFile::take(path.clone()).unwrap();
        assert!(is_held(held.path()) && is_held(&path));
        drop(held);
        assert!(!is_held(&path) && !path.exists());
        fs::write(&path, "").unwrap();
        assert!(!is_held(&path), "left behind by a program that was killed");
    }

    #[test]
    fn no_two_sessions_have_one_name() {
        assert_ne!(session_name(), session_name());
    }
}
