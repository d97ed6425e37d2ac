//! Measurements as they were recorded, and what came of them.

use super::air_tests::{self, word};
use super::object::Object;
use crate::assess::calibration::MeasurementId;
use crate::assess::measured::{FanOutcome, Measured};
use crate::assess::{Answer, NotKnown, Study};
use crate::physics::measurement::Limits;
use crate::physics::units::{MM2_PER_M2, SECONDS_PER_HOUR};
use crate::survey::word::Word;
use crate::survey::{Covered, FanReading, FanReadings, FanTest, FanTestId};

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

/// What came of the measurements.
pub(super) fn results(measured: &Measured, checks: Vec<Object>, trials: Vec<Object>) -> Object {
    let range = |of: fn(&crate::assess::measured::FlowRange) -> f64| {
        let range = measured.flow_range.as_ref().map_err(NotKnown::clone);
        range.map(|range| of(range) * SECONDS_PER_HOUR)
    };
    Object::new()
        .with("fan_least_m3_per_h", range(|range| range.least))
        .with("fan_most_m3_per_h", range(|range| range.most))
        .list("fan_tests", &measured.fan_tests, |(id, outcome)| {
            one(*id, outcome)
        })
        .list("air_tests", &measured.air_tests, |(id, outcome)| {
            air_tests::result(*id, outcome)
        })
        .with("logger_checks", checks)
        .with("trials", trials)
}

/// What measurements make of the results, beside the results as surveyed.
pub(super) fn calibration(study: &Study) -> Object {
    let calibration = study.calibration();
    let surveyed = study.as_surveyed().assessment();
    let eqla = surveyed.leakage.unintended.as_ref();
    let eqla = eqla.map(|total| total.figures.eqla * MM2_PER_M2);
    Object::new()
        .list("by", &calibration.by, |one| {
            measurement(one.of).with("verdict", word(one.verdict))
        })
        .list("not_by", &calibration.not_by, |(of, why)| {
            measurement(*of).with("reason", &why.reason)
        })
        .list(
            "against_each_other",
            &calibration.against_each_other,
            |(one, other)| {
                Object::new()
                    .with("one", measurement(*one))
                    .with("other", measurement(*other))
            },
        )
        .with(
            "surveyed_unintended_eqla_10pa_mm2",
            eqla.map_err(NotKnown::clone),
        )
        .with("surveyed_season_ach_mean_per_h", &surveyed.season_ach_per_h)
}

/// Which measurement it is.
fn measurement(of: MeasurementId) -> Object {
    let (fan_test, air_test) = match of {
        MeasurementId::FanTest(id) => (Some(id.0), None),
        MeasurementId::AirTest(id) => (None, Some(id.0)),
    };
    Object::new()
        .with("fan_test", fan_test)
        .with("air_test", air_test)
}

fn one(id: FanTestId, outcome: &Answer<FanOutcome>) -> Object {
    let outcome = || outcome.as_ref().map_err(NotKnown::clone);
    let part = |of: &dyn Fn(&FanOutcome) -> Answer<Limits>, scale: f64| {
        let limits = outcome().and_then(of);
        [
            limits.clone().map(|limits| limits.value * scale),
            limits.clone().map(|limits| limits.low * scale),
            limits.map(|limits| limits.high * scale),
        ]
    };
    let [n50, n50_low, n50_high] = part(&|of| of.n50_per_h.clone(), 1.0);
    let [eqla, eqla_low, eqla_high] = part(&|of| Ok(of.eqla), MM2_PER_M2);
    let [ela, ela_low, ela_high] = part(&|of| Ok(of.ela), MM2_PER_M2);
    let [exponent, exponent_low, exponent_high] = part(&|of| Ok(of.exponent), 1.0);
    let [flow, flow_low, flow_high] = part(&|of| Ok(of.flow_50pa), SECONDS_PER_HOUR);
    let [found, found_low, found_high] = part(&FanOutcome::not_found, MM2_PER_M2);
    let expected = outcome().and_then(|of| {
        let predicted = of.predicted.as_ref().map_err(NotKnown::clone)?;
        Ok(predicted.flow_at(50.0) * SECONDS_PER_HOUR)
    });
    let verdict = outcome().and_then(FanOutcome::verdict);
    Object::new()
        .with("id", id.0)
        .with("valid", outcome().map(FanOutcome::is_valid))
        .with("n50_per_h", n50)
        .with("n50_low_per_h", n50_low)
        .with("n50_high_per_h", n50_high)
        .with("eqla_mm2", eqla)
        .with("eqla_low_mm2", eqla_low)
        .with("eqla_high_mm2", eqla_high)
        .with("ela_mm2", ela)
        .with("ela_low_mm2", ela_low)
        .with("ela_high_mm2", ela_high)
        .with("exponent", exponent)
        .with("exponent_low", exponent_low)
        .with("exponent_high", exponent_high)
        .with("flow_50pa_m3_per_h", flow)
        .with("flow_50pa_low_m3_per_h", flow_low)
        .with("flow_50pa_high_m3_per_h", flow_high)
        .with("by_survey_flow_50pa_m3_per_h", expected)
        .with("not_found_eqla_mm2", found)
        .with("not_found_eqla_low_mm2", found_low)
        .with("not_found_eqla_high_mm2", found_high)
        .with("verdict", verdict.map(word))
}
