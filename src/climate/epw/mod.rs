//! The open weather format of building simulation, EPW: eight lines of head, then a line of 35
//! columns for every hour.
//!
//! A row with hour h is of the hour that ends at h, in local standard time. Every column has a
//! number of its own that means *missing*; at or beyond it nothing was recorded. Relative humidity
//! below freezing is over ice.

mod columns;
mod error;
mod read;
mod write;

pub use columns::{COLUMNS, Column, Row};
pub use error::EpwError;
pub use read::{Epw, read};
pub use write::write;

#[cfg(test)]
mod tests;
