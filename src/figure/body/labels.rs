//! Numbers beside the marks, each where neither a mark nor another number covers it.

use super::spread::{Placed, cell};
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;
use crate::survey::{GapId, WorkState};
use std::collections::HashMap;

/// Letters of a number, mm.
pub(super) const SIZE: f64 = 2.2;
/// Letters of a number that is found from arm's length, mm.
pub(super) const LARGE: f64 = 4.0;
/// Width of a letter by its height: digits, and on average all others.
const LETTER: f64 = 0.64;
/// How far from the edge of its mark a number may stand, mm; the nearest are tried first.
const DISTANCES: [f64; 5] = [0.4, 1.6, 3.2, 5.0, 7.5];
/// Beyond this a thin line leads from the mark to its number, mm.
const LEADS: f64 = 1.0;
/// Directions tried, degrees clockwise from the top, the usual one first.
const DIRECTIONS: [f64; 12] = [
    50.0, 90.0, 130.0, 310.0, 270.0, 230.0, 0.0, 180.0, 25.0, 155.0, 335.0, 205.0,
];
/// Marks and numbers are looked up by squares of this side, mm.
const CELL: f64 = 8.0;

/// A rectangle, mm.
#[derive(Clone, Copy, Debug)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Area {
    fn round(middle: Point, half_width: f64, half_height: f64) -> Self {
        Self {
            left: middle.x - half_width,
            top: middle.y - half_height,
            right: middle.x + half_width,
            bottom: middle.y + half_height,
        }
    }

    /// How deep two lie in each other, mm; 0 where they do not.
    fn depth(&self, other: &Self) -> f64 {
        let across = self.right.min(other.right) - self.left.max(other.left);
        let down = self.bottom.min(other.bottom) - self.top.max(other.top);
        across.min(down).max(0.0)
    }

    fn nearest(&self, point: Point) -> Point {
        Point::new(
            point.x.clamp(self.left, self.right),
            point.y.clamp(self.top, self.bottom),
        )
    }
}

/// What is in the way of a number.
#[derive(Clone, Copy, Debug)]
enum Thing {
    /// A mark: middle and reach.
    Mark(Point, f64),
    /// A number or caption.
    Text(Area),
    /// A line that leads from a place to its mark, or from a mark to its number.
    Line(Point, Point),
    /// A piece of the line of a long gap: a number on it is read less well, but still read.
    Seam(Point, Point),
}

impl Thing {
    fn area(&self) -> Area {
        match *self {
            Self::Mark(at, reach) => Area::round(at, reach, reach),
            Self::Text(area) => area,
            Self::Line(from, to) | Self::Seam(from, to) => Area {
                left: from.x.min(to.x),
                top: from.y.min(to.y),
                right: from.x.max(to.x),
                bottom: from.y.max(to.y),
            },
        }
    }

    /// How much it spoils a number there.
    fn spoils(&self, label: &Area) -> f64 {
        match *self {
            Self::Mark(at, reach) => {
                let inside = reach - label.nearest(at).distance(at);
                if inside > 0.0 { 4.0 + inside } else { 0.0 }
            }
            Self::Text(area) => {
                let depth = label.depth(&area);
                if depth > 0.0 { 8.0 + 4.0 * depth } else { 0.0 }
            }
            Self::Line(from, to) => {
                if passes(label, from, to) {
                    3.0
                } else {
                    0.0
                }
            }
            Self::Seam(from, to) => {
                if passes(label, from, to) {
                    1.2
                } else {
                    0.0
                }
            }
        }
    }
}

/// Whether a line passes through a rectangle.
fn passes(area: &Area, from: Point, to: Point) -> bool {
    // Cut off what lies beyond each edge; something is left where the line passes.
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (start, end, low, high) in [
        (from.x, to.x, area.left, area.right),
        (from.y, to.y, area.top, area.bottom),
    ] {
        let run = end - start;
        if run.abs() < 1e-9 {
            if start < low || start > high {
                return false;
            }
            continue;
        }
        let (a, b) = ((low - start) / run, (high - start) / run);
        first = first.max(a.min(b));
        last = last.min(a.max(b));
    }
    first < last
}

/// Everything in the way, by squares.
#[derive(Default)]
struct Things {
    all: Vec<Thing>,
    squares: HashMap<(i64, i64), Vec<usize>>,
}

impl Things {
    fn squares_of(area: &Area) -> impl Iterator<Item = (i64, i64)> + use<> {
        let (left, top) = cell(Point::new(area.left, area.top), CELL);
        let (right, bottom) = cell(Point::new(area.right, area.bottom), CELL);
        (left..=right).flat_map(move |x| (top..=bottom).map(move |y| (x, y)))
    }

    fn add(&mut self, thing: Thing) {
        let at = self.all.len();
        for square in Self::squares_of(&thing.area()) {
            self.squares.entry(square).or_default().push(at);
        }
        self.all.push(thing);
    }

    /// All that may touch a rectangle, each once.
    fn near(&self, area: &Area) -> Vec<usize> {
        let mut near: Vec<usize> = Self::squares_of(area)
            .filter_map(|square| self.squares.get(&square))
            .flatten()
            .copied()
            .collect();
        near.sort_unstable();
        near.dedup();
        near
    }

    fn spoils(&self, label: &Area) -> f64 {
        let near = self.near(label).into_iter();
        near.filter_map(|at| self.all.get(at))
            .map(|thing| thing.spoils(label))
            .sum()
    }
}

/// Where the words of a mark stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelPlace {
    /// The gap of the mark.
    pub gap: GapId,
    /// The way from the middle of the mark to the left end of the words' middle line, mm.
    pub way: (f64, f64),
}

