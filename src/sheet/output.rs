//! Files that are written beside a survey: sheets and tables. The old file stays whole until the
//! new one takes its place, and no survey is ever overwritten.

use crate::survey::file::{
    Disk, FIRST_LINE, RealDisk, behind_links, data_folder, in_plain_words, photo_folder,
};
use std::fs::{self, Metadata, OpenOptions};
use std::io::{self, Read, Write};
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
    /// It would take the place of something else that is read.
    #[error(
        "{path:?} is read for this and is never overwritten: write to another name that ends in {ending}"
    )]
    Read {
        /// The path.
        path: PathBuf,
        /// The usual ending.
        ending: &'static str,
    },
    /// It would stand among the files that a survey keeps beside it.
    #[error("{path:?} lies among the files that a survey keeps beside it: write to another folder")]
    Kept {
        /// The path.
        path: PathBuf,
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

/// Writes bytes to `output`; `ending` is what such files usually end in. `made_from` are the files they
/// were made from, none of which is overwritten by whatever name.
///
/// # Errors
/// [`OutputError`]; the old file is then still there. What is there and is no ordinary file is
/// refused, and stays.
pub fn write(
    made_from: &[&Path],
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    match there(made_from, output, ending)? {
        There::File(target, old) => replace(output, &target, old.as_ref(), bytes),
        There::Open(_) | There::Stream => Err(not_a_file(output, ending)),
    }
}

/// The same for a command: what is a pipe or a terminal, such as `/dev/stdout`, is written to. It
/// waits until somebody reads.
///
/// # Errors
/// As [`fn@write`].
pub fn write_or_send(
    made_from: &[&Path],
    output: &Path,
    ending: &'static str,
    bytes: &[u8],
) -> Result<(), OutputError> {
    let failed = |source| OutputError::Io {
        path: output.to_owned(),
        source,
    };
    match there(made_from, output, ending)? {
        There::File(target, old) => replace(output, &target, old.as_ref(), bytes),
        There::Open(number) => send_open(number, output, bytes).map_err(failed),
        There::Stream => send(output, bytes).map_err(failed),
    }
}

/// What an output leads to.
enum There {
    /// A file, links followed, with what is known of the old one.
    File(PathBuf, Option<Metadata>),
    /// What this program has open by a number, as `/dev/stdout` is 1: written to where it stands, and never
    /// replaced, though it may lead to a file.
    Open(u32),
    /// A pipe or a terminal, which is written to and never replaced.
    Stream,
}

fn not_a_file(output: &Path, ending: &'static str) -> OutputError {
    OutputError::NotAFile {
        path: output.to_owned(),
        ending,
    }
}

/// Whoever sent the output into a file goes on where this ends: its own place in the file is kept where the
/// number is one of the usual ones, and elsewhere the end is written to.
fn send_open(number: u32, output: &Path, bytes: &[u8]) -> io::Result<()> {
    match number {
        1 => sent(&mut io::stdout().lock(), bytes),
        2 => sent(&mut io::stderr().lock(), bytes),
        _ => sent(&mut OpenOptions::new().append(true).open(output)?, bytes),
    }
}

fn send(output: &Path, bytes: &[u8]) -> io::Result<()> {
    sent(&mut OpenOptions::new().write(true).open(output)?, bytes)
}

fn sent(stream: &mut impl Write, bytes: &[u8]) -> io::Result<()> {
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
fn there(made_from: &[&Path], output: &Path, ending: &'static str) -> Result<There, OutputError> {
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
    if let Some(number) = open_number(output) {
        return Ok(There::Open(number));
    }
    let target = match fs::canonicalize(output) {
        Ok(target) => target,
        // Open and yet without a name, as standard output into a file that was deleted.
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(There::Stream),
        Err(source) => return Err(failed(source)),
    };
    if is_survey_name(&target) || is_survey(&target) {
        return Err(refused());
    }
    let mut read = made_from.iter();
    if read.any(|one| fs::canonicalize(one).is_ok_and(|one| one == target)) {
        return Err(OutputError::Read {
            path: output.to_owned(),
            ending,
        });
    }
    if is_kept(&target) {
        return Err(OutputError::Kept {
            path: output.to_owned(),
        });
    }
    // A rename would get round its write protection.
    if about.permissions().readonly() {
        return Err(failed(io::ErrorKind::PermissionDenied.into()));
    }
    Ok(There::File(target, Some(about)))
}

/// The number under which the program has open what a path leads to: its links lead through the list of what
/// is open.
fn open_number(output: &Path) -> Option<u32> {
    let mut path = output.to_owned();
    for _ in 0..MOST_LINKS {
        let folder = fs::canonicalize(path.parent()?).ok()?;
        let name = path.file_name()?;
        let listed = folder == Path::new("/dev/fd")
            || (folder.starts_with("/proc") && folder.file_name().is_some_and(|name| name == "fd"));
        if listed {
            return name.to_str()?.parse().ok();
        }
        path = folder.join(fs::read_link(&path).ok()?);
    }
    None
}

/// Links that are followed one after another.
const MOST_LINKS: u32 = 40;

/// Whether a file is a survey by its first line, whatever it is called.
fn is_survey(path: &Path) -> bool {
    let mut begin = [0; FIRST_LINE.len()];
    let read = fs::File::open(path).and_then(|mut file| file.read_exact(&mut begin));
    read.is_ok() && begin == *FIRST_LINE.as_bytes()
}

/// Whether a file lies in the folder of readings or photos of a survey that is there.
fn is_kept(path: &Path) -> bool {
    let Some(folder) = path.parent() else {
        return false;
    };
    let of_survey = folder.with_extension("ron");
    of_survey.is_file()
        && [data_folder(&of_survey), photo_folder(&of_survey)].contains(&folder.to_owned())
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
        let result = write(&[], output, ".pdf", b"%PDF-");
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
        write_or_send(&[], &path("null.pdf"), ".pdf", b"%PDF-").unwrap();
        assert!(fs::symlink_metadata(path("null.pdf")).unwrap().is_symlink());
        assert!(
            fs::metadata("/dev/null")
                .unwrap()
                .file_type()
                .is_char_device()
        );
        for name in ["socket.pdf", "folder.pdf"] {
            assert!(
                write_or_send(&[], &path(name), ".pdf", b"%PDF-").is_err(),
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
        write(&[], &path("link.pdf"), ".pdf", b"%PDF-").unwrap();
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
        write_or_send(&[], &pipe, ".pdf", &b"%PDF-".repeat(100_000)).unwrap();
        assert_eq!(&reader.join().unwrap(), b"%PDF-");
        assert!(!fs::metadata(&pipe).unwrap().is_file());
    }

    #[test]
    fn what_is_read_or_kept_for_a_survey_is_never_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        fs::write(path("van.ron"), format!("{FIRST_LINE}\n")).unwrap();
        fs::copy(path("van.ron"), path("van.txt")).unwrap();
        fs::write(path("in.epw"), "LOCATION").unwrap();
        for kept in ["van.data", "van.photos"] {
            fs::create_dir(path(kept)).unwrap();
            fs::write(path(kept).join("old.csv"), "t,1").unwrap();
        }
        fs::create_dir(path("other.data")).unwrap();
        fs::write(path("other.data").join("old.csv"), "t,1").unwrap();
        let (survey, weather) = (path("van.ron"), path("in.epw"));
        let tried = |output: &Path| {
            let made_from = [survey.as_path(), weather.as_path()];
            write_or_send(&made_from, output, ".csv", b"new")
        };
        for (name, words) in [
            ("van.txt", "is a survey file"),
            ("in.epw", "is read for this"),
            ("van.data/old.csv", "keeps beside it"),
            ("van.photos/old.csv", "keeps beside it"),
        ] {
            let before = fs::read(path(name)).unwrap();
            let error = tried(&path(name)).expect_err(name).to_string();
            assert!(error.contains(words), "{name}: {error}");
            assert_eq!(fs::read(path(name)).unwrap(), before, "{name}");
        }
        tried(&path("other.data/old.csv")).unwrap();
        assert_eq!(fs::read(path("other.data/old.csv")).unwrap(), b"new");
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn what_is_open_is_written_to_where_it_stands() {
        use std::os::fd::AsRawFd;
        let folder = tempfile::tempdir().unwrap();
        let log = folder.path().join("log.txt");
        fs::write(&log, "first\n").unwrap();
        let open = OpenOptions::new().append(true).open(&log).unwrap();
        let listed = PathBuf::from(format!("/dev/fd/{}", open.as_raw_fd()));
        let link = folder.path().join("link.csv");
        std::os::unix::fs::symlink(&listed, &link).unwrap();
        for output in [&listed, &link] {
            assert_eq!(open_number(output), u32::try_from(open.as_raw_fd()).ok());
            write_or_send(&[], output, ".csv", b"more\n").unwrap();
        }
        assert_eq!(fs::read(&log).unwrap(), b"first\nmore\nmore\n");
        assert_eq!(open_number(&log), None);
        assert_eq!(open_number(Path::new("/dev/stdout")), Some(1));
        assert!(refused(&listed).contains("not an ordinary file"));
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
