//! Water to remove and heat, the weather cases side by side.

use super::view::DryingHeatContext;
use crate::assess::{Answer, CaseAnswer, CaseDrying, CaseHeat, HeatNeed, RequiredRemoval, Topic};
use crate::window::answers::Results;
use crate::window::format::{celsius, digits, digits_of, litres_per_day, percent, watts};
use crate::window::pages::side_by_side::SideBySide;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

const NO_CASE: &str =
    "There is no weather case: add one on the Vehicle page, such as still, 0 m/s.";

/// A figure in front, and small print under it.
fn figure(ui: &mut Ui, words: &str, small: &str) {
    ui.label(RichText::new(words).heading());
    if !small.is_empty() {
        widgets::muted(ui, small);
    }
}

/// Draws the water to remove.
pub(super) fn water(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let cases = &results.assessment().cases;
    if cases.is_empty() {
        ui.label(NO_CASE);
        return;
    }
    SideBySide::show(ui, "water", cases.len(), |ui, table| {
        table.head(ui, cases.iter().map(|case| case.name.as_str()));
        table.row(
            ui,
            "Water given off inside",
            "people, cooking, washing",
            |ui, at| {
                let Some(case) = cases.get(at) else { return };
                match &case.drying {
                    Ok(drying) => {
                        ui.label(format!("{} g/h", digits(drying.source_kg_s * 3.6e6)));
                    }
                    Err(not_known) => widgets::answer_line(ui, &Err(not_known.clone())),
                }
            },
        );
        removal(ui, table, cases, "Inside as cold as outside", |drying| {
            &drying.at_outside_temperature
        });
        let set = celsius(context.survey.targets.set_temperature_c);
        let words = format!("Inside held at {set}");
        removal(ui, table, cases, &words, |drying| {
            &drying.at_set_temperature
        });
        table.row(ui, "", "", |ui, at| {
            if let Some(case) = cases.get(at) {
                let what = format!("water to remove, {}", case.name);
                widgets::working_button(ui, context.queue, Topic::Removal(case.id), &what);
            }
        });
    });
    widgets::muted(
        ui,
        "The steady load. A damp vehicle gives off water for weeks besides, and those litres come \
         on top.",
    );
}

fn removal(
    ui: &mut Ui,
    table: &SideBySide,
    cases: &[CaseAnswer],
    words: &str,
    of: impl Fn(&CaseDrying) -> &RequiredRemoval,
) {
    table.row(ui, words, "water to remove", |ui, at| {
        let Some(case) = cases.get(at) else { return };
        match &case.drying {
            Ok(drying) => {
                let removal = of(drying);
                let hourly = format!("{} g/h", digits_of(removal.g_per_h(), 2));
                figure(ui, &litres_per_day(removal.l_per_day()), &hourly);
            }
            Err(not_known) => widgets::answer_line(ui, &Err(not_known.clone())),
        }
    });
    table.row(ui, "", "RH if nothing is removed", |ui, at| {
        let Some(Ok(drying)) = cases.get(at).map(|case| &case.drying) else {
            return;
        };
        ui.label(humidity(of(drying).rh_without_removal));
    });
}

/// RH inside without any removal; at saturation water condenses.
fn humidity(rh: f64) -> String {
    if rh >= 1.0 {
        "100 %, water condenses".to_owned()
    } else {
        percent(rh)
    }
}

/// Draws the heat.
pub(super) fn heat(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let cases = &results.assessment().cases;
    if cases.is_empty() {
        ui.label(NO_CASE);
        return;
    }
    let targets = &context.survey.targets;
    let coldest = format!("{} outside", celsius(targets.design_outside_c));
    let set = format!("Held at {}", celsius(targets.set_temperature_c));
    let frost = format!("Frost guard, {}", celsius(targets.frost_guard_c));
    let comfort = format!("Comfort, {}", celsius(targets.comfort_c));
    SideBySide::show(ui, "heat", cases.len(), |ui, table| {
        table.head(ui, cases.iter().map(|case| case.name.as_str()));
        let outside = "while drying, in the case's own air";
        need(
            ui,
            table,
            cases,
            (&set, outside),
            |heat| &heat.set_temperature,
            |ui, case| {
                let what = format!("heat to hold the set temperature, {}", case.name);
                widgets::working_button(ui, context.queue, Topic::Heat(case.id), &what);
            },
        );
        need(
            ui,
            table,
            cases,
            (&frost, &coldest),
            |heat| &heat.frost_guard,
            |ui, case| {
                let what = format!("heat for frost guard, {}", case.name);
                widgets::working_button(ui, context.queue, Topic::FrostGuard(case.id), &what);
            },
        );
        need(
            ui,
            table,
            cases,
            (&comfort, &coldest),
            |heat| &heat.comfort,
            |_, _| {},
        );
    });
    fabric(ui, results);
}

fn need(
    ui: &mut Ui,
    table: &SideBySide,
    cases: &[CaseAnswer],
    (words, small): (&str, &str),
    of: impl Fn(&CaseHeat) -> &HeatNeed,
    mut how: impl FnMut(&mut Ui, &CaseAnswer),
) {
    table.row(ui, words, small, |ui, at| {
        let Some(case) = cases.get(at) else { return };
        match &case.heat {
            Ok(heat) => one_need(ui, of(heat)),
            Err(not_known) => widgets::answer_line(ui, &Err(not_known.clone())),
        }
        how(ui, case);
    });
}

fn one_need(ui: &mut Ui, need: &HeatNeed) {
    let ach = match &need.ach_per_h {
        Ok(ach) => format!(", {} /h", digits_of(*ach, 2)),
        Err(_) => String::new(),
    };
    match (need.total_w(), need.fabric_w.clone()) {
        (Ok(total), Ok(fabric)) => {
            let split = format!(
                "{} with the air{ach}; {} through the fabric",
                watts(need.air_w),
                watts(fabric)
            );
            figure(ui, &watts(total), &split);
        }
        (Err(not_known), _) | (_, Err(not_known)) => {
            widgets::answer_line(ui, &Err(not_known));
            widgets::muted(ui, format!("with the air alone {}{ach}", watts(need.air_w)));
        }
    }
}

fn fabric(ui: &mut Ui, results: &Results) {
    let loss: Answer<String> = results
        .assessment()
        .fabric
        .clone()
        .map(|fabric| format!("{} W/K", digits(fabric.ua_w_per_k)));
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        ui.label("Loss of the fabric with thermal bridges:");
        widgets::answer_line(ui, &loss);
    });
    widgets::muted(
        ui,
        "Steady heat without sun, people or machines. Draining the water system is the first \
         protection against frost; heat is the second.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saturated_air_is_told_in_words() {
        assert_eq!(humidity(1.0), "100 %, water condenses");
        assert_eq!(humidity(0.618), "62 %");
    }
}
