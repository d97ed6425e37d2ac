//! Cold surfaces with the option and in the weather that were chosen.

use super::view::{DryingHeatContext, dates};
use crate::assess::Comparison;
use crate::window::widgets;
use eframe::egui::Ui;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let dates = dates(context);
    let view = &mut *context.view;
    ui.horizontal_wrapped(|ui| {
        view.shown
            .choose_case(ui, "Surfaces in weather", comparison);
        view.shown
            .choose_option(ui, "Surfaces with option", comparison);
    });
    let told = view.texts.of_shown(dates, comparison, view.shown);
    widgets::report::section(ui, context.queue, &told.surfaces);
}
