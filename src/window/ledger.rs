//! Gaps that commands ask for: new ones, and copies of others.

use crate::survey::{Facing, Form, Gap, GapId, Position, Survey, WorkState};

/// A new gap with nothing measured. It keeps zone, facing and form of the gap before, which is
/// the selected one or else the last of the ledger: gaps are found one beside the other.
#[must_use]
pub fn add(survey: &Survey, selected: Option<GapId>) -> Option<Gap> {
    let before = selected
        .and_then(|id| survey.gap(id))
        .or_else(|| survey.gaps.last());
    let id = survey.free_gap_id();
    Some(match before {
        Some(before) => Gap::new(id, before.zone, before.facing, blank_like(&before.form)),
        None => {
            let zone = survey.zones.first()?.id;
            let [form, ..] = Form::blanks();
            Gap::new(id, zone, Facing::Nearside, form)
        }
    })
}

/// A new gap at a place, otherwise as [`add`] makes it.
#[must_use]
pub fn add_at(
    survey: &Survey,
    selected: Option<GapId>,
    facing: Facing,
    position: Position,
) -> Option<Gap> {
    let mut gap = add(survey, selected)?;
    (gap.facing, gap.position) = (facing, position);
    Some(gap)
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

/// Moves a gap to the other side of the vehicle. Its place across is mirrored where the vehicle's
/// width is known, and left out otherwise.
pub(super) fn mirrored(gap: &mut Gap, survey: &Survey) {
    gap.facing = gap.facing.mirrored();
    gap.position.across_m = gap
        .position
        .across_m
        .zip(survey.vehicle.width_m)
        .map(|(across, width)| width - across);
}

/// A copy of a gap as found, under a number of its own: photos and the state of the work belong to
/// the first one.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, VehicleKind};

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
        gap.part = crate::survey::GapPart::Hole;
        gap.state = WorkState::Sealed;
        survey.appliances_confirmed = true;
        survey.apply(Edit::gap(gap)).unwrap();
        (survey, GapId(1))
    }

    #[test]
    fn a_new_gap_keeps_zone_facing_and_form_of_the_one_before() {
        let (survey, id) = survey();
        let gap = add(&survey, None).unwrap();
        let before = survey.gap(id).unwrap();
        assert_eq!((gap.zone, gap.facing), (before.zone, before.facing));
        assert_eq!(gap.form, Form::RoundHole { diameter_mm: None });
        assert_eq!(gap.id, GapId(2));
    }

    #[test]
    fn the_first_gap_goes_to_the_first_zone() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        assert_eq!(add(&survey, None).unwrap().zone, survey.zones[0].id);
        survey.gaps.clear();
        survey.zones.clear();
        assert_eq!(add(&survey, None), None);
    }

    #[test]
    fn a_mirrored_gap_stands_on_the_other_side_as_found() {
        let (mut survey, id) = survey();
        let mirror = |survey: &Survey| {
            let mut gap = copied(survey.gap(id).unwrap(), GapId(2));
            mirrored(&mut gap, survey);
            gap
        };
        let gap = mirror(&survey);
        assert_eq!((gap.id, gap.facing), (GapId(2), Facing::Offside));
        assert!((gap.position.across_m.unwrap() - 1.8).abs() < 1e-12);
        assert!(gap.photos.is_empty());
        assert_eq!(gap.state, WorkState::Open);
        survey.vehicle.width_m = None;
        assert_eq!(mirror(&survey).position.across_m, None);
    }
}
