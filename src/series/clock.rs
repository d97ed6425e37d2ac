//! A time as a file has it.

/// A date with a time of day, as read, without a zone, and the offset that stood behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clock {
    /// Seconds since the start of 1970 on that clock.
    pub seconds: i64,
    /// Seconds by which that clock is ahead of universal time, where the text says so.
    pub offset_s: Option<i64>,
}
