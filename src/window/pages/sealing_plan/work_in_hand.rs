//! What stands beside figures of the plan that are still being worked out.

use super::view::SealingPlanContext;
use crate::window::answers::LongWork;
use crate::window::widgets;
use eframe::egui::Ui;

/// Says that what is shown is of an earlier state of the survey.
pub(super) fn out_of_date(ui: &mut Ui, context: &mut SealingPlanContext<'_>, revision: u64) {
    if revision != context.revision {
        widgets::muted(ui, "These figures are being worked out again.");
    }
}

/// Says that the ranking is on its way.
pub(super) fn on_its_way(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let status = context.answers.status(LongWork::Sealing);
    widgets::long_work(ui, context.queue, LongWork::Sealing, status, "what to seal");
}
