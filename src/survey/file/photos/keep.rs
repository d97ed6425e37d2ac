//! Keeping photos: under names by content, in the holding folder until the survey is saved, then
//! beside the survey.
//!
//! A photo goes into the program's *holding folder* when it is attached. Saving copies what the
//! survey names into `NAME.photos`, and moves what this run put there and no gap names any more
//! back into the holding folder, where undo still finds it. Nothing that others wrote is ever
//! moved, changed or overwritten.

use super::picture::{LARGEST_PHOTO_BYTES, Picture, PictureError, PictureKind};
use super::{is_plain_file_name, print_copy_path};
use crate::survey::file::by_content::{self, HASH_LETTERS, has_data_ending, write_whole_through};
use crate::survey::file::disk::{Disk, RealDisk};
use crate::survey::file::trouble::in_plain_words;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Longest side of a print copy, in pixels.
pub const PRINT_COPY_PIXELS: u32 = 1200;

/// How many days a photo stays in the holding folder after it was last attached.
pub const HELD_DAYS: u64 = 90;

/// A photo that was taken in.
#[derive(Clone, Debug)]
pub struct Kept {
    /// Its name by content.
    pub name: String,
    /// It decoded.
    pub picture: Picture,
}

/// Why a photo was not taken in.
#[derive(Debug, thiserror::Error)]
pub enum KeepError {
    /// The picture is not one that can be taken.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// It could not be written.
    #[error("it could not be written to {}: {}", .folder.display(), in_plain_words(.source))]
    Write {
        /// The folder.
        folder: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

/// Reads a file as a photo's bytes, never more than the limit.
///
/// # Errors
/// [`PictureError`], before a byte is read where it is too large or no file.
pub fn read_photo_file(path: &Path) -> Result<Vec<u8>, PictureError> {
    let unreadable = |error: io::Error| PictureError::Unreadable(in_plain_words(&error));
    let there = fs::metadata(path).map_err(unreadable)?;
    // Opening a pipe would wait for ever.
    if !there.is_file() {
        return Err(PictureError::Unreadable("it is not a file".to_owned()));
    }
    if there.len() > LARGEST_PHOTO_BYTES {
        return Err(PictureError::TooLarge);
    }
    let mut bytes = Vec::new();
    if there.len() == 0 {
        // Files of the system itself call themselves empty, and may make a reader wait for ever.
        return Ok(bytes);
    }
    File::open(path)
        .and_then(|file| file.take(LARGEST_PHOTO_BYTES + 1).read_to_end(&mut bytes))
        .map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_PHOTO_BYTES {
        return Err(PictureError::TooLarge);
    }
    Ok(bytes)
}

/// Takes a photo into a folder under a name by its content, with its print copy. The same content
/// is kept once; the bytes stay as they are.
///
/// # Errors
/// [`KeepError`]; the folder then holds what it held before.
pub fn keep_photo(folder: &Path, bytes: &[u8]) -> Result<Kept, KeepError> {
    keep_photo_through(&mut RealDisk, folder, bytes)
}

/// The same onto a disk that may fail.
///
/// # Errors
/// As [`keep_photo`].
pub fn keep_photo_through(
    disk: &mut impl Disk,
    folder: &Path,
    bytes: &[u8],
) -> Result<Kept, KeepError> {
    let picture = Picture::read(bytes)?;
    let ending = picture.kind().ending();
    let name = by_content::write_through(disk, folder, bytes, ending).map_err(|source| {
        let folder = folder.to_owned();
        KeepError::Write { folder, source }
    })?;
    // Without a print copy the sheet makes one itself.
    let _ = write_print_copy(disk, folder, &name, &picture);
    Ok(Kept { name, picture })
}

fn write_print_copy(
    disk: &mut impl Disk,
    folder: &Path,
    name: &str,
    picture: &Picture,
) -> Result<PathBuf, KeepError> {
    let path = print_copy_path(folder, name);
    let bytes = picture.jpeg(PRINT_COPY_PIXELS)?;
    let inside = path.parent().unwrap_or(folder);
    fs::create_dir_all(inside)
        .and_then(|()| write_whole_through(disk, inside, &path, &bytes))
        .map_err(|source| KeepError::Write {
            folder: inside.to_owned(),
            source,
        })?;
    Ok(path)
}

/// The print copy of a photo, if it is there and no older than the photo.
#[must_use]
pub fn ready_print_copy(folder: &Path, name: &str) -> Option<PathBuf> {
    if !is_plain_file_name(name) {
        return None;
    }
    let copy = print_copy_path(folder, name);
    let made = fs::metadata(&copy).ok().filter(fs::Metadata::is_file)?;
    let photo = fs::metadata(folder.join(name)).ok()?;
    (made.modified().ok()? >= photo.modified().ok()?).then_some(copy)
}

/// The print copy of a photo, made where there is none or only an old one.
///
/// # Errors
/// [`KeepError`] says why the photo cannot be printed.
pub fn print_copy(folder: &Path, name: &str) -> Result<PathBuf, KeepError> {
    if let Some(ready) = ready_print_copy(folder, name) {
        return Ok(ready);
    }
    if !is_plain_file_name(name) {
        return Err(PictureError::Unreadable("its name leads elsewhere".to_owned()).into());
    }
    let picture = Picture::read(&read_photo_file(&folder.join(name))?)?;
    write_print_copy(&mut RealDisk, folder, name, &picture)
}

/// Copies the photos of these names into a folder, with their print copies, from the first folder
/// that has them. What is there already stays. Gives the names that did not come through, with
/// what the system says; a photo that is nowhere is none of them, it was missing before.
#[must_use]
pub fn carry_photos<'a>(
    names: impl IntoIterator<Item = &'a str>,
    from: &[PathBuf],
    to: &Path,
) -> Vec<(String, io::Error)> {
    carry_photos_through(&mut RealDisk, names, from, to)
}

/// The same onto a disk that may fail.
#[must_use]
pub fn carry_photos_through<'a>(
    disk: &mut impl Disk,
    names: impl IntoIterator<Item = &'a str>,
    from: &[PathBuf],
    to: &Path,
) -> Vec<(String, io::Error)> {
    by_content::carry(names, from, to, |name, source| {
        carry(disk, name, source, to)
    })
}

