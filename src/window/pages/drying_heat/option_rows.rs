//! Every option in numbers: a row each with its verdict, and its states still and windy, as
//! surveyed and after the plan.

use super::cells::{cell, small, unknown};
use super::shown;
use super::view::DryingHeatContext;
use crate::assess::drying::{Energy, Fall, OptionAnswer, OptionCase};
use crate::assess::words::sentence;
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::figure::options::verdict_words;
use crate::physics::coupled::Running;
use crate::window::body;
use crate::window::format::{celsius, digits_of, litres_per_day, percent};
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Label, Layout, RichText, Stroke, Ui, vec2};

const GRAMS_PER_HOUR: f64 = 3.6e6;

/// Columns of figures.
const COLUMNS: [&str; 7] = [
    "weather",
    "inside",
    "RH",
    "removed",
    "draws",
    "a month",
    "fall of RH owed to",
];
/// Their widths; the first one is wider where it tells of the plan.
const WIDTHS: [f32; 7] = [92.0, 60.0, 62.0, 88.0, 94.0, 74.0, 168.0];
const FIRST_WITH_PLAN: f32 = 132.0;
/// Width of the words at least.
const WORDS_LEAST: f32 = 280.0;

/// Draws the options in numbers, each with its verdict in words: a table where there is room for
/// it, and else lines.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let mut widths = WIDTHS;
    if comparison.after_plan.is_some() {
        widths[0] = FIRST_WITH_PLAN;
    }
    let figures: f32 = widths.iter().sum();
    let words = ui.available_width() - figures - 8.0;
    if words < WORDS_LEAST {
        narrow(ui, context, comparison);
        return;
    }
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 2.0);
        row(ui, words, &widths, |ui, at| {
            if let Some(head) = at.and_then(|at| COLUMNS.get(at)) {
                widgets::muted(ui, *head);
            }
        });
        for (at, option) in comparison.options.iter().enumerate() {
            ui.push_id(shown::key(option), |ui| {
                row(ui, words, &widths, |ui, column| match column {
                    None => told(ui, context, comparison, at),
                    Some(0) => weathers(ui, context, comparison, at),
                    Some(column) => figures_of(ui, context, comparison, at, column),
                });
            });
        }
    });
}

/// The options one under the other, each figure with its name.
fn narrow(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    for (at, option) in comparison.options.iter().enumerate() {
        ui.push_id(shown::key(option), |ui| {
            ui.separator();
            ui.scope(|ui| told(ui, context, comparison, at));
            for line in lines(comparison, at) {
                ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().interact_size.y = 18.0;
                    ui.spacing_mut().item_spacing = vec2(6.0, 1.0);
                    let words = RichText::new(line.words).family(bold());
                    ui.add(Label::new(words).extend());
                    working(ui, context, comparison, at, &line);
                    for (column, name) in COLUMNS.iter().enumerate().skip(1) {
                        if is_nothing(&line, column) {
                            continue;
                        }
                        small(ui, *name);
                        figure_in(ui, context, &line, column);
                    }
                });
            }
        });
    }
}

/// Words in front, `None` for the cell, and a figure for each column; a rule below.
fn row(ui: &mut Ui, words: f32, widths: &[f32], mut cell: impl FnMut(&mut Ui, Option<usize>)) {
    let drawn = ui.horizontal_top(|ui| {
        boxed(ui, words, |ui| cell(ui, None));
        for (at, width) in widths.iter().enumerate() {
            boxed(ui, *width, |ui| cell(ui, Some(at)));
        }
    });
    let rect = drawn.response.rect;
    let rule = Stroke::new(1.0, palette(ui).rule);
    ui.painter()
        .hline(rect.x_range(), rect.bottom() + 1.0, rule);
    ui.add_space(4.0);
}

fn boxed(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(width - 10.0);
        content(ui);
        ui.set_min_width(width);
    });
}

/// Name, verdict, the sentence with its reason, the same after the plan, and what else is good to
/// know.
fn told(ui: &mut Ui, context: &DryingHeatContext<'_>, comparison: &Comparison, at: usize) {
    let Some(option) = comparison.options.get(at) else {
        return;
    };
    ui.spacing_mut().item_spacing = vec2(6.0, 2.0);
    ui.spacing_mut().interact_size.y = 18.0;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new((at + 1).to_string()).color(palette(ui).muted));
        ui.label(RichText::new(&option.name).family(bold()));
        if option.generic {
            widgets::muted(ui, "generic [A]");
        }
        verdict(ui, option);
    });
    ui.add(Label::new(sentence(&option.sentence)).wrap());
    match comparison.option_after_plan(at) {
        None => {}
        Some(Ok(then)) => {
            ui.horizontal_wrapped(|ui| {
                ui.label("After the plan:");
                verdict(ui, then);
            });
            ui.add(Label::new(sentence(&then.sentence)).wrap());
        }
        Some(Err(why)) => {
            widgets::muted(ui, format!("After the plan: not known, {}", why.reason));
        }
    }
    let more = more(option, &context.survey.tariffs.currency);
    if !more.is_empty() {
        widgets::muted(ui, more);
    }
    ui.add_space(2.0);
}

