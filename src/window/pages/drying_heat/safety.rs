//! Safety ventilation against its table.

use super::view::DryingHeatContext;
use crate::report::safety::ventilation;
use crate::survey::Item;
use crate::window::answers::Results;
use crate::window::widgets::{finding_list, report};
use eframe::egui::Ui;

/// Draws the verdict, the areas found and asked for, and what to do.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let section = ventilation(&results.assessment().safety, None);
    report::section(ui, context.queue, &section);
    let findings = &results.findings;
    let mut found = findings
        .iter()
        .filter(|finding| finding.place.item == Item::SafetyVentilation)
        .peekable();
    if found.peek().is_some() {
        ui.separator();
        finding_list(ui, context.queue, found, false);
    }
}
