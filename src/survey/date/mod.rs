//! Dates: as a survey holds them, and as people write them where they live.

mod iso;
mod written;

pub use iso::parse;
pub use written::DateWay;
