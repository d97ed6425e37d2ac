//! A sheet of a spreadsheet as text with columns, so that it is understood as a text file is.

mod archive;
mod book;
mod columns;
mod grid;
mod headings;
mod open_document;
mod write;

#[cfg(test)]
pub(super) mod tests;

use book::Book;
use columns::Columns;

use super::notes::Note;
use super::refused::ReadError;

/// Rows with readings by which a sheet is taken for the one that is meant: a cover page or a table of
/// lowest and highest values has fewer.
const ENOUGH_ROWS: usize = 10;

/// Most sheets that are looked at for readings.
const MOST_SHEETS: usize = 64;

/// Whether bytes are a workbook: the mark of a zip archive, which no text begins with, or that of the
/// workbooks before it.
#[must_use]
pub(super) fn is_workbook(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04") || is_old(bytes)
}

fn is_old(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1])
}

fn opened(bytes: &[u8]) -> Result<Book<'_>, ReadError> {
    if is_old(bytes) {
        return Err(ReadError::OldWorkbook);
    }
    Book::open(bytes)
}

/// A sheet as text, and what has to be told of it.
fn sheet(book: &mut Book<'_>, name: &str) -> Result<(String, Vec<Note>), ReadError> {
    let mut grid = book.grid(name)?;
    if headings::may_be_grouped(&grid) {
        headings::spread(&mut grid, &book.merged(name))?;
    }
    let columns = Columns::of(&grid)?;
    Ok((write::text(&grid, &columns)?, columns.notes))
}

/// A sheet as text: commas between columns, points before decimals, dates as year-month-day. The first
/// sheet where none is named. Line numbers are those of the sheet's rows.
///
/// # Errors
/// No workbook, or no sheet of that name.
pub(super) fn text(bytes: &[u8], name: &str) -> Result<String, ReadError> {
    let mut book = opened(bytes)?;
    let sheets = book.sheets();
    let wanted = sheets
        .iter()
        .find(|(sheet, _)| name.is_empty() || sheet == name)
        .ok_or_else(|| no_sheet(name, &sheets))?;
    Ok(sheet(&mut book, &wanted.0)?.0)
}

fn no_sheet(name: &str, sheets: &[(String, bool)]) -> ReadError {
    let names = sheets.iter().map(|(sheet, _)| sheet.clone());
    ReadError::NoSheet(name.to_owned(), names.collect())
}

/// The sheet that is read, with what has to be told of it.
pub(super) struct Chosen {
    /// Its name where it is not the first.
    pub(super) sheet: String,
    /// Its text.
    pub(super) text: String,
    /// Names of all sheets.
    pub(super) sheets: Vec<String>,
    pub(super) notes: Vec<Note>,
}

/// The sheet of a name; where none is named, the first that has readings, hidden ones last. `rows`
/// counts the rows of a text that hold readings.
///
/// # Errors
/// No workbook, no sheet of that name, or none with readings.
pub(super) fn chosen(
    bytes: &[u8],
    name: &str,
    rows: impl Fn(&str) -> usize,
) -> Result<Chosen, ReadError> {
    let mut book = opened(bytes)?;
    let all = book.sheets();
    if !name.is_empty() && !all.iter().any(|(sheet, _)| sheet == name) {
        return Err(no_sheet(name, &all));
    }
    let sheets: Vec<String> = all.iter().map(|(sheet, _)| sheet.clone()).collect();
    let (seen, hidden): (Vec<_>, Vec<_>) = all.into_iter().partition(|(_, is_seen)| *is_seen);
    let mut best: Option<(usize, String, String, Vec<Note>)> = None;
    for (candidate, _) in seen
        .into_iter()
        .chain(hidden)
        .filter(|(sheet, _)| name.is_empty() || sheet == name)
        .take(MOST_SHEETS)
    {
        let (text, notes) = sheet(&mut book, &candidate)?;
        let number = rows(&text);
        if best.as_ref().is_none_or(|(most, ..)| number > *most) {
            best = Some((number, candidate, text, notes));
        }
        if number >= ENOUGH_ROWS {
            break;
        }
    }
    let (number, read, text, mut notes) = best.ok_or(ReadError::NoWorkbook)?;
    let others: Vec<String> = sheets
        .iter()
        .filter(|sheet| **sheet != read)
        .cloned()
        .collect();
    if number == 0 {
        return Err(if name.is_empty() {
            ReadError::NoReadingsInSheets(sheets)
        } else {
            ReadError::NoReadingsInSheet(read, others)
        });
    }
    if name.is_empty() && !others.is_empty() {
        notes.insert(0, Note::SheetRead(read.clone(), others));
    }
    let is_first = sheets.first() == Some(&read);
    Ok(Chosen {
        sheet: if is_first { name.to_owned() } else { read },
        text,
        sheets,
        notes,
    })
}
