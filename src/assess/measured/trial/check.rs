//! By how much a logger is off: beside another, or over saturated salt.

use super::air::{Rows, hourly_means};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::air::MoistAir;
use crate::physics::counts::count;
use crate::physics::measurement::Limits;
use crate::physics::measurement::student::t_95;

/// Fewest hours side by side **\[A\]**.
const LEAST_HOURS: usize = 4;
/// Hours over salt until the air above it has settled **\[A\]**.
const SETTLING_S: i64 = 12 * 3600;

/// A salt whose saturated solution holds the air above it at a known humidity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Salt {
    /// Kitchen salt.
    SodiumChloride,
    /// Magnesium chloride.
    MagnesiumChloride,
}

impl Salt {
    /// Both, in the order offered.
    pub const ALL: [Self; 2] = [Self::SodiumChloride, Self::MagnesiumChloride];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::SodiumChloride => "kitchen salt",
            Self::MagnesiumChloride => "magnesium chloride",
        }
    }

    /// Relative humidity above its saturated solution between 20 and 25 °C, 0 to 1: ASTM E104
    /// **\[M\]**.
    #[must_use]
    pub fn holds(self) -> f64 {
        match self {
            Self::SodiumChloride => 0.753,
            Self::MagnesiumChloride => 0.33,
        }
    }
}

/// By how much a logger reads too much, with 95 % limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffBy {
    /// Hours it rests on.
    pub hours: usize,
    /// Too warm, K; `None` over salt.
    pub too_warm_k: Option<Limits>,
    /// Too damp, points of 0 to 1.
    pub too_damp: Limits,
}

/// The mean of hourly values with limits that count one hour in four, since neighbouring ones are
/// alike **\[A\]**.
fn mean_of(values: &[f64]) -> Option<Limits> {
    let number = count(values.len());
    let mean = values.iter().sum::<f64>() / number;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    let effective = (number / 4.0).max(2.0);
    let half = t_95(effective - 1.0)? * (squares / (number - 1.0) / effective).sqrt();
    Some(Limits::around(mean, half))
}

fn too_short() -> NotKnown {
    NotKnown::because(format!(
        "there are fewer than {LEAST_HOURS} hours that count: leave them together for a night"
    ))
}

/// By how much `one` reads more than `other`, both in one place from one moment to another, s on the
/// clock of the place: the mean of the hours' differences.
///
/// # Errors
/// [`NotKnown`] with fewer than four hours that both read.
pub fn side_by_side(
    one: &Rows,
    other: &Rows,
    from_s: i64,
    to_s: i64,
    pressure: f64,
) -> Answer<OffBy> {
    let others = hourly_means(other, from_s, to_s);
    let (mut warm, mut damp) = (Vec::new(), Vec::new());
    for hour in hourly_means(one, from_s, to_s) {
        let Ok(at) = others.binary_search_by_key(&hour.start_s, |other| other.start_s) else {
            continue;
        };
        let Some(other) = others.get(at) else {
            continue;
        };
        warm.push(hour.t_c - other.t_c);
        let rh = |t_c, w| MoistAir::new(t_c, w, pressure).map(|air| air.relative_humidity());
        damp.push(rh(hour.t_c, hour.humidity_ratio)? - rh(other.t_c, other.humidity_ratio)?);
    }
    if warm.len() < LEAST_HOURS {
        return Err(too_short());
    }
    Ok(OffBy {
        hours: warm.len(),
        too_warm_k: Some(mean_of(&warm).ok_or_else(too_short)?),
        too_damp: mean_of(&damp).ok_or_else(too_short)?,
    })
}

/// By how much a logger reads more than the air over a salt's saturated solution, from one moment to
/// another; the first twelve hours do not count.
///
/// # Errors
/// [`NotKnown`] with fewer than four hours left, or where it was not between 15 and 30 °C.
pub fn over_salt(rows: &Rows, salt: Salt, from_s: i64, to_s: i64, pressure: f64) -> Answer<OffBy> {
    let hours = hourly_means(rows, from_s.saturating_add(SETTLING_S), to_s);
    if hours.len() < LEAST_HOURS {
        return Err(too_short());
    }
    if hours.iter().any(|hour| !(15.0..=30.0).contains(&hour.t_c)) {
        return Err(NotKnown::because(
            "the salt\u{2019}s humidity is known for 20 to 25 °C: repeat it in a warm room",
        ));
    }
    let damp = hours
        .iter()
        .map(|hour| {
            let air = MoistAir::new(hour.t_c, hour.humidity_ratio, pressure)?;
            Ok(air.relative_humidity() - salt.holds())
        })
        .collect::<Answer<Vec<f64>>>()?;
    Ok(OffBy {
        hours: damp.len(),
        too_warm_k: None,
        too_damp: mean_of(&damp).ok_or_else(too_short)?,
    })
}
