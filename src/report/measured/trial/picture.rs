//! The rows of the picture of what each method did.

use super::verdict::{NO_EFFECT, points};
use crate::assess::measured::trial::{Change, Effect, Pair, TrialOutcome};
use crate::assess::words::{capital, counted, listed};
use crate::figure::trial::{Bar, VerdictRow};
use crate::physics::units::GRAMS_PER_KG;
use crate::survey::{PeriodId, Trial};

const PERCENT: f64 = 100.0;

/// A row for each method of which something is known, with the numbers of its periods.
#[must_use]
pub fn rows(trial: &Trial, outcome: &TrialOutcome) -> Vec<VerdictRow> {
    let methods = outcome.methods.iter().filter_map(|method| {
        let effect = method.effect.as_ref().ok()?;
        let numbers = method.pairs.iter().filter_map(|pair| {
            let at = trial
                .periods
                .iter()
                .position(|period| period.id == pair.with)?;
            Some((at + 1).to_string())
        });
        Some(VerdictRow {
            name: format!(
                "{}: {}, {}",
                listed(numbers),
                capital(&method.words),
                days(outcome, &method.pairs, effect)
            ),
            warmth_k: bar(&effect.warmth_k, 1.0),
            water_g: bar(&effect.water, GRAMS_PER_KG),
            rh_points: bar(&effect.rh, PERCENT),
            verdict: short(effect),
        })
    });
    methods.collect()
}

/// How long was tried: days with it and days without; of several pairs those of the shortest period.
fn days(outcome: &TrialOutcome, pairs: &[Pair], effect: &Effect) -> String {
    let of = |id: PeriodId| outcome.periods.iter().find(|period| period.id == id);
    let only = match pairs {
        [only] => of(only.with).zip(of(only.without)),
        _ => None,
    };
    match only {
        Some((with, without)) => format!(
            "{} against {} without",
            counted(with.days.len(), "day", "days"),
            without.days.len()
        ),
        None => {
            let days = counted(effect.fewest_days, "day", "days");
            format!("{} × {days} or more", effect.pairs)
        }
    }
}

fn bar(change: &Change, scale: f64) -> Bar {
    Bar {
        value: change.value * scale,
        limits: change
            .limits
            .map(|limits| (limits.low * scale, limits.high * scale)),
    }
}

/// The verdict in a few words.
fn short(effect: &Effect) -> String {
    match effect.rh.limits {
        None => "too few days to tell".to_owned(),
        Some(_) if effect.is_shown() => points(effect.rh.value),
        Some(_) => NO_EFFECT.to_owned(),
    }
}
