//! The Drying & heat page: what would do it first, then the water, the heat and the sizes behind
//! it, cold surfaces, cautions, and safety ventilation.

mod cautions;
mod cells;
mod chart;
mod curves;
mod options;
pub(super) mod safety;
mod shown;
mod sizing;
mod surfaces;
mod texts;
mod view;

pub use view::DryingHeatView;

use super::fields::{self, Fields};
use super::sections;
use crate::assess::{Answer, Comparison};
use crate::report::{cases, drying, usual};
use crate::survey::{Edit, Field, Item, Place, Targets};
use crate::window::answers::Results;
use crate::window::commands::Command;
use crate::window::page::Page;
use crate::window::theme::palette;
use crate::window::widgets;
use cells::CARD_LEAST;
use eframe::egui::{RichText, Ui};
use view::{DryingHeatContext, Part, whole};

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    context.view.ways.row(ui, &Part::ALL);
    let draw = |ui: &mut Ui, context: &mut DryingHeatContext<'_>, part| match part {
        Part::Options => options_card(ui, context, results),
        Part::Chart => widgets::card(ui, "Warmth and water in one picture", |ui| {
            compared(ui, results, |ui, all| chart::show(ui, context, all));
        }),
        Part::WaterAndHeat => water_and_heat(ui, context),
        Part::Sizes => widgets::card(ui, "Sizes to look for", |ui| {
            compared(ui, results, |ui, all| sizing::show(ui, context, all));
        }),
        Part::Surfaces => widgets::card(ui, "Cold surfaces", |ui| {
            compared(ui, results, |ui, all| surfaces::show(ui, context, all));
        }),
        Part::Times => widgets::card(ui, "Drying out, warming up, nights", |ui| {
            compared(ui, results, |ui, all| times(ui, context, all));
        }),
        Part::Safety => safety_and_cautions(ui, context, results),
    };
    sections::parts(
        ui,
        context,
        "drying and heat",
        |view| &mut view.ways,
        &Part::ALL,
        draw,
    );
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
    let title = results.comparison().as_ref().map(drying::question);
    let title = title.unwrap_or_else(|_| "What would hold the target?".to_owned());
    widgets::card(ui, &title, |ui| {
        targets(ui, context);
        without_fabric(ui, context);
        compared(ui, results, |ui, all| options::show(ui, context, all));
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            widgets::muted(
                ui,
                "These are a few steady weather cases. A season hour by hour, with sun, frost and mould:",
            );
            let words = RichText::new("Winter\u{a0}→").color(palette(ui).accent);
            if widgets::named_link(ui, words, "Winter: a season hour by hour") {
                context.queue.command(Command::Show(Page::Winter));
            }
        });
    });
}

/// What is wanted inside, where it decides.
fn targets(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let targets = &context.survey.targets;
    let warmth = context.survey.set_up.choose(
        (Field::SetTemperature, SET_TEMPERATURE),
        (Field::Comfort, COMFORT),
    );
    ui.horizontal_wrapped(|ui| {
        let mut fields = Fields::new(ui, context, Item::Targets, targets, &Edit::Targets);
        fields.number(Field::TargetRh, |targets| &mut targets.rh_percent);
        fields.number(warmth.0, warmth.1);
    });
    ui.add_space(4.0);
}

/// Where nothing is known of walls and windows: what would do for a beginning, and where they are
/// entered.
fn without_fabric(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let survey = context.survey;
    if !survey.fabric.is_empty() {
        return;
    }
    ui.label("Heat and drying need the fabric: walls, roof, floor, windows and doors.");
    ui.horizontal_wrapped(|ui| {
        let kind = survey.vehicle.kind;
        let fill = widgets::usual_button(ui, kind);
        if fill.on_hover_text(usual::offer(kind)).clicked() {
            context.queue.command(Command::UsualVehicle);
        }
        if ui.button("Enter the fabric").clicked() {
            let fabric = Item::Fabric(survey.free_fabric_id());
            context.queue.go_to(Place::whole(fabric));
        }
    });
    ui.add_space(4.0);
}

/// The temperature that is wanted while laid up, and in use.
const SET_TEMPERATURE: fields::Part<Targets, f64> = |targets| &mut targets.set_temperature_c;
const COMFORT: fields::Part<Targets, f64> = |targets| &mut targets.comfort_c;

/// Drying out at the left, warming up and the air at night at the right.
fn times(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let whole = whole(context, comparison);
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            widgets::report::part(ui, context.queue, &whole.drying_out);
        } else {
            widgets::report::part(ui, context.queue, &whole.warming_up);
            ui.separator();
            widgets::report::part(ui, context.queue, &whole.night);
        }
    });
}

fn water_and_heat(ui: &mut Ui, context: &mut DryingHeatContext<'_>) {
    let Some(told) = context.told() else { return };
    let section = cases::section(&told, &[cases::Part::Water, cases::Part::Heat]);
    let set_up = told.assessment.set_up.name();
    widgets::card(ui, &format!("Water to remove and heat, {set_up}"), |ui| {
        widgets::report::section(ui, context.queue, &section);
    });
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
