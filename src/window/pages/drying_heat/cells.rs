//! What the cards of the page share: their width, and words in the cells of tables.

use crate::window::theme::palette;
use eframe::egui;
use egui::{Label, RichText, Ui};

/// Width of a card at least.
pub(super) const CARD_LEAST: f32 = 420.0;
/// Points of the screen for each millimetre of a drawing on this page.
pub(super) const POINTS_PER_MM: f32 = 4.0;

/// Small muted words on one line, for cells of tables.
pub(super) fn small(ui: &mut Ui, words: impl Into<String>) {
    let words = RichText::new(words).small().color(palette(ui).muted);
    ui.add(Label::new(words).extend());
}

/// Words on one line, for cells of tables.
pub(super) fn cell(ui: &mut Ui, words: impl Into<String>) {
    ui.add(Label::new(words.into()).extend());
}

/// *Not known* in a cell; the reason stands on hover.
pub(super) fn unknown(ui: &mut Ui, reason: &str) {
    let words = RichText::new("not known")
        .italics()
        .color(palette(ui).muted);
    ui.add(Label::new(words).extend()).on_hover_text(reason);
}
