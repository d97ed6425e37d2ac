//! Beyond the steady state, simply: drying out damp contents, warming up, and the air of sleepers.

use super::cells::{CARD_LEAST, cell, small};
use super::view::DryingHeatContext;
use crate::assess::drying::{DryOut, NightAir, OptionAnswer, WarmUp};
use crate::assess::safety::words::ALARM;
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::survey::{Severity, WeatherId};
use crate::window::format::{celsius, digits_of, watts};
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Grid, RichText, Ui};

const DAY_HOURS: f64 = 24.0;
/// Carbon dioxide above which a room wants more air, ppm: German Environment Agency, guide values
/// of 2008 \[M\].
const STUFFY_PPM: f64 = 1000.0;
/// Carbon dioxide above which a room is no place to stay in, ppm: the same guide values \[M\].
const TOO_MUCH_PPM: f64 = 2000.0;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            dry_out(ui, context, comparison);
        } else {
            warm_up(ui, context, comparison);
            ui.separator();
            night(ui, context, comparison);
        }
    });
}

fn head(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).family(bold()));
}

fn dry_outs(option: &OptionAnswer, comparison: &Comparison) -> [Option<DryOut>; 2] {
    [comparison.calmest, comparison.windiest].map(|at| {
        let case = option.cases.get(at)?.as_ref().ok()?;
        case.dry_out
    })
}

fn dry_out(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    head(ui, "Drying out damp contents");
    let rows: Vec<(usize, &OptionAnswer, [Option<DryOut>; 2])> = (1..)
        .zip(&comparison.options)
        .map(|(number, option)| (number, option, dry_outs(option, comparison)))
        .filter(|(_, _, found)| found.iter().any(Option::is_some))
        .collect();
    if rows.is_empty() {
        widgets::muted(
            ui,
            "Not known: give the dry mass of the contents and their moisture on the Vehicle page, \
             under Equipment.",
        );
        return;
    }
    Grid::new("dry out")
        .min_col_width(0.0)
        .striped(true)
        .spacing([14.0, 3.0])
        .show(ui, |ui| {
            for words in ["", "option", "to give off", "still", "windy", ""] {
                small(ui, words);
            }
            ui.end_row();
            for (number, option, found) in rows {
                cell(ui, number.to_string());
                name(ui, &option.name);
                let water = found.iter().flatten().next();
                cell(
                    ui,
                    water.map_or_else(String::new, |found| litres(found.water_kg)),
                );
                for found in found {
                    cell(ui, days(found.as_ref()));
                }
                if let Some(case) = comparison.cases.get(comparison.calmest) {
                    let topic = Topic::Drying(DryingTopic::DryOut(number - 1, case.id));
                    let what = format!("drying out, {}", option.name);
                    widgets::working_button(ui, context.queue, topic, &what);
                }
                ui.end_row();
            }
        });
    widgets::muted(
        ui,
        "Litres on top of the steady load, until the contents are in balance with the target; \
         days at least, for the last of it comes slowly.",
    );
}

/// A name cut to the width of its column.
fn name(ui: &mut Ui, name: &str) {
    const WIDTH: f32 = 215.0;
    ui.horizontal(|ui| {
        ui.set_width(WIDTH);
        ui.add(egui::Label::new(name).truncate());
    });
}

fn litres(kg: f64) -> String {
    if kg > 0.0 {
        format!("{} L", digits_of(kg, 2))
    } else {
        "nothing".to_owned()
    }
}

/// How long it takes in one weather.
fn days(found: Option<&DryOut>) -> String {
    match found {
        None => "not known".to_owned(),
        Some(found) if found.water_kg <= 0.0 => "dry already".to_owned(),
        Some(found) => found.days.map_or_else(
            || "never".to_owned(),
            |days| {
                if days < 1.0 {
                    "within a day".to_owned()
                } else {
                    format!("{} days", digits_of(days, 2))
                }
            },
        ),
    }
}

fn case_name(comparison: &Comparison, id: WeatherId) -> &str {
    let case = comparison.cases.iter().find(|case| case.id == id);
    case.map_or("", |case| case.name.as_str())
}

