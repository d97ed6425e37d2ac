//! Adding and moving gaps on the drawing.

use super::layout::{FACES, Layout, Panel, Picked};
use crate::figure::outline::fittings::on_face;
use crate::figure::scene::Point;
use crate::survey::gap::{Cavity, Facing, Gap, Position};
use crate::survey::{Fitting, Outline};

impl Layout {
    /// The place that a new gap at a point of the drawing has, with everything that its face
    /// determines; `None` off every face.
    #[must_use]
    pub fn added(&self, point: Point) -> Option<Picked> {
        let mut picked = self.pick(point)?;
        let (position, known) = (&mut picked.position, self.recorded());
        position.height_m = position.height_m.map(|height| height.max(LOWEST_M));
        match picked.facing {
            Facing::Nearside => position.across_m = known.width.then_some(0.0),
            Facing::Offside => position.across_m = known.width.then_some(self.sizes.width_m),
            Facing::Front => position.along_m = known.length.then_some(0.0),
            Facing::Rear => position.along_m = known.length.then_some(self.sizes.length_m),
            Facing::Roof | Facing::Underfloor | Facing::Cavity(_) => {}
        }
        Some(picked)
    }

    /// Where a gap is after its mark was moved to a point. Off every face it stays at the edge
    /// of the face it was on; a gap that opens into a cavity keeps the cavity.
    #[must_use]
    pub fn moved(&self, gap: &Gap, to: Point) -> Option<Picked> {
        let before = gap.position;
        let face = self.drawn_on(gap.facing, &before);
        let home = self.panel(face);
        let may_go = |picked: &Picked| reaches(gap.facing, picked.facing);
        let picked = self
            .added(to)
            .filter(may_go)
            .or_else(|| self.added(held(&home, to)))?;
        let facing = match gap.facing {
            Facing::Cavity(_) => gap.facing,
            _ => picked.facing,
        };
        let mut position = picked.position;
        position.rise_m = before.rise_m;
        if let Facing::Cavity(cavity) = gap.facing {
            // The drawing shows a cavity on the face in front of it: what lies behind the face
            // is not for the drawing to say.
            match cavity {
                Cavity::EngineBay | Cavity::WheelArch => {
                    position.height_m = before.height_m.or(position.height_m);
                }
                Cavity::Locker | Cavity::RefrigeratorCompartment => {
                    if picked.facing == face {
                        position.across_m = before.across_m.or(position.across_m);
                    }
                }
            }
        }
        if facing == gap.facing {
            position.along_m = position.along_m.or(before.along_m);
            position.across_m = position.across_m.or(before.across_m);
            position.height_m = position.height_m.or(before.height_m);
        }
        Some(Picked { facing, position })
    }

    /// Where a gap is after its mark was moved by so many metres to the right and down.
    #[must_use]
    pub fn nudged(&self, gap: &Gap, right_m: f64, down_m: f64) -> Option<Picked> {
        let (at, _) = self.place(gap.facing, &gap.position);
        let to = Point::new(at.x + right_m * self.scale, at.y + down_m * self.scale);
        let face = self.drawn_on(gap.facing, &gap.position);
        self.moved(gap, held(&self.panel(face), to))
    }

    /// A fitting after its middle was moved to a point: on the face there, and off every face at the
    /// edge of its own.
    #[must_use]
    pub fn fitting_moved(&self, fitting: &Fitting, to: Point) -> Fitting {
        let own = self.drawn_on(fitting.outline.facing, &Position::default());
        let face = self.face_at(to).unwrap_or(own);
        self.fitting_on(fitting, face, to)
    }

    /// A fitting with its middle as near to a point as this face allows.
    #[must_use]
    pub fn fitting_on(&self, fitting: &Fitting, face: Facing, to: Point) -> Fitting {
        let rounded = |metres: f64| (metres * 100.0).round() / 100.0;
        let (side, up) = self.spot_at(face, held(&self.panel(face), to));
        let outline = Outline {
            facing: face,
            along_m: rounded(side),
            up_m: rounded(up),
            ..fitting.outline
        };
        Fitting {
            outline: on_face(&outline, &self.sizes),
            ..fitting.clone()
        }
    }

