//! A usual place that belongs to a window, door or vent lies where the surveyor has put that.

use super::place::{UsualPlace, Which};
use crate::survey::fabric::Outline;
use crate::survey::gap::{Facing, Position};
use crate::survey::{Fitting, FittingKind, Survey, Vehicle};

impl Which {
    fn of(self, mut alike: Vec<&Fitting>) -> Option<&Fitting> {
        let area = |one: &Fitting| one.outline.width_m * one.outline.height_m;
        let up = |one: &Fitting| one.outline.up_m;
        match self {
            Self::Lowest | Self::Highest => alike.sort_by(|a, b| up(a).total_cmp(&up(b))),
            _ => alike.sort_by(|a, b| area(b).total_cmp(&area(a))),
        }
        match self {
            Self::Largest | Self::LargestEdge | Self::Lowest => alike.first().copied(),
            Self::Second | Self::SecondEdge => alike.get(1).copied(),
            Self::Highest => alike.last().copied(),
        }
    }

    /// Where on the fitting, as a share of its width from its middle.
    fn side(self) -> f64 {
        match self {
            Self::LargestEdge | Self::SecondEdge => -0.5,
            _ => 0.0,
        }
    }
}

impl UsualPlace {
    /// The outside that it opens to, and where it is: at its own window, door or vent where the
    /// survey has one, otherwise where such a place usually is.
    #[must_use]
    pub fn spot(&self, survey: &Survey) -> (Facing, Position) {
        let usual = self.position(&survey.vehicle);
        let own = || {
            let (kind, which) = self.fitting?;
            let fittings = survey.fittings.as_deref()?.iter();
            let alike = fittings.filter(|one| one.kind == kind);
            let here = alike.filter(|one| one.outline.facing == self.facing || has_one_face(kind));
            let fitting = which.of(here.collect())?;
            Some((fitting.outline, which.side()))
        };
        own().map_or((self.facing, usual), |(outline, side)| {
            (outline.facing, at(&outline, side, usual, &survey.vehicle))
        })
    }
}

/// Whether a vehicle has such things on one of its faces only, whichever that is: its places go
/// with them from face to face. Windows and flaps have places of their own on each.
fn has_one_face(kind: FittingKind) -> bool {
    match kind {
        FittingKind::HabitationDoor
        | FittingKind::SlidingDoor
        | FittingKind::RefrigeratorVent
        | FittingKind::Rooflight => true,
        FittingKind::Window | FittingKind::LockerFlap => false,
    }
}

/// The place of an outline, a share of its width from its middle; what the face leaves open is as
/// usual.
fn at(outline: &Outline, side: f64, usual: Position, vehicle: &Vehicle) -> Position {
    let within = |at: f64, size: Option<f64>| {
        let at = size.map_or(at, |size| at.min(size)).max(0.0);
        Some((at * 100.0).round() / 100.0)
    };
    let along = outline.along_m + side * outline.width_m;
    let mut position = usual;
    match outline.facing {
        Facing::Front | Facing::Rear => {
            let front = outline.facing == Facing::Front;
            position.along_m = if front { Some(0.0) } else { vehicle.length_m };
            position.across_m = within(along, vehicle.width_m);
            position.height_m = within(outline.up_m, vehicle.height_m);
        }
        Facing::Nearside | Facing::Offside => {
            let near = outline.facing == Facing::Nearside;
            position.along_m = within(along, vehicle.length_m);
            position.across_m = if near { Some(0.0) } else { vehicle.width_m };
            position.height_m = within(outline.up_m, vehicle.height_m);
        }
        Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => {
            position.along_m = within(along, vehicle.length_m);
            position.across_m = within(outline.up_m, vehicle.width_m);
        }
    }
    position
}
