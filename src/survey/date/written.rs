//! How dates are written: the order of day, month and year differs from country to country.

use super::iso::parse;
use crate::climate::MonthDay;

/// A way of writing dates.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DateWay {
    /// `2026-01-31`, as the survey holds them.
    #[default]
    YearMonthDay,
    /// `31.01.2026`, with this sign between.
    DayMonthYear(char),
    /// `01/31/2026`.
    MonthDayYear,
}

/// Languages in which the day stands first, with the sign between. How each country writes its
/// dates is that of the common locale data of GNU systems \[M\].
const DAY_FIRST: [(char, &[&str]); 3] = [
    (
        '.',
        &[
            "de", "at", "pl", "cs", "sk", "ru", "uk", "be", "fi", "nb", "nn", "no", "tr", "ro",
            "bg", "hr", "sl", "sr", "et", "lv", "is", "mk", "da",
        ],
    ),
    (
        '/',
        &[
            "en", "fr", "es", "it", "pt", "el", "ca", "gl", "ga", "cy", "mt",
        ],
    ),
    ('-', &["nl", "fy"]),
];

/// Places of those languages where the year stands first after all.
const YEAR_FIRST: [&str; 3] = ["en_CA", "fr_CA", "en_ZA"];

impl DateWay {
    /// The way of a locale by its name, such as `de_CH.UTF-8`; year first where it is not known.
    #[must_use]
    pub fn of_locale(locale: &str) -> Self {
        let place = locale.split(['.', '@']).next().unwrap_or_default();
        let language = place.split('_').next().unwrap_or_default();
        match place {
            "en_US" | "en_PR" | "es_US" | "es_PR" => Self::MonthDayYear,
            place if YEAR_FIRST.contains(&place) => Self::YearMonthDay,
            _ => DAY_FIRST
                .iter()
                .find(|(_, languages)| languages.contains(&language))
                .map_or(Self::YearMonthDay, |(sign, _)| Self::DayMonthYear(*sign)),
        }
    }

    /// What is to be typed: `day.month.year`.
    #[must_use]
    pub const fn hint(self) -> &'static str {
        match self {
            Self::YearMonthDay => "year-month-day",
            Self::DayMonthYear('.') => "day.month.year",
            Self::DayMonthYear('-') => "day-month-year",
            Self::DayMonthYear(_) => "day/month/year",
            Self::MonthDayYear => "month/day/year",
        }
    }

    /// A date of the survey as it is written here; what is no date stays as it is.
    ///
    /// ```
    /// use gapledger::survey::date::DateWay;
    /// assert_eq!(DateWay::MonthDayYear.written("2026-01-31"), "01/31/2026");
    /// assert_eq!(DateWay::MonthDayYear.written("spring"), "spring");
    /// ```
    #[must_use]
    pub fn written(self, date: &str) -> String {
        let Some((year, month, day)) = parse(date) else {
            return date.to_owned();
        };
        match self {
            Self::YearMonthDay => date.trim().to_owned(),
            Self::DayMonthYear(sign) => format!("{day:02}{sign}{month:02}{sign}{year:04}"),
            Self::MonthDayYear => format!("{month:02}/{day:02}/{year:04}"),
        }
    }

    /// The date, as the survey holds it, that was typed here: year first, or in the order of this
    /// place. The other order is taken only where no day can be meant by both; `None` where no
    /// date or more than one is meant.
    #[must_use]
    pub fn read(self, text: &str) -> Option<String> {
        let text = text.trim();
        if parse(text).is_some() {
            return Some(text.to_owned());
        }
        let (sign, day_first, month_first) = both(text)?;
        match (day_first, month_first) {
            (Some(one), Some(other)) if one != other => match self {
                Self::DayMonthYear(own) if own == sign || sign == '.' => Some(one),
                Self::MonthDayYear if sign == '/' => Some(other),
                // A point between is never that of a month in front.
                _ if sign == '.' => Some(one),
                _ => None,
            },
            (one, other) => one.or(other),
        }
    }

    /// Both readings in words of a date that is written in an order of its own: `3 April 2026 or 4
    /// March 2026`.
    #[must_use]
    pub fn two_readings(text: &str) -> Option<String> {
        let (_, day_first, month_first) = both(text.trim())?;
        let (one, other) = (in_words(&day_first?)?, in_words(&month_first?)?);
        (one != other).then(|| format!("{one} or {other}"))
    }
}

