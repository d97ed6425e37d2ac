//! The faces themselves: the vehicle's outline, its fittings, and the words round them.

use super::layout::{BETWEEN, FACES, Layout, Panel};
use crate::figure::outline::{
    self, Look, Pen, Piece, Sizes, cab_end, cab_end_name, draw, fittings, flank, front, rear, roof,
    underfloor,
};
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::survey::fabric::FabricPart;
use crate::survey::gap::Facing;
use crate::survey::{Fitting, FittingId, Survey};

/// Letters of captions, mm.
const CAPTION: f64 = 2.8;
/// Letters of the words at the ends of a face, mm.
const SMALL: f64 = 2.2;
/// Width of a letter by its height, on average.
const MEAN_LETTER: f64 = 0.62;
const LINE: f64 = 0.4;

/// Where a fitting is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FittingPlace {
    /// The fitting.
    pub id: FittingId,
    /// The face it is on.
    pub face: Facing,
    /// Its rectangle on the drawing.
    pub panel: Panel,
}

/// Draws every face with its caption, and tells where the fittings are.
pub(super) fn faces(
    scene: &mut Scene,
    layout: &Layout,
    survey: &Survey,
    shown: &[Fitting],
) -> Vec<FittingPlace> {
    let sizes = &layout.sizes;
    for face in FACES {
        let mut pieces = of_face(face, sizes);
        if face == Facing::Front && windscreen_placed(survey) {
            pieces.retain(|piece| piece.look != Look::Glass);
        }
        put(scene, layout, face, &pieces);
        if !matches!(face, Facing::Roof | Facing::Underfloor) {
            ground(scene, &layout.panel(face));
        }
    }
    if survey.spaces.len() > 1 {
        partition(scene, layout);
    }
    for element in &survey.fabric {
        if let Some(outline) = &element.outline {
            let face = drawn_on(layout, outline.facing);
            let pieces = fittings::opening(element.part, outline, sizes);
            put(scene, layout, face, &pieces);
        }
    }
    let places = shown
        .iter()
        .map(|fitting| {
            let face = drawn_on(layout, fitting.outline.facing);
            put(scene, layout, face, &fittings::pieces(fitting, sizes));
            FittingPlace {
                id: fitting.id,
                face,
                panel: panel_of(layout, fitting),
            }
        })
        .collect();
    words(scene, layout);
    places
}

/// Whether the fabric places a window in the front: it then is the windscreen.
fn windscreen_placed(survey: &Survey) -> bool {
    survey.fabric.iter().any(|element| {
        let outline = element.outline.as_ref();
        let in_front = outline.is_some_and(|outline| outline.facing == Facing::Front);
        in_front && element.part == FabricPart::Window
    })
}

/// The face that something facing so is drawn on.
fn drawn_on(layout: &Layout, facing: Facing) -> Facing {
    layout.drawn_on(facing, &crate::survey::Position::default())
}

fn of_face(face: Facing, sizes: &Sizes) -> Vec<Piece> {
    match face {
        Facing::Roof => roof(sizes),
        Facing::Underfloor | Facing::Cavity(_) => underfloor(sizes),
        Facing::Nearside | Facing::Offside => flank(sizes),
        Facing::Front => front(sizes),
        Facing::Rear => rear(sizes),
    }
}

fn put(scene: &mut Scene, layout: &Layout, face: Facing, pieces: &[Piece]) {
    let at = |spot| layout.spot(face, spot);
    draw(scene, pieces, layout.scale, Pen::PLAIN, at);
}

/// The rectangle of a fitting on the drawing.
fn panel_of(layout: &Layout, fitting: &Fitting) -> Panel {
    let face = drawn_on(layout, fitting.outline.facing);
    let (from, to) = fittings::corners(&fittings::on_face(&fitting.outline, &layout.sizes));
    let (a, b) = (layout.spot(face, from), layout.spot(face, to));
    Panel {
        left: a.x.min(b.x),
        top: a.y.min(b.y),
        right: a.x.max(b.x),
        bottom: a.y.max(b.y),
    }
}

/// The ground at the foot of a side.
fn ground(scene: &mut Scene, panel: &Panel) {
    scene.add(Shape::line(
        vec![
            Point::new(panel.left, panel.bottom),
            Point::new(panel.right, panel.bottom),
        ],
        Stroke::dashed(Role::Faint, LINE),
    ));
}

/// The wall behind the cab, unbroken where the inside is more than one space.
fn partition(scene: &mut Scene, layout: &Layout) {
    let Some(along) = cab_end(&layout.sizes) else {
        return;
    };
    let Sizes {
        width_m,
        height_m,
        floor_height_m,
        ..
    } = layout.sizes;
    for face in [
        Facing::Roof,
        Facing::Underfloor,
        Facing::Nearside,
        Facing::Offside,
    ] {
        let (low, high) = match face {
            Facing::Nearside | Facing::Offside => (floor_height_m, height_m),
            _ => (0.0, width_m),
        };
        let points = vec![
            layout.spot(face, (along, low)),
            layout.spot(face, (along, high)),
        ];
        scene.add(Shape::line(points, Stroke::solid(Role::Faint, LINE)));
    }
}

/// The name of each face above it, without how it is seen where there is no room for that; under those
/// with the vehicle's length, which end is which.
fn words(scene: &mut Scene, layout: &Layout) {
    for (face, name) in [
        (Facing::Roof, "roof, seen from above"),
        (Facing::Underfloor, "underfloor, seen from above"),
        (Facing::Nearside, "nearside (left)"),
        (Facing::Offside, "offside (right)"),
        (Facing::Front, "front"),
        (Facing::Rear, "rear"),
    ] {
        let panel = layout.panel(face);
        let at = Point::new(panel.left, panel.top - 2.4);
        let room = panel.right - panel.left + BETWEEN;
        let fits = outline::text_width(name, CAPTION * MEAN_LETTER) <= room;
        let name = match name.split_once(',') {
            Some((short, _)) if !fits => short,
            _ => name,
        };
        scene.text(at, name, CAPTION, Role::Faint, Anchor::Left);
        if !matches!(face, Facing::Front | Facing::Rear) {
            ends(scene, layout, face);
        }
    }
}

fn ends(scene: &mut Scene, layout: &Layout, face: Facing) {
    let panel = layout.panel(face);
    let below = panel.bottom + 2.4;
    let forward = face == Facing::Offside;
    let (left, right) = if forward {
        ("rear", "front")
    } else {
        ("front", "rear")
    };
    let (start, end) = (
        Point::new(panel.left, below),
        Point::new(panel.right, below),
    );
    scene.text(start, left, SMALL, Role::Faint, Anchor::Left);
    scene.text(end, right, SMALL, Role::Faint, Anchor::Right);
    let Some(along) = cab_end(&layout.sizes) else {
        return;
    };
    if !matches!(face, Facing::Nearside | Facing::Offside) {
        return;
    }
    let name = cab_end_name(layout.sizes.kind);
    let wide = outline::text_width(name, SMALL * MEAN_LETTER);
    let at = Point::new(layout.spot(face, (along, 0.0)).x, below);
    // Behind the line, as far as the words at the ends leave room.
    let room = (layout.sizes.length_m - along) * layout.scale - outline::text_width(right, SMALL);
    if wide + 2.0 < room {
        let anchor = if forward { Anchor::Right } else { Anchor::Left };
        scene.text(at, name, SMALL, Role::Faint, anchor);
    }
}
