//! Why a file could not be read, with the place.

use super::rows::{MOST_BYTES, MOST_ROWS};

/// Why a file could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Too many bytes.
    #[error("the file is larger than {} MB; export a shorter stretch of time", MOST_BYTES >> 20)]
    TooLarge,
    /// Too many rows.
    #[error(
        "the file has more than {MOST_ROWS} rows; export a shorter stretch of time or fewer readings an hour"
    )]
    TooManyRows,
    /// It is no text in that encoding.
    #[error("the file is no text in {0}: choose another encoding")]
    NoText(&'static str),
    /// It was given up before its end.
    #[error("reading the file was stopped")]
    Stopped,
    /// It begins as a spreadsheet and is none.
    #[error(
        "the file begins like a spreadsheet and cannot be read as one; save it again, or as CSV"
    )]
    NoWorkbook,
    /// No such sheet.
    #[error("the spreadsheet has no sheet called \u{201c}{0}\u{201d}")]
    NoSheet(String),
    /// No rows that look like readings.
    #[error("no row with a time and a number was found; is this a logger\u{2019}s file?")]
    NoReadings,
    /// No column is said to hold times, or none readings.
    #[error("say which column holds {0}")]
    NoColumn(&'static str),
    /// Day and month can be read in two ways and nobody has said which.
    #[error("say whether dates are day, month, year or month, day, year")]
    OrderNotSaid,
    /// No such zone.
    #[error(
        "there is no time zone called \u{201c}{0}\u{201d}; write it as Europe/London is written"
    )]
    NoZone(String),
    /// A cell that is not what its column holds.
    #[error(
        "line {line}, column {column}: {expected} was expected and \u{201c}{found}\u{201d} stands there"
    )]
    Cell {
        /// Line, counted from 1.
        line: u64,
        /// Column, counted from 1.
        column: usize,
        /// What was expected.
        expected: &'static str,
        /// What is there, cut short.
        found: String,
    },
    /// A row ends before its last needed column.
    #[error(
        "line {line} ends after {cells} columns; {expected} stand in the first row. Was the file cut short?"
    )]
    ShortRow {
        /// Line, counted from 1.
        line: u64,
        /// How many there are.
        cells: usize,
        /// How many there should be.
        expected: usize,
    },
}
