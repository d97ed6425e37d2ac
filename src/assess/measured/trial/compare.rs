//! What a method did: days with it against days without.

use super::air::{HOUR_S, HourMean};
use crate::physics::measurement::Limits;
use crate::physics::measurement::daily_means::{self, FEWEST_DAYS, Period};
use crate::physics::measurement::logger::restated;

/// Hours of a day that must have readings of both for the day to count **\[A\]**.
const LEAST_HOURS: usize = 18;
/// Seconds of a day.
const DAY_S: i64 = 24 * HOUR_S;

/// The mean air of one day inside and outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    /// Temperature inside, °C.
    pub t_in_c: f64,
    /// Humidity ratio inside, kg/kg.
    pub w_in: f64,
    /// Temperature outside, °C.
    pub t_out_c: f64,
    /// Humidity ratio outside, kg/kg.
    pub w_out: f64,
}

impl Day {
    /// How much warmer it is inside, K.
    #[must_use]
    pub fn warmer(&self) -> f64 {
        self.t_in_c - self.t_out_c
    }

    /// How much more water the air holds inside, kg/kg.
    #[must_use]
    pub fn damper(&self) -> f64 {
        self.w_in - self.w_out
    }
}

/// Days of 24 hours from the start of a period, those of which at least 18 hours were read inside and
/// outside.
#[must_use]
pub fn days(inside: &[HourMean], outside: &[HourMean], from_s: i64, to_s: i64) -> Vec<Day> {
    let mut found = Vec::new();
    let mut start = from_s;
    while start + DAY_S <= to_s {
        let within = |hours: &[HourMean]| {
            let first = hours.partition_point(|hour| hour.start_s < start);
            let last = hours.partition_point(|hour| hour.start_s < start + DAY_S);
            (first, last)
        };
        let (first, last) = within(inside);
        let (out_first, out_last) = within(outside);
        let inside = inside.get(first..last).unwrap_or_default();
        let outside = outside.get(out_first..out_last).unwrap_or_default();
        found.extend(day(inside, outside));
        start += DAY_S;
    }
    found
}

/// The mean of the hours that were read inside and outside.
fn day(inside: &[HourMean], outside: &[HourMean]) -> Option<Day> {
    let (mut sum, mut hours, mut number) = ([0.0; 4], 0_usize, 0.0);
    let mut others = outside.iter().peekable();
    for one in inside {
        while others
            .next_if(|other| other.start_s < one.start_s)
            .is_some()
        {}
        if let Some(other) = others.next_if(|other| other.start_s == one.start_s) {
            let values = [one.t_c, one.humidity_ratio, other.t_c, other.humidity_ratio];
            for (sum, value) in sum.iter_mut().zip(values) {
                *sum += value;
            }
            hours += 1;
            number += 1.0;
        }
    }
    let [t_in_c, w_in, t_out_c, w_out] = sum.map(|sum| sum / number);
    (hours >= LEAST_HOURS).then_some(Day {
        t_in_c,
        w_in,
        t_out_c,
        w_out,
    })
}

/// What the data show of one quantity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// By how much it differs.
    pub value: f64,
    /// The 95 % limits; `None` where there are too few days.
    pub limits: Option<Limits>,
}

impl Change {
    /// Whether the data show that it is not nothing.
    #[must_use]
    pub fn shows(&self) -> bool {
        self.limits.is_some_and(|limits| !limits.holds(0.0))
    }
}

/// What a method did against none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// Pairs of neighbouring periods it rests on.
    pub pairs: usize,
    /// Days of the shortest of those periods.
    pub fewest_days: usize,
    /// Change of how much warmer it is inside, K.
    pub warmth_k: Change,
    /// Change of the water that the air holds above that outside, kg/kg.
    pub water: Change,
    /// Relative humidity that the inside would have had without it, at the same outside, 0 to 1.
    pub rh_without: f64,
    /// The same with it.
    pub rh_with: f64,
    /// Change of it at the same outside, points of 0 to 1.
    pub rh: Change,
    /// Share of the fall in humidity that warmth accounts for; the rest is the water's. `None`
    /// where the data show no fall of half a point.
    pub warmth_share: Option<f64>,
}

impl Effect {
    /// Whether the data can show any effect on humidity.
    #[must_use]
    pub fn is_shown(&self) -> bool {
        self.rh.shows()
    }
}

