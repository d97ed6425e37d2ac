//! Windows, doors and rooflights on their faces, simply.

use super::layout::{FINE, Layout};
use crate::figure::scene::{Point, Role, Scene, Shape, Stroke};
use crate::survey::fabric::{FabricPart, Outline};
use crate::survey::gap::{Facing, Position};

/// Draws an opening of the fabric: glass with a pane inside its frame, a rooflight with the fold
/// of its dome, a door with its handle.
pub(super) fn opening(scene: &mut Scene, layout: &Layout, outline: &Outline, part: FabricPart) {
    let at = |right: f64, up: f64| point(layout, outline, right, up);
    let glass = matches!(part, FabricPart::Window | FabricPart::Rooflight);
    scene.add(frame(&at, 1.0, glass.then_some(Role::Glass)));
    match part {
        FabricPart::Window => scene.add(frame(&at, 0.86, None)),
        FabricPart::Rooflight => {
            scene.add(line(vec![at(-1.0, -1.0), at(1.0, 1.0)]));
            scene.add(line(vec![at(-1.0, 1.0), at(1.0, -1.0)]));
        }
        FabricPart::Door => {
            scene.add(line(vec![at(0.62, -0.06), at(0.86, -0.06)]));
            scene.add(line(vec![at(0.62, -0.12), at(0.86, -0.12)]));
        }
        FabricPart::Wall | FabricPart::Roof | FabricPart::Floor | FabricPart::CabMetal => {}
    }
}

fn frame(at: &impl Fn(f64, f64) -> Point, share: f64, fill: Option<Role>) -> Shape {
    Shape::polygon(
        vec![
            at(-share, -share),
            at(share, -share),
            at(share, share),
            at(-share, share),
        ],
        fill,
        Stroke::solid(Role::Faint, FINE),
    )
}

fn line(points: Vec<Point>) -> Shape {
    Shape::line(points, Stroke::solid(Role::Faint, FINE))
}

/// A point of the opening: −1 to 1 along and up, 0 its middle.
fn point(layout: &Layout, outline: &Outline, right: f64, up: f64) -> Point {
    let on_plan = matches!(outline.facing, Facing::Roof | Facing::Underfloor);
    let on_end = matches!(outline.facing, Facing::Front | Facing::Rear);
    let along = outline.along_m + right * outline.width_m / 2.0;
    let up = outline.up_m + up * outline.height_m / 2.0;
    let position = Position {
        along_m: (!on_end).then_some(along),
        across_m: if on_end {
            Some(along)
        } else {
            on_plan.then_some(up)
        },
        height_m: (!on_plan).then_some(up),
        rise_m: None,
    };
    layout.place(outline.facing, &position).0
}
