//! The winter out of a run of hours.

use super::calendar::{Day, MonthDay};
use super::hour::{Hour, Weather};
use std::ops::Range;

/// First and last day of a winter: November to March, in the south May to September.
#[must_use]
pub fn usual_season(south: bool) -> (MonthDay, MonthDay) {
    let day = |month, day| MonthDay { month, day };
    if south {
        (day(5, 1), day(9, 30))
    } else {
        (day(11, 1), day(3, 31))
    }
}

/// The hours of one winter in order, those of a file that runs from January to December put
/// together from its end and its start: November, December, January, February, March.
///
/// `None` where the run does not hold a whole winter.
#[must_use]
pub fn season(weather: &Weather) -> Option<Vec<Hour>> {
    let (first, last) = usual_season(weather.place.latitude_deg < 0.0);
    season_between(weather, first, last)
}

/// The same from one day to another of the year, both counted. A 29 February stands for the day
/// before or after it where the year has none.
#[must_use]
pub fn season_between(weather: &Weather, first: MonthDay, last: MonthDay) -> Option<Vec<Hour>> {
    let (whole, early, late) = runs(weather, first, last);
    let of = |run: &Range<usize>| weather.hours.get(run.clone()).unwrap_or_default();
    if let Some(run) = whole.first() {
        return Some(of(run).to_vec());
    }
    // A year from January: its last months come before its first.
    Some([of(&late?), of(&early?)].concat())
}

/// How many winters from one day to another a run of hours holds whole.
#[must_use]
pub fn whole_winters(weather: &Weather, first: MonthDay, last: MonthDay) -> usize {
    runs(weather, first, last).0.len()
}

/// Where winters stand in a run of hours: whole ones, an early part that begins with a January, and a late
/// part that ends with a December.
type Runs = (
    Vec<Range<usize>>,
    Option<Range<usize>>,
    Option<Range<usize>>,
);

fn runs(weather: &Weather, first: MonthDay, last: MonthDay) -> Runs {
    let inside = |day: Day| first.days_until(day.into()) <= first.days_until(last);
    let hours = &weather.hours;
    let mut runs: Vec<Range<usize>> = Vec::new();
    for (at, hour) in hours.iter().enumerate() {
        if !inside(hour.day) {
            continue;
        }
        match runs.last_mut() {
            // A new winter begins on its first day, also where the one before ended on its eve.
            Some(run) if run.end == at && !begins(hour, first) => run.end += 1,
            _ => runs.push(at..at + 1),
        }
    }
    let of = |run: &Range<usize>| hours.get(run.clone()).unwrap_or_default();
    let begins = |run: &Range<usize>| of(run).first().is_some_and(|hour| begins(hour, first));
    let ends = |run: &Range<usize>| {
        let hour = of(run).last();
        hour.is_some_and(|hour| {
            let next = hour.day.next();
            hour.hour == 24 && (!inside(next) || MonthDay::from(next) == first)
        })
    };
    let whole = runs.iter().filter(|run| begins(run) && ends(run)).cloned();
    let early = runs.iter().find(|run| {
        let hour = of(run).first();
        let january = |hour: &Hour| (hour.day.month, hour.day.day, hour.hour) == (1, 1, 1);
        hour.is_some_and(january) && ends(run)
    });
    let late = runs.iter().find(|run| {
        let hour = of(run).last();
        let december = |hour: &Hour| (hour.day.month, hour.day.day, hour.hour) == (12, 31, 24);
        begins(run) && hour.is_some_and(december)
    });
    (whole.collect(), early.cloned(), late.cloned())
}

/// Whether the last months of a year stand before its own first: halves of two winters put together.
#[must_use]
pub fn is_of_one_year(season: &[Hour]) -> bool {
    let days = season.iter().map(|hour| hour.day);
    let mut pairs = days.clone().zip(days.skip(1));
    pairs.any(|(was, now)| (was.month, now.month) == (12, 1) && was.year == now.year)
}

/// Whether the hours of a winter are from several years, put together month by month as a typical year
/// is: the year changes elsewhere than from December to the January after it.
#[must_use]
pub fn is_of_several_years(season: &[Hour]) -> bool {
    let days = season.iter().map(|hour| hour.day);
    days.clone().zip(days.skip(1)).any(|(was, now)| {
        let new_year = (was.month, now.month, now.year) == (12, 1, was.year + 1);
        was.year != now.year && !new_year
    })
}

/// Whether a winter begins with an hour.
fn begins(hour: &Hour, first: MonthDay) -> bool {
    let day = MonthDay::from(hour.day);
    let leap_day = MonthDay { month: 2, day: 29 };
    let march = MonthDay { month: 3, day: 1 };
    let common = !super::calendar::is_leap(hour.day.year);
    hour.hour == 1 && (day == first || (first == leap_day && common && day == march))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::climate::Place;

    /// Every hour of the years from one to another.
    fn years(from: i32, to: i32) -> Weather {
        let first = Day::new(from, 1, 1).expect("a day");
        let days = std::iter::successors(Some(first), |day| Some(day.next()));
        let days = days.take_while(|day| day.year <= to);
        Weather {
            place: Place {
                name: String::new(),
                latitude_deg: 50.0,
                longitude_deg: 0.0,
                zone_h: 0.0,
                clock_assumed: false,
                altitude_m: 0.0,
            },
            hours: days
                .flat_map(|day| (1..=24).map(move |hour| Hour::blank(day, hour)))
                .collect(),
            invented: false,
        }
    }

    fn day(text: &str) -> MonthDay {
        MonthDay::parse(text).expect("a day")
    }

    #[test]
    fn a_season_has_the_days_between_its_first_and_its_last() {
        for (years, first, last, days) in [
            (years(2023, 2023), "11-01", "03-31", 151),
            (years(2023, 2024), "11-01", "03-31", 152),
            (years(2023, 2023), "02-10", "02-12", 3),
            (years(2023, 2023), "12-01", "02-29", 90),
            (years(2024, 2024), "02-29", "03-02", 3),
            (years(2023, 2023), "02-29", "03-02", 2),
        ] {
            let found = season_between(&years, day(first), day(last)).expect("there");
            assert_eq!(found.len(), days * 24, "{first} to {last}");
            let (one, other) = (found[0], found[found.len() - 1]);
            assert_eq!((one.hour, other.hour), (1, 24));
        }
        assert_eq!(
            season(&years(2023, 2023)).map(|hours| hours.len()),
            Some(151 * 24)
        );
    }

    #[test]
    fn hours_that_end_within_the_season_are_no_whole_season() {
        let mut short = years(2023, 2023);
        short.hours.truncate(24 * 40);
        assert_eq!(season_between(&short, day("01-10"), day("02-20")), None);
        assert!(season_between(&short, day("01-10"), day("02-09")).is_some());
    }

    #[test]
    fn months_of_several_years_are_told_from_winters_as_they_were() {
        // As a file of one year has them, and as records of three years have them.
        for weather in [years(2023, 2023), years(2021, 2023)] {
            assert!(!is_of_several_years(&season(&weather).expect("a winter")));
        }
        let mut typical = years(2023, 2023);
        for hour in &mut typical.hours {
            if hour.day.month == 2 {
                hour.day.year = 1998;
            }
        }
        assert!(is_of_several_years(&season(&typical).expect("a winter")));
    }
}
