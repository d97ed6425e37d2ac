//! The cells of a line, and what each may be.

use super::date;
use super::mapping::Separator;
use super::number::{self, Cell, Decimal, Written};
use super::spelled;

/// The cells of a line.
pub(super) fn cells(line: &str, separator: Separator) -> Vec<String> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(line.as_bytes());
    let mut record = csv::StringRecord::new();
    match reader.read_record(&mut record) {
        Ok(true) => record
            .iter()
            .map(|cell| unquoted(cell).to_owned())
            .collect(),
        _ => Vec::new(),
    }
}

/// A cell without the quotes that keep a spreadsheet from changing it.
fn unquoted(cell: &str) -> &str {
    if cell.starts_with(['\'', '=']) {
        spelled::bare(cell)
    } else {
        cell
    }
}

/// Whether a line holds a time and a number that is no part of it.
pub(super) fn is_row(line: &[String], decimal: Decimal, is_time: fn(&str) -> bool) -> bool {
    let is_number = |cell: &String| is_reading(cell, decimal) && !is_time(cell);
    line.iter().any(|cell| is_time(cell)) && line.iter().any(is_number)
}

/// What a cell counts. A number with a sign between its thousands counts less than one without, so that
/// `1.200` beside `7.62` is no thousand.
pub(super) fn worth(cell: &str, decimal: Decimal, is_time: fn(&str) -> bool) -> usize {
    if is_time(cell) {
        return 2;
    }
    match number::written(cell, decimal) {
        _ if !is_reading(cell, decimal) => 0,
        Written::Number {
            is_grouped: true, ..
        } => 1,
        _ => 2,
    }
}

fn is_reading(cell: &str, decimal: Decimal) -> bool {
    let is_number = |cell: &str| matches!(number::cell(cell, decimal), Cell::Number(_));
    !is_moment(cell) && !is_of_day(cell) && (is_number(cell) || is_number(spelled::bare(cell)))
}

pub(super) fn is_moment(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::moment(cell, order).is_some())
}

pub(super) fn is_counted(cell: &str) -> bool {
    spelled::counted(cell).is_some()
}

pub(super) fn is_date(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::date(cell, order).is_some())
}

pub(super) fn is_of_day(cell: &str) -> bool {
    cell.contains(':') && date::of_day(cell).is_some()
}
