//! Writing a small file whole or not at all.

use crate::survey::file::{Disk, RealDisk};
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;

/// The ending of files that are not finished.
pub(super) const UNFINISHED: &str = "tmp";

/// Puts the bytes in the place of the file, at once: until they are on the disk under another
/// name, the old ones stay. That name is the file's own with the ending `.tmp`, so only one
/// program may write a file; see [`write_shared`] for others.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let unfinished = path.with_extension(UNFINISHED);
    let written = (|| {
        let mut file = private(&unfinished)?;
        file.write_all(bytes)?;
        file.sync_all()
    })();
    finish(written, &unfinished, path)
}

/// The same for a file that several programs write: the last one stands.
pub(super) fn write_shared(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut disk = RealDisk;
    let (unfinished, mut file) = disk.create(folder, None)?;
    let written = for_the_owner(&file)
        .and_then(|()| disk.write(&mut file, bytes))
        .and_then(|()| disk.sync(&file));
    drop(file);
    finish(written, &unfinished, path)
}

/// A new file that nobody but its owner may read: it holds a person's unsaved work.
fn private(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o600);
    }
    let file = options.open(path)?;
    // It may have been there, with another mode.
    for_the_owner(&file)?;
    Ok(file)
}

/// Nobody but its owner may read the file.
#[cfg(unix)]
fn for_the_owner(file: &File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o600))
}

/// Elsewhere the folder of a person's programs is that person's alone.
#[cfg(not(unix))]
fn for_the_owner(_file: &File) -> io::Result<()> {
    Ok(())
}

fn finish(written: io::Result<()>, unfinished: &Path, path: &Path) -> io::Result<()> {
    let done = written.and_then(|()| fs::rename(unfinished, path));
    if done.is_err() {
        // The first error is the one to report.
        let _ = fs::remove_file(unfinished);
        return done;
    }
    RealDisk.sync_folder(path.parent().unwrap_or(Path::new(".")))
}

/// Removes a file; one that is not there is removed already.
pub(super) fn remove(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        done => done,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn nobody_but_its_owner_may_read_what_is_written() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("kept.ron");
        let mode = || path.metadata().unwrap().permissions().mode() & 0o777;
        // Left behind by a program that let others read.
        let unfinished = path.with_extension(UNFINISHED);
        fs::write(&unfinished, "").unwrap();
        fs::set_permissions(&unfinished, fs::Permissions::from_mode(0o644)).unwrap();
        write_whole(&path, b"one").unwrap();
        assert_eq!(mode(), 0o600);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o644)).unwrap();
        write_shared(&path, b"two").unwrap();
        assert_eq!(mode(), 0o600);
    }

    #[test]
    fn a_file_that_cannot_be_finished_leaves_the_old_one() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("kept.ron");
        write_whole(&path, b"one").unwrap();
        // A folder in the way of the unfinished file.
        fs::create_dir(path.with_extension(UNFINISHED)).unwrap();
        assert!(write_whole(&path, b"two").is_err());
        assert_eq!(fs::read(&path).unwrap(), b"one");
        write_shared(&path, b"three").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"three");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
    }
}
