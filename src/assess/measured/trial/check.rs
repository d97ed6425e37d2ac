//! By how much a logger is off: beside another, or over saturated salt.

use super::air::{Rows, hourly_means, rows};
use super::ground::{Loggers, clock_of, site_pressure};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::air::MoistAir;
use crate::physics::counts::count;
use crate::physics::measurement::Limits;
use crate::physics::measurement::student::t_95;
use crate::survey::{Against, Field, LoggerCheck, LoggerSeries, SeriesId, Survey};

/// Fewest hours side by side **\[A\]**.
const LEAST_HOURS: usize = 4;
const PERCENT: f64 = 100.0;
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
    /// The salt that a logger was held against; `None` beside another logger.
    #[must_use]
    pub fn of(against: Against) -> Option<Self> {
        match against {
            Against::SodiumChloride => Some(Self::SodiumChloride),
            Against::MagnesiumChloride => Some(Self::MagnesiumChloride),
            Against::Logger => None,
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

/// What is taken off a logger's readings once it was checked: as fine as loggers read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offset {
    /// Too warm, K, to a tenth; `None` where the check says nothing of it.
    pub too_warm_k: Option<f64>,
    /// Too damp, points of relative humidity, to a tenth.
    pub too_damp_percent: f64,
}

impl OffBy {
    /// What may be taken off the readings.
    ///
    /// # Errors
    /// [`NotKnown`] where the logger is further off than anything that is corrected.
    pub fn offset(&self) -> Answer<Offset> {
        let tenth = |value: f64| {
            let rounded = (value * 10.0).round() / 10.0;
            // Never a zero below zero.
            rounded + 0.0
        };
        let found = Offset {
            too_warm_k: self.too_warm_k.map(|limits| tenth(limits.value)),
            too_damp_percent: tenth(self.too_damp.value * PERCENT),
        };
        let fits = |field: Field, value: f64| {
            let range = field.range();
            range.is_none_or(|range| (range.lowest..=range.highest).contains(&value))
        };
        let warm = found
            .too_warm_k
            .is_none_or(|value| fits(Field::TooWarm, value));
        if warm && fits(Field::TooDamp, found.too_damp_percent) {
            Ok(found)
        } else {
            Err(NotKnown::because(
                "a logger that is so far off is broken, or did not lie where it is said to have lain: do \
                 not correct it",
            ))
        }
    }

    /// Whether these hours show that it reads too warm or too cold.
    #[must_use]
    pub fn shows_warmth(&self) -> bool {
        self.too_warm_k.is_some_and(|limits| !limits.holds(0.0))
    }

    /// Whether these hours show that it reads too damp or too dry.
    #[must_use]
    pub fn shows_damp(&self) -> bool {
        !self.too_damp.holds(0.0)
    }
}

/// What came of the checks of a survey's loggers.
pub(super) fn checks(survey: &Survey, loggers: &Loggers) -> Vec<(SeriesId, Answer<OffBy>)> {
    let checked = survey
        .series
        .iter()
        .filter_map(|logger| Some((logger, logger.check?)));
    checked
        .map(|(logger, check)| (logger.id, off_by((survey, loggers), logger, check)))
        .collect()
}

/// By how much a logger is off by its check: its readings as they are in the file, against those of
/// the other with that one's own offset taken off.
fn off_by(
    (survey, loggers): (&Survey, &Loggers),
    logger: &LoggerSeries,
    check: LoggerCheck,
) -> Answer<OffBy> {
    let (Some(from), Some(to)) = (check.from, check.to) else {
        return Err(NotKnown::because(
            "it is not said from when to when it was checked",
        ));
    };
    let pressure = site_pressure(survey);
    let air = |of: &LoggerSeries| {
        let clock = clock_of(survey, of.id);
        rows(of, loggers.readings(of.id)?, pressure, clock)
    };
    let as_read = LoggerSeries {
        too_warm_k: None,
        too_damp_percent: None,
        ..logger.clone()
    };
    let (from_s, to_s) = (from.seconds(), to.seconds());
    let one = air(&as_read)?;
    if !reads(&one, from_s, to_s) {
        return Err(without_readings(logger));
    }
    let Some(salt) = Salt::of(check.against) else {
        let other = check.beside.filter(|id| *id != logger.id);
        let other = other
            .and_then(|id| survey.logger(id))
            .ok_or_else(|| NotKnown::because("the logger that lay beside it is not chosen"))?;
        let rows = air(other)?;
        if !reads(&rows, from_s, to_s) {
            return Err(without_readings(other));
        }
        return side_by_side(&one, &rows, from_s, to_s, pressure);
    };
    over_salt(&one, salt, from_s, to_s, pressure)
}

/// Whether anything was read from one moment to another.
fn reads(rows: &Rows, from_s: i64, to_s: i64) -> bool {
    !hourly_means(rows, from_s, to_s).is_empty()
}

fn without_readings(logger: &LoggerSeries) -> NotKnown {
    NotKnown::because(format!(
        "{} has no readings in this stretch of time",
        logger.in_words()
    ))
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
