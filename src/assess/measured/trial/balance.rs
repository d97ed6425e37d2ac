//! Air change by the water collected through a period.

use super::air::Rows;
use super::compare::Day;
use super::ends::ends;
use super::ground::{Ground, site_pressure};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::drying::equipment;
use crate::assess::stores::given_back;
use crate::physics::air::MoistAir;
use crate::physics::counts::{count, seconds_as_f64};
use crate::physics::measurement::Limits;
use crate::physics::measurement::daily_means;
use crate::physics::measurement::water_balance::{Collected, Measured, dry_air_flow};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{LoggerSeries, OffsetFrom, Period};

/// Water that a person gives off, g/h: between asleep and awake, BS 5250 **\[M\]**.
const PERSON_G_PER_H: f64 = 47.5;
/// How far off that may be, as a standard error **\[A\]**.
const PERSON_ERROR_G_PER_H: f64 = 7.5;
/// The same of a vehicle that nobody is in, g/h **\[A\]**.
const EMPTY_ERROR_G_PER_H: f64 = 2.0;
/// How far off the water weighed may be: a twentieth of it **\[A\]**.
const WEIGHED_ERROR: f64 = 0.05;
/// How far off a logger's relative humidity may be, 0 to 1, where nobody has checked it, and where
/// somebody has **\[A\]**.
const LOGGER_ERROR: (f64, f64) = (0.02, 0.01);
/// One gram an hour, kg/s.
const GRAMS_PER_HOUR: f64 = 1e-3 / SECONDS_PER_HOUR;

/// Air changes per hour by the water collected; `None` where none was weighed.
///
/// ```text
/// m_da = (D − S − S_store)/(W_o − W_i)      N = 3600 m_da v_i/V
/// ```
/// D the water collected by time, S that given off inside, `S_store` that given back by furniture
/// between its beginning and its end, W the means of the period with the error of their days and
/// of the loggers, `v_i` the volume of a kilogram of inside air, V the vehicle's. METHOD of this
/// project, *air change by loggers* (a); limits by [`dry_air_flow`].
pub(super) fn air_change(
    ground: &Ground<'_>,
    (period, from_s, to_s): (&Period, i64, i64),
    inside: &Rows,
    days: &Answer<Vec<Day>>,
) -> Option<Answer<Limits>> {
    let water_kg = period.water_kg.filter(|water| *water > 0.0)?;
    let seconds = seconds_as_f64(to_s - from_s);
    Some(days.as_ref().map_err(Clone::clone).and_then(|days| {
        let volume = ground.prepared.volume_m3.clone()?;
        let pressure = site_pressure(ground.survey);
        let ends = ends(inside, from_s, to_s, pressure)?;
        let collected = Collected {
            removed: Measured {
                value: water_kg / seconds,
                error: WEIGHED_ERROR * water_kg / seconds,
            },
            sources: sources(ground, period)?,
            from_store: given_back(ground.survey, volume, ends, seconds),
            difference: difference(ground, period, days)?,
        };
        let flow =
            dry_air_flow(&collected).map_err(|error| NotKnown::because(error.to_string()))?;
        let (t_c, w) = mean_inside(days);
        let air = MoistAir::new(t_c, w, pressure)?;
        let changes = SECONDS_PER_HOUR * air.specific_volume() / volume;
        Ok(flow.map(|flow| flow * changes))
    }))
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, number) = values.fold((0.0, 0.0), |(sum, number), value| {
        (sum + value, number + 1.0)
    });
    sum / number
}

fn mean_inside(days: &[Day]) -> (f64, f64) {
    let t_c = mean(days.iter().map(|day| day.t_in_c));
    (t_c, mean(days.iter().map(|day| day.w_in)))
}

/// Water given off inside: by the people of the period, or else what the survey says.
fn sources(ground: &Ground<'_>, period: &Period) -> Answer<Measured> {
    if let Some(people) = period.people.filter(|people| *people > 0.0) {
        return Ok(Measured {
            value: people * PERSON_G_PER_H * GRAMS_PER_HOUR,
            error: people * PERSON_ERROR_G_PER_H * GRAMS_PER_HOUR,
        });
    }
    let all = equipment::sources(ground.survey, &ground.prepared.findings)?;
    let value = match period.people {
        // Nobody was there, whatever the survey is set to.
        Some(_) => 0.0,
        None => all.vapour + all.liquid,
    };
    Ok(Measured {
        value,
        error: EMPTY_ERROR_G_PER_H * GRAMS_PER_HOUR + 0.25 * value,
    })
}

/// Humidity ratio outside less that inside, with the error of the days and of both loggers.
fn difference(ground: &Ground<'_>, period: &Period, days: &[Day]) -> Answer<Measured> {
    let values: Vec<f64> = days.iter().map(|day| -day.damper()).collect();
    let of_days = daily_means::Period::of_days(&values)
        .map_err(|_| NotKnown::because("it takes two days or more"))?;
    let variance = of_days.variance / of_days.effective_days.min(count(of_days.days));
    let trial = ground
        .survey
        .trials
        .iter()
        .find(|trial| trial.periods.contains(period));
    let (inside, outside) = trial.map_or((None, None), |trial| (trial.inside, trial.outside));
    let pressure = site_pressure(ground.survey);
    let logger = |logger: Option<&LoggerSeries>, t_c: f64| -> Answer<f64> {
        let checked = logger.is_some_and(|one| one.offset_from != OffsetFrom::NotChecked);
        let error = if checked {
            LOGGER_ERROR.1
        } else {
            LOGGER_ERROR.0
        };
        // In W, a point of humidity weighs as much as the air could hold.
        let saturated = MoistAir::from_relative_humidity(t_c, 1.0, pressure)?;
        Ok(error * saturated.humidity_ratio)
    };
    let of = |id: Option<_>| id.and_then(|id| ground.survey.logger(id));
    let t_out = mean(days.iter().map(|day| day.t_out_c));
    let errors = [
        logger(of(inside), inside_c(days))?,
        logger(of(outside), t_out)?,
    ];
    let of_loggers: f64 = errors.iter().map(|error| error * error).sum();
    Ok(Measured {
        value: of_days.mean,
        error: (variance + of_loggers).sqrt(),
    })
}

fn inside_c(days: &[Day]) -> f64 {
    mean_inside(days).0
}
