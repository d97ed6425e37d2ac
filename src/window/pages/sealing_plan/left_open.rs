//! What stays open and why; safety ventilation and air for sleepers before and after.

use super::super::drying_heat::safety::{area, verdict};
use super::ranking::{name_of, state_choice, way};
use super::view::SealingPlanContext;
use crate::assess::safety::words::{Line, TABLE_IN_SHORT};
use crate::assess::sealing::{LeftOpen, StaysOpen};
use crate::assess::{Safety, SafetyVerdict, Topic};
use crate::survey::Severity;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{Checkbox, Grid, Label, RichText, Ui};

/// Draws the gaps that no plan may hold, and safety ventilation.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let decisions = context.decisions;
    if let Some(Ok(ranking)) = decisions.ranking().map(|dated| &dated.answer) {
        gaps(ui, context, &ranking.left_open);
    }
    ui.add_space(6.0);
    safety(ui, context);
}

fn gaps(ui: &mut Ui, context: &mut SealingPlanContext<'_>, left_open: &[LeftOpen]) {
    if left_open.is_empty() {
        ui.label("Every gap of the ledger may be sealed.");
        return;
    }
    // What protects people comes first.
    let protects = |one: &&LeftOpen| matches!(one.why, StaysOpen::ProtectsPeople(_));
    let (first, rest): (Vec<&LeftOpen>, Vec<&LeftOpen>) = left_open.iter().partition(protects);
    if !first.is_empty() {
        widgets::message_line(
            ui,
            Severity::Danger,
            "Openings that protect people are never sealed, whatever they save. Local codes apply; \
             gas work belongs to licensed fitters.",
        );
    }
    for one in first.into_iter().chain(rest) {
        ui.push_id(("left open", one.gap), |ui| left(ui, context, one));
    }
}

/// One gap: a tick that cannot be set where it protects people, its name, and why it stays.
fn left(ui: &mut Ui, context: &mut SealingPlanContext<'_>, one: &LeftOpen) {
    let Some(gap) = context.survey.gap(one.gap) else {
        return;
    };
    ui.horizontal_wrapped(|ui| {
        let mut never = false;
        let why = one.why.to_string();
        let tick = ui
            .add_enabled(false, Checkbox::without_text(&mut never))
            .on_disabled_hover_text(&why);
        let name = format!("Plan to seal gap {}, {}", gap.id, name_of(gap));
        widgets::tell_name(ui, tick.id, &name);
        ui.ctx()
            .accesskit_node_builder(tick.id, |node| node.set_description(why.clone()));
        ui.label(RichText::new(gap.id.to_string()).color(palette(ui).muted));
        way(ui, context, gap);
        if matches!(one.why, StaysOpen::Deferred | StaysOpen::SealedAlready) {
            state_choice(ui, context, gap);
            widgets::muted(ui, &gap.state_date);
        }
        let colour = match one.why {
            StaysOpen::ProtectsPeople(_) => palette(ui).ok,
            _ => palette(ui).muted,
        };
        ui.add(Label::new(RichText::new(format!("– {why}")).color(colour)).wrap());
    });
}

fn safety(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let decisions = context.decisions;
    let plan = decisions
        .ticked()
        .and_then(|dated| dated.answer.plan.as_ref())
        .and_then(|plan| plan.as_ref().ok());
    ui.horizontal_wrapped(|ui| {
        ui.heading("Safety ventilation");
        widgets::working_button(
            ui,
            context.queue,
            Topic::SafetyVentilation,
            "safety ventilation",
        );
    });
    let now = &results.assessment.safety;
    let (before, after) = match plan {
        Some(plan) => (&plan.safety.0, Some(&plan.safety.1)),
        None => (now, None),
    };
    verdict(ui, &before.verdict);
    areas(ui, before, after);
    match (after, &before.verdict) {
        (Some(_), SafetyVerdict::Below { .. }) => widgets::message_line(
            ui,
            Severity::Danger,
            "The plan takes away leaks that now make up for missing safety ventilation: put the fixed \
             ventilation right first, then seal.",
        ),
        (Some(_), SafetyVerdict::NotKnown(_)) => widgets::message_line(
            ui,
            Severity::Warning,
            "Whether safety ventilation suffices once this is sealed is not known: measure it before \
             sealing anything.",
        ),
        (Some(_), SafetyVerdict::Meets) => {
            widgets::muted(
                ui,
                "The plan leaves all of it open: the areas stay as they are.",
            );
        }
        (None, _) => {}
    }
    widgets::muted(
        ui,
        format!("{TABLE_IN_SHORT} Other leaks never count as safety ventilation."),
    );
}

fn areas(ui: &mut Ui, before: &Safety, after: Option<&Safety>) {
    Grid::new("safety before and after")
        .min_row_height(19.0)
        .spacing([16.0, 3.0])
        .show(ui, |ui| {
            let mut titles = vec!["Free area", "asked for, if all is there", "as it stands"];
            if after.is_some() {
                titles.push("with the plan");
            }
            for words in titles {
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for line in Line::ALL {
                ui.label(line.words());
                area(ui, &line.asked_for(before));
                area(ui, line.surveyed(before));
                if let Some(after) = after {
                    area(ui, line.surveyed(after));
                }
                ui.end_row();
            }
        });
}
