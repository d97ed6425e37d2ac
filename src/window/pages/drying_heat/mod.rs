//! The Drying & heat page: what would do it first, then the water, the heat and the sizes behind
//! it, cold surfaces, cautions, and safety ventilation.

mod beyond;
mod cases;
mod cautions;
mod cells;
mod chart;
mod curves;
mod option_rows;
mod options;
pub(super) mod safety;
mod shown;
mod sizing;
mod surfaces;
mod view;

pub use view::DryingHeatView;

use crate::assess::{Answer, Comparison};
use crate::window::answers::Results;
use crate::window::widgets;
use cells::CARD_LEAST;
use eframe::egui;
use egui::{ScrollArea, Ui};
use view::{DryingHeatContext, Part};

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    context.view.ways.row(ui, &Part::ALL);
    ScrollArea::vertical()
        .id_salt("drying and heat")
        .auto_shrink(false)
        .show(ui, |ui| {
            if context.survey.gaps.is_empty() {
                widgets::no_gap_yet(ui, context.queue);
                ui.add_space(4.0);
            }
            part(ui, context, Part::Options, |ui, context| {
                options_card(ui, context, results);
            });
            part(ui, context, Part::Chart, |ui, context| {
                widgets::card(ui, "Warmth and water in one picture", |ui| {
                    compared(ui, results, |ui, all| chart::show(ui, context, all));
                });
            });
            part(ui, context, Part::WaterAndHeat, |ui, context| {
                water_and_heat(ui, context, results);
            });
            part(ui, context, Part::Sizes, |ui, context| {
                widgets::card(ui, "Sizes to look for", |ui| {
                    compared(ui, results, |ui, all| sizing::show(ui, context, all));
                });
            });
            part(ui, context, Part::Surfaces, |ui, context| {
                widgets::card(ui, "Cold surfaces", |ui| {
                    compared(ui, results, |ui, all| surfaces::show(ui, context, all));
                });
            });
            part(ui, context, Part::Beyond, |ui, context| {
                widgets::card(ui, "Drying out, warming up, nights", |ui| {
                    compared(ui, results, |ui, all| beyond::show(ui, context, all));
                });
            });
            part(ui, context, Part::Safety, |ui, context| {
                safety_and_cautions(ui, context, results);
            });
            widgets::follow_focus(ui);
        });
}

/// One part of the page; it is scrolled to where the user asked for it.
fn part<'a>(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'a>,
    part: Part,
    content: impl FnOnce(&mut Ui, &mut DryingHeatContext<'a>),
) {
    let drawn = ui.scope(|ui| content(ui, context)).response;
    context.view.ways.below(ui, part, &drawn);
}

/// What needs the comparison, or why there is none.
fn compared(ui: &mut Ui, results: &Results, content: impl FnOnce(&mut Ui, &Comparison)) {
    match results.comparison() {
        Ok(comparison) => content(ui, comparison),
        Err(why) => {
            let not_known: Answer<String> = Err(why.clone());
            widgets::answer_line(ui, &not_known);
        }
    }
}

fn options_card(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let targets = &context.survey.targets;
    let set_up = results.assessment().set_up.name();
    let title = format!("What would hold {} % RH, {set_up}?", targets.rh_percent);
    widgets::card(ui, &title, |ui| {
        compared(ui, results, |ui, all| options::show(ui, context, all));
    });
}

fn water_and_heat(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let targets = &context.survey.targets;
    let set_up = results.assessment().set_up.name();
    let title = format!(
        "Water to remove to hold {} % RH, {set_up}",
        targets.rh_percent
    );
    widgets::card(ui, &title, |ui| cases::water(ui, context, results));
    ui.add_space(4.0);
    let title = format!("Heat, {set_up}");
    widgets::card(ui, &title, |ui| cases::heat(ui, context, results));
}

fn safety_and_cautions(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            widgets::card(ui, "Safety ventilation", |ui| {
                safety::show(ui, context, results);
            });
        } else {
            widgets::card(ui, "Before you heat or dry", |ui| {
                cautions::show(ui, context);
            });
        }
    });
}
