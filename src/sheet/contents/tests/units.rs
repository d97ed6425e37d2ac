//! Sheets in US customary units: no number of a metric unit stands under another one's name.

use super::*;
use crate::assess::shown::Units;
use crate::assess::uncertainty::{SEED, uncertainty};
use std::path::Path;

const STREET: &str = include_str!("../../../../sample-surveys/street-panel-van.ron");

fn in_us(study: &Study, kind: Kind) -> Sheet {
    let mut choices = Choices::new(kind);
    choices.units = Units::UsCustomary;
    contents(&Material::of(study, kind, &BTreeMap::new()), &choices)
}

/// The words of a drawing.
fn drawn(sheet: &Sheet, name: &str) -> Vec<String> {
    let file = sheet.files.iter().find(|(file, _)| file == name);
    let (_, picture) = file.unwrap_or_else(|| panic!("no drawing {name}"));
    let svg = String::from_utf8(picture.bytes.to_vec()).expect("text");
    let texts = svg.split("</text>").filter_map(|piece| {
        let words = piece.rsplit_once("<text")?.1.split_once('>')?.1;
        Some(words.replace('\u{a0}', " "))
    });
    texts.collect()
}

fn text(section: &Section) -> String {
    let text = serde_json::to_string(section).expect("JSON");
    text.replace('\u{a0}', " ")
}

fn orchard() -> Study {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/orchard-trial.ron");
    let study = Study::of(&file::load(&file).expect("a sample").survey);
    let folders = crate::tasks::data_folders(Some(&file), None);
    let (shelf, to_the_end) = (crate::tasks::Shelf::default(), crate::tasks::to_the_end);
    crate::tasks::tried(&study, &folders, file.parent(), &shelf, &to_the_end).expect("a trial");
    study
}

#[test]
fn the_axes_of_a_trial_are_in_the_units_of_its_tables() {
    let sheet = in_us(&orchard(), Kind::Report);
    let chart = drawn(&sheet, "trial-1");
    // 5 and 10 °C are 41 and 50 °F; 4 g/kg are 28 grains in each pound.
    for words in ["41 °F", "50 °F", "28 gr/lb"] {
        assert!(chart.iter().any(|one| one == words), "{words}: {chart:?}");
    }
    let verdict = drawn(&sheet, "verdict-1");
    for one in chart.iter().chain(&verdict) {
        let is_number = one.trim_start_matches(['+', '\u{2212}']).parse::<f64>();
        assert!(
            !one.contains("°C") && !one.contains("g/kg") && !one.ends_with(" K"),
            "{one}"
        );
        // What stands without a unit is a change of relative humidity, in points, or none.
        assert!(is_number.is_err() || verdict.contains(one), "{one}");
    }
    let warmest = verdict
        .iter()
        .find(|one| one.starts_with('+') && one.ends_with(" °F"));
    let number = warmest.and_then(|one| one[1..].split(' ').next()?.parse::<f64>().ok());
    // The widest interval of the table ends at +11.9 °F, and the axis a little beyond.
    assert!(
        number.is_some_and(|warmest| (12.0..13.5).contains(&warmest)),
        "{verdict:?}"
    );
}

#[test]
fn the_flows_of_a_fan_test_are_in_the_unit_of_its_readings() {
    let study = Study::of(&file::parse(VINEYARD).expect("a sample"));
    let plot = drawn(&in_us(&study, Kind::Report), "fan-1");
    let flows: Vec<f64> = plot
        .iter()
        .filter_map(|words| words.strip_suffix(" cfm")?.parse().ok())
        .collect();
    // 100, 200, 300 and 500 m³/h, at 1.699 m³/h for each cubic foot a minute.
    for flow in [58.9, 118.0, 177.0, 294.0] {
        assert!(flows.contains(&flow), "{flow}: {plot:?}");
    }
    assert!(!plot.iter().any(|words| words.contains("m³/h")), "{plot:?}");
}