/// Fall below which nothing is shared out, as on the page of drying **\[A\]**.
const LEAST_FALL: f64 = 0.005;

/// What a method did: pairs of days without and with it, at the same outside.
///
/// ```text
/// Δ = mean over pairs of (x̄_on − x̄_off)      x: T_i − T_o,  W_i − W_o,  φ*
/// φ* = φ(T* + (T_i − T_o), W* + (W_i − W_o))
/// ```
/// for each day, where T*, W* are the means outside over the days with the method: so every day is
/// restated at one and the same outside. Limits by [`daily_means::over_pairs`]. The share of warmth:
/// from φ without to φ at the temperature with and the water without, then the rest. `None` where no
/// pair has a day on both sides or a state is no air.
#[must_use]
pub fn effect(pairs: &[(&[Day], &[Day])], pressure: f64) -> Option<Effect> {
    let fewest_days = pairs
        .iter()
        .map(|(off, on)| off.len().min(on.len()))
        .min()
        .filter(|days| *days > 0)?;
    let on = || pairs.iter().flat_map(|(_, on)| on.iter());
    let (t_out, w_out) = (
        mean(on().map(|day| day.t_out_c)),
        mean(on().map(|day| day.w_out)),
    );
    let at = |t_c: f64, w: f64| restated(w.max(0.0), t_c, pressure);
    let restate = |day: &Day| at(t_out + day.warmer(), w_out + day.damper());
    let warmth_k = change(pairs, |day| Some(day.warmer()))?;
    let water = change(pairs, |day| Some(day.damper()))?;
    let rh = change(pairs, restate)?;
    let rh_with = mean(on().filter_map(restate));
    // The share by states: without it, warmed alone, with it.
    let (warmer, damper) = (mean(on().map(Day::warmer)), mean(on().map(Day::damper)));
    let (cooler, wetter) = (warmer - warmth_k.value, damper - water.value);
    let with = at(t_out + warmer, w_out + damper)?;
    let without = at(t_out + cooler, w_out + wetter)?;
    let warmed = at(t_out + warmer, w_out + wetter)?;
    let fall = without - with;
    Some(Effect {
        pairs: pairs.len(),
        fewest_days,
        warmth_k,
        water,
        rh_without: rh_with - rh.value,
        rh_with,
        rh,
        warmth_share: (fall >= LEAST_FALL && rh.shows()).then(|| (without - warmed) / fall),
    })
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, number) = values.fold((0.0, 0.0), |(sum, number), value| {
        (sum + value, number + 1.0)
    });
    sum / number
}

fn change(pairs: &[(&[Day], &[Day])], of: impl Fn(&Day) -> Option<f64>) -> Option<Change> {
    let values = |days: &[Day]| days.iter().map(&of).collect::<Option<Vec<f64>>>();
    let mut differences = Vec::new();
    let mut periods = Vec::new();
    for (off, on) in pairs {
        let (off, on) = (values(off)?, values(on)?);
        differences.push(mean(on.iter().copied()) - mean(off.iter().copied()));
        if let (Ok(off), Ok(on)) = (Period::of_days(&off), Period::of_days(&on)) {
            periods.push((off, on));
        }
    }
    let limits = (periods.len() == pairs.len())
        .then(|| daily_means::over_pairs(&periods))
        .flatten();
    Some(Change {
        value: mean(differences.into_iter()),
        limits,
    })
}

/// Days that each period must last before a change of humidity of so many points (0 to 1) stands
/// out, told from days without a method. `None` where half a year would not do, or the days are
/// fewer than four.
#[must_use]
pub fn days_needed(without: &[Day], points: f64, pressure: f64) -> Option<usize> {
    if without.len() < FEWEST_DAYS {
        return None;
    }
    let t_out = mean(without.iter().map(|day| day.t_out_c));
    let w_out = mean(without.iter().map(|day| day.w_out));
    let restate = |day: &Day| {
        restated(
            (w_out + day.damper()).max(0.0),
            t_out + day.warmer(),
            pressure,
        )
    };
    let values: Vec<f64> = without.iter().filter_map(restate).collect();
    let period = Period::of_days(&values).ok()?;
    // n_e = n (1 − r)/(1 + r), turned round.
    let share = period.effective_days / crate::physics::counts::count(period.days);
    let alike = (1.0 - share) / (1.0 + share);
    daily_means::days_needed(points, period.variance, alike)
}
