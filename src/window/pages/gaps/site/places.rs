//! The station that the surveyor stands at, with its places.

use super::super::view::GapsContext;
use super::super::walk;
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};

/// Rows of the list of places that stay in sight below the place at hand.
const LIST_LEAST: f32 = 1.4;
/// Height that the words on how to look keep, two lines.
const HOW_LEAST: f32 = 32.0;

/// Draws the station.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let Some((station, _)) = context.view.walk.place_in(context.survey) else {
        return;
    };
    ui.horizontal(|ui| {
        for (sign, name, next) in [("←", "Station before", false), ("→", "Next station", true)]
        {
            let target = egui::Vec2::splat(ui.spacing().interact_size.y);
            let button = ui.add(egui::Button::new(sign).min_size(target));
            widgets::tell_name(ui, button.id, name);
            if button.clicked() {
                context.view.walk.step_station(context.survey, next);
            }
        }
        let progress = context.survey.progress_at(station);
        let words = format!(
            "{}: {} of {}",
            station.words(),
            progress.looked(),
            progress.places
        );
        ui.label(RichText::new(words).family(bold()));
    });
    walk::place(ui, context);
    let list = LIST_LEAST * (ui.spacing().interact_size.y + ui.spacing().item_spacing.y);
    ScrollArea::vertical()
        .id_salt("place at hand")
        .min_scrolled_height(HOW_LEAST)
        .max_height((ui.available_height() - list).max(HOW_LEAST))
        .show(ui, |ui| walk::how_to_look(ui, context));
    walk::list(ui, context, Some(station));
}
