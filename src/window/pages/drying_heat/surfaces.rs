//! Cold surfaces: where mould, rust and water on the glass are to be expected, and what clears
//! them.

use super::cells::{cell, small};
use super::view::DryingHeatContext;
use crate::assess::drying::{Spot, Surface};
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::window::format::{celsius, digits_of, litres_per_day, percent};
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Color32, Grid, RichText, Ui};

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let shown = &mut context.view.shown;
    ui.horizontal_wrapped(|ui| {
        shown.choose_case(ui, "Surfaces in weather", comparison);
        shown.choose_option(ui, "Surfaces with option", comparison);
    });
    let (case, option) = (shown.case(comparison), shown.option(comparison));
    let state = comparison
        .options
        .get(option)
        .and_then(|option| option.cases.get(case));
    match state {
        Some(Ok(state)) if state.surfaces.is_empty() => {
            widgets::muted(
                ui,
                "No fabric element with a known build-up: describe walls and windows on the \
                 Vehicle page.",
            );
        }
        Some(Ok(state)) => table(ui, context, comparison, &state.surfaces),
        Some(Err(why)) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
        None => {}
    }
    widgets::muted(
        ui,
        "Limits at the surface: 80 % against mould, 60 % against rust on bare metal (ISO 13788 \
         [M]), water on glass. On a clear night roof and glass see air 3 K colder [A].",
    );
}

fn table(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'_>,
    comparison: &Comparison,
    surfaces: &[Surface],
) {
    const HEADS: [&str; 6] = [
        "surface",
        "temperature",
        "RH at it",
        "state",
        "",
        "clears with",
    ];
    let shown = context.view.shown;
    let option = shown.option(comparison);
    let case = comparison.cases.get(shown.case(comparison));
    egui::ScrollArea::horizontal()
        .id_salt("surfaces")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            Grid::new("surfaces")
                .striped(true)
                .min_row_height(21.0)
                .spacing([16.0, 3.0])
                .show(ui, |ui| {
                    for words in HEADS {
                        small(ui, words);
                    }
                    ui.end_row();
                    for (at, surface) in (0..).zip(surfaces) {
                        let name = one(ui, surface);
                        if let Some(case) = case {
                            let topic = DryingTopic::Surface(option, case.id, at);
                            let topic = Topic::Drying(topic);
                            widgets::working_button(ui, context.queue, topic, &name);
                        }
                        cell(ui, clears(surface));
                        ui.end_row();
                    }
                });
        });
}

/// The cells of one surface up to its state; its name.
fn one(ui: &mut Ui, surface: &Surface) -> String {
    let spot = match surface.spot {
        Spot::Bridge => ", thermal bridge",
        Spot::Plain | Spot::Glass | Spot::Metal => "",
    };
    let element = match surface.name.trim() {
        "" => "without a name",
        name => name,
    };
    let name = format!("{element}{spot}");
    cell(ui, name.as_str());
    cell(ui, celsius(surface.temperature_c));
    let words = if surface.surface_rh > 1.0 {
        "over 100 %".to_owned()
    } else {
        percent(surface.surface_rh)
    };
    cell(ui, words);
    let (words, colour) = state(ui, surface);
    ui.label(RichText::new(words).family(bold()).color(colour));
    name
}

/// State in sign and words.
fn state(ui: &Ui, surface: &Surface) -> (&'static str, Color32) {
    let colours = palette(ui);
    if surface.condenses {
        return ("✖ water condenses", colours.danger);
    }
    let over = match surface.spot {
        Spot::Metal => "▲ may rust",
        Spot::Plain | Spot::Bridge | Spot::Glass => "▲ mould can grow",
    };
    if surface.exceeds {
        (over, colours.warning)
    } else {
        ("✔ clear", colours.ok)
    }
}

/// What clears it: `4.2 K warmer, or 48 % RH inside (0.31 L/day more)`.
fn clears(surface: &Surface) -> String {
    if !surface.exceeds {
        return "–".to_owned();
    }
    let warmer = surface.kelvin_to_clear.map_or_else(
        || "no warmth in reach".to_owned(),
        |kelvin| format!("{} K warmer", digits_of(kelvin, 2)),
    );
    format!(
        "{warmer}, or {} RH inside ({} more)",
        percent(surface.rh_to_clear),
        litres_per_day(surface.removal_to_clear_kg_s * 86_400.0)
    )
}
