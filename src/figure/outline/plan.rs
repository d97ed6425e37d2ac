//! A vehicle seen from above: metres from the front and from the nearside. The underfloor is seen
//! from above too, as through the floor.

use super::measures::{Measures, axles};
use super::piece::{Look, Piece, area, disc, held, line, rectangle, rounded, rounded_rectangle};
use super::sizes::Sizes;
use crate::survey::VehicleKind;

/// The pieces of the roof.
#[must_use]
pub fn roof(sizes: &Sizes) -> Vec<Piece> {
    let measures = Measures::of(sizes);
    let (length, width) = (sizes.length_m, sizes.width_m);
    let mut pieces = Vec::new();
    drawbar(&mut pieces, sizes);
    edge(&mut pieces, sizes);
    let Measures {
        bonnet, screen_end, ..
    } = measures;
    let across = |inset: f64| (inset * width, (1.0 - inset) * width);
    match sizes.kind {
        VehicleKind::PanelVan | VehicleKind::Integrated => {
            let ((foot, foot_end), (head, head_end)) = (across(0.06), across(0.10));
            let screen = [
                (bonnet, foot),
                (screen_end, head),
                (screen_end, head_end),
                (bonnet, foot_end),
            ];
            pieces.push(area(screen.to_vec(), Look::Glass));
            if sizes.kind == VehicleKind::PanelVan {
                for inset in [0.2, 0.8] {
                    let points = vec![(0.1 * bonnet, inset * width), (bonnet, inset * width)];
                    pieces.push(line(points, Look::Edge));
                }
            }
        }
        VehicleKind::CoachBuilt => {
            // The bonnet stands out under the overcab.
            let start = 0.4 * bonnet;
            pieces.push(line(vec![(start, 0.0), (start, width)], Look::Edge));
            let points = vec![
                (screen_end, 0.09 * width),
                (bonnet, 0.07 * width),
                (bonnet, 0.93 * width),
                (screen_end, 0.91 * width),
            ];
            pieces.push(line(points, Look::Hidden));
        }
        VehicleKind::TouringCaravan => {
            for along in [0.36, length - 0.24] {
                pieces.push(line(
                    vec![(along, 0.03 * width), (along, 0.97 * width)],
                    Look::Edge,
                ));
            }
        }
        VehicleKind::Other => {}
    }
    bulkhead(&mut pieces, sizes, &measures);
    held(pieces, (-sizes.drawbar_m(), 0.0), (length, width))
}

/// The pieces of the underfloor.
#[must_use]
pub fn underfloor(sizes: &Sizes) -> Vec<Piece> {
    let measures = Measures::of(sizes);
    let mut pieces = Vec::new();
    drawbar(&mut pieces, sizes);
    edge(&mut pieces, sizes);
    let width = sizes.width_m;
    let (radius, broad) = (measures.wheel, 0.1 * width);
    for along in axles(sizes) {
        pieces.push(line(
            vec![(along, 0.1 * width), (along, 0.9 * width)],
            Look::Edge,
        ));
        for near in [0.03 * width, 0.97 * width - broad] {
            let (from, to) = ((along - radius, near), (along + radius, near + broad));
            pieces.push(rounded_rectangle(from, to, 0.05, Look::Wheel));
        }
    }
    if sizes.kind.has_cab() {
        let bay = (
            (0.06, 0.14 * width),
            (1.1 * measures.screen_end, 0.86 * width),
        );
        if bay.1.0 > 0.3 {
            pieces.push(rectangle(bay.0, bay.1, Look::Hidden));
        }
    }
    bulkhead(&mut pieces, sizes, &measures);
    held(pieces, (-sizes.drawbar_m(), 0.0), (sizes.length_m, width))
}

fn edge(pieces: &mut Vec<Piece>, sizes: &Sizes) {
    let (length, width) = (sizes.length_m, sizes.width_m);
    let nose = match sizes.kind {
        VehicleKind::PanelVan | VehicleKind::CoachBuilt => 0.12,
        VehicleKind::Integrated => 0.05,
        VehicleKind::TouringCaravan | VehicleKind::Other => 0.0,
    };
    let back = Measures::of(sizes).bonnet;
    let corners = [
        (0.0, nose * width),
        (back, 0.0),
        (length, 0.0),
        (length, width),
        (back, width),
        (0.0, (1.0 - nose) * width),
    ];
    let round = if sizes.kind == VehicleKind::Other {
        0.0
    } else {
        0.14
    };
    pieces.push(area(rounded(&corners, round), Look::Hull));
}

fn bulkhead(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    if sizes.kind.has_cab() {
        let end = measures.cab_end;
        pieces.push(line(vec![(end, 0.0), (end, sizes.width_m)], Look::Hidden));
    }
}

/// The two beams of the drawbar and its coupling.
fn drawbar(pieces: &mut Vec<Piece>, sizes: &Sizes) {
    let reach = sizes.drawbar_m();
    if reach <= 0.0 {
        return;
    }
    let (width, middle) = (sizes.width_m, sizes.width_m / 2.0);
    for side in [0.22 * width, 0.78 * width] {
        let points = vec![(0.05, side), (-0.87 * reach, middle)];
        pieces.push(line(points, Look::Edge));
    }
    pieces.push(line(
        vec![
            (-0.6 * reach, middle - 0.1 * width),
            (-0.6 * reach, middle + 0.1 * width),
        ],
        Look::Edge,
    ));
    pieces.push(disc((-0.87 * reach, middle), 0.06, Look::Part));
}
