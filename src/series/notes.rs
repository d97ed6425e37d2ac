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
    /// Readings that carry another unit than their column, each read in its own; line and column (counted
    /// from 1) of the first.
    OtherUnits(usize, u64, usize),
    /// Numbers with a sign between their thousands; line and column (counted from 1) of the first.
    Thousands(usize, u64, usize),
    /// Lines behind the readings that hold none, such as a summary: first of them.
    Ends(u64),
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
            Self::OtherUnits(cells, line, column) => write!(
                out,
                "{cells} readings carry another unit than the rest of their column, the first in line \
                 {line}, column {column}; each was read in its own"
            ),
            Self::Thousands(cells, line, column) => write!(
                out,
                "{cells} numbers have a sign between their thousands, the first in line {line}, column \
                 {column}; they were read without it"
            ),
            Self::Ends(line) => write!(
                out,
                "from line {line} on there are no readings; what stands there was left out"
            ),
            Self::Replaced => out.write_str("some letters could not be read in this encoding"),
        }
    }
}
