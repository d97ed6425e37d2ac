//! The gap that a usual place starts with.

use super::place::{Station, UsualPlace};
use crate::survey::edit::{Edit, Record};
use crate::survey::gap::{Cavity, Facing, Gap, LeadsTo, Position, Zone};
use crate::survey::ids::{GapId, ZoneId};
use crate::survey::starting::{ZONE_NAMES, first_zone};
use crate::survey::walk::{Outcome, Visit};
use crate::survey::{Survey, Vehicle};

impl UsualPlace {
    /// Where it usually is on a vehicle of this size; what depends on a size that was not measured
    /// is not known.
    pub(super) fn position(&self, vehicle: &Vehicle) -> Position {
        let [along, across, up] = self.at;
        let (along, across, up) = match self.facing {
            Facing::Front => (0.0, across, up),
            Facing::Rear => (1.0, across, up),
            Facing::Nearside => (along, 0.0, up),
            Facing::Offside => (along, 1.0, up),
            Facing::Roof => (along, across, 1.0),
            Facing::Underfloor => (along, across, 0.0),
            Facing::Cavity(_) => (along, across, up),
        };
        let of = |share: f64, size: Option<f64>| size.map(|size| to_centimetres(share * size));
        let height = vehicle.floor_height_m.zip(vehicle.height_m);
        Position {
            along_m: of(along, vehicle.length_m),
            across_m: of(across, vehicle.width_m),
            height_m: height.map(|(floor, roof)| to_centimetres(floor + up * (roof - floor))),
            rise_m: self.shape().and_then(|shape| shape.rise_m),
        }
    }

    /// A gap there with its usual form; its sizes are guesses until somebody measures them.
    fn gap(&self, survey: &Survey, id: GapId, zone: ZoneId) -> Option<Gap> {
        let (facing, position) = self.spot(survey);
        let mut gap = self.shape()?.gap(survey, id, zone, facing);
        self.name.clone_into(&mut gap.name);
        gap.position = position;
        if self.compartment {
            gap.leads_to = LeadsTo::Compartment;
        }
        if let Facing::Cavity(Cavity::EngineBay | Cavity::Locker) = facing {
            gap.position.rise_m = None;
        }
        Some(gap)
    }

    /// Its zone, under the name that a new survey of such a vehicle has for it.
    fn zone_name(&self, survey: &Survey) -> &'static str {
        match self.zone {
            0 => first_zone(survey.vehicle.kind),
            at => ZONE_NAMES.get(at).copied().unwrap_or_default(),
        }
    }
}

/// The change that adds a gap at a usual place and says that it was found there, and the gap's
/// number. A zone that the survey lacks is added with it.
#[must_use]
pub fn found(survey: &Survey, station: &Station, place: &UsualPlace) -> Option<(GapId, Edit)> {
    let id = survey.free_gap_id();
    let name = place.zone_name(survey);
    let known = survey
        .zones
        .iter()
        .find(|zone| zone.name.trim().eq_ignore_ascii_case(name));
    let mut edits = Vec::new();
    let mut with_zone = survey.clone();
    let zone = match known {
        Some(zone) => zone.id,
        None => {
            let zone = Zone {
                id: survey.free_zone_id(),
                name: name.to_owned(),
            };
            // What a gap may be depends on the name of its zone.
            with_zone.zones.push(zone.clone());
            edits.push(Edit::Put(Record::Zone(zone.clone())));
            zone.id
        }
    };
    let gap = place.gap(&with_zone, id, zone)?;
    edits.push(Edit::gap(gap));
    let mut visit = Visit::of(station, place, Outcome::Found);
    if let Some(before) = survey.visit(station.id, place.id) {
        visit.gaps = survey.found_at(before).collect();
    }
    visit.gaps.push(id);
    edits.push(Edit::Visited(visit));
    Some((id, Edit::Several(edits)))
}

/// Nobody places a gap more exactly.
fn to_centimetres(metres: f64) -> f64 {
    (metres * 100.0).round() / 100.0
}
