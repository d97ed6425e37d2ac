//! How bad something is: sign, colour, and the sentence beside an input.

use super::words::explain_marks;
use crate::survey::{Finding, Severity};
use crate::window::theme::palette;
use crate::window::units;
use eframe::egui;
use egui::{Color32, Response, RichText, Ui};

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
    let words = &*units::text(ui.ctx(), words);
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
pub(super) fn finding_words(finding: &Finding) -> String {
    format!("{} – {}", finding.sentence, finding.advice)
}
