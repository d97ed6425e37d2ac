//! Tests of the air change as they were recorded, and what came of them.

use super::object::Object;
use crate::assess::measured::{AirOutcome, Verdict};
use crate::assess::{Answer, NotKnown};
use crate::physics::measurement::Limits;
use crate::survey::word::Word;
use crate::survey::{AirReading, AirTest, AirTestId};

/// A test as it was recorded.
pub(super) fn air_test(test: &AirTest) -> Object {
    Object::new()
        .with("id", test.id.0)
        .with("name", &test.name)
        .with("date", &test.date)
        .with("instrument", &test.instrument)
        .with("by", test.by.word())
        .with("tested", test.tested.word())
        .with("set_up", test.set_up.word())
        .with("closed", &test.closed)
        .with("inside_c", test.inside_c)
        .with("outside_c", test.outside_c)
        .with("wind_m_s", test.wind_m_s)
        .with("background", test.background)
        .list("readings", &test.readings, |one: &AirReading| {
            Object::new()
                .with("minutes", one.minutes)
                .with("value", one.value)
        })
        .with("hours", test.hours)
        .with("collected_l", test.collected_l)
        .with("given_off_l", test.given_off_l)
        .with("inside_rh_percent", test.inside_rh_percent)
        .with("outside_rh_percent", test.outside_rh_percent)
        .with("start_rh_percent", test.start_rh_percent)
        .with("end_rh_percent", test.end_rh_percent)
        .with("note", &test.note)
}

/// What came of one.
pub(super) fn result(id: AirTestId, outcome: &Answer<AirOutcome>) -> Object {
    let outcome = || outcome.as_ref().map_err(NotKnown::clone);
    let limits = |of: fn(Limits) -> f64| outcome().and_then(|one| Ok(of(one.ach_per_h.clone()?)));
    let expected = outcome().and_then(|one| {
        let expected = one.expected.as_ref().map_err(NotKnown::clone)?;
        expected.ach_per_h.clone()
    });
    Object::new()
        .with("id", id.0)
        .with("ach_per_h", limits(|one| one.value))
        .with("ach_low_per_h", limits(|one| one.low))
        .with("ach_high_per_h", limits(|one| one.high))
        .with("r_squared", outcome().and_then(|one| one.r_squared.clone()))
        .with("by_survey_ach_per_h", expected)
        .with("verdict", outcome().and_then(AirOutcome::verdict).map(word))
}

/// The word of a verdict.
pub(super) fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Agrees => "agrees",
        Verdict::MoreThanFound => "more_than_found",
        Verdict::LessThanFound => "less_than_found",
    }
}
