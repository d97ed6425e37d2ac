//! Long gaps as lines along their seal, as long as they are.

use super::layout::Layout;
use crate::figure::outline::{Spot, cab_door, fittings};
use crate::figure::scene::Point;
use crate::survey::gap::{Facing, Form, Gap};
use crate::survey::{Fitting, Survey};

/// A gap nearer to an opening than this runs along its edge, m.
const NEAR: f64 = 0.15;
/// A seal may be so much longer than the edge it is drawn along: a frame lies outside its glass.
const LONGER: f64 = 1.3;
/// A gap longer than this share of an edge is its seal, and not a short gap in it.
const SHARE: f64 = 0.2;
/// On roof and underfloor a joint nearer to an end than this share of the length runs across.
const END: f64 = 0.06;

/// The edge of an opening on its face.
struct Opening {
    face: Facing,
    corners: Vec<Spot>,
}

/// Where openings are, face by face: what seals run along.
pub(super) struct Openings(Vec<Opening>);

impl Openings {
    /// The openings of a survey with these fittings, and the doors of the cab.
    pub(super) fn of(layout: &Layout, survey: &Survey, shown: &[Fitting]) -> Self {
        let placed = survey.fabric.iter().filter_map(|element| element.outline);
        let fitted = shown.iter().map(|fitting| fitting.outline);
        let rectangles = placed.chain(fitted).map(|outline| {
            let (from, to) = fittings::corners(&fittings::on_face(&outline, &layout.sizes));
            Opening {
                face: outline.facing,
                corners: vec![from, (to.0, from.1), to, (from.0, to.1)],
            }
        });
        let cab = cab_door(&layout.sizes).into_iter().flat_map(|corners| {
            [Facing::Nearside, Facing::Offside].map(|face| Opening {
                face,
                corners: corners.clone(),
            })
        });
        Self(rectangles.chain(cab).collect())
    }
}

/// The line of a gap that has a length and a whole place, on the drawing; `None` for any other.
pub(super) fn seam(layout: &Layout, gap: &Gap, openings: &Openings) -> Option<Vec<Point>> {
    let Form::NarrowGap {
        length_mm: Some(length_mm),
        ..
    } = gap.form
    else {
        return None;
    };
    let length = length_mm / 1000.0;
    let (home, complete) = layout.place(gap.facing, &gap.position);
    if !(complete && length > 0.0 && length.is_finite()) {
        return None;
    }
    let face = layout.drawn_on(gap.facing, &gap.position);
    let spot = layout.spot_at(face, home);
    let along_edge = openings
        .0
        .iter()
        .filter(|opening| opening.face == face)
        .filter_map(|opening| round(&opening.corners, spot, length))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let spots = match along_edge {
        Some((_, spots)) => spots,
        None => {
            let rise = gap.position.rise_m.filter(|rise| *rise > 0.0);
            free(layout, face, spot, (length, rise))
        }
    };
    Some(
        spots
            .into_iter()
            .map(|spot| layout.spot(face, spot))
            .collect(),
    )
}

/// The line along the edge of an opening, the middle of it nearest to a place; with it how far the
/// place is from the edge. `None` where the gap is elsewhere or of another length.
fn round(corners: &[Spot], spot: Spot, length: f64) -> Option<(f64, Vec<Spot>)> {
    let (mut from, mut to) = (*corners.first()?, *corners.first()?);
    for corner in corners {
        from = (from.0.min(corner.0), from.1.min(corner.1));
        to = (to.0.max(corner.0), to.1.max(corner.1));
    }
    let beside = |value: f64, low: f64, high: f64| (low - value).max(value - high).max(0.0);
    let away = beside(spot.0, from.0, to.0).hypot(beside(spot.1, from.1, to.1));
    let edge = edge_of(corners);
    if away > NEAR || length > LONGER * edge || length < SHARE * edge {
        return None;
    }
    // A longer seal lies outside the edge all round.
    let larger = (length / edge).max(1.0);
    let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
    let grown = |corner: &Spot| {
        (
            middle.0 + larger * (corner.0 - middle.0),
            middle.1 + larger * (corner.1 - middle.1),
        )
    };
    let corners: Vec<Spot> = corners.iter().map(grown).collect();
    let (distance, nearest) = nearest_on(&corners, spot);
    let start = nearest - length / 2.0;
    Some((distance, part(&corners, start, length)))
}

/// The sides of a closed edge, each with its length.
fn sides(corners: &[Spot]) -> impl Iterator<Item = (Spot, Spot, f64)> + Clone + '_ {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| (*a, *b, (b.0 - a.0).hypot(b.1 - a.1)))
}

