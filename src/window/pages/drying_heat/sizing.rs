//! What to look for when buying: removal needed, rated capacities, heaters.

use super::cells::CARD_LEAST;
use super::curves;
use super::view::{DryingHeatContext, whole};
use crate::assess::Comparison;
use crate::window::widgets;
use eframe::egui::Ui;

/// Width of a list of sizes at least.
const LIST_LEAST: f32 = 560.0;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let set_c = comparison.inside_c;
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            curves::against_rh(ui, comparison, set_c);
        } else {
            curves::against_ach(ui, comparison, set_c);
        }
    });
    ui.separator();
    let whole = whole(context, comparison);
    widgets::columns(ui, LIST_LEAST, 2, |ui, at| {
        let list = if at == 0 {
            &whole.machines
        } else {
            &whole.heaters
        };
        widgets::report::part(ui, context.queue, list);
    });
}
