//! Files that are written beside a survey: sheets and tables. The old file stays whole until the
//! new one takes its place, and no survey is ever overwritten.

use super::guarded;
use crate::survey::file::{Disk, RealDisk, behind_links, in_plain_words};
use std::fs::{self, Metadata, OpenOptions};
use std::io::{self, Write};
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
    /// It would take the place of something that it was made from.
    #[error(
        "{path:?} is what this is made from, or kept with the survey, and is never overwritten: write to another name that ends in {ending}"
    )]
    Input {
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
        "{path:?} was not written ({}): check the name, free space and permission, or write elsewhere",
        in_plain_words(.source)
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
/// [`OutputError`]; the old file is then still there. What is there and is no ordinary file is
/// refused, and stays.
pub fn write(
    survey_file: Option<&Path>,
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    match there(survey_file, output, ending)? {
        There::File(target, old) => replace(output, &target, old.as_ref(), bytes),
        There::Stream => Err(not_a_file(output, ending)),
    }
}

/// The same for a command: what is a pipe or a terminal, such as `/dev/tty`, is written to. It
/// waits until somebody reads.
///
/// # Errors
/// As [`fn@write`].
pub fn write_or_send(
    survey_file: Option<&Path>,
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    match there(survey_file, output, ending)? {
        There::File(target, old) => replace(output, &target, old.as_ref(), bytes),
        There::Stream => send(output, bytes).map_err(|source| OutputError::Io {
            path: output.to_owned(),
            source,
        }),
    }
}

/// The same for something that is made from more than the survey: none of those files is replaced.
///
/// # Errors
/// As [`fn@write`].
pub fn write_beside(
    (survey_file, inputs): (&Path, &[&Path]),
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    let there = fs::canonicalize(output);
    if there.is_ok_and(|target| guarded::is_one_of(&target, inputs)) {
        let path = output.to_owned();
        return Err(OutputError::Input { path, ending });
    }
    write_or_send(Some(survey_file), output, ending, bytes)
}

/// What an output leads to.
enum There {
    /// A file, links followed, with what is known of the old one.
    File(PathBuf, Option<Metadata>),
    /// A pipe or a terminal, which is written to and never replaced.
    Stream,
}

fn not_a_file(output: &Path, ending: &'static str) -> OutputError {
    OutputError::NotAFile {
        path: output.to_owned(),
        ending,
    }
}

fn send(output: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut stream = OpenOptions::new().write(true).open(output)?;
    match stream.write_all(bytes).and_then(|()| stream.flush()) {
        // Whoever reads has seen enough.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        written => written,
    }
}

/// Puts a file with these bytes in the place of the old one, at once.
fn replace(
    output: &Path,
    target: &Path,
    old: Option<&Metadata>,
    bytes: &[u8],
) -> Result<(), OutputError> {
    let failed = |source| OutputError::Io {
        path: output.to_owned(),
        source,
    };
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
    let (temporary, mut file) = disk.create(folder, old).map_err(failed)?;
    let written = disk
        .write(&mut file, bytes)
        .and_then(|()| disk.sync(&file))
        .and_then(|()| disk.rename(&temporary, target));
    if let Err(source) = written {
        // The first error is the one to report.
        let _ = disk.remove(&temporary);
        return Err(failed(source));
    }
    disk.sync_folder(folder).map_err(failed)
}

/// What is meant: links are followed, also where the file they lead to is not there yet. Never a
/// survey.
fn there(
    survey_file: Option<&Path>,
    output: &Path,
    ending: &'static str,
) -> Result<There, OutputError> {
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
    let about = match fs::metadata(output) {
        Ok(about) => about,
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let target = behind_links(output).map_err(failed)?;
            return if is_survey_name(&target) {
                Err(refused())
            } else {
                Ok(There::File(target, None))
            };
        }
        Err(source) => return Err(failed(source)),
    };
    if !about.is_file() {
        return if is_stream(&about) {
            Ok(There::Stream)
        } else {
            Err(not_a_file(output, ending))
        };
    }
    let target = match fs::canonicalize(output) {
        Ok(target) => target,
        // Open and yet without a name, as standard output into a file that was deleted.
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(There::Stream),
        Err(source) => return Err(failed(source)),
    };
    let is_source = survey_file
        .and_then(|survey| fs::canonicalize(survey).ok())
        .is_some_and(|survey| survey == target);
    if is_source || is_survey_name(&target) || guarded::is_a_survey(&target) {
        return Err(refused());
    }
    if guarded::is_handed_over(output) {
        return Err(not_a_file(output, ending));
    }
    if survey_file.is_some_and(|survey| guarded::is_kept_beside(&target, survey)) {
        let path = output.to_owned();
        return Err(OutputError::Input { path, ending });
    }
    // A rename would get round its write protection.
    if about.permissions().readonly() {
        return Err(failed(io::ErrorKind::PermissionDenied.into()));
    }
    Ok(There::File(target, Some(about)))
}

