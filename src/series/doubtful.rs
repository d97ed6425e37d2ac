//! Readings that an instrument should not have made: marked, never left out unasked.

use std::collections::BTreeMap;

use super::mapping::What;
use super::rows::{Channel, Series};
use crate::physics::air::saturation_pressure_over_water;

/// What is odd about readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Why {
    /// Outside what the quantity can be, or an instrument can read.
    OutOfRange,
    /// Above 100 % relative humidity.
    AboveSaturation,
    /// The same to the last digit for a day or more, where it had moved before.
    Stuck,
    /// A jump and back again that no air makes.
    Jump,
    /// The outside sensor reads far less water in the air than the station beside it, day after day.
    DriedOut,
}

impl Why {
    /// In words, for a sentence that begins with the sensor.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::OutOfRange => "reads what it cannot be",
            Self::AboveSaturation => "reads above 100 %",
            Self::Stuck => "stays at one value to the last digit",
            Self::Jump => "jumps and comes back",
            Self::DriedOut => {
                "reads far drier than the other source does, day after day: it may have failed"
            }
        }
    }
}

/// A run of odd readings of a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Doubtful {
    /// Place of the channel in [`Series::channels`].
    pub channel: usize,
    /// First row.
    pub from: usize,
    /// Last row, itself odd.
    pub to: usize,
    /// Why.
    pub why: Why,
}

/// Between what readings may lie, and by how much they may jump within ten minutes and come back
/// **\[A\]**.
fn bounds(what: What) -> (f64, f64, f64) {
    match what {
        What::Temperature => (-60.0, 80.0, 15.0),
        What::DewPoint => (-80.0, 60.0, 20.0),
        What::RelativeHumidity => (0.0, 110.0, 40.0),
        What::AbsoluteHumidity => (0.0, 100.0, 15.0),
        What::CarbonDioxide => (200.0, 40_000.0, 20_000.0),
        What::Pressure => (50_000.0, 110_000.0, 2_000.0),
        What::Wind => (0.0, 75.0, 40.0),
        What::WindDirection => (0.0, 360.0, f64::INFINITY),
        What::Global => (-20.0, 1_500.0, f64::INFINITY),
        What::Direct => (-20.0, 1_400.0, f64::INFINITY),
        What::Diffuse => (-20.0, 1_000.0, f64::INFINITY),
        What::CloudCover => (0.0, 100.0, f64::INFINITY),
    }
}

/// Seconds for which a reading may stand still to the last digit.
const STUCK_S: i64 = 86_400;

/// Longest time between neighbours for a jump to be one, s.
const NEIGHBOURS_S: i64 = 3600;

/// All odd readings of a series, in order of channel and row.
#[must_use]
pub fn doubtful(series: &Series) -> Vec<Doubtful> {
    series
        .channels
        .iter()
        .enumerate()
        .flat_map(|(at, channel)| {
            let mut found = by_value(at, channel);
            found.extend(stuck(at, channel, &series.times_s));
            found.extend(jumps(at, channel, &series.times_s));
            found
        })
        .collect()
}

fn by_value(at: usize, channel: &Channel) -> Vec<Doubtful> {
    let (low, high, _) = bounds(channel.what);
    let why = |value: f64| {
        if value.is_nan() {
            None
        } else if value < low || value > high {
            Some(Why::OutOfRange)
        } else if channel.what == What::RelativeHumidity && value > 100.0 {
            Some(Why::AboveSaturation)
        } else {
            None
        }
    };
    runs(at, channel.values.iter().map(why))
}

/// Runs of the same reason.
fn runs(channel: usize, reasons: impl Iterator<Item = Option<Why>>) -> Vec<Doubtful> {
    let mut found: Vec<Doubtful> = Vec::new();
    let mut before = None;
    for (row, why) in reasons.enumerate() {
        match (why, found.last_mut()) {
            (Some(why), Some(last)) if before == Some(why) => last.to = row,
            (Some(why), _) => found.push(Doubtful {
                channel,
                from: row,
                to: row,
                why,
            }),
            (None, _) => {}
        }
        before = why;
    }
    found
}

