//! What stays open and why; safety ventilation before the plan and with it.

use super::ranking::{state_choice, tick_name, way};
use super::view::SealingPlanContext;
use crate::assess::sealing::{LeftOpen, StaysOpen};
use crate::report::{safety, sealing};
use crate::survey::Item;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, report};
use eframe::egui;
use egui::{Checkbox, Label, RichText, Ui};

/// The columns with the gap's number and with its name.
const GAP: usize = 0;
const WHAT: usize = 1;

/// Draws the gaps that no plan may hold, and safety ventilation.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let answers = context.answers;
    if let Some(Ok(ranking)) = answers.ranking().map(|dated| dated.answer) {
        gaps(ui, context, &ranking.left_open);
    }
    let Some(results) = context.results else {
        return;
    };
    let plan = answers
        .planned_work()
        .and_then(|dated| dated.answer.plan.as_ref());
    let section = match plan {
        Some(Ok(plan)) => safety::ventilation(&plan.safety.0, Some(&plan.safety.1)),
        _ => safety::ventilation(&results.assessment().safety, None),
    };
    ui.add_space(6.0);
    ui.heading(&section.title);
    report::section(ui, context.queue, &section);
}

/// The gaps: a tick that cannot be set, its name, and why it stays.
fn gaps(ui: &mut Ui, context: &mut SealingPlanContext<'_>, left: &[LeftOpen]) {
    let survey = context.survey;
    let date = context.view.date_of_change();
    let section = sealing::left_open(survey, left);
    report::section_with(ui, context.queue, &section, &mut |ui, queue, row, at| {
        let Some(Item::Gap(id)) = row.item else {
            return false;
        };
        let (Some(gap), Some(one)) = (survey.gap(id), left.iter().find(|one| one.gap == id)) else {
            return false;
        };
        match at {
            GAP => {
                ui.horizontal(|ui| {
                    let tick = ui
                        .add_enabled(false, Checkbox::without_text(&mut false))
                        .on_disabled_hover_text(one.why.to_string());
                    widgets::tell_name(ui, tick.id, &tick_name(gap));
                    let why = one.why.to_string();
                    ui.ctx()
                        .accesskit_node_builder(tick.id, |node| node.set_description(why));
                    short(ui, &id.to_string());
                });
            }
            WHAT => way(ui, queue, gap),
            behind
                if behind == row.cells.len()
                    && matches!(one.why, StaysOpen::Deferred | StaysOpen::SealedAlready) =>
            {
                state_choice(ui, queue, (survey, &date), gap);
                short(ui, &units::text(ui.ctx(), &gap.state_date));
            }
            _ => return false,
        }
        true
    });
}

/// A number or date beside a control: on one line, however little room the table has.
fn short(ui: &mut Ui, words: &str) {
    let text = RichText::new(words).small().color(palette(ui).muted);
    ui.add(Label::new(text).extend());
}
