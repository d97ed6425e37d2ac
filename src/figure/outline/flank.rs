//! A vehicle seen from its side: metres from the front and above the ground.

use super::measures::{Measures, axles};
use super::piece::{Look, Piece, Spot, area, disc, held, line, rectangle, rounded};
use super::sizes::Sizes;
use crate::survey::VehicleKind;

/// How round the corners of a body are, m.
const ROUND: f64 = 0.14;

/// The pieces of a side, from the back of the drawing to its front.
#[must_use]
pub fn flank(sizes: &Sizes) -> Vec<Piece> {
    let measures = Measures::of(sizes);
    let mut pieces = Vec::new();
    if sizes.kind == VehicleKind::TouringCaravan {
        drawbar(&mut pieces, sizes, &measures);
    }
    let round = if sizes.kind == VehicleKind::Other {
        0.0
    } else {
        ROUND
    };
    pieces.push(area(rounded(&hull(sizes, &measures), round), Look::Hull));
    match sizes.kind {
        VehicleKind::PanelVan => {
            cab(&mut pieces, &measures);
            rear_door(&mut pieces, sizes, &measures);
        }
        VehicleKind::CoachBuilt => {
            cab(&mut pieces, &measures);
            body_joint(&mut pieces, sizes, &measures);
        }
        VehicleKind::Integrated => integrated_cab(&mut pieces, &measures),
        VehicleKind::TouringCaravan => gas_locker(&mut pieces, sizes, &measures),
        VehicleKind::Other => {}
    }
    if sizes.kind.has_cab() {
        let end = measures.cab_end;
        let points = vec![(end, sizes.floor_height_m), (end, sizes.height_m)];
        pieces.push(line(points, Look::Hidden));
    }
    for along in axles(sizes) {
        wheel(&mut pieces, along, &measures);
    }
    let front = -sizes.drawbar_m();
    held(pieces, (front, 0.0), (sizes.length_m, sizes.height_m))
}

/// The edge of the body, from the front below and round.
fn hull(sizes: &Sizes, measures: &Measures) -> Vec<Spot> {
    let (length, roof) = (sizes.length_m, sizes.height_m);
    let Measures {
        sill,
        belt,
        bonnet,
        screen_end,
        screen_top,
        cab_end,
        ..
    } = *measures;
    let share = |low: f64, high: f64, share: f64| low + share * (high - low);
    match sizes.kind {
        VehicleKind::PanelVan => vec![
            (0.04 * bonnet, sill),
            (0.0, share(sill, belt, 0.25)),
            (0.03 * bonnet, share(sill, belt, 0.72)),
            (bonnet, belt),
            (screen_end, screen_top),
            (share(screen_end, cab_end, 0.45), roof),
            (length - 0.06, roof),
            (length, share(sill, roof, 0.55)),
            (length, share(sill, roof, 0.06)),
            (length - 0.04, sill),
        ],
        VehicleKind::CoachBuilt => vec![
            (0.04 * bonnet, sill),
            (0.0, share(sill, belt, 0.25)),
            (0.03 * bonnet, share(sill, belt, 0.72)),
            (bonnet, belt),
            (screen_end - 0.04, screen_top),
            (0.42 * bonnet, screen_top + 0.02),
            (0.36 * bonnet, share(screen_top, roof, 0.45)),
            (bonnet + 0.1, roof),
            (length, roof),
            (length, share(sill, roof, 0.1)),
            (length - 0.1, sill + 0.04),
            (cab_end, sill + 0.04),
            (cab_end - 0.02, sill),
        ],
        VehicleKind::Integrated => vec![
            (0.3 * bonnet, sill),
            (0.0, share(sill, belt, 0.4)),
            (bonnet, belt),
            (screen_end, screen_top),
            (share(screen_end, cab_end, 0.4), roof),
            (length, roof),
            (length, share(sill, roof, 0.1)),
            (length - 0.1, sill),
        ],
        VehicleKind::TouringCaravan => vec![
            (0.10, sill),
            (0.0, share(sill, roof, 0.16)),
            (0.0, share(sill, roof, 0.42)),
            (0.16, share(sill, roof, 0.85)),
            (0.36, roof),
            (length - 0.24, roof),
            (length, share(sill, roof, 0.72)),
            (length, share(sill, roof, 0.14)),
            (length - 0.08, sill),
        ],
        VehicleKind::Other => vec![(0.0, sill), (0.0, roof), (length, roof), (length, sill)],
    }
}

