//! Where a scene lies on the screen.

use crate::figure::scene::{Point, Scene};
use eframe::egui;
use egui::{Pos2, Rect, Vec2, pos2};

/// Millimetres of a scene to points of the screen.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    origin: Pos2,
    /// Points for each millimetre.
    pub scale: f32,
}

impl Frame {
    /// The frame in which a scene fills a rectangle as far as its proportions allow.
    #[must_use]
    pub fn fit(scene: &Scene, rect: Rect) -> Self {
        let size = Vec2::new(narrow(scene.width), narrow(scene.height));
        let scale = (rect.width() / size.x)
            .min(rect.height() / size.y)
            .max(0.01);
        let origin = rect.center() - size * scale / 2.0;
        Self { origin, scale }
    }

    /// The frame with the scene's corner at a point of the screen, and so many points for each
    /// millimetre.
    #[must_use]
    pub fn at(origin: Pos2, scale: f32) -> Self {
        Self { origin, scale }
    }

    /// A point of the scene on the screen.
    #[must_use]
    pub fn to_screen(&self, point: Point) -> Pos2 {
        let (x, y) = (narrow(point.x), narrow(point.y));
        pos2(
            self.origin.x + x * self.scale,
            self.origin.y + y * self.scale,
        )
    }

    /// A point of the screen on the scene.
    #[must_use]
    pub fn to_scene(&self, at: Pos2) -> Point {
        let from = (at - self.origin) / self.scale;
        Point::new(f64::from(from.x), f64::from(from.y))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "screen co-ordinates are f32"
)]
pub(in crate::window) fn narrow(value: f64) -> f32 {
    value as f32
}
