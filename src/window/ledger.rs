//! Changes of the ledger that commands ask for: add, copy, mirror, delete.

use crate::survey::{
    Edit, Facing, Form, Gap, GapId, Position, Record, RecordId, Survey, WorkState,
};

/// A change of the ledger and the gap that is selected after it.
#[derive(Clone, Debug, PartialEq)]
pub struct LedgerChange {
    /// The change.
    pub edit: Edit,
    /// The gap to select.
    pub selected: Option<GapId>,
}

fn put(gap: Gap) -> LedgerChange {
    LedgerChange {
        selected: Some(gap.id),
        edit: Edit::Put(Record::Gap(Box::new(gap))),
    }
}

/// A new gap with nothing measured. It keeps zone, facing and form of the gap before, which is
/// the selected one or else the last of the ledger: gaps are found one beside the other.
#[must_use]
pub fn add(survey: &Survey, selected: Option<GapId>) -> Option<LedgerChange> {
    let before = selected
        .and_then(|id| survey.gap(id))
        .or_else(|| survey.gaps.last());
    let id = survey.free_gap_id();
    let gap = match before {
        Some(before) => Gap::new(id, before.zone, before.facing, blank_like(&before.form)),
        None => {
            let zone = survey.zones.first()?.id;
            let [form, ..] = Form::blanks();
            Gap::new(id, zone, Facing::Nearside, form)
        }
    };
    Some(put(gap))
}

/// A new gap at a place, otherwise as [`add`] makes it.
#[must_use]
pub fn add_at(
    survey: &Survey,
    selected: Option<GapId>,
    facing: Facing,
    position: Position,
) -> Option<LedgerChange> {
    let mut change = add(survey, selected)?;
    if let Edit::Put(Record::Gap(gap)) = &mut change.edit {
        (gap.facing, gap.position) = (facing, position);
    }
    Some(change)
}

/// The same form with nothing measured.
#[must_use]
pub fn blank_like(form: &Form) -> Form {
    let blanks = Form::blanks();
    let same = |blank: &&Form| std::mem::discriminant(*blank) == std::mem::discriminant(form);
    blanks
        .iter()
        .find(same)
        .cloned()
        .unwrap_or_else(|| form.clone())
}

/// A copy of a gap, as found: photos and the state of the work belong to the first one.
#[must_use]
pub fn duplicate(survey: &Survey, id: GapId) -> Option<LedgerChange> {
    Some(put(copy(survey, id)?))
}

/// A copy of a gap on the other side of the vehicle. Its place across is mirrored where the
/// vehicle's width is known, and left out otherwise.
#[must_use]
pub fn mirror(survey: &Survey, id: GapId) -> Option<LedgerChange> {
    let mut gap = copy(survey, id)?;
    mirrored(&mut gap, survey);
    Some(put(gap))
}

/// Moves a gap to the other side of the vehicle.
pub(super) fn mirrored(gap: &mut Gap, survey: &Survey) {
    gap.facing = gap.facing.mirrored();
    gap.position.across_m = gap
        .position
        .across_m
        .zip(survey.vehicle.width_m)
        .map(|(across, width)| width - across);
}

fn copy(survey: &Survey, id: GapId) -> Option<Gap> {
    Some(copied(survey.gap(id)?, survey.free_gap_id()))
}

/// A copy of a gap as found, under a number of its own.
pub(super) fn copied(gap: &Gap, id: GapId) -> Gap {
    let mut gap = gap.clone();
    gap.id = id;
    gap.photos.clear();
    // Nobody has looked at both ends of another opening.
    gap.purpose_confirmed = false;
    gap.state = WorkState::Open;
    gap.state_date.clear();
    gap
}

/// Deletes a gap; its neighbour is selected then.
#[must_use]
pub fn delete(survey: &Survey, id: GapId) -> Option<LedgerChange> {
    let at = survey.gaps.iter().position(|gap| gap.id == id)?;
    let neighbour = survey
        .gaps
        .get(at + 1)
        .or_else(|| survey.gaps.get(at.checked_sub(1)?));
    Some(LedgerChange {
        edit: Edit::Remove(RecordId::Gap(id)),
        selected: neighbour.map(|gap| gap.id),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;

    fn survey() -> (Survey, GapId) {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.vehicle.width_m = Some(2.3);
        let mut gap = Gap::new(
            GapId(1),
            survey.zones[4].id,
            Facing::Nearside,
            Form::RoundHole {
                diameter_mm: Some(20.0),
            },
        );
        gap.position.across_m = Some(0.5);
        gap.photos.push(crate::survey::Photo::new("one.jpg"));
        gap.state = WorkState::Sealed;
        survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
        (survey, GapId(1))
    }

    fn made(survey: &mut Survey, change: LedgerChange) -> Gap {
        survey.apply(change.edit).unwrap();
        survey.gap(change.selected.unwrap()).unwrap().clone()
    }

    #[test]
    fn a_new_gap_keeps_zone_facing_and_form_of_the_one_before() {
        let (mut survey, id) = survey();
        let change = add(&survey, None).unwrap();
        let gap = made(&mut survey, change);
        let before = survey.gap(id).unwrap();
        assert_eq!((gap.zone, gap.facing), (before.zone, before.facing));
        assert_eq!(gap.form, Form::RoundHole { diameter_mm: None });
        assert_eq!(gap.id, GapId(2));
    }

    #[test]
    fn the_first_gap_goes_to_the_first_zone() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        let change = add(&survey, None).unwrap();
        assert_eq!(made(&mut survey, change).zone, survey.zones[0].id);
        survey.gaps.clear();
        survey.zones.clear();
        assert_eq!(add(&survey, None), None);
    }

    #[test]
    fn a_mirrored_gap_stands_on_the_other_side_as_found() {
        let (mut survey, id) = survey();
        let change = mirror(&survey, id).unwrap();
        let gap = made(&mut survey, change);
        assert_eq!(gap.facing, Facing::Offside);
        assert!((gap.position.across_m.unwrap() - 1.8).abs() < 1e-12);
        assert!(gap.photos.is_empty());
        assert_eq!(gap.state, WorkState::Open);
        survey.vehicle.width_m = None;
        let change = mirror(&survey, id).unwrap();
        assert_eq!(made(&mut survey, change).position.across_m, None);
    }

    #[test]
    fn deleting_selects_the_neighbour() {
        let (mut survey, id) = survey();
        let change = duplicate(&survey, id).unwrap();
        let second = made(&mut survey, change).id;
        assert_eq!(delete(&survey, id).unwrap().selected, Some(second));
        assert_eq!(delete(&survey, second).unwrap().selected, Some(id));
        survey.apply(delete(&survey, id).unwrap().edit).unwrap();
        assert_eq!(delete(&survey, second).unwrap().selected, None);
    }
}
