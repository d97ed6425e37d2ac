//! The Air change page: weather cases side by side, the curves, and the flow through each gap.

mod curves;
mod dependence;
mod drawings;
mod flows;
pub(super) mod lines;
mod rose;
mod uncertainty;
mod view;
mod warmer;

pub use view::AirChangeView;

use super::sections;
use crate::report::Material;
use crate::report::cases::{self, Part as Rows};
use crate::window::answers::Results;
use crate::window::widgets;
use eframe::egui::Ui;
use view::{AirChangeContext, Part};

/// Width of a card at least.
const CARD_LEAST: f32 = 420.0;
/// Width of a card of what depends on what, at least: two beside each other at most.
const WIDE_LEAST: f32 = 460.0;

/// What this page tells of each weather case; water and heat stand on the page about them.
const PARTS: [Rows; 4] = [Rows::Weather, Rows::AirChange, Rows::Balance, Rows::Spaces];

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>) {
    let Some((results, told)) = context.results.zip(context.told()) else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    context.view.ways.row(ui, &Part::ALL);
    let parts = if context.survey.gaps.is_empty() {
        &[]
    } else {
        &Part::ALL[..]
    };
    sections::parts(
        ui,
        context,
        "air change",
        |view| &mut view.ways,
        parts,
        |ui, context, part| {
            draw(ui, context, part, results, &told);
        },
    );
}

fn draw(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    part: Part,
    results: &Results,
    told: &Material<'_>,
) {
    match part {
        Part::Cases => {
            let set_up = results.assessment().set_up.name();
            let title = format!("Weather cases, {set_up}");
            let cases = cases::section(told, &PARTS);
            widgets::card(ui, &title, |ui| {
                widgets::report::section(ui, context.queue, &cases);
            });
        }
        Part::Sure => {
            widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
                0 => widgets::card(ui, "Rose of air changes, by wind direction", |ui| {
                    rose::show(ui, context, results);
                }),
                _ => widgets::card(ui, "How sure, and what to measure next", |ui| {
                    uncertainty::show(ui, context, told);
                }),
            });
        }
        Part::Curves => {
            widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
                0 => widgets::card(ui, "Air changes against wind direction", |ui| {
                    curves::against_direction(ui, context, results, told);
                }),
                _ => widgets::card(ui, "Air changes against wind speed", |ui| {
                    curves::against_speed(ui, context, results);
                }),
            });
        }
        Part::Flows => {
            widgets::card(ui, "Air through each gap", |ui| {
                flows::show(ui, context, results);
            });
        }
        Part::Dependence => dependence_cards(ui, context),
    }
}

/// What depends on warmth, on coefficients, on parking, and on doors inside.
fn dependence_cards(ui: &mut Ui, context: &mut AirChangeContext<'_>) {
    let answers = context.answers;
    let found = answers.dependence();
    widgets::columns(ui, WIDE_LEAST, 4, |ui, at| match (at, found) {
        (2, _) => {
            widgets::card(ui, "Parked for the prevailing wind", |ui| {
                dependence::parked(ui, context, found);
            });
        }
        (_, None) => {}
        (0, Some(found)) => {
            widgets::card(ui, "Air changes against warmth inside", |ui| {
                if let Some(results) = context.results {
                    warmer::show(ui, context, found, results.assessment());
                }
            });
        }
        (1, Some(found)) => {
            widgets::card(ui, "Doors and curtains inside", |ui| {
                dependence::doors_inside(ui, context, found);
            });
        }
        (_, Some(found)) => {
            widgets::card(ui, "Choice of pressure coefficients", |ui| {
                dependence::wind_choices(ui, context, found);
            });
        }
    });
}
