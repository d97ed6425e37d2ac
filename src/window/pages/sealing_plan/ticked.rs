//! The plan as ticked by hand.

use super::ranking::{boxed, name_of, saving_words, state_choice, way};
use super::view::SealingPlanContext;
use super::work_in_hand::out_of_date;
use super::{before_after, state};
use crate::assess::sealing::{Aim, Plan, PlannedGap};
use crate::survey::{Edit, Severity, WorkState};
use crate::window::format::money;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, RichText, ScrollArea, Ui, vec2};

/// Draws the gaps of the plan and what it comes to.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let decisions = context.decisions;
    let Some(dated) = decisions.ticked() else {
        return;
    };
    for (id, why) in &dated.answer.refused {
        let name = context.survey.gap(*id).map_or("", name_of);
        let words =
            format!("gap {id} {name} is marked as planned, but {why}; it is not in the plan");
        widgets::message_line(ui, Severity::Danger, &words);
    }
    let aim = context.view.aim;
    match &dated.answer.plan {
        None => {
            ui.label("Nothing is planned yet: tick gaps in the table above, or take the best set within a budget.");
        }
        Some(Err(why)) => {
            widgets::answer_line(ui, &Err(why.clone()));
        }
        Some(Ok(plan)) => {
            out_of_date(ui, context, dated.revision);
            buttons(ui, context);
            gaps(ui, context, plan, aim);
            before_after::show(ui, context, plan, (aim, "ticked"));
        }
    }
}

fn buttons(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        for (words, to) in [
            ("Mark all of it as sealed", WorkState::Sealed),
            ("Put all of it off", WorkState::Deferred),
            ("Take all of it out", WorkState::Open),
        ] {
            if ui.button(words).clicked() {
                let date = &context.view.date_of_change();
                let edit: Option<Edit> = state::all_planned(context.survey, to, date);
                if let Some(edit) = edit {
                    context.queue.edit(edit, None);
                }
            }
        }
    });
}

const NUMBER: f32 = 34.0;
const NAME_LEAST: f32 = 170.0;
const SHORT: f32 = 84.0;

fn gaps(ui: &mut Ui, context: &mut SealingPlanContext<'_>, plan: &Plan, aim: Aim) {
    let name = (ui.available_width() - NUMBER - 6.0 * SHORT - 24.0).clamp(NAME_LEAST, 420.0);
    let currency = context.survey.tariffs.currency.clone();
    let unit = match aim {
        Aim::WinterCost => currency.trim(),
        _ => aim.unit(),
    };
    ScrollArea::horizontal()
        .id_salt("planned gaps")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(0.0, 1.0);
            ui.horizontal_top(|ui| {
                let titles = [
                    ("No.".to_owned(), NUMBER, Align::Min),
                    ("Gap".to_owned(), name, Align::Min),
                    ("remedy".to_owned(), SHORT, Align::Min),
                    (format!("alone saves {unit}"), SHORT, Align::Max),
                    (format!("left out, lost {unit}"), SHORT, Align::Max),
                    (format!("costs {currency}"), SHORT, Align::Max),
                    ("  State".to_owned(), SHORT + 8.0, Align::Min),
                    ("since".to_owned(), SHORT, Align::Min),
                ];
                for (words, width, align) in titles {
                    boxed(ui, width, align, |ui| {
                        widgets::muted(ui, words);
                    });
                }
            });
            for one in &plan.gaps {
                ui.push_id(("planned", one.sealable.gap()), |ui| {
                    row(ui, context, one, name, aim);
                });
            }
        });
}

fn row(ui: &mut Ui, context: &mut SealingPlanContext<'_>, one: &PlannedGap, name: f32, aim: Aim) {
    let sealable = &one.sealable;
    let Some(gap) = context.survey.gap(sealable.gap()) else {
        return;
    };
    ui.horizontal(|ui| {
        boxed(ui, NUMBER, Align::Min, |ui| {
            ui.label(RichText::new(gap.id.to_string()).color(palette(ui).muted));
        });
        boxed(ui, name, Align::Min, |ui| way(ui, context, gap));
        let mark = if sealable.is_assumed() { " *" } else { "" };
        let remedy = format!("{}{mark}", sealable.remedy().kind.name());
        boxed(ui, SHORT, Align::Min, |ui| {
            ui.label(remedy);
        });
        let saved = |figures: &crate::assess::sealing::Figures| {
            figures.of(aim).map(|saved| saving_words(aim, saved))
        };
        let cost = sealable.cost().map(|cost| {
            let mark = if cost.assumed { " *" } else { "" };
            format!("{}{}{mark}", cost.at_least(), money(cost.priced, ""))
        });
        for answer in [saved(&one.saves_alone), saved(&one.saves_last), cost] {
            boxed(ui, SHORT, Align::Max, |ui| match answer {
                Ok(words) => {
                    ui.label(words);
                }
                Err(why) => {
                    ui.label(
                        RichText::new("not known")
                            .italics()
                            .color(palette(ui).muted),
                    )
                    .on_hover_text(why.reason);
                }
            });
        }
        boxed(ui, SHORT + 8.0, Align::Min, |ui| {
            state_choice(ui, context, gap)
        });
        boxed(ui, SHORT, Align::Min, |ui| {
            ui.label(&gap.state_date);
        });
    });
}
