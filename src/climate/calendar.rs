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

/// A day of any year.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MonthDay {
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
}

impl MonthDay {
    /// A day as it is written down, month first: `11-01`. `None` where there is no such day; 29
    /// February is one.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (month, day) = text.trim().split_once('-')?;
        let number = |digits: &str| {
            let plain = (1..=2).contains(&digits.len());
            let plain = plain && digits.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| digits.parse::<u8>().ok()).flatten()
        };
        let (month, day) = (number(month)?, number(day)?);
        let days = days_in_month(LEAP_YEAR, month);
        (1..=days).contains(&day).then_some(Self { month, day })
    }

    /// Name of a month; empty for a number that is none.
    #[must_use]
    pub fn month_name(month: u8) -> &'static str {
        const NAMES: [&str; 12] = [
            "January",
            "February",
            "March",
            "April",
            "May",
            "June",
            "July",
            "August",
            "September",
            "October",
            "November",
            "December",
        ];
        let at = usize::from(month).checked_sub(1);
        at.and_then(|at| NAMES.get(at)).copied().unwrap_or("")
    }

    /// How many days later another is, the year going round; 29 February counts as a day.
    #[must_use]
    pub fn days_until(self, other: Self) -> u16 {
        let place = |day: Self| {
            let before = (1..day.month).map(|month| u16::from(days_in_month(LEAP_YEAR, month)));
            before.sum::<u16>() + u16::from(day.day)
        };
        (place(other) + YEAR_DAYS - place(self)) % YEAR_DAYS
    }
}

impl From<Day> for MonthDay {
    fn from(day: Day) -> Self {
        Self {
            month: day.month,
            day: day.day,
        }
    }
}

/// Its days.
const YEAR_DAYS: u16 = 366;

/// A year with a 29 February.
const LEAP_YEAR: i32 = 2024;
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_of_the_year_is_month_and_day_and_no_other_text() {
        let day = |month, day| Some(MonthDay { month, day });
        assert_eq!(MonthDay::parse("11-01"), day(11, 1));
        assert_eq!(MonthDay::parse(" 2-29 "), day(2, 29));
        for wrong in [
            "",
            "11",
            "13-01",
            "0-1",
            "2-30",
            "11-31",
            "1-+1",
            "2024-11-01",
            "1 Nov",
        ] {
            assert_eq!(MonthDay::parse(wrong), None, "{wrong:?}");
        }
    }

    #[test]
    fn days_are_counted_round_the_year() {
        let day = |text| MonthDay::parse(text).expect("a day");
        assert_eq!(day("11-01").days_until(day("11-01")), 0);
        assert_eq!(day("01-01").days_until(day("12-31")), 365);
        assert_eq!(day("02-28").days_until(day("03-01")), 2);
        // November 30, December 31, January 31, February 29, and to 31 March 30.
        assert_eq!(day("11-01").days_until(day("03-31")), 151);
    }

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
