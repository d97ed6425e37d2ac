//! Every result of the comparison opens its working.

use super::*;
use crate::assess::{DryingTopic, Mark, Working, drying_working};
use crate::survey::{CostBasis, Remedy, RemedyKind, WeatherId, WorkState};

fn opened(survey: &Survey, comparison: &Comparison, topic: DryingTopic) -> Working {
    let working = drying_working(survey, comparison, topic).expect("a working");
    assert!(
        !working.sources.is_empty() && !working.formula.is_empty(),
        "{topic:?}"
    );
    assert!(!working.result.is_empty(), "{topic:?}");
    working
}

fn damp() -> Survey {
    let mut survey = body();
    survey.drying.contents_kg = Some(300.0);
    survey.drying.contents_moisture_percent = Some(16.0);
    survey
}

#[test]
fn every_option_has_a_working_with_the_numbers_of_its_answer() {
    let survey = damp();
    let comparison = compared(&survey);
    for at in 0..comparison.options.len() {
        for (index, case) in comparison.cases.iter().enumerate() {
            let working = opened(&survey, &comparison, DryingTopic::Option(at, case.id));
            match &comparison.options[at].cases[index] {
                Ok(state) => {
                    let rh = crate::assess::number::significant(state.rh * 100.0, 3);
                    assert!(
                        working.result.contains(&format!("{rh}\u{a0}%")),
                        "{}",
                        working.result
                    );
                }
                Err(reason) => assert!(working.result.contains(&reason.reason)),
            }
        }
    }
    let machine = opened(&survey, &comparison, DryingTopic::Option(2, WeatherId(1)));
    assert!(
        machine
            .sources
            .iter()
            .any(|source| source.mark == Mark::Assumption)
    );
    assert!(
        machine
            .sources
            .iter()
            .any(|source| source.text.contains("Conde"))
    );
    assert!(drying_working(&survey, &comparison, DryingTopic::Option(99, WeatherId(1))).is_none());
    assert!(drying_working(&survey, &comparison, DryingTopic::Option(0, WeatherId(99))).is_none());
}

#[test]
fn sizes_surfaces_and_the_rest_have_workings() {
    let survey = damp();
    let comparison = compared(&survey);
    for at in 0..comparison.sizing.capacities.len() {
        opened(&survey, &comparison, DryingTopic::Capacity(at));
    }
    for at in 0..comparison.sizing.heaters.len() {
        opened(&survey, &comparison, DryingTopic::Heater(at));
    }
    for at in 0..comparison.warm_up.len() {
        opened(&survey, &comparison, DryingTopic::WarmUp(at));
    }
    let in_use = Survey {
        set_up: SetUp::InUse,
        ..survey.clone()
    };
    let night = opened(&in_use, &compared(&in_use), DryingTopic::NightAir);
    assert!(
        night
            .notes
            .iter()
            .any(|note| note.contains("carbon monoxide"))
    );
    let id = comparison.cases[0].id;
    let surface = opened(&survey, &comparison, DryingTopic::Surface(0, id, 0));
    assert!(surface.inputs.iter().any(|(name, _)| name == "f_Rsi"));
    let dry_out = opened(&survey, &comparison, DryingTopic::DryOut(4, id));
    assert!(
        dry_out
            .inputs
            .iter()
            .any(|(_, value)| value == "300\u{a0}kg"),
        "{:?}",
        dry_out.inputs
    );
}

#[test]
fn sealing_everything_still_gives_workings() {
    let mut survey = damp();
    for gap in &mut survey.gaps {
        gap.state = WorkState::Sealed;
    }
    // Sealed without saying what is left: not sized, and nothing known is not nothing.
    let unknown = compare(&survey).expect_err("nobody knows what is left");
    assert_eq!(
        unknown.reason,
        "of no gap is known what is left: sealed, but the share that remains is not given"
    );
    // Sealed to the last: no air flows.
    for gap in &mut survey.gaps {
        gap.remedy = Some(Remedy {
            kind: RemedyKind::Strip,
            words: String::new(),
            leak_left_percent: Some(0.0),
            material_cost: None,
            cost_basis: CostBasis::Piece,
            minutes: None,
        });
    }
    let comparison = compared(&survey);
    opened(&survey, &comparison, DryingTopic::NightAir);
    let state = still(&comparison, OptionKind::Nothing);
    assert!(state.dry_air_kg_s == 0.0 && (state.rh - 0.85).abs() < 1e-9);
    assert!(comparison.night_air.is_err());
}
