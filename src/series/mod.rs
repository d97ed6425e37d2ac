//! Readings as instruments and their apps write them: text with columns, or a spreadsheet, understood
//! by a [`Mapping`] that is guessed in the open and can be changed, never silently.
//!
//! Bytes come in, rows come out; nothing here opens a file. What was guessed, what can be read in two
//! ways, what was put in order or left out stands in the answer.

mod date;
mod decode;
mod doubtful;
mod guess;
mod heading;
mod mapping;
mod number;
mod read;
mod spreadsheet;

#[cfg(test)]
mod tests;

pub use date::{Clock, DateOrder, written as moment};
pub use decode::{Encoding, Text, decode};
pub use doubtful::{Doubtful, Why, against, doubtful};
pub use guess::{Guess, OrderReading, guess};
pub use mapping::{Column, Mapping, Separator, Unit, What, Zone};
pub use number::Decimal;
pub use read::{Note, ReadError, read};

/// Most bytes of a file that is read: some four million rows.
pub const MOST_BYTES: usize = 256 << 20;

/// Most rows.
pub const MOST_ROWS: usize = 5_000_000;

/// One thing read over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel {
    /// Name of the sensor as the file has it, empty where it has none.
    pub sensor: String,
    /// What it is.
    pub what: What,
    /// A value for each time, in the unit of [`What`]; NaN where the file has none.
    pub values: Vec<f64>,
}

/// Rows of readings in order of time, each time once.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Series {
    /// Seconds since the start of 1970: of the site's clock where no zone is known, otherwise of
    /// universal time.
    pub times_s: Vec<i64>,
    /// What was read at them.
    pub channels: Vec<Channel>,
    /// What was done to the rows on the way.
    pub notes: Vec<Note>,
}
