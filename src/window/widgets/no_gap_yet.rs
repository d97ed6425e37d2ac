//! What stands in the place of results while the ledger is empty.

use super::layout::card;
use crate::window::page::Page;
use crate::window::request::{Queue, Request};
use eframe::egui::Ui;

/// What stands on pages of results while the ledger is empty: why there are none, and the way to
/// the page where gaps are written down.
pub fn no_gap_yet(ui: &mut Ui, queue: &mut Queue) {
    card(ui, "Nothing to work out yet", |ui| {
        ui.label(
            "No gap has been written down. Air comes in through gaps: once the first one is in the \
             ledger, the results stand here.",
        );
        if ui.button("Go to the Gaps page").clicked() {
            queue.push(Request::Show(Page::Gaps));
        }
    });
}
