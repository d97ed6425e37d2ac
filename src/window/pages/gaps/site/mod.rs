//! Site mode: the drawing, a station of the walk round, and one large form with a number pad.
//! Nothing else is on the screen.

mod bar;
mod form;
mod pad;
mod places;
pub(super) mod view;

pub use bar::show as bar;

use super::body;
use super::division::{Division, SHARES};
use super::view::GapsContext;
use crate::window::widgets::{self, Moved};
use eframe::egui;
use egui::{Panel, Ui};

/// Width that each half keeps.
const HALF_LEAST: f32 = 380.0;
/// Share of the left half's height that the drawing has.
const DRAWING: f32 = 0.5;
/// Height that the drawing keeps.
const DRAWING_LEAST: f32 = 150.0;

/// Draws all of it but the bar.
pub fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    context.view.select_what_was_added(context.survey);
    pad::begin(ui, &mut context.view.site.pad);
    let room = ui.available_rect_before_wrap();
    let most = (room.width() - HALF_LEAST).max(HALF_LEAST);
    let width = (room.width() * context.view.division.site).clamp(HALF_LEAST, most);
    let frame = egui::Frame::new().inner_margin(egui::Margin {
        right: 10,
        ..egui::Margin::ZERO
    });
    Panel::left("site left")
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(width)
        .show(ui, |ui| drawing_and_places(ui, context));
    let edge = room.left() + width;
    let across = egui::Rangef::new(edge - 9.0, edge + 3.0);
    let moved = widgets::edge(ui, "Edge between drawing and form", across, room);
    let share = match moved {
        Some(Moved::To(x)) => (x + 3.0 - room.left()).clamp(HALF_LEAST, most) / room.width(),
        Some(Moved::Back) => Division::default().site,
        None => context.view.division.site,
    };
    context.view.division.site = share.clamp(*SHARES.start(), *SHARES.end());
    form::show(ui, context);
}

fn drawing_and_places(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let height = (ui.available_height() * DRAWING).max(DRAWING_LEAST);
    let size = egui::vec2(ui.available_width(), height);
    ui.allocate_ui(size, |ui| {
        ui.set_max_height(height);
        body::drawing(ui, context, false);
    });
    places::show(ui, context);
}
