//! The pictures of the page In short.

use super::view::{InShortContext, Told, of};
use crate::report::Material;
use crate::report::in_short::{self, Picture};
use crate::window::body;
use eframe::egui::Ui;

/// Points of the screen for each millimetre of a drawing.
const POINTS_PER_MM: f32 = 4.4;
/// Least width of a drawing, mm.
const LEAST: f32 = 60.0;
/// Widest drawing of the vehicle, mm.
const MOST: f32 = 130.0;

/// Draws one of them as wide as the room.
pub(super) fn show(ui: &mut Ui, context: &mut InShortContext<'_>, told: &Told, picture: Picture) {
    let Some((_, study)) = of(context) else {
        return;
    };
    let room = (ui.available_width() / POINTS_PER_MM).max(LEAST);
    let width = f64::from(match picture {
        Picture::Options => room,
        Picture::Hole | Picture::StayOpen => room.min(MOST),
    });
    let kept = context.view.kept(picture);
    let material = Material::of(study);
    let scene = kept.get((told.revision, told.wintered, width), || {
        in_short::scene(&material, picture, width)
    });
    if let Some(scene) = scene.as_ref() {
        body::show(ui, scene, body::narrow(scene.height) * POINTS_PER_MM);
        ui.add_space(4.0);
    }
}