/// The sign between, and the dates of a text that ends in a year of four digits: with the day
/// first, and with the month first.
fn both(text: &str) -> Option<(char, Option<String>, Option<String>)> {
    let sign = text.chars().find(|sign| matches!(sign, '.' | '/' | '-'))?;
    let parts: Vec<&str> = text.split(sign).map(str::trim).collect();
    let [first, second, year] = parts.as_slice() else {
        return None;
    };
    let short = |part: &&str| (1..=2).contains(&part.len()) && is_digits(part);
    if !short(first) || !short(second) || year.len() != 4 || !is_digits(year) {
        return None;
    }
    let dated = |month: &str, day: &str| {
        let date = format!("{year}-{month:0>2}-{day:0>2}");
        parse(&date).map(|_| date)
    };
    Some((sign, dated(second, first), dated(first, second)))
}

fn is_digits(part: &str) -> bool {
    part.bytes().all(|digit| digit.is_ascii_digit())
}

fn in_words(date: &str) -> Option<String> {
    let (year, month, day) = parse(date)?;
    let name = MonthDay::month_name(month);
    Some(format!("{day} {name} {year}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const SLASHES: DateWay = DateWay::DayMonthYear('/');
    const POINTS: DateWay = DateWay::DayMonthYear('.');

    #[test]
    fn each_locale_has_its_order() {
        for (locale, way) in [
            ("en_US.UTF-8", DateWay::MonthDayYear),
            ("en_GB.UTF-8", SLASHES),
            ("de_CH.UTF-8", POINTS),
            ("de_DE@euro", POINTS),
            ("nl_NL", DateWay::DayMonthYear('-')),
            ("sv_SE.UTF-8", DateWay::YearMonthDay),
            ("en_CA", DateWay::YearMonthDay),
            ("C.UTF-8", DateWay::YearMonthDay),
            ("", DateWay::YearMonthDay),
        ] {
            assert_eq!(DateWay::of_locale(locale), way, "{locale}");
        }
    }

    #[test]
    fn a_date_is_read_in_the_order_of_the_place_or_refused() {
        let iso = |date: &str| Some(date.to_owned());
        for (way, text, read) in [
            (POINTS, "31.1.2026", iso("2026-01-31")),
            (POINTS, "3.4.2026", iso("2026-04-03")),
            (POINTS, "2026-04-03", iso("2026-04-03")),
            (POINTS, "03/04/2026", None),
            (POINTS, "31/01/2026", iso("2026-01-31")),
            (SLASHES, "03/04/2026", iso("2026-04-03")),
            (SLASHES, "3.4.2026", iso("2026-04-03")),
            (SLASHES, "3-4-2026", None),
            (DateWay::MonthDayYear, "03/04/2026", iso("2026-03-04")),
            (DateWay::MonthDayYear, "31/01/2026", iso("2026-01-31")),
            (DateWay::MonthDayYear, "3-4-2026", None),
            (DateWay::YearMonthDay, "03/04/2026", None),
            (DateWay::YearMonthDay, "04/04/2026", iso("2026-04-04")),
            (POINTS, "3.4.26", None),
            (POINTS, "30.2.2026", None),
            (POINTS, "spring", None),
        ] {
            assert_eq!(way.read(text), read, "{way:?} {text}");
        }
        let two = DateWay::two_readings("03/04/2026");
        assert_eq!(two.as_deref(), Some("3 April 2026 or 4 March 2026"));
        assert_eq!(DateWay::two_readings("31/01/2026"), None);
        assert_eq!(DateWay::two_readings("04/04/2026"), None);
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_as_the_same_date(year in 1900u16..2200, month in 1u8..=12, day in 1u8..=31) {
            let date = format!("{year:04}-{month:02}-{day:02}");
            prop_assume!(parse(&date).is_some());
            for way in [DateWay::YearMonthDay, POINTS, SLASHES, DateWay::DayMonthYear('-'), DateWay::MonthDayYear] {
                prop_assert_eq!(way.read(&way.written(&date)), Some(date.clone()));
            }
        }
    }
}
