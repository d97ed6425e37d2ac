//! What stands beside times and readings in columns that nobody uses, and yet says how these are to be
//! understood: the half of the day, the offset of the clock, times of other sensors, names of sensors.

use std::borrow::Cow;

use super::date;
use super::places::{Places, Times};
use super::spelled;

/// Most names of sensors: more differing texts are no names.
const NAMES: usize = 32;

#[derive(Default)]
pub(super) struct Beside {
    /// The column with AM or PM.
    half: Option<usize>,
    /// The column with the offset.
    pub(super) offset: Option<usize>,
    /// Columns with times that are not those taken, with the first of them.
    others: Vec<(usize, Vec<u8>)>,
    /// One of them whose times go on from row to row.
    pub(super) other_times: Option<usize>,
    pub(super) labels: Vec<Labels>,
    rows: usize,
    /// Whether times of day are written as the number of the hour, once one tells.
    are_hours: Option<bool>,
}

/// A column of texts of which a few come again and again.
pub(super) struct Labels {
    pub(super) column: usize,
    pub(super) names: Vec<Vec<u8>>,
    /// Which name each row has.
    pub(super) of_row: Vec<u8>,
}

impl Beside {
    /// By the first row.
    pub(super) fn of(record: &csv::ByteRecord, places: &Places) -> Self {
        let mut beside = Self::default();
        for column in places.left_out.iter().copied() {
            let cell = record.get(column).unwrap_or_default();
            let text = String::from_utf8_lossy(cell);
            if spelled::is_half(&text) {
                beside.half = beside.half.or(Some(column));
            } else if spelled::offset_alone(&text).is_some() {
                beside.offset = beside.offset.or(Some(column));
            } else if is_time(&text, places) {
                beside.others.push((column, cell.to_owned()));
            } else {
                beside.labels.push(Labels {
                    column,
                    names: Vec::new(),
                    of_row: Vec::new(),
                });
            }
        }
        beside
    }

    /// A time of day with the half of the day that stands in a column of its own.
    pub(super) fn with_half<'a>(
        &self,
        time: Cow<'a, str>,
        record: &csv::ByteRecord,
    ) -> Cow<'a, str> {
        match self.half.and_then(|at| record.get(at)) {
            Some(half) => {
                let half = String::from_utf8_lossy(half);
                Cow::Owned(format!("{} {}", time.trim(), half.trim()))
            }
            None => time,
        }
    }

    /// Nothing while times of day of digits alone are either all hours, or all hours with minutes: `30`
    /// would be taken for an hour where it is half past midnight. `None` where both stand in one file.
    pub(super) fn one_kind(&mut self, time: &str) -> Option<()> {
        let time = time.trim();
        if time.contains(':') || !time.bytes().all(|byte| byte.is_ascii_digit()) {
            return Some(());
        }
        // Midnight is nought in both.
        if time.bytes().all(|byte| byte == b'0') {
            return Some(());
        }
        let is_hour = time.len() <= 2;
        (*self.are_hours.get_or_insert(is_hour) == is_hour).then_some(())
    }

    /// Takes note of a row that was taken.
    pub(super) fn row(&mut self, record: &csv::ByteRecord) {
        if self.rows > 1 && self.labels.is_empty() {
            return;
        }
        self.rows += 1;
        if self.rows == 2 {
            let goes_on = |(column, first): &(usize, Vec<u8>)| {
                let cell = record.get(*column).filter(|cell| !cell.is_empty())?;
                (cell != first).then_some(*column)
            };
            self.other_times = self.others.iter().find_map(goes_on);
        }
        for labels in &mut self.labels {
            labels.take(record.get(labels.column).unwrap_or_default());
        }
        self.labels.retain(|labels| labels.names.len() <= NAMES);
    }
}

impl Labels {
    fn take(&mut self, cell: &[u8]) {
        let is_last = |last: &u8| {
            let name = self.names.get(usize::from(*last));
            name.is_some_and(|name| name == cell)
        };
        if let Some(last) = self.of_row.last().copied().filter(is_last) {
            self.of_row.push(last);
            return;
        }
        let at = self.names.iter().position(|name| name == cell);
        let at = at.unwrap_or_else(|| {
            self.names.push(cell.to_owned());
            self.names.len() - 1
        });
        self.of_row.push(u8::try_from(at).unwrap_or(u8::MAX));
    }

    /// The first two names, where the rows of these sensors stand one below the other: those of each by
    /// itself keep step, and together they do not, or take turns.
    pub(super) fn sensors(&self, times: &[i64]) -> Option<[String; 2]> {
        if !(2..=NAMES).contains(&self.names.len()) || self.of_row.len() != times.len() {
            return None;
        }
        let mut of_each: Vec<Vec<i64>> = vec![Vec::new(); self.names.len()];
        for (name, time) in self.of_row.iter().zip(times) {
            of_each.get_mut(usize::from(*name))?.push(*time);
        }
        // A remark in a few rows names no sensor.
        let few = times.len() / self.names.len() / 4;
        let many = |of_one: &&mut Vec<i64>| of_one.len() >= few.max(3);
        let mut sensors: Vec<&mut Vec<i64>> = of_each.iter_mut().filter(many).collect();
        let keep_step = sensors.iter_mut().all(|of_one| steady(of_one) >= STEADY);
        let [one, other, ..] = sensors.as_slice() else {
            return None;
        };
        let at_once = one.first().max(other.first()) < one.last().min(other.last());
        let turns = self
            .of_row
            .windows(2)
            .filter(|pair| pair.first() != pair.last());
        let take_turns = turns.count() * 10 >= times.len() * 9;
        let is_mixed = keep_step && at_once && (take_turns || steady(&mut times.to_vec()) < STEADY);
        let name = |at: usize| {
            let name = self.names.get(at).map(|name| String::from_utf8_lossy(name));
            name.unwrap_or_default().trim().to_owned()
        };
        is_mixed.then(|| [name(0), name(1)])
    }
}

/// Share of steps alike from which on times keep step.
const STEADY: f64 = 0.75;

/// Puts times in order and gives the share of steps between them that is the commonest.
fn steady(times: &mut [i64]) -> f64 {
    times.sort_unstable();
    let step = |pair: &[i64]| match pair {
        [one, next] => next - one,
        _ => 0,
    };
    let mut steps: Vec<i64> = times.windows(2).map(step).collect();
    steps.sort_unstable();
    let most = steps
        .chunk_by(|one, next| one == next)
        .map(<[i64]>::len)
        .max();
    crate::physics::counts::count(most.unwrap_or(0))
        / crate::physics::counts::count(steps.len().max(1))
}

/// Whether a cell is a time of the kind that the mapping takes from elsewhere.
fn is_time(text: &str, places: &Places) -> bool {
    let is_written = text.contains(['-', '/', '.', ':', ' ']);
    let is_moment = is_written && !date::orders(text).is_empty();
    let is_of_day = text.contains(':') && date::plain_of_day(text).is_some();
    match places.times {
        Times::Moment(_) => is_moment,
        Times::Apart { .. } => is_moment || is_of_day,
    }
}
