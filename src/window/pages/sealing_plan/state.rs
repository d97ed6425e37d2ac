//! Edits of the plan: where the work on gaps stands, and how they are sealed.

use crate::assess::sealing::Sealable;
use crate::survey::leave::may_become;
use crate::survey::{Edit, Gap, GapId, Remedy, RemedyKind, Survey, WorkState};
use crate::window::changes_of_many::remedied;

/// The gap in another state since a date. Sealed, it keeps what its remedy leaves: where the
/// surveyor named none, the suggested one, so that it is known what still flows.
pub(super) fn in_state(survey: &Survey, gap: &Gap, state: WorkState, date: &str) -> Edit {
    let mut changed = gap.clone();
    changed.state = state;
    changed.state_date = if state == WorkState::Open {
        String::new()
    } else {
        date.trim().to_owned()
    };
    let left = gap.remedy.as_ref().and_then(|own| own.leak_left_percent);
    if state == WorkState::Sealed
        && left.is_none()
        && let Ok(sealable) = Sealable::of(survey, gap.id)
    {
        changed.remedy = Some(sealable.remedy().clone());
    }
    Edit::gap(changed)
}

/// Exactly these gaps in the plan: others that were planned are open again. `None` where nothing
/// changes.
pub(super) fn plan_of(survey: &Survey, wanted: &[GapId], date: &str) -> Option<Edit> {
    let changes = survey.gaps.iter().filter_map(|gap| {
        let planned = gap.state == WorkState::Planned;
        match (planned, wanted.contains(&gap.id)) {
            (false, true) => Some(in_state(survey, gap, WorkState::Planned, date)),
            (true, false) => Some(in_state(survey, gap, WorkState::Open, date)),
            _ => None,
        }
    });
    several(changes.collect())
}

/// Every planned gap in another state.
pub(super) fn all_planned(survey: &Survey, state: WorkState, date: &str) -> Option<Edit> {
    let planned = survey
        .gaps
        .iter()
        .filter(|gap| gap.state == WorkState::Planned)
        .filter(|gap| may_become(survey, gap, state).is_ok());
    several(
        planned
            .map(|gap| in_state(survey, gap, state, date))
            .collect(),
    )
}

fn several(edits: Vec<Edit>) -> Option<Edit> {
    (!edits.is_empty()).then_some(Edit::Several(edits))
}

/// The gap with another kind of remedy; `None` leaves it to the suggestion.
pub(super) fn with_remedy(gap: &Gap, kind: Option<RemedyKind>) -> Edit {
    let mut changed = gap.clone();
    changed.remedy = remedied(gap, kind);
    Edit::gap(changed)
}

/// The same change of the remedy of several gaps; a suggested remedy becomes their own with it.
pub(super) fn remedies(
    survey: &Survey,
    sealables: &[&Sealable],
    change: impl Fn(&mut Remedy),
) -> Edit {
    let changed = sealables.iter().filter_map(|sealable| {
        let mut gap = survey.gap(sealable.gap())?.clone();
        let mut remedy = gap
            .remedy
            .take()
            .unwrap_or_else(|| sealable.remedy().clone());
        change(&mut remedy);
        gap.remedy = Some(remedy);
        Some(Edit::gap(gap))
    });
    Edit::Several(changed.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Form, GapPart, Purpose, VehicleKind};

    fn survey(states: &[WorkState]) -> Survey {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.appliances_confirmed = true;
        for (id, state) in (1..).zip(states) {
            let form = Form::RoundHole {
                diameter_mm: Some(20.0),
            };
            let mut gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Front, form);
            gap.part = GapPart::Hole;
            gap.state = *state;
            survey.apply(Edit::gap(gap)).unwrap();
        }
        survey
    }

    fn states(survey: &Survey) -> Vec<WorkState> {
        survey.gaps.iter().map(|gap| gap.state).collect()
    }

    #[test]
    fn a_plan_is_exactly_the_gaps_wanted() {
        use WorkState::{Deferred, Open, Planned, Sealed};
        let mut survey = survey(&[Open, Planned, Sealed, Deferred, Planned]);
        let edit = plan_of(&survey, &[GapId(1), GapId(5)], "2026-01-31").unwrap();
        survey.apply(edit).unwrap();
        assert_eq!(states(&survey), [Planned, Open, Sealed, Deferred, Planned]);
        assert_eq!(survey.gaps[0].state_date, "2026-01-31");
        assert_eq!(survey.gaps[1].state_date, "");
        assert_eq!(plan_of(&survey, &[GapId(1), GapId(5)], "2026-02-01"), None);
    }

    #[test]
    fn a_gap_sealed_without_a_remedy_keeps_what_the_suggested_one_leaves() {
        let mut survey = survey(&[WorkState::Planned, WorkState::Open]);
        let edit = all_planned(&survey, WorkState::Sealed, "2026-01-31").unwrap();
        survey.apply(edit).unwrap();
        assert_eq!(states(&survey), [WorkState::Sealed, WorkState::Open]);
        let remedy = survey.gaps[0].remedy.as_ref().unwrap();
        assert_eq!(remedy.kind, RemedyKind::Grommet);
        assert!(remedy.leak_left_percent.is_some_and(|left| left > 0.0));
    }

    #[test]
    fn what_must_stay_open_is_not_sealed_with_the_rest() {
        let mut survey = survey(&[WorkState::Planned, WorkState::Planned]);
        survey.gaps[0].purpose = Purpose::SafetyVentilation;
        let edit = all_planned(&survey, WorkState::Sealed, "").unwrap();
        survey.apply(edit).unwrap();
        assert_eq!(states(&survey), [WorkState::Planned, WorkState::Sealed]);
    }

    #[test]
    fn another_price_makes_a_suggested_remedy_the_surveyors_own() {
        let mut survey = survey(&[WorkState::Open]);
        let sealable = Sealable::of(&survey, GapId(1)).unwrap();
        let edit = remedies(&survey, &[&sealable], |remedy| {
            remedy.material_cost = Some(2.5);
        });
        survey.apply(edit).unwrap();
        let own = Sealable::of(&survey, GapId(1)).unwrap();
        assert!(!own.is_assumed());
        assert_eq!(own.remedy().material_cost, Some(2.5));
        survey
            .apply(with_remedy(&survey.gaps[0].clone(), None))
            .unwrap();
        assert!(Sealable::of(&survey, GapId(1)).unwrap().is_assumed());
    }
}
