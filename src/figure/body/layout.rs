//! Where each face of the vehicle lies on the unfolded drawing, there and back.
//!
//! Seen from above with the front to the left. Round the plan lie the four sides, folded down
//! along the edges of the roof: the nearside below and upright, the offside above, the front to
//! the left, the rear to the right. The underfloor is drawn beside, seen from above through the
//! floor, so that left stays left.

use crate::figure::scene::Point;
use crate::survey::Vehicle;
use crate::survey::gap::{Cavity, Facing, Position};

/// Where the underfloor goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Arrangement {
    /// To the right of the rest: a wide drawing.
    Wide,
    /// Below the rest: a tall drawing.
    Tall,
}

/// Sizes that stand in for those not measured yet, so that there is something to click on, m.
const USUAL_LENGTH: f64 = 6.0;
const USUAL_WIDTH: f64 = 2.2;
const USUAL_HEIGHT: f64 = 2.7;
const USUAL_FLOOR: f64 = 0.5;

/// Space between the faces that are not joined, mm.
const SPACE: f64 = 14.0;
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

/// Width of a fine line, mm.
pub(super) const FINE: f64 = 0.25;
/// Margin all round, mm: room for captions.
const MARGIN: f64 = 7.0;

/// The unfolded body in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// Outside length, m.
    pub length_m: f64,
    /// Outside width, m.
    pub width_m: f64,
    /// Roof above ground, m.
    pub height_m: f64,
    /// Floor above ground, m.
    pub floor_height_m: f64,
    /// Millimetres of drawing for each metre of vehicle.
    pub scale: f64,
    /// Where the underfloor goes.
    pub arrangement: Arrangement,
    /// Which sizes were recorded and are not only drawn as usual ones.
    pub recorded: Recorded,
}

/// Which sizes of the vehicle were recorded. A place on the drawing tells nothing in a direction
/// whose size is only a usual one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Recorded {
    /// Outside length.
    pub length: bool,
    /// Outside width.
    pub width: bool,
    /// Roof above ground.
    pub height: bool,
    /// Floor above ground.
    pub floor: bool,
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

impl Layout {
    /// Lays a vehicle out for a drawing about `width` mm wide. Sizes that are missing or
    /// impossible are drawn as usual ones.
    #[must_use]
    pub fn new(vehicle: &Vehicle, arrangement: Arrangement, width: f64) -> Self {
        let sane = |value: Option<f64>, lowest: f64, highest: f64| {
            value.filter(|value| (lowest..=highest).contains(value))
        };
        let length = sane(vehicle.length_m, 1.5, 15.0);
        let across = sane(vehicle.width_m, 1.0, 3.0);
        let height = sane(vehicle.height_m, 1.0, 4.5);
        let floor = sane(vehicle.floor_height_m, 0.1, 1.8);
        let mut layout = Self {
            length_m: length.unwrap_or(USUAL_LENGTH),
            width_m: across.unwrap_or(USUAL_WIDTH),
            height_m: height.unwrap_or(USUAL_HEIGHT),
            floor_height_m: floor.unwrap_or(USUAL_FLOOR),
            scale: 1.0,
            arrangement,
            recorded: Recorded {
                length: length.is_some(),
                width: across.is_some(),
                height: height.is_some(),
                floor: floor.is_some(),
            },
        };
        if layout.height_m < layout.floor_height_m + 0.5 {
            layout.height_m = layout.floor_height_m + 0.5;
            layout.recorded.height = false;
        }
        let (fixed, metres) = layout.breadth();
        layout.scale = ((width - fixed) / metres).max(1.0);
        layout
    }

    /// What the drawing's width is made of: millimetres that stay, and metres of vehicle.
    fn breadth(&self) -> (f64, f64) {
        match self.arrangement {
            Arrangement::Wide => (2.0 * MARGIN + SPACE, 2.0 * (self.height_m + self.length_m)),
            Arrangement::Tall => (2.0 * MARGIN, 2.0 * self.height_m + self.length_m),
        }
    }

