//! The Air change page: weather cases side by side, the curves, and the flow through each gap.

mod cases;
pub(super) mod curves;
pub mod direction;
mod flows;
pub(super) mod lines;

use crate::survey::{Item, WeatherId};
use crate::window::page::PageContext;
use crate::window::widgets;
use eframe::egui;
use egui::{ScrollArea, Ui};

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct AirChangeView {
    case: Option<WeatherId>,
    direction: usize,
    ledger_order: bool,
}

impl AirChangeView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if let Item::Weather(id) = item {
            self.case = Some(id);
        }
    }

    /// Number of the wind direction whose flows are shown, clockwise from the front.
    #[must_use]
    pub fn direction(&self) -> usize {
        self.direction
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
        .id_salt("air change")
        .auto_shrink(false)
        .show(ui, |ui| {
            let set_up = results.assessment.set_up.name();
            let title = format!("Weather cases, {set_up}");
            widgets::card(ui, &title, |ui| cases::show(ui, context, results));
            ui.add_space(4.0);
            widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
                if at == 0 {
                    widgets::card(ui, "Air changes against wind direction", |ui| {
                        curves::against_direction(ui, context, results);
                    });
                } else {
                    widgets::card(ui, "Air changes against wind speed", |ui| {
                        curves::against_speed(ui, results);
                    });
                }
            });
            widgets::card(ui, "Air through each gap", |ui| {
                flows::show(ui, context, results);
            });
            widgets::follow_focus(ui);
        });
}
