//! The best set of gaps within a budget.

use super::ranking::name_of;
use super::view::SealingPlanContext;
use super::work_in_hand::out_of_date;
use super::{before_after, state};
use crate::assess::Answer;
use crate::assess::sealing::Plan;
use crate::survey::GapId;
use crate::window::decisions::{Best, LongWork};
use crate::window::format::money;
use crate::window::widgets::{self, NumberField};
use eframe::egui;
use egui::{Label, Ui};

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
    let decisions = context.decisions;
    let status = decisions.status(LongWork::Budget);
    widgets::long_work(ui, context.queue, LongWork::Budget, status, "the best set");
    let Some(dated) = decisions.best() else {
        return;
    };
    out_of_date(ui, context, dated.revision);
    found(ui, context, &dated.answer);
}

fn found(ui: &mut Ui, context: &mut SealingPlanContext<'_>, best: &Best) {
    let currency = context.survey.tariffs.currency.clone();
    let head = format!(
        "For at most {}, to save most of {}:",
        money(best.budget, &currency),
        best.aim.name()
    );
    ui.label(head);
    let plan = match &best.plan {
        Ok(plan) => plan,
        Err(why) => return widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    };
    if plan.gaps.is_empty() {
        ui.label("Nothing that costs no more would save anything.");
        return;
    }
    list(ui, context, plan);
    ui.horizontal_wrapped(|ui| {
        let take = ui
            .button("Make this the plan")
            .on_hover_text("Ticks exactly these gaps; it can be undone");
        if take.clicked() {
            let wanted: Vec<GapId> = plan.gaps.iter().map(|one| one.sealable.gap()).collect();
            let date = &context.view.date_of_change();
            if let Some(edit) = state::plan_of(context.survey, &wanted, date) {
                context.queue.edit(edit, None);
            }
        }
    });
    before_after::show(ui, context, plan, (best.aim, "best"));
    widgets::muted(
        ui,
        "Up to twelve gaps every set is tried; beyond, greedy sets are improved by exchange. Gaps whose \
         cost is not known are never in it.",
    );
}

fn list(ui: &mut Ui, context: &SealingPlanContext<'_>, plan: &Plan) {
    let named = plan.gaps.iter().map(|one| {
        let id = one.sealable.gap();
        let name = context.survey.gap(id).map_or("", name_of);
        format!("{id} {name}")
    });
    let named: Vec<String> = named.collect();
    ui.add(Label::new(format!("Seal {}.", named.join("; "))).wrap());
}
