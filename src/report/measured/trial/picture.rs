//! The rows of the picture of what each method did.

use super::verdict::{NO_EFFECT, points};
use crate::assess::measured::trial::{Change, Effect, TrialOutcome};
use crate::assess::words::{capital, counted};
use crate::figure::trial::{Bar, VerdictRow};
use crate::physics::units::GRAMS_PER_KG;

const PERCENT: f64 = 100.0;

/// A row for each method of which something is known.
#[must_use]
pub fn rows(outcome: &TrialOutcome) -> Vec<VerdictRow> {
    let methods = outcome.methods.iter().filter_map(|method| {
        let effect = method.effect.as_ref().ok()?;
        let days = counted(effect.fewest_days, "day", "days");
        Some(VerdictRow {
            name: match effect.pairs {
                1 => format!("{}, {days}", capital(&method.words)),
                pairs => format!("{}, {pairs} × {days}", capital(&method.words)),
            },
            warmth_k: bar(&effect.warmth_k, 1.0),
            water_g: bar(&effect.water, GRAMS_PER_KG),
            rh_points: bar(&effect.rh, PERCENT),
            verdict: short(effect),
        })
    });
    methods.collect()
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
