//! The gaps marked as planned, and what they come to.

use super::ranking::{state_choice, way};
use super::state;
use super::view::SealingPlanContext;
use super::work_in_hand::out_of_date;
use crate::report::sealing;
use crate::survey::{Item, WorkState};
use crate::window::units;
use crate::window::widgets::{self, report};
use eframe::egui;
use egui::Ui;

/// The column with the name of the gap.
const WHAT: usize = 1;

/// Draws the gaps of the plan and what it comes to.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let answers = context.answers;
    let Some(dated) = answers.planned_work() else {
        return;
    };
    let refused = sealing::refused(context.survey, &dated.answer.refused);
    for (at, block) in refused.iter().enumerate() {
        report::block(ui, context.queue, &format!("refused {at}"), block);
    }
    let aim = context.view.aim;
    match (&dated.answer.plan, context.results) {
        (None, _) => {
            ui.label(
                "Nothing is planned yet: tick gaps in the table above, or take the best set within a budget.",
            );
        }
        (Some(Err(why)), _) => widgets::answer_line(ui, &Err(why.clone())),
        (Some(Ok(plan)), Some(results)) => {
            out_of_date(ui, context, dated.revision);
            buttons(ui, context);
            let survey = context.survey;
            let date = context.view.date_of_change();
            let section = sealing::planned(survey, results.assessment(), plan, aim);
            report::section_with(ui, context.queue, &section, &mut |ui, queue, row, at| {
                let Some(Item::Gap(id)) = row.item else {
                    return false;
                };
                let Some(gap) = survey.gap(id) else {
                    return false;
                };
                if at == WHAT {
                    way(ui, queue, gap);
                } else if at == row.cells.len() {
                    state_choice(ui, queue, (survey, &date), gap);
                    let date = units::text(ui.ctx(), &gap.state_date);
                    ui.add(egui::Label::new(&*date).extend());
                } else {
                    return false;
                }
                true
            });
        }
        (Some(Ok(_)), None) => {}
    }
}

fn buttons(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        for (words, to) in [
            ("Mark all of it as sealed", WorkState::Sealed),
            ("Defer all of it", WorkState::Deferred),
            ("Take all of it out of the plan", WorkState::Open),
        ] {
            if ui.button(words).clicked() {
                let date = &context.view.date_of_change();
                if let Some(edit) = state::all_planned(context.survey, to, date) {
                    context.queue.edit(edit, None);
                }
            }
        }
    });
}
