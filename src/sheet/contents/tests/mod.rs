//! What stands on the sheets, read without a typesetter.

use super::*;
use crate::assess::assess;
use crate::report::{Row, RowKind, Table};
use crate::survey::{Survey, WorkState, file};

mod carried_out;
mod covered;
mod numbers;
mod owners;
mod papers;
mod trials;
mod units;
mod work;

const COACH_BUILT: &str = include_str!("../../../../sample-surveys/coastal-coachbuilt.ron");
const VINEYARD: &str = include_str!("../../../../sample-surveys/vineyard-coachbuilt.ron");
const CARAVAN: &str = include_str!("../../../../sample-surveys/farmyard-caravan.ron");

pub(crate) fn sheet(survey: &Survey, choices: &Choices) -> Sheet {
    let study = Study::of(survey);
    contents(
        &Material::of(&study, choices.kind, &BTreeMap::new()),
        choices,
    )
}

fn section<'a>(sheet: &'a Sheet, title: &str) -> Option<&'a Section> {
    let mut sections = sheet.text.sections.iter();
    sections.find(|section| section.title == title)
}

fn tables<'a>(sheet: &'a Sheet, title: &str) -> Vec<&'a Table> {
    let section = section(sheet, title).unwrap_or_else(|| panic!("no section {title}"));
    let blocks = section.blocks.iter();
    blocks
        .filter_map(|block| match block {
            Block::Table { table } => Some(table),
            _ => None,
        })
        .collect()
}

fn plain_rows(table: &Table) -> impl Iterator<Item = &Row> {
    table.rows.iter().filter(|row| row.kind == RowKind::Plain)
}

#[test]
fn the_ledger_holds_every_gap_once_under_its_zone() {
    let survey = file::parse(COACH_BUILT).expect("a sample");
    let sheet = sheet(&survey, &Choices::new(Kind::Report));
    let tables = tables(&sheet, "Ledger of gaps");
    let mut zone = String::new();
    let mut found = Vec::new();
    for row in &tables[0].rows {
        match row.kind {
            RowKind::Group => zone.clone_from(&row.cells[0]),
            RowKind::Plain => found.push((row.cells[0].clone(), zone.clone())),
            RowKind::Total => {}
        }
    }
    for gap in &survey.gaps {
        let zone = survey.zone(gap.zone).expect("its zone");
        let wanted = (gap.id.to_string(), zone.name.clone());
        assert_eq!(
            found.iter().filter(|one| **one == wanted).count(),
            1,
            "{wanted:?}"
        );
    }
    assert_eq!(found.len(), survey.gaps.len());
}

#[test]
fn parts_may_be_left_out_but_never_safety_and_cautions() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    // Without work a completion sheet is a warning that leaves nothing out.
    survey.gaps[0].state = WorkState::Sealed;
    for kind in Kind::ALL {
        let full = sheet(&survey, &Choices::new(kind));
        let mut choices = Choices::new(kind);
        choices.parts.clear();
        let least = sheet(&survey, &choices);
        // What an invoice may leave out are the workshop's own words, and there are none here.
        let fewer = least.text.sections.len() < full.text.sections.len();
        assert_eq!(fewer, kind != Kind::Invoice, "{kind:?}");
        let is_bill = kind == Kind::Invoice;
        assert_eq!(section(&least, "Cautions").is_some(), !is_bill, "{kind:?}");
        if matches!(kind, Kind::Report | Kind::Completion) {
            let title = "Safety ventilation: never to be sealed";
            assert!(section(&least, title).is_some(), "{kind:?}");
        }
    }
}

#[test]
fn what_the_marks_mean_is_said_once_on_every_sheet() {
    let survey = file::parse(CARAVAN).expect("a sample");
    // An owner's papers have none.
    for kind in [Kind::Report, Kind::WorkOrder] {
        let mut choices = Choices::new(kind);
        for _ in 0..2 {
            let sheet = sheet(&survey, &choices);
            let text = serde_json::to_string(&sheet.text).expect("JSON");
            assert_eq!(
                text.matches("[S] read in the source;").count(),
                1,
                "{kind:?}"
            );
            choices.parts.clear();
        }
    }
}

#[test]
fn a_photo_that_is_not_there_is_named() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.gaps[0].photos = vec![crate::survey::Photo::new("lost.jpg")];
    let sheet = sheet(&survey, &Choices::new(Kind::Report));
    let photos = section(&sheet, "Photos").expect("the section");
    let text = serde_json::to_string(&photos.blocks).expect("JSON");
    assert!(text.contains("lost.jpg (gap "), "{text}");
}

