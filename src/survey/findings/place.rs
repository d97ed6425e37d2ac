//! Places on the body: how far it reaches, and whether a place lies on the face it is said to be in.

use super::finding::{Finder, Severity};
use crate::survey::gap::{Facing, Gap};
use crate::survey::number::given;
use crate::survey::{Field, Survey};

/// How far beyond the body a gap may be said to be, m: bumpers and mouldings stand out.
pub(super) const BESIDE_M: f64 = 0.3;

/// How far the body of this survey reaches in the direction of a place, m: its length, width or
/// height. `None` where that is not given, or the field is no place.
#[must_use]
pub fn body_reaches(survey: &Survey, field: Field) -> Option<f64> {
    let vehicle = &survey.vehicle;
    match field {
        Field::Along => vehicle.length_m,
        Field::Across => vehicle.width_m,
        Field::MiddleHeight => vehicle.height_m,
        _ => None,
    }
}

/// Whether a place lies beside a body that reaches so far, m.
#[must_use]
pub fn is_off_body(place_m: f64, reaches_m: f64) -> bool {
    !(-BESIDE_M..=reaches_m + BESIDE_M).contains(&place_m)
}

/// A gap whose place lies on the other half of the body than the face it is said to be in: one of
/// the two was entered wrongly, and the wind on it depends on the face.
pub(super) fn other_half(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    let (position, floor) = (&gap.position, survey.vehicle.floor_height_m);
    let (field, place, far) = match gap.facing {
        Facing::Front | Facing::Rear => {
            (Field::Along, position.along_m, gap.facing == Facing::Rear)
        }
        Facing::Nearside | Facing::Offside => {
            let far = gap.facing == Facing::Offside;
            (Field::Across, position.across_m, far)
        }
        Facing::Roof | Facing::Underfloor => {
            let far = gap.facing == Facing::Roof;
            (Field::MiddleHeight, position.height_m, far)
        }
        Facing::Cavity(_) => return,
    };
    let (Some(place), Some(reaches)) = (place, body_reaches(survey, field)) else {
        return;
    };
    let from = match field {
        Field::MiddleHeight => floor.unwrap_or(0.0),
        _ => 0.0,
    };
    let middle = f64::midpoint(from, reaches);
    if is_off_body(place, reaches) || (place - middle).abs() < 1e-9 || (place > middle) == far {
        return;
    }
    let measured = match field {
        Field::Along => format!(
            "{} m from the front of a body {} m long",
            given(place),
            given(reaches)
        ),
        Field::Across => {
            format!(
                "{} m from the nearside of a body {} m wide",
                given(place),
                given(reaches)
            )
        }
        _ => format!(
            "{} m above ground on a body {} m high",
            given(place),
            given(reaches)
        ),
    };
    finder.add(
        Severity::Warning,
        field,
        format!(
            "it faces {}, but its place is {measured}",
            towards(gap.facing)
        ),
        "choose the face that it is in, or measure its place again",
    );
}

/// A face as it stands behind *faces*.
fn towards(facing: Facing) -> &'static str {
    match facing {
        Facing::Front => "the front",
        Facing::Rear => "the rear",
        Facing::Nearside => "the nearside",
        Facing::Offside => "the offside",
        Facing::Roof => "up, in the roof",
        Facing::Underfloor => "down, in the floor",
        Facing::Cavity(_) => "a cavity",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, Form, GapId, VehicleKind};

    /// Findings at the place of a gap of a body 5 m long, 2.1 m wide and 2.6 m high.
    fn found(facing: Facing, place: impl Fn(&mut Gap)) -> Vec<String> {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        survey.vehicle.length_m = Some(5.0);
        survey.vehicle.width_m = Some(2.1);
        survey.vehicle.height_m = Some(2.6);
        survey.vehicle.floor_height_m = Some(0.6);
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        let mut gap = Gap::new(GapId(1), survey.zones[0].id, facing, form);
        place(&mut gap);
        survey.apply(Edit::gap(gap)).unwrap();
        let findings = crate::survey::findings::find(&survey);
        let of_a_place = findings.into_iter().filter(|one| {
            let field = one.place.field;
            field.is_some_and(|field| body_reaches(&survey, field).is_some())
                && one.severity == Severity::Warning
        });
        of_a_place.map(|one| one.sentence).collect()
    }

    #[test]
    fn a_place_on_the_other_half_than_the_face_is_found() {
        let across = |across| move |gap: &mut Gap| gap.position.across_m = Some(across);
        let wrong = found(Facing::Nearside, across(2.0));
        assert_eq!(wrong.len(), 1);
        assert!(wrong[0].contains("it faces the nearside, but its place is 2 m from the nearside"));
        for (facing, there) in [
            (Facing::Nearside, 0.0),
            (Facing::Offside, 2.1),
            (Facing::Offside, 1.05),
            (Facing::Rear, 0.3),
        ] {
            assert!(
                found(facing, across(there)).is_empty(),
                "{facing:?} {there}"
            );
        }
        let along = |along| move |gap: &mut Gap| gap.position.along_m = Some(along);
        assert_eq!(found(Facing::Front, along(4.8)).len(), 1);
        assert_eq!(found(Facing::Rear, along(0.2)).len(), 1);
        assert!(found(Facing::Front, along(1.2)).is_empty());
        let height = |height| move |gap: &mut Gap| gap.position.height_m = Some(height);
        assert_eq!(found(Facing::Roof, height(0.7)).len(), 1);
        assert_eq!(found(Facing::Underfloor, height(2.4)).len(), 1);
        assert!(found(Facing::Underfloor, height(0.6)).is_empty());
    }

    #[test]
    fn a_place_beside_the_body_is_told_once() {
        let across = |gap: &mut Gap| gap.position.across_m = Some(3.4);
        let beside = found(Facing::Nearside, across);
        assert_eq!(beside.len(), 1);
        assert!(beside[0].contains("outside the body, 2.1 m wide"));
        assert!(is_off_body(2.41, 2.1) && !is_off_body(2.4, 2.1) && is_off_body(-0.31, 2.1));
    }
}
