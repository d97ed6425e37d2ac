//! Saving a survey file, so that at every moment the old or the new version is on the disk whole.

use super::disk::{Disk, RealDisk};
use super::error::{SaveError, SaveStep};
use super::limits::LARGEST_FILE_BYTES;
use super::stamp::FileStamp;
use super::text::{parse, print};
use crate::survey::Survey;
use std::collections::BTreeSet;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

/// What may be overwritten.
#[derive(Clone, Copy, Debug)]
pub enum Overwrite<'a> {
    /// Nothing: the file must be a new one.
    Never,
    /// The file that was loaded or saved last, if nobody else has written it since. A file that
    /// is gone is written anew.
    IfUnchanged(&'a FileStamp),
    /// Whatever is there. Only after the user has been asked.
    Anyway,
}

/// Which files have had their previous version kept as `.bak` in this run of the program. One of
/// it lives as long as the program.
#[derive(Clone, Debug, Default)]
pub struct Backups {
    kept: BTreeSet<PathBuf>,
}

/// Where the previous version of a file is kept: `NAME.ron.bak`.
#[must_use]
pub fn backup_path(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".bak");
    PathBuf::from(name)
}

/// Saves a survey, and gives the stamp of the file as it now is.
///
/// The survey goes to a temporary file in the same folder, which is brought onto the disk and
/// then put in the place of the old one. Through a symbolic link, the file it leads to is
/// replaced. The first save of each file in a run keeps the version before as `NAME.ron.bak`.
///
/// # Errors
/// [`SaveError`]. But for [`SaveError::NotConfirmed`] the file on the disk is the old one, whole.
pub fn save(
    path: &Path,
    survey: &Survey,
    overwrite: Overwrite<'_>,
    backups: &mut Backups,
) -> Result<FileStamp, SaveError> {
    save_through(&mut RealDisk, path, survey, overwrite, backups)
}

/// [`save`], with the steps done by another disk.
///
/// # Errors
/// As [`save`].
pub fn save_through(
    disk: &mut impl Disk,
    path: &Path,
    survey: &Survey,
    overwrite: Overwrite<'_>,
    backups: &mut Backups,
) -> Result<FileStamp, SaveError> {
    let text = text_that_loads(survey)?;
    let target = behind_links(path).map_err(|source| failed(path, SaveStep::Look, source))?;
    let folder = folder_of(&target)?;
    let old = what_is_there(&target)?;
    may_overwrite(&target, old.as_ref(), overwrite)?;
    // One file may be reached by several paths.
    let known_as = target.canonicalize().unwrap_or_else(|_| target.clone());
    if old.is_some() && !backups.kept.contains(&known_as) {
        let kept = Replacement {
            folder: &folder,
            like: old.as_ref(),
            to: &backup_path(&target),
        };
        kept.make(
            disk,
            |disk, file| disk.copy(&target, file),
            || Ok(()),
            |_, source| failed(&target, SaveStep::KeepPrevious, source),
        )?;
        backups.kept.insert(known_as);
    }
    let new = Replacement {
        folder: &folder,
        like: old.as_ref(),
        to: &target,
    };
    new.make(
        disk,
        |disk, file| disk.write(file, text.as_bytes()),
        // Writing took its time: look once more before the old file goes.
        || may_overwrite(&target, what_is_there(&target)?.as_ref(), overwrite),
        |step, source| failed(&target, step, source),
    )?;
    let stamp = FileStamp::of(text.as_bytes());
    match disk.sync_folder(&folder) {
        Ok(()) => Ok(stamp),
        Err(source) => Err(SaveError::NotConfirmed {
            path: target,
            stamp,
            source,
        }),
    }
}

/// The text of the file, after making sure that it gives this very survey back.
fn text_that_loads(survey: &Survey) -> Result<String, SaveError> {
    let text = print(survey);
    if text.len() as u64 > LARGEST_FILE_BYTES {
        return Err(SaveError::TooLarge);
    }
    match parse(&text) {
        Ok(back) if back == *survey => Ok(text),
        Ok(_) => Err(SaveError::WouldNotMatch),
        Err(source) => Err(SaveError::WouldNotLoad { source }),
    }
}

fn failed(path: &Path, step: SaveStep, source: io::Error) -> SaveError {
    SaveError::Failed {
        path: path.to_owned(),
        step,
        source,
    }
}

/// As many links as are followed one after the other.
const MOST_LINKS: usize = 40;

