//! Windows, doors and vents: where they usually are, and how each is drawn.

use super::measures::Measures;
use super::piece::{Look, Piece, Spot, area, line, rectangle, rounded, rounded_rectangle};
use super::sizes::Sizes;
use crate::survey::fabric::FabricPart;
use crate::survey::gap::Facing;
use crate::survey::{Fitting, FittingId, FittingKind, Outline, Survey, VehicleKind};

/// The fittings drawn on a survey's vehicle: its own, or the usual ones. A window, rooflight or
/// door whose kind the fabric places is drawn from there, and no usual one lies on it.
#[must_use]
pub fn shown(survey: &Survey) -> Vec<Fitting> {
    if let Some(own) = &survey.fittings {
        return own.clone();
    }
    let placed = || {
        let elements = survey.fabric.iter();
        elements.filter_map(|element| Some((element.part, element.outline?)))
    };
    let from_fabric = |fitting: &Fitting| {
        placed().any(|(part, outline)| {
            part_of(fitting.kind) == Some(part) || overlap(&outline, &fitting.outline)
        })
    };
    let mut usual = usual(&Sizes::of(&survey.vehicle));
    usual.retain(|fitting| !from_fabric(fitting));
    usual
}

/// The part of the fabric that a fitting is.
fn part_of(kind: FittingKind) -> Option<FabricPart> {
    match kind {
        FittingKind::Window => Some(FabricPart::Window),
        FittingKind::Rooflight => Some(FabricPart::Rooflight),
        FittingKind::HabitationDoor | FittingKind::SlidingDoor => Some(FabricPart::Door),
        FittingKind::RefrigeratorVent | FittingKind::LockerFlap => None,
    }
}

fn overlap(one: &Outline, other: &Outline) -> bool {
    one.facing == other.facing
        && 2.0 * (one.along_m - other.along_m).abs() < one.width_m + other.width_m
        && 2.0 * (one.up_m - other.up_m).abs() < one.height_m + other.height_m
}

/// A usual fitting: its middle as shares of the living part and of the room's height (on roof, of
/// the width), and its size, m.
type Usual = (FittingKind, Facing, (f64, f64), (f64, f64));

use FittingKind::{HabitationDoor, LockerFlap, RefrigeratorVent, Rooflight, SlidingDoor, Window};

/// Common places \[C\], of no maker's vehicle.
const CARAVAN: &[Usual] = &[
    (Window, Facing::Front, (0.5, 0.60), (1.5, 0.55)),
    (Window, Facing::Rear, (0.5, 0.60), (1.2, 0.50)),
    (HabitationDoor, Facing::Nearside, (0.70, 0.46), (0.6, 1.7)),
    (Window, Facing::Nearside, (0.24, 0.60), (1.0, 0.55)),
    (Window, Facing::Nearside, (0.48, 0.62), (0.7, 0.45)),
    (Window, Facing::Offside, (0.76, 0.60), (0.9, 0.50)),
    (Window, Facing::Offside, (0.20, 0.60), (1.0, 0.55)),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.48, 0.16),
        (0.45, 0.18),
    ),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.48, 0.66),
        (0.45, 0.18),
    ),
    (LockerFlap, Facing::Offside, (0.88, 0.18), (0.6, 0.35)),
    (Rooflight, Facing::Roof, (0.36, 0.5), (0.7, 0.5)),
    (Rooflight, Facing::Roof, (0.82, 0.7), (0.4, 0.4)),
];

const VAN: &[Usual] = &[
    (SlidingDoor, Facing::Nearside, (0.19, 0.42), (1.2, 1.65)),
    (Window, Facing::Nearside, (0.72, 0.60), (0.9, 0.45)),
    (Window, Facing::Offside, (0.20, 0.60), (1.0, 0.50)),
    (Window, Facing::Offside, (0.76, 0.60), (0.9, 0.45)),
    (Window, Facing::Rear, (0.27, 0.62), (0.55, 0.5)),
    (Window, Facing::Rear, (0.73, 0.62), (0.55, 0.5)),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.48, 0.22),
        (0.38, 0.15),
    ),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.48, 0.66),
        (0.38, 0.15),
    ),
    (LockerFlap, Facing::Nearside, (0.80, 0.12), (0.35, 0.3)),
    (Rooflight, Facing::Roof, (0.30, 0.5), (0.7, 0.5)),
    (Rooflight, Facing::Roof, (0.74, 0.5), (0.4, 0.4)),
];

