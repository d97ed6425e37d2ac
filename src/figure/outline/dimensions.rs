//! Dimension lines: two ticks, a line between them, and its figure.

use super::piece::on;
use super::sizes::Sizes;
use crate::assess::quantity::Kind;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};

/// Height of the figures, mm.
const LETTER: f64 = 3.0;
/// From the body to the nearest line, mm.
const AWAY: f64 = 4.0;
/// Half the length of a tick, mm.
const TICK: f64 = 1.2;
/// Width of a figure such as *12.34 m*, mm.
const FIGURE: f64 = 15.0;

/// The room that the drawing leaves round the body, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) above: f64,
    pub(super) below: f64,
    /// Between the side with its figures and the front.
    pub(super) between: f64,
    /// Beyond the front: its figure may be wider than it.
    beyond: f64,
}

impl Room {
    pub(super) fn of(dimensions: bool) -> Self {
        const AIR: f64 = 1.5;
        let (beside, below, beyond) = if dimensions {
            (AWAY + 1.5 + FIGURE, AWAY + 2.0 + 1.5 * LETTER, 6.0)
        } else {
            (AIR, AIR, AIR)
        };
        Self {
            left: beside,
            right: beside,
            above: AIR,
            below,
            between: 4.0,
            beyond,
        }
    }

    /// Everything across that does not grow with the vehicle, mm.
    pub(super) fn across(&self, with_front: bool) -> f64 {
        let front = if with_front {
            self.between + self.beyond
        } else {
            0.0
        };
        self.left + self.right + front
    }
}

/// A size of the vehicle: its name, its value, and whether that was recorded.
type Size = (&'static str, f64, bool);

fn length(sizes: &Sizes) -> Size {
    ("length", sizes.length_m, sizes.recorded.length)
}

fn width(sizes: &Sizes) -> Size {
    ("width", sizes.width_m, sizes.recorded.width)
}

fn height(sizes: &Sizes) -> Size {
    ("height", sizes.height_m, sizes.recorded.height)
}

fn floor(sizes: &Sizes) -> Size {
    ("floor", sizes.floor_height_m, sizes.recorded.floor)
}

/// Every size in words.
pub(super) fn words(sizes: &Sizes) -> Vec<String> {
    let all = [length(sizes), height(sizes), floor(sizes), width(sizes)];
    let told = all.into_iter().map(|(name, value, recorded)| {
        if recorded {
            format!("{name} {}", Kind::Metres.typed(value))
        } else {
            format!("{name} not recorded")
        }
    });
    told.collect()
}

/// Draws the dimension lines of the side and, where it is drawn, of the front, whose corner at the
/// ground is given.
pub(super) fn draw(
    scene: &mut Scene,
    sizes: &Sizes,
    (origin, scale): (Point, f64),
    front: Option<Point>,
) {
    let at = |along: f64, height: f64| on(origin, scale, (along, height));
    let end = at(sizes.length_m, 0.0);
    let down = origin.y + AWAY;
    flat(scene, (origin.x, end.x), down, length(sizes));
    let right = end.x + AWAY;
    let roof = at(sizes.length_m, sizes.height_m).y;
    upright(scene, (origin.y, roof), right, (1.0, height(sizes)));
    let bar = at(-sizes.drawbar_m(), 0.0).x - AWAY;
    let under = at(0.0, sizes.floor_height_m).y;
    upright(scene, (origin.y, under), bar, (-1.0, floor(sizes)));
    // The floor itself is not seen from outside.
    scene.add(Shape::line(
        vec![Point::new(bar, under), Point::new(end.x, under)],
        Stroke::dashed(Role::Faint, 0.2),
    ));
    if let Some(corner) = front {
        let far = corner.x + sizes.width_m * scale;
        flat(scene, (corner.x, far), down, width(sizes));
    }
}

fn stroke(recorded: bool) -> (Role, Stroke) {
    if recorded {
        (Role::Ink, Stroke::solid(Role::Ink, 0.25))
    } else {
        (Role::Faint, Stroke::dashed(Role::Faint, 0.25))
    }
}

/// A figure; of a size that was not recorded, its name with a question mark.
fn figure((name, value, recorded): Size) -> String {
    if recorded {
        Kind::Metres.typed(value)
    } else {
        format!("{name} ?")
    }
}

fn flat(scene: &mut Scene, (from, to): (f64, f64), y: f64, size: Size) {
    let (role, stroke) = stroke(size.2);
    scene.add(Shape::line(
        vec![Point::new(from, y), Point::new(to, y)],
        stroke,
    ));
    for x in [from, to] {
        let tick = vec![Point::new(x, y - TICK), Point::new(x, y + TICK)];
        scene.add(Shape::line(tick, Stroke::solid(role, 0.25)));
    }
    let at = Point::new(f64::midpoint(from, to), y + 1.5 + LETTER * 0.6);
    scene.text(at, figure(size), LETTER, role, Anchor::Middle);
}

/// An upright line, its figure to the right of it for a side of 1 and to the left for −1.
fn upright(scene: &mut Scene, (low, high): (f64, f64), x: f64, (side, size): (f64, Size)) {
    let (role, stroke) = stroke(size.2);
    scene.add(Shape::line(
        vec![Point::new(x, low), Point::new(x, high)],
        stroke,
    ));
    for y in [low, high] {
        let tick = vec![Point::new(x - TICK, y), Point::new(x + TICK, y)];
        scene.add(Shape::line(tick, Stroke::solid(role, 0.25)));
    }
    let anchor = if side > 0.0 {
        Anchor::Left
    } else {
        Anchor::Right
    };
    let at = Point::new(x + side * 1.8, f64::midpoint(low, high));
    scene.text(at, figure(size), LETTER, role, anchor);
}
