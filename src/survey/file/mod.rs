//! The survey file: `NAME.ron`, with the photos in the folder `NAME.photos` beside it.
//!
//! A file names its format first. Each format has its own frozen set of structs (see `v1`),
//! so that a file written today is read by every later version; the runtime structs of
//! [`crate::survey`] are never written themselves. The format is described field by field, for
//! people and for other programs, below (`v1/format.md`).
//!
//! [`parse`] and [`print()`] are pure; [`load()`] and [`save()`] touch the disk.
//!
#![doc = include_str!("v1/format.md")]

mod disk;
mod error;
mod load;
mod misread;
mod photos;
mod save;
mod v1;

pub use disk::{Disk, RealDisk};
pub use error::{LoadError, ParseError, SaveError, SaveStep};
pub use load::{FileStamp, Loaded, load};
pub use photos::*;
pub use save::{Backups, Overwrite, backup_path, protection, save, save_through};

use crate::survey::Survey;
use ron::extensions::Extensions;
use serde::Deserialize;

/// The newest format this program reads, and the one it writes.
pub const NEWEST_FORMAT: u32 = 1;

/// The largest file that is read, in bytes: 16 MiB. A survey of a thousand gaps with notes is
/// under one.
pub const LARGEST_FILE_BYTES: u64 = 16 * 1024 * 1024;

/// The most gaps a file may hold.
pub const MOST_GAPS: usize = 5000;

/// The most records any other list of a file may hold.
pub const MOST_RECORDS: usize = 1000;

/// Only the number that says how to read the rest.
#[derive(Deserialize)]
struct Header {
    format: u32,
}

/// How files are read: an optional value may be written without `Some(…)`, also where the
/// line that says so is missing; nesting stops at a depth that no survey comes near.
fn reading() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_recursion_limit(64)
}

/// Reads a survey from the bytes of a file.
///
/// # Errors
/// As [`parse`], and [`ParseError::NotUtf8`] with the place of the first byte that is not text.
pub fn parse_bytes(bytes: &[u8]) -> Result<Survey, ParseError> {
    match std::str::from_utf8(bytes) {
        Ok(text) => parse(text),
        Err(error) => {
            let sound = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let sound = String::from_utf8_lossy(sound);
            Err(ParseError::NotUtf8 {
                line: 1 + sound.matches('\n').count(),
                column: 1 + sound.chars().rev().take_while(|&c| c != '\n').count(),
            })
        }
    }
}

/// Reads a survey from the text of a file. Touches no disk.
///
/// ```
/// # fn main() -> Result<(), gapledger::survey::file::ParseError> {
/// let survey = gapledger::survey::file::parse(
///     "(
///         format: 1,
///         vehicle: (kind: panel_van),
///         gaps: [(id: 1, zone: 5, facing: rear, form: round_hole(diameter_mm: 20))],
///     )",
/// )?;
/// assert_eq!(survey.gaps.len(), 1);
/// # Ok(())
/// # }
/// ```
///
/// # Errors
/// [`ParseError`] says in a plain sentence what is wrong, and where.
pub fn parse(text: &str) -> Result<Survey, ParseError> {
    // Some editors put a byte order mark in front; it means nothing in UTF-8.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(ParseError::Empty);
    }
    let header: Header = reading()
        .from_str(text)
        .map_err(|error| misread::header_error(text, &error))?;
    match header.format {
        1 => v1::read(text),
        format if format > NEWEST_FORMAT => Err(ParseError::NewerFormat { format }),
        format => Err(ParseError::UnknownFormat { format }),
    }
}

/// Writes a survey as the text of a file, in the newest format. Touches no disk.
///
/// The same survey always gives the same text, and [`parse`] gives the same survey back, as long
/// as every number in it is finite and every photo name is a plain file name; [`save`] makes
/// sure of that before it writes.
#[must_use]
pub fn print(survey: &Survey) -> String {
    v1::write(survey)
}
