//! Rows as a series: put on one axis of time and in order, each time once.

use std::sync::Arc;

use jiff::tz::{AmbiguousOffset, TimeZone};

use super::mapping::{Column, Mapping, Zone};
use super::notes::Note;
use super::readings::Readings;
use super::refused::ReadError;
use super::rows::{Channel, Series};
use super::taken::Rows;

impl Rows<'_> {
    /// All rows in order of time, and what was done to them.
    ///
    /// # Errors
    /// Where what was left out or has the same time is most of the file, or sensors stand one below the
    /// other.
    pub(super) fn into_series(mut self) -> Result<Series, ReadError> {
        if let Some(refused) = self.too_much_left_out() {
            return Err(refused);
        }
        if let Some(error) = self.sensors_below_each_other() {
            return Err(error);
        }
        let odd_times = self.place();
        let mut notes = Vec::new();
        if self.times.is_sorted_by(|one, next| one < next) {
            // As nearly every logger writes them: nothing is to be put in order, nothing doubled.
            notes.extend(self.last_notes(odd_times));
            return Ok(Series {
                channels: channels(self.mapping, std::mem::take(&mut self.values)),
                times_s: Arc::new(self.times),
                notes,
            });
        }
        if matches!(self.mapping.zone, Zone::Unnamed)
            && !self.says_offset
            && let Some(at) = self.went_back()
        {
            notes.push(Note::WentBackAnHour(at));
        }
        let mut order: Vec<usize> = (0..self.times.len()).collect();
        let time = |at: usize| self.times.get(at).copied().unwrap_or_default();
        let out_of_order = falls(&self.times);
        if out_of_order > 0 {
            order.sort_by_key(|at| time(*at));
            notes.push(Note::PutInOrder(out_of_order));
        }
        let same = |one: usize, other: usize| {
            self.values.iter().all(|values| {
                let value = |at: usize| values.get(at).map(|value| value.to_bits());
                value(one) == value(other)
            })
        };
        let (mut kept, mut doubled, mut conflicting, mut first) =
            (Vec::with_capacity(order.len()), 0, 0, None);
        for at in order {
            match kept.last() {
                Some(last) if time(*last) == time(at) => {
                    if same(*last, at) {
                        doubled += 1;
                    } else {
                        conflicting += 1;
                        first.get_or_insert(time(at));
                    }
                }
                _ => kept.push(at),
            }
        }
        if conflicting >= 3 && (doubled + conflicting) * 2 >= self.times.len() {
            return Err(self.same_times(conflicting, first.unwrap_or_default()));
        }
        notes.extend((doubled > 0).then_some(Note::Doubled(doubled)));
        notes.extend(first.map(|first| Note::Conflicting(conflicting, first)));
        notes.extend(self.last_notes(odd_times));
        let in_order = |values: &Readings| {
            let kept = kept.iter();
            kept.filter_map(|at| values.get(*at)).collect()
        };
        let values = self.values.iter().map(in_order).collect();
        Ok(Series {
            times_s: Arc::new(kept.iter().map(|at| time(*at)).collect()),
            channels: channels(self.mapping, values),
            notes,
        })
    }

    /// Puts what the clock showed on the axis of the series; how many times the zone does not have, or
    /// has twice and cannot be told apart.
    fn place(&mut self) -> usize {
        let ahead = self.mapping.clock_ahead_s;
        let mut odd = 0;
        match (&self.mapping.zone, self.zone.take()) {
            _ if self.says_offset => self.shift(ahead),
            (Zone::Offset(offset), _) => self.shift(offset.saturating_add(ahead)),
            (_, Some(zone)) => {
                // The hour that comes twice is told apart by what came before it.
                let is_newest_first = falls(&self.times) * 2 > self.times.len();
                if is_newest_first {
                    self.times.reverse();
                }
                let mut last = None;
                for time in &mut self.times {
                    let (placed, is_odd) = in_zone(&zone, *time, last);
                    odd += usize::from(is_odd);
                    last = Some(placed);
                    *time = placed.saturating_sub(ahead);
                }
                if is_newest_first {
                    self.times.reverse();
                }
            }
            _ => self.shift(ahead),
        }
        odd
    }

    fn shift(&mut self, ahead: i64) {
        if ahead != 0 {
            for time in &mut self.times {
                *time = time.saturating_sub(ahead);
            }
        }
    }

    fn sensors_below_each_other(&self) -> Option<ReadError> {
        let mut labels = self.beside.labels.iter();
        labels.find_map(|labels| {
            let [first, second] = labels.sensors(&self.times)?;
            Some(ReadError::SensorsBelowEachOther {
                column: labels.column + 1,
                first,
                second,
            })
        })
    }

    /// Most rows share their time with others: of which there is no reading to take.
    fn same_times(&self, rows: usize, first: i64) -> ReadError {
        let at_midnight = |time: &i64| (time + self.mapping.clock_ahead_s).rem_euclid(86_400) == 0;
        if self.times.iter().all(at_midnight) {
            ReadError::NoTimeOfDay(rows)
        } else {
            ReadError::SameTimes(rows, super::date::written(first))
        }
    }

    /// The time after which the clock goes back by an hour and runs on from there, also where the newest
    /// row stands first.
    fn went_back(&self) -> Option<i64> {
        if falls(&self.times) * 2 > self.times.len() {
            let turned: Vec<i64> = self.times.iter().rev().copied().collect();
            went_back(&turned)
        } else {
            went_back(&self.times)
        }
    }

    /// What was noticed on the way, after what was done to the order.
    fn last_notes(&self, odd_times: usize) -> Vec<Note> {
        let mut notes = Vec::new();
        notes.extend((odd_times > 0).then_some(Note::SummerTime(odd_times)));
        notes.extend((self.missing > 0).then_some(Note::Missing(self.missing)));
        let words = self.words.iter().zip(&self.places.readings);
        notes.extend(
            words
                .filter(|(words, _)| words.cells > 0)
                .map(|(words, (column, _))| Note::Words {
                    column: column + 1,
                    cells: words.cells,
                    line: words.line,
                    found: words.found.clone(),
                }),
        );
        notes.extend(self.marks.notes().into_iter().flatten());
        let (short, passed, behind) = (&self.short, &self.passed, &self.behind);
        notes.extend((short.number > 0).then_some(Note::ShortRows(short.number, short.first)));
        notes.extend((passed.number > 0).then_some(Note::PassedOver(passed.number, passed.first)));
        notes.extend((behind.number > 0).then_some(Note::Ends(behind.first)));
        let other = self.beside.other_times;
        notes.extend(other.map(|column| Note::OtherTimes(column + 1)));
        notes.extend(self.says_offset.then_some(Note::UniversalTime));
        notes
    }
}

