//! A moment on the clock of the place where the vehicle stands, to the second.

use crate::series::{moment, moment_from};

/// A day and a time of day on the clock of the place, without a zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment(i64);

/// Seconds of the first moment that can be written, 1 January 1970.
const FIRST_S: i64 = 0;

/// Seconds of the last, the end of 2100.
const LAST_S: i64 = 4_133_980_799;

impl Moment {
    /// The moment so many seconds after the start of 1970 on that clock; `None` before it and after
    /// the year 2100.
    #[must_use]
    pub fn from_seconds(seconds: i64) -> Option<Self> {
        (FIRST_S..=LAST_S)
            .contains(&seconds)
            .then_some(Self(seconds))
    }

    /// Seconds since the start of 1970 on that clock.
    #[must_use]
    pub fn seconds(self) -> i64 {
        self.0
    }

    /// A moment as [`Display`](std::fmt::Display) writes it: year first, then the time of day,
    /// `2026-11-05 14:30` or `2026-11-05 14:30:15`; a day alone is its start.
    ///
    /// ```
    /// use gapledger::survey::Moment;
    /// let moment = Moment::parse("2026-11-05 14:30").unwrap();
    /// assert_eq!(moment.seconds(), 1_793_889_000);
    /// assert_eq!(moment.to_string(), "2026-11-05 14:30");
    /// assert_eq!(Moment::parse("2026-11-05").unwrap().to_string(), "2026-11-05 00:00");
    /// assert_eq!(Moment::parse("2026-02-30 10:00"), None);
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        Self::from_seconds(moment_from(text.trim())?)
    }
}

impl std::fmt::Display for Moment {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(&moment(self.0))
    }
}
