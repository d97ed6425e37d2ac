//! What would do it: the verdicts in words, one picture, and every option in numbers.

use super::{POINTS_PER_MM, cell, shown, unknown};
use crate::assess::drying::{Energy, Fall, OptionAnswer, OptionCase, Verdict};
use crate::assess::{Answer, Comparison, DryingTopic, Topic};
use crate::figure;
use crate::figure::options::verdict_words;
use crate::physics::coupled::Running;
use crate::survey::{Finding, Severity};
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
    noticed(ui, context, comparison);
    widgets::muted(
        ui,
        "Steady states: what the inside comes to when an option runs for good. Generic sizes are \
         assumptions of this program [A]; enter your own machines and heaters on the Vehicle page, \
         and they take the place of the generic ones.",
    );
}

/// What was noticed; mere notes are folded away.
fn noticed(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison) {
    let is_note = |finding: &&Finding| finding.severity == Severity::Note;
    let all = &comparison.findings;
    let mut grave = all.iter().filter(|finding| !is_note(finding)).peekable();
    if grave.peek().is_some() {
        ui.add_space(4.0);
        finding_list(ui, context.queue, grave, true);
    }
    let notes = all.iter().filter(is_note).count();
    if notes > 0 {
        let title = format!("Worth knowing ({notes})");
        egui::CollapsingHeader::new(title)
            .id_salt("notes")
            .show(ui, |ui| {
                let notes = all.iter().filter(is_note);
                finding_list(ui, context.queue, notes, true);
            });
    }
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
        ui.spacing_mut().interact_size.y = 18.0;
        ui.label(RichText::new(head).family(bold()).color(colour));
        if !names.is_empty() {
            ui.add(Label::new(names).wrap());
        }
    });
}

/// Columns of figures, with their widths.
const COLUMNS: [(&str, f32); 7] = [
    ("in weather", 92.0),
    ("inside", 60.0),
    ("RH", 62.0),
    ("removed", 88.0),
    ("electricity", 94.0),
    ("a month", 74.0),
    ("fall of RH owed to", 168.0),
];
/// Width of the words at least.
const WORDS_LEAST: f32 = 280.0;

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
                        None => told(ui, number, option, &context.survey.tariffs.currency),
                        Some(0) => weathers(ui, context, comparison, number - 1),
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
fn told(ui: &mut Ui, number: usize, option: &OptionAnswer, currency: &str) {
    ui.spacing_mut().item_spacing = vec2(6.0, 2.0);
    ui.spacing_mut().interact_size.y = 18.0;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(number.to_string()).color(palette(ui).muted));
        ui.label(RichText::new(&option.name).family(bold()));
        if option.generic {
            widgets::muted(ui, "generic [A]");
        }
        let (words, role) = verdict_words(option);
        let colour = body::colour(role, palette(ui));
        ui.label(RichText::new(words).family(bold()).color(colour));
    });
    ui.add(Label::new(capital(&option.sentence)).wrap());
    let more = more(option, currency);
    if !more.is_empty() {
        widgets::muted(ui, more);
    }
    ui.add_space(2.0);
}

/// The calmest weather case and the windiest, each once.
fn calmest_and_windiest(comparison: &Comparison) -> Vec<usize> {
    let mut both = vec![comparison.calmest, comparison.windiest];
    both.dedup();
    both
}

/// The names of the weather cases, each with the way to the option's working in it.
fn weathers(ui: &mut Ui, context: &mut PageContext<'_>, comparison: &Comparison, option: usize) {
    ui.spacing_mut().interact_size.y = 0.0;
    let name = comparison.options.get(option).map(|option| &option.name);
    for at in calmest_and_windiest(comparison) {
        let Some((case, name)) = comparison.cases.get(at).zip(name) else {
            continue;
        };
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            let what = format!("{name}, {}", case.name);
            let topic = Topic::Drying(DryingTopic::Option(option, case.id));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                widgets::working_button(ui, context.queue, topic, &what);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    let words = RichText::new(&case.name).color(palette(ui).muted);
                    ui.add(Label::new(words).truncate());
                });
            });
        });
    }
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
    for at in calmest_and_windiest(comparison) {
        match option.cases.get(at) {
            Some(Ok(case)) => {
                let currency = &context.survey.tariffs.currency;
                figure_of(ui, case, column, currency);
            }
            Some(Err(why)) if column == 1 => unknown(ui, &why.reason),
            _ => cell(ui, ""),
        }
    }
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
    let sign = if column == 2 && case.holds {
        " ✔"
    } else {
        ""
    };
    cell(ui, format!("{words}{sign}"));
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
