//! What the survey leads one to expect of a method in the weather that was measured.

use super::ground::{Ground, Means};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::drying::{OptionAnswer, OptionKind};
use crate::survey::{Period, Ran};

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;
const PERCENT: f64 = 100.0;

/// A number from the least windy to the windiest of the survey's cases, with the mean by their
/// shares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Lowest.
    pub low: f64,
    /// By the shares of the cases.
    pub mean: f64,
    /// Highest.
    pub high: f64,
}

/// What the survey expects through a period, the outside air being that measured and the wind
/// that of each weather case, since no logger reads it.
#[derive(Clone, Debug, PartialEq)]
pub struct Expected {
    /// Water collected, kg over the period.
    pub water_kg: Span,
    /// Electricity, kWh over the period.
    pub used_kwh: Span,
    /// Relative humidity inside, 0 to 1.
    pub rh: Span,
    /// Temperature inside, °C.
    pub t_in_c: Span,
    /// Air changes per hour.
    pub air_change_per_h: Answer<Span>,
}

/// The survey's steady state with the outside air measured, for what ran through a period. `None`
/// where nobody said what ran.
pub(super) fn expected(
    ground: &Ground<'_>,
    period: &Period,
    means: Result<&Means, &NotKnown>,
    days: f64,
) -> Option<Answer<Expected>> {
    if period.ran == Ran::NotSaid {
        return None;
    }
    Some(means.map_err(Clone::clone).and_then(|means| {
        let mut survey = ground.survey.clone();
        // What is planned is not done; what was measured says nothing here.
        survey.series.clear();
        survey.trials.clear();
        for case in &mut survey.weather {
            case.outside_c = means.t_out_c;
            case.outside_rh_percent = (means.rh_out * PERCENT).clamp(0.0, PERCENT);
        }
        let comparison = (ground.compare)(survey)?;
        let option = comparison
            .options
            .iter()
            .find(|option| is_of(option, period))
            .ok_or_else(|| {
                NotKnown::because("what ran is none of the options that the survey works out")
            })?;
        of_option(option, &comparison.cases, days)
    }))
}

fn is_of(option: &OptionAnswer, period: &Period) -> bool {
    match period.ran {
        Ran::NotSaid | Ran::Other => false,
        Ran::Nothing => option.kind == OptionKind::Nothing,
        Ran::Equipment => {
            (period.machine.is_some() || period.heater.is_some())
                && option.machine == period.machine
                && option.heater == period.heater
                && !matches!(
                    option.kind,
                    OptionKind::Nothing | OptionKind::LockersOpen | OptionKind::SameHeat
                )
        }
    }
}

fn of_option(
    option: &OptionAnswer,
    cases: &[crate::assess::drying::ComparedCase],
    days: f64,
) -> Answer<Expected> {
    let states = option
        .cases
        .iter()
        .map(|case| case.as_ref().map_err(Clone::clone))
        .collect::<Answer<Vec<_>>>()?;
    let shares: Vec<f64> = cases.iter().map(|case| case.share).collect();
    let span = |values: Vec<f64>| {
        let low = values.iter().copied().fold(f64::INFINITY, f64::min);
        let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let mean = values
            .iter()
            .zip(&shares)
            .map(|(value, share)| value * share);
        Span {
            low,
            mean: mean.sum(),
            high,
        }
    };
    if states.is_empty() {
        return Err(NotKnown::because("there is no weather case with its wind"));
    }
    let of = |value: &dyn Fn(&crate::assess::drying::OptionCase) -> f64| {
        span(states.iter().map(|state| value(state)).collect())
    };
    let air: Answer<Vec<f64>> = states.iter().map(|state| state.ach_per_h.clone()).collect();
    Ok(Expected {
        water_kg: of(&|state| state.removal_kg_s * DAY_S * days),
        used_kwh: of(&|state| state.energy.kwh_per_day * days),
        rh: of(&|state| state.rh),
        t_in_c: of(&|state| state.inside.t_c),
        air_change_per_h: air.map(span),
    })
}