const COACH: &[Usual] = &[
    (HabitationDoor, Facing::Nearside, (0.34, 0.46), (0.6, 1.75)),
    (Window, Facing::Nearside, (0.12, 0.60), (0.7, 0.5)),
    (Window, Facing::Nearside, (0.74, 0.60), (0.9, 0.5)),
    (Window, Facing::Offside, (0.18, 0.60), (1.0, 0.55)),
    (Window, Facing::Offside, (0.82, 0.60), (0.9, 0.5)),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.50, 0.18),
        (0.45, 0.18),
    ),
    (
        RefrigeratorVent,
        Facing::Offside,
        (0.50, 0.62),
        (0.45, 0.18),
    ),
    (LockerFlap, Facing::Nearside, (0.86, 0.16), (0.8, 0.5)),
    (LockerFlap, Facing::Offside, (0.80, 0.14), (0.5, 0.4)),
    (Window, Facing::Rear, (0.5, 0.62), (0.9, 0.45)),
    (Rooflight, Facing::Roof, (0.22, 0.5), (0.7, 0.5)),
    (Rooflight, Facing::Roof, (0.80, 0.65), (0.4, 0.4)),
];

/// What is usual for a vehicle of this kind and size, each on its face.
#[must_use]
pub fn usual(sizes: &Sizes) -> Vec<Fitting> {
    let list = match sizes.kind {
        VehicleKind::TouringCaravan => CARAVAN,
        VehicleKind::PanelVan => VAN,
        VehicleKind::CoachBuilt | VehicleKind::Integrated => COACH,
        VehicleKind::Other => &[],
    };
    let start = Measures::of(sizes).cab_end;
    let (floor, roof) = (sizes.floor_height_m, sizes.height_m);
    let fitting = |(&(kind, facing, (side, up), (width_m, height_m)), id): (&Usual, u32)| {
        let along_m = match facing {
            Facing::Front | Facing::Rear => side * sizes.width_m,
            _ => start + side * (sizes.length_m - start),
        };
        let up_m = match facing {
            Facing::Roof | Facing::Underfloor => up * sizes.width_m,
            _ => floor + up * (roof - floor),
        };
        let outline = Outline {
            facing,
            along_m,
            up_m,
            width_m,
            height_m,
        };
        Fitting {
            id: FittingId(id),
            kind,
            outline: on_face(&outline, sizes),
        }
    };
    list.iter().zip(1..).map(fitting).collect()
}

/// A new fitting in the middle of a face where such a one may be.
#[must_use]
pub fn new(id: FittingId, kind: FittingKind, sizes: &Sizes) -> Fitting {
    let (facing, (width_m, height_m)) = match kind {
        Window => (Facing::Nearside, (0.9, 0.5)),
        Rooflight => (Facing::Roof, (0.4, 0.4)),
        HabitationDoor => (Facing::Nearside, (0.6, 1.7)),
        SlidingDoor => (Facing::Nearside, (1.2, 1.65)),
        RefrigeratorVent => (Facing::Offside, (0.45, 0.18)),
        LockerFlap => (Facing::Offside, (0.6, 0.35)),
    };
    let outline = Outline {
        facing,
        along_m: sizes.length_m / 2.0,
        up_m: match facing {
            Facing::Roof => sizes.width_m / 2.0,
            _ => f64::midpoint(sizes.floor_height_m, sizes.height_m),
        },
        width_m,
        height_m,
    };
    Fitting {
        id,
        kind,
        outline: on_face(&outline, sizes),
    }
}

/// How far a face reaches: from and to along it, from and to up it, m.
fn face(facing: Facing, sizes: &Sizes) -> ((f64, f64), (f64, f64)) {
    let up = (0.0, sizes.height_m);
    match facing {
        Facing::Front | Facing::Rear => ((0.0, sizes.width_m), up),
        Facing::Roof | Facing::Underfloor => ((0.0, sizes.length_m), (0.0, sizes.width_m)),
        Facing::Nearside | Facing::Offside | Facing::Cavity(_) => ((0.0, sizes.length_m), up),
    }
}

