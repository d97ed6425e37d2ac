//! Loading a survey file.

use super::error::LoadError;
use super::limits::LARGEST_FILE_BYTES;
use super::stamp::FileStamp;
use super::text::read_bytes;
use crate::survey::Survey;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// A survey as it was on the disk.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The survey.
    pub survey: Survey,
    /// What the file held, for [`super::save()`].
    pub stamp: FileStamp,
    /// The format it is in; [`super::save()`] writes the newest.
    pub format: u32,
}

/// Loads a survey file.
///
/// # Errors
/// [`LoadError`], each case with a sentence of its own. Nothing on the disk is changed.
pub fn load(path: &Path) -> Result<Loaded, LoadError> {
    let bytes = read(path)?;
    let (format, survey) = read_bytes(&bytes).map_err(|source| LoadError::Content {
        path: path.to_owned(),
        source,
    })?;
    Ok(Loaded {
        survey,
        stamp: FileStamp::of(&bytes),
        format,
    })
}

/// The bytes of a file, if it is a file and not too large.
fn read(path: &Path) -> Result<Vec<u8>, LoadError> {
    read_file(path, LARGEST_FILE_BYTES)
}

/// The bytes of a file that holds at most so many, if it is a file: what would make the program
/// wait, or never end, is not read.
///
/// # Errors
/// [`LoadError`]; never [`LoadError::Content`].
pub fn read_file(path: &Path, most: u64) -> Result<Vec<u8>, LoadError> {
    let refused = |source: io::Error| refusal(path, source);
    // Asked before opening: to open a pipe would wait for ever.
    let there = path.metadata().map_err(refused)?;
    if there.is_dir() {
        return Err(LoadError::IsFolder {
            path: path.to_owned(),
        });
    }
    if !there.is_file() {
        return Err(LoadError::NotAFile {
            path: path.to_owned(),
        });
    }
    let file = File::open(path).map_err(refused)?;
    let too_large = || LoadError::TooLarge {
        path: path.to_owned(),
    };
    let length = file.metadata().map_err(refused)?.len();
    if length == 0 {
        // Files of the system itself, which call themselves empty, may make a reader wait for ever.
        return Ok(Vec::new());
    }
    if length > most {
        return Err(too_large());
    }
    // The file may grow while it is read, hence a limit there too.
    at_most(most, file).map_err(refused)?.ok_or_else(too_large)
}

/// All that comes from the reader, or `None` if it is more than so many bytes.
fn at_most(most: u64, reader: impl Read) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    reader.take(most + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= most).then_some(bytes))
}

fn refusal(path: &Path, source: io::Error) -> LoadError {
    let path = path.to_owned();
    match source.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => LoadError::Missing { path },
        io::ErrorKind::PermissionDenied => LoadError::NoPermission { path },
        io::ErrorKind::IsADirectory => LoadError::IsFolder { path },
        _ => LoadError::Unreadable { path, source },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(target_os = "linux")]
    #[test]
    fn what_calls_itself_empty_and_makes_a_reader_wait_is_not_read() {
        // Another file of the system that says it holds nothing and does: where it is read, a
        // file that waits for the next message of the system would be too.
        let version = Path::new("/proc/version");
        assert!(!std::fs::read(version).unwrap().is_empty());
        assert!(read_file(version, 1000).unwrap().is_empty());
        let told = load(version).unwrap_err().to_string();
        assert!(told.contains("empty"), "{told}");
    }

    #[test]
    fn a_file_that_grows_without_end_is_not_read_without_end() {
        assert_eq!(at_most(1000, io::repeat(7)).unwrap(), None);
        assert_eq!(at_most(1000, io::repeat(7).take(1001)).unwrap(), None);
        let all = at_most(1000, io::repeat(7).take(1000)).unwrap().unwrap();
        assert_eq!(all, vec![7; 1000]);
    }
}
