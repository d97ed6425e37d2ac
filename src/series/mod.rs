//! Readings as instruments and their apps write them: text with columns, or a spreadsheet, understood
//! by a [`Mapping`] that is guessed in the open and can be changed, never silently.
//!
//! Bytes come in, rows come out; nothing here opens a file. What was guessed, what can be read in two
//! ways, what was put in order or left out stands in the answer.

mod beginning;
mod beside;
mod cells;
mod clock;
mod columns;
mod date;
mod decode;
mod doubtful;
mod guess;
mod heading;
mod mapping;
mod marks;
mod nearest;
mod notes;
mod number;
mod orders;
mod places;
mod quoted;
mod read;
mod readings;
mod refused;
mod remark;
mod rows;
mod settled;
mod seven_digits;
mod shifted;
mod spelled;
mod spreadsheet;
mod taken;
mod thin;
mod timing;

#[cfg(test)]
mod tests;

pub use clock::Clock;
pub use date::{DateOrder, from_written as moment_from, written as moment};
pub use decode::{Encoding, Text, decode};
pub use doubtful::{Doubtful, Why, against, doubtful};
pub use guess::{Given, Guess, guess, guess_with};
pub use mapping::{Column, Mapping, Separator, Unit, What, Zone};
pub use notes::Note;
pub use number::Decimal;
pub use orders::OrderReading;
pub use read::{preview, read, read_watched};
pub use readings::Readings;
pub use refused::ReadError;
pub use remark::{About, Remark};
pub use rows::{Channel, MOST_BYTES, MOST_ROWS, Series};
pub use seven_digits::SevenDigits;
pub use thin::{Extremes, stretches};
