//! Scenes on the screen: painted with the theme's colours and hit-tested.

mod frame;
mod paint;

pub use frame::Frame;
pub use paint::{colour, paint};

use super::theme;
use super::units;
use crate::figure::scene::{Point, Scene};
use crate::survey::GapId;
use eframe::egui;
use egui::{Pos2, Response, Sense, Ui, Vec2};
pub(super) use frame::narrow;

/// How far from a mark a click still means it, in points of the screen.
pub const REACH: f32 = 8.0;

/// What the pointer does on a drawing.
pub struct Touched {
    /// The drawing's own response.
    pub response: Response,
    /// The gap under the pointer.
    pub hovered: Option<GapId>,
    /// Where the pointer was clicked, mm.
    pub clicked: Option<Point>,
    /// The gap that was clicked.
    pub clicked_gap: Option<GapId>,
    /// How the scene lies on the screen.
    pub frame: Frame,
}

/// Height at which a scene fills the width left.
#[must_use]
pub fn height_for(ui: &Ui, scene: &Scene) -> f32 {
    ui.available_width() * narrow(scene.height / scene.width)
}

/// Paints a scene into the space left, at most `height` points high, and says what was touched.
pub fn show(ui: &mut Ui, scene: &Scene, height: f32) -> Touched {
    let size = Vec2::new(ui.available_width(), height);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let told = units::text(ui.ctx(), &scene.description);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
    let frame = Frame::fit(scene, rect);
    if ui.is_rect_visible(rect) {
        paint(
            &ui.painter().with_clip_rect(rect),
            scene,
            &frame,
            theme::palette(ui),
        );
    }
    if response.has_focus() {
        let stroke = ui.visuals().selection.stroke;
        ui.painter()
            .rect_stroke(rect, 2.0, stroke, egui::StrokeKind::Inside);
    }
    let reach = f64::from(REACH / frame.scale);
    let gap_under = |at: Pos2| scene.gap_at(frame.to_scene(at), reach);
    let hovered = response.hover_pos().and_then(gap_under);
    let clicked_at = response
        .clicked()
        .then(|| response.interact_pointer_pos())
        .flatten();
    Touched {
        hovered,
        clicked: clicked_at.map(|at| frame.to_scene(at)),
        clicked_gap: clicked_at.and_then(gap_under),
        response,
        frame,
    }
}
