//! Fewer points that draw the same line: of each stretch of rows the lowest and the highest.
//!
//! A line over a million rows has no more to show than a lowest and a highest value for each column
//! of the screen. Buckets begin at fixed rows, so that a line does not flicker while it is moved, and
//! their extremes are found once, from small buckets to large ones.

use super::SevenDigits;
use std::ops::Range;

/// Rows of the smallest bucket.
const LEAST: usize = 16;

/// Rows of the smallest bucket whose extremes are kept; those of smaller ones are found again each
/// time, among as many rows as the picture is wide.
const KEPT_FROM: usize = 64;

/// The rows of the lowest and the highest value of each bucket of a channel, for buckets of 64, 128,
/// 256 … rows. A bucket without any value has none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extremes {
    levels: Vec<Vec<Option<Ends>>>,
}

/// Rows of the lowest and the highest value.
type Ends = (u32, u32);

impl Extremes {
    /// Finds them. Values that are no numbers are passed over.
    #[must_use]
    pub fn of(values: &SevenDigits) -> Self {
        let starts = (0..values.len()).step_by(KEPT_FROM);
        let smallest: Vec<Option<Ends>> = starts
            .map(|start| ends(values, start..(start + KEPT_FROM).min(values.len())))
            .collect();
        let mut levels = vec![smallest];
        while let Some(last) = levels.last().filter(|last| last.len() > 1) {
            let next = last
                .chunks(2)
                .map(|pair| {
                    let pair = pair.iter().flatten();
                    pair.copied().reduce(|one, other| wider(values, one, other))
                })
                .collect();
            levels.push(next);
        }
        Self { levels }
    }

    /// Rows that draw the line of these rows, in order and each once: of every bucket the lowest and
    /// the highest, at most some `pairs` buckets; all rows with a value where they are as few as that.
    /// The first and the last row with a value are among them.
    ///
    /// `values` are those that the extremes were found of.
    #[must_use]
    pub fn thinned(&self, values: &SevenDigits, rows: Range<usize>, pairs: usize) -> Vec<usize> {
        let rows = rows.start.min(values.len())..rows.end.min(values.len());
        let is_there = |row: &usize| values.has(*row);
        let pairs = pairs.max(1);
        if rows.len() <= 2 * pairs {
            return rows.filter(is_there).collect();
        }
        let mut size = LEAST;
        let largest = KEPT_FROM << self.levels.len().saturating_sub(1);
        while rows.len() > size * pairs && size < largest {
            size *= 2;
        }
        let level = self.level(size);
        let mut kept: Vec<usize> = rows.clone().find(is_there).into_iter().collect();
        let mut at = rows.start;
        while at < rows.end {
            let bucket = at / size;
            let end = ((bucket + 1) * size).min(rows.end);
            let whole = at % size == 0 && (end - at == size || end == values.len());
            let known = level.and_then(|level| level.get(bucket));
            let found = match known {
                Some(found) if whole => *found,
                // A bucket that reaches out of the rows.
                _ => ends(values, at..end),
            };
            if let Some((low, high)) = found {
                kept.extend([row(low.min(high)), row(low.max(high))]);
            }
            at = end;
        }
        kept.extend(rows.rev().find(is_there));
        kept.dedup();
        kept
    }
}

impl Extremes {
    /// The buckets of so many rows, where they are kept.
    fn level(&self, size: usize) -> Option<&Vec<Option<Ends>>> {
        let mut sizes = std::iter::successors(Some(KEPT_FROM), |size| size.checked_mul(2));
        let at = sizes.position(|kept| kept >= size)?;
        self.levels.get(at).filter(|_| size >= KEPT_FROM)
    }
}

fn row(at: u32) -> usize {
    usize::try_from(at).unwrap_or(usize::MAX)
}

fn value(values: &SevenDigits, at: u32) -> f32 {
    values.get(row(at)).unwrap_or(f32::NAN)
}

/// The lowest and the highest of two pairs.
fn wider(values: &SevenDigits, (low, high): Ends, (other_low, other_high): Ends) -> Ends {
    let lower = value(values, other_low) < value(values, low);
    let higher = value(values, other_high) > value(values, high);
    (
        if lower { other_low } else { low },
        if higher { other_high } else { high },
    )
}

/// The rows of the lowest and the highest value of some rows.
fn ends(values: &SevenDigits, rows: Range<usize>) -> Option<Ends> {
    rows.filter(|row| values.has(*row))
        .filter_map(|row| u32::try_from(row).ok())
        .map(|at| (at, at))
        .reduce(|one, other| wider(values, one, other))
}

