//! What stands before heating or drying: people first.

use super::view::DryingHeatContext;
use crate::report::safety;
use crate::survey::Item;
use crate::window::widgets::{finding_list, report};
use eframe::egui::Ui;

/// Draws the cautions that concern this survey, and the findings about heaters, machines and
/// moisture sources with the way to them.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    report::section(ui, context.queue, &safety::before_drying(context.survey));
    let Some(results) = context.results else {
        return;
    };
    let concerned =
        |item: Item| matches!(item, Item::Heater(_) | Item::Machine(_) | Item::Source(_));
    let findings = &results.findings;
    let mut found = findings
        .iter()
        .filter(|finding| concerned(finding.place.item))
        .peekable();
    if found.peek().is_some() {
        ui.separator();
        finding_list(ui, context.queue, found, true);
    }
}
