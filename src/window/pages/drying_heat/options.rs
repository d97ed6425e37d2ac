//! What would do it: the verdicts in words, one picture, and every option in numbers.

use super::{POINTS_PER_MM, shown};
use crate::assess::drying::{Energy, Fall, OptionAnswer, OptionCase, Verdict};
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::figure;
use crate::figure::options::verdict_words;
use crate::physics::coupled::Running;
use crate::window::body;
use crate::window::format::{celsius, digits_of, litres_per_day, percent};
use crate::window::page::PageContext;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Align, Color32, Label, Layout, RichText, ScrollArea, Stroke, Ui, vec2};

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    summary(ui, comparison);
    ui.add_space(6.0);
    let width = f64::from((ui.available_width() / POINTS_PER_MM).max(120.0));
    let scene = figure::options(comparison, width);
    #[expect(
        clippy::cast_possible_truncation,
        reason = "points of the screen are f32"
    )]
    let height = scene.height as f32 * POINTS_PER_MM;
    body::show(ui, &scene, height);
    ui.add_space(4.0);
    table(ui, context, comparison);
    if !comparison.findings.is_empty() {
        ui.add_space(4.0);
        finding_list(ui, context.queue, comparison.findings.iter(), true);
    }
    widgets::muted(
        ui,
        "Steady states: what the inside comes to when an option runs for good. Generic sizes are \
         assumptions of this program [A]; enter your own machines and heaters on the Vehicle page, \
         and they take the place of the generic ones.",
    );
}

/// The verdicts in three lines, for those who read no further.
fn summary(ui: &mut Ui, comparison: &Comparison) {
    let named = |wanted: &[Verdict]| {
        let names = comparison.options.iter().filter(|option| {
            option
                .verdict
                .as_ref()
                .is_ok_and(|verdict| wanted.contains(verdict))
        });
        let names: Vec<&str> = names.map(|option| option.name.as_str()).collect();
        names.join("; ")
    };
    let colours = palette(ui);
    let target = percent(comparison.target_rh);
    let both = named(&[Verdict::StillAndWindy]);
    let some = named(&[Verdict::OnlyStill, Verdict::OnlyWindy]);
    let none = named(&[Verdict::No]);
    if both.is_empty() {
        let words = format!("▲ Nothing compared here holds {target} both still and windy.");
        line(ui, colours.warning, &words, "");
    } else {
        let head = format!("✔ Holds {target}, still and windy:");
        line(ui, colours.ok, &head, &both);
    }
    if !some.is_empty() {
        line(ui, colours.warning, "▲ Only in one of the two:", &some);
    }
    if !none.is_empty() {
        line(ui, colours.muted, "✖ Does not hold it:", &none);
    }
}

fn line(ui: &mut Ui, colour: Color32, head: &str, names: &str) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(head).family(bold()).color(colour));
        if !names.is_empty() {
            ui.add(Label::new(names).wrap());
        }
    });
}

/// Columns of figures, with their widths.
const COLUMNS: [(&str, f32); 7] = [
    ("in weather", 66.0),
    ("inside", 58.0),
    ("RH", 66.0),
    ("water removed", 98.0),
    ("electricity", 98.0),
    ("cost a month", 92.0),
    ("fall of RH owed to", 188.0),
];
/// Width of the words at least.
const WORDS_LEAST: f32 = 290.0;

fn table(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    let figures: f32 = COLUMNS.iter().map(|(_, width)| width).sum();
    let words = (ui.available_width() - figures - 8.0).max(WORDS_LEAST);
    ScrollArea::horizontal()
        .id_salt("options")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(0.0, 2.0);
            row(ui, words, |ui, at| {
                if let Some((head, _)) = at.and_then(|at| COLUMNS.get(at)) {
                    widgets::muted(ui, *head);
                }
            });
            for (number, option) in (1..).zip(&comparison.options) {
                ui.push_id(shown::key(option), |ui| {
                    row(ui, words, |ui, at| match at {
                        None => told(ui, context, comparison, (number, option)),
                        Some(at) => figures_of(ui, context, comparison, option, at),
                    });
                });
            }
        });
}