fn warm_up(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    head(ui, "Warming up to comfort");
    for (at, one) in (0..).zip(&comparison.warm_up) {
        let case = case_name(comparison, one.id);
        ui.horizontal_wrapped(|ui| {
            warm_up_in(ui, case, one);
            let topic = Topic::Drying(DryingTopic::WarmUp(at));
            let what = format!("warming up, {case}");
            widgets::working_button(ui, context.queue, topic, &what);
        });
    }
    let assumed = comparison.warm_up.iter().any(|one| {
        one.heat_capacity
            .as_ref()
            .is_ok_and(|(_, assumed)| *assumed)
    });
    if assumed {
        widgets::muted(
            ui,
            "Heat capacity taken as 30 kJ/K for each m³ of inside [A].",
        );
    }
}

fn warm_up_in(ui: &mut Ui, case: &str, one: &WarmUp) {
    let span = format!("{case}, {} to {}:", celsius(one.from_c), celsius(one.to_c));
    ui.label(RichText::new(span).color(palette(ui).muted));
    match &one.power_for_an_hour_w {
        Ok(power) => {
            ui.label(format!("{} within an hour", watts(*power)));
        }
        Err(why) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    }
    for (name, time) in &one.heaters {
        let words = match time {
            Ok(Some(seconds)) => format!("{name}: {}", hours(seconds / 3600.0)),
            Ok(None) => format!("{name}: never gets there"),
            Err(why) => format!("{name}: not known, {}", why.reason),
        };
        ui.label(format!("· {words}"));
    }
}

fn hours(hours: f64) -> String {
    if hours < 1.0 {
        format!("{:.0} min", (hours * 60.0).max(1.0))
    } else if hours < 2.0 * DAY_HOURS {
        format!("{} h", digits_of(hours, 2))
    } else {
        format!("{} days", digits_of(hours / DAY_HOURS, 2))
    }
}

fn night(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    ui.horizontal(|ui| {
        head(ui, "Air at night, everybody asleep");
        let topic = Topic::Drying(DryingTopic::NightAir);
        widgets::working_button(ui, context.queue, topic, "air at night");
    });
    match &comparison.night_air {
        Ok(air) => night_air(ui, case_name(comparison, air.id), air),
        Err(why) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    }
    widgets::message_line(
        ui,
        Severity::Danger,
        &format!(
            "Keep the fixed ventilation open whenever somebody sleeps here. Carbon dioxide says \
             nothing about carbon monoxide: fit a CO alarm ({ALARM})."
        ),
    );
}

fn night_air(ui: &mut Ui, case: &str, air: &NightAir) {
    let per_sleeper = digits_of(air.per_sleeper_m3_s * 3600.0, 2);
    let ppm = digits_of(air.carbon_dioxide_ppm, 2);
    ui.label(format!(
        "{case}, {} asleep, as surveyed: {per_sleeper} m³/h for each, carbon dioxide settles at {ppm} ppm",
        air.sleepers
    ));
    let colours = palette(ui);
    let (words, colour) = if air.carbon_dioxide_ppm > TOO_MUCH_PPM {
        (
            "✖ far too little air to sleep in: open a ventilator",
            colours.danger,
        )
    } else if air.carbon_dioxide_ppm > STUFFY_PPM {
        ("▲ stuffy: more air is wanted at night", colours.warning)
    } else {
        ("✔ fresh enough", colours.ok)
    };
    ui.label(RichText::new(words).family(bold()).color(colour));
    widgets::muted(
        ui,
        "Guide values: up to 1000 ppm good, above 2000 ppm unacceptable (German Environment \
         Agency, 2008 [M]).",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_told_and_never_is_not_zero() {
        let found = |water_kg: f64, days: Option<f64>| DryOut {
            balance_moisture: 0.1,
            water_kg,
            spare_kg_s: 0.0,
            days,
        };
        assert_eq!(days(None), "not known");
        assert_eq!(days(Some(&found(0.0, None))), "dry already");
        assert_eq!(days(Some(&found(20.0, None))), "never");
        assert_eq!(days(Some(&found(20.0, Some(0.4)))), "within a day");
        assert_eq!(days(Some(&found(20.0, Some(12.34)))), "12 days");
    }

    #[test]
    fn short_times_are_minutes_and_long_ones_days() {
        assert_eq!(hours(0.55), "33 min");
        assert_eq!(hours(7.26), "7.3 h");
        assert_eq!(hours(120.0), "5.0 days");
    }
}