/// A point of the windscreen's line, of a share of its height.
fn on_screen(measures: &Measures, share: f64) -> Spot {
    (
        measures.bonnet + share * (measures.screen_end - measures.bonnet),
        measures.belt + share * (measures.screen_top - measures.belt),
    )
}

/// From where to where the glass of the cab door reaches, and the door behind it, m from the front.
fn door_reach(measures: &Measures) -> (f64, f64) {
    let start = on_screen(measures, 0.04).0 + 0.24;
    let end = (measures.cab_end - 0.14).max(measures.screen_end + 0.1);
    (start, end)
}

/// The edge of a cab door.
fn door(measures: &Measures) -> Vec<Spot> {
    let (start, end) = door_reach(measures);
    let (head, top) = on_screen(measures, 0.82);
    vec![
        (start - 0.06, measures.sill + 0.06),
        (start - 0.06, measures.belt + 0.02),
        (head + 0.11, top + 0.06),
        (end, top + 0.06),
        (end, measures.sill + 0.06),
    ]
}

/// The edge of the cab door on either side, m from the front and above the ground, of what is drawn
/// with one.
#[must_use]
pub fn cab_door(sizes: &Sizes) -> Option<Vec<Spot>> {
    let has_one = matches!(sizes.kind, VehicleKind::PanelVan | VehicleKind::CoachBuilt);
    has_one.then(|| door(&Measures::of(sizes)))
}

/// Windscreen, cab door with its glass and handle, and the joint of the bonnet.
fn cab(pieces: &mut Vec<Piece>, measures: &Measures) {
    let Measures {
        sill, belt, bonnet, ..
    } = *measures;
    // The glass of the screen seen from the side, and of the door.
    let (low, high) = (on_screen(measures, 0.06), on_screen(measures, 0.92));
    let front = 0.08;
    pieces.push(area(
        vec![
            low,
            high,
            (high.0 + front, high.1 - 0.02),
            (low.0 + front, low.1),
        ],
        Look::Glass,
    ));
    let (start, end) = door_reach(measures);
    let head = on_screen(measures, 0.82);
    let top = head.1;
    let glass = vec![
        (start, belt + 0.03),
        (head.0 + 0.16, top),
        (end - 0.06, top),
        (end - 0.06, belt + 0.03),
    ];
    pieces.push(area(rounded(&glass, 0.06), Look::Glass));
    pieces.push(area(rounded(&door(measures), 0.06), Look::Edge));
    handle(pieces, (end - 0.2, belt - 0.12));
    let seam = vec![
        (0.1 * bonnet, belt - 0.3 * (belt - sill)),
        (bonnet, belt - 0.10),
    ];
    pieces.push(line(seam, Look::Edge));
    let lamp = (
        0.06 * bonnet,
        belt - 0.52 * (belt - sill),
        belt - 0.38 * (belt - sill),
    );
    pieces.push(rectangle(
        (lamp.0, lamp.1),
        (lamp.0 + 0.16, lamp.2),
        Look::Glass,
    ));
}

fn handle(pieces: &mut Vec<Piece>, (left, height): Spot) {
    let points = vec![(left, height), (left + 0.13, height)];
    pieces.push(line(points, Look::Edge));
}

