//! Why a file could not be read, with the place.

use super::quoted::{names, shown};
use super::rows::{MOST_BYTES, MOST_COLUMNS, MOST_LINE_BYTES, MOST_ROWS};

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
    /// It unpacks to too many bytes.
    #[error(
        "the spreadsheet unpacks to more than can be read; export a shorter stretch of time, or save it as CSV"
    )]
    UnpacksTooLarge,
    /// Too many cells.
    #[error(
        "the spreadsheet has more cells than can be read; export a shorter stretch of time, or save it as CSV"
    )]
    TooManyCells,
    /// A workbook of the kind before archives, or one that is locked.
    #[error(
        "the file is a spreadsheet of the old kind (.xls) or locked with a password; save it without a \
         password as XLSX or CSV"
    )]
    OldWorkbook,
    /// A binary workbook.
    #[error("the file is a binary spreadsheet (.xlsb); save it as XLSX or CSV")]
    BinaryWorkbook,
    /// No such sheet; those there are.
    #[error(
        "the spreadsheet has no sheet called {}; it has {}", shown(.0), names(.1)
    )]
    NoSheet(String, Vec<String>),
    /// None of the sheets has readings.
    #[error(
        "no sheet of the spreadsheet has a row with a time and a number ({} looked at); is this a \
         logger\u{2019}s file?", names(.0)
    )]
    NoReadingsInSheets(Vec<String>),
    /// The sheet that was named has no readings; the others.
    #[error(
        "sheet {} has no row with a time and a number; the spreadsheet also has {}", shown(.0), names(.1)
    )]
    NoReadingsInSheet(String, Vec<String>),
    /// Some dates of a column are kept as text, in an order that cannot be told.
    #[error(
        "line {line}, column {column}: this date is kept as text and others of the column are not, so day \
         and month may have changed places; export the file anew, or save it as CSV and look at the dates"
    )]
    MixedDates {
        /// The first line with such a date, counted from 1.
        line: u64,
        /// Column, counted from 1.
        column: usize,
    },
    /// A line that no logger writes.
    #[error(
        "line {0} is longer than {kb} kB; is this a logger\u{2019}s file?", kb = MOST_LINE_BYTES >> 10
    )]
    LongLine(usize),
    /// More columns than are read.
    #[error("line {0} has more than {MOST_COLUMNS} columns; export fewer of them")]
    ManyColumns(usize),
    /// No rows that look like readings.
    #[error("no row with a time and a number was found; is this a logger\u{2019}s file?")]
    NoReadings,
    /// No column is said to hold times, or none readings.
    #[error("say which column holds {0}")]
    NoColumn(&'static str),
    /// Dates can be read in more than one way and nobody has said which.
    #[error("say in which order day, month and year stand in the dates")]
    OrderNotSaid,
    /// No such zone.
    #[error(
        "there is no time zone called {}; write it as Europe/London is written", shown(.0)
    )]
    NoZone(String),
    /// A cell that is not what its column holds.
    #[error(
        "line {line}, column {column}: {expected} was expected and {} stands there",
        shown(found)
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
    /// A line that looks most like a row, and is none.
    #[error(
        "no row with a time and a number was found; line {line} looks most like one, where column \
         {column} holds \u{201c}{found}\u{201d}: {expected}"
    )]
    NoRow {
        /// Line, counted from 1.
        line: usize,
        /// Column, counted from 1.
        column: usize,
        /// What is there, cut short.
        found: String,
        /// What was expected.
        expected: &'static str,
    },
    /// A quote that goes on over rows.
    #[error(
        "line {line}: a quote begins there and does not end before other rows follow; close it or take it \
         out"
    )]
    QuoteNotClosed {
        /// Line, counted from 1.
        line: u64,
    },
    /// Headings among the rows that differ from those above.
    #[error(
        "line {line}: headings follow that differ from the first ones, column {column} is \
         \u{201c}{found}\u{201d} from there on; put what follows into a file of its own"
    )]
    OtherHeadings {
        /// Line, counted from 1.
        line: u64,
        /// Column, counted from 1.
        column: usize,
        /// What is there, cut short.
        found: String,
    },
    /// Rows have more columns than the headings.
    #[error(
        "the readings have {cells} columns and the headings in line {line} only {headings}, so that it is \
         not known which heading belongs to which column; give every column a heading, and put a \
         decimal comma into quotes or part the columns with semicolons"
    )]
    HeadingsShort {
        /// Line of the headings, counted from 1.
        line: usize,
        /// How many headings there are.
        headings: usize,
        /// How many columns.
        cells: usize,
    },
    /// All times are midnight, and most of them come again.
    #[error(
        "{0} rows have the same time as another: the dates have no time of day that is understood; say \
         which column holds it, written as 14:30"
    )]
    NoTimeOfDay(usize),
    /// Most rows have a time that another has.
    #[error(
        "{0} rows have the same time as another, with other readings, the first at {1}; put sensors that \
         stand one below the other into columns or files of their own, or write the times to the second"
    )]
    SameTimes(usize, String),
    /// Rows of sensors one below the other.
    #[error(
        "the rows are of several sensors one below the other, such as \u{201c}{first}\u{201d} and \
         \u{201c}{second}\u{201d} in column {column}; put each into a file or columns of its own"
    )]
    SensorsBelowEachOther {
        /// Column with their names, counted from 1.
        column: usize,
        /// The first.
        first: String,
        /// Another.
        second: String,
    },
    /// The date is spread over columns.
    #[error(
        "year, month and day stand in columns of their own (columns {0} to {1}); put them into one, as \
         2026-01-31"
    )]
    DateInParts(usize, usize),
}
