//! Where each face of the vehicle lies on the unfolded drawing, there and back.
//!
//! The sides stand upright, as one sees them walking round: from the front the nearside is to the
//! right, then the nearside with its front to the left, the rear, and the offside with its front to
//! the right. The roof is seen from above with the front to the left, and so is the underfloor, as
//! through the floor: on both the nearside is below.

use crate::figure::outline::{Recorded, Sizes, Spot};
use crate::figure::scene::Point;
use crate::survey::Vehicle;
use crate::survey::gap::{Cavity, Facing, Position};

/// How the faces stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Arrangement {
    /// The four sides in one row, roof and underfloor above them: a wide drawing.
    Wide,
    /// Three rows: roof and underfloor, the long sides, front and rear.
    Square,
    /// Four rows, two faces wide at most: a tall drawing.
    Tall,
}

impl Arrangement {
    const ALL: [Self; 3] = [Self::Wide, Self::Square, Self::Tall];
}

/// The faces that are drawn, in the order in which a point is looked for on them.
pub(super) const FACES: [Facing; 6] = [
    Facing::Roof,
    Facing::Nearside,
    Facing::Offside,
    Facing::Front,
    Facing::Rear,
    Facing::Underfloor,
];

/// The upright faces.
pub(super) const SIDES: [Facing; 4] = [
    Facing::Nearside,
    Facing::Offside,
    Facing::Front,
    Facing::Rear,
];

/// Margin left and right, mm.
const MARGIN: f64 = 3.0;
/// Room above a row of faces, for their captions, mm.
const ABOVE: f64 = 5.5;
/// Room below a row, for the words at its ends, mm.
const BELOW: f64 = 4.5;
/// Room between faces of one row, mm.
pub(super) const BETWEEN: f64 = 4.0;

/// The unfolded body in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// The sizes that it is drawn with.
    pub sizes: Sizes,
    /// Millimetres of drawing for each metre of vehicle.
    pub scale: f64,
    /// How the faces stand to each other.
    pub arrangement: Arrangement,
}

/// A place on the vehicle that a point of the drawing stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Picked {
    /// The face.
    pub facing: Facing,
    /// The place on it; only what the face determines.
    pub position: Position,
}

/// A face as a rectangle on the drawing, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Panel {
    /// Whether a point lies on it.
    #[must_use]
    pub fn holds(&self, point: Point) -> bool {
        (self.left..=self.right).contains(&point.x) && (self.top..=self.bottom).contains(&point.y)
    }

    /// Its corners, clockwise from the upper left.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        vec![
            Point::new(self.left, self.top),
            Point::new(self.right, self.top),
            Point::new(self.right, self.bottom),
            Point::new(self.left, self.bottom),
        ]
    }

    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Point {
        Point::new(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }
}

/// Millimetres that stay, and metres of vehicle.
type Extent = (f64, f64);

impl Layout {
    /// Lays a vehicle out for a drawing about `width` mm wide. Sizes that are missing or
    /// impossible are drawn as usual ones.
    #[must_use]
    pub fn new(vehicle: &Vehicle, arrangement: Arrangement, width: f64) -> Self {
        let mut layout = Self {
            sizes: Sizes::of(vehicle),
            scale: 1.0,
            arrangement,
        };
        let (fixed, metres) = layout.breadth();
        layout.scale = ((width - fixed) / metres).max(1.0);
        layout
    }

    /// Which sizes of the vehicle were recorded.
    #[must_use]
    pub fn recorded(&self) -> Recorded {
        self.sizes.recorded
    }

    /// What the drawing's width is made of.
    fn breadth(&self) -> Extent {
        let Sizes {
            length_m, width_m, ..
        } = self.sizes;
        let bars = 2.0 * self.sizes.drawbar_m();
        match self.arrangement {
            Arrangement::Wide => (
                2.0 * MARGIN + 3.0 * BETWEEN,
                2.0 * (width_m + length_m) + bars,
            ),
            // Front and rear stand beside each other under the long sides.
            Arrangement::Square => (2.0 * MARGIN + BETWEEN, 2.0 * length_m.max(width_m) + bars),
            Arrangement::Tall => (2.0 * MARGIN + BETWEEN, width_m + length_m + bars),
        }
    }

