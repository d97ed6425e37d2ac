//! Fan tests held against the published one and against what a survey leads one to expect.

use crate::assess::Study;
use crate::assess::measured::{Verdict, not_to_be_handed_over};
use crate::survey::{
    AreaConvention, Certainty, Covered, Facing, FanReading, FanReadings, FanTest, FanTestId, Form,
    Gap, GapId, SetUp, Survey, VehicleKind,
};

/// Pressures, Pa, and flows, m³/h, of the fan test published by C. Ghiaus, *Dynamic Models for
/// Building Energy Management*, tutorial A06 **\[S\]**: n 0.6434, C 53.3956 m³/h, 159.9 cm² at
/// 10 Pa with a discharge of one and ρ 1.2.
const PUBLISHED: [(f64, f64); 6] = [
    (10.0, 237.0),
    (20.0, 364.0),
    (30.0, 444.0),
    (40.0, 625.0),
    (50.0, 688.0),
    (60.0, 704.0),
];

fn published() -> FanReadings {
    let reading = |(pressure, flow)| FanReading {
        pressure_pa: Some(pressure),
        flow_m3_per_h: Some(flow),
    };
    FanReadings {
        readings: PUBLISHED.into_iter().map(reading).collect(),
        zero_before_pa: Some(0.0),
        zero_after_pa: Some(0.0),
    }
}

/// The published readings, at 20 °C on both sides of sea level: nothing to correct for.
fn test() -> FanTest {
    let mut test = FanTest::new(FanTestId(1), SetUp::LaidUp);
    (test.inside_c, test.outside_c) = (Some(20.0), Some(20.0));
    test.barometer_hpa = Some(1013.25);
    test.blowing_out = published();
    test
}

fn stated(id: u32, area_mm2: f64, certainty: Certainty) -> Gap {
    let form = Form::StatedArea {
        area_mm2: Some(area_mm2),
        convention: AreaConvention::EffectiveAt4Pa,
        exponent: Some(0.65),
    };
    let mut gap = Gap::new(GapId(id), crate::survey::ZoneId(1), Facing::Front, form);
    gap.certainty = certainty;
    gap
}

fn survey(gaps: Vec<Gap>, test: FanTest) -> Survey {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    survey.vehicle.volume_m3 = Some(20.0);
    survey.gaps = gaps;
    survey.fan_tests = vec![test];
    survey
}

#[test]
fn the_published_test_comes_out_as_published() {
    let study = Study::of(&survey(
        vec![stated(1, 10_000.0, Certainty::Measured)],
        test(),
    ));
    let outcome = study.measured().fan_test(FanTestId(1)).unwrap();
    assert!((outcome.exponent.value - 0.6434).abs() < 5e-5);
    // The line through the logarithms of the readings, in more digits than are published, by
    // `scipy.stats.linregress`: n 0.643 448 8, C 53.395 623 m³/h.
    let at_50 = 53.395_623 * 50.0_f64.powf(0.643_448_8);
    let flow = outcome.flow_50pa.value * 3600.0;
    // The density of the reference air, 1.2041, and that of dry air there differ by 4e-5; what is
    // left of it after the power 1 − n is 1.5e-5.
    assert!((flow / at_50 - 1.0).abs() < 2e-5, "{flow} {at_50}");
    let n50 = outcome.n50_per_h.clone().unwrap();
    assert!((n50.value - at_50 / 20.0).abs() < 1e-3);
    // 159.9 cm² with a discharge of one and 1.2 kg/m³ is so much with 0.611 and 1.2041.
    let eqla = 159.9 / 0.611 * (1.2041_f64 / 1.2).sqrt();
    assert!((outcome.eqla.value * 1e4 - eqla).abs() < 0.1);
    assert!(n50.low < n50.value && n50.value < n50.high);
    // r² 0.9815 is published.
    assert!((outcome.fits[0].fit.r_squared() - 0.9815).abs() < 5e-5);
    assert!(outcome.is_valid());
}

#[test]
fn both_directions_are_averaged_and_warm_air_is_corrected_for() {
    let mut both = test();
    both.blowing_in = published();
    let outcome = |test: FanTest| {
        let study = Study::of(&survey(vec![], test));
        study.measured().fan_test(FanTestId(1)).unwrap().clone()
    };
    let (one, two) = (outcome(test()), outcome(both.clone()));
    assert_eq!(two.fits.len(), 2);
    assert!((two.flow_50pa.value / one.flow_50pa.value - 1.0).abs() < 1e-12);
    // Two independent tests: narrower by √2, on the smaller side to first order.
    let half = |limits: crate::physics::measurement::Limits| limits.high - limits.low;
    let narrower = half(one.flow_50pa) / half(two.flow_50pa);
    assert!((narrower - 2.0_f64.sqrt()).abs() < 1e-9, "{narrower}");
    // Depressurising with 30 K: ρ_i/ρ_o = T_o/T_i, then C_L = C_env (ρ_o/ρ₀)^(1−n) (ISO 9972 [R]).
    let mut warm = test();
    (warm.inside_c, warm.outside_c) = (Some(20.0), Some(-10.0));
    let (t_i, t_o, n) = (293.15_f64, 263.15_f64, one.exponent.value);
    let expected = (t_o / t_i) * (t_i / t_o).powf(1.0 - n);
    let ratio = outcome(warm).flow_50pa.value / one.flow_50pa.value;
    assert!((ratio - expected).abs() < 1e-4, "{ratio} {expected}");
}