fn verdict(ui: &mut Ui, option: &OptionAnswer) {
    let (words, role) = verdict_words(option);
    let colour = body::colour(role, palette(ui));
    ui.label(RichText::new(words).family(bold()).color(colour));
}

/// One line of figures of an option: a weather, as surveyed or after the plan.
struct Line<'a> {
    words: &'static str,
    /// Index of the weather case.
    at: usize,
    after_plan: bool,
    case: &'a Answer<OptionCase>,
}

/// The lines of an option: still and windy, and both again after the plan.
fn lines(comparison: &Comparison, option: usize) -> Vec<Line<'_>> {
    let weathers = [
        (comparison.calmest, "still", "still, sealed"),
        (comparison.windiest, "windy", "windy, sealed"),
    ];
    let weathers = if comparison.calmest == comparison.windiest {
        vec![(comparison.calmest, "as it is", "sealed")]
    } else {
        weathers.to_vec()
    };
    let then = comparison
        .option_after_plan(option)
        .and_then(|then| then.ok());
    let now = comparison.options.get(option);
    let mut all = Vec::new();
    for (option, after_plan) in [(now, false), (then, true)] {
        let Some(option) = option else { continue };
        for &(at, words, sealed) in &weathers {
            let Some(case) = option.cases.get(at) else {
                continue;
            };
            all.push(Line {
                words: if after_plan { sealed } else { words },
                at,
                after_plan,
                case,
            });
        }
    }
    all
}

/// The weathers, each with the way to the option's working in it.
fn weathers(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'_>,
    comparison: &Comparison,
    option: usize,
) {
    ui.spacing_mut().interact_size.y = 0.0;
    for line in lines(comparison, option) {
        let case = comparison.cases.get(line.at);
        let name = case.map_or("", |case| case.name.as_str());
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                working(ui, context, comparison, option, &line);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    let words = RichText::new(line.words).color(palette(ui).muted);
                    ui.add(Label::new(words).truncate()).on_hover_text(name);
                });
            });
        });
    }
}

/// The way to the working of a line.
fn working(
    ui: &mut Ui,
    context: &mut DryingHeatContext<'_>,
    comparison: &Comparison,
    option: usize,
    line: &Line<'_>,
) {
    let named = comparison.options.get(option);
    let Some((case, named)) = comparison.cases.get(line.at).zip(named) else {
        return;
    };
    let what = format!("{}, {}", named.name, case.name);
    let (what, topic) = if line.after_plan {
        let topic = DryingTopic::AfterPlan(option, case.id);
        (format!("{what}, after the plan"), topic)
    } else {
        (what, DryingTopic::Option(option, case.id))
    };
    widgets::working_button(ui, context.queue, Topic::Drying(topic), &what);
}

/// A month by the weather's shares, the machine's own air, and what it asks of the supply.
fn more(option: &OptionAnswer, currency: &str) -> String {
    let mut parts = Vec::new();
    if let Ok(kwh) = option.kwh_per_month
        && kwh > 0.0
    {
        let cost = match &option.cost_per_month {
            Ok(cost) => format!(", {}", money(*cost, currency)),
            Err(_) => String::new(),
        };
        let kwh = digits_of(kwh, 2);
        parts.push(format!("a month by the weather's shares: {kwh} kWh{cost}"));
    }
    if let Some(Ok(volumes)) = &option.room_volumes_per_h {
        let times = digits_of(*volumes, 2);
        parts.push(format!(
            "its fan passes the room's air {times} times an hour"
        ));
    }
    if let Some(Ok(supply)) = &option.supply {
        let current = digits_of(supply.current_a, 2);
        let limit = match (supply.within_own, supply.within_10_a, supply.within_16_a) {
            (Some(false), _, _) => ", more than your supply gives",
            (_, true, _) => "",
            (_, false, true) => ", too much for a 10 A supply",
            (_, false, false) => ", too much even for a 16 A supply",
        };
        parts.push(format!("{current} A at 230 V{limit}"));
        if let Some(days) = supply.battery_days {
            parts.push(format!("{} days on the batteries", digits_of(days, 2)));
        }
    }
    let wet = |case: &OptionCase| case.condensation_kg_s * GRAMS_PER_HOUR;
    let wettest = option.cases.iter().flatten().map(wet).fold(0.0, f64::max);
    if wettest > 0.0 {
        let grams = digits_of(wettest, 2);
        parts.push(format!("up to {grams} g of water an hour condense inside"));
    }
    parts.join("; ")
}

