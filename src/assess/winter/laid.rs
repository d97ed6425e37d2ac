//! The winter's calculation laid over measured air: run on the outside that was measured, and held
//! against the inside that was.

use super::run::Winter;
use crate::assess::answer::Answer;
use crate::assess::drying::{OptionAnswer, OptionKind};
use crate::assess::measured::trial::{HourMean, TrialOutcome, Tried};
use crate::assess::not_known::NotKnown;
use crate::assess::possible::site_pressure;
use crate::assess::study::Study;
use crate::climate::{Hour, Weather};
use crate::physics::MoistAir;
use crate::physics::air::{humidity_ratio, vapour_pressure};
use crate::physics::counts::count;
use crate::series::moment_from;
use crate::survey::{Period, PeriodId, Ran, Stay, TrialId};
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Fewest hours, measured inside and outside, that a period is laid over.
pub const LEAST_HOURS: usize = 48;
const HOUR_S: i64 = 3600;

/// How far what is worked out lies from what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart {
    /// Mean of the differences, worked out less measured.
    pub mean: f64,
    /// Their standard deviation.
    pub spread: f64,
}

/// One period of a trial with the calculation laid over it.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidOver {
    /// Name of the option that ran.
    pub option: String,
    /// Hours that are held against each other.
    pub hours: usize,
    /// Temperature inside, K.
    pub t_c: Apart,
    /// Relative humidity inside, 0 to 1.
    pub rh: Apart,
    /// Humidity ratio inside, kg/kg.
    pub water: Apart,
}

/// A period of a trial, and what came of laying the calculation over it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The trial.
    pub trial: TrialId,
    /// Its period.
    pub period: PeriodId,
    /// What ran.
    pub ran: String,
    /// How far apart both are.
    pub over: Answer<LaidOver>,
}

/// Every period of every trial with the calculation laid over it; `None` where `progress` gave it up.
///
/// Temperature and humidity outside are those measured; wind, sun, sky and pressure those of the
/// `weather` file in the same hours, whose clock counts as that of the trial **\[A\]**. A period begins
/// with the temperature and the humidity that were measured inside in its first hour: days before it would
/// have to be of what ran in them.
pub fn laid_over(
    (study, stay): (&Study, &Stay),
    tried: &Tried,
    weather: Result<&Weather, &NotKnown>,
    progress: &impl Fn() -> ControlFlow<()>,
) -> Option<Vec<Laid>> {
    let survey = study.survey();
    let file = weather.map(by_start);
    let mut all = Vec::new();
    for trial in &survey.trials {
        for period in &trial.periods {
            let ready = tried.trial(trial.id).and_then(|outcome| {
                let file = file.as_ref().map_err(|unknown| (*unknown).clone())?;
                let weather = weather.map_err(Clone::clone)?;
                prepared((study, stay), (outcome, period), (weather, file))
            });
            let over = match ready {
                Ok(ready) => ready.run(progress)?,
                Err(unknown) => Err(unknown),
            };
            all.push(Laid {
                trial: trial.id,
                period: period.id,
                ran: survey.ran_in_words(period),
                over,
            });
        }
    }
    Some(all)
}

/// The hours of a weather file by the second in which each begins, on its own clock.
fn by_start(weather: &Weather) -> BTreeMap<i64, &Hour> {
    let of = |hour: &'_ Hour| {
        let day = hour.day;
        let midnight = moment_from(&format!("{:04}-{:02}-{:02}", day.year, day.month, day.day))?;
        Some(midnight + (i64::from(hour.hour) - 1) * HOUR_S)
    };
    let hours = weather.hours.iter();
    hours.filter_map(|hour| Some((of(hour)?, hour))).collect()
}

/// A period made ready to be run.
struct Ready {
    winter: Winter,
    option: usize,
    name: String,
    /// By hour: what was measured inside, with the pressure; `None` where either side is missing.
    inside: Vec<Option<(HourMean, f64)>>,
}

