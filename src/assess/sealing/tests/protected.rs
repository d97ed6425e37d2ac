//! Openings that protect people, and the rest that no plan may hold.

use super::*;

fn any_purpose() -> impl Strategy<Value = Purpose> {
    prop::sample::select(Purpose::ALL.to_vec())
}

fn any_state() -> impl Strategy<Value = WorkState> {
    prop::sample::select(WorkState::ALL.to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever a file says, no protected opening gets into a ranking, an order, a set within a
    /// budget or a plan of the gaps that are marked; and its law is untouched after the work.
    #[test]
    fn no_plan_from_any_file_holds_a_protected_opening(
        survey in any_vehicle(2..10),
        purposes in prop::collection::vec((any_purpose(), any_state(), any::<bool>()), 10),
        budget in 0.0..200.0_f64,
    ) {
        let mut survey = survey;
        for (gap, (purpose, state, has_remedy)) in survey.gaps.iter_mut().zip(&purposes) {
            gap.purpose = *purpose;
            gap.state = *state;
            if !has_remedy {
                gap.remedy = None;
            }
        }
        let survey = file::parse(&file::print(&survey)).unwrap();
        let is_protected = |id: GapId| survey.gap(id).unwrap().purpose.must_stay_open();
        let Ok(prospect) = Prospect::new(&survey) else { return Ok(()) };
        let chosen = prospect.best_within(Aim::AchWindy, budget).unwrap();
        let ranked = prospect.rank(Aim::AchWindy).unwrap();
        let order = prospect.order(Aim::Heat).unwrap();
        let (marked, _) = marked_planned(&survey);
        let all = chosen.iter().chain(&marked)
            .chain(ranked.iter().map(|one| &one.sealable))
            .chain(order.steps.iter().map(|step| &step.sealable));
        for sealable in all {
            prop_assert!(!is_protected(sealable.gap()));
        }
        // Each protected opening is listed with the reason, and keeps its law after the work.
        for gap in survey.gaps.iter().filter(|gap| gap.purpose.must_stay_open()) {
            let why = StaysOpen::Refused(Refusal::ProtectsPeople(gap.purpose));
            let listed = LeftOpen { gap: gap.id, why };
            prop_assert!(prospect.left_open().contains(&listed));
        }
        for plan_of in [&chosen, &marked] {
            let done = after(&survey, plan_of).unwrap();
            for gap in survey.gaps.iter().filter(|gap| gap.purpose.must_stay_open()) {
                prop_assert_eq!(done.gap(gap.id).unwrap(), gap);
            }
        }
    }
}

#[test]
fn every_reason_to_stay_open_has_its_words() {
    let mut survey = vehicle(&[(50.0, 5.0); 8]);
    survey.gaps[0].purpose = Purpose::SafetyVentilation;
    survey.gaps[1].purpose = Purpose::GasDropOut;
    survey.gaps[2].purpose = Purpose::ApplianceAir;
    survey.gaps[3].leads_to = LeadsTo::Compartment;
    survey.gaps[4].state = WorkState::Sealed;
    survey.gaps[5].state = WorkState::Deferred;
    survey.gaps[6].form = Form::RoundHole { diameter_mm: None };
    survey.gaps[7].remedy = Some(remedy(100.0, 5.0));
    hole(&mut survey, Facing::Front, 1.0, 20.0);
    let prospect = Prospect::new(&survey).unwrap();
    let why: Vec<StaysOpen> = prospect.left_open().iter().map(|one| one.why).collect();
    assert_eq!(
        why,
        [
            StaysOpen::Refused(Refusal::ProtectsPeople(Purpose::SafetyVentilation)),
            StaysOpen::Refused(Refusal::ProtectsPeople(Purpose::GasDropOut)),
            StaysOpen::Refused(Refusal::ProtectsPeople(Purpose::ApplianceAir)),
            StaysOpen::Refused(Refusal::Compartment),
            StaysOpen::SealedAlready,
            StaysOpen::Deferred,
            StaysOpen::NotSized,
            StaysOpen::RemedyLeavesAll,
        ]
    );
    assert!(
        why[1]
            .to_string()
            .starts_with("gas drop-out must stay open")
    );
    assert_eq!(Sealable::of(&survey, GapId(99)), Err(StaysOpen::NoSuchGap));
    assert_eq!(prospect.sealables().len(), 1);
}

/// Leave to seal lapses when the gap turns out to be a ventilator.
#[test]
fn a_gap_that_became_a_ventilator_is_refused() {
    let mut survey = vehicle(&[(50.0, 5.0), (20.0, 3.0)]);
    let sealable = Sealable::of(&survey, GapId(1)).unwrap();
    survey.gaps[0].purpose = Purpose::SafetyVentilation;
    let refused = plan(&survey, &[sealable]).unwrap_err();
    assert!(refused.reason.contains("must stay open"), "{refused}");
}
