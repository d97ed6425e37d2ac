//! What came of trials.

use super::object::Object;
use crate::assess::measured::trial::{
    Change, Effect, Expected, Foresight, Means, Method, OffBy, PeriodOutcome, Span, TrialOutcome,
    Tried,
};
use crate::assess::{Answer, NotKnown};
use crate::physics::measurement::Limits;
use crate::physics::units::GRAMS_PER_KG;
use crate::survey::{SeriesId, TrialId};

const PERCENT: f64 = 100.0;

/// Every trial; none where their files were not read.
pub(super) fn trials(tried: Option<&Tried>) -> Vec<Object> {
    let trials = tried.map(|tried| tried.trials.as_slice());
    let trials = trials.unwrap_or_default().iter();
    trials.map(|(id, outcome)| one(*id, outcome)).collect()
}

/// Every check of a logger; none where their files were not read.
pub(super) fn checks(tried: Option<&Tried>) -> Vec<Object> {
    let checks = tried.map(|tried| tried.checks.as_slice());
    let checks = checks.unwrap_or_default().iter();
    checks.map(|(id, found)| check(*id, found)).collect()
}

fn check(id: SeriesId, found: &Answer<OffBy>) -> Object {
    let warm = |of: fn(&Limits) -> f64| -> Answer<f64> {
        let limits = found.as_ref().map_err(NotKnown::clone)?.too_warm_k;
        let over_salt = || NotKnown::because("over salt only humidity is looked at");
        limits.as_ref().map(of).ok_or_else(over_salt)
    };
    let damp = |of: fn(&Limits) -> f64| {
        let found = found.as_ref().map_err(NotKnown::clone);
        found.map(|found| of(&found.too_damp) * PERCENT)
    };
    let hours = found.as_ref().map(|found| found.hours);
    Object::new()
        .with("id", id.0)
        .with("hours", hours.map_err(NotKnown::clone))
        .with("too_warm_k", warm(|limits| limits.value))
        .with("too_warm_low_k", warm(|limits| limits.low))
        .with("too_warm_high_k", warm(|limits| limits.high))
        .with("too_damp_percent", damp(|limits| limits.value))
        .with("too_damp_low_percent", damp(|limits| limits.low))
        .with("too_damp_high_percent", damp(|limits| limits.high))
}

fn one(id: TrialId, outcome: &Answer<TrialOutcome>) -> Object {
    let list = |of: &dyn Fn(&TrialOutcome) -> Vec<Object>| {
        let found = outcome.as_ref().map(of);
        found.map_err(NotKnown::clone)
    };
    Object::new()
        .with("id", id.0)
        .with(
            "methods",
            list(&|outcome| outcome.methods.iter().map(method).collect()),
        )
        .with(
            "periods",
            list(&|outcome| outcome.periods.iter().map(period).collect()),
        )
        .with(
            "days_needed",
            list(&|outcome| outcome.foresight.iter().map(foresight).collect()),
        )
}

fn foresight(one: &Foresight) -> Object {
    Object::new()
        .with("change_percent", one.points * PERCENT)
        .with("days", one.days)
}

fn method(method: &Method) -> Object {
    let ids: Vec<u32> = method.periods.iter().map(|id| id.0).collect();
    let left_out: Vec<u32> = method.left_out.iter().map(|(id, _)| id.0).collect();
    Object::new()
        .with("name", &method.words)
        .with("periods", ids)
        .with("left_out", left_out)
        .found("effect", &method.effect, effect)
}

fn effect(effect: &Effect) -> Object {
    Object::new()
        .with("pairs", effect.pairs)
        .with("fewest_days", effect.fewest_days)
        .with("shown", effect.is_shown())
        .with("warmth_k", change(&effect.warmth_k, 1.0))
        .with("water_g_per_kg", change(&effect.water, GRAMS_PER_KG))
        .with("humidity_percent", change(&effect.rh, PERCENT))
        .with("rh_without_percent", effect.rh_without * PERCENT)
        .with("rh_with_percent", effect.rh_with * PERCENT)
        .with("warmth_share", effect.warmth_share)
}

fn change(change: &Change, scale: f64) -> Object {
    Object::new()
        .with("value", change.value * scale)
        .with("low", change.limits.map(|limits| limits.low * scale))
        .with("high", change.limits.map(|limits| limits.high * scale))
}

fn period(period: &PeriodOutcome) -> Object {
    let not_weighed = || Err(NotKnown::because("no water was weighed"));
    let not_said = || Err(NotKnown::because("nobody said what ran"));
    let air: Answer<Limits> = period.air_change_per_h.clone().unwrap_or_else(not_weighed);
    let expected: Answer<Expected> = period.expected.clone().unwrap_or_else(not_said);
    Object::new()
        .with("id", period.id.0)
        .with("days_long", period.days_long)
        .with("days_read", period.days.len())
        .found("means", &period.means, means)
        .with("against", period.against.map(|id| id.0))
        .with(
            "effect",
            period
                .effect
                .as_ref()
                .and_then(|found| found.as_ref().ok())
                .map(effect),
        )
        .found("expected", &expected, by_the_survey)
        .found("air_change_by_water_per_h", &air, |limits| {
            limited(limits, 1.0)
        })
}

fn limited(limits: &Limits, scale: f64) -> Object {
    Object::new()
        .with("value", limits.value * scale)
        .with("low", limits.low * scale)
        .with("high", limits.high * scale)
}

fn means(means: &Means) -> Object {
    Object::new()
        .with("inside_c", means.t_in_c)
        .with("outside_c", means.t_out_c)
        .with("inside_g_per_kg", means.w_in * GRAMS_PER_KG)
        .with("outside_g_per_kg", means.w_out * GRAMS_PER_KG)
        .with("inside_rh_percent", means.rh_in * PERCENT)
        .with("outside_rh_percent", means.rh_out * PERCENT)
        .with("effective_days", means.effective_days)
}

fn by_the_survey(expected: &Expected) -> Object {
    Object::new()
        .with("water_kg", span(&expected.water_kg, 1.0))
        .with("used_kwh", span(&expected.used_kwh, 1.0))
        .with("rh_percent", span(&expected.rh, PERCENT))
        .with("inside_c", span(&expected.t_in_c, 1.0))
        .found("air_change_per_h", &expected.air_change_per_h, |air| {
            span(air, 1.0)
        })
}

fn span(span: &Span, scale: f64) -> Object {
    Object::new()
        .with("low", span.low * scale)
        .with("mean", span.mean * scale)
        .with("high", span.high * scale)
}
