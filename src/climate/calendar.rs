//! Days of the civil calendar.

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Day {
    /// Year.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
}

/// Days of a month, 1 to 12; zero for a month that is none.
#[must_use]
pub fn days_in_month(year: i32, month: u8) -> u8 {
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if is_leap(year) => 29,
        2 => 28,
        _ => 0,
    }
}

/// Whether a year has a 29 February.
#[must_use]
pub(super) fn is_leap(year: i32) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

impl Day {
    /// The day, where the calendar has it.
    #[must_use]
    pub fn new(year: i32, month: u8, day: u8) -> Option<Self> {
        let there = (1..=12).contains(&month) && (1..=days_in_month(year, month)).contains(&day);
        there.then_some(Self { year, month, day })
    }

    /// The next.
    #[must_use]
    pub fn next(self) -> Self {
        if self.day < days_in_month(self.year, self.month) {
            return Self {
                day: self.day + 1,
                ..self
            };
        }
        if self.month < 12 {
            return Self {
                month: self.month + 1,
                day: 1,
                ..self
            };
        }
        Self {
            year: self.year + 1,
            month: 1,
            day: 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn years_have_their_days_and_the_calendar_goes_round() {
        // The Gregorian rule: 2000 and 2024 are leap years, 1900 and 2023 are not.
        for (year, days) in [(2000, 366), (2024, 366), (1900, 365), (2023, 365)] {
            let first = Day::new(year, 1, 1).expect("a day");
            let mut day = first;
            let mut count = 0;
            while day.year == year {
                day = day.next();
                count += 1;
            }
            assert_eq!(count, days, "{year}");
        }
        assert!(Day::new(2023, 2, 29).is_none());
        assert!(Day::new(2024, 2, 29).is_some());
        assert!(Day::new(2023, 13, 1).is_none() && Day::new(2023, 4, 31).is_none());
    }
}
