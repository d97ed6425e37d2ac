//! What is said of test and survey side by side.

use super::fan::compared;
use crate::assess::Study;
use crate::survey::{
    AreaConvention, Certainty, Facing, FanReading, FanTest, FanTestId, Form, Gap, GapId, SetUp,
    Survey, VehicleKind, ZoneId,
};

/// Pressures, Pa, and flows, m³/h, of the published fan test: C. Ghiaus, *Dynamic Models for
/// Building Energy Management*, tutorial A06 **\[S\]**.
const PUBLISHED: [(f64, f64); 6] = [
    (10.0, 237.0),
    (20.0, 364.0),
    (30.0, 444.0),
    (40.0, 625.0),
    (50.0, 688.0),
    (60.0, 704.0),
];

/// What is said where the survey's one gap, measured, has so many times the 140.4 cm² (4 Pa) that
/// the published test shows.
fn said(times: f64) -> String {
    let form = Form::StatedArea {
        area_mm2: Some(14_040.0 * times),
        convention: AreaConvention::EffectiveAt4Pa,
        exponent: Some(0.65),
    };
    let mut gap = Gap::new(GapId(1), ZoneId(1), Facing::Front, form);
    gap.certainty = Certainty::Measured;
    let mut test = FanTest::new(FanTestId(1), SetUp::LaidUp);
    (test.inside_c, test.outside_c) = (Some(20.0), Some(20.0));
    test.blowing_out.readings = PUBLISHED
        .map(|(pressure, flow)| FanReading {
            pressure_pa: Some(pressure),
            flow_m3_per_h: Some(flow),
        })
        .into();
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    survey.gaps = vec![gap];
    survey.fan_tests = vec![test];
    let study = Study::of(&survey);
    compared(study.measured().fan_test(FanTestId(1)).unwrap())
}

/// The areas are from `scipy.stats.linregress` with Student's t for the test, and from METHOD's
/// factors **\[A\]** (1.2 the gap, 1.15 the surveyor, 1.08 sharp edges) for the survey.
#[test]
fn which_of_test_and_survey_shows_more_stands_in_words_and_not_in_signs() {
    for (times, parts) in [
        (
            1.0,
            [
                "between 82.9\u{a0}cm² less and 69.9\u{a0}cm² more leakage area (EqLA) than the survey",
                "agree within their uncertainty",
            ],
        ),
        (
            1.9,
            [
                "shows 123 to 381\u{a0}cm² less leakage area (EqLA) than the survey, most likely 239\u{a0}cm² less.",
                "Both cannot be right",
            ],
        ),
        (
            1.0 / 1.9,
            [
                "shows 70.0 to 176\u{a0}cm² more leakage area (EqLA) than the survey, most likely 123\u{a0}cm² more",
                "do not contradict each other",
            ],
        ),
        (
            4.0,
            [
                "shows 561 to 1080\u{a0}cm² less leakage area",
                "Both cannot be right",
            ],
        ),
        (
            0.25,
            [
                "shows 155 to 242\u{a0}cm² more leakage area",
                "Both cannot be right",
            ],
        ),
    ] {
        let said = said(times);
        for part in parts {
            assert!(said.contains(part), "{times}: {part}: {said}");
        }
        assert!(!said.contains('−'), "{said}");
    }
}