fn carry(disk: &mut impl Disk, name: &str, from: &Path, to: &Path) -> io::Result<()> {
    let bytes = fs::read(from.join(name))?;
    write_whole_through(disk, to, &to.join(name), &bytes)?;
    if let Some(copy) = ready_print_copy(from, name) {
        let path = print_copy_path(to, name);
        let inside = path.parent().unwrap_or(to);
        // A print copy that does not come along is made again.
        let _ = fs::create_dir_all(inside)
            .and_then(|()| fs::read(copy))
            .and_then(|bytes| write_whole_through(disk, inside, &path, &bytes));
    }
    Ok(())
}

/// Moves photos that no gap names any more from the photo folder to the holding folder. Only
/// files whose name is that of their content are moved: the program wrote them.
pub fn set_aside<'a>(names: impl IntoIterator<Item = &'a str>, folder: &Path, holding: &Path) {
    for name in names {
        if !is_plain_file_name(name) {
            continue;
        }
        let path = folder.join(name);
        let Ok(bytes) = read_photo_file(&path) else {
            continue;
        };
        let Some(kind) = kind_by_ending(name) else {
            continue;
        };
        if !by_content::names(&bytes, kind.ending()).any(|own| own == name) {
            continue;
        }
        let there = fs::create_dir_all(holding)
            .and_then(|()| by_content::write(holding, &bytes, kind.ending()))
            .is_ok();
        if there {
            // What cannot be removed stays where it was: that does no harm.
            let _ = fs::remove_file(&path);
            let _ = fs::remove_file(print_copy_path(folder, name));
        }
    }
}

fn kind_by_ending(name: &str) -> Option<PictureKind> {
    [PictureKind::Jpeg, PictureKind::Png, PictureKind::WebP]
        .into_iter()
        .find(|kind| name.ends_with(&format!(".{}", kind.ending())))
}

/// Removes photos and loggers' files from the holding folder that are old: last written longer than [`HELD_DAYS`] ago.
/// The folder is the program's own; files whose name is not one by content stay all the same.
pub fn clear_holding(holding: &Path, is_old: impl Fn(&fs::Metadata) -> bool) {
    let Ok(entries) = fs::read_dir(holding) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let Some(name) = name.to_str() else { continue };
        let letters = name.split('.').next().unwrap_or_default();
        let by_content = letters.len() >= HASH_LETTERS
            && letters
                .chars()
                .all(|letter| letter.is_ascii_hexdigit() || letter == '-');
        let old = entry.metadata().is_ok_and(|there| is_old(&there));
        if by_content && old && (kind_by_ending(name).is_some() || has_data_ending(name)) {
            // What cannot be removed now is tried again at the next start.
            let _ = fs::remove_file(entry.path());
            let _ = fs::remove_file(print_copy_path(holding, name));
        }
    }
}
