//! Help on every field: one sentence on what to enter, and how to measure it on site.
//!
//! Fields hand their name and label to [`explain`]; the sentence becomes their hover text and
//! their description for assistive technology, and the line that F1 opens shows it for the field
//! that has the focus.

mod gaps;
pub(super) mod line;
mod text;
mod vehicle;

pub use text::Help;

use eframe::egui;
use egui::{Context, Id, Response, Ui};

/// Help on every field.
pub fn all() -> impl Iterator<Item = &'static Help> {
    gaps::HELP.iter().chain(vehicle::HELP)
}

/// The sentence for a field: that for its label, or else that for any label.
#[must_use]
pub fn sentence(field: &str, label: &str) -> Option<&'static str> {
    let of = |wanted: &str| all().find(|help| help.field == field && help.label == wanted);
    let any = || all().find(|help| !field.is_empty() && help.field == field);
    let found = of(label).or_else(|| of("")).or_else(any);
    found.map(|help| help.words)
}

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

/// Tells assistive technology the sentence, and holds it ready while the field has the focus.
pub fn offer(ui: &Ui, response: &Response, field: &str, label: &str) {
    let Some(words) = sentence(field, label) else {
        return;
    };
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
pub fn explain(ui: &Ui, response: Response, field: &str, label: &str) -> Response {
    offer(ui, &response, field, label);
    match sentence(field, label) {
        Some(words) => response.on_hover_text(words),
        None => response,
    }
}

/// The field that has the focus, and help on it.
pub(super) fn at_hand(ctx: &Context) -> Option<AtHand> {
    let at_hand = ctx.data(|data| data.get_temp::<AtHand>(key()))?;
    let focused = ctx.memory(|memory| memory.focused());
    (focused == Some(at_hand.focus)).then_some(at_hand)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_help_is_one_sentence_or_two_and_stands_once() {
        let all: Vec<&Help> = all().collect();
        for (at, help) in all.iter().enumerate() {
            let key = (help.field, help.label);
            assert!(!(help.field.is_empty() && help.label.is_empty()));
            assert!(help.words.ends_with('.'), "{key:?}");
            assert!((20..260).contains(&help.words.len()), "{key:?}");
            let twice = all[..at]
                .iter()
                .any(|other| (other.field, other.label) == key);
            assert!(!twice, "{key:?}");
        }
    }

    #[test]
    fn every_number_that_has_a_range_has_help() {
        for range in crate::survey::limits::RANGES {
            assert!(sentence(range.field, "").is_some(), "{}", range.field);
        }
    }

    #[test]
    fn the_label_decides_where_fields_share_a_name() {
        let of_the_roof = sentence("height_m", "Roof above ground");
        assert_ne!(of_the_roof, sentence("height_m", "Height of its middle"));
        assert!(of_the_roof.is_some());
        // A slot is gauged, the side of a hole is measured with a ruler.
        let side = sentence("gap_width_mm", "Width").unwrap();
        assert!(side.contains("ruler"), "{side}");
        assert_eq!(sentence("", "No such label"), None);
    }
}
