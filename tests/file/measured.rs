//! `gapledger measured`: fan tests told as text, and the completion sheet that waits for them.

use crate::headless::{OnDisk, run};
use gapledger::assess::shown::Units;
use gapledger::headless::{Command, Outcome};
use gapledger::survey::file::parse;
use gapledger::survey::*;

const CARAVAN: &str = include_str!("../../sample-surveys/farmyard-caravan.ron");

/// The readings of the test published by C. Ghiaus, *Dynamic Models for Building Energy
/// Management*, tutorial A06 \[S\]: n 0.6434.
const PUBLISHED: [(f64, f64); 6] = [
    (10.0, 237.0),
    (20.0, 364.0),
    (30.0, 444.0),
    (40.0, 625.0),
    (50.0, 688.0),
    (60.0, 704.0),
];

fn tested(uncovered: bool) -> Survey {
    let mut survey = parse(CARAVAN).unwrap();
    let mut test = FanTest::new(FanTestId(1), SetUp::LaidUp);
    test.name = "in the yard".into();
    (test.inside_c, test.outside_c) = (Some(20.0), Some(20.0));
    test.covered = vec![Covered {
        gap: None,
        what: "flue of the heater".into(),
        uncovered,
    }];
    let reading = |(pressure, flow)| FanReading {
        pressure_pa: Some(pressure),
        flow_m3_per_h: Some(flow),
    };
    test.blowing_out.readings = PUBLISHED.map(reading).into();
    survey.fan_tests = vec![test];
    survey
}

fn measured(survey: &Survey) -> (String, Outcome) {
    let disk = OnDisk::new(survey);
    let units = Units::Metric;
    let run = run(Command::Measured {
        file: disk.file(),
        units,
    });
    assert_eq!(run.errors, "");
    // Where lines break says nothing.
    let words: Vec<&str> = run.out.split_whitespace().collect();
    (words.join(" "), run.outcome)
}

#[test]
fn the_page_says_what_the_published_test_says_and_what_it_lacks() {
    let (page, _) = measured(&tested(true));
    assert!(page.contains("FAN TEST 1 “IN THE YARD”"), "{page}");
    assert!(page.contains("most likely 0.643"), "{page}");
    assert!(
        page.contains("no pressure was taken with the fan covered"),
        "{page}"
    );
    assert!(!page.contains("still covered"), "{page}");
}

#[test]
fn what_is_still_covered_comes_first_and_is_a_danger() {
    let (page, outcome) = measured(&tested(false));
    assert_eq!(outcome, Outcome::SurveyHasDangers);
    let danger = page.find("look that it is free").unwrap();
    assert!(danger < page.find("IN THE YARD").unwrap(), "{page}");
    assert!(page.contains("lue of the heater"), "{page}");
}

#[test]
fn without_a_test_the_page_says_which_fan_it_takes() {
    let (page, _) = measured(&parse(CARAVAN).unwrap());
    assert!(page.contains("No fan test is written down yet"), "{page}");
    assert!(
        page.contains("A fan for this vehicle has to measure"),
        "{page}"
    );
    assert!(page.contains("gas shut at the bottle"), "{page}");
}

/// A decay as in METHOD's worked example, 0.7441 ± 0.0471 per hour, and the published fan test with the
/// pressure taken that it lacks: both weigh, and the page has the results without them beside.
#[test]
fn the_page_tells_an_air_change_and_what_measurements_make_of_the_results() {
    let mut survey = tested(true);
    survey.fan_tests[0].blowing_out.zero_before_pa = Some(0.0);
    let mut air = AirTest::new(AirTestId(1), SetUp::LaidUp);
    air.by = AirTestBy::Gas;
    (air.inside_c, air.outside_c) = (Some(12.0), Some(7.0));
    (air.wind_m_s, air.background) = (Some(2.0), Some(420.0));
    let above = [
        (0.0, 2600.0),
        (30.0, 1850.0),
        (60.0, 1210.0),
        (90.0, 870.0),
        (120.0, 590.0),
    ];
    air.readings = above
        .map(|(minutes, ppm)| AirReading {
            minutes: Some(minutes),
            value: Some(ppm + 420.0),
        })
        .into();
    survey.air_tests = vec![air];
    let (page, _) = measured(&survey);
    for told in [
        "AIR TEST 1",
        "0.70 to 0.79 /h, most likely 0.74 /h",
        "calibrated by fan test 1 “in the yard” and air test 1",
        "As surveyed",
        "A flame is never a source",
    ] {
        let page = page.replace('\u{a0}', " ");
        assert!(
            page.to_lowercase().contains(&told.to_lowercase()),
            "{told}: {page}"
        );
    }
    survey.calibrated = false;
    let (page, _) = measured(&survey);
    assert!(
        page.contains("Measurements do not weigh in the results"),
        "{page}"
    );
    assert!(!page.contains("calibrated by"), "{page}");
}
