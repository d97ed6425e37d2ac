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
use crate::report::key_results::air_changes;
use crate::window::answers::Results;
use crate::window::{units, widgets};
use eframe::egui;
use egui::{Align, Layout, Ui, vec2};
use view::{AirChangeContext, Part};

/// Width of a card at least.
const CARD_LEAST: f32 = 420.0;
/// Narrower than this the rose stands below the body.
const BESIDE_LEAST: f32 = 760.0;
/// How much of the width the rose takes, and how much at most.
const ROSE_SHARE: f32 = 0.40;
const ROSE_MOST: f32 = 420.0;
/// Width of one of the large numbers, at least.
const NUMBER_LEAST: f32 = 210.0;
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

/// A part: the picture as it is, every other under its heading.
fn draw(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    part: Part,
    results: &Results,
    told: &Material<'_>,
) {
    let Some(heading) = part.heading() else {
        return picture(ui, context, results, told);
    };
    let asked = context.view.ways.wanted() == Some(part);
    let Some(kept) = context.view.open.of(part) else {
        return;
    };
    let mut open = *kept || asked;
    widgets::fold(ui, heading, &mut open, |ui| {
        unfolded(ui, context, part, results, told);
    });
    if let Some(kept) = context.view.open.of(part) {
        *kept = open;
    }
}

/// The numbers, the body with its flows and the rose beside it.
fn picture(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    results: &Results,
    told: &Material<'_>,
) {
    // The picture comes first where there is no room for both: the strip has the numbers too.
    let low = widgets::is_low(ui);
    widgets::card(ui, "", |ui| {
        if !low {
            numbers(ui, context, told);
            ui.separator();
        }
        drawn(ui, context, results);
        if low {
            ui.separator();
            numbers(ui, context, told);
        }
    });
}

/// The body with its flows and the rose, beside each other where there is room.
fn drawn(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let room = ui.available_width();
    if room < BESIDE_LEAST {
        flows::show_picture(ui, context, results);
        rose::show(ui, context, results);
        return;
    }
    let gap = ui.spacing().item_spacing.x;
    let rose = (room * ROSE_SHARE).min(ROSE_MOST);
    let beside = [room - rose - gap, rose];
    ui.horizontal_top(|ui| {
        for (at, width) in beside.into_iter().enumerate() {
            let size = vec2(width, 0.0);
            ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
                ui.set_width(width);
                match at {
                    0 => flows::show_picture(ui, context, results),
                    _ => rose::show(ui, context, results),
                }
            });
        }
    });
}

/// Three numbers, large.
fn numbers(ui: &mut Ui, context: &mut AirChangeContext<'_>, told: &Material<'_>) {
    let set_up = told.assessment.set_up.name();
    widgets::muted(ui, format!("Results for: {set_up}"));
    let all = air_changes(told);
    widgets::columns(ui, NUMBER_LEAST, all.len(), |ui, at| {
        let Some(one) = all.get(at) else { return };
        let small = match &one.range {
            Some(range) => format!("very likely {range}; {}", one.small),
            None => one.small.clone(),
        };
        let written = |words: &str| units::text(ui.ctx(), words);
        let figure = one.figure.clone();
        let answer = figure.map(|figure| (written(&figure), written(&small)));
        widgets::figure(ui, context.queue, &one.title, one.topic, &answer);
    });
}

fn unfolded(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    part: Part,
    results: &Results,
    told: &Material<'_>,
) {
    match part {
        Part::Picture => {}
        Part::Cases => {
            let cases = cases::section(told, &PARTS);
            widgets::card(ui, "", |ui| {
                widgets::report::section(ui, context.queue, &cases);
            });
        }
        Part::Flows => widgets::card(ui, "", |ui| flows::show(ui, context, results)),
        Part::Sure => widgets::card(ui, "", |ui| uncertainty::show(ui, context, told)),
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
