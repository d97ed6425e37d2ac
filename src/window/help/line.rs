//! The line with help on the field that has the focus.

use super::at_hand;
use crate::window::commands::Command;
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Live;
use egui::{RichText, Ui};

/// What the line says on a page while no field has the focus.
pub(in crate::window) const OF_A_PAGE: &str =
    "Go to a field, and this line says what to enter there. Ctrl+F1 lists all keys.";

/// What the line says on the start page, which has no fields.
pub(in crate::window) const OF_THE_START_PAGE: &str = "Choose the kind of vehicle to begin a new survey with \
     usual sizes, to be measured and written over. Open… takes a survey file, NAME.ron. A sample \
     may be tried out at will: nothing is written to it until you save.";

/// Draws the line with help on the field that has the focus; else `otherwise`.
pub(in crate::window) fn show(ui: &mut Ui, queue: &mut Queue, otherwise: &str) {
    let words = match at_hand(ui.ctx()) {
        Some(at_hand) => {
            let words = units::text(ui.ctx(), at_hand.words);
            format!("{}: {words}", at_hand.label)
        }
        None => otherwise.to_owned(),
    };
    ui.horizontal_wrapped(|ui| {
        ui.set_min_height(36.0);
        ui.label(RichText::new("Help").strong().color(palette(ui).accent));
        let told = ui.label(words);
        ui.ctx()
            .accesskit_node_builder(told.id, |node| node.set_live(Live::Polite));
        if widgets::named_link(ui, "close", "Close the help") {
            queue.command(Command::FieldHelp);
        }
    });
}
