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