/// Writes the words of each mark where they stood before, and of a new one in the usual place.
pub(super) fn labels_as_before(
    scene: &mut Scene,
    marks: &[(&Placed<'_>, String)],
    before: &[LabelPlace],
) -> Vec<LabelPlace> {
    let ways: HashMap<GapId, (f64, f64)> =
        before.iter().map(|label| (label.gap, label.way)).collect();
    let write = |(mark, words): &(&Placed<'_>, String)| {
        let gap = mark.gap.id;
        let usual = mark.reach() + SIZE / 2.0;
        let way = ways.get(&gap).copied().unwrap_or((usual, -usual));
        let left = Point::new(mark.at.x + way.0, mark.at.y + way.1);
        scene.text(left, words.clone(), SIZE, Role::Ink, Anchor::Left);
        LabelPlace { gap, way }
    };
    marks.iter().map(write).collect()
}

/// Writes the words of each mark beside it. Those with least room choose first.
pub(super) fn labels(
    scene: &mut Scene,
    marks: &[(&Placed<'_>, String)],
    size: f64,
) -> Vec<LabelPlace> {
    let mut things = Things::default();
    for mark in &scene.marks {
        if let Shape::Text {
            at,
            text,
            size,
            anchor,
            ..
        } = &mark.shape
        {
            things.add(Thing::Text(text_area(*at, text, *size, *anchor)));
        }
    }
    for (mark, _) in marks {
        things.add(Thing::Mark(mark.at, mark.reach()));
        if mark.gap.state == WorkState::Sealed && mark.sharing == 1 {
            let (from, to) = mark.stroke();
            things.add(Thing::Line(from, to));
        }
        let path = mark.line();
        if path.is_empty() && mark.home.distance(mark.at) > 0.1 {
            things.add(Thing::Line(mark.home, mark.at));
        }
        for (from, to) in path.iter().zip(path.iter().skip(1)) {
            things.add(Thing::Seam(*from, *to));
        }
    }
    let mut order: Vec<(usize, usize)> = marks
        .iter()
        .enumerate()
        .map(|(at, (mark, _))| {
            let room = mark.reach() + 4.0 * size;
            (things.near(&Area::round(mark.at, room, room)).len(), at)
        })
        .collect();
    order.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    let (width, height) = (scene.width, scene.height);
    let mut places = Vec::new();
    for (_, at) in order {
        let Some((mark, words)) = marks.get(at) else {
            continue;
        };
        let (area, far) = place(&things, (mark, words), size, (width, height));
        if far > LEADS {
            let end = area.nearest(mark.at);
            let from = on_edge(mark, end);
            things.add(Thing::Line(from, end));
            scene.add(Shape::line(
                vec![from, end],
                Stroke::solid(Role::Faint, 0.2),
            ));
        }
        things.add(Thing::Text(area));
        let left = Point::new(area.left, f64::midpoint(area.top, area.bottom));
        scene.text(left, words.clone(), size, Role::Ink, Anchor::Left);
        places.push(LabelPlace {
            gap: mark.gap.id,
            way: (left.x - mark.at.x, left.y - mark.at.y),
        });
    }
    places
}

/// The best place for the words of a mark, and how far from its mark that is.
fn place(
    things: &Things,
    (mark, words): (&Placed<'_>, &str),
    size: f64,
    (width, height): (f64, f64),
) -> (Area, f64) {
    let (half_width, half_height) = (text_width(words, size) / 2.0, size * 0.42);
    let mut best: Option<(f64, Area, f64)> = None;
    for (far, ring) in DISTANCES.into_iter().zip(0_u32..) {
        for (direction, turn) in DIRECTIONS.into_iter().zip(0_u32..) {
            let (sine, cosine) = direction.to_radians().sin_cos();
            let reach = mark.reach() + far;
            let middle = Point::new(
                mark.at.x + sine * (reach + half_width),
                mark.at.y - cosine * (reach + half_height),
            );
            let area = Area::round(middle, half_width, half_height);
            let outside =
                area.left < 0.0 || area.top < 0.0 || area.right > width || area.bottom > height;
            // The usual place, near and to the upper right, unless something is in its way.
            let dislike = f64::from(ring) + 0.05 * f64::from(turn);
            if best.is_some_and(|(least, ..)| least <= dislike) {
                continue;
            }
            let cost = dislike + if outside { 50.0 } else { 0.0 } + things.spoils(&area);
            if best.is_none_or(|(least, ..)| cost < least) {
                best = Some((cost, area, far));
            }
        }
    }
    best.map_or_else(
        || (Area::round(mark.at, half_width, half_height), 0.0),
        |(_, area, far)| (area, far),
    )
}

/// Where the line from the middle of a mark to a point leaves the mark.
fn on_edge(mark: &Placed<'_>, end: Point) -> Point {
    let length = mark.at.distance(end).max(1e-9);
    let share = (mark.reach() / length).min(1.0);
    Point::new(
        mark.at.x + (end.x - mark.at.x) * share,
        mark.at.y + (end.y - mark.at.y) * share,
    )
}

fn text_width(words: &str, size: f64) -> f64 {
    count(words.chars().count()) * size * LETTER
}

fn text_area(at: Point, words: &str, size: f64, anchor: Anchor) -> Area {
    let width = text_width(words, size);
    let left = match anchor {
        Anchor::Left => at.x,
        Anchor::Middle => at.x - width / 2.0,
        Anchor::Right => at.x - width,
    };
    Area {
        left,
        top: at.y - size / 2.0,
        right: left + width,
        bottom: at.y + size / 2.0,
    }
}
