//! What would do it: the verdicts in words, one picture, and every option in numbers.

use super::cells::POINTS_PER_MM;
use super::option_rows;
use super::view::DryingHeatContext;
use crate::assess::Comparison;
use crate::assess::drying::Verdict;
use crate::figure;
use crate::survey::{Finding, GapId, Severity};
use crate::window::body;
use crate::window::format::{digits_of, percent};
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Color32, Label, RichText, Ui};

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
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
    option_rows::show(ui, context, comparison);
    noticed(ui, context, comparison);
    widgets::muted(
        ui,
        "Steady states: what the inside comes to when an option runs for good. Generic sizes are \
         assumptions of this program [A]; enter your own machines and heaters on the Vehicle page, \
         and they take the place of the generic ones.",
    );
}

/// What was noticed; mere notes are folded away.
fn noticed(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
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

/// The verdicts in a few lines, for those who read no further.
fn summary(ui: &mut Ui, comparison: &Comparison) {
    let colours = palette(ui);
    let target = percent(comparison.target_rh);
    let both = named(comparison, &[Verdict::StillAndWindy]);
    let some = named(comparison, &[Verdict::OnlyStill, Verdict::OnlyWindy]);
    let none = named(comparison, &[Verdict::No]);
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
    after_plan(ui, comparison);
    weathers(ui, comparison);
}

/// The options with one of these verdicts.
fn named(comparison: &Comparison, wanted: &[Verdict]) -> String {
    let names = comparison.options.iter().filter(|option| {
        let verdict = option.verdict.as_ref();
        verdict.is_ok_and(|verdict| wanted.contains(verdict))
    });
    let names: Vec<&str> = names.map(|option| option.name.as_str()).collect();
    names.join("; ")
}

/// What would hold it once the planned gaps are sealed.
fn after_plan(ui: &mut Ui, comparison: &Comparison) {
    let Some(plan) = &comparison.after_plan else {
        return;
    };
    let gaps = planned(&plan.gaps);
    let colours = palette(ui);
    match &plan.comparison {
        Err(why) => {
            let words = format!("ℹ After the plan ({gaps}): not known, {}", why.reason);
            line(ui, colours.muted, &words, "");
        }
        Ok(then) => {
            let both = named(then, &[Verdict::StillAndWindy]);
            if both.is_empty() {
                let words = format!("▲ After the plan ({gaps}) still nothing holds it in both.");
                line(ui, colours.warning, &words, "");
            } else {
                let head = format!("✔ After the plan ({gaps}), still and windy:");
                line(ui, colours.ok, &head, &both);
            }
        }
    }
}

fn planned(gaps: &[GapId]) -> String {
    match gaps {
        [_] => "one gap sealed".to_owned(),
        more => format!("{} gaps sealed", more.len()),
    }
}

/// Which weather *still* and *windy* stand for.
fn weathers(ui: &mut Ui, comparison: &Comparison) {
    let named = |at: usize| {
        let case = comparison.cases.get(at);
        case.map(|case| (case.name.trim(), case.wind_m_s))
    };
    let (still, windy) = (named(comparison.calmest), named(comparison.windiest));
    if let (Some((still, calm)), Some((windy, wind))) = (still, windy)
        && comparison.calmest != comparison.windiest
        && (!still.eq_ignore_ascii_case("still") || !windy.eq_ignore_ascii_case("windy"))
    {
        widgets::muted(
            ui,
            format!(
                "Still is the weather \u{201c}{still}\u{201d} with {} m/s of wind, windy is \
                 \u{201c}{windy}\u{201d} with {} m/s.",
                digits_of(calm, 2),
                digits_of(wind, 2)
            ),
        );
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
