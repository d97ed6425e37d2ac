//! Whole surveys to known answers, and truths that hold for any survey.

mod curves;
mod flues;
mod known_answers;
mod reach;
mod safety;
mod spaces;
mod truths;
mod underfloor;
mod unknown;

use crate::survey::{
    Certainty, Closing, Facing, Form, Gap, GapId, GapPart, InsideAir, Purpose, Survey, VehicleKind,
    ZoneId,
};

/// A box of 25 m³ on 6.0 × 2.2 m of plan with no gaps, its appliances confirmed.
pub(crate) fn bare() -> Survey {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    let vehicle = &mut survey.vehicle;
    vehicle.length_m = Some(6.0);
    vehicle.width_m = Some(2.2);
    vehicle.height_m = Some(2.6);
    vehicle.floor_height_m = Some(0.5);
    vehicle.volume_m3 = Some(25.0);
    survey.appliances_confirmed = true;
    survey
}

/// Adds a hole of an area in cm², given as a free area.
pub(crate) fn hole(survey: &mut Survey, facing: Facing, height_m: f64, area_cm2: f64) -> GapId {
    let form = Form::StatedArea {
        area_mm2: Some(area_cm2 * 100.0),
        convention: crate::survey::AreaConvention::Free,
        exponent: None,
    };
    add(survey, facing, height_m, form)
}

/// Adds a joint that somebody has looked at, so that it may be sealed.
pub(crate) fn add(survey: &mut Survey, facing: Facing, height_m: f64, form: Form) -> GapId {
    let id = survey.free_gap_id();
    let mut gap = Gap::new(id, ZoneId(1), facing, form);
    gap.position.height_m = Some(height_m);
    gap.certainty = Certainty::Measured;
    (gap.part, gap.purpose) = (GapPart::FixedJoint, Purpose::Unintended);
    gap.purpose_confirmed = true;
    survey.gaps.push(gap);
    id
}

/// Sets the same air in every weather case.
pub(crate) fn air(survey: &mut Survey, outside_c: f64, rh_percent: f64, inside: InsideAir) {
    for case in &mut survey.weather {
        case.outside_c = outside_c;
        case.outside_rh_percent = rh_percent;
        case.inside = inside;
    }
}

/// The gap with this id, to change it.
pub(crate) fn gap_mut(survey: &mut Survey, id: GapId) -> &mut Gap {
    survey.gaps.iter_mut().find(|gap| gap.id == id).unwrap()
}

/// Closed when laid up, open in use.
pub(crate) fn closable() -> Closing {
    Closing {
        open_laid_up: false,
        open_in_use: true,
        leaves_percent: 10.0,
    }
}
