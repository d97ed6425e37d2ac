//! How labels, inputs and cards stand beside and below each other.

use super::words::is_touch;
use crate::physics::counts::whole;
use crate::window::theme::palette;
use eframe::egui;
use egui::{Align, Frame, Id, Layout, Margin, Response, RichText, Stroke, Ui, UiBuilder, vec2};
use std::fmt::Debug;
use std::hash::Hash;

/// Width of the labels in front of inputs, so that inputs stand in one line.
pub const LABEL_WIDTH: f32 = 138.0;

/// So much wider is a card in touch size.
const TOUCH_WIDER: f32 = 1.3;

/// A label of fixed width in front of an input; it wraps rather than being cut off.
pub fn label(ui: &mut Ui, words: &str, width: f32) -> Response {
    let height = ui.spacing().interact_size.y;
    ui.allocate_ui_with_layout(
        vec2(width, height),
        Layout::left_to_right(Align::Center).with_main_wrap(false),
        |ui| {
            ui.set_min_width(width);
            ui.set_max_width(width);
            let colour = palette(ui).muted;
            ui.add(egui::Label::new(RichText::new(words).color(colour)).wrap())
        },
    )
    .inner
}

/// A labelled row that holds something other than one input.
pub fn row<R>(ui: &mut Ui, words: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal(|ui| {
        label(ui, words, LABEL_WIDTH);
        content(ui)
    })
    .inner
}

/// A card: a titled group of rows on the page.
pub fn card<R>(ui: &mut Ui, title: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    let palette = palette(ui);
    Frame::new()
        .fill(palette.card)
        .stroke(Stroke::new(1.0, palette.rule))
        .corner_radius(4.0)
        .inner_margin(Margin::symmetric(12, 9))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            if !title.is_empty() {
                ui.heading(title);
                ui.add_space(3.0);
            }
            content(ui)
        })
        .inner
}

/// A part of the page whose controls stay themselves whatever comes and goes above it: without it a
/// button that nobody gave an id is told by how many stand before it, and loses the focus when they
/// change. `of` names the part among all of the window.
pub fn steady<R>(ui: &mut Ui, of: impl Hash + Debug, content: impl FnOnce(&mut Ui) -> R) -> R {
    let id = Id::unique(("steady", of));
    ui.scope_builder(UiBuilder::new().scope_id(id), content)
        .inner
}

/// How many columns fit that are each `least` wide at least, in touch size wider.
#[must_use]
pub fn columns_that_fit(ui: &Ui, least: f32) -> usize {
    let least = if is_touch(ui) {
        least * TOUCH_WIDER
    } else {
        least
    };
    whole(f64::from(ui.available_width() / least)).max(1)
}

/// Lays cards out in as many columns as fit, each `least` wide at least; `cards` draws the card
/// with the number it is given. Cards go to the columns in turn, so tab order follows the eye
/// down each column. In touch size they are wider, as words in inputs have less room.
pub fn columns(ui: &mut Ui, least: f32, cards: usize, mut draw: impl FnMut(&mut Ui, usize)) {
    let count = columns_that_fit(ui, least).min(cards).max(1);
    let each = cards.div_ceil(count);
    ui.columns(count, |columns| {
        for (at, column) in columns.iter_mut().enumerate() {
            for card in at * each..((at + 1) * each).min(cards) {
                // Not justified: words keep their spacing and buttons their size.
                column.vertical(|ui| draw(ui, card));
                column.add_space(4.0);
            }
        }
    });
}
