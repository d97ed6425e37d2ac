//! Shapes in millimetres. x runs right, y runs down, as on paper.

use super::letters::fitted;
use crate::assess::shown::Shown;
use crate::physics::counts::count;
use crate::survey::GapId;
use std::borrow::Cow;

/// A point, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right, mm.
    pub x: f64,
    /// Down, mm.
    pub y: f64,
}

impl Point {
    /// A point at these millimetres.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance to another point, mm.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }
}

/// What a colour means; each surface has its own colour for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Text and main outlines.
    Ink,
    /// Secondary lines and text.
    Faint,
    /// Fill of the body's faces.
    Body,
    /// Fill of glass.
    Glass,
    /// Fill of the space outside the faces.
    Ground,
    /// A gap that nobody wanted.
    Leak,
    /// An opening that must stay open.
    Protected,
    /// A drain or ventilation of the user's.
    Own,
    /// Air that comes in.
    Inward,
    /// Air that goes out.
    Outward,
    /// What is selected.
    Selected,
    /// First of several lines told apart; the line's dash says the same.
    First,
    /// Second of several lines.
    Second,
    /// Third of several lines.
    Third,
    /// What suffices.
    Well,
    /// What suffices in part.
    Partly,
}

/// How a line is broken, so that lines can be told apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long dashes.
    Dashed,
    /// Dots.
    Dotted,
}

/// Which point of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// Left end of the middle line.
    Left,
    /// Middle.
    Middle,
    /// Right end of the middle line.
    Right,
}

/// How a line or an outline is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub role: Role,
    /// Width, mm.
    pub width: f64,
    /// How it is broken.
    pub dash: Dash,
}

impl Stroke {
    /// A stroke of this colour and width, mm, broken so.
    #[must_use]
    pub const fn new(role: Role, width: f64, dash: Dash) -> Self {
        Self { role, width, dash }
    }

    /// An unbroken stroke.
    #[must_use]
    pub const fn solid(role: Role, width: f64) -> Self {
        Self::new(role, width, Dash::Solid)
    }

    /// A stroke of long dashes.
    #[must_use]
    pub const fn dashed(role: Role, width: f64) -> Self {
        Self::new(role, width, Dash::Dashed)
    }
}

/// One shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line through points.
    Polyline {
        /// The points.
        points: Vec<Point>,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A closed area.
    Polygon {
        /// Its corners.
        points: Vec<Point>,
        /// Colour inside, if filled.
        fill: Option<Role>,
        /// Its outline, if any.
        outline: Option<Stroke>,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Radius, mm.
        radius: f64,
        /// Colour inside, if filled.
        fill: Option<Role>,
        /// Its outline, if any.
        outline: Option<Stroke>,
    },
    /// An arrow with its head at `to`.
    Arrow {
        /// Tail.
        from: Point,
        /// Head.
        to: Point,
        /// Colour.
        role: Role,
        /// Width of the shaft, mm.
        width: f64,
    },
    /// A text on one line.
    Text {
        /// Where its anchor stands.
        at: Point,
        /// The text.
        text: String,
        /// Height of the letters, mm.
        size: f64,
        /// Colour.
        role: Role,
        /// Which point of it stands there.
        anchor: Anchor,
        /// How much room it has, mm, where letters that are set wider than was reckoned with must give way.
        room: Option<f64>,
    },
}

impl Shape {
    /// A line through points.
    #[must_use]
    pub fn line(points: Vec<Point>, stroke: Stroke) -> Self {
        Self::Polyline { points, stroke }
    }

    /// A closed area, filled, outlined, or both.
    #[must_use]
    pub fn polygon(
        points: Vec<Point>,
        fill: impl Into<Option<Role>>,
        outline: impl Into<Option<Stroke>>,
    ) -> Self {
        let (fill, outline) = (fill.into(), outline.into());
        Self::Polygon {
            points,
            fill,
            outline,
        }
    }

    /// An upright rectangle between two opposite corners.
    #[must_use]
    pub fn rectangle(
        (a, b): (Point, Point),
        fill: impl Into<Option<Role>>,
        outline: impl Into<Option<Stroke>>,
    ) -> Self {
        let (right, left) = (Point::new(b.x, a.y), Point::new(a.x, b.y));
        Self::polygon(vec![a, right, b, left], fill, outline)
    }

    /// A circle, filled, outlined, or both.
    #[must_use]
    pub fn circle(
        centre: Point,
        radius: f64,
        fill: impl Into<Option<Role>>,
        outline: impl Into<Option<Stroke>>,
    ) -> Self {
        let (fill, outline) = (fill.into(), outline.into());
        Self::Circle {
            centre,
            radius,
            fill,
            outline,
        }
    }

    /// An arrow from its tail to its head, its shaft so many mm wide.
    #[must_use]
    pub fn arrow(from: Point, to: Point, role: Role, width: f64) -> Self {
        Self::Arrow {
            from,
            to,
            role,
            width,
        }
    }
}

/// A shape and what it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The shape.
    pub shape: Shape,
    /// The gap it stands for; a click on it means that gap.
    pub gap: Option<GapId>,
}

/// A drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// Shapes, painted in this order.
    pub marks: Vec<Mark>,
    /// What it shows, for those who cannot see it.
    pub description: String,
}

