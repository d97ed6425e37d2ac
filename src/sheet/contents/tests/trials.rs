//! What stands on paper of trials and of tests of the air change.

use super::*;
use crate::survey::{AirTest, AirTestBy, AirTestId, SetUp, Tested};
use crate::tasks::{self, Shelf, to_the_end};
use std::path::Path;

/// The caravan among the trees with what its loggers read.
fn tried() -> Study {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/orchard-trial.ron");
    let mut survey = file::load(&file).expect("a sample").survey;
    survey.gaps[0].state = WorkState::Sealed;
    let study = Study::of(&survey);
    let folders = tasks::data_folders(Some(&file), None);
    let tried = tasks::tried(
        &study,
        &folders,
        file.parent(),
        &Shelf::default(),
        &to_the_end,
    );
    assert!(tried.is_some());
    study
}

fn written(study: &Study, kind: Kind) -> Sheet {
    let choices = Choices::new(kind);
    contents(&Material::of(study, kind, &BTreeMap::new()), &choices)
}

/// The files of figures in the section of the trial, and all of it as text.
fn trial(sheet: &Sheet) -> (Vec<String>, String) {
    let mut sections = sheet.text.sections.iter();
    let of_trial = sections.find(|section| section.title.starts_with("Trial "));
    let of_trial = of_trial.expect("the trial");
    let files = of_trial.blocks.iter().filter_map(|block| match block {
        Block::Figure { file, .. } => Some(file.clone()),
        _ => None,
    });
    let text = serde_json::to_string(of_trial).expect("JSON");
    (files.collect(), text)
}

#[test]
fn a_trial_stands_on_the_report_with_what_was_read_and_with_its_verdict_as_pictures() {
    let report = written(&tried(), Kind::Report);
    let (figures, text) = trial(&report);
    assert_eq!(figures, ["trial-1", "verdict-1"]);
    for name in &figures {
        assert!(report.files.iter().any(|(file, _)| file == name), "{name}");
    }
    assert!(text.contains("Tub of salt: no effect"), "{text}");
    assert!(text.contains("white logger"), "{text}");
}

#[test]
fn an_owner_sees_what_each_method_did_without_the_readings() {
    let (figures, text) = trial(&written(&tried(), Kind::Completion));
    assert_eq!(figures, ["verdict-1"]);
    assert!(text.contains("no effect on humidity"), "{text}");
    assert!(
        text.contains("2026-11-01") && text.contains("white logger"),
        "{text}"
    );
    assert!(!text.contains("[N]") && !text.contains("Welch"), "{text}");
}

#[test]
fn a_trial_whose_files_were_not_read_shows_no_picture_and_says_why() {
    let study = Study::of(tried().survey());
    let (figures, text) = trial(&written(&study, Kind::Report));
    assert!(figures.is_empty());
    assert!(text.contains("were not read"), "{text}");
}

#[test]
fn a_completion_sheet_names_instrument_day_and_weather_of_every_test() {
    let mut survey = file::parse(VINEYARD).expect("a sample");
    let mut test = AirTest::new(AirTestId(1), SetUp::LaidUp);
    (test.by, test.tested) = (AirTestBy::PeopleLeft, Tested::AfterWork);
    test.date = "2026-11-18".to_owned();
    test.instrument = "handheld meter".to_owned();
    (test.inside_c, test.outside_c, test.wind_m_s) = (Some(12.0), Some(4.5), Some(2.0));
    survey.air_tests = vec![test];
    survey.fan_tests[1].instrument = "small fan in a plate".to_owned();
    survey.fan_tests[1].wind_m_s = Some(1.5);
    let completion = written(&Study::of(&survey), Kind::Completion);
    let text = |title| {
        let section = section(&completion, title).expect(title);
        serde_json::to_string(section)
            .expect("JSON")
            .replace('\u{a0}', " ")
    };
    let air = text("Air change tested");
    for words in [
        "2026-11-18",
        "handheld meter",
        "inside 12 °C",
        "outside 4.5 °C",
        "wind 2 m/s",
    ] {
        assert!(air.contains(words), "{words}: {air}");
    }
    // No reading was taken: no number is made up for it.
    assert!(air.contains("Not known"), "{air}");
    let fan = text("Tested with a fan");
    for words in [
        "The test after the work: small fan in a plate",
        "wind 1.5 m/s",
    ] {
        assert!(fan.contains(words), "{words}: {fan}");
    }
}