/// The file that a path leads to when it is a symbolic link, also when that file is not there yet.
///
/// # Errors
/// What the system says, or that the links go round in a circle.
pub(crate) fn behind_links(path: &Path) -> io::Result<PathBuf> {
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::symlink_metadata(&path) {
            Ok(there) if there.is_symlink() => {
                let leads_to = fs::read_link(&path)?;
                path = path.parent().unwrap_or(Path::new("")).join(leads_to);
            }
            Ok(_) => return Ok(path),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(path),
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other(
        "too many symbolic links one after the other",
    ))
}

fn folder_of(target: &Path) -> Result<PathBuf, SaveError> {
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    if folder.is_dir() {
        Ok(folder)
    } else {
        Err(SaveError::NoFolder { folder })
    }
}

/// The file that will be replaced, if there is one. It must be one that may be written: a rename
/// would get round its write protection.
fn what_is_there(target: &Path) -> Result<Option<Metadata>, SaveError> {
    let path = target.to_owned();
    let there = match fs::metadata(target) {
        Ok(there) => there,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(source) => return Err(failed(target, SaveStep::Look, source)),
    };
    if there.is_dir() {
        return Err(SaveError::IsFolder { path });
    }
    if !there.is_file() {
        return Err(SaveError::NotAFile { path });
    }
    if there.permissions().readonly() {
        return Err(SaveError::ReadOnly { path });
    }
    match OpenOptions::new().write(true).open(target) {
        Ok(_) => Ok(Some(there)),
        Err(error) if error.kind() == io::ErrorKind::PermissionDenied => {
            Err(SaveError::ReadOnly { path })
        }
        Err(source) => Err(failed(target, SaveStep::Look, source)),
    }
}

/// Why a file that was just opened cannot be saved in its place, as far as its protection says so
/// beforehand; nothing is written to find out.
#[must_use]
pub fn protection(path: &Path) -> Option<SaveError> {
    let target = behind_links(path).ok()?;
    if let Err(refused @ SaveError::ReadOnly { .. }) = what_is_there(&target) {
        return Some(refused);
    }
    let folder = folder_of(&target).ok()?;
    let protected = fs::metadata(&folder).is_ok_and(|there| there.permissions().readonly());
    protected.then(|| SaveError::ReadOnlyFolder {
        path: target.clone(),
    })
}

fn may_overwrite(
    target: &Path,
    old: Option<&Metadata>,
    overwrite: Overwrite<'_>,
) -> Result<(), SaveError> {
    let path = target.to_owned();
    match (old, overwrite) {
        (None, _) | (_, Overwrite::Anyway) => Ok(()),
        (Some(_), Overwrite::Never) => Err(SaveError::Exists { path }),
        (Some(old), Overwrite::IfUnchanged(_)) if old.len() > LARGEST_FILE_BYTES => {
            Err(SaveError::ChangedOnDisk { path })
        }
        (Some(_), Overwrite::IfUnchanged(stamp)) => match fs::read(target) {
            Ok(bytes) if FileStamp::of(&bytes) == *stamp => Ok(()),
            Ok(_) => Err(SaveError::ChangedOnDisk { path }),
            Err(source) => Err(failed(target, SaveStep::Look, source)),
        },
    }
}

/// A file that is written beside its place and then put there.
struct Replacement<'a> {
    folder: &'a Path,
    like: Option<&'a Metadata>,
    to: &'a Path,
}

impl Replacement<'_> {
    fn make<D: Disk>(
        &self,
        disk: &mut D,
        fill: impl FnOnce(&mut D, &mut File) -> io::Result<()>,
        last_look: impl FnOnce() -> Result<(), SaveError>,
        failure: impl Fn(SaveStep, io::Error) -> SaveError,
    ) -> Result<(), SaveError> {
        let (temporary, mut file) = disk
            .create(self.folder, self.like)
            .map_err(|source| failure(SaveStep::Create, source))?;
        let filled = fill(disk, &mut file)
            .map_err(|source| failure(SaveStep::Write, source))
            .and_then(|()| {
                disk.sync(&file)
                    .map_err(|source| failure(SaveStep::Sync, source))
            });
        // Some systems do not rename an open file.
        drop(file);
        let done = filled.and_then(|()| last_look()).and_then(|()| {
            disk.rename(&temporary, self.to)
                .map_err(|source| failure(SaveStep::Rename, source))
        });
        if done.is_err() {
            // The error that is reported is the first one; a temporary file that cannot be
            // removed does no harm.
            let _ = disk.remove(&temporary);
        }
        done
    }
}