/// How often a time is earlier than the one before it.
fn falls(times: &[i64]) -> usize {
    let falls = times.windows(2);
    falls
        .filter(|pair| matches!(pair, [one, next] if next < one))
        .count()
}

/// The columns of readings with their values.
fn channels(mapping: &Mapping, values: Vec<Readings>) -> Vec<Channel> {
    let columns = mapping.columns.iter().filter_map(|column| match column {
        Column::Readings { what, sensor, .. } => Some((*what, sensor.clone())),
        _ => None,
    });
    columns
        .zip(values)
        .map(|((what, sensor), values)| Channel {
            sensor,
            what,
            values,
        })
        .collect()
}

/// Where the clock goes back by an hour less one step and runs on from there. Steps of nearly an hour
/// hardly go back, and steps of an hour stand still for one: that is summer time's end only in the night
/// to a Sunday, when zones change.
fn went_back(times: &[i64]) -> Option<i64> {
    let far = times.windows(3).find_map(|three| match three {
        [before, back, on] if (-3600..=-1800).contains(&(back - before)) && on > back => {
            Some(*before)
        }
        _ => None,
    });
    let near = || {
        times.windows(4).find_map(|four| {
            let [early, before, back, on] = four else {
                return None;
            };
            let step = before - early;
            // 4 January 1970 was a Sunday.
            let is_sunday_night = (before - 3 * 86_400).rem_euclid(7 * 86_400) < 4 * 3600;
            let keeps_step = back - before == step - 3600 && on - back == step && step <= 3600;
            (keeps_step && is_sunday_night).then_some(*before)
        })
    };
    far.or_else(near)
}

/// A civil time of a zone as universal time, and whether the zone does not have it or has it twice
/// without what came before telling which.
fn in_zone(zone: &TimeZone, seconds: i64, last: Option<i64>) -> (i64, bool) {
    let Ok(stamp) = jiff::Timestamp::from_second(seconds) else {
        return (seconds, true);
    };
    let civil = jiff::tz::Offset::UTC.to_datetime(stamp);
    match zone.to_ambiguous_timestamp(civil).offset() {
        AmbiguousOffset::Unambiguous { offset } => (seconds - i64::from(offset.seconds()), false),
        AmbiguousOffset::Gap { before, .. } => (seconds - i64::from(before.seconds()), true),
        AmbiguousOffset::Fold { before, after } => {
            let early = seconds - i64::from(before.seconds());
            let late = seconds - i64::from(after.seconds());
            match last {
                Some(last) if early > last => (early, false),
                Some(_) => (late, false),
                None => (early, true),
            }
        }
    }
}
