//! The comparison once more with the planned gaps sealed.

use super::*;
use crate::assess::{DryingTopic, drying_working};
use crate::survey::{CostBasis, Purpose, Remedy, RemedyKind, WorkState};

fn sealant(left_percent: f64) -> Remedy {
    Remedy {
        kind: RemedyKind::Sealant,
        words: String::new(),
        leak_left_percent: Some(left_percent),
        material_cost: None,
        cost_basis: CostBasis::Piece,
        minutes: None,
    }
}

/// The body with its two low holes in this state, to be left with a tenth of their leak.
fn low_holes(state: WorkState) -> Survey {
    let mut survey = body();
    for gap in &mut survey.gaps[..2] {
        gap.state = state;
        gap.remedy = Some(sealant(10.0));
    }
    survey
}

fn then(comparison: &Comparison) -> &Comparison {
    let plan = comparison.after_plan.as_ref().expect("a plan");
    plan.comparison.as_ref().expect("a comparison")
}

#[test]
fn without_a_planned_gap_there_is_no_comparison_after_it() {
    assert_eq!(compared(&body()).after_plan, None);
    assert_eq!(compared(&low_holes(WorkState::Sealed)).after_plan, None);
    assert_eq!(compared(&low_holes(WorkState::Deferred)).after_plan, None);
}

#[test]
fn the_planned_gaps_are_sealed_to_what_is_left_and_nothing_else_changes() {
    let planned = compared(&low_holes(WorkState::Planned));
    assert_eq!(
        planned.after_plan.as_ref().expect("a plan").gaps,
        [GapId(1), GapId(2)]
    );
    // The same as if the work had been done and written down.
    assert_eq!(*then(&planned), compared(&low_holes(WorkState::Sealed)));
    // And as surveyed it is the body with its holes open.
    assert_eq!(planned.options, compared(&body()).options);
}

#[test]
fn every_option_is_compared_again_and_has_less_to_remove() {
    let planned = compared(&low_holes(WorkState::Planned));
    assert_eq!(planned.options.len(), then(&planned).options.len());
    for (at, now) in planned.options.iter().enumerate() {
        let later = planned.option_after_plan(at).expect("a plan");
        let later = later.expect("a comparison");
        assert_eq!((&now.name, now.kind), (&later.name, later.kind));
        for (now, later) in now.cases.iter().zip(&later.cases) {
            let (Ok(now), Ok(later)) = (now, later) else {
                continue;
            };
            assert!(later.dry_air_kg_s < 0.9 * now.dry_air_kg_s);
        }
    }
    let needed = |all: &Comparison| all.sizing.capacities[1].needed_kg_s.clone().expect("known");
    assert!(needed(then(&planned)) < 0.9 * needed(&planned));
    assert!(planned.option_after_plan(planned.options.len()).is_none());
}

#[test]
fn an_opening_that_protects_people_is_in_no_plan() {
    let mut survey = low_holes(WorkState::Planned);
    survey.gaps[0].purpose = Purpose::SafetyVentilation;
    let comparison = compared(&survey);
    assert_eq!(
        comparison.after_plan.as_ref().expect("a plan").gaps,
        [GapId(2)]
    );
    survey.gaps[1].purpose = Purpose::GasDropOut;
    assert_eq!(compared(&survey).after_plan, None);
}

#[test]
fn the_working_after_the_plan_shows_its_own_numbers_and_its_gaps() {
    let survey = low_holes(WorkState::Planned);
    let comparison = compared(&survey);
    let id = comparison.cases[comparison.windiest].id;
    let open = |topic| drying_working(&survey, &comparison, topic).expect("a working");
    let now = open(DryingTopic::Option(0, id));
    let later = open(DryingTopic::AfterPlan(0, id));
    assert_eq!(later.title, format!("{}, after the plan", now.title));
    assert_ne!(now.inputs, later.inputs);
    let air = windy(then(&comparison), OptionKind::Nothing).dry_air_kg_s * 3600.0;
    let air = format!("{}\u{a0}kg/h", crate::assess::number::significant(air, 3));
    assert!(later.inputs.iter().any(|(_, value)| *value == air));
    assert!(later.notes.iter().any(|note| note.ends_with(": 1, 2")));
    let none = body();
    let topic = DryingTopic::AfterPlan(0, id);
    assert!(drying_working(&none, &compared(&none), topic).is_none());
}