impl Scene {
    /// An empty drawing of this size, mm.
    #[must_use]
    pub fn new(width: f64, height: f64) -> Self {
        Self {
            width,
            height,
            marks: Vec::new(),
            description: String::new(),
        }
    }

    /// Adds a shape that stands for no gap.
    pub fn add(&mut self, shape: Shape) {
        self.marks.push(Mark { shape, gap: None });
    }

    /// Adds a shape that stands for a gap.
    pub fn add_gap(&mut self, gap: GapId, shape: Shape) {
        self.marks.push(Mark {
            shape,
            gap: Some(gap),
        });
    }

    /// Adds a text.
    pub fn text(
        &mut self,
        at: Point,
        text: impl Into<String>,
        size: f64,
        role: Role,
        anchor: Anchor,
    ) {
        self.add(Shape::Text {
            at,
            text: text.into(),
            size,
            role,
            anchor,
            room: None,
        });
    }

    /// Adds a text that stays within so much room, mm: its letters become smaller, and then it is cut.
    pub fn text_within(
        &mut self,
        at: Point,
        text: &str,
        size: f64,
        (role, anchor): (Role, Anchor),
        room: f64,
    ) {
        let (text, size) = fitted(text, size, room);
        self.add(Shape::Text {
            at,
            text,
            size,
            role,
            anchor,
            room: Some(room),
        });
    }

    /// The drawing with its texts in the units chosen.
    #[must_use]
    pub fn shown<'a>(&'a self, shown: &Shown) -> Cow<'a, Self> {
        if shown.changes_nothing() {
            return Cow::Borrowed(self);
        }
        let mut scene = self.clone();
        scene.description = shown.text(&self.description).into_owned();
        for mark in &mut scene.marks {
            if let Shape::Text { text, .. } = &mut mark.shape {
                *text = shown.head(text).0.into_owned();
            }
        }
        Cow::Owned(scene)
    }

    /// The gap whose mark is nearest to a point, if within `reach` mm of its edge. Of several
    /// that contain the point the smallest wins, so that small marks on large ones can be hit.
    #[must_use]
    pub fn gap_at(&self, point: Point, reach: f64) -> Option<GapId> {
        let mut best: Option<(f64, f64, GapId)> = None;
        for mark in &self.marks {
            let (Some(gap), Some((away, radius))) = (mark.gap, away(&mark.shape, point)) else {
                continue;
            };
            let outside = (away - radius).max(0.0);
            let nearer = best.is_none_or(|(best_outside, best_radius, _)| {
                (outside, radius) < (best_outside, best_radius)
            });
            if outside <= reach && nearer {
                best = Some((outside, radius, gap));
            }
        }
        best.map(|(_, _, gap)| gap)
    }

    /// Where the mark of a gap is: its middle and how far it reaches, mm.
    #[must_use]
    #[cfg(test)]
    pub fn gap_extent(&self, gap: GapId) -> Option<(Point, f64)> {
        self.marks
            .iter()
            .find(|mark| mark.gap == Some(gap))
            .and_then(|mark| extent(&mark.shape))
    }
}

/// How far a point is from the middle of a shape, or from its line, and how far the shape reaches
/// from there, mm.
fn away(shape: &Shape, point: Point) -> Option<(f64, f64)> {
    if let Shape::Polyline { points, stroke } = shape {
        return Some((from_line(points, point), stroke.width / 2.0));
    }
    let (centre, radius) = extent(shape)?;
    Some((centre.distance(point), radius))
}

/// How far a point is from a line, mm.
#[must_use]
pub fn from_line(points: &[Point], point: Point) -> f64 {
    nearest_on_line(points, point).map_or(f64::MAX, |nearest| nearest.distance(point))
}

/// The place on a line that is nearest to a point; `None` of no line.
#[must_use]
pub fn nearest_on_line(points: &[Point], point: Point) -> Option<Point> {
    let ends = points.iter().zip(points.iter().skip(1));
    let places = ends.map(|(from, to)| {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let long = (dx * dx + dy * dy).max(1e-12);
        let share = ((point.x - from.x) * dx + (point.y - from.y) * dy) / long;
        let share = share.clamp(0.0, 1.0);
        Point::new(from.x + dx * share, from.y + dy * share)
    });
    let places = points.first().copied().into_iter().chain(places);
    places.min_by(|a, b| a.distance(point).total_cmp(&b.distance(point)))
}

/// Middle and reach of a closed shape.
fn extent(shape: &Shape) -> Option<(Point, f64)> {
    match shape {
        Shape::Circle { centre, radius, .. } => Some((*centre, *radius)),
        Shape::Polygon { points, .. } => {
            let corners = count(points.len());
            let sum = points.iter().fold(Point::default(), |sum, point| {
                Point::new(sum.x + point.x, sum.y + point.y)
            });
            let centre = Point::new(sum.x / corners, sum.y / corners);
            let reach = points
                .iter()
                .map(|point| centre.distance(*point))
                .fold(0.0, f64::max);
            Some((centre, reach))
        }
        Shape::Polyline { .. } | Shape::Arrow { .. } | Shape::Text { .. } => None,
    }
}
