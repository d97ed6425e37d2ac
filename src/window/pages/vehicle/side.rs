//! The vehicle from its side and from in front, with its sizes: it follows every keystroke.

use super::view::VehicleContext;
use crate::figure::outline::{SideShow, side};
use crate::window::{body, widgets};
use eframe::egui::Ui;

/// Width on paper, mm: it decides how large letters are.
const WIDTH_MM: f64 = 118.0;
const MOST_HEIGHT: f32 = 240.0;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    let figure = context.view.drawing.get(context.revision, || {
        let show = SideShow {
            dimensions: true,
            front: true,
        };
        side(survey, show, WIDTH_MM)
    });
    widgets::card(ui, "", |ui| {
        let height = body::height_for(ui, &figure.scene).min(MOST_HEIGHT);
        body::show(ui, &figure.scene, height);
    });
}
