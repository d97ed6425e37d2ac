//! What is not known is never a number.

use super::{add, bare, gap_mut, hole};
use crate::assess::{CaseAnswer, GapLeakage, Topic, assess, working};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
use crate::survey::gap::{Behind, WorkState};
use crate::survey::{
    AreaConvention, Facing, Fan, FanDirection, FanId, Field, Form, Gap, Severity, SpaceId, Survey,
};

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

/// One record that cannot be, of whatever kind, takes nothing but itself away.
#[test]
fn a_gap_that_cannot_be_is_left_out_and_the_results_go_on_without_it() {
    type Spoiled = (&'static str, fn(&mut Gap));
    let spoil: [Spoiled; 5] = [
        ("height above ground is 99 m", |gap| {
            gap.position.height_m = Some(99.0)
        }),
        ("place from the front is 40 m", |gap| {
            gap.position.along_m = Some(40.0)
        }),
        ("rise is −1 m", |gap| gap.position.rise_m = Some(-1.0)),
        ("diameter is −5 mm", |gap| {
            gap.form = Form::RoundHole {
                diameter_mm: Some(-5.0),
            }
        }),
        ("space 7, which does not exist", |gap| {
            gap.space = Some(SpaceId(7))
        }),
    ];
    let mut survey = bare();
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    hole(&mut survey, Facing::Offside, 1.5, 10.0);
    let before = assess(&survey);
    for (words, spoil) in spoil {
        let mut survey = survey.clone();
        let id = hole(&mut survey, Facing::Rear, 1.5, 10.0);
        spoil(gap_mut(&mut survey, id));
        let answers = assess(&survey);
        let total = answers.leakage.all.clone().unwrap();
        assert_eq!(
            (total.gaps, total.not_sized, total.left_out),
            (2, 0, 1),
            "{words}"
        );
        assert_eq!(total.figures, before.leakage.all.clone().unwrap().figures);
        assert_eq!(answers.leakage.left_out, vec![id]);
        for (case, before) in answers.cases.iter().zip(&before.cases) {
            let ach = |case: &CaseAnswer| case.air.as_ref().unwrap().mean_ach_per_h.clone();
            assert_eq!(ach(case), ach(before), "{words}");
            assert!(case.drying.is_ok() && case.heat.is_ok(), "{words}");
        }
        let told = answers
            .findings
            .iter()
            .find(|one| one.sentence.contains(words));
        assert_eq!(
            told.map(|one| one.severity),
            Some(Severity::Error),
            "{words}"
        );
    }
}

#[test]
fn gaps_of_which_none_counts_are_not_known_never_nothing() {
    let nothing = |survey: &Survey, why: &str| {
        let answers = assess(survey);
        for case in &answers.cases {
            for reason in [
                case.air.as_ref().unwrap_err(),
                case.drying.as_ref().unwrap_err(),
                case.heat.as_ref().unwrap_err(),
            ] {
                assert!(reason.reason.contains(why), "{reason}");
            }
        }
        assert!(answers.leakage.all.is_err() && answers.leakage.unintended.is_err());
        assert!(answers.leakage.square_side.is_err() && answers.leakage.n50_per_h.is_err());
        assert!(answers.season_ach_per_h.is_err());
    };
    let mut survey = bare();
    nothing(&survey, "no gap entered yet");
    let form = Form::RoundHole { diameter_mm: None };
    let id = add(&mut survey, Facing::Rear, 1.5, form);
    nothing(&survey, "no gap is sized yet");
    gap_mut(&mut survey, id).form = Form::RoundHole {
        diameter_mm: Some(-5.0),
    };
    nothing(&survey, "left out");
    // Sized, and sealed since.
    let sealed = gap_mut(&mut survey, id);
    sealed.form = Form::RoundHole {
        diameter_mm: Some(5.0),
    };
    sealed.state = WorkState::Sealed;
    nothing(
        &survey,
        "what is left: sealed, but the share that remains is not given",
    );
}

#[test]
fn a_fan_that_cannot_be_is_left_out() {
    let mut survey = bare();
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    hole(&mut survey, Facing::Rear, 1.5, 10.0);
    let without = assess(&survey).season_ach_per_h;
    for (flow, space) in [(-60.0, None), (60.0, Some(SpaceId(9)))] {
        survey.fans = vec![Fan {
            id: FanId(1),
            name: String::new(),
            direction: FanDirection::Extract,
            flow_m3_per_h: Some(flow),
            most_pressure_pa: None,
            on_laid_up: true,
            on_in_use: true,
            space,
        }];
        let answers = assess(&survey);
        assert_eq!(answers.season_ach_per_h, without);
        let mut told = answers.findings.iter();
        assert!(told.any(|one| one.sentence.contains("left out of the air balance")));
    }
}

/// What the air change does not need does not take it away.
#[test]
fn an_impossible_heading_volume_or_target_leaves_the_flow_of_air_known() {
    let spoil: [fn(&mut Survey); 4] = [
        |survey| survey.site.heading_deg = Some(9999.0),
        |survey| survey.vehicle.volume_m3 = Some(-5.0),
        |survey| survey.targets.rh_percent = 500.0,
        |survey| survey.targets.comfort_c = 500.0,
    ];
    let mut survey = bare();
    hole(&mut survey, Facing::Front, 1.5, 10.0);
    hole(&mut survey, Facing::Rear, 1.5, 10.0);
    for spoil in spoil {
        let mut survey = survey.clone();
        spoil(&mut survey);
        let answers = assess(&survey);
        assert!(
            answers
                .findings
                .iter()
                .any(|one| one.severity == Severity::Error)
        );
        assert!(answers.cases.iter().all(|case| case.air.is_ok()));
    }
    survey.targets.rh_percent = 500.0;
    let case = &assess(&survey).cases[0];
    assert!(case.drying.is_err() && case.heat.is_ok());
}

#[test]
fn a_hole_larger_than_its_wall_is_an_error() {
    // The body is 6.0 × 2.2 m, and 2.1 m from floor to roof.
    let told = |facing, form: Form| {
        let mut survey = bare();
        add(&mut survey, facing, 1.5, form);
        let found = assess(&survey).findings.into_iter();
        let errors = found.filter(|one| one.severity == Severity::Error);
        errors.map(|one| one.sentence).collect::<String>()
    };
    let rectangle = |width, height| Form::RectangularHole {
        width_mm: Some(width),
        height_mm: Some(height),
    };
    let area = |area| Form::StatedArea {
        area_mm2: Some(area),
        convention: AreaConvention::Free,
        exponent: None,
    };
    let narrow = |length| Form::NarrowGap {
        length_mm: Some(length),
        width_mm: Some(2.0),
        depth_mm: Some(20.0),
        bends: 0,
    };
    assert!(told(Facing::Rear, rectangle(2300.0, 500.0)).contains("larger than its face"));
    assert!(told(Facing::Rear, rectangle(500.0, 2300.0)).contains("larger than its face"));
    assert_eq!(told(Facing::Offside, rectangle(2300.0, 500.0)), "");
    assert!(told(Facing::Front, area(4_700_000.0)).contains("larger than its face"));
    assert_eq!(told(Facing::Front, area(600_000.0)), "");
    // 2 × (2.2 + 2.1) m are the way round the rear.
    assert!(told(Facing::Rear, narrow(8700.0)).contains("the way round its face"));
    assert_eq!(told(Facing::Rear, narrow(8500.0)), "");
}

#[test]
fn a_place_beside_the_body_is_a_warning() {
    let told = |along, across| {
        let mut survey = bare();
        let id = hole(&mut survey, Facing::Roof, 2.6, 10.0);
        let position = &mut gap_mut(&mut survey, id).position;
        (position.along_m, position.across_m) = (along, across);
        let found = assess(&survey).findings.into_iter();
        let own = found.filter(|one| one.sentence.contains("outside the body"));
        own.map(|one| one.severity).collect::<Vec<_>>()
    };
    assert_eq!(told(Some(7.2), None), [Severity::Warning]);
    assert_eq!(told(None, Some(2.9)), [Severity::Warning]);
    assert_eq!(told(Some(6.1), Some(1.0)), []);
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
