//! The faces themselves: floor and roof line, ground, wheels, cab, windows and doors.

use super::layout::{FINE, Layout, Panel, SIDES};
use super::opening::opening;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::survey::gap::{Facing, Position};
use crate::survey::{Survey, VehicleKind};

const LINE: f64 = 0.4;
const CAPTION: f64 = 2.8;

/// Share of the length that a cab takes, for the drawing only.
const CAB_SHARE: f64 = 0.2;

/// Draws every face with its caption.
pub(super) fn faces(scene: &mut Scene, layout: &Layout, survey: &Survey) {
    for facing in [Facing::Roof, Facing::Underfloor] {
        panel(scene, &layout.panel(facing));
    }
    for facing in SIDES {
        side(scene, layout, facing);
    }
    for facing in [Facing::Nearside, Facing::Offside] {
        wheels(scene, layout, facing, survey.vehicle.kind);
    }
    wheels_below(scene, layout, survey.vehicle.kind);
    if survey.vehicle.kind.has_cab() {
        cab(scene, layout);
    } else if survey.vehicle.kind == VehicleKind::TouringCaravan {
        drawbar(scene, layout);
    }
    for element in &survey.fabric {
        if let Some(outline) = &element.outline {
            opening(scene, layout, outline, element.part);
        }
    }
    captions(scene, layout);
}

fn panel(scene: &mut Scene, panel: &Panel) {
    scene.add(Shape::polygon(
        panel.corners(),
        Role::Body,
        Stroke::solid(Role::Ink, LINE),
    ));
}

/// A side: filled from floor to roof, the ground as a faint line at its foot.
fn side(scene: &mut Scene, layout: &Layout, facing: Facing) {
    let whole = layout.panel(facing);
    let below = layout.floor_height_m * layout.scale;
    let body = match facing {
        Facing::Offside => Panel {
            top: whole.top + below,
            ..whole
        },
        Facing::Front => Panel {
            left: whole.left + below,
            ..whole
        },
        Facing::Rear => Panel {
            right: whole.right - below,
            ..whole
        },
        _ => Panel {
            bottom: whole.bottom - below,
            ..whole
        },
    };
    panel(scene, &body);
    let corners = |x1, y1, x2, y2| vec![Point::new(x1, y1), Point::new(x2, y2)];
    let ground = match facing {
        Facing::Offside => corners(whole.left, whole.top, whole.right, whole.top),
        Facing::Front => corners(whole.left, whole.top, whole.left, whole.bottom),
        Facing::Rear => corners(whole.right, whole.top, whole.right, whole.bottom),
        _ => corners(whole.left, whole.bottom, whole.right, whole.bottom),
    };
    scene.add(Shape::line(ground, Stroke::dashed(Role::Faint, LINE)));
}

/// Axle places as shares of the length, for the drawing only.
fn axles(kind: VehicleKind) -> &'static [f64] {
    match kind {
        VehicleKind::TouringCaravan => &[0.55],
        VehicleKind::PanelVan => &[0.16, 0.76],
        VehicleKind::CoachBuilt | VehicleKind::Integrated => &[0.14, 0.70],
        VehicleKind::Other => &[0.2, 0.8],
    }
}

fn wheels(scene: &mut Scene, layout: &Layout, facing: Facing, kind: VehicleKind) {
    const WHEEL_RADIUS_M: f64 = 0.33;
    for share in axles(kind) {
        let position = Position {
            along_m: Some(share * layout.length_m),
            height_m: Some(WHEEL_RADIUS_M),
            ..Position::default()
        };
        scene.add(Shape::circle(
            layout.place(facing, &position).0,
            WHEEL_RADIUS_M * layout.scale,
            Role::Ground,
            Stroke::solid(Role::Faint, LINE),
        ));
    }
}

fn wheels_below(scene: &mut Scene, layout: &Layout, kind: VehicleKind) {
    let under = layout.panel(Facing::Underfloor);
    let (half_length, breadth) = (0.33 * layout.scale, 0.2 * layout.scale);
    for share in axles(kind) {
        let x = under.left + share * layout.length_m * layout.scale;
        for top in [under.top, under.bottom - breadth] {
            let wheel = Panel {
                left: x - half_length,
                right: x + half_length,
                top,
                bottom: top + breadth,
            };
            scene.add(Shape::polygon(
                wheel.corners(),
                Role::Ground,
                Stroke::solid(Role::Faint, FINE),
            ));
        }
    }
}

/// The line behind the cab on plan, sides and underfloor.
fn cab(scene: &mut Scene, layout: &Layout) {
    let along = CAB_SHARE * layout.length_m;
    let at = |facing, across, height| layout.on_face(facing, along, across, height);
    for facing in [
        Facing::Roof,
        Facing::Underfloor,
        Facing::Nearside,
        Facing::Offside,
    ] {
        let points = vec![
            at(facing, 0.0, layout.floor_height_m),
            at(facing, layout.width_m, layout.height_m),
        ];
        scene.add(Shape::line(points, Stroke::dashed(Role::Faint, FINE)));
    }
}

fn drawbar(scene: &mut Scene, layout: &Layout) {
    let under = layout.panel(Facing::Underfloor);
    let middle = under.middle();
    let tip = Point::new(under.left - (layout.scale * 0.9).min(7.0), middle.y);
    let spread = 0.6 * layout.scale;
    let points = vec![
        Point::new(under.left, middle.y - spread),
        tip,
        Point::new(under.left, middle.y + spread),
    ];
    scene.add(Shape::line(points, Stroke::solid(Role::Faint, LINE)));
}

fn captions(scene: &mut Scene, layout: &Layout) {
    let above = |facing: Facing, text: &str, scene: &mut Scene| {
        let panel = layout.panel(facing);
        let at = Point::new(panel.left + 1.5, panel.top + 3.0);
        scene.text(at, text, CAPTION, Role::Faint, Anchor::Left);
    };
    above(Facing::Roof, "roof, seen from above", scene);
    above(Facing::Front, "front", scene);
    above(Facing::Rear, "rear", scene);
    let under = layout.panel(Facing::Underfloor);
    let at = Point::new(under.left, under.top - 3.0);
    scene.text(
        at,
        "underfloor, seen from above",
        CAPTION,
        Role::Faint,
        Anchor::Left,
    );
    // Beyond the ground, where no wheel is.
    let off = layout.panel(Facing::Offside);
    let at = Point::new(off.left + 1.5, off.top - 3.0);
    scene.text(at, "offside (right)", CAPTION, Role::Faint, Anchor::Left);
    let near = layout.panel(Facing::Nearside);
    let at = Point::new(near.left + 1.5, near.bottom + 3.0);
    scene.text(at, "nearside (left)", CAPTION, Role::Faint, Anchor::Left);
}