fn prepared(
    (study, stay): (&Study, &Stay),
    (outcome, period): (&TrialOutcome, &Period),
    (weather, file): (&Weather, &BTreeMap<i64, &Hour>),
) -> Answer<Ready> {
    let (from_s, to_s) = period
        .span_s()
        .ok_or_else(|| NotKnown::because("its beginning or its end is not given"))?;
    let comparison = study.comparison().as_ref().map_err(Clone::clone)?;
    let options = &comparison.options;
    let option = options.iter().position(|option| is_of(period, option));
    let option = option
        .ok_or_else(|| NotKnown::because("what ran in it is none of the options compared"))?;
    let outside = outcome.outside_hours.as_ref().map_err(Clone::clone)?;
    let outside = at_start(outside);
    let inside_hours = at_start(&outcome.inside_hours);
    let place_pressure = site_pressure(study.survey())?;
    let (mut hours, mut inside) = (Vec::new(), Vec::new());
    let mut start_s = from_s + (-from_s).rem_euclid(HOUR_S);
    while start_s + HOUR_S <= to_s {
        let of_file = file.get(&start_s).ok_or_else(|| {
            NotKnown::because(
                "the weather file does not hold all of its hours, of which wind and sun are needed",
            )
        })?;
        let pressure = of_file.pressure.unwrap_or(place_pressure);
        let measured = outside.get(&start_s).and_then(|hour| {
            let air = MoistAir::new(hour.t_c, hour.humidity_ratio, pressure).ok()?;
            Some((hour.t_c, air.relative_humidity().min(1.0)))
        });
        hours.push(Hour {
            t_c: measured.map(|(t_c, _)| t_c),
            rh: measured.map(|(_, rh)| rh),
            ..**of_file
        });
        let both = inside_hours.get(&start_s).filter(|_| measured.is_some());
        inside.push(both.map(|hour| (**hour, pressure)));
        start_s += HOUR_S;
    }
    if inside.iter().flatten().count() < LEAST_HOURS {
        return Err(NotKnown::because(format!(
            "fewer than {LEAST_HOURS} of its hours were measured both inside and outside"
        )));
    }
    let measured = Weather {
        place: weather.place.clone(),
        hours,
        invented: weather.invented,
    };
    let mut winter = Winter::over(study, &measured, &measured.hours, stay)?;
    winter.from = inside.iter().flatten().next().map(|(hour, pressure)| {
        let vapour = vapour_pressure(hour.humidity_ratio, *pressure);
        (hour.t_c, vapour)
    });
    Ok(Ready {
        winter,
        option,
        name: options
            .get(option)
            .map_or_else(String::new, |option| option.name.clone()),
        inside,
    })
}

fn at_start(hours: &[HourMean]) -> BTreeMap<i64, &HourMean> {
    hours.iter().map(|hour| (hour.start_s, hour)).collect()
}

/// Whether an option is what ran in a period.
fn is_of(period: &Period, option: &OptionAnswer) -> bool {
    match period.ran {
        Ran::Nothing => option.kind == OptionKind::Nothing,
        Ran::Equipment => {
            (period.machine.is_some() || period.heater.is_some())
                && (option.machine, option.heater) == (period.machine, period.heater)
        }
        Ran::NotSaid | Ran::Other => false,
    }
}

impl Ready {
    /// Runs it and holds it against what was measured.
    ///
    /// ```text
    /// d = x_worked out − x_measured,   mean = Σ d/n,   spread = √(Σ (d − mean)²/(n − 1))
    /// ```
    fn run(self, progress: &impl Fn() -> ControlFlow<()>) -> Option<Answer<LaidOver>> {
        let season = match self.winter.season(self.option, progress)? {
            Ok(season) => season,
            Err(unknown) => return Some(Err(unknown)),
        };
        let (mut t_c, mut rh, mut water) = (Vec::new(), Vec::new(), Vec::new());
        for (hour, measured) in season.hours.iter().zip(&self.inside) {
            let Some((measured, pressure)) = measured else {
                continue;
            };
            let Ok(air) = MoistAir::new(measured.t_c, measured.humidity_ratio, *pressure) else {
                continue;
            };
            t_c.push(hour.t_c - measured.t_c);
            rh.push(hour.rh - air.relative_humidity());
            water.push(humidity_ratio(hour.vapour, *pressure) - measured.humidity_ratio);
        }
        Some(Ok(LaidOver {
            option: self.name,
            hours: t_c.len(),
            t_c: apart(&t_c),
            rh: apart(&rh),
            water: apart(&water),
        }))
    }
}

fn apart(differences: &[f64]) -> Apart {
    let number = count(differences.len());
    let mean = differences.iter().sum::<f64>() / number;
    let squares: f64 = differences.iter().map(|own| (own - mean).powi(2)).sum();
    Apart {
        mean,
        spread: (squares / (number - 1.0)).sqrt(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mean_and_spread_of_differences_are_those_of_numpy() {
        // numpy: mean([1, 2, 4, 9]) = 4, std(ddof=1) = 3.5590260840104371.
        let found = apart(&[1.0, 2.0, 4.0, 9.0]);
        assert!((found.mean - 4.0).abs() < 1e-12);
        assert!((found.spread - 3.559_026_084_010_437).abs() < 1e-12);
    }
}