    /// What its height is made of.
    fn depth(&self) -> Extent {
        const ROW: f64 = ABOVE + BELOW;
        let Sizes {
            width_m, height_m, ..
        } = self.sizes;
        match self.arrangement {
            Arrangement::Wide => (2.0 * ROW, width_m + height_m),
            Arrangement::Square => (3.0 * ROW, width_m + 2.0 * height_m),
            Arrangement::Tall => (4.0 * ROW, 2.0 * (width_m + height_m)),
        }
    }

    /// The arrangement that is largest in a space of so many millimetres, and the width to ask
    /// for, enlarged by `zoom`.
    #[must_use]
    pub fn fitting(vehicle: &Vehicle, wide: f64, tall: f64, zoom: f64) -> (Arrangement, f64) {
        let fit = |arrangement| {
            let layout = Self::new(vehicle, arrangement, wide);
            let (fixed, metres) = layout.breadth();
            let (fixed_down, metres_down) = layout.depth();
            let scale = ((wide - fixed) / metres).min((tall - fixed_down) / metres_down);
            (scale, fixed + metres * scale.max(1.0) * zoom)
        };
        let [mut best, ..] = Arrangement::ALL;
        for other in Arrangement::ALL {
            if fit(other).0 > fit(best).0 {
                best = other;
            }
        }
        (best, fit(best).1)
    }

    /// Width and height of the whole drawing, mm.
    #[must_use]
    pub fn size(&self) -> (f64, f64) {
        let total = |(fixed, metres): Extent| fixed + metres * self.scale;
        (total(self.breadth()), total(self.depth()))
    }

    /// The rectangle of a face. Sides reach from the roof down to the ground. Cavities are drawn
    /// on the face behind which they lie: see [`Layout::place`].
    #[must_use]
    pub fn panel(&self, facing: Facing) -> Panel {
        let mm = |metres: f64| metres * self.scale;
        let Sizes {
            length_m,
            width_m,
            height_m,
            ..
        } = self.sizes;
        let (length, width, height) = (mm(length_m), mm(width_m), mm(height_m));
        let bar = mm(self.sizes.drawbar_m());
        let (wide, tall) = match facing {
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => (length, width),
            Facing::Nearside | Facing::Offside => (length, height),
            Facing::Front | Facing::Rear => (width, height),
        };
        // Where the columns begin and the rows, whose upper edges are given.
        let (first, row) = (MARGIN, BELOW + ABOVE);
        let at = |left: f64, top: f64| Panel {
            left,
            top,
            right: left + wide,
            bottom: top + tall,
        };
        let plan = ABOVE;
        let upper = plan + width + row;
        let lower = upper + height + row;
        let last_row = lower + height + row;
        let beside = first + width + BETWEEN + bar;
        let far = beside + length + BETWEEN;
        let last = far + width + BETWEEN;
        let half = first + bar + length + BETWEEN;
        let (left, top) = match (self.arrangement, facing) {
            (Arrangement::Wide | Arrangement::Tall, Facing::Roof) => (beside, plan),
            (Arrangement::Wide | Arrangement::Tall, Facing::Nearside) => (beside, upper),
            (Arrangement::Wide | Arrangement::Tall, Facing::Front) => (first, upper),
            (Arrangement::Wide, Facing::Rear) => (far, upper),
            (Arrangement::Wide, Facing::Offside) => (last, upper),
            (Arrangement::Wide, Facing::Underfloor | Facing::Cavity(_)) => (last, plan),
            (Arrangement::Tall, Facing::Rear) => (first, lower),
            (Arrangement::Tall, Facing::Offside) => (beside, lower),
            (Arrangement::Tall, Facing::Underfloor | Facing::Cavity(_)) => (beside, last_row),
            (Arrangement::Square, Facing::Roof) => (first + bar, plan),
            (Arrangement::Square, Facing::Underfloor | Facing::Cavity(_)) => (half + bar, plan),
            (Arrangement::Square, Facing::Nearside) => (first + bar, upper),
            (Arrangement::Square, Facing::Offside) => (half, upper),
            (Arrangement::Square, Facing::Front) => (first + bar, lower),
            (Arrangement::Square, Facing::Rear) => {
                let under = (length - width).max(width + BETWEEN);
                (first + bar + under, lower)
            }
        };
        at(left, top)
    }

    /// A rectangle of the drawing where no face is.
    #[must_use]
    pub(super) fn free(&self) -> Panel {
        let roof = self.panel(Facing::Roof);
        let rear = self.panel(Facing::Rear);
        match self.arrangement {
            Arrangement::Wide | Arrangement::Tall => Panel {
                left: MARGIN,
                right: roof.left - BETWEEN,
                ..roof
            },
            Arrangement::Square => Panel {
                left: rear.right + BETWEEN,
                right: self.size().0 - MARGIN,
                ..rear
            },
        }
    }

