//! Rows by a mapping.

use std::borrow::Cow;
use std::ops::ControlFlow;

use super::date;
use super::decode::decode;
use super::mapping::Mapping;
use super::notes::Note;
use super::places::{Places, Times};
use super::refused::ReadError;
use super::rows::{MOST_BYTES, Series};
use super::spreadsheet;
use super::taken::Rows;
use crate::physics::counts::count;

/// The text of a file by a mapping.
pub(super) fn text<'a>(
    bytes: &'a [u8],
    mapping: &Mapping,
) -> Result<(Cow<'a, str>, bool), ReadError> {
    if bytes.len() > MOST_BYTES {
        return Err(ReadError::TooLarge);
    }
    if spreadsheet::is_workbook(bytes) {
        return Ok((Cow::Owned(spreadsheet::text(bytes, &mapping.sheet)?), false));
    }
    if bytes.contains(&0) && mapping.encoding.name() == "UTF-8" {
        return Err(ReadError::NoText("UTF-8"));
    }
    let decoded = decode(bytes, mapping.encoding);
    Ok((with_line_ends(decoded.text), decoded.has_replaced))
}

/// Lines that end in a carriage return alone, as old programs write them, end as all others do.
fn with_line_ends(text: Cow<'_, str>) -> Cow<'_, str> {
    if text.contains('\n') || !text.contains('\r') {
        return text;
    }
    Cow::Owned(text.replace('\r', "\n"))
}

/// Reads all rows by a mapping.
///
/// Rows are put in order of time; a time that comes twice is kept once. What was done is told in
/// [`Series::notes`].
///
/// # Errors
/// With line and column where a cell is not what its column holds; lines that hold no time, rows that
/// end early and words among the numbers are no error while they are few, but told.
pub fn read(bytes: &[u8], mapping: &Mapping) -> Result<Series, ReadError> {
    read_watched(bytes, mapping, &mut |_| ControlFlow::Continue(()))
}

/// Rows after which it is told how far reading has come.
const TOLD_EVERY: usize = 20_000;

/// Reads as [`read()`] does; `watch` hears which share of the text is read, 0…1, and may stop it.
///
/// # Errors
/// As [`read()`]; [`ReadError::Stopped`] where `watch` said so.
pub fn read_watched(
    bytes: &[u8],
    mapping: &Mapping,
    watch: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Series, ReadError> {
    let (text, has_replaced) = text(bytes, mapping)?;
    let start = skip_lines(&text, mapping.lines_before);
    let above = text.get(..text.len() - start.len()).unwrap_or_default();
    let mut series = of_text(above, start, mapping, watch)?;
    if has_replaced {
        series.notes.push(Note::Replaced);
    }
    Ok(series)
}

/// The first rows by a mapping, so many lines of them: to look at before all is read.
///
/// # Errors
/// As [`read()`].
pub fn preview(bytes: &[u8], mapping: &Mapping, lines: usize) -> Result<Series, ReadError> {
    let (text, _) = text(bytes, mapping)?;
    let start = skip_lines(&text, mapping.lines_before);
    let behind = skip_lines(start, lines).len();
    let first = start.get(..start.len() - behind).unwrap_or(start);
    let above = text.get(..text.len() - start.len()).unwrap_or_default();
    of_text(above, first, mapping, &mut |_| ControlFlow::Continue(()))
}

/// Rows of a text that begins with the first of them, and what stands above.
fn of_text(
    above: &str,
    start: &str,
    mapping: &Mapping,
    watch: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Series, ReadError> {
    let places = Places::of(mapping)?;
    let mut rows = Rows::new(&places, mapping, above)?;
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mapping.separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(start.as_bytes());
    let mut record = csv::ByteRecord::new();
    while reader
        .read_byte_record(&mut record)
        .map_err(|_| ReadError::NoReadings)?
    {
        if rows.times.len() % TOLD_EVERY == 0 {
            let at = record.position().map_or(0, csv::Position::byte);
            let share = share(at, start.len());
            if watch(share).is_break() {
                return Err(ReadError::Stopped);
            }
        }
        let line = record.position().map_or(0, |at| line_of(at, start));
        let line = line + u64::try_from(mapping.lines_before).unwrap_or(0);
        if record.as_slice().contains(&b'\n') {
            let from = record.position().map_or(0, csv::Position::byte);
            let to = reader.position().byte();
            within_a_row(start, from, to, mapping, &places)
                .ok_or(ReadError::QuoteNotClosed { line })?;
        }
        rows.take(&record, line)?;
    }
    rows.into_series()
}

/// Most lines that the text of one row may stand on.
const MOST_LINES: usize = 20;

/// Nothing where the lines that a quote holds together are the text of one row; `None` where one of
/// them is a row by itself, so that the quote can only have been forgotten.
fn within_a_row(text: &str, from: u64, to: u64, mapping: &Mapping, places: &Places) -> Option<()> {
    let at = |byte: u64| usize::try_from(byte).unwrap_or(text.len());
    let lines = text.get(at(from)..at(to))?.trim().split('\n');
    let column = match places.times {
        Times::Moment(at) | Times::Apart { date: at, .. } => at,
    };
    let sign = char::from(mapping.separator.byte());
    let is_row = |line: &str| {
        let cell = line.split(sign).nth(column).unwrap_or_default();
        date::moment(cell.trim_matches(['"', ' ', '\r']), places.order).is_some()
    };
    let within: Vec<&str> = lines.skip(1).collect();
    (within.len() < MOST_LINES && !within.into_iter().any(is_row)).then_some(())
}

/// The line that a record begins in. Where lines end in two characters, the reader takes the second for
/// the beginning of the next record, and that one for a line too few.
fn line_of(record: &csv::Position, text: &str) -> u64 {
    let at = usize::try_from(record.byte()).unwrap_or(usize::MAX);
    let behind = text.as_bytes().get(at) == Some(&b'\n');
    record.line() + u64::from(behind)
}

/// Which share of a text is read.
fn share(at: u64, all: usize) -> f64 {
    let at = usize::try_from(at).unwrap_or(all);
    count(at) / count(all.max(1))
}

/// The text behind its first lines.
pub(super) fn skip_lines(text: &str, lines: usize) -> &str {
    let mut rest = text;
    for _ in 0..lines {
        match rest.split_once('\n') {
            Some((_, behind)) => rest = behind,
            None => return "",
        }
    }
    rest
}
