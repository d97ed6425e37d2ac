//! The station that the surveyor stands at, with its places.

use super::super::view::GapsContext;
use super::super::walk;
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};

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
    ScrollArea::vertical()
        .id_salt("place at hand")
        .max_height(ui.available_height() * 0.62)
        .show(ui, |ui| walk::place(ui, context));
    walk::list(ui, context, Some(station));
}
