//! What to look for when buying: removal needed, rated capacities, heaters.

use super::cells::{CARD_LEAST, cell, small, unknown};
use super::curves;
use super::view::DryingHeatContext;
use crate::assess::drying::{Capacity, HeaterFor, HeaterSize, SizedFor, Sizing};
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::survey::MachineKind;
use crate::window::format::{celsius, digits_of, litres_per_day, percent, watts};
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{Grid, RichText, Ui};

const KINDS: [MachineKind; 3] = [
    MachineKind::Compressor,
    MachineKind::DesiccantRotor,
    MachineKind::Thermoelectric,
];
const WEATHERS: [SizedFor; 3] = [SizedFor::Still, SizedFor::Windy, SizedFor::Design];

/// Width of a list of sizes at least.
const LIST_LEAST: f32 = 500.0;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let set_c = context.survey.targets.set_temperature_c;
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            curves::against_rh(ui, comparison, set_c);
        } else {
            curves::against_ach(ui, comparison, set_c);
        }
    });
    ui.separator();
    widgets::columns(ui, LIST_LEAST, 2, |ui, at| {
        if at == 0 {
            capacities(ui, context, comparison);
        } else {
            heaters(ui, context, comparison);
        }
    });
}

/// Sizes once the planned gaps are sealed.
fn then(comparison: &Comparison) -> Option<&Sizing> {
    let then = comparison.after_plan.as_ref()?.comparison.as_ref().ok()?;
    Some(&then.sizing)
}

/// A size after the plan, in small under the one as surveyed.
fn after_plan(ui: &mut Ui, size: Option<&Answer<f64>>, words: impl FnOnce(f64) -> String) {
    if let Some(Ok(size)) = size {
        small(ui, format!("after the plan {}", words(*size)));
    }
}

fn head(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).family(bold()));
}

fn small_heads<'w>(ui: &mut Ui, words: impl IntoIterator<Item = &'w str>) {
    for words in words {
        small(ui, words);
    }
    ui.end_row();
}

fn capacities(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    head(ui, "Dehumidifier, rated capacity");
    let all = &comparison.sizing.capacities;
    Grid::new("capacities")
        .striped(true)
        .spacing([16.0, 4.0])
        .show(ui, |ui| {
            small_heads(ui, ["kind, as rated at", "still", "windy", "design"]);
            for kind in KINDS {
                capacities_of(ui, context, comparison, kind);
            }
        });
    let inside = all
        .first()
        .map_or_else(String::new, |size| celsius(size.inside_c));
    widgets::muted(
        ui,
        format!(
            "The smallest rating that holds the target at {inside} inside, with a quarter added \
             [A]; under it the water it must take there. Compare it with the maker's figure at the \
             same temperature and RH."
        ),
    );
}

/// The row of one kind of machine.
fn capacities_of(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'_>,
    comparison: &Comparison,
    kind: MachineKind,
) {
    let all = &comparison.sizing.capacities;
    let of_kind = || (0..).zip(all).filter(|(_, size)| size.kind == kind);
    let Some((_, first)) = of_kind().next() else {
        return;
    };
    ui.vertical(|ui| {
        cell(ui, kind.name());
        let rated_c = digits_of(first.rated_c, 2);
        small(ui, format!("{rated_c} °C, {} RH", percent(first.rated_rh)));
    });
    for weather in WEATHERS {
        ui.vertical(|ui| {
            if let Some((at, size)) = of_kind().find(|(_, size)| size.sized_for == weather) {
                let then = then(comparison).and_then(|then| then.capacities.get(at));
                capacity(ui, context, at, (size, then));
            }
        });
    }
    ui.end_row();
}

/// A capacity as surveyed, and under it the one after the plan.
fn capacity(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'_>,
    at: usize,
    (size, then): (&Capacity, Option<&Capacity>),
) {
    match (&size.rated_kg_s, &size.needed_kg_s) {
        (Ok(rated), Ok(needed)) if *needed > 0.0 => {
            cell(ui, litres_per_day(rated * 86_400.0));
            small(ui, format!("takes {}", litres_per_day(needed * 86_400.0)));
            let then = then.map(|size| &size.rated_kg_s);
            after_plan(ui, then, |kg_s| litres_per_day(kg_s * 86_400.0));
        }
        (Ok(_), Ok(_)) => cell(ui, "none needed"),
        (Err(why), _) | (_, Err(why)) => unknown(ui, &why.reason),
    }
    let what = format!("{}, {}", size.kind.name(), size.sized_for.name());
    let topic = Topic::Drying(DryingTopic::Capacity(at));
    widgets::working_button(ui, context.queue, topic, &what);
}

fn heaters(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    head(ui, "Heater, rating");
    Grid::new("heaters")
        .striped(true)
        .spacing([16.0, 4.0])
        .show(ui, |ui| {
            let heads = ["to hold", "rating", "of it air, fabric", "heat a month", ""];
            small_heads(ui, heads);
            for (at, size) in (0..).zip(&comparison.sizing.heaters) {
                let then = then(comparison).and_then(|then| then.heaters.get(at));
                let what = heater(ui, size, then);
                let topic = Topic::Drying(DryingTopic::Heater(at));
                widgets::working_button(ui, context.queue, topic, what);
                ui.end_row();
            }
        });
    let design = celsius(context.survey.targets.design_outside_c);
    widgets::muted(
        ui,
        format!(
            "Ratings for {design} outside in the windiest weather, a quarter added [A]; heat a \
             month over the weather cases by their shares. Frost guard does not replace draining \
             the water system."
        ),
    );
}

/// The cells of one heater; the words for it.
fn heater(ui: &mut Ui, size: &HeaterSize, then: Option<&HeaterSize>) -> &'static str {
    let what = match size.heater_for {
        HeaterFor::FrostGuard => "heater for frost guard",
        HeaterFor::SetTemperature => "heater while drying",
        HeaterFor::Comfort => "heater for comfort",
    };
    ui.vertical(|ui| {
        cell(ui, what);
        small(ui, celsius(size.inside_c));
    });
    ui.vertical(|ui| {
        answer(ui, &size.rating_w, watts);
        after_plan(ui, then.map(|size| &size.rating_w), watts);
    });
    answer(ui, &size.air_w, |air| {
        format!("{}, {}", watts(air), watts(size.fabric_w))
    });
    answer(ui, &size.kwh_per_month, |kwh| {
        format!("{} kWh", digits_of(kwh, 2))
    });
    what
}

fn answer(ui: &mut Ui, answer: &Answer<f64>, words: impl FnOnce(f64) -> String) {
    match answer {
        Ok(value) => cell(ui, words(*value)),
        Err(why) => unknown(ui, &why.reason),
    }
}
