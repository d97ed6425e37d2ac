//! The page in short of every sample.

use crate::assess::Study;
use crate::assess::shown::Units;
use crate::headless::{Command, run_to};
use crate::report::Material;
use crate::report::in_short::{Leads, in_short};
use crate::survey::{SetUp, WorkState, file};
use std::path::{Path, PathBuf};

fn samples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys");
    let entries = std::fs::read_dir(folder).expect("the samples");
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "ron"));
    files.sort();
    assert_eq!(files.len(), 6);
    files
}

fn printed(file: &Path, set_up: Option<crate::headless::SetUpWord>) -> String {
    let assess = Command::Assess {
        file: file.to_owned(),
        full: false,
        json: false,
        set_up,
        budget: None,
        aim: None,
        units: Units::Metric,
        draws: 100,
    };
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    run_to(assess, &mut out, &mut errors);
    assert!(errors.is_empty(), "{}", String::from_utf8_lossy(&errors));
    String::from_utf8(out).expect("text")
}

/// Words of the trade that a neighbour does not know, and the marks of sources.
const NOT_HERE: [&str; 14] = [
    "EqLA",
    "ELA",
    " Pa",
    "\u{a0}Pa",
    "[S]",
    "[R]",
    "[M]",
    "[C]",
    "[A]",
    "[N]",
    "ACH",
    " RH",
    "W/K",
    "dew point",
];

#[test]
fn the_page_of_every_sample_is_short_and_in_words_that_a_neighbour_understands() {
    use crate::headless::SetUpWord::{InUse, LaidUp};
    for file in samples() {
        for set_up in [None, Some(LaidUp), Some(InUse)] {
            let text = printed(&file, set_up);
            let lines = text.lines().count();
            assert!(lines <= 60, "{lines} lines: {text}");
            for words in NOT_HERE {
                assert!(!text.contains(words), "{words}: {text}");
            }
            for heading in [
                "HOW LEAKY",
                "SEAL THESE FIRST",
                "NEVER CLOSE THESE",
                "FROST, AND HOW SURE",
            ] {
                assert!(text.contains(heading), "{heading}: {text}");
            }
        }
    }
}

#[test]
fn an_unconfirmed_list_of_appliances_leads_to_where_it_is_confirmed() {
    for path in samples() {
        let mut survey = file::load(&path).expect("a sample").survey;
        survey.appliances_confirmed = false;
        survey.set_up = SetUp::LaidUp;
        for gap in &mut survey.gaps {
            gap.state = WorkState::Open;
        }
        let study = Study::of(&survey);
        let page = in_short(&Material::of(&study));
        let leads = page.lines().any(|line| {
            matches!(line.leads_to, Leads::Place(place)
                if place.is_at(crate::survey::Field::AppliancesConfirmed))
        });
        let known = study.first().is_ok();
        assert_eq!(leads, known, "{}: {page:?}", path.display());
    }
}

/// What protects people stands on the page by its number, whatever else does.
#[test]
fn every_opening_that_protects_people_is_named_among_those_never_to_close() {
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let page = in_short(&Material::of(&Study::of(&survey)));
        let part = page
            .parts
            .iter()
            .find(|part| part.title == "Never close these");
        let part = part.expect("it is always there");
        for gap in &survey.gaps {
            if !crate::survey::leave::never(&survey, gap) {
                continue;
            }
            let id = gap.id.to_string();
            let named = part.lines.iter().any(|line| {
                let words = line.text.split(|letter: char| !letter.is_ascii_digit());
                line.text.starts_with('✖') && words.into_iter().any(|word| word == id)
            });
            assert!(named, "gap {id} of {}: {part:?}", path.display());
        }
    }
}
