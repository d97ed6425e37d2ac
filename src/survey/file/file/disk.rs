//! The steps of a save, one by one, so that a test can make each of them fail.

use std::collections::hash_map::RandomState;
use std::fs::{self, File, Metadata, OpenOptions};
use std::hash::{BuildHasher, Hasher};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What saving asks of the disk. [`RealDisk`] does it.
pub trait Disk {
    /// Makes a new file of a name nobody else uses, in this folder. With the owner and the mode
    /// of the file it will replace, if there is one.
    ///
    /// # Errors
    /// What the system says.
    fn create(&mut self, folder: &Path, like: Option<&Metadata>) -> io::Result<(PathBuf, File)>;

    /// Writes all bytes.
    ///
    /// # Errors
    /// What the system says.
    fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()>;

    /// Copies all that stands in a file to the new file.
    ///
    /// # Errors
    /// What the system says.
    fn copy(&mut self, from: &Path, to: &mut File) -> io::Result<()>;

    /// Waits until the file is on the disk.
    ///
    /// # Errors
    /// What the system says.
    fn sync(&mut self, file: &File) -> io::Result<()>;

    /// Puts one file in the place of another, at once.
    ///
    /// # Errors
    /// What the system says.
    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()>;

    /// Waits until the names in a folder are on the disk.
    ///
    /// # Errors
    /// What the system says.
    fn sync_folder(&mut self, folder: &Path) -> io::Result<()>;

    /// Removes a file.
    ///
    /// # Errors
    /// What the system says.
    fn remove(&mut self, path: &Path) -> io::Result<()>;
}

/// The disk of this machine.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

/// How often a new name is tried when the one before is taken.
const NAMES_TO_TRY: usize = 16;

impl Disk for RealDisk {
    fn create(&mut self, folder: &Path, like: Option<&Metadata>) -> io::Result<(PathBuf, File)> {
        let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
        for _ in 0..NAMES_TO_TRY {
            // The keys of a hasher are the random numbers that the standard library offers.
            let number = RandomState::new().build_hasher().finish();
            let path = folder.join(format!(".gapledger-{number:016x}.tmp"));
            match OpenOptions::new().write(true).create_new(true).open(&path) {
                Ok(file) => {
                    return match like.map_or(Ok(()), |old| become_like(&file, old)) {
                        Ok(()) => Ok((path, file)),
                        Err(error) => {
                            drop(file);
                            // The first error is the one to report.
                            let _ = fs::remove_file(&path);
                            Err(error)
                        }
                    };
                }
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
                Err(error) => return Err(error),
            }
        }
        Err(last)
    }

    fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    fn copy(&mut self, from: &Path, to: &mut File) -> io::Result<()> {
        io::copy(&mut File::open(from)?, to)?;
        Ok(())
    }

    fn sync(&mut self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
        if cfg!(not(unix)) {
            // Elsewhere a folder cannot be opened as a file; the rename itself must do.
            return Ok(());
        }
        match File::open(folder)?.sync_all() {
            // Some network file systems do not offer it for folders.
            Err(error)
                if matches!(
                    error.kind(),
                    io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported
                ) =>
            {
                Ok(())
            }
            answer => answer,
        }
    }

    fn remove(&mut self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }
}

/// Gives the new file the owner and the mode of the old one.
fn become_like(file: &File, old: &Metadata) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let new = file.metadata()?;
        if (new.uid(), new.gid()) != (old.uid(), old.gid()) {
            // Only a few users may give files away. Who may not becomes the owner, as with any
            // new file; the mode is kept all the same.
            let _ = fchown(file, Some(old.uid()), Some(old.gid()));
        }
    }
    file.set_permissions(old.permissions())
}
