//! The winter out of a run of hours.

use super::hour::{Hour, Weather};
use std::ops::Range;

/// Whether a month belongs to the winter: November to March, in the south May to September.
fn in_winter(month: u8, south: bool) -> bool {
    if south {
        (5..=9).contains(&month)
    } else {
        month >= 11 || month <= 3
    }
}

/// The hours of one winter in order, those of a file that runs from January to December put
/// together from its end and its start: November, December, January, February, March.
///
/// `None` where the run does not hold a whole winter.
#[must_use]
pub fn season(weather: &Weather) -> Option<Vec<Hour>> {
    let south = weather.place.latitude_deg < 0.0;
    let hours = &weather.hours;
    let mut runs: Vec<Range<usize>> = Vec::new();
    for (at, hour) in hours.iter().enumerate() {
        if !in_winter(hour.day.month, south) {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.end == at => run.end += 1,
            _ => runs.push(at..at + 1),
        }
    }
    let of = |run: &Range<usize>| hours.get(run.clone()).unwrap_or_default();
    let first = |run: &Range<usize>| {
        of(run)
            .first()
            .map(|hour| (hour.day.month, hour.day.day, hour.hour))
    };
    let last = |run: &Range<usize>| {
        of(run)
            .last()
            .map(|hour| (hour.day.month, hour.day.day, hour.hour))
    };
    let (begins, ends) = if south {
        ((5, 1, 1), (9, 30, 24))
    } else {
        ((11, 1, 1), (3, 31, 24))
    };
    let whole = runs
        .iter()
        .find(|run| first(run) == Some(begins) && last(run) == Some(ends));
    if let Some(run) = whole {
        return Some(of(run).to_vec());
    }
    // A year from January: its last months come before its first.
    let early = runs
        .iter()
        .find(|run| first(run) == Some((1, 1, 1)) && last(run) == Some(ends))?;
    let late = runs
        .iter()
        .find(|run| first(run) == Some(begins) && last(run) == Some((12, 31, 24)))?;
    Some([of(late), of(early)].concat())
}
