//! The square hole that lets in as much as all unintended gaps, to scale beside the vehicle.

use crate::figure::body::{Arrangement, Layout};
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::survey::Vehicle;

/// Height of letters, mm.
const LETTER: f64 = 3.0;
/// Space round the drawing, mm.
const SPACE: f64 = 2.0;
/// Room for the words beside the hole, mm.
const WORDS: f64 = 30.0;
/// Radius of a wheel, m.
const WHEEL: f64 = 0.33;

/// Draws the side of the vehicle and beside it the hole, both to one scale, `width` mm wide. `side_m`
/// is the hole's side, m, `words` what it measures.
#[must_use]
pub fn hole(vehicle: &Vehicle, side_m: f64, words: &str, width: f64) -> Scene {
    let body = Layout::new(vehicle, Arrangement::Tall, width);
    let room = (width - 3.0 * SPACE - WORDS).max(20.0);
    let scale = room / (body.length_m + side_m);
    let tall = body.height_m.max(side_m) * scale;
    let ground = SPACE + tall;
    let mut scene = Scene::new(width, ground + SPACE);
    let at = |x_m: f64, up_m: f64| Point::new(SPACE + x_m * scale, ground - up_m * scale);
    let line = Stroke::solid(Role::Ink, 0.4);
    let corners = (
        at(0.0, body.floor_height_m),
        at(body.length_m, body.height_m),
    );
    scene.add(Shape::rectangle(corners, Role::Body, line));
    for share in wheels(vehicle) {
        let centre = at(share * body.length_m, WHEEL);
        scene.add(Shape::circle(centre, WHEEL * scale, Role::Ground, line));
    }
    let ends = vec![Point::new(0.0, ground), Point::new(width, ground)];
    scene.add(Shape::line(ends, Stroke::solid(Role::Faint, 0.3)));
    let left = 2.0 * SPACE + body.length_m * scale;
    let side = side_m * scale;
    let corners = (
        Point::new(left, ground - side),
        Point::new(left + side, ground),
    );
    scene.add(Shape::rectangle(
        corners,
        Role::Leak,
        Stroke::solid(Role::Ink, 0.3),
    ));
    let beside = Point::new(left + side + SPACE, ground - (side / 2.0).max(LETTER));
    scene.text(beside, words, LETTER, Role::Leak, Anchor::Left);
    scene.description = format!(
        "The side of the {} and, to the same scale, a square hole of {words}",
        vehicle.kind.name()
    );
    scene
}

/// Where the wheels are, shares of the length from the front.
fn wheels(vehicle: &Vehicle) -> &'static [f64] {
    if vehicle.kind.has_cab() {
        &[0.17, 0.72]
    } else {
        &[0.55]
    }
}