    /// What its height is made of.
    fn depth(&self) -> (f64, f64) {
        match self.arrangement {
            Arrangement::Wide => (2.0 * MARGIN, 2.0 * self.height_m + self.width_m),
            Arrangement::Tall => (2.0 * MARGIN + SPACE, 2.0 * (self.height_m + self.width_m)),
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
        let (wide_scale, wide_width) = fit(Arrangement::Wide);
        let (tall_scale, tall_width) = fit(Arrangement::Tall);
        if tall_scale > wide_scale {
            (Arrangement::Tall, tall_width)
        } else {
            (Arrangement::Wide, wide_width)
        }
    }

    /// Width and height of the whole drawing, mm.
    #[must_use]
    pub fn size(&self) -> (f64, f64) {
        let under = self.panel(Facing::Underfloor);
        let rear = self.panel(Facing::Rear);
        let nearside = self.panel(Facing::Nearside);
        (
            rear.right.max(under.right) + MARGIN,
            nearside.bottom.max(under.bottom) + MARGIN,
        )
    }

    /// The rectangle of a face. Sides reach from the roof down to the ground. Cavities are drawn
    /// on the face behind which they lie: see [`Layout::place`].
    #[must_use]
    pub fn panel(&self, facing: Facing) -> Panel {
        let (length, width) = (self.length_m * self.scale, self.width_m * self.scale);
        let height = self.height_m * self.scale;
        let (left, top) = (MARGIN + height, MARGIN + height);
        let at = |left: f64, top: f64, wide: f64, tall: f64| Panel {
            left,
            top,
            right: left + wide,
            bottom: top + tall,
        };
        match facing {
            Facing::Roof => at(left, top, length, width),
            Facing::Nearside => at(left, top + width, length, height),
            Facing::Offside => at(left, MARGIN, length, height),
            Facing::Front => at(MARGIN, top, height, width),
            Facing::Rear => at(left + length, top, height, width),
            Facing::Underfloor | Facing::Cavity(_) => match self.arrangement {
                Arrangement::Wide => at(left + length + height + SPACE, top, length, width),
                Arrangement::Tall => at(left, top + width + height + SPACE, length, width),
            },
        }
    }

    /// The face on which a gap is drawn: its own, or for a cavity the one it lies behind.
    #[must_use]
    pub fn drawn_on(&self, facing: Facing, position: &Position) -> Facing {
        let side = || {
            let near = position
                .across_m
                .is_none_or(|across| across <= self.width_m / 2.0);
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
        let panel = self.panel(face);
        let middle = f64::midpoint(self.floor_height_m, self.height_m);
        let along = position
            .along_m
            .unwrap_or(self.length_m / 2.0)
            .clamp(0.0, self.length_m);
        let across = position
            .across_m
            .unwrap_or(self.width_m / 2.0)
            .clamp(0.0, self.width_m);
        let height = position
            .height_m
            .unwrap_or(middle)
            .clamp(0.0, self.height_m);
        let down = (self.height_m - height) * self.scale;
        let (along_mm, across_mm) = (along * self.scale, across * self.scale);
        match face {
            Facing::Nearside => (
                Point::new(panel.left + along_mm, panel.top + down),
                position.along_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Offside => (
                Point::new(panel.left + along_mm, panel.bottom - down),
                position.along_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Front => (
                Point::new(panel.right - down, panel.bottom - across_mm),
                position.across_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Rear => (
                Point::new(panel.left + down, panel.bottom - across_mm),
                position.across_m.is_some() && position.height_m.is_some(),
            ),
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => (
                Point::new(panel.left + along_mm, panel.bottom - across_mm),
                position.along_m.is_some() && position.across_m.is_some(),
            ),
        }
    }

    /// Where a point of the vehicle lies on one of its faces.
    pub(super) fn on_face(&self, facing: Facing, along: f64, across: f64, height: f64) -> Point {
        let position = Position {
            along_m: Some(along),
            across_m: Some(across),
            height_m: Some(height),
            rise_m: None,
        };
        self.place(facing, &position).0
    }

    /// The place on the vehicle under a point of the drawing; `None` off every face. Only what
    /// the face and the recorded sizes determine is given.
    #[must_use]
    pub fn pick(&self, point: Point) -> Option<Picked> {
        let facing = FACES
            .into_iter()
            .find(|facing| self.panel(*facing).holds(point))?;
        let panel = self.panel(facing);
        let metres = |millimetres: f64| (millimetres / self.scale * 100.0).round() / 100.0;
        let known = self.recorded;
        let height = |down: f64| {
            let up = metres(self.height_m * self.scale - down);
            known.height.then_some(up)
        };
        let along = known.length.then(|| metres(point.x - panel.left));
        let across = known.width.then(|| metres(panel.bottom - point.y));
        let mut position = Position::default();
        match facing {
            Facing::Nearside => {
                position.along_m = along;
                position.height_m = height(point.y - panel.top);
            }
            Facing::Offside => {
                position.along_m = along;
                position.height_m = height(panel.bottom - point.y);
            }
            Facing::Front => {
                position.across_m = across;
                position.height_m = height(panel.right - point.x);
            }
            Facing::Rear => {
                position.across_m = across;
                position.height_m = height(point.x - panel.left);
            }
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => {
                position.along_m = along;
                position.across_m = across;
                position.height_m = if facing == Facing::Roof {
                    known.height.then_some(self.height_m)
                } else {
                    known.floor.then_some(self.floor_height_m)
                };
            }
        }
        Some(Picked { facing, position })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Survey, VehicleKind};
    use proptest::prelude::*;

    fn layout(arrangement: Arrangement) -> Layout {
        let mut vehicle = Survey::new(VehicleKind::TouringCaravan).vehicle;
        vehicle.length_m = Some(5.6);
        vehicle.width_m = Some(2.1);
        vehicle.height_m = Some(2.55);
        vehicle.floor_height_m = Some(0.5);
        Layout::new(&vehicle, arrangement, 300.0)
    }

    #[test]
    fn the_drawing_is_as_wide_as_asked() {
        for arrangement in [Arrangement::Wide, Arrangement::Tall] {
            assert!((layout(arrangement).size().0 - 300.0).abs() < 1e-9);
        }
    }

    #[test]
    fn nearside_is_left_seen_facing_forward() {
        // The front is to the left of the drawing, so the left-hand side is at the bottom.
        let layout = layout(Arrangement::Wide);
        assert!(layout.panel(Facing::Front).left < layout.panel(Facing::Roof).left);
        assert!(layout.panel(Facing::Nearside).top > layout.panel(Facing::Roof).top);
        let at = |across_m| Position {
            across_m: Some(across_m),
            ..Position::default()
        };
        let (near, _) = layout.place(Facing::Roof, &at(0.1));
        let (off, _) = layout.place(Facing::Roof, &at(2.0));
        assert!(near.y > off.y);
    }

    #[test]
    fn no_two_faces_overlap() {
        for arrangement in [Arrangement::Wide, Arrangement::Tall] {
            let layout = layout(arrangement);
            for (at, one) in FACES.iter().enumerate() {
                for other in &FACES[at + 1..] {
                    let (a, b) = (layout.panel(*one), layout.panel(*other));
                    let apart = a.right <= b.left + 1e-9
                        || b.right <= a.left + 1e-9
                        || a.bottom <= b.top + 1e-9
                        || b.bottom <= a.top + 1e-9;
                    assert!(apart, "{one:?} {other:?}");
                }
            }
        }
    }

    proptest! {
        /// What is drawn at a place is picked at that place, within the rounding to 1 cm.
        #[test]
        fn place_and_pick_agree(
            which in 0..6_usize,
            along in 0.01..5.59_f64,
            across in 0.01..2.09_f64,
            height in 0.01..2.54_f64,
            wide in any::<bool>(),
        ) {
            let arrangement = if wide { Arrangement::Wide } else { Arrangement::Tall };
            let layout = layout(arrangement);
            let facing = Facing::ALL[which];
            let position = Position {
                along_m: Some(along),
                across_m: Some(across),
                height_m: Some(height),
                rise_m: None,
            };
            let (point, complete) = layout.place(facing, &position);
            prop_assert!(complete);
            let picked = layout.pick(point).unwrap();
            prop_assert_eq!(picked.facing, facing);
            let near = |value: Option<f64>, expected: f64| {
                value.is_none_or(|value| (value - expected).abs() <= 0.005 + 1e-9)
            };
            prop_assert!(near(picked.position.along_m, along));
            prop_assert!(near(picked.position.across_m, across));
            if !matches!(facing, Facing::Roof | Facing::Underfloor) {
                prop_assert!(near(picked.position.height_m, height));
            }
        }
    }
}
