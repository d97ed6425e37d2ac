//! The pieces pages are made of. Every input has a name that assistive technology reads.

mod answer;
mod choice;
mod edge;
mod findings;
mod focus;
mod number_field;
pub mod number_text;
mod progress;
pub mod report;
mod text_field;
mod ways;

pub use answer::{answer_line, figure, working_button};
pub use choice::{Choice, plain_tick, tick};
pub use edge::{Moved, edge};
pub use findings::{finding_list, finding_row};
pub use focus::follow_focus;
pub use number_field::NumberField;
pub use progress::long_work;
pub use text_field::TextField;
pub use ways::Ways;

use super::theme::palette;
use crate::assess::Mark;
use crate::survey::{Finding, Severity};
use eframe::egui;
use egui::{
    Align, Button, Color32, Frame, Id, Layout, Margin, Response, RichText, Stroke, Ui, WidgetText,
    vec2,
};

/// Width of the labels in front of inputs, so that inputs stand in one line.
pub const LABEL_WIDTH: f32 = 138.0;

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

/// Lays cards out in as many columns as fit, each `least` wide at least; `cards` draws the card
/// with the number it is given. Cards go to the columns in turn, so tab order follows the eye
/// down each column.
pub fn columns(ui: &mut Ui, least: f32, cards: usize, mut draw: impl FnMut(&mut Ui, usize)) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a handful of columns"
    )]
    let fit = (ui.available_width() / least).floor().max(1.0) as usize;
    let count = fit.min(cards).max(1);
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

/// Gives an input without visible label its name.
pub fn tell_name(ui: &Ui, id: Id, name: &str) {
    ui.ctx()
        .accesskit_node_builder(id, |node| node.set_label(name));
}

/// Whether inputs and buttons are as large as fingers.
#[must_use]
pub fn is_touch(ui: &Ui) -> bool {
    ui.spacing().interact_size.x >= super::theme::TOUCH_TARGET
}

/// Words that lead somewhere; in touch size they are as high as a finger is wide.
pub fn link(ui: &mut Ui, words: impl Into<WidgetText>) -> Response {
    if !is_touch(ui) {
        return ui.link(words);
    }
    let colour = palette(ui).accent;
    let target = super::theme::TOUCH_TARGET;
    let words = words.into().color(colour);
    let button = Button::new(words)
        .frame(false)
        .min_size(vec2(target, target));
    let response = ui.add(button);
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::Link)
    });
    response
}

/// The sign of a severity; it always stands beside its word or sentence.
#[must_use]
pub fn sign(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "✖",
        Severity::Danger => "⚠",
        Severity::Warning => "▲",
        Severity::Note => "ℹ",
    }
}

/// The colour of a severity.
#[must_use]
pub fn severity_colour(ui: &Ui, severity: Severity) -> Color32 {
    let palette = palette(ui);
    match severity {
        Severity::Error | Severity::Danger => palette.danger,
        Severity::Warning => palette.warning,
        Severity::Note => palette.muted,
    }
}

/// The sign of a severity, in its colour.
pub fn severity_sign(ui: &mut Ui, severity: Severity) -> Response {
    let colour = severity_colour(ui, severity);
    ui.label(RichText::new(sign(severity)).color(colour))
        .on_hover_text(severity.name())
}

/// A sentence under an input, with the severity's sign.
pub fn message_line(ui: &mut Ui, severity: Severity, words: &str) {
    let colour = severity_colour(ui, severity);
    let text = RichText::new(format!("{} {words}", sign(severity)))
        .color(colour)
        .small();
    let response = ui.add(egui::Label::new(text).wrap());
    explain_marks(response, words);
}

/// A finding under the input it is about: what is the matter, and what to do.
pub fn finding_line(ui: &mut Ui, finding: &Finding) {
    message_line(ui, finding.severity, &finding_words(finding));
}

/// A finding on one line.
fn finding_words(finding: &Finding) -> String {
    format!("{} – {}", finding.sentence, finding.advice)
}

/// Says on hover what the marks in these words mean, where there are any.
pub fn explain_marks(response: Response, words: &str) -> Response {
    if !response.hovered() {
        return response;
    }
    match Mark::legend_of(words) {
        Some(legend) => response.on_hover_text(legend),
        None => response,
    }
}

/// What stands on pages of results while the ledger is empty: why there are none, and the way to
/// the page where gaps are written down.
pub fn no_gap_yet(ui: &mut Ui, queue: &mut super::page::Queue) {
    card(ui, "Nothing to work out yet", |ui| {
        ui.label(
            "No gap has been written down. Air comes in through gaps: once the first one is in the \
             ledger, the results stand here.",
        );
        if ui.button("Go to the Gaps page").clicked() {
            queue.push(super::page::Request::Show(super::page::Page::Gaps));
        }
    });
}

/// Small muted words.
pub fn muted(ui: &mut Ui, words: impl Into<String>) -> Response {
    let words = words.into();
    let text = RichText::new(&words).small().color(palette(ui).muted);
    let response = ui.add(egui::Label::new(text).wrap());
    explain_marks(response, &words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable;

    #[test]
    fn pointing_at_a_mark_tells_what_it_means_and_other_words_tell_nothing() {
        let mut window = Harness::new_ui(|ui| {
            muted(ui, "a price without mark");
            muted(ui, "a price of this program [A]");
        });
        let tells = |window: &mut Harness<'_>, words: &str| {
            let place = window.get_by_label(words).rect().center();
            window.hover_at(place);
            window.run_steps(8);
            let legend = "Marks behind a source: [A] an assumption of this project";
            window.query_by_label(legend).is_some()
        };
        assert!(!tells(&mut window, "a price without mark"));
        assert!(tells(&mut window, "a price of this program [A]"));
    }
}
