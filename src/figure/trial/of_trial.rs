//! From what loggers read to what is drawn of a trial.

use super::lines::{Air, Limit, Lines, Rows, limit};
use crate::assess::measured::trial::{self, Loggers};
use crate::assess::{Answer, NotKnown, Study};
use crate::survey::{LoggerSeries, OutsideFrom, Survey, Trial};
use std::sync::Arc;

fn drawn(rows: &trial::Rows) -> Rows<'_> {
    Rows {
        times_s: &rows.times_s,
        t_c: &rows.t_c,
        rh: &rows.relative_humidity,
        ratio: &rows.humidity_ratio,
    }
}

/// The lines of a trial.
///
/// # Errors
/// [`NotKnown`] where no logger inside is chosen, or what is the matter with its file.
pub fn lines(study: &Study, trial: &Trial, loggers: &Loggers) -> Answer<Lines> {
    let survey = study.survey();
    let id = trial
        .inside
        .ok_or_else(|| NotKnown::because("no logger inside is chosen"))?;
    let rows = loggers.air(survey, id, trial)?;
    let outside = outside(study, trial, loggers).map(|mut outside| {
        // Two sensors of one file.
        if outside.times_s == rows.times_s {
            outside.times_s = Arc::clone(&rows.times_s);
        }
        Air::of(drawn(&outside))
    });
    let limits = outside.iter().flat_map(|outside| {
        let surfaces = crate::assess::drying::tightest(survey).into_iter();
        surfaces.map(|surface| Limit {
            name: surface.words,
            humidity: limit(drawn(&rows), outside, surface.factor, surface.limit),
        })
    });
    let limits = limits.collect();
    Ok(Lines {
        left_out: left_out(study, trial, loggers, &rows),
        inside: Air::of(drawn(&rows)),
        outside,
        limits,
        odd: Vec::new(),
    })
}

/// The outside air, where it is known by the hour.
fn outside(study: &Study, trial: &Trial, loggers: &Loggers) -> Option<trial::Rows> {
    match trial.outside_from {
        OutsideFrom::Logger => loggers.air(study.survey(), trial.outside?, trial).ok(),
        OutsideFrom::WeatherFile => {
            let weather = loggers.weather.as_ref()?.as_ref().ok()?;
            Some(trial::weather_rows(weather))
        }
        OutsideFrom::Cases => None,
    }
}

/// What was read inside and does not count by the user's word.
fn left_out(study: &Study, trial: &Trial, loggers: &Loggers, counted: &trial::Rows) -> Air {
    let logger = trial.inside.and_then(|id| study.survey().logger(id));
    let Some(logger) = logger.filter(|logger| !logger.left_out.is_empty()) else {
        return Air::default();
    };
    let whole = LoggerSeries {
        left_out: Vec::new(),
        ..logger.clone()
    };
    let mut survey = Survey::clone(study.survey());
    survey.series = vec![whole];
    let Ok(mut all) = loggers.air(&survey, logger.id, trial) else {
        return Air::default();
    };
    let gone = |values: &mut Vec<f64>, counted: &[f64]| {
        for (value, counts) in values.iter_mut().zip(counted) {
            if !counts.is_nan() {
                *value = f64::NAN;
            }
        }
    };
    gone(&mut all.t_c, &counted.t_c);
    gone(&mut all.relative_humidity, &counted.relative_humidity);
    gone(&mut all.humidity_ratio, &counted.humidity_ratio);
    Air::of(drawn(&all))
}
