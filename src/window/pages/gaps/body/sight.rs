//! How much of the drawing is in sight: zoom and pan.

use crate::figure::body::{Arrangement, Layout};
use crate::figure::scene::Scene;
use crate::survey::Vehicle;
use crate::window::body::{Frame, narrow};
use eframe::egui;
use egui::{Pos2, Rect, Vec2};

/// Points of the screen for each millimetre of the drawing: letters of 2.2 mm can just be read.
/// Enlarging the drawing enlarges the body and not its marks, so that marks part.
const POINTS_PER_MM: f32 = 3.0;
const ZOOM_MOST: f32 = 12.0;
/// One step by key or button.
pub(super) const STEP: f32 = 1.3;
/// So much of the drawing stays in sight, points.
const KEPT: f32 = 60.0;
/// Air round a mark that is brought into sight, points.
const AIR: f32 = 40.0;

/// The drawing as it is before its sight changes.
pub(super) struct Drawn<'a> {
    pub(super) vehicle: &'a Vehicle,
    pub(super) layout: &'a Layout,
    pub(super) frame: Frame,
}

/// Zoom and pan.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sight {
    zoom: f32,
    /// Way of the drawing's middle from the middle of the space, points.
    pan: Vec2,
}

impl Default for Sight {
    fn default() -> Self {
        Self {
            zoom: 1.0,
            pan: Vec2::ZERO,
        }
    }
}

fn points(millimetres: f64) -> f32 {
    narrow(millimetres) * POINTS_PER_MM
}

impl Sight {
    /// Arrangement and width in millimetres of the drawing for a space.
    pub(super) fn paper(&self, vehicle: &Vehicle, space: Rect) -> (Arrangement, f64) {
        let millimetres = |points: f32| f64::from(points / POINTS_PER_MM);
        let (wide, tall) = (millimetres(space.width()), millimetres(space.height()));
        Layout::fitting(vehicle, wide, tall, f64::from(self.zoom))
    }

    /// How a drawing lies on the screen.
    pub(super) fn frame(&self, scene: &Scene, space: Rect) -> Frame {
        let size = Vec2::new(points(scene.width), points(scene.height));
        let pan = self.held(size, space);
        Frame::at(space.center() + pan - size / 2.0, POINTS_PER_MM)
    }

    /// The pan, held so that some of the drawing stays in sight.
    fn held(&self, size: Vec2, space: Rect) -> Vec2 {
        let most = ((size + space.size()) / 2.0 - Vec2::splat(KEPT)).max(Vec2::ZERO);
        let most = if self.zoom > 1.0 { most } else { Vec2::ZERO };
        self.pan.clamp(-most, most)
    }

    /// Enlarges by a factor; the place of the vehicle that `drawn` shows at a point of the screen
    /// stays there.
    pub(super) fn enlarge(&mut self, factor: f32, about: Pos2, space: Rect, drawn: &Drawn<'_>) {
        let under = drawn.frame.to_scene(about);
        self.zoom = (self.zoom * factor).clamp(1.0, ZOOM_MOST);
        if self.zoom <= 1.0 {
            self.pan = Vec2::ZERO;
            return;
        }
        let (arrangement, width) = self.paper(drawn.vehicle, space);
        let larger = Layout::new(drawn.vehicle, arrangement, width);
        let to = drawn.layout.carried(under, &larger);
        let (width, height) = larger.size();
        let from_middle = Vec2::new(points(to.x - width / 2.0), points(to.y - height / 2.0));
        self.pan = about - space.center() - from_middle;
    }

    /// The whole drawing.
    pub(super) fn whole(&mut self) {
        *self = Self::default();
    }

    /// Moves the drawing on the screen.
    pub(super) fn shift(&mut self, by: Vec2) {
        if self.zoom > 1.0 {
            self.pan += by;
        }
    }

    /// Brings a point of the screen into sight.
    pub(super) fn reveal(&mut self, at: Pos2, space: Rect) {
        let inner = space.shrink(AIR.min(space.size().min_elem() / 3.0));
        self.shift(inner.clamp(at) - at);
    }

    /// Whether the drawing is enlarged.
    pub(super) fn is_enlarged(&self) -> bool {
        self.zoom > 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Position, Survey, VehicleKind};
    use egui::pos2;

    fn space() -> Rect {
        Rect::from_min_max(pos2(0.0, 0.0), pos2(500.0, 400.0))
    }

    fn vehicle() -> Vehicle {
        Survey::new(VehicleKind::PanelVan).vehicle
    }

    fn layout(sight: &Sight, vehicle: &Vehicle) -> (Layout, Frame) {
        let (arrangement, width) = sight.paper(vehicle, space());
        let layout = Layout::new(vehicle, arrangement, width);
        let (wide, tall) = layout.size();
        let frame = sight.frame(&Scene::new(wide, tall), space());
        (layout, frame)
    }

    fn enlarged(sight: &mut Sight, factor: f32, about: Pos2) {
        let vehicle = vehicle();
        let (layout, frame) = layout(sight, &vehicle);
        let drawn = Drawn {
            vehicle: &vehicle,
            layout: &layout,
            frame,
        };
        sight.enlarge(factor, about, space(), &drawn);
    }

    #[test]
    fn what_is_under_the_pointer_stays_there_while_it_is_enlarged() {
        let mut sight = Sight::default();
        let place = Position {
            along_m: Some(2.0),
            across_m: Some(0.5),
            ..Position::default()
        };
        let seen = |sight: &Sight| {
            let (layout, frame) = layout(sight, &vehicle());
            frame.to_screen(layout.place(Facing::Underfloor, &place).0)
        };
        let about = seen(&sight);
        for factor in [2.0, 1.7, 0.8] {
            enlarged(&mut sight, factor, about);
            assert!((seen(&sight) - about).length() < 0.01);
        }
        enlarged(&mut sight, 0.01, about);
        assert!(!sight.is_enlarged() && sight.pan == Vec2::ZERO);
        enlarged(&mut sight, 1e9, about);
        assert!(sight.zoom <= ZOOM_MOST);
    }

    #[test]
    fn a_mark_out_of_sight_is_brought_into_it_and_one_in_sight_moves_nothing() {
        let mut sight = Sight {
            zoom: 3.0,
            pan: Vec2::ZERO,
        };
        sight.reveal(pos2(250.0, 200.0), space());
        assert_eq!(sight.pan, Vec2::ZERO);
        sight.reveal(pos2(900.0, 200.0), space());
        assert!((sight.pan.x + 440.0).abs() < 1e-3 && sight.pan.y.abs() < 1e-3);
    }
}
