//! Tests of the air change held against worked examples, psychrolib, and the survey.

use crate::assess::Study;
use crate::assess::measured::{AirOutcome, Verdict};
use crate::survey::{
    AirReading, AirTest, AirTestBy, AirTestId, AreaConvention, Certainty, Facing, Form, Gap, GapId,
    InsideAir, SetUp, Survey, VehicleKind, WeatherCase, WeatherId, ZoneId,
};

fn reading((hours, value): (f64, f64)) -> AirReading {
    AirReading {
        minutes: Some(60.0 * hours),
        value: Some(value),
    }
}

/// The worked example of METHOD, section *Tracer decay*, with 420 ppm outside.
fn decay() -> AirTest {
    let mut test = AirTest::new(AirTestId(1), SetUp::LaidUp);
    (test.inside_c, test.outside_c) = (Some(15.0), Some(5.0));
    test.wind_m_s = Some(3.0);
    test.background = Some(420.0);
    let above = [
        (0.0, 2600.0),
        (0.5, 1850.0),
        (1.0, 1210.0),
        (1.5, 870.0),
        (2.0, 590.0),
    ];
    test.readings = above.map(|(t, ppm)| reading((t, ppm + 420.0))).into();
    test
}

fn gap(id: u32, facing: Facing, area_mm2: f64) -> Gap {
    let form = Form::StatedArea {
        area_mm2: Some(area_mm2),
        convention: AreaConvention::EffectiveAt4Pa,
        exponent: Some(0.65),
    };
    let mut gap = Gap::new(GapId(id), ZoneId(1), facing, form);
    gap.certainty = Certainty::Estimated;
    gap.position.height_m = Some(1.5);
    gap
}

/// A caravan of 20 m³ with a gap in front and one behind.
fn survey(area_mm2: f64, test: AirTest) -> Survey {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    let sizes = &mut survey.vehicle;
    (sizes.length_m, sizes.width_m, sizes.height_m) = (Some(5.0), Some(2.2), Some(2.6));
    sizes.floor_height_m = Some(0.4);
    sizes.volume_m3 = Some(20.0);
    survey.site.altitude_m = 0.0;
    survey.gaps = vec![
        gap(1, Facing::Front, area_mm2),
        gap(2, Facing::Rear, area_mm2),
    ];
    survey.air_tests = vec![test];
    survey
}

fn outcome(survey: &Survey) -> Result<AirOutcome, String> {
    let study = Study::of(survey);
    let found = study.measured().air_test(AirTestId(1)).cloned();
    found.map_err(|why| why.reason)
}

/// 0.7441 ± 0.0471 per hour, METHOD; r² 0.99882 by `scipy.stats.linregress`.
#[test]
fn a_decay_comes_out_as_in_the_worked_example() {
    let found = outcome(&survey(3000.0, decay())).unwrap();
    let ach = found.ach_per_h.unwrap();
    assert!((ach.value - 0.7441).abs() < 1e-4, "{ach:?}");
    assert!((ach.high - ach.value - 0.0471).abs() < 1e-4, "{ach:?}");
    assert!((found.r_squared.unwrap() - 0.998_815).abs() < 1e-6);
}

/// −0.019 ± 0.133 per hour by scipy: nothing can be told.
#[test]
fn an_air_change_that_cannot_be_told_from_none_is_refused() {
    let mut flat = decay();
    let times = [0.0, 0.5, 1.0, 1.5, 2.0].into_iter();
    let read = [900.0, 1010.0, 960.0, 1040.0, 930.0];
    flat.readings = times
        .zip(read)
        .map(|(t, v)| reading((t, v + 420.0)))
        .collect();
    let why = outcome(&survey(3000.0, flat)).unwrap_err();
    assert!(why.contains("holds zero"), "{why}");
    // Rising by 0.1 each half hour: no reading more would make a decay of it.
    let mut rising = decay();
    rising.readings.reverse();
    for (at, reading) in (0_u8..).zip(&mut rising.readings) {
        reading.minutes = Some(30.0 * f64::from(at));
    }
    let why = outcome(&survey(3000.0, rising)).unwrap_err();
    assert!(why.contains("the readings rise"), "{why}");
    let mut outside = decay();
    outside.background = None;
    let why = outcome(&survey(3000.0, outside)).unwrap_err();
    assert!(why.contains("outside air"), "{why}");
}

/// Who takes out the reading that is named must not take out a good one.
#[test]
fn the_reading_that_will_not_do_is_named_by_its_place_in_the_list() {
    let mut test = decay();
    test.readings[1].value = None;
    test.readings[3].value = Some(400.0);
    let why = outcome(&survey(3000.0, test)).unwrap_err();
    assert!(why.contains("reading 4 does not lie above"), "{why}");
}

fn collected() -> AirTest {
    let mut test = decay();
    test.by = AirTestBy::WaterCollected;
    (test.hours, test.collected_l, test.given_off_l) = (Some(96.0), Some(3.0), Some(0.0));
    (test.inside_c, test.inside_rh_percent) = (Some(10.0), Some(55.0));
    (test.outside_c, test.outside_rh_percent) = (Some(11.0), Some(92.0));
    (test.start_rh_percent, test.end_rh_percent) = (Some(80.0), Some(60.0));
    test
}

