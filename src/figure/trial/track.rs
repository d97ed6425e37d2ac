//! Readings over time, ready to be drawn at any width: of every stretch of them the extremes are
//! known.

use crate::physics::counts::seconds_as_f64;
use crate::series::{Extremes, SevenDigits, stretches};
use std::ops::Range;
use std::sync::Arc;

/// Points of a line: seconds since the start of 1970 on the clock of the place, and the value.
pub type Points = Vec<[f64; 2]>;

/// Values over time.
#[derive(Clone, Debug, Default)]
pub struct Track {
    times_s: Arc<Vec<i64>>,
    values: SevenDigits,
    extremes: Extremes,
    stretches: Vec<Range<usize>>,
}

impl Track {
    /// Values at times in order, NaN where there is none.
    #[must_use]
    pub fn new(times_s: Arc<Vec<i64>>, values: impl IntoIterator<Item = f64>) -> Self {
        let values: SevenDigits = values.into_iter().collect();
        let extremes = Extremes::of(&values);
        let stretches = stretches(&times_s, &values);
        Self {
            times_s,
            values,
            extremes,
            stretches,
        }
    }

    /// The times, in order.
    #[must_use]
    pub fn times(&self) -> &[i64] {
        &self.times_s
    }

    /// Whether it has no value at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.stretches.is_empty()
    }

    /// From the first to the last value, s.
    #[must_use]
    pub fn span(&self) -> Option<(i64, i64)> {
        let first = self.stretches.first()?.start;
        let last = self.stretches.last()?.end.checked_sub(1)?;
        Some((*self.times_s.get(first)?, *self.times_s.get(last)?))
    }

    /// The lines within a span of seconds, one for each stretch without a hole, of some `pairs` pairs
    /// of points in all; each is led on to the next value on either side, so that it leaves the
    /// picture at its edge.
    #[must_use]
    pub fn lines(&self, (from, to): (i64, i64), pairs: usize) -> Vec<Points> {
        let rows = self.rows(from, to);
        let all = rows.len().max(1);
        self.stretches
            .iter()
            .filter_map(|stretch| {
                let part = stretch.start.max(rows.start)..stretch.end.min(rows.end);
                let share = (pairs * part.len()).div_ceil(all);
                let kept = (part.start < part.end)
                    .then(|| self.extremes.thinned(&self.values, part, share.max(2)))?;
                Some(kept.into_iter().filter_map(|row| self.point(row)).collect())
            })
            .filter(|points: &Points| !points.is_empty())
            .collect()
    }

    /// How many rows a span of seconds holds.
    #[must_use]
    pub fn number(&self, (from, to): (i64, i64)) -> usize {
        self.rows(from, to).len()
    }

    /// The rows of a span, and one more on either side.
    fn rows(&self, from: i64, to: i64) -> Range<usize> {
        let start = self.times_s.partition_point(|time| *time < from);
        let end = self.times_s.partition_point(|time| *time <= to);
        start.saturating_sub(1)..(end + 1).min(self.times_s.len())
    }

    fn point(&self, row: usize) -> Option<[f64; 2]> {
        let time = self.times_s.get(row)?;
        let value = self.values.get(row).filter(|value| !value.is_nan())?;
        Some([seconds_as_f64(*time), f64::from(value)])
    }

    /// The value read at a time: that of the row before it, unless that is longer ago than `within`
    /// seconds.
    #[must_use]
    pub fn at(&self, time: i64, within: i64) -> Option<f64> {
        self.kept_at(time, within).map(f64::from)
    }

    /// The same with the digits that are kept of it.
    #[must_use]
    pub fn kept_at(&self, time: i64, within: i64) -> Option<f32> {
        let row = self.times_s.partition_point(|one| *one <= time);
        let row = row.checked_sub(1)?;
        let is_near = time - self.times_s.get(row)? <= within;
        let value = self.values.get(row);
        value.filter(|value| is_near && !value.is_nan())
    }

    /// The time of the row `by` rows further on than the one at or before a time; the first and the
    /// last row are the ends.
    #[must_use]
    pub fn step(&self, time: i64, by: i64) -> Option<i64> {
        let last = i64::try_from(self.times_s.len()).ok()? - 1;
        let row = self.times_s.partition_point(|one| *one <= time);
        let row = i64::try_from(row).ok()? - 1;
        let wanted = (row + by).clamp(0, last.max(0));
        self.times_s.get(usize::try_from(wanted).ok()?).copied()
    }

    /// Lowest and highest value of lines.
    #[must_use]
    pub fn range<'a>(lines: impl IntoIterator<Item = &'a Points>) -> Option<(f64, f64)> {
        lines
            .into_iter()
            .flatten()
            .map(|[_, value]| (*value, *value))
            .reduce(|(low, high), (one, other)| (low.min(one), high.max(other)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hours(values: &[f64]) -> Track {
        let times = (0..values.len()).map(|at| 3600 * i64::try_from(at).unwrap());
        Track::new(Arc::new(times.collect()), values.iter().copied())
    }

    #[test]
    fn a_line_leaves_the_picture_at_its_edges_and_is_broken_where_nothing_counts() {
        let mut values = vec![1.0; 50];
        values[20..30].fill(f64::NAN);
        let track = hours(&values);
        assert_eq!(track.span(), Some((0, 49 * 3600)));
        let lines = track.lines((5 * 3600, 40 * 3600), 100);
        assert_eq!(lines.len(), 2);
        assert_eq!(lines[0].first(), Some(&[4.0 * 3600.0, 1.0]));
        assert_eq!(lines[0].last(), Some(&[19.0 * 3600.0, 1.0]));
        assert_eq!(lines[1].last(), Some(&[41.0 * 3600.0, 1.0]));
    }

    #[test]
    fn the_cursor_reads_what_was_read_last_and_nothing_in_a_hole() {
        let track = hours(&[1.0, 2.0, f64::NAN, 4.0]);
        assert_eq!(track.at(3700, 3600), Some(2.0));
        assert_eq!(track.at(2 * 3600 + 5, 3600), None);
        assert_eq!(track.at(3 * 3600 + 7200, 3600), None);
        assert_eq!(track.at(-1, 3600), None);
        assert_eq!(track.step(3600, 1), Some(7200));
        assert_eq!(track.step(3600, -5), Some(0));
        assert_eq!(track.step(3600, 50), Some(3 * 3600));
        assert_eq!(Track::default().step(0, 1), None);
    }
}
