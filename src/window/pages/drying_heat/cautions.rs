//! What stands before heating or drying: people first.

use super::view::DryingHeatContext;
use crate::assess::cautions::before_drying;
use crate::survey::Item;
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{RichText, Ui};

/// Draws the cautions that concern this survey, those in force first.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    for (severity, words) in before_drying(context.survey) {
        let colour = widgets::severity_colour(ui, severity);
        let words = format!("{} {words}", widgets::sign(severity));
        let label = egui::Label::new(RichText::new(&words).color(colour)).wrap();
        let response = ui.add(label);
        widgets::explain_marks(response, &words);
        ui.add_space(2.0);
    }
    noticed(ui, context);
}

/// The findings about heaters, machines and moisture sources, with the way to them.
fn noticed(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let concerned =
        |item: Item| matches!(item, Item::Heater(_) | Item::Machine(_) | Item::Source(_));
    let findings = &results.assessment.findings;
    let mut found = findings
        .iter()
        .filter(|finding| concerned(finding.place.item))
        .peekable();
    if found.peek().is_some() {
        ui.separator();
        finding_list(ui, context.queue, found, true);
    }
}
