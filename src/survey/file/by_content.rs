//! Files under names by their content: kept once, never changed, whole or not at all.

use super::disk::{Disk, RealDisk};
use super::photos::is_plain_file_name;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Letters of the content's hash in a name: 64 bits.
pub(super) const HASH_LETTERS: usize = 16;

/// Endings that files of readings keep in the data folder; any other becomes `txt`.
pub(super) const DATA_ENDINGS: [&str; 6] = ["csv", "txt", "tsv", "xlsx", "epw", "log"];

/// Whether a name ends as those of files of readings do.
pub(super) fn has_data_ending(name: &str) -> bool {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending);
    ending.is_some_and(|ending| DATA_ENDINGS.contains(&ending))
}

/// Whether a file may be the one that its name was made of. A name that is none by content fits any.
pub(super) fn is_of(name: &str, bytes: &[u8]) -> bool {
    let stem = name.split(['.', '-']).next().unwrap_or_default();
    let by_content = stem.len() >= HASH_LETTERS && stem.chars().all(|one| one.is_ascii_hexdigit());
    !by_content || blake3::hash(bytes).to_hex().starts_with(stem)
}

/// Names for the same content, should files of other content have the first ones.
pub(super) fn names(bytes: &[u8], ending: &str) -> impl Iterator<Item = String> {
    let hash = blake3::hash(bytes).to_hex();
    let short: String = hash.chars().take(HASH_LETTERS).collect();
    let others = (2..100).map({
        let ending = ending.to_owned();
        move |number| format!("{hash}-{number}.{ending}")
    });
    std::iter::once(format!("{short}.{ending}")).chain(others)
}

/// Writes bytes into a folder under a name by their content, and gives the name.
pub(super) fn write(folder: &Path, bytes: &[u8], ending: &str) -> io::Result<String> {
    write_through(&mut RealDisk, folder, bytes, ending)
}

/// The same on a disk that may fail.
pub(super) fn write_through(
    disk: &mut impl Disk,
    folder: &Path,
    bytes: &[u8],
    ending: &str,
) -> io::Result<String> {
    fs::create_dir_all(folder)?;
    for name in names(bytes, ending) {
        let path = folder.join(&name);
        match fs::metadata(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                write_whole_through(disk, folder, &path, bytes)?;
                return Ok(name);
            }
            Err(error) => return Err(error),
            Ok(there) if there.len() == bytes.len() as u64 && fs::read(&path)? == bytes => {
                // Written once more, it is held anew from today; where that cannot be done it is
                // held a while less.
                let _ = write_whole_through(disk, folder, &path, bytes);
                return Ok(name);
            }
            Ok(_) => {}
        }
    }
    Err(io::Error::from(io::ErrorKind::AlreadyExists))
}

/// The file is there whole or not at all.
pub(super) fn write_whole_through(
    disk: &mut impl Disk,
    folder: &Path,
    path: &Path,
    bytes: &[u8],
) -> io::Result<()> {
    let (temporary, mut file) = disk.create(folder, None)?;
    let written = disk.write(&mut file, bytes).and_then(|()| disk.sync(&file));
    drop(file);
    let done = written.and_then(|()| disk.rename(&temporary, path));
    if done.is_err() {
        // The first error is the one to report.
        let _ = disk.remove(&temporary);
    }
    done.and_then(|()| disk.sync_folder(folder))
}

/// Has `one` copy each of these names that is not in `to` yet, from the first folder that has it.
/// Gives the names that did not come through; one that is nowhere is none of them, it was missing
/// before.
pub(super) fn carry<'a>(
    names: impl IntoIterator<Item = &'a str>,
    from: &[PathBuf],
    to: &Path,
    mut one: impl FnMut(&str, &Path) -> io::Result<()>,
) -> Vec<(String, io::Error)> {
    let mut failed = Vec::new();
    for name in names {
        if !is_plain_file_name(name) || to.join(name).exists() {
            continue;
        }
        let source = from.iter().find(|folder| folder.join(name).is_file());
        if let Some(source) = source
            && let Err(error) = fs::create_dir_all(to).and_then(|()| one(name, source))
        {
            failed.push((name.to_owned(), error));
        }
    }
    failed
}
