//! What was covered for a fan test, on every sheet.

use super::*;
use crate::survey::{Covered, FanTest, FanTestId, SetUp};

fn covering(uncovered: bool) -> Survey {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.gaps[0].state = WorkState::Sealed;
    let mut test = FanTest::new(FanTestId(1), SetUp::LaidUp);
    test.covered = vec![Covered {
        gap: None,
        what: "vent behind the heater".to_owned(),
        uncovered,
    }];
    survey.fan_tests = vec![test];
    survey
}

#[test]
fn every_sheet_begins_with_what_is_still_covered_and_only_then() {
    for kind in Kind::ALL {
        let first = |uncovered| {
            let sheet = sheet(&covering(uncovered), &Choices::new(kind));
            let section = section(&sheet, "Openings that must stay open");
            section.map(|section| format!("{:?}", section.blocks))
        };
        let told = first(false).unwrap_or_default();
        assert!(told.contains("vent behind the heater"), "{kind:?}: {told}");
        let told = first(true).unwrap_or_default();
        assert!(!told.contains("vent behind the heater"), "{kind:?}: {told}");
    }
}

#[test]
fn the_completion_sheet_alone_is_refused_until_all_is_uncovered() {
    for kind in Kind::ALL {
        let refused = |uncovered| sheet(&covering(uncovered), &Choices::new(kind)).refused;
        let why = refused(false);
        assert_eq!(why.is_some(), kind == Kind::Completion, "{kind:?}");
        let named = why.is_none_or(|why| why.contains("vent behind the heater"));
        assert!(named, "{kind:?}");
        assert_eq!(refused(true), None, "{kind:?}");
    }
}

#[cfg(feature = "sheet")]
#[test]
fn a_refused_sheet_is_not_set() {
    let sheet = sheet(&covering(false), &Choices::new(Kind::Completion));
    let refused = crate::sheet::typeset(&sheet).map(|_| ());
    let why = refused.expect_err("it is refused").to_string();
    assert!(why.contains("uncovered"), "{why}");
}