/// Rows between holes: where two neighbours that have a value lie further apart than four times the
/// usual step, and half an hour at least, nothing was read between them and no line is drawn.
#[must_use]
pub fn stretches(times: &[i64], values: &SevenDigits) -> Vec<Range<usize>> {
    let there = || {
        let rows = times.iter().zip(values.iter()).enumerate();
        rows.filter_map(|(row, (time, value))| (!value.is_nan()).then_some((row, *time)))
    };
    let steps = there().zip(there().skip(1));
    let mut sample: Vec<i64> = steps.take(2000).map(|(one, next)| next.1 - one.1).collect();
    sample.sort_unstable();
    let usual = sample.get(sample.len() / 2).copied().unwrap_or(0);
    let most = (4 * usual).max(1800);
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut before = None;
    for (row, time) in there() {
        match (found.last_mut(), before) {
            (Some(last), Some(before)) if time - before <= most => last.end = row + 1,
            _ => found.push(row..row + 1),
        }
        before = Some(time);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Values with holes, as rows of a channel.
    fn channel() -> impl Strategy<Value = Vec<f32>> {
        let one = prop_oneof![
            8 => -40.0..60.0_f32,
            1 => Just(f32::NAN),
            2 => Just(7.0),
        ];
        proptest::collection::vec(one, 0..3000)
    }

    fn kept(values: &[f32]) -> SevenDigits {
        values.iter().copied().map(f64::from).collect()
    }

    fn lowest_and_highest(values: impl Iterator<Item = f32>) -> (f32, f32) {
        values
            .filter(|value| !value.is_nan())
            .fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
    }

    proptest! {
        #[test]
        fn thinning_keeps_the_extremes_of_every_bucket_the_ends_and_the_order(
            values in channel(), from in 0_usize..3000, many in 0_usize..3000, pairs in 1_usize..400
        ) {
            let all = kept(&values);
            let rows = from..from + many;
            let kept = Extremes::of(&all).thinned(&all, rows.clone(), pairs);
            let there: Vec<usize> = rows
                .filter(|row| values.get(*row).is_some_and(|value| !value.is_nan()))
                .collect();
            // In order, each once, none that has no value.
            prop_assert!(kept.windows(2).all(|pair| pair[0] < pair[1]));
            prop_assert!(kept.iter().all(|row| there.contains(row)));
            prop_assert_eq!(kept.first(), there.first());
            prop_assert_eq!(kept.last(), there.last());
            prop_assert!(kept.len() <= 2 * (pairs + 2) + 2 || kept.len() <= 2 * LEAST + 2);
            prop_assert_eq!(
                lowest_and_highest(kept.iter().map(|row| values[*row])),
                lowest_and_highest(there.iter().map(|row| values[*row]))
            );
            // What is left out lies between two kept rows that reach as far up and down as it does:
            // no peak is lost within the width of two buckets.
            if kept.len() < there.len() {
                let mut size = LEAST;
                while many > size * pairs && size < 3000 { size *= 2; }
                for row in &there {
                    let near = kept.iter().filter(|one| one.abs_diff(*row) < size);
                    let (low, high) = lowest_and_highest(near.map(|one| values[*one]));
                    prop_assert!(low <= values[*row] && values[*row] <= high, "row {}", row);
                }
            }
        }

        #[test]
        fn stretches_hold_every_value_once_and_no_hole(
            steps in proptest::collection::vec(prop_oneof![9 => Just(600_i64), 1 => 1..100_000_i64], 0..400),
            missing in proptest::collection::vec(0_usize..400, 0..40)
        ) {
            let mut times = vec![0];
            for step in &steps {
                times.push(times[times.len() - 1] + step);
            }
            let value = |row: usize| if missing.contains(&row) { f32::NAN } else { 1.0 };
            let values: Vec<f32> = (0..times.len()).map(value).collect();
            let found = stretches(&times, &kept(&values));
            prop_assert!(found.windows(2).all(|pair| pair[0].end <= pair[1].start));
            for (row, value) in values.iter().enumerate() {
                let inside = found.iter().any(|stretch| stretch.contains(&row));
                prop_assert!(value.is_nan() || inside, "row {} is lost", row);
            }
            for stretch in &found {
                prop_assert!(!values[stretch.start].is_nan() && !values[stretch.end - 1].is_nan());
            }
        }
    }

    #[test]
    fn a_day_without_readings_parts_a_line_of_ten_minutes() {
        let mut times: Vec<i64> = (0..100).map(|at| at * 600).collect();
        times.extend((0..50).map(|at| 100 * 600 + 86_400 + at * 600));
        let mut values = vec![5.0; times.len()];
        assert_eq!(stretches(&times, &kept(&values)), [0..100, 100..150]);
        assert!(stretches(&[], &kept(&[])).is_empty());
        assert!(stretches(&[5], &kept(&[f32::NAN])).is_empty());
        // What is left out for hours parts the line too; a single reading does not.
        values[20] = f32::NAN;
        values[40..60].fill(f32::NAN);
        assert_eq!(
            stretches(&times, &kept(&values)),
            [0..40, 60..100, 100..150]
        );
    }

    #[test]
    fn a_million_rows_are_a_few_hundred_points() {
        let values: Vec<f32> = (0..1_000_u16)
            .flat_map(|part| (0..1_000_u16).map(move |at| (part, at)))
            .map(|(part, at)| (f32::from(part) + 0.001 * f32::from(at)).sin() * f32::from(at % 97))
            .collect();
        let values = kept(&values);
        let extremes = Extremes::of(&values);
        let kept = extremes.thinned(&values, 0..values.len(), 400);
        assert!(kept.len() > 400 && kept.len() <= 804, "{}", kept.len());
        let narrow = extremes.thinned(&values, 500_000..500_300, 400);
        assert_eq!(narrow.len(), 300);
    }
}
