//! A trial over time, and what each period did.

mod drawing;
mod lines;
pub mod time;
mod track;
mod verdict;

pub use drawing::{drawing, round_range};
pub use lines::{Air, Band, Limit, Lines, Quantity, Rows, limit};
pub use track::{Points, Track};
pub use verdict::{Bar, VerdictRow, verdict};