fn money(amount: f64, currency: &str) -> String {
    format!("{} {}", digits_of(amount, 2), currency.trim())
        .trim_end()
        .to_owned()
}

/// A figure in every line of an option.
fn figures_of(
    ui: &mut Ui,
    context: &DryingHeatContext<'_>,
    comparison: &Comparison,
    option: usize,
    column: usize,
) {
    for line in lines(comparison, option) {
        figure_in(ui, context, &line, column);
    }
}

/// Whether a column has nothing to tell in a line.
fn is_nothing(line: &Line<'_>, column: usize) -> bool {
    let Ok(case) = line.case else {
        return column > 1;
    };
    match column {
        3 => case.running != Running::TooCold && case.removal_kg_s <= 0.0,
        4 => drawn(&case.energy) == "–",
        5 => matches!(case.energy.cost_per_month, Ok(cost) if cost <= 0.0),
        6 => case.fall.is_none(),
        _ => false,
    }
}

fn figure_in(ui: &mut Ui, context: &DryingHeatContext<'_>, line: &Line<'_>, column: usize) {
    match line.case {
        Ok(case) => {
            let currency = &context.survey.tariffs.currency;
            figure_of(ui, case, column, currency);
        }
        Err(why) if column == 1 => unknown(ui, &why.reason),
        Err(_) => cell(ui, ""),
    }
}

fn figure_of(ui: &mut Ui, case: &OptionCase, column: usize, currency: &str) {
    let words = match column {
        1 => celsius(case.inside.t_c),
        2 => percent(case.rh),
        3 if case.running == Running::TooCold => "too cold".to_owned(),
        3 if case.removal_kg_s > 0.0 => litres_per_day(case.removal_kg_s * 86_400.0),
        4 => drawn(&case.energy),
        5 => return cost(ui, &case.energy.cost_per_month, currency),
        6 => case.fall.as_ref().map_or_else(|| "–".to_owned(), owed),
        _ => "–".to_owned(),
    };
    let sign = if column == 2 && case.holds {
        " ✔"
    } else {
        ""
    };
    cell(ui, format!("{words}{sign}"));
}

fn drawn(energy: &Energy) -> String {
    if energy.kwh_per_day > 0.0 {
        format!("{} kWh/day", digits_of(energy.kwh_per_day, 2))
    } else if energy.gas_kg_per_day > 0.0 {
        format!("gas {} kg/day", digits_of(energy.gas_kg_per_day, 2))
    } else if energy.liquid_fuel_l_per_day > 0.0 {
        format!("fuel {} L/day", digits_of(energy.liquid_fuel_l_per_day, 2))
    } else {
        "–".to_owned()
    }
}

fn cost(ui: &mut Ui, cost: &Answer<f64>, currency: &str) {
    match cost {
        Ok(cost) if *cost > 0.0 => cell(ui, money(*cost, currency)),
        Ok(_) => cell(ui, "–"),
        Err(why) => unknown(ui, &why.reason),
    }
}

/// What the fall of the relative humidity is owed to: `warmth 60 %, water 40 %`.
fn owed(fall: &Fall) -> String {
    // Adding zero makes a negative zero positive.
    let whole = |share: f64| (share * 100.0).round() + 0.0;
    format!(
        "warmth {} %, water {} %",
        whole(fall.warmth_share),
        whole(fall.water_share)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_of_a_fall_are_whole_percents_and_may_exceed_the_whole() {
        let fall = |warmth_share: f64| Fall {
            rh_without: 0.8,
            warmth_share,
            water_share: 1.0 - warmth_share,
        };
        assert_eq!(owed(&fall(0.604)), "warmth 60 %, water 40 %");
        assert_eq!(owed(&fall(1.25)), "warmth 125 %, water -25 %");
    }

    #[test]
    fn money_carries_the_users_own_currency() {
        assert_eq!(money(31.4, " EUR "), "31 EUR");
        assert_eq!(money(0.123, ""), "0.12");
    }
}