fn edge_of(corners: &[Spot]) -> f64 {
    sides(corners).map(|(.., side)| side).sum()
}

/// How far a spot is from a closed edge, and how far along the edge from its first corner the
/// nearest place is.
fn nearest_on(corners: &[Spot], spot: Spot) -> (f64, f64) {
    let mut best = (f64::MAX, 0.0);
    let mut before = 0.0;
    for (a, b, side) in sides(corners) {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let run = ((spot.0 - a.0) * dx + (spot.1 - a.1) * dy) / side.max(1e-12);
        let run = run.clamp(0.0, side);
        let share = run / side.max(1e-12);
        let away = (spot.0 - a.0 - dx * share).hypot(spot.1 - a.1 - dy * share);
        if away < best.0 - 1e-12 {
            best = (away, before + run);
        }
        before += side;
    }
    best
}

/// A part of a closed edge: so far along it from its first corner, and so long.
fn part(corners: &[Spot], start: f64, length: f64) -> Vec<Spot> {
    let mut points = Vec::new();
    let (mut skip, mut left) = (start.rem_euclid(edge_of(corners).max(1e-9)), length);
    // Twice round is enough to begin anywhere and come back there.
    for (a, b, side) in sides(corners).cycle().take(2 * corners.len() + 1) {
        if skip >= side {
            skip -= side;
            continue;
        }
        let at = |run: f64| {
            let share = run / side.max(1e-12);
            (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
        };
        if points.is_empty() {
            points.push(at(skip));
        }
        let run = (side - skip).min(left);
        points.push(at(skip + run));
        left -= run;
        skip = 0.0;
        if left <= 1e-9 {
            break;
        }
    }
    points
}

/// The line of a gap that is at no opening: level, or upright where it spans a height.
fn free(
    layout: &Layout,
    face: Facing,
    spot: Spot,
    (length, rise): (f64, Option<f64>),
) -> Vec<Spot> {
    let sizes = &layout.sizes;
    let upright = matches!(
        face,
        Facing::Nearside | Facing::Offside | Facing::Front | Facing::Rear
    );
    let room = match face {
        Facing::Front | Facing::Rear => (sizes.width_m, sizes.height_m),
        Facing::Nearside | Facing::Offside => (sizes.length_m, sizes.height_m),
        _ => (sizes.length_m, sizes.width_m),
    };
    if !upright {
        let end = END * sizes.length_m;
        let across = spot.0 < end || spot.0 > sizes.length_m - end;
        return if across {
            let turned = |spot: Spot| (spot.1, spot.0);
            let line = level(turned(spot), length, turned(room));
            line.into_iter().map(turned).collect()
        } else {
            level(spot, length, room)
        };
    }
    match rise {
        None => level(spot, length, room),
        Some(rise) => risen(spot, (length, rise.min(length).min(room.1)), room),
    }
}

/// A length laid into a room with its middle as near to `middle` as can be: where it begins.
fn laid(middle: f64, length: f64, room: f64) -> f64 {
    (middle - length / 2.0).min(room - length).max(0.0)
}

/// A level line. One longer than its face turns up at both ends, or down from the upper half.
fn level(spot: Spot, length: f64, room: Spot) -> Vec<Spot> {
    let flat = length.min(room.0);
    let start = laid(spot.0, flat, room.0);
    let line = vec![(start, spot.1), (start + flat, spot.1)];
    let rest = (length - flat) / 2.0;
    if rest <= 1e-9 {
        return line;
    }
    let end = if spot.1 <= room.1 / 2.0 {
        (spot.1 + rest).min(room.1)
    } else {
        (spot.1 - rest).max(0.0)
    };
    let mut points = vec![(start, end)];
    points.extend(line);
    points.push((start + flat, end));
    points
}

/// A line that spans a height: upright; longer than that, with a foot; longer than both uprights, a
/// frame.
fn risen(spot: Spot, (length, rise): (f64, f64), room: Spot) -> Vec<Spot> {
    let low = laid(spot.1, rise, room.1);
    let high = low + rise;
    let foot = length - rise;
    if foot <= 1e-9 {
        return vec![(spot.0, low), (spot.0, high)];
    }
    if foot <= rise {
        let foot = foot.min(room.0);
        let towards = if spot.0 + foot <= room.0 {
            spot.0 + foot
        } else {
            (spot.0 - foot).max(0.0)
        };
        return vec![(spot.0, high), (spot.0, low), (towards, low)];
    }
    let wide = ((length - 2.0 * rise) / 2.0).min(room.0);
    let left = laid(spot.0, wide, room.0);
    let right = left + wide;
    vec![
        (left, low),
        (right, low),
        (right, high),
        (left, high),
        (left, low),
    ]
}
