//! What was done to rows on the way, told with the result.

use std::fmt;

use super::date::{DateOrder, written};
use super::quoted::{names, shown};

/// What was done to the rows on the way, each with a count or a time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    /// Rows were not in order of time and were put in order.
    PutInOrder(usize),
    /// Rows whose time had been there before, with the same values; one of each was kept.
    Doubled(usize),
    /// Rows whose time had been there before with other values; the first was kept. First such time.
    Conflicting(usize, i64),
    /// The clock went back by about an hour and runs on: the end of summer time, read without a zone.
    WentBackAnHour(i64),
    /// Times that do not exist in the zone, or exist twice and could not be told apart.
    SummerTime(usize),
    /// Empty cells among the readings.
    Missing(usize),
    /// Readings that carry another unit than their column, each read in its own; line and column (counted
    /// from 1) of the first.
    OtherUnits(usize, u64, usize),
    /// Numbers with a sign between their thousands; line and column (counted from 1) of the first.
    Thousands(usize, u64, usize),
    /// Lines behind the readings that hold none, such as a summary: first of them.
    Ends(u64),
    /// Lines among the readings that hold no time, such as a remark or the headings once more: how many,
    /// and the first.
    PassedOver(usize, u64),
    /// Rows that end before their last column, left out: how many, and the line of the first.
    ShortRows(usize, u64),
    /// Cells of a column that hold a word and no number, taken for missing.
    Words {
        /// Column, counted from 1.
        column: usize,
        /// How many.
        cells: usize,
        /// Line of the first.
        line: u64,
        /// What stands there, cut short.
        found: String,
    },
    /// A column, counted from 1, holds times of its own, which were not used.
    OtherTimes(usize),
    /// Times say their offset, and are therefore of universal time, whichever zone is named.
    UniversalTime,
    /// Bytes that are no text in the encoding.
    Replaced,
    /// The sheet of a spreadsheet that was read because it has readings, and the others.
    SheetRead(String, Vec<String>),
    /// Plain numbers of this column, counted from 1, were taken for the days of a spreadsheet.
    DayNumbers(usize),
    /// Dates that were kept as text among others that were not, read in this order.
    DatesAsText(usize, DateOrder),
}

/// `1 row`, `2 rows`.
fn counted(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

impl fmt::Display for Note {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::PutInOrder(rows) => {
                write!(
                    out,
                    "{} out of order and put in order of time",
                    counted(*rows, "row stood", "rows stood")
                )
            }
            Self::Doubled(rows) => {
                write!(
                    out,
                    "{} there twice; one of each was kept",
                    counted(*rows, "row was", "rows were")
                )
            }
            Self::Conflicting(rows, first) => write!(
                out,
                "{} a time that was there before, with other readings, the first at {}; the first of \
                 each was kept",
                counted(*rows, "row has", "rows have"),
                written(*first)
            ),
            Self::WentBackAnHour(at) => write!(
                out,
                "the clock goes back an hour after {}, as at the end of summer time: name the time \
                 zone, so that these hours are told apart",
                written(*at)
            ),
            Self::SummerTime(rows) => write!(
                out,
                "{} a time that this zone does not have, or has twice, where summer time begins or ends",
                counted(*rows, "row has", "rows have")
            ),
            Self::Missing(cells) => {
                write!(
                    out,
                    "{} empty",
                    counted(*cells, "reading is", "readings are")
                )
            }
            Self::OtherUnits(cells, line, column) => write!(
                out,
                "{} another unit than the rest of the column, the first in line {line}, column {column}; each \
                 was read in its own",
                counted(*cells, "reading carries", "readings carry")
            ),
            Self::Thousands(cells, line, column) => write!(
                out,
                "{} a sign between the thousands, the first in line {line}, column {column}, and read without \
                 it",
                counted(*cells, "number has", "numbers have")
            ),
            Self::Ends(line) => write!(
                out,
                "from line {line} on there are no readings; what stands there was left out"
            ),
            Self::PassedOver(1, line) => write!(
                out,
                "line {line} holds no time and was left out; the readings go on behind it"
            ),
            Self::PassedOver(lines, first) => write!(
                out,
                "{lines} lines among the readings hold no time and were left out, the first is line {first}"
            ),
            Self::ShortRows(1, line) => write!(
                out,
                "line {line} ends before its last column and was left out"
            ),
            Self::ShortRows(rows, first) => write!(
                out,
                "{rows} rows end before their last column and were left out, the first is line {first}"
            ),
            Self::Words {
                column,
                cells: 1,
                line,
                found,
            } => write!(
                out,
                "column {column}: line {line} holds \u{201c}{found}\u{201d} and no number; it counts as \
                 missing"
            ),
            Self::Words {
                column,
                cells,
                line,
                found,
            } => write!(
                out,
                "column {column}: {cells} cells hold a word and no number, the first is \
                 \u{201c}{found}\u{201d} in line {line}; they count as missing"
            ),
            Self::OtherTimes(column) => write!(
                out,
                "column {column} holds times of its own, which were not used: say so, if its times are \
                 the right ones, or if readings belong to them"
            ),
            Self::UniversalTime => out.write_str(
                "the times say how far they are from universal time; they are shown here in universal \
                 time, whichever zone is named",
            ),
            Self::Replaced => out.write_str("some letters could not be read in this encoding"),
            Self::SheetRead(read, others) => write!(
                out,
                "sheet {} was read, the first that has readings; the spreadsheet also has {}: name a \
                 sheet to read another",
                shown(read),
                names(others)
            ),
            Self::DayNumbers(column) => write!(
                out,
                "column {column} holds plain numbers, which were taken for the days of a spreadsheet by \
                 its heading: look whether the dates fit"
            ),
            Self::DatesAsText(cells, order) => write!(
                out,
                "{} kept as text among dates that are not; read as {}, the only order by which all of \
                 them follow each other: look whether day and month have changed places",
                counted(*cells, "date is", "dates are"),
                order.name()
            ),
        }
    }
}