/// By psychrolib for the humidities and Fieller's limits by hand: three litres in four days, half a
/// litre of them from furniture (24 g for each point, 80 to 60 %), 0.3194 per hour, 0.2586 to 0.3988;
/// loggers off by 2 points and 0.3 K.
#[test]
fn water_collected_tells_the_air_change() {
    let found = outcome(&survey(3000.0, collected())).unwrap();
    let ach = found.ach_per_h.unwrap();
    for (found, expected) in [
        (ach.value, 0.319_421),
        (ach.low, 0.258_568),
        (ach.high, 0.398_769),
    ] {
        assert!(
            (found / expected - 1.0_f64).abs() < 2e-3,
            "{found} {expected}"
        );
    }
    let flow = found.inflow_kg_s.unwrap();
    assert!((flow.value / 0.002_206_74 - 1.0).abs() < 2e-3);
}

#[test]
fn water_collected_is_refused_where_the_air_is_too_alike_or_something_is_missing() {
    let why = |change: fn(&mut AirTest)| {
        let mut test = collected();
        change(&mut test);
        outcome(&survey(3000.0, test)).unwrap_err()
    };
    assert!(why(|test| test.outside_rh_percent = Some(55.0)).contains("too little"));
    assert!(why(|test| test.collected_l = Some(0.3)).contains("account for all"));
    assert!(why(|test| test.given_off_l = None).contains("given off"));
    assert!(why(|test| test.end_rh_percent = None).contains("at the end"));
    assert!(why(|test| test.inside_rh_percent = Some(140.0)).contains("not possible"));
}

/// The weather of a test is a weather case like any other: what the assessment says of one with the same
/// wind at the vehicle is expected of the test.
#[test]
fn what_is_expected_is_the_air_change_in_the_weather_of_the_test() {
    let mut surveyed = survey(3000.0, decay());
    surveyed.calibrated = false;
    let per = crate::physics::wind::speed_at(surveyed.site.terrain, 1.0, 2.6);
    surveyed.weather = vec![WeatherCase {
        id: WeatherId(1),
        name: "of the test".to_owned(),
        wind_m_s: 3.0 / per,
        outside_c: 5.0,
        outside_rh_percent: 50.0,
        inside: InsideAir::HeldAt {
            temperature_c: 15.0,
        },
        inside_rh_percent: None,
        weight: 1.0,
    }];
    let study = Study::of(&surveyed);
    let case = study.assessment().season_ach_per_h.clone().unwrap();
    let found = outcome(&surveyed).unwrap().expected.unwrap();
    let expected = found.ach_per_h.clone().unwrap();
    assert!((expected / case - 1.0).abs() < 1e-6, "{expected} {case}");
    // All leaks twice as large let in twice as much: the parts of all gaps together are one.
    let parts: f64 = found.parts.iter().map(|(_, part)| part).sum();
    assert!((parts - 1.0).abs() < 0.02, "{parts}");
}

#[test]
fn a_test_far_from_the_survey_contradicts_it() {
    let verdict = |area: f64| outcome(&survey(area, decay())).unwrap().verdict().unwrap();
    let expected = |area: f64| {
        let found = outcome(&survey(area, decay())).unwrap().expected.unwrap();
        found.ach_per_h.unwrap()
    };
    // The area with which the survey expects what was measured, by proportion.
    let like = 3000.0 * 0.7441 / expected(3000.0);
    assert_eq!(verdict(like), Verdict::Agrees);
    assert_eq!(verdict(like / 5.0), Verdict::MoreThanFound);
    assert_eq!(verdict(like * 5.0), Verdict::LessThanFound);
}

/// Measured by a tracer, the vehicle leaks what makes its air change what was measured; a second run
/// narrows what one leaves open.
#[test]
fn tests_of_the_air_change_weigh_in_all_results() {
    let mut surveyed = survey(1200.0, decay());
    let one = Study::of(&surveyed);
    assert!(one.calibration().is_any());
    let spread = |survey: &Survey| {
        let found = crate::assess::uncertainty::uncertainty(survey, 1, 4_000).unwrap();
        let calibrated = found.calibrated.clone().unwrap();
        assert!(calibrated.effective_draws > 300.0, "{calibrated:?}");
        let unintended = found.eqla_unintended;
        let before = calibrated.before.eqla_unintended;
        let width = |low: f64, high: f64| (high / low).ln();
        (
            unintended.mean,
            width(unintended.low, unintended.high),
            width(before.low, before.high),
        )
    };
    let (mean, after, before) = spread(&surveyed);
    assert!(after < 0.6 * before, "{after} {before}");
    // The closed form, with which the headline is worked out, and the draws are one.
    let eqla = |study: &Study| {
        let total = study.assessment().leakage.unintended.clone();
        total.unwrap().figures.eqla
    };
    assert!(
        (eqla(&one) / mean - 1.0).abs() < 0.05,
        "{} {mean}",
        eqla(&one)
    );
    assert!(eqla(&one) > 1.2 * eqla(one.as_surveyed()));
    let mut second = decay();
    second.id = AirTestId(2);
    surveyed.air_tests.push(second);
    let (_, narrower, _) = spread(&surveyed);
    assert!(narrower < after, "{narrower} {after}");
}