/// A value that stands for a day, in a channel of air that moves otherwise. Calm wind may last, and
/// saturated air too.
fn stuck(at: usize, channel: &Channel, times: &[i64]) -> Vec<Doubtful> {
    let may_stand = |value: f64| match channel.what {
        What::Wind
        | What::WindDirection
        | What::Pressure
        | What::Global
        | What::Direct
        | What::Diffuse
        | What::CloudCover => true,
        What::RelativeHumidity => value >= 99.0,
        _ => false,
    };
    let time = |row: usize| times.get(row).copied().unwrap_or_default();
    let mut found = Vec::new();
    let mut from = 0;
    for row in 1..=channel.values.len() {
        let same = match (channel.values.get(from), channel.values.get(row)) {
            (Some(first), Some(value)) => first.to_bits() == value.to_bits(),
            _ => false,
        };
        if same {
            continue;
        }
        let value = channel.values.get(from).unwrap_or(f64::NAN);
        let last = row - 1;
        if !value.is_nan() && !may_stand(value) && time(last) - time(from) >= STUCK_S {
            found.push(Doubtful {
                channel: at,
                from,
                to: last,
                why: Why::Stuck,
            });
        }
        from = row;
    }
    found
}

/// A single reading far from both its neighbours, which agree.
fn jumps(at: usize, channel: &Channel, times: &[i64]) -> Vec<Doubtful> {
    let (.., most) = bounds(channel.what);
    times
        .windows(3)
        .enumerate()
        .filter_map(|(row, times)| {
            let value = |row: usize| channel.values.get(row);
            let (before, value, after) = (value(row)?, value(row + 1)?, value(row + 2)?);
            let [start, _, end] = times else {
                return None;
            };
            let jumped = (value - before).abs() > most
                && (value - after).abs() > most
                && (before - after).abs() < most / 2.0
                && end - start <= 2 * NEIGHBOURS_S;
            jumped.then_some(Doubtful {
                channel: at,
                from: row + 1,
                to: row + 1,
                why: Why::Jump,
            })
        })
        .collect()
}

/// Days by which an outside sensor must read drier than the other source, one after another.
const DRY_DAYS: usize = 3;

/// Share of the other source's vapour below which a day counts as too dry **\[A\]**: two good
/// instruments at one place differ by a tenth.
const TOO_DRY: f64 = 0.75;

/// Days on which an outside sensor reads far less water in the air than another outside source does:
/// runs of three days or more, as rows of `series`. The times of both are on one clock.
///
/// Water is compared and not relative humidity, because a logger in a warm spot reads drier by right.
/// Channels are those of relative humidity; each goes with the temperature of its own sensor. Empty
/// where a temperature is missing.
#[must_use]
pub fn against(series: &Series, channel: usize, station: &Series, other: usize) -> Vec<Doubtful> {
    let (own, beside) = (daily_vapour(series, channel), daily_vapour(station, other));
    let dry: Vec<i64> = own
        .iter()
        .filter_map(|(day, vapour)| (*vapour < TOO_DRY * beside.get(day)?).then_some(*day))
        .collect();
    let mut found = Vec::new();
    let mut run: Vec<i64> = Vec::new();
    for day in dry.into_iter().chain([i64::MAX]) {
        if run.last().is_some_and(|last| last + 1 != day) {
            if run.len() >= DRY_DAYS {
                found.extend(rows_of(series, channel, &run));
            }
            run.clear();
        }
        run.push(day);
    }
    found
}

/// Mean vapour pressure of each day, Pa, by days since 1970.
fn daily_vapour(series: &Series, humidity: usize) -> BTreeMap<i64, f64> {
    let Some(humidity) = series.channels.get(humidity) else {
        return BTreeMap::new();
    };
    let Some(temperature) = series
        .channels
        .iter()
        .find(|one| one.what == What::Temperature && one.sensor == humidity.sensor)
    else {
        return BTreeMap::new();
    };
    let mut sums: BTreeMap<i64, (f64, f64)> = BTreeMap::new();
    let values = humidity.values.iter().zip(temperature.values.iter());
    for (time, (percent, t_c)) in series.times_s.iter().zip(values) {
        let vapour = percent / 100.0 * saturation_pressure_over_water(t_c);
        if vapour.is_finite() {
            let day = sums.entry(time.div_euclid(86_400)).or_default();
            day.0 += vapour;
            day.1 += 1.0;
        }
    }
    sums.into_iter()
        .map(|(day, (sum, number))| (day, sum / number))
        .collect()
}

fn rows_of(series: &Series, channel: usize, days: &[i64]) -> Option<Doubtful> {
    let (first, last) = (days.first()?, days.last()?);
    let inside = |time: &i64| (*first..=*last).contains(&time.div_euclid(86_400));
    let from = series.times_s.iter().position(inside)?;
    let to = series.times_s.iter().rposition(inside)?;
    Some(Doubtful {
        channel,
        from,
        to,
        why: Why::DriedOut,
    })
}