    /// The point of another drawing of the same vehicle that shows the place at a point of this
    /// one, on the nearest face or beside it.
    #[must_use]
    pub fn carried(&self, point: Point, to: &Self) -> Point {
        let away = |facing: &Facing| held(&self.panel(*facing), point).distance(point);
        let nearest = FACES
            .into_iter()
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .unwrap_or(Facing::Roof);
        let (from, onto) = (self.panel(nearest), to.panel(nearest));
        let larger = to.scale / self.scale;
        Point::new(
            onto.left + (point.x - from.left) * larger,
            onto.top + (point.y - from.top) * larger,
        )
    }

    /// The lower and upper end of a gap that spans a height, on the sides.
    #[must_use]
    pub fn ends(&self, gap: &Gap) -> Option<(Point, Point)> {
        let rise = gap.position.rise_m.filter(|rise| *rise > 0.0)?;
        let height = gap.position.height_m?;
        let upright = matches!(
            self.drawn_on(gap.facing, &gap.position),
            Facing::Nearside | Facing::Offside | Facing::Front | Facing::Rear
        );
        let at = |height: f64| {
            let position = Position {
                height_m: Some(height),
                ..gap.position
            };
            self.place(gap.facing, &position).0
        };
        upright.then(|| (at(height - rise / 2.0), at(height + rise / 2.0)))
    }
}

/// No gap is recorded nearer to the ground than this, m: a mark dropped on the ground line stays
/// just above it.
const LOWEST_M: f64 = 0.05;

/// Whether the mark of a gap with this facing may lie on a face.
fn reaches(facing: Facing, face: Facing) -> bool {
    match facing {
        Facing::Cavity(Cavity::EngineBay | Cavity::WheelArch) => face == Facing::Underfloor,
        Facing::Cavity(Cavity::Locker | Cavity::RefrigeratorCompartment) => {
            matches!(face, Facing::Nearside | Facing::Offside)
        }
        _ => true,
    }
}

