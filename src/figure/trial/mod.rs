//! A trial over time, and what each period did.

mod drawing;
mod lines;
pub mod time;
mod track;

pub use drawing::{drawing, round_range};
pub use lines::{Air, Band, Limit, Lines, Quantity, Rows, limit};
pub use track::{Points, Track};
