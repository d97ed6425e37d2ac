//! The best set of gaps within a budget.

use super::state;
use super::view::SealingPlanContext;
use super::work_in_hand::out_of_date;
use crate::assess::Best;
use crate::report::sealing;
use crate::survey::GapId;
use crate::window::answers::LongWork;
use crate::window::widgets::{self, NumberField, report};
use eframe::egui;
use egui::Ui;

/// Draws the budget, how far the search is, and the set it found.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let currency = context.survey.tariffs.currency.clone();
    let budget = context.view.budget;
    let typed = NumberField::of_page("Budget", budget)
        .unit(&currency)
        .hint("none")
        .show(ui, context.queue);
    if let Some(sum) = typed {
        context.view.budget = sum;
    }
    if budget.is_none() {
        widgets::muted(
            ui,
            "Type a sum, and the set of gaps that saves most for it is searched for.",
        );
        return;
    }
    let answers = context.answers;
    let status = answers.status(LongWork::Budget);
    widgets::long_work(ui, context.queue, LongWork::Budget, status, "the best set");
    let Some(dated) = answers.best() else {
        return;
    };
    out_of_date(ui, context, dated.revision);
    found(ui, context, &dated.answer);
}

fn found(ui: &mut Ui, context: &mut SealingPlanContext<'_>, best: &Best) {
    let Some(results) = context.results else {
        return;
    };
    let asked = (best.aim, best.budget);
    let section = sealing::best(context.survey, results.assessment(), asked, &best.plan);
    ui.label(&section.title);
    let gaps = best.plan.iter().flat_map(|plan| &plan.gaps);
    let wanted: Vec<GapId> = gaps.map(|one| one.sealable.gap()).collect();
    if !wanted.is_empty() {
        let take = ui
            .button("Make this the plan")
            .on_hover_text("Marks exactly these gaps as planned; it can be undone");
        if take.clicked() {
            let date = &context.view.date_of_change();
            if let Some(edit) = state::plan_of(context.survey, &wanted, date) {
                context.queue.edit(edit, None);
            }
        }
    }
    report::section(ui, context.queue, &section);
}
