//! What is not known is never a number.

use super::{add, bare, gap_mut, hole};
use crate::assess::{GapLeakage, Topic, assess, working};
use crate::survey::gap::{Behind, WorkState};
use crate::survey::{Facing, Form, Severity};

#[test]
fn a_gap_that_is_not_sized_is_listed_and_in_no_total() {
    let mut survey = bare();
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    let before = assess(&survey);
    let id = add(
        &mut survey,
        Facing::Rear,
        1.5,
        Form::RoundHole { diameter_mm: None },
    );
    let answers = assess(&survey);
    assert_eq!(answers.leakage.not_sized, vec![id]);
    let total = answers.leakage.all.clone().unwrap();
    assert_eq!((total.gaps, total.not_sized), (1, 1));
    assert_eq!(total.figures, before.leakage.all.clone().unwrap().figures);
    assert!(matches!(
        answers.gaps[1].leakage,
        GapLeakage::NotSized { .. }
    ));
    assert!(
        answers
            .findings
            .iter()
            .any(|finding| finding.sentence.contains("not sized"))
    );
    assert_eq!(
        answers.cases[0].air.as_ref().unwrap().directions[0].flows[1],
        None
    );
}

#[test]
fn an_impossible_size_makes_its_totals_not_known_with_the_reason() {
    let mut survey = bare();
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    add(
        &mut survey,
        Facing::Rear,
        1.5,
        Form::RoundHole {
            diameter_mm: Some(-5.0),
        },
    );
    let answers = assess(&survey);
    let reason = answers.leakage.all.clone().unwrap_err().reason;
    assert!(reason.contains("diameter is −5 mm"), "{reason}");
    assert!(answers.cases[0].air.is_err());
    assert!(
        answers
            .findings
            .iter()
            .any(|finding| finding.severity == Severity::Error)
    );
}

#[test]
fn without_a_volume_there_is_a_flow_but_no_air_change_rate() {
    let mut survey = bare();
    survey.vehicle.volume_m3 = None;
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    hole(&mut survey, Facing::Rear, 1.5, 10.0);
    let answers = assess(&survey);
    let air = answers.cases[2].air.as_ref().unwrap();
    assert!(air.mean_inflow_kg_s > 0.0);
    assert!(air.mean_ach_per_h.is_err());
    assert!(answers.leakage.n50_per_h.is_err());
    assert!(answers.season_ach_per_h.is_err());
    assert!(answers.cases[2].drying.is_ok());
}

#[test]
fn without_gaps_nothing_is_said_about_air() {
    let answers = assess(&bare());
    for case in &answers.cases {
        assert!(case.air.is_err() && case.drying.is_err() && case.heat.is_err());
    }
}

#[test]
fn a_sealed_gap_without_a_share_left_is_not_sized() {
    let mut survey = bare();
    let id = hole(&mut survey, Facing::Front, 1.5, 10.0);
    gap_mut(&mut survey, id).state = WorkState::Sealed;
    let answers = assess(&survey);
    assert!(matches!(
        answers.gaps[0].leakage,
        GapLeakage::NotSized { .. }
    ));
    assert!(answers.leakage.all.is_err());
}

#[test]
fn a_gap_behind_one_that_leads_inside_is_refused() {
    let mut survey = bare();
    let outer = hole(&mut survey, Facing::Front, 1.5, 10.0);
    let inner = hole(&mut survey, Facing::Front, 1.5, 10.0);
    gap_mut(&mut survey, inner).behind = Some(Behind::Gap(outer));
    let answers = assess(&survey);
    assert!(matches!(
        answers.gaps[1].leakage,
        GapLeakage::Impossible { .. }
    ));
    gap_mut(&mut survey, inner).behind = Some(Behind::Opening {
        free_area_mm2: None,
    });
    let answers = assess(&survey);
    assert!(matches!(
        answers.gaps[1].leakage,
        GapLeakage::NotSized { .. }
    ));
}

#[test]
fn every_topic_has_a_working_even_when_nothing_is_known() {
    let mut empty = crate::survey::Survey::new(crate::survey::VehicleKind::Other);
    let mut full = bare();
    for survey in [&mut empty, &mut full] {
        let gap = hole(survey, Facing::Front, 1.5, 10.0);
        hole(survey, Facing::Rear, 1.5, 10.0);
        let answers = assess(survey);
        let mut topics = vec![
            Topic::Volume,
            Topic::Gap(gap),
            Topic::LeakageArea,
            Topic::Exponent,
            Topic::SafetyVentilation,
        ];
        for case in &survey.weather {
            topics.extend([
                Topic::AirChange(case.id),
                Topic::CrossCheck(case.id),
                Topic::Removal(case.id),
                Topic::Heat(case.id),
                Topic::FrostGuard(case.id),
            ]);
        }
        for topic in topics {
            let working = working(survey, &answers, topic).unwrap();
            assert!(!working.result.is_empty(), "{topic:?}");
            assert!(!working.formula.is_empty(), "{topic:?}");
            assert!(!working.sources.is_empty(), "{topic:?}");
            assert!(
                !working.result.contains("NaN"),
                "{topic:?}: {}",
                working.result
            );
        }
    }
}