/// The point of a face that is nearest to a point.
fn held(panel: &Panel, point: Point) -> Point {
    Point::new(
        point.x.clamp(panel.left, panel.right),
        point.y.clamp(panel.top, panel.bottom),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::body::Arrangement;
    use crate::survey::gap::Form;
    use crate::survey::{GapId, Survey, VehicleKind, ZoneId};

    fn survey() -> Survey {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        let vehicle = &mut survey.vehicle;
        (vehicle.length_m, vehicle.width_m) = (Some(5.0), Some(2.2));
        (vehicle.height_m, vehicle.floor_height_m) = (Some(2.6), Some(0.5));
        survey
    }

    fn layout() -> Layout {
        Layout::new(&survey().vehicle, Arrangement::Tall, 200.0)
    }

    fn gap(facing: Facing, along: f64, across: f64, height: f64) -> Gap {
        let mut gap = Gap::new(
            GapId(1),
            ZoneId(1),
            facing,
            Form::RoundHole { diameter_mm: None },
        );
        gap.position = Position {
            along_m: Some(along),
            across_m: Some(across),
            height_m: Some(height),
            rise_m: Some(0.4),
        };
        gap
    }

    fn near(value: Option<f64>, expected: f64) {
        let value = value.unwrap();
        assert!((value - expected).abs() < 0.0051, "{value} for {expected}");
    }

    /// The sides stand upright: 0.5 m down is 0.5 m lower.
    #[test]
    fn a_mark_moved_right_and_down_moves_to_the_rear_and_lower() {
        let gap = gap(Facing::Nearside, 2.0, 0.0, 1.5);
        let picked = layout().nudged(&gap, 1.0, 0.5).unwrap();
        assert_eq!(picked.facing, Facing::Nearside);
        near(picked.position.along_m, 3.0);
        near(picked.position.height_m, 1.0);
        near(picked.position.across_m, 0.0);
        assert_eq!(picked.position.rise_m, Some(0.4));
        // The offside has its front to the right: right on the drawing is towards the front.
        let gap = self::gap(Facing::Offside, 2.0, 2.2, 1.5);
        let picked = layout().nudged(&gap, 0.5, 0.5).unwrap();
        near(picked.position.along_m, 1.5);
        near(picked.position.height_m, 1.0);
    }

    #[test]
    fn a_mark_dropped_on_another_face_changes_its_facing_and_off_every_face_it_stays() {
        let layout = layout();
        let gap = gap(Facing::Nearside, 2.0, 0.0, 1.5);
        let roof = layout.panel(Facing::Roof).middle();
        let picked = layout.moved(&gap, roof).unwrap();
        assert_eq!(picked.facing, Facing::Roof);
        near(picked.position.across_m, 1.1);
        near(picked.position.height_m, 2.6);
        let rear = layout.moved(&gap, layout.panel(Facing::Rear).middle());
        near(rear.unwrap().position.along_m, 5.0);
        let nowhere = Point::new(layout.panel(Facing::Nearside).left - 1.0, 1e6);
        let picked = layout.moved(&gap, nowhere).unwrap();
        assert_eq!(picked.facing, Facing::Nearside);
        near(picked.position.along_m, 0.0);
        near(picked.position.height_m, LOWEST_M);
    }

    #[test]
    fn a_gap_into_a_cavity_keeps_the_cavity_and_what_lies_behind_the_face() {
        let layout = layout();
        let behind = Facing::Cavity(Cavity::RefrigeratorCompartment);
        let gap = gap(behind, 2.0, 1.7, 1.2);
        let roof = layout.panel(Facing::Roof).middle();
        assert_eq!(layout.moved(&gap, roof).unwrap().facing, behind);
        // On the offside the rear is to the left.
        let picked = layout.nudged(&gap, -0.5, 0.0).unwrap();
        near(picked.position.along_m, 2.5);
        near(picked.position.across_m, 1.7);
        let across = layout.panel(Facing::Nearside).middle();
        near(layout.moved(&gap, across).unwrap().position.across_m, 0.0);
        let arch = self::gap(Facing::Cavity(Cavity::WheelArch), 2.0, 0.3, 0.6);
        let picked = layout.nudged(&arch, 0.0, -0.5).unwrap();
        near(picked.position.across_m, 0.8);
        near(picked.position.height_m, 0.6);
    }

    /// A drawing of usual size says nothing about a vehicle whose size is not recorded.
    #[test]
    fn no_place_is_made_up_from_a_size_that_was_not_recorded() {
        let mut vehicle = survey().vehicle;
        (vehicle.length_m, vehicle.height_m) = (None, None);
        let layout = Layout::new(&vehicle, Arrangement::Wide, 300.0);
        let side = layout
            .added(layout.panel(Facing::Nearside).middle())
            .unwrap();
        assert_eq!(side.facing, Facing::Nearside);
        assert_eq!(
            (side.position.along_m, side.position.height_m),
            (None, None)
        );
        near(side.position.across_m, 0.0);
        let under = layout.added(layout.panel(Facing::Underfloor).middle());
        near(under.unwrap().position.height_m, 0.5);
        // What the surveyor typed stays.
        let gap = gap(Facing::Nearside, 2.0, 0.0, 1.5);
        let moved = layout.moved(&gap, layout.panel(Facing::Nearside).middle());
        near(moved.unwrap().position.along_m, 2.0);
    }

    #[test]
    fn a_point_is_carried_to_the_same_place_of_a_larger_drawing() {
        let vehicle = survey().vehicle;
        let small = Layout::new(&vehicle, Arrangement::Tall, 150.0);
        let large = Layout::new(&vehicle, Arrangement::Tall, 600.0);
        for facing in [Facing::Roof, Facing::Rear, Facing::Underfloor] {
            let gap = gap(facing, 4.0, 0.7, 1.3);
            let (from, _) = small.place(facing, &gap.position);
            let (expected, _) = large.place(facing, &gap.position);
            assert!(small.carried(from, &large).distance(expected) < 1e-9);
        }
    }

    #[test]
    fn the_larger_arrangement_fits_the_space_and_zoom_enlarges_it() {
        let vehicle = survey().vehicle;
        for (wide, tall, expected) in [
            (300.0, 90.0, Arrangement::Wide),
            (200.0, 150.0, Arrangement::Square),
            (150.0, 220.0, Arrangement::Tall),
        ] {
            let (arrangement, width) = Layout::fitting(&vehicle, wide, tall, 1.0);
            assert_eq!(arrangement, expected);
            let whole = Layout::new(&vehicle, arrangement, width);
            let (w, h) = whole.size();
            assert!(w <= wide + 1e-6 && h <= tall + 1e-6);
            assert!((w - wide).abs() < 1e-6 || (h - tall).abs() < 1e-6);
            let (_, width) = Layout::fitting(&vehicle, wide, tall, 3.0);
            let large = Layout::new(&vehicle, arrangement, width);
            assert!((large.scale / whole.scale - 3.0).abs() < 1e-9);
        }
    }
}
