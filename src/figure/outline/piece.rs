//! What outlines are made of: areas, lines and discs on a face, in metres.

use crate::figure::scene::{Point, Role, Scene, Shape, Stroke};

/// A point of a face, m: to the side and up. What "to the side" counts from is the face's own.
pub type Spot = (f64, f64);

/// How a piece looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// The body itself.
    Hull,
    /// A part that stands in front of the body.
    Part,
    /// Glass.
    Glass,
    /// An edge or joint: only its line.
    Edge,
    /// What lies behind: a broken line.
    Hidden,
    /// A wheel.
    Wheel,
}

/// Its form.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A closed area.
    Area(Vec<Spot>),
    /// A line.
    Line(Vec<Spot>),
    /// A disc: middle and radius.
    Disc(Spot, f64),
}

/// One piece of an outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its form, m.
    pub form: Form,
    /// How it looks.
    pub look: Look,
}

/// How broad the lines of an outline are drawn, mm.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    /// The edge of the body.
    pub line: f64,
    /// Everything else.
    pub fine: f64,
    /// The edge of the body is broken: it is only a usual one.
    pub usual: bool,
}

impl Pen {
    /// For drawings that are read.
    pub const PLAIN: Self = Self {
        line: 0.4,
        fine: 0.25,
        usual: false,
    };
}

pub(super) fn area(points: Vec<Spot>, look: Look) -> Piece {
    Piece {
        form: Form::Area(points),
        look,
    }
}

pub(super) fn line(points: Vec<Spot>, look: Look) -> Piece {
    Piece {
        form: Form::Line(points),
        look,
    }
}

pub(super) fn disc(middle: Spot, radius: f64, look: Look) -> Piece {
    Piece {
        form: Form::Disc(middle, radius),
        look,
    }
}

/// An upright rectangle between two opposite corners.
pub(super) fn rectangle((left, low): Spot, (right, high): Spot, look: Look) -> Piece {
    let corners = vec![(left, low), (right, low), (right, high), (left, high)];
    area(corners, look)
}

/// A rectangle with rounded corners.
pub(super) fn rounded_rectangle(
    (left, low): Spot,
    (right, high): Spot,
    radius: f64,
    look: Look,
) -> Piece {
    let corners = [(left, low), (right, low), (right, high), (left, high)];
    area(rounded(&corners, radius), look)
}

/// So many points stand for the bend of a corner.
const BEND: u32 = 4;

/// A closed area with its corners rounded: each bend begins `radius` before its corner, or
/// halfway to the next.
pub(super) fn rounded(corners: &[Spot], radius: f64) -> Vec<Spot> {
    let towards = |from: Spot, to: Spot| {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy).max(1e-9);
        let share = (radius / length).min(0.5);
        (from.0 + dx * share, from.1 + dy * share)
    };
    let last = corners.last().copied();
    let before = last.into_iter().chain(corners.iter().copied());
    let after = corners.iter().copied().cycle().skip(1);
    let mut points = Vec::new();
    for ((before, corner), after) in before.zip(corners.iter().copied()).zip(after) {
        let (start, end) = (towards(corner, before), towards(corner, after));
        for step in 0..=BEND {
            let t = f64::from(step) / f64::from(BEND);
            let blend = |a: f64, b: f64, c: f64| {
                (1.0 - t) * (1.0 - t) * a + 2.0 * t * (1.0 - t) * b + t * t * c
            };
            points.push((
                blend(start.0, corner.0, end.0),
                blend(start.1, corner.1, end.1),
            ));
        }
    }
    points
}

/// Keeps every point between the corners of a face: on a very small vehicle a part of usual size
/// would stand out.
pub(super) fn held(mut pieces: Vec<Piece>, (left, low): Spot, (right, high): Spot) -> Vec<Piece> {
    let hold = |point: &mut Spot| *point = (point.0.clamp(left, right), point.1.clamp(low, high));
    for piece in &mut pieces {
        match &mut piece.form {
            Form::Area(points) | Form::Line(points) => points.iter_mut().for_each(hold),
            Form::Disc((side, up), radius) => {
                let room = (right - left).min(high - low) / 2.0;
                *radius = radius.min(room);
                *side = side.clamp(left + *radius, right - *radius);
                *up = up.clamp(low + *radius, high - *radius);
            }
        }
    }
    pieces
}

/// Where a spot lies on a drawing whose face has its first spot at `origin`.
pub(super) fn on(origin: Point, scale: f64, (side, up): Spot) -> Point {
    Point::new(origin.x + side * scale, origin.y - up * scale)
}

/// Draws pieces where `at` says that the points of their face lie.
pub fn draw(scene: &mut Scene, pieces: &[Piece], scale: f64, pen: Pen, at: impl Fn(Spot) -> Point) {
    for piece in pieces {
        let (fill, stroke) = look(piece.look, pen);
        let place = |points: &[Spot]| points.iter().map(|point| at(*point)).collect();
        scene.add(match &piece.form {
            Form::Area(points) => Shape::polygon(place(points), fill, stroke),
            Form::Line(points) => Shape::line(place(points), stroke),
            Form::Disc(middle, radius) => Shape::circle(at(*middle), radius * scale, fill, stroke),
        });
    }
}

fn look(look: Look, pen: Pen) -> (Option<Role>, Stroke) {
    let faint = Stroke::solid(Role::Faint, pen.fine);
    match look {
        Look::Hull if pen.usual => (Some(Role::Body), Stroke::dashed(Role::Faint, pen.fine)),
        Look::Hull => (Some(Role::Body), Stroke::solid(Role::Ink, pen.line)),
        Look::Part => (Some(Role::Body), faint),
        Look::Glass => (Some(Role::Glass), faint),
        Look::Edge => (None, faint),
        Look::Hidden => (None, Stroke::dashed(Role::Faint, pen.fine)),
        Look::Wheel => (Some(Role::Ground), Stroke::solid(Role::Ink, pen.fine)),
    }
}
