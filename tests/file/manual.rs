//! The guide on paper, and what a package is made with.

use crate::headless::run;
use gapledger::assess::shown::{Shown, Units};
use gapledger::headless::{Command, GuideArguments, Outcome, VehicleWord};
use gapledger::sheet::{Paper, guide, typeset};
use gapledger::survey::VehicleKind;
use gapledger::survey::date::DateWay;
use std::fs;

#[test]
fn the_guide_is_one_page_for_every_vehicle_on_either_paper_in_either_unit() {
    for kind in VehicleKind::ALL {
        for paper in Paper::ALL {
            for units in [Units::Metric, Units::UsCustomary] {
                let shown = Shown::of(units, DateWay::default());
                let pages = typeset(&guide(kind, paper, &shown)).unwrap();
                assert_eq!(pages.pages(), 1, "{kind:?} {paper:?} {units:?}");
            }
        }
    }
}

#[test]
fn the_guide_command_writes_a_pdf_and_never_over_another_file() {
    let folder = tempfile::tempdir().unwrap();
    let output = folder.path().join("guide.pdf");
    let asked = |output: &std::path::Path| {
        Command::Guide(GuideArguments {
            output: output.to_owned(),
            vehicle: VehicleWord::PanelVan,
            paper: Paper::A4,
            units: Units::Metric,
        })
    };
    let told = run(asked(&output));
    assert_eq!((told.outcome, told.errors.as_str()), (Outcome::Fine, ""));
    assert!(fs::read(&output).unwrap().starts_with(b"%PDF"));
    let survey = folder.path().join("survey.ron");
    fs::write(&survey, "kept").unwrap();
    let told = run(asked(&survey));
    assert_eq!(told.outcome, Outcome::Failed);
    assert!(told.errors.contains("survey.ron"), "{}", told.errors);
    assert_eq!(fs::read_to_string(&survey).unwrap(), "kept");
}

#[test]
fn manual_pages_and_completions_name_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let told = run(Command::Packaging {
        folder: folder.path().to_owned(),
    });
    assert_eq!((told.outcome, told.errors.as_str()), (Outcome::Fine, ""));
    let completions = folder.path().join("completions");
    for command in [
        "assess", "check", "gaps", "plan", "sheet", "series", "measured", "winter", "guide",
    ] {
        let page = folder.path().join(format!("man/gapledger-{command}.1"));
        assert!(page.is_file(), "{}", page.display());
        for name in ["gapledger.bash", "_gapledger", "gapledger.fish"] {
            let words = fs::read_to_string(completions.join(name)).unwrap();
            assert!(words.contains(command), "{name}: {command}");
        }
    }
    let page = fs::read_to_string(folder.path().join("man/gapledger-sheet.1")).unwrap();
    assert!(page.contains("work\\-order"), "{page}");
}