    /// Where a point of a face lies: metres to the side and up, as outlines count them. On the long
    /// sides the side counts from the front, on front and rear from the nearside; up counts from the
    /// ground. On roof and underfloor it is metres from the front and from the nearside.
    #[must_use]
    pub fn spot(&self, face: Facing, (side, up): Spot) -> Point {
        let panel = self.panel(face);
        let (side, up) = (side * self.scale, up * self.scale);
        let x = match face {
            Facing::Offside | Facing::Front => panel.right - side,
            _ => panel.left + side,
        };
        Point::new(x, panel.bottom - up)
    }

    /// The face on which a gap is drawn: its own, or for a cavity the one it lies behind.
    #[must_use]
    pub fn drawn_on(&self, facing: Facing, position: &Position) -> Facing {
        let side = || {
            let near = position
                .across_m
                .is_none_or(|across| across <= self.sizes.width_m / 2.0);
            if near {
                Facing::Nearside
            } else {
                Facing::Offside
            }
        };
        match facing {
            Facing::Cavity(Cavity::EngineBay | Cavity::WheelArch) => Facing::Underfloor,
            Facing::Cavity(Cavity::Locker | Cavity::RefrigeratorCompartment) => side(),
            face => face,
        }
    }

    /// Point of the drawing for a place. Co-ordinates not given lie in the middle of the face;
    /// the second value says whether all were given.
    #[must_use]
    pub fn place(&self, facing: Facing, position: &Position) -> (Point, bool) {
        let face = self.drawn_on(facing, position);
        let Sizes {
            length_m,
            width_m,
            height_m,
            floor_height_m,
            ..
        } = self.sizes;
        let along = position
            .along_m
            .unwrap_or(length_m / 2.0)
            .clamp(0.0, length_m);
        let across = position
            .across_m
            .unwrap_or(width_m / 2.0)
            .clamp(0.0, width_m);
        let height = position
            .height_m
            .unwrap_or(f64::midpoint(floor_height_m, height_m))
            .clamp(0.0, height_m);
        let (spot, complete) = match face {
            Facing::Nearside | Facing::Offside => (
                (along, height),
                position.along_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Front | Facing::Rear => (
                (across, height),
                position.across_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => (
                (along, across),
                position.along_m.is_some() && position.across_m.is_some(),
            ),
        };
        (self.spot(face, spot), complete)
    }

    /// The place on a face under a point of the drawing, as [`Layout::spot`] counts it.
    #[must_use]
    pub fn spot_at(&self, face: Facing, point: Point) -> Spot {
        let panel = self.panel(face);
        let side = match face {
            Facing::Offside | Facing::Front => panel.right - point.x,
            _ => point.x - panel.left,
        };
        (side / self.scale, (panel.bottom - point.y) / self.scale)
    }

    /// The face under a point of the drawing.
    #[must_use]
    pub fn face_at(&self, point: Point) -> Option<Facing> {
        let mut faces = FACES.into_iter();
        faces.find(|facing| self.panel(*facing).holds(point))
    }

    /// The place on the vehicle under a point of the drawing; `None` off every face. Only what
    /// the face and the recorded sizes determine is given.
    #[must_use]
    pub fn pick(&self, point: Point) -> Option<Picked> {
        let facing = self.face_at(point)?;
        let rounded = |metres: f64| (metres * 100.0).round() / 100.0;
        let (side, up) = self.spot_at(facing, point);
        let (side, up) = (rounded(side), rounded(up));
        let known = self.recorded();
        let mut position = Position::default();
        match facing {
            Facing::Nearside | Facing::Offside => {
                position.along_m = known.length.then_some(side);
                position.height_m = known.height.then_some(up);
            }
            Facing::Front | Facing::Rear => {
                position.across_m = known.width.then_some(side);
                position.height_m = known.height.then_some(up);
            }
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => {
                position.along_m = known.length.then_some(side);
                position.across_m = known.width.then_some(up);
                position.height_m = if facing == Facing::Roof {
                    known.height.then_some(self.sizes.height_m)
                } else {
                    known.floor.then_some(self.sizes.floor_height_m)
                };
            }
        }
        Some(Picked { facing, position })
    }
}

#[cfg(test)]
mod tests;
