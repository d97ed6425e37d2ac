//! Round moments along an axis of time.

use crate::climate::MonthDay;
use crate::series::moment;

const HOUR: i64 = 3600;
const DAY: i64 = 24 * HOUR;

/// Distances between marks, s.
const STEPS: [i64; 12] = [
    600,
    HOUR / 2,
    HOUR,
    2 * HOUR,
    6 * HOUR,
    12 * HOUR,
    DAY,
    2 * DAY,
    5 * DAY,
    10 * DAY,
    28 * DAY,
    91 * DAY,
];

/// Moments between two, at most so many, round ones of an hour or a day, each with its words: the day
/// at midnight, the time of day at others.
#[must_use]
pub fn marks((from, to): (i64, i64), most: usize) -> Vec<(i64, String)> {
    let most = i64::try_from(most).unwrap_or(i64::MAX).max(1);
    let fits = |step: &i64| (to - from) / step < most;
    let last = STEPS.last().copied().unwrap_or(DAY);
    let step = STEPS.into_iter().find(fits).unwrap_or_else(|| {
        let quarters = (to - from) / (last * most) + 1;
        last * quarters
    });
    let first = from.div_euclid(step) * step;
    let all = (0..).map(|at| first + at * step);
    all.skip_while(|at| *at < from)
        .take_while(|at| *at <= to)
        .map(|at| (at, words(at)))
        .collect()
}

/// The day where a moment is midnight, its time of day elsewhere.
#[must_use]
pub fn words(at: i64) -> String {
    let written = moment(at);
    let (day, time) = written.split_once(' ').unwrap_or((&written, ""));
    if at.rem_euclid(DAY) == 0 {
        day_words(day)
    } else {
        time.to_owned()
    }
}

/// Day and month of a date as the program writes it.
fn day_words(date: &str) -> String {
    let mut parts = date.split('-').skip(1).map(str::parse::<u8>);
    match (parts.next(), parts.next()) {
        (Some(Ok(month)), Some(Ok(day))) => {
            let month: String = MonthDay::month_name(month).chars().take(3).collect();
            format!("{day}\u{a0}{month}")
        }
        _ => date.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_round_within_the_span_and_as_few_as_asked() {
        // 2026-01-05 07:20, by the days since 1970: 20458 · 86 400 + 7 h 20 min.
        let from = 20_458 * DAY + 7 * HOUR + 1200;
        for (long, most) in [
            (3 * HOUR, 8),
            (DAY, 8),
            (29 * DAY, 8),
            (400 * DAY, 6),
            (4000 * DAY, 5),
        ] {
            let marks = marks((from, from + long), most);
            assert!((2..=most).contains(&marks.len()), "{long}: {marks:?}");
            assert!(
                marks
                    .iter()
                    .all(|(at, _)| *at >= from && *at <= from + long)
            );
        }
        let days = marks((from, from + 6 * DAY), 8);
        assert_eq!(days[0].1, "6\u{a0}Jan");
        assert_eq!(words(20_458 * DAY + 6 * HOUR), "06:00");
    }
}
