//! The square hole that lets in as much as all unintended gaps, to scale beside the vehicle.

use crate::figure::outline::{SideShow, side};
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::survey::Survey;

/// Height of letters, mm.
const LETTER: f64 = 3.0;
/// Space between vehicle, hole and words, mm.
const SPACE: f64 = 2.0;
/// Room for the words beside the hole, mm.
const WORDS: f64 = 34.0;
/// Least width of the vehicle, mm.
const LEAST: f64 = 20.0;

/// Draws the side of the vehicle and beside it the hole, both to one scale, `width` mm wide. `side_m`
/// is the hole's side, m, `words` what it measures.
#[must_use]
pub fn hole(survey: &Survey, side_m: f64, words: &str, width: f64) -> Scene {
    let room = (width - WORDS - 2.0 * SPACE).max(LEAST);
    // The vehicle as wide as the room, to see how wide its hole would be beside it.
    let scale = side(survey, SideShow::default(), room).scale;
    let share = room / (room + side_m * scale);
    let beside = side(survey, SideShow::default(), room * share);
    let ground = beside.origin.y;
    let hole = side_m * beside.scale;
    let mut scene = beside.scene;
    let left = scene.width + SPACE;
    let corners = (
        Point::new(left, ground - hole),
        Point::new(left + hole, ground),
    );
    let outline = Stroke::solid(Role::Ink, 0.3);
    scene.add(Shape::rectangle(corners, Role::Leak, outline));
    let at = Point::new(left + hole + SPACE, ground - (hole / 2.0).max(LETTER / 2.0));
    scene.text(at, words, LETTER, Role::Leak, Anchor::Left);
    scene.width = width;
    scene.description = format!(
        "The side of the {} and, to the same scale, a square hole of {words}",
        survey.vehicle.kind.name()
    );
    scene
}