#[test]
fn what_was_covered_is_not_expected_to_leak() {
    let mut covering = test();
    covering.covered = vec![Covered {
        gap: Some(GapId(2)),
        what: String::new(),
        uncovered: true,
    }];
    let gaps = || {
        vec![
            stated(1, 5000.0, Certainty::Measured),
            stated(2, 3000.0, Certainty::Measured),
        ]
    };
    let expected = |test: FanTest| {
        let study = Study::of(&survey(gaps(), test));
        let outcome = study.measured().fan_test(FanTestId(1)).unwrap().clone();
        outcome.predicted.unwrap().flow_at(4.0)
    };
    // ELA is defined at 4 Pa: Q = A √(2·4/1.2041).
    let speed = (8.0_f64 / 1.2041).sqrt();
    assert!((expected(test()) - 8000e-6 * speed).abs() < 1e-9);
    assert!((expected(covering) - 5000e-6 * speed).abs() < 1e-9);
}

/// Ten million draws by numpy (`default_rng(1)`): three gaps of 50, 30 and 20 parts with factors of
/// mean one and 95 % factors 1.2, 1.6 and 3, the surveyor 1.15, sharp edges 1.08: standard deviation
/// of the logarithm of the sum 0.16380. Fenton and Wilkinson differ from it by less than a
/// twentieth.
#[test]
fn the_spread_of_what_is_expected_is_that_of_draws() {
    let gaps = vec![
        stated(1, 5000.0, Certainty::Measured),
        stated(2, 3000.0, Certainty::Estimated),
        stated(3, 2000.0, Certainty::Guessed),
    ];
    let study = Study::of(&survey(gaps, test()));
    let outcome = study.measured().fan_test(FanTestId(1)).unwrap();
    let sigma = outcome.predicted.as_ref().unwrap().sigma_at(4.0);
    assert!((sigma / DRAWN - 1.0).abs() < 0.05, "{sigma}");
}

const DRAWN: f64 = 0.163_80;

#[test]
fn a_test_far_from_the_survey_contradicts_it() {
    let verdict = |area: f64| {
        let study = Study::of(&survey(vec![stated(1, area, Certainty::Measured)], test()));
        let outcome = study.measured().fan_test(FanTestId(1)).unwrap().clone();
        (outcome.verdict().unwrap(), outcome.not_found().unwrap())
    };
    // The published test has an ELA of 53.3956·4^0.6434/3600/√(8/1.2041) = 140.4 cm².
    let (agrees, not_found) = verdict(14_040.0);
    assert_eq!(agrees, Verdict::Agrees);
    assert!(not_found.low < 0.0 && not_found.high > 0.0);
    let (more, not_found) = verdict(14_040.0 / 4.0);
    assert_eq!(more, Verdict::MoreThanFound);
    assert!(not_found.low > 0.0);
    let (less, not_found) = verdict(14_040.0 * 4.0);
    assert_eq!(less, Verdict::LessThanFound);
    assert!(not_found.high < 0.0);
}

#[test]
fn a_test_that_lacks_something_says_what() {
    let reason = |change: fn(&mut FanTest)| {
        let mut lacking = test();
        change(&mut lacking);
        let study = Study::of(&survey(vec![], lacking));
        let found = study.measured().fan_test(FanTestId(1)).map(|_| ());
        found.unwrap_err().reason
    };
    assert!(reason(|test| test.inside_c = None).contains("inside"));
    assert!(reason(|test| test.blowing_out = FanReadings::default()).contains("no readings"));
    assert!(reason(|test| test.blowing_out.readings.truncate(2)).contains("three points"));
    assert!(reason(|test| test.blowing_out.zero_before_pa = Some(40.0)).contains("reading 1"));
    // One that is not whole yet is counted too.
    let second = reason(|test| {
        test.blowing_out.readings[0].flow_m3_per_h = None;
        test.blowing_out.zero_before_pa = Some(40.0);
    });
    assert!(second.starts_with("blowing out: reading 2 "), "{second}");
    assert!(reason(|test| test.outside_c = Some(400.0)).contains("not possible"));
    // Without gaps there is nothing to hold it against, and the numbers are there all the same.
    let study = Study::of(&survey(vec![], test()));
    let outcome = study.measured().fan_test(FanTestId(1)).unwrap();
    assert!(outcome.predicted.is_err() && outcome.verdict().is_err());
}

#[test]
fn the_fan_for_a_survey_measures_what_may_come() {
    let study = Study::of(&survey(
        vec![stated(1, 5000.0, Certainty::Measured)],
        test(),
    ));
    let range = study.measured().flow_range.clone().unwrap();
    let speed = (8.0_f64 / 1.2041).sqrt();
    let flow = |pressure: f64| 5000e-6 * speed * (pressure / 4.0).powf(0.65);
    // σ² = (ln 1.2² + ln 1.15² + ln 1.08²)/1.96² + 0.4², from the factors that METHOD assumes [A].
    let sum: f64 = [1.2, 1.15, 1.08]
        .map(|k: f64| (k.ln() / 1.96).powi(2))
        .iter()
        .sum();
    let wide = (1.96 * (sum + 0.16).sqrt()).exp();
    assert!((range.least / (flow(10.0) / wide) - 1.0).abs() < 1e-9);
    assert!((range.most / (flow(60.0) * wide) - 1.0).abs() < 1e-9);
}

#[test]
fn nothing_is_handed_over_while_something_is_covered() {
    let mut covering = test();
    covering.covered = vec![Covered {
        gap: None,
        what: "refrigerator vents".to_owned(),
        uncovered: false,
    }];
    let mut survey = survey(vec![], covering);
    let why = not_to_be_handed_over(&survey).unwrap();
    assert!(why.contains("refrigerator vents"), "{why}");
    survey.fan_tests[0].covered[0].uncovered = true;
    assert_eq!(not_to_be_handed_over(&survey), None);
}