/// The same outline wholly on its face: made smaller where it is larger than that, and moved in
/// from the edge. A size that is no size becomes the least that can be seen.
#[must_use]
pub fn on_face(outline: &Outline, sizes: &Sizes) -> Outline {
    const LEAST: f64 = 0.05;
    let ((left, right), (low, high)) = face(outline.facing, sizes);
    let sized = |size: f64, room: f64| size.max(LEAST).min(room);
    let (width_m, height_m) = (
        sized(outline.width_m, right - left),
        sized(outline.height_m, high - low),
    );
    let put = |middle: f64, size: f64, from: f64, to: f64| {
        let middle = if middle.is_finite() { middle } else { from };
        // Rounding may leave a hair's breadth less room than nothing.
        let (from, to) = (from + size / 2.0, to - size / 2.0);
        middle.max(from).min(to.max(from))
    };
    Outline {
        facing: outline.facing,
        along_m: put(outline.along_m, width_m, left, right),
        up_m: put(outline.up_m, height_m, low, high),
        width_m,
        height_m,
    }
}

/// The lower left and the upper right corner of an outline on its face, m.
#[must_use]
pub fn corners(outline: &Outline) -> (Spot, Spot) {
    let (wide, tall) = (outline.width_m / 2.0, outline.height_m / 2.0);
    (
        (outline.along_m - wide, outline.up_m - tall),
        (outline.along_m + wide, outline.up_m + tall),
    )
}

/// The pieces of a fitting, on its face.
#[must_use]
pub fn pieces(fitting: &Fitting, sizes: &Sizes) -> Vec<Piece> {
    drawn(fitting.kind, &on_face(&fitting.outline, sizes))
}

/// The pieces of an opening that the fabric places, on its face.
#[must_use]
pub fn opening(part: FabricPart, outline: &Outline, sizes: &Sizes) -> Vec<Piece> {
    let kind = match part {
        FabricPart::Window => FittingKind::Window,
        FabricPart::Rooflight => FittingKind::Rooflight,
        FabricPart::Door => FittingKind::HabitationDoor,
        FabricPart::Wall | FabricPart::Roof | FabricPart::Floor | FabricPart::CabMetal => {
            let (from, to) = corners(&on_face(outline, sizes));
            return vec![rectangle(from, to, Look::Edge)];
        }
    };
    drawn(kind, &on_face(outline, sizes))
}

fn drawn(kind: FittingKind, outline: &Outline) -> Vec<Piece> {
    let (from, to) = corners(outline);
    let (wide, tall) = (outline.width_m, outline.height_m);
    let at = |side: f64, up: f64| (from.0 + side * wide, from.1 + up * tall);
    let round = 0.07_f64.min(wide / 5.0).min(tall / 5.0);
    let inner = |look| rounded_rectangle(at(0.07, 0.07), at(0.93, 0.93), round, look);
    match kind {
        FittingKind::Window => vec![
            rounded_rectangle(from, to, round, Look::Glass),
            inner(Look::Edge),
        ],
        FittingKind::Rooflight => vec![
            rounded_rectangle(from, to, round, Look::Glass),
            line(vec![at(0.0, 0.0), at(1.0, 1.0)], Look::Edge),
            line(vec![at(0.0, 1.0), at(1.0, 0.0)], Look::Edge),
        ],
        FittingKind::HabitationDoor => vec![
            rounded_rectangle(from, to, round, Look::Part),
            rounded_rectangle(at(0.2, 0.56), at(0.8, 0.88), round / 2.0, Look::Glass),
            line(vec![at(0.72, 0.46), at(0.9, 0.46)], Look::Edge),
        ],
        FittingKind::SlidingDoor => {
            let pane = [at(0.14, 0.52), at(0.86, 0.52), at(0.86, 0.9), at(0.14, 0.9)];
            vec![
                rounded_rectangle(from, to, round, Look::Part),
                area(rounded(&pane, round), Look::Glass),
                line(vec![at(0.84, 0.42), at(0.95, 0.42)], Look::Edge),
                // The rail that it slides on.
                line(vec![at(0.0, 0.47), at(1.0, 0.47)], Look::Edge),
            ]
        }
        FittingKind::RefrigeratorVent => {
            let slats =
                [0.25, 0.5, 0.75].map(|up| line(vec![at(0.1, up), at(0.9, up)], Look::Edge));
            let mut pieces = vec![rounded_rectangle(from, to, round, Look::Part)];
            pieces.extend(slats);
            pieces
        }
        FittingKind::LockerFlap => vec![
            rounded_rectangle(from, to, round, Look::Edge),
            line(vec![at(0.42, 0.85), at(0.58, 0.85)], Look::Edge),
        ],
    }
}
