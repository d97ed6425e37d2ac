//! What to look for when buying: removal needed, rated capacities, heaters.

use super::{CARD_LEAST, curves};
use crate::assess::drying::{Capacity, HeaterFor, HeaterSize, SizedFor};
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::survey::MachineKind;
use crate::window::format::{celsius, digits_of, litres_per_day, percent, watts};
use crate::window::page::PageContext;
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Grid, RichText, Ui};

const KINDS: [MachineKind; 3] = [
    MachineKind::Compressor,
    MachineKind::DesiccantRotor,
    MachineKind::Thermoelectric,
];
const WEATHERS: [SizedFor; 3] = [SizedFor::Still, SizedFor::Windy, SizedFor::Design];

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    let set_c = context.survey.targets.set_temperature_c;
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            curves::against_rh(ui, comparison, set_c);
        } else {
            curves::against_ach(ui, comparison, set_c);
        }
    });
    ui.separator();
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            capacities(ui, context, comparison);
        } else {
            heaters(ui, context, comparison);
        }
    });
}

fn head(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).family(bold()));
}

/// A label that keeps its words on one line: in a grid a wrapping one shrinks to its longest
/// syllable.
fn line(ui: &mut Ui, words: impl Into<String>) {
    ui.add(egui::Label::new(words.into()).extend());
}

fn small_line(ui: &mut Ui, words: impl Into<String>) {
    let words = RichText::new(words.into()).small().color(palette(ui).muted);
    ui.add(egui::Label::new(words).extend());
}

fn small_heads<'w>(ui: &mut Ui, words: impl IntoIterator<Item = &'w str>) {
    for words in words {
        ui.label(RichText::new(words).small().color(palette(ui).muted));
    }
    ui.end_row();
}

fn capacities(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    head(ui, "Dehumidifier, rated capacity");
    let all = &comparison.sizing.capacities;
    Grid::new("capacities")
        .striped(true)
        .spacing([16.0, 4.0])
        .show(ui, |ui| {
            small_heads(ui, ["kind, as rated at", "still", "windy", "design"]);
            for kind in KINDS {
                let Some(first) = all.iter().find(|size| size.kind == kind) else {
                    continue;
                };
                ui.vertical(|ui| {
                    line(ui, kind.name());
                    let state = format!(
                        "{} °C, {} RH",
                        digits_of(first.rated_c, 2),
                        percent(first.rated_rh)
                    );
                    small_line(ui, state);
                });
                for weather in WEATHERS {
                    let size = all
                        .iter()
                        .enumerate()
                        .find(|(_, size)| size.kind == kind && size.sized_for == weather);
                    ui.vertical(|ui| {
                        if let Some((at, size)) = size {
                            capacity(ui, size);
                            let topic = Topic::Drying(DryingTopic::Capacity(at));
                            let words = format!("{} {at}", kind.name());
                            widgets::working_button(ui, context.queue, topic, &words);
                        }
                    });
                }
                ui.end_row();
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

fn capacity(ui: &mut Ui, size: &Capacity) {
    match (&size.rated_kg_s, &size.needed_kg_s) {
        (Ok(rated), Ok(needed)) if *needed > 0.0 => {
            line(ui, litres_per_day(rated * 86_400.0));
            small_line(ui, format!("takes {}", litres_per_day(needed * 86_400.0)));
        }
        (Ok(_), Ok(_)) => {
            line(ui, "none needed");
        }
        (Err(why), _) | (_, Err(why)) => not_known(ui, &why.reason),
    }
}

fn not_known(ui: &mut Ui, reason: &str) {
    let words = RichText::new("not known").italics();
    ui.label(words.color(palette(ui).muted))
        .on_hover_text(reason);
}

fn heaters(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    head(ui, "Heater, rating");
    Grid::new("heaters")
        .striped(true)
        .spacing([16.0, 4.0])
        .show(ui, |ui| {
            let heads = ["to hold", "rating", "of it air, fabric", "heat a month", ""];
            small_heads(ui, heads);
            for (at, size) in comparison.sizing.heaters.iter().enumerate() {
                heater(ui, size);
                let topic = Topic::Drying(DryingTopic::Heater(at));
                widgets::working_button(ui, context.queue, topic, &format!("heater {at}"));
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

fn heater(ui: &mut Ui, size: &HeaterSize) {
    let what = match size.heater_for {
        HeaterFor::FrostGuard => "frost guard",
        HeaterFor::SetTemperature => "while drying",
        HeaterFor::Comfort => "comfort",
    };
    ui.vertical(|ui| {
        line(ui, what);
        small_line(ui, celsius(size.inside_c));
    });
    cell(ui, &size.rating_w, watts);
    cell(ui, &size.air_w, |air| {
        format!("{}, {}", watts(air), watts(size.fabric_w))
    });
    cell(ui, &size.kwh_per_month, |kwh| {
        format!("{} kWh", digits_of(kwh, 2))
    });
}

fn cell(ui: &mut Ui, answer: &Answer<f64>, words: impl FnOnce(f64) -> String) {
    match answer {
        Ok(value) => {
            ui.label(words(*value));
        }
        Err(why) => not_known(ui, &why.reason),
    }
}
