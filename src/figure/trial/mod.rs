//! A trial over time, and what each period did.

mod bands;
mod drawing;
mod lines;
mod of_trial;
pub mod time;
mod track;
mod verdict;

pub use bands::{Band, bands};
pub use drawing::{drawing, round_range};
pub use lines::{Air, Doubt, Limit, Lines, ODD, ODD_NAME, Quantity, Rows, limit};
pub use of_trial::lines;
pub use track::{Points, Track};
pub use verdict::{Bar, VerdictRow, verdict};
