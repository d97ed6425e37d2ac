//! The weather cases side by side.

use super::view::AirChangeContext;
use crate::report::Material;
use crate::report::cases::{Part, section};
use crate::window::widgets::report;
use eframe::egui::Ui;

/// What this page tells of each case; water and heat stand on the page about them.
const PARTS: [Part; 4] = [Part::Weather, Part::AirChange, Part::Balance, Part::Spaces];

/// Draws the table and the mean of the season.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>, told: &Material<'_>) {
    report::section(ui, context.queue, &section(told, &PARTS));
}
