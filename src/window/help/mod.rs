//! Help on a field: what to enter, and how to measure it on site.
//!
//! The sentence is the field's hover text and its description for assistive technology, and the
//! line that F1 opens shows it for the field that has the focus. The sentences on the fields of a
//! survey stand in the catalogue, [`Field::help`](crate::survey::Field::help).

pub(super) mod line;

use eframe::egui;
use egui::{Context, Id, Response, Ui};

/// The field that has the focus, and help on it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct AtHand {
    focus: Id,
    pub(super) label: String,
    pub(super) words: &'static str,
}

fn key() -> Id {
    Id::unique("help at hand")
}

/// Tells assistive technology the sentence, and holds it ready while the field has the focus. A
/// field of the page that needs no words has none.
pub fn offer(ui: &Ui, response: &Response, label: &str, words: &'static str) {
    if words.is_empty() {
        return;
    }
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_description(words));
    if !response.has_focus() {
        return;
    }
    let now = AtHand {
        focus: response.id,
        label: label.to_owned(),
        words,
    };
    let before = ui.data(|data| data.get_temp::<AtHand>(key()));
    if before.as_ref() != Some(&now) {
        ui.data_mut(|data| data.insert_temp(key(), now));
        // The line is drawn before the field: it follows in the next frame.
        ui.ctx().request_repaint();
    }
}

/// As [`offer`], and the sentence is the field's hover text.
pub fn explain(ui: &Ui, response: Response, label: &str, words: &'static str) -> Response {
    offer(ui, &response, label, words);
    if words.is_empty() {
        response
    } else {
        response.on_hover_text(words)
    }
}

/// The field that has the focus, and help on it.
pub(super) fn at_hand(ctx: &Context) -> Option<AtHand> {
    let at_hand = ctx.data(|data| data.get_temp::<AtHand>(key()))?;
    let focused = ctx.memory(|memory| memory.focused());
    (focused == Some(at_hand.focus)).then_some(at_hand)
}
