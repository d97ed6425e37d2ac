//! A survey as text, and text as a survey.

use super::error::ParseError;
use super::limits::{NEWEST_FORMAT, reading};
use super::{misread, v1, v2};
use crate::survey::Survey;
use serde::Deserialize;

/// Only the number that says how to read the rest.
#[derive(Deserialize)]
struct Header {
    format: u32,
}

/// Reads a survey from the bytes of a file.
///
/// # Errors
/// As [`parse`], and [`ParseError::NotUtf8`] with the place of the first byte that is not text.
pub fn parse_bytes(bytes: &[u8]) -> Result<Survey, ParseError> {
    read_bytes(bytes).map(|(_, survey)| survey)
}

/// The same, with the format that the bytes are in.
pub(super) fn read_bytes(bytes: &[u8]) -> Result<(u32, Survey), ParseError> {
    match std::str::from_utf8(bytes) {
        Ok(text) => read(text),
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
///         format: 2,
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
    read(text).map(|(_, survey)| survey)
}

fn read(text: &str) -> Result<(u32, Survey), ParseError> {
    // Some editors put a byte order mark in front; it means nothing in UTF-8.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(ParseError::Empty);
    }
    let header: Header = reading()
        .from_str(text)
        .map_err(|error| misread::header_error(text, &error))?;
    let survey = match header.format {
        1 => v1::read(text),
        2 => v2::read(text),
        format if format > NEWEST_FORMAT => Err(ParseError::NewerFormat { format }),
        format => Err(ParseError::UnknownFormat { format }),
    }?;
    Ok((header.format, survey.into_live()?))
}

/// Writes a survey as the text of a file, in the newest format. Touches no disk.
///
/// The same survey always gives the same text, and [`parse`] gives the same survey back, as long
/// as every number in it is finite and every photo name is a plain file name; [`save`](super::save) makes
/// sure of that before it writes.
#[must_use]
pub fn print(survey: &Survey) -> String {
    v2::write(survey)
}
