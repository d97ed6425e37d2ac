//! How sure the headlines are, in words.

use super::format::digits_of;
use crate::assess::Assessment;
use crate::assess::uncertainty::{CaseUncertainty, Interval, Uncertainty};

/// `(0.52–1.3)`: the middle 95 % of what a result may be.
#[must_use]
pub fn words(interval: &Interval) -> String {
    between(interval.low, interval.high)
}

fn between(low: f64, high: f64) -> String {
    format!("({}–{})", digits_of(low, 2), digits_of(high, 2))
}

/// The intervals of the strip's headlines, in their order: leakage area in cm², air changes with
/// least and with most wind, water and heat from the least of the one to the most of the other.
/// `None` where one is not known.
#[must_use]
pub fn of_headlines(assessment: &Assessment, found: &Uncertainty) -> [Option<String>; 5] {
    let area = &found.eqla_unintended;
    let area = Some(between(area.low * 1e4, area.high * 1e4));
    let Some((calm, windy)) = assessment.calmest_and_windiest else {
        return [area, None, None, None, None];
    };
    let (Some(calm), Some(windy)) = (found.cases.get(calm), found.cases.get(windy)) else {
        return [area, None, None, None, None];
    };
    let air = |case: &CaseUncertainty| case.ach_per_h.as_ref().ok().map(words);
    let both = |of: fn(&CaseUncertainty) -> Option<Interval>| {
        let (calm, windy) = (of(calm)?, of(windy)?);
        Some(between(calm.low.min(windy.low), calm.high.max(windy.high)))
    };
    [
        area,
        air(calm),
        air(windy),
        both(|case| case.removal_l_per_day.clone().ok()),
        both(|case| case.heat_w.clone().ok()),
    ]
}