#[test]
fn an_empty_survey_says_what_is_missing() {
    let survey = Survey::new(crate::survey::VehicleKind::Other);
    for kind in Kind::ALL {
        let sheet = sheet(&survey, &Choices::new(kind));
        let text = serde_json::to_string(&sheet.text).expect("JSON");
        assert!(
            text.contains("no gap") || text.contains("No gap"),
            "{kind:?}: {text}"
        );
        assert!(!text.contains("NaN") && !text.contains("inf "), "{text}");
    }
}

#[test]
fn a_survey_without_gaps_does_not_read_as_tight() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.gaps.clear();
    let report = sheet(&survey, &Choices::new(Kind::Report));
    let summary = section(&report, "Results in plain words").expect("the section");
    let text = serde_json::to_string(&summary.blocks).expect("JSON");
    assert!(text.contains("No gaps are written down yet"), "{text}");
    for tight in ["sides of 0", "EqLA", "replaced 0", "0\u{a0}L of water"] {
        assert!(!text.contains(tight), "{tight}: {text}");
    }
}

#[test]
fn windy_is_never_a_case_of_that_name_with_less_wind() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let told = |survey: &Survey| {
        let report = sheet(survey, &Choices::new(Kind::Report));
        let drying = section(&report, "Drying and heating").expect("the section");
        let text = serde_json::to_string(&drying.blocks).expect("JSON");
        text.contains("“gale”")
    };
    assert!(!told(&survey));
    let mut gale = survey.weather.last().expect("a case").clone();
    gale.id = crate::survey::WeatherId(99);
    gale.name = "gale".to_owned();
    gale.wind_m_s = 14.0;
    survey.weather.push(gale);
    assert!(told(&survey));
    let report = sheet(&survey, &Choices::new(Kind::Report));
    for title in ["Results in plain words", "Sealing plan"] {
        let blocks = &section(&report, title).expect("the section").blocks;
        for block in blocks {
            if let Block::Table { table } = block {
                let heads: String = table.columns.iter().map(|one| one.head.as_str()).collect();
                assert!(!heads.contains("windy"), "{heads}");
                let rows = plain_rows(table).map(|row| row.cells[0].as_str());
                assert!(
                    rows.filter(|cell| *cell != "windy")
                        .all(|cell| !cell.contains("windy"))
                );
            } else if let Block::Plain { sentences } = block {
                assert!(
                    sentences.iter().all(|one| !one.contains("windy")),
                    "{sentences:?}"
                );
            }
        }
    }
}

/// Each space has its rows with a cell for each weather case; a single space has none.
#[test]
fn the_air_of_each_space_is_printed() {
    let text = include_str!("../../../../sample-surveys/vineyard-coachbuilt.ron");
    let survey = file::parse(text).expect("a sample");
    let printed = sheet(&survey, &Choices::new(Kind::Report));
    let table = tables(&printed, "Results by weather")[0];
    let cells = |label: String| {
        let mut rows = plain_rows(table).filter(|row| row.cells[0] == label);
        let row = rows.next().unwrap_or_else(|| panic!("no row {label}"));
        row.cells[1..].to_vec()
    };
    let mut count = 0;
    for (at, space) in survey.spaces.iter().enumerate() {
        let name = survey.space_name(space.id);
        let outside = cells(format!("{name}: outside air, /h"));
        let others = cells(format!("{name}: from other spaces, /h"));
        for (case, (outside, others)) in assess(&survey)
            .cases
            .iter()
            .zip(outside.iter().zip(&others))
        {
            let own = &case.air.as_ref().expect("its air").spaces[at];
            let changes = |ach: &crate::assess::Answer<f64>| {
                crate::assess::words::figure(*ach.as_ref().expect("its volume"), 2)
            };
            assert_eq!(*outside, changes(&own.ach_per_h));
            assert_eq!(*others, changes(&own.from_spaces_per_h));
            count += 1;
        }
    }
    assert_eq!(count, 12);
    let single = file::parse(CARAVAN).expect("a sample");
    let sheet = sheet(&single, &Choices::new(Kind::Report));
    let mut rows = tables(&sheet, "Results by weather")
        .into_iter()
        .flat_map(plain_rows);
    assert!(rows.all(|row| !row.cells[0].contains("other spaces")));
}

#[test]
fn what_the_walk_round_did_not_reach_stands_on_the_report_and_nothing_of_one_never_begun() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.walk.clear();
    let report = |survey: &Survey| sheet(survey, &Choices::new(Kind::Report));
    assert!(section(&report(&survey), "Walk round").is_none());
    let (station, place) = survey.usual_places().next().expect("a usual place");
    let visit = crate::survey::Visit::of(station, place, crate::survey::Outcome::NotReached);
    let edit = crate::survey::Edit::Visited(visit);
    survey.apply(edit).expect("a visit");
    let report = report(&survey);
    let told = format!(
        "{:?}",
        section(&report, "Walk round").expect("it has begun")
    );
    assert!(told.contains(place.name), "{told}");
}