#[test]
fn an_interval_in_brackets_has_the_unit_of_its_result() {
    let study = orchard();
    let drawn = uncertainty(study.survey(), SEED, 400).expect("known");
    let material = Material {
        told: report::Material {
            uncertainty: Some(&drawn),
            ..report::Material::of(&study)
        },
        now: study.survey(),
        photos: &BTreeMap::new(),
    };
    let mut choices = Choices::new(Kind::Report);
    choices.units = Units::UsCustomary;
    let sheet = contents(&material, &choices);
    let of_measured = tables(&sheet, "What measurements make of the results");
    let row = |name: &str| {
        let row = plain_rows(of_measured[0]).find(|row| row.cells[0] == name);
        row.expect(name).cells[2].replace('\u{a0}', " ")
    };
    for (name, unit) in [
        ("EqLA, unintended", "in²"),
        ("Water to remove, windy", "pt/day"),
    ] {
        let cell = row(name);
        let (number, range) = cell.split_once(" (").expect("an interval");
        assert!(
            number.ends_with(unit) && range.ends_with(&format!("{unit})")),
            "{cell}"
        );
        let value = |text: &str| -> f64 {
            let digits = text.trim_start_matches(['≥', ' ']);
            digits
                .split(' ')
                .next()
                .and_then(|one| one.parse().ok())
                .expect("a number")
        };
        let (low, high) = range.split_once(" to ").expect("two ends");
        assert!((value(low)..value(high)).contains(&value(number)), "{cell}");
    }
}

#[test]
fn what_the_work_is_for_names_both_units_and_never_a_gain_that_is_none() {
    let caravan = Study::of(&file::parse(CARAVAN).expect("a sample"));
    let order = in_us(&caravan, Kind::WorkOrder);
    let costs = text(section(&order, "Costs").expect("costs"));
    assert!(
        costs.contains("against damp: 1.9 pt/day instead of 3.0 pt/day"),
        "{costs}"
    );
    // People live in the van: with less air they make it damper.
    let van = Study::of(&file::parse(STREET).expect("a sample"));
    let order = in_us(&van, Kind::WorkOrder);
    let costs = text(section(&order, "Costs").expect("costs"));
    assert!(costs.contains("It is done against cold: "), "{costs}");
    let damper = "Less air also takes less water away: 0.36 pt/day instead of 0.30 pt/day";
    assert!(costs.contains(damper), "{costs}");
}

#[test]
fn what_a_person_called_a_machine_is_the_same_in_drawings_and_tables() {
    let study = Study::of(&file::parse(COACH_BUILT).expect("a sample"));
    let sheet = in_us(&study, Kind::Report);
    for name in ["what-to-buy", "options"] {
        let words = drawn(&sheet, name).join("; ");
        assert!(
            words.contains("desiccant rotor, 8 L/day"),
            "{name}: {words}"
        );
        assert!(words.contains("0.215 ft²"), "{name}: {words}");
    }
}

/// 342 cm² are a square of 185 mm: 7.28 inches, however it is told.
#[test]
fn the_hole_is_as_large_on_the_first_page_as_in_the_results() {
    let study = Study::of(&file::parse(CARAVAN).expect("a sample"));
    let sheet = in_us(&study, Kind::Report);
    let short = text(section(&sheet, "In short").expect("in short"));
    assert!(
        short.contains("a hole of at least 7.28 × 7.28 in"),
        "{short}"
    );
    let plain = text(section(&sheet, "Results in plain words").expect("results"));
    assert!(plain.contains("sides of ≥ 7.28 in"), "{plain}");
    assert!(
        drawn(&sheet, "hole")
            .iter()
            .any(|words| words.contains("7.28 × 7.28 in"))
    );
}

#[test]
fn readings_of_the_air_have_their_unit() {
    let sheet = in_us(&orchard(), Kind::Report);
    let heads: Vec<&str> = tables(&sheet, "Air change measured")
        .iter()
        .flat_map(|table| &table.columns)
        .map(|column| column.head.as_str())
        .collect();
    assert!(
        heads.contains(&"Inside, ppm") && heads.contains(&"Outside, ppm"),
        "{heads:?}"
    );
}
