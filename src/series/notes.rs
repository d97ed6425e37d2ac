//! What was done to rows on the way, told with the result.

use std::fmt;

use super::date::written;

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
}

impl fmt::Display for Note {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::PutInOrder(rows) => {
                write!(
                    out,
                    "{rows} rows stood out of order and were put in order of time"
                )
            }
            Self::Doubled(rows) => {
                write!(out, "{rows} rows were there twice; one of each was kept")
            }
            Self::Conflicting(rows, first) => write!(
                out,
                "{rows} rows have a time that was there before, with other readings, the first at {}; \
                 the first of each was kept",
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
                "{rows} rows have a time that this zone does not have, or has twice, where summer time \
                 begins or ends"
            ),
            Self::Missing(cells) => write!(out, "{cells} readings are empty"),
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
        }
    }
}
