//! Scenes on the screen: painted with the theme's colours and hit-tested.

mod paint;

pub use paint::paint;

use super::theme::{self, Palette};
use crate::figure::scene::{Point, Role, Scene};
use crate::survey::GapId;
use eframe::egui;
use egui::{Color32, Pos2, Rect, Response, Sense, Ui, Vec2, pos2};

/// How far from a mark a click still means it, in points of the screen.
pub const REACH: f32 = 8.0;

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
fn narrow(value: f64) -> f32 {
    value as f32
}

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
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &scene.description));
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

/// The colour of a role in a theme.
#[must_use]
pub fn colour(role: Role, palette: &Palette) -> Color32 {
    match role {
        Role::Ink => palette.text,
        Role::Faint => palette.muted,
        Role::Body => palette.card,
        Role::Glass => palette.selection,
        Role::Ground => palette.button,
        Role::Leak | Role::Partly => palette.warning,
        Role::Protected | Role::Well => palette.ok,
        Role::Second => palette.second,
        Role::Third => palette.third,
        Role::Own | Role::Inward | Role::First => palette.accent,
        Role::Outward | Role::Selected => palette.danger,
    }
}
