//! What an archive unpacks to, measured before any of it is understood: a few hundred bytes can stand
//! for gigabytes, and what is said in its directory need not be true.

use std::io::{Cursor, Read};

use zip::ZipArchive;

use super::open_document;
use crate::series::refused::ReadError;

/// Most bytes that all parts unpack to: a sheet of a million rows with ten columns.
const MOST_UNPACKED: u64 = 1 << 30;

/// Most bytes of a part that is neither a sheet nor the texts of its cells.
const MOST_OF_OTHERS: u64 = 64 << 20;

/// Most bytes of the styles: each takes sixty times the room once it is read.
const MOST_OF_STYLES: u64 = 16 << 20;

/// Most bytes between two signs `<`: the text of a cell has at most some thirty thousand letters.
const MOST_OF_TEXT: u64 = 4 << 20;

/// Most parts.
const MOST_PARTS: usize = 10_000;

/// What kind of workbook an archive is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Office Open XML, `.xlsx`.
    OpenXml,
    /// OpenDocument, `.ods`.
    OpenDocument,
}

/// Unpacks an archive without keeping it, and says what it is.
///
/// # Errors
/// No workbook, or one that unpacks to more than can be read.
pub(super) fn measured(bytes: &[u8]) -> Result<Kind, ReadError> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| ReadError::NoWorkbook)?;
    if archive.len() > MOST_PARTS {
        return Err(ReadError::NoWorkbook);
    }
    let mut left = MOST_UNPACKED;
    let mut kind = Kind::OpenXml;
    let mut is_binary = false;
    for at in 0..archive.len() {
        // What cannot be unpacked here cannot be where it is read either.
        let Ok(mut part) = archive.by_index(at) else {
            continue;
        };
        let name = part.name().unwrap_or_default();
        let name = name.to_lowercase().replace('\\', "/");
        is_binary |= name.ends_with("workbook.bin");
        if name == "content.xml" {
            let mut content = Vec::new();
            let most = MOST_OF_OTHERS;
            let read = part.by_ref().take(most + 1).read_to_end(&mut content);
            if read.is_err() || content.len() as u64 > most {
                return Err(ReadError::UnpacksTooLarge);
            }
            open_document::measured(&content)?;
            kind = Kind::OpenDocument;
            left = left.saturating_sub(content.len() as u64);
            continue;
        }
        let is_strings = name.ends_with("sharedstrings.xml");
        let most = if name.contains("/worksheets/") || is_strings {
            left
        } else if name.ends_with("styles.xml") {
            MOST_OF_STYLES.min(left)
        } else {
            MOST_OF_OTHERS.min(left)
        };
        left -= unpacked(&mut part, most, is_strings)?;
    }
    if is_binary {
        return Err(ReadError::BinaryWorkbook);
    }
    Ok(kind)
}

/// How many bytes a part unpacks to, at most so many.
fn unpacked(part: &mut impl Read, most: u64, is_strings: bool) -> Result<u64, ReadError> {
    let mut buffer = [0; 1 << 16];
    let (mut all, mut between, mut last, mut is_marked) = (0_u64, 0_u64, 0_u8, false);
    loop {
        // A part that is damaged further down is refused where it is read.
        let Ok(read @ 1..) = part.read(&mut buffer) else {
            return Ok(all);
        };
        let chunk = buffer.get(..read).unwrap_or_default();
        if all == 0 && is_strings {
            check_number_of_strings(chunk)?;
        }
        all += read as u64;
        for byte in chunk {
            between = if *byte == b'<' { 0 } else { between + 1 };
            is_marked |= *byte == b'!' && last == b'<';
            last = *byte;
            if between > MOST_OF_TEXT {
                return Err(ReadError::UnpacksTooLarge);
            }
        }
        // Text within marks of its own may hold any sign, and is held as a whole.
        if all > most || (is_marked && all > MOST_OF_OTHERS) {
            return Err(ReadError::UnpacksTooLarge);
        }
    }
}

/// Room is made for as many texts as the part says it has, before the first of them is read.
fn check_number_of_strings(start: &[u8]) -> Result<(), ReadError> {
    let start = String::from_utf8_lossy(start.get(..4096).unwrap_or(start));
    let head = start
        .split_once("sst")
        .and_then(|(before, behind)| Some((before, behind.split_once('>')?.0)));
    let Some((before, tag)) = head.filter(|(before, _)| !before.contains("<!")) else {
        return Err(ReadError::NoWorkbook);
    };
    let number: Option<usize> = tag.split_once("uniqueCount").map(|(_, behind)| {
        let digits = behind.trim_start_matches(|sign: char| !sign.is_ascii_digit());
        let end = digits.find(|sign: char| !sign.is_ascii_digit());
        let digits = digits.get(..end.unwrap_or(digits.len()));
        digits
            .and_then(|digits| digits.parse().ok())
            .unwrap_or(usize::MAX)
    });
    if before.contains('\0') || number.is_some_and(|number| number > MOST_STRINGS) {
        return Err(ReadError::NoWorkbook);
    }
    Ok(())
}

/// Most texts that a workbook may say it has.
const MOST_STRINGS: usize = 10_000_000;
