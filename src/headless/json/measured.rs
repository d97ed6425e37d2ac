//! Measurements as they were recorded, and what came of them.

use super::object::Object;
use crate::survey::word::Word;
use crate::survey::{Covered, FanReading, FanReadings, FanTest};

/// A fan test as it was recorded.
pub(super) fn fan_test(test: &FanTest) -> Object {
    Object::new()
        .with("id", test.id.0)
        .with("name", &test.name)
        .with("date", &test.date)
        .with("instrument", &test.instrument)
        .with("tested", test.tested.word())
        .with("set_up", test.set_up.word())
        .with("closed", &test.closed)
        .list("covered", &test.covered, covered)
        .recorded("inside_c", test.inside_c)
        .recorded("outside_c", test.outside_c)
        .with("barometer_hpa", test.barometer_hpa)
        .with("wind_m_s", test.wind_m_s)
        .with("blowing_out", readings(&test.blowing_out))
        .with("blowing_in", readings(&test.blowing_in))
        .with("note", &test.note)
}

fn covered(covered: &Covered) -> Object {
    Object::new()
        .with("gap", covered.gap.map(|gap| gap.0))
        .with("what", &covered.what)
        .with("uncovered", covered.uncovered)
}

fn readings(of: &FanReadings) -> Object {
    Object::new()
        .list("readings", &of.readings, |one: &FanReading| {
            Object::new()
                .with("pressure_pa", one.pressure_pa)
                .with("flow_m3_per_h", one.flow_m3_per_h)
        })
        .with("zero_before_pa", of.zero_before_pa)
        .with("zero_after_pa", of.zero_after_pa)
}
