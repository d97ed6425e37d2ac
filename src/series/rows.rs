//! Rows of readings, as they were understood.

use std::sync::Arc;

use super::mapping::What;
use super::notes::Note;
use super::readings::Readings;

/// Most bytes of a file that is read: some four million rows.
pub const MOST_BYTES: usize = 256 << 20;

/// Most rows.
pub const MOST_ROWS: usize = 5_000_000;

/// Most columns.
pub(super) const MOST_COLUMNS: usize = 4_000;

/// Most bytes of a line: it holds as many columns with room to spare.
pub(super) const MOST_LINE_BYTES: usize = 1 << 20;

/// No reading is larger, in the unit it is held in.
pub(super) const LARGEST_READING: f64 = 1e9;

/// One thing read over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel {
    /// Name of the sensor as the file has it, empty where it has none.
    pub sensor: String,
    /// What it is.
    pub what: What,
    /// A value for each time, in the unit of [`What`]; NaN where the file has none.
    pub values: Readings,
}

/// Rows of readings in order of time, each time once.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Series {
    /// Seconds since the start of 1970: of the site's clock where no zone is known, otherwise of
    /// universal time. Whoever draws or reckons shares them.
    pub times_s: Arc<Vec<i64>>,
    /// What was read at them.
    pub channels: Vec<Channel>,
    /// What was done to the rows on the way.
    pub notes: Vec<Note>,
}