/// Whether it is a pipe, a terminal or the like.
#[cfg(unix)]
fn is_stream(about: &Metadata) -> bool {
    use std::os::unix::fs::FileTypeExt;
    about.file_type().is_fifo() || about.file_type().is_char_device()
}

/// Elsewhere nothing of the kind has a name.
#[cfg(not(unix))]
fn is_stream(_: &Metadata) -> bool {
    false
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

    fn refused(output: &Path) -> String {
        let result = write(None, output, ".pdf", b"%PDF-");
        result.expect_err("it must not be written").to_string()
    }

    #[cfg(unix)]
    #[test]
    fn what_is_no_ordinary_file_stays_what_it_is() {
        use std::os::unix::fs::{FileTypeExt, symlink};
        use std::os::unix::net::UnixListener;
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        let _listener = UnixListener::bind(path("socket.pdf")).unwrap();
        symlink("/dev/null", path("null.pdf")).unwrap();
        fs::create_dir(path("folder.pdf")).unwrap();
        for name in ["socket.pdf", "null.pdf", "folder.pdf"] {
            assert!(
                refused(&path(name)).contains("not an ordinary file"),
                "{name}"
            );
        }
        // A command writes to a device, and the link to it stays.
        write_or_send(None, &path("null.pdf"), ".pdf", b"%PDF-").unwrap();
        assert!(fs::symlink_metadata(path("null.pdf")).unwrap().is_symlink());
        assert!(
            fs::metadata("/dev/null")
                .unwrap()
                .file_type()
                .is_char_device()
        );
        for name in ["socket.pdf", "folder.pdf"] {
            assert!(
                write_or_send(None, &path(name), ".pdf", b"%PDF-").is_err(),
                "{name}"
            );
        }
        assert!(
            fs::metadata(path("socket.pdf"))
                .unwrap()
                .file_type()
                .is_socket()
        );
    }

    #[cfg(unix)]
    #[test]
    fn a_link_that_leads_nowhere_yet_is_followed_and_never_to_a_survey() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        symlink("later.pdf", path("link.pdf")).unwrap();
        write(None, &path("link.pdf"), ".pdf", b"%PDF-").unwrap();
        assert_eq!(fs::read(path("later.pdf")).unwrap(), b"%PDF-");
        assert!(fs::symlink_metadata(path("link.pdf")).unwrap().is_symlink());
        symlink("later.ron", path("trap.pdf")).unwrap();
        assert!(refused(&path("trap.pdf")).contains("never overwritten"));
        assert!(!path("later.ron").exists());
        symlink("round.pdf", path("round.pdf")).unwrap();
        assert!(refused(&path("round.pdf")).contains("was not written"));
    }

    #[cfg(unix)]
    #[test]
    fn a_pipe_is_written_to_and_a_reader_who_leaves_is_no_fault() {
        use std::io::Read;
        let folder = tempfile::tempdir().unwrap();
        let pipe = folder.path().join("pipe.pdf");
        let made = std::process::Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .unwrap();
        assert!(made.success());
        assert!(refused(&pipe).contains("not an ordinary file"));
        let reading = pipe.clone();
        let reader = std::thread::spawn(move || {
            let mut begin = [0; 5];
            fs::File::open(reading)
                .unwrap()
                .read_exact(&mut begin)
                .unwrap();
            begin
        });
        write_or_send(None, &pipe, ".pdf", &b"%PDF-".repeat(100_000)).unwrap();
        assert_eq!(&reader.join().unwrap(), b"%PDF-");
        assert!(!fs::metadata(&pipe).unwrap().is_file());
    }

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