/// Words in front, `None` for the cell, and a figure for each column; a rule below.
fn row(ui: &mut Ui, words: f32, mut cell: impl FnMut(&mut Ui, Option<usize>)) {
    let drawn = ui.horizontal_top(|ui| {
        boxed(ui, words, |ui| cell(ui, None));
        for (at, (_, width)) in COLUMNS.iter().enumerate() {
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

/// Name, verdict, the sentence with its reason, and what else is good to know.
fn told(
    ui: &mut Ui,
    context: &mut PageContext<'_>,
    comparison: &Comparison,
    (number, option): (usize, &OptionAnswer),
) {
    ui.spacing_mut().item_spacing = vec2(6.0, 2.0);
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(number.to_string()).color(palette(ui).muted));
        ui.label(RichText::new(&option.name).family(bold()));
        if option.generic {
            widgets::muted(ui, "generic [A]");
        }
    });
    ui.horizontal_wrapped(|ui| {
        let (words, role) = verdict_words(option);
        let colour = body::colour(role, palette(ui));
        ui.label(RichText::new(words).family(bold()).color(colour));
        for at in [comparison.calmest, comparison.windiest] {
            if let Some(case) = comparison.cases.get(at) {
                let topic = Topic::Drying(DryingTopic::Option(number - 1, case.id));
                widgets::muted(ui, &case.name);
                let words = format!("{}, {}", option.name, case.name);
                widgets::working_button(ui, context.queue, topic, &words);
            }
        }
    });
    ui.add(Label::new(capital(&option.sentence)).wrap());
    let more = more(option, &context.survey.tariffs.currency);
    if !more.is_empty() {
        widgets::muted(ui, more);
    }
    ui.add_space(2.0);
}

/// The sentence with a capital in front and a full stop behind.
fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    match letters.next() {
        Some(first) => format!("{}{}.", first.to_uppercase(), letters.as_str()),
        None => String::new(),
    }
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
        parts.push(format!("{current} A at 230 V"));
        if let Some(days) = supply.battery_days {
            parts.push(format!("{} days on the batteries", digits_of(days, 2)));
        }
    }
    parts.join("; ")
}

fn money(amount: f64, currency: &str) -> String {
    format!("{} {}", digits_of(amount, 2), currency.trim())
        .trim_end()
        .to_owned()
}

/// A figure for the calmest weather, and under it the one for the windiest.
fn figures_of(
    ui: &mut Ui,
    context: &PageContext<'_>,
    comparison: &Comparison,
    option: &OptionAnswer,
    column: usize,
) {
    let mut both = vec![comparison.calmest, comparison.windiest];
    both.dedup();
    for at in both {
        let name = comparison.cases.get(at).map(|case| case.name.as_str());
        if column == 0 {
            let words = RichText::new(name.unwrap_or_default()).color(palette(ui).muted);
            ui.add(Label::new(words).truncate());
            continue;
        }
        match option.cases.get(at) {
            Some(Ok(case)) => {
                let currency = &context.survey.tariffs.currency;
                figure_of(ui, case, column, currency);
            }
            Some(Err(why)) if column == 1 => {
                unknown(ui, &why.reason);
            }
            _ => {
                ui.label("");
            }
        }
    }
}

fn unknown(ui: &mut Ui, reason: &str) {
    let words = RichText::new("not known")
        .italics()
        .color(palette(ui).muted);
    ui.label(words).on_hover_text(reason);
}

fn figure_of(ui: &mut Ui, case: &OptionCase, column: usize, currency: &str) {
    let words = match column {
        1 => celsius(case.inside.t_c),
        2 => percent(case.rh),
        3 if case.running == Running::TooCold => "too cold".to_owned(),
        3 if case.removal_kg_s > 0.0 => litres_per_day(case.removal_kg_s * 86_400.0),
        4 => electricity(&case.energy),
        5 => return cost(ui, &case.energy.cost_per_month, currency),
        6 => case.fall.as_ref().map_or_else(|| "–".to_owned(), owed),
        _ => "–".to_owned(),
    };
    if column == 2 {
        let sign = if case.holds { "✔" } else { "" };
        ui.label(format!("{words} {sign}").trim_end().to_owned());
    } else {
        ui.label(words);
    }
}

fn electricity(energy: &Energy) -> String {
    if energy.kwh_per_day > 0.0 {
        format!("{} kWh/day", digits_of(energy.kwh_per_day, 2))
    } else if energy.gas_kg_per_day > 0.0 {
        format!("gas {} kg/day", digits_of(energy.gas_kg_per_day, 2))
    } else {
        "–".to_owned()
    }
}

fn cost(ui: &mut Ui, cost: &Answer<f64>, currency: &str) {
    match cost {
        Ok(cost) if *cost > 0.0 => {
            ui.label(money(*cost, currency));
        }
        Ok(_) => {
            ui.label("–");
        }
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
    fn sentences_begin_with_a_capital_and_end() {
        assert_eq!(capital("does not hold 55 %"), "Does not hold 55 %.");
        assert_eq!(capital(""), "");
    }

    #[test]
    fn money_carries_the_users_own_currency() {
        assert_eq!(money(31.4, " EUR "), "31 EUR");
        assert_eq!(money(0.123, ""), "0.12");
    }
}
