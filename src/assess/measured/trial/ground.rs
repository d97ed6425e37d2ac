//! What trials are worked out from.

use super::air::{Rows, rows};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::drying::Comparison;
use crate::assess::prepared::Prepared;
use crate::climate::Weather;
use crate::physics::air::pressure_at_altitude;
use crate::physics::measurement::Limits;
use crate::series::Series;
use crate::survey::{SeriesId, Survey, Trial};
use std::sync::Arc;

/// What was read of the files that trials stand on.
#[derive(Clone, Debug, Default)]
pub struct Loggers {
    /// The readings of each logger, or why there are none.
    pub series: Vec<(SeriesId, Answer<Arc<Series>>)>,
    /// The weather file of the survey, where a trial asks for it.
    pub weather: Option<Answer<Arc<Weather>>>,
}

impl Loggers {
    /// The readings of a logger.
    ///
    /// # Errors
    /// [`NotKnown`] with what is the matter with its file.
    pub fn readings(&self, id: SeriesId) -> Answer<&Arc<Series>> {
        match self.series.iter().find(|(of, _)| *of == id) {
            Some((_, readings)) => readings.as_ref().map_err(Clone::clone),
            None => Err(NotKnown::because("the logger is not in the survey")),
        }
    }

    /// The air that a logger read, on the clock of a trial.
    ///
    /// # Errors
    /// [`NotKnown`] with what is the matter with its file or its columns.
    pub fn air(&self, survey: &Survey, id: SeriesId, trial: &Trial) -> Answer<Rows> {
        let logger = survey
            .logger(id)
            .ok_or_else(|| NotKnown::because("the logger is not in the survey"))?;
        let ahead_s = trial.clock_ahead_h.map(ahead_s);
        rows(logger, self.readings(id)?, site_pressure(survey), ahead_s)
    }
}

/// By how much the clock of the place is ahead of universal time, s, where a trial says it: one that the
/// logger is part of, otherwise any.
pub(in crate::assess::measured) fn clock_of(survey: &Survey, id: SeriesId) -> Option<i64> {
    let said = || {
        let trials = survey.trials.iter();
        trials.filter_map(|trial| Some((trial, ahead_s(trial.clock_ahead_h?))))
    };
    let own = said().find(|(trial, _)| [trial.inside, trial.outside].contains(&Some(id)));
    own.or_else(|| said().next()).map(|(_, ahead)| ahead)
}

/// Whole seconds of a clock's hours.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a float that does not fit becomes the nearest number that does"
)]
fn ahead_s(hours: f64) -> i64 {
    (hours * 3600.0).round() as i64
}

/// The air's pressure where the vehicle stands, Pa, by its altitude.
pub(super) fn site_pressure(survey: &Survey) -> f64 {
    pressure_at_altitude(survey.site.altitude_m)
}

/// The means of a period, with 95 % limits where there are days enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Means {
    /// Temperature inside, °C.
    pub t_in_c: f64,
    /// Humidity ratio inside, kg/kg.
    pub w_in: f64,
    /// Temperature outside, °C.
    pub t_out_c: f64,
    /// Humidity ratio outside, kg/kg.
    pub w_out: f64,
    /// How much warmer it is inside, K.
    pub warmer_k: Option<Limits>,
    /// How much more water the air holds inside, kg/kg.
    pub damper: Option<Limits>,
    /// Relative humidity inside, 0 to 1: that of the mean air.
    pub rh_in: f64,
    /// Relative humidity outside, 0 to 1: that of the mean air.
    pub rh_out: f64,
    /// Days that count as independent, for the water.
    pub effective_days: f64,
}

/// What trials are worked out from.
pub(super) struct Ground<'a> {
    pub(super) survey: &'a Survey,
    pub(super) prepared: &'a Prepared,
    pub(super) loggers: &'a Loggers,
    pub(super) compare: &'a dyn Fn(Survey) -> Answer<Comparison>,
}
