//! A vehicle seen from its front and from its rear: metres from the nearside and above the ground.

use super::measures::Measures;
use super::piece::{Look, Piece, area, disc, held, line, rectangle, rounded, rounded_rectangle};
use super::sizes::Sizes;
use crate::survey::VehicleKind;

/// The pieces of the front.
#[must_use]
pub fn front(sizes: &Sizes) -> Vec<Piece> {
    let measures = Measures::of(sizes);
    let mut pieces = Vec::new();
    wheels(&mut pieces, sizes, &measures);
    match sizes.kind {
        VehicleKind::PanelVan => {
            hull(&mut pieces, sizes, measures.sill);
            nose(&mut pieces, sizes, &measures, 0.04);
        }
        VehicleKind::CoachBuilt => {
            hull(&mut pieces, sizes, sizes.floor_height_m - 0.1);
            let inset = 0.07;
            let (left, right) = across(sizes, inset);
            let cab = rounded_rectangle(
                (left, measures.sill),
                (right, measures.screen_top),
                0.12,
                Look::Part,
            );
            pieces.push(cab);
            nose(&mut pieces, sizes, &measures, inset + 0.03);
            let brow = vec![
                (0.0, measures.screen_top),
                (sizes.width_m, measures.screen_top),
            ];
            pieces.push(line(brow, Look::Edge));
        }
        VehicleKind::Integrated => {
            hull(&mut pieces, sizes, measures.sill);
            nose(&mut pieces, sizes, &measures, 0.03);
        }
        VehicleKind::TouringCaravan => {
            hull(&mut pieces, sizes, measures.sill);
            gas_locker(&mut pieces, sizes, &measures);
        }
        VehicleKind::Other => hull(&mut pieces, sizes, measures.sill),
    }
    held(pieces, (0.0, 0.0), (sizes.width_m, sizes.height_m))
}

/// The pieces of the rear.
#[must_use]
pub fn rear(sizes: &Sizes) -> Vec<Piece> {
    let measures = Measures::of(sizes);
    let mut pieces = Vec::new();
    wheels(&mut pieces, sizes, &measures);
    hull(&mut pieces, sizes, measures.sill);
    let (low, roof) = (measures.sill, sizes.height_m);
    match sizes.kind {
        VehicleKind::PanelVan => rear_doors(&mut pieces, sizes, &measures),
        VehicleKind::Other => return pieces,
        _ => {
            let bumper = low + 0.07 * (roof - low);
            pieces.push(line(
                vec![(0.06, bumper), (sizes.width_m - 0.06, bumper)],
                Look::Edge,
            ));
        }
    }
    let height = low + 0.16 * (roof - low);
    let tall = 0.1 * (roof - low);
    for (left, right) in [(0.03, 0.12), (0.88, 0.97)] {
        let at = |share: f64| share * sizes.width_m;
        pieces.push(rectangle(
            (at(left), height),
            (at(right), height + tall),
            Look::Edge,
        ));
    }
    held(pieces, (0.0, 0.0), (sizes.width_m, sizes.height_m))
}

/// The two edges of what is set in from both sides by this share of the width.
fn across(sizes: &Sizes, inset: f64) -> (f64, f64) {
    (inset * sizes.width_m, (1.0 - inset) * sizes.width_m)
}

fn hull(pieces: &mut Vec<Piece>, sizes: &Sizes, low: f64) {
    if sizes.kind == VehicleKind::Other {
        let corner = (sizes.width_m, sizes.height_m);
        pieces.push(rectangle((0.0, low), corner, Look::Hull));
        return;
    }
    let (left, right) = across(sizes, 0.03);
    let shoulder = low + 0.5 * (sizes.height_m - low);
    let corners = [
        (left, low),
        (0.0, shoulder),
        (left, sizes.height_m),
        (right, sizes.height_m),
        (sizes.width_m, shoulder),
        (right, low),
    ];
    pieces.push(area(rounded(&corners, 0.16), Look::Hull));
}

/// Windscreen, bonnet with its air intake, lamps and bumper.
fn nose(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures, inset: f64) {
    let Measures {
        sill,
        belt,
        screen_top,
        ..
    } = *measures;
    let ((left, right), (head_left, head_right)) =
        (across(sizes, inset + 0.03), across(sizes, inset + 0.07));
    let top = screen_top - 0.04;
    let screen = [
        (left, belt + 0.02),
        (head_left, top),
        (head_right, top),
        (right, belt + 0.02),
    ];
    pieces.push(area(rounded(&screen, 0.09), Look::Glass));
    let middle = sizes.width_m / 2.0;
    let height = |share: f64| sill + share * (belt - sill);
    for share in [0.52, 0.60] {
        let reach = 0.22 * sizes.width_m;
        let points = vec![
            (middle - reach, height(share)),
            (middle + reach, height(share)),
        ];
        pieces.push(line(points, Look::Edge));
    }
    let bumper = height(0.3);
    pieces.push(line(vec![(left, bumper), (right, bumper)], Look::Edge));
    let lamp = 0.12 * sizes.width_m;
    for from in [left, right - lamp] {
        pieces.push(rounded_rectangle(
            (from, height(0.5)),
            (from + lamp, height(0.7)),
            0.05,
            Look::Part,
        ));
    }
}

/// The flap of the gas locker low in the front, and the coupling before it.
fn gas_locker(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let (left, right) = across(sizes, 0.12);
    let (low, high) = (
        measures.sill + 0.06,
        measures.sill + 0.3 * (sizes.height_m - measures.sill),
    );
    pieces.push(rounded_rectangle(
        (left, low),
        (right, high),
        0.1,
        Look::Edge,
    ));
    let middle = sizes.width_m / 2.0;
    let grip = vec![(middle - 0.1, high - 0.08), (middle + 0.1, high - 0.08)];
    pieces.push(line(grip, Look::Edge));
    pieces.push(disc((middle, measures.sill - 0.06), 0.055, Look::Part));
}

/// Two doors with their joint, hinges and handle.
fn rear_doors(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let (left, right) = across(sizes, 0.06);
    let (low, high) = (measures.sill + 0.1, sizes.height_m - 0.1);
    let middle = sizes.width_m / 2.0;
    pieces.push(rounded_rectangle(
        (left, low),
        (right, high),
        0.1,
        Look::Edge,
    ));
    pieces.push(line(vec![(middle, low), (middle, high)], Look::Edge));
    for share in [0.15, 0.5, 0.85] {
        let height = low + share * (high - low);
        for (from, to) in [(left - 0.03, left + 0.07), (right - 0.07, right + 0.03)] {
            pieces.push(line(vec![(from, height), (to, height)], Look::Edge));
        }
    }
    let grip = low + 0.38 * (high - low);
    pieces.push(rectangle(
        (middle + 0.05, grip),
        (middle + 0.2, grip + 0.05),
        Look::Edge,
    ));
}

/// What is seen of the wheels under the body.
fn wheels(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let broad = 0.1 * sizes.width_m;
    let (left, right) = across(sizes, 0.05);
    for from in [left, right - broad] {
        let tyre = ((from, 0.0), (from + broad, 2.0 * measures.wheel));
        pieces.push(rounded_rectangle(tyre.0, tyre.1, 0.05, Look::Wheel));
    }
}
