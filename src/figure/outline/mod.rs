//! Outlines of vehicles by kind, from their own sizes: shapes of our own, no maker's.
//!
//! Every face is a list of [`Piece`]s in metres. The unfolded body lays them on its faces; the side
//! view and its small form for buttons are drawn here.

mod dimensions;
mod ends;
pub mod fittings;
mod flank;
mod measures;
mod piece;
mod plan;
mod sizes;

pub use ends::{front, rear};
pub use flank::{cab_door, flank};
pub use measures::{cab_end, cab_end_name};
pub use piece::{Form, Look, Pen, Piece, Spot, draw};
pub use plan::{roof, underfloor};
pub use sizes::{Recorded, Sizes};

use super::scene::{Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;
use crate::survey::gap::Facing;
use crate::survey::{Survey, VehicleKind};
use dimensions::Room;
use piece::on;

/// How wide a text is whose letters are so wide on average, mm.
#[must_use]
pub fn text_width(words: &str, letter: f64) -> f64 {
    count(words.chars().count()) * letter
}

/// What the side view shows besides the side itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct SideShow {
    /// Length, height, floor height and, with the front, width, as dimension lines with their
    /// figures.
    pub dimensions: bool,
    /// The front, small beside the side, to the same scale.
    pub front: bool,
}

/// The nearside, the front of the vehicle to the left, and where its places lie on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct SideFigure {
    /// The drawing.
    pub scene: Scene,
    /// Millimetres of drawing for each metre of vehicle.
    pub scale: f64,
    /// The foremost point of the body, at the ground.
    pub origin: Point,
    /// The sizes that it is drawn with.
    pub sizes: Sizes,
}

impl SideFigure {
    /// Where a place of the vehicle is, so many metres from its front and above the ground.
    #[must_use]
    pub fn at(&self, along_m: f64, height_m: f64) -> Point {
        on(self.origin, self.scale, (along_m, height_m))
    }
}

/// Draws the vehicle from its side, `width` mm wide. What was not recorded is drawn with usual
/// sizes, thin and broken, and its figure says so.
#[must_use]
pub fn side(survey: &Survey, show: SideShow, width: f64) -> SideFigure {
    let sizes = Sizes::of(&survey.vehicle);
    let room = Room::of(show.dimensions);
    let beside = if show.front { sizes.width_m } else { 0.0 };
    let metres = sizes.drawbar_m() + sizes.length_m + beside;
    let scale = ((width - room.across(show.front)) / metres).max(1.0);
    let ground = room.above + sizes.height_m * scale;
    let origin = Point::new(room.left + sizes.drawbar_m() * scale, ground);
    let mut scene = Scene::new(
        room.across(show.front) + metres * scale,
        ground + room.below,
    );
    let pen = Pen {
        usual: !(sizes.recorded.length && sizes.recorded.height),
        ..Pen::PLAIN
    };
    let pieces = with_openings(flank(&sizes), Facing::Nearside, survey, &sizes);
    draw(&mut scene, &pieces, scale, pen, |spot| {
        on(origin, scale, spot)
    });
    let end = origin.x + sizes.length_m * scale;
    ground_line(&mut scene, (room.left, end + 1.0), ground);
    let across = Point::new(end + room.right + room.between, ground);
    if show.front {
        let pen = Pen {
            usual: !(sizes.recorded.width && sizes.recorded.height),
            ..Pen::PLAIN
        };
        // Seen from in front, the nearside is to the right.
        let pieces = with_openings(front(&sizes), Facing::Front, survey, &sizes);
        draw(&mut scene, &pieces, scale, pen, |(side, height)| {
            on(across, scale, (sizes.width_m - side, height))
        });
        let far = across.x + sizes.width_m * scale;
        ground_line(&mut scene, (across.x - 1.0, far + 1.0), ground);
    }
    if show.dimensions {
        dimensions::draw(
            &mut scene,
            &sizes,
            (origin, scale),
            show.front.then_some(across),
        );
    }
    scene.description = described(&sizes, show);
    SideFigure {
        scene,
        scale,
        origin,
        sizes,
    }
}

/// The pieces of a face with what the fabric places on it, and its fittings.
fn with_openings(
    mut pieces: Vec<Piece>,
    face: Facing,
    survey: &Survey,
    sizes: &Sizes,
) -> Vec<Piece> {
    for element in &survey.fabric {
        if let Some(outline) = element.outline.filter(|outline| outline.facing == face) {
            pieces.extend(fittings::opening(element.part, &outline, sizes));
        }
    }
    for fitting in fittings::shown(survey) {
        if fitting.outline.facing == face {
            pieces.extend(fittings::pieces(&fitting, sizes));
        }
    }
    pieces
}

fn described(sizes: &Sizes, show: SideShow) -> String {
    let kind = sizes.kind.name();
    if !show.dimensions {
        return format!("The {kind} seen from its nearside, the front to the left");
    }
    format!(
        "The {kind} seen from its nearside, the front to the left: {}",
        dimensions::words(sizes).join(", ")
    )
}

fn ground_line(scene: &mut Scene, (from, to): (f64, f64), ground: f64) {
    scene.add(Shape::line(
        vec![Point::new(from, ground), Point::new(to, ground)],
        Stroke::solid(Role::Faint, 0.25),
    ));
}

/// The side of a vehicle of this kind in usual sizes, small and without words: `width` mm wide and
/// `height` mm high.
#[must_use]
pub fn small(kind: VehicleKind, (width, height): (f64, f64)) -> Scene {
    small_of(&Sizes::usual(kind), (width, height))
}

/// The same of one vehicle, in its own sizes as far as they are recorded.
#[must_use]
pub fn small_of(sizes: &Sizes, (width, height): (f64, f64)) -> Scene {
    const AIR: f64 = 0.4;
    let metres = sizes.drawbar_m() + sizes.length_m;
    let scale = ((width - 2.0 * AIR) / metres).min((height - 2.0 * AIR) / sizes.height_m);
    let mut scene = Scene::new(width, height);
    let ground = (height + sizes.height_m * scale) / 2.0;
    let left = (width - metres * scale) / 2.0 + sizes.drawbar_m() * scale;
    let origin = Point::new(left, ground);
    draw(&mut scene, &flank(sizes), scale, Pen::PLAIN, |spot| {
        on(origin, scale, spot)
    });
    scene.description = format!("A {} seen from its side", sizes.kind.name());
    scene
}

#[cfg(test)]
mod tests;
