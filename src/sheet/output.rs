//! Files that are written beside a survey: sheets and tables. The old file stays whole until the
//! new one takes its place, and no survey is ever overwritten.

use crate::survey::file::{Disk, RealDisk};
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// Why a file was not written.
#[derive(Debug, thiserror::Error)]
pub enum OutputError {
    /// It would take the place of a survey.
    #[error(
        "{path:?} is a survey file or its backup and is never overwritten: write to a name that ends in {ending}"
    )]
    SurveyFile {
        /// The path.
        path: PathBuf,
        /// The usual ending.
        ending: &'static str,
    },
    /// Something that is no file is there.
    #[error("{path:?} is not an ordinary file: write to a file name that ends in {ending}")]
    NotAFile {
        /// The path.
        path: PathBuf,
        /// The usual ending.
        ending: &'static str,
    },
    /// The folder is not there.
    #[error("there is no folder {folder:?}: make it first, or choose another")]
    NoFolder {
        /// The folder.
        folder: PathBuf,
    },
    /// The disk said no.
    #[error(
        "{path:?} was not written ({source}): check free space and permission, or write elsewhere"
    )]
    Io {
        /// The path.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

/// Writes bytes to `output`; `ending` is what such files usually end in. `survey_file` is the
/// survey they were made from, which is not overwritten by whatever name.
///
/// # Errors
/// [`OutputError`]; the old file is then still there.
pub fn write(
    survey_file: Option<&Path>,
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    let failed = |source| OutputError::Io {
        path: output.to_owned(),
        source,
    };
    let (target, old) = target(survey_file, output, ending)?;
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(OutputError::NoFolder {
            folder: folder.to_owned(),
        });
    }
    let mut disk = RealDisk;
    let (temporary, mut file) = disk.create(folder, old.as_ref()).map_err(failed)?;
    let written = disk
        .write(&mut file, bytes)
        .and_then(|()| disk.sync(&file))
        .and_then(|()| disk.rename(&temporary, &target));
    if let Err(source) = written {
        // The first error is the one to report.
        let _ = disk.remove(&temporary);
        return Err(failed(source));
    }
    disk.sync_folder(folder).map_err(failed)
}

/// The file that is meant, links followed, and what is there now. Never a survey.
fn target(
    survey_file: Option<&Path>,
    output: &Path,
    ending: &'static str,
) -> Result<(PathBuf, Option<Metadata>), OutputError> {
    let refused = || OutputError::SurveyFile {
        path: output.to_owned(),
        ending,
    };
    let failed = |source| OutputError::Io {
        path: output.to_owned(),
        source,
    };
    if is_survey_name(output) {
        return Err(refused());
    }
    let target = match fs::canonicalize(output) {
        Ok(target) => target,
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            return Ok((output.to_owned(), None));
        }
        Err(source) => return Err(failed(source)),
    };
    let is_source = survey_file
        .and_then(|survey| fs::canonicalize(survey).ok())
        .is_some_and(|survey| survey == target);
    if is_source || is_survey_name(&target) {
        return Err(refused());
    }
    let old = fs::metadata(&target).map_err(failed)?;
    if !old.is_file() {
        return Err(OutputError::NotAFile {
            path: output.to_owned(),
            ending,
        });
    }
    Ok((target, Some(old)))
}

/// `NAME.ron` and its backup `NAME.ron.bak`, in whatever case.
fn is_survey_name(path: &Path) -> bool {
    let name = path
        .file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .to_lowercase();
    name.ends_with(".ron") || name.ends_with(".ron.bak")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn survey_files_are_known_by_their_names() {
        for (name, is) in [
            ("a.ron", true),
            ("b/A.RON", true),
            ("a.ron.bak", true),
            ("a.csv", false),
            ("ron", false),
        ] {
            assert_eq!(is_survey_name(Path::new(name)), is, "{name}");
        }
    }
}