/// The edge of the rear doors, which close round the corner.
fn rear_door(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let along = sizes.length_m - 0.1;
    let points = vec![
        (along, measures.sill + 0.08),
        (along, sizes.height_m - 0.12),
    ];
    pieces.push(line(points, Look::Edge));
}

/// Where the living body is joined to the cab, and the underside of the overcab.
fn body_joint(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let (along, under) = (measures.cab_end - 0.06, measures.screen_top);
    let points = vec![
        (along, measures.sill),
        (along, under),
        (0.5 * measures.bonnet, under + 0.03),
    ];
    pieces.push(line(points, Look::Edge));
    let skirt = sizes.floor_height_m - 0.08;
    let points = vec![(along, skirt), (sizes.length_m, skirt)];
    pieces.push(line(points, Look::Edge));
}

/// The large windscreen round the corner, and the driver's window behind it.
fn integrated_cab(pieces: &mut Vec<Piece>, measures: &Measures) {
    let Measures {
        belt,
        screen_top,
        cab_end,
        ..
    } = *measures;
    let (low, high) = (on_screen(measures, 0.03), on_screen(measures, 0.97));
    let corner = 0.22_f64.min(0.2 * cab_end);
    pieces.push(area(
        vec![
            low,
            high,
            (high.0 + corner, high.1),
            (low.0 + corner, low.1),
        ],
        Look::Glass,
    ));
    let left = high.0 + corner + 0.14;
    let window = [
        (left - 0.5 * corner, belt + 0.1),
        (left, screen_top - 0.12),
        (cab_end - 0.12, screen_top - 0.12),
        (cab_end - 0.12, belt + 0.1),
    ];
    pieces.push(area(rounded(&window, 0.06), Look::Glass));
    let lamp = (0.12, measures.sill + 0.42 * (belt - measures.sill));
    pieces.push(rectangle(lamp, (0.34, lamp.1 + 0.14), Look::Glass));
}

/// The drawbar with its jockey wheel and coupling, in front of the body.
fn drawbar(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let (reach, height) = (sizes.drawbar_m(), measures.sill - 0.04);
    let beam = vec![
        (0.3, height + 0.03),
        (-0.87 * reach, height + 0.01),
        (-0.87 * reach, height - 0.05),
        (0.3, height - 0.05),
    ];
    let radius = 0.09;
    let wheel = -0.72 * reach;
    let leg = vec![(wheel, radius), (wheel, height + 0.3)];
    pieces.push(line(leg, Look::Edge));
    pieces.push(disc((wheel, radius), radius, Look::Wheel));
    pieces.push(area(beam, Look::Part));
    pieces.push(disc((-0.88 * reach, height - 0.02), 0.055, Look::Part));
}

/// The gas locker in the nose.
fn gas_locker(pieces: &mut Vec<Piece>, sizes: &Sizes, measures: &Measures) {
    let (low, high) = (
        measures.sill + 0.06,
        measures.sill + 0.34 * (sizes.height_m - measures.sill),
    );
    let end = (0.1 * sizes.length_m).min(0.5);
    pieces.push(line(
        vec![(0.02, high), (end, high), (end, low)],
        Look::Edge,
    ));
    let chassis = measures.sill + 0.05;
    pieces.push(line(
        vec![(end, chassis), (sizes.length_m - 0.1, chassis)],
        Look::Edge,
    ));
}

/// A wheel with its arch and hub.
fn wheel(pieces: &mut Vec<Piece>, along: f64, measures: &Measures) {
    let radius = measures.wheel;
    let arch: Vec<Spot> = (0..=12)
        .map(|step| {
            let angle = std::f64::consts::PI * f64::from(step) / 12.0;
            let reach = 1.2 * radius;
            (along - reach * angle.cos(), radius + reach * angle.sin())
        })
        .collect();
    pieces.push(area(arch, Look::Edge));
    pieces.push(disc((along, radius), radius, Look::Wheel));
    pieces.push(disc((along, radius), 0.45 * radius, Look::Part));
}
