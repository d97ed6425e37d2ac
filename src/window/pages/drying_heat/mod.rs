//! The Drying & heat page: water to remove and heat for each weather case, cautions, and safety
//! ventilation.

mod cases;
mod cautions;
mod safety;

use crate::survey::Item;
use crate::window::page::PageContext;
use crate::window::widgets;
use eframe::egui;
use egui::{ScrollArea, Ui};

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct DryingHeatView {
    safety_wanted: bool,
}

impl DryingHeatView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        self.safety_wanted = item == Item::SafetyVentilation;
    }
}

/// Width of a card at least.
const CARD_LEAST: f32 = 420.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    ScrollArea::vertical()
        .id_salt("drying and heat")
        .auto_shrink(false)
        .show(ui, |ui| {
            let targets = &context.survey.targets;
            let set_up = results.assessment.set_up.name();
            let title = format!(
                "Water to remove to hold {} % RH, {set_up}",
                targets.rh_percent
            );
            widgets::card(ui, &title, |ui| cases::water(ui, context, results));
            ui.add_space(4.0);
            let title = format!("Heat, {set_up}");
            widgets::card(ui, &title, |ui| cases::heat(ui, context, results));
            ui.add_space(4.0);
            widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
                if at == 0 {
                    let drawn = ui.scope(|ui| {
                        widgets::card(ui, "Safety ventilation", |ui| {
                            safety::show(ui, context, results);
                        });
                    });
                    if std::mem::take(&mut context.view.drying_heat.safety_wanted) {
                        drawn.response.scroll_to_me(Some(egui::Align::Center));
                    }
                } else {
                    widgets::card(ui, "Before you heat or dry", |ui| {
                        cautions::show(ui, context);
                    });
                }
            });
        });
}
