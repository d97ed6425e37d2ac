//! What is not known is never a number.

use super::{add, bare, gap_mut, hole};
use crate::assess::{CaseAnswer, GapLeakage, Topic, assess, working};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
use crate::survey::gap::{Behind, WorkState};
use crate::survey::{Facing, Field, Form, Severity, Survey};

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

/// The wind pressures of a body longer than wide hang on its length and width only by wall averages
/// and skirts; where nothing needs them, leaving them out changes no air change.
#[test]
fn length_and_width_left_out_stop_only_what_needs_them_and_are_then_an_error() {
    let mut sized = bare();
    hole(&mut sized, Facing::Nearside, 0.6, 20.0);
    hole(&mut sized, Facing::Underfloor, 0.5, 30.0);
    hole(&mut sized, Facing::Roof, 2.6, 10.0);
    for set in PressureSet::ALL {
        for underside in Underside::ALL {
            sized.site.pressure_set = set;
            sized.vehicle.underside = underside;
            sized.vehicle.skirt_free_area_mm2 = Some(50_000.0);
            let mut unsized_body = sized.clone();
            unsized_body.vehicle.length_m = None;
            unsized_body.vehicle.width_m = None;
            let (with, without) = (assess(&sized), assess(&unsized_body));
            let needed = set == PressureSet::WallAverage
                || matches!(
                    underside,
                    Underside::SkirtedLeaking | Underside::SkirtedTight
                );
            let errors: Vec<_> = without
                .findings
                .iter()
                .filter(|finding| finding.severity == Severity::Error)
                .map(|finding| finding.sentence.as_str())
                .collect();
            for (with, without) in with.cases.iter().zip(&without.cases) {
                let mean = |case: &CaseAnswer| case.air.clone().and_then(|air| air.mean_ach_per_h);
                if needed {
                    let reason = mean(without).unwrap_err().reason;
                    assert!(reason.contains("length of the vehicle"), "{reason}");
                } else {
                    assert_eq!(mean(without), mean(with), "{set:?} {underside:?}");
                    assert!(mean(with).is_ok());
                }
            }
            assert_eq!(errors.len(), if needed { 2 } else { 0 }, "{errors:?}");
        }
    }
}

#[test]
fn an_air_change_that_lacks_a_size_of_the_vehicle_has_an_error_at_it() {
    let mut survey = bare();
    hole(&mut survey, Facing::Nearside, 0.6, 20.0);
    for (field, leave_out) in [
        (
            Field::RoofHeight,
            (|survey| survey.vehicle.height_m = None) as fn(&mut Survey),
        ),
        (Field::FloorHeight, |survey| {
            survey.vehicle.floor_height_m = None
        }),
        (Field::Volume, |survey| survey.vehicle.volume_m3 = None),
    ] {
        let mut survey = survey.clone();
        leave_out(&mut survey);
        let answers = assess(&survey);
        let known = answers.cases[0]
            .air
            .clone()
            .and_then(|air| air.mean_ach_per_h);
        assert!(known.is_err(), "{field:?}");
        let error = answers
            .findings
            .iter()
            .find(|finding| finding.severity == Severity::Error);
        assert!(
            error.is_some_and(|error| error.place.is_at(field)),
            "{field:?}"
        );
        // An empty ledger has no air change to be without.
        survey.gaps.clear();
        let found = assess(&survey).findings;
        assert!(
            found
                .iter()
                .all(|finding| finding.severity != Severity::Error)
        );
    }
    // The air that flows needs no volume.
    survey.vehicle.volume_m3 = None;
    assert!(assess(&survey).cases[0].air.is_ok());
}
