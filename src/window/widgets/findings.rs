//! Findings: sign, word, sentence, what to do, and the way there.

use crate::report::findings::about;
use crate::survey::Finding;
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use eframe::egui;
use egui::{RichText, Ui};

/// One finding. `with_way` adds a link that leads to its place.
pub fn finding_row(ui: &mut Ui, queue: &mut Queue, finding: &Finding, with_way: bool) {
    let shown = units::shown(ui.ctx());
    let colour = super::severity::severity_colour(ui, finding.severity);
    ui.horizontal_top(|ui| {
        let word = format!(
            "{} {}",
            super::severity::sign(finding.severity),
            finding.severity.name()
        );
        ui.scope(|ui| {
            ui.set_min_width(84.0);
            ui.label(RichText::new(word).color(colour));
        });
        ui.vertical(|ui| {
            ui.add(egui::Label::new(shown.text(&finding.sentence)).wrap());
            super::words::muted(ui, format!("→ {}", shown.text(&finding.advice)));
            if with_way {
                let words = RichText::new(format!("go to {}", about(finding.place.item)))
                    .small()
                    .color(palette(ui).accent);
                if super::words::link(ui, words).clicked() {
                    queue.go_to(finding.place);
                }
            }
        });
    });
}

/// A list of findings, one under the other.
pub fn finding_list<'a>(
    ui: &mut Ui,
    queue: &mut Queue,
    findings: impl Iterator<Item = &'a Finding>,
    with_way: bool,
) {
    for (at, finding) in findings.enumerate() {
        if at > 0 {
            ui.separator();
        }
        ui.push_id((at, finding.place), |ui| {
            finding_row(ui, queue, finding, with_way);
        });
    }
}
