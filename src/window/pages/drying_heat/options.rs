//! What would do it: the verdicts in words, one picture, and every option in numbers.

use super::cells::POINTS_PER_MM;
use super::view::{DryingHeatContext, dates, whole};
use crate::assess::Comparison;
use crate::assess::drying::OptionAnswer;
use crate::figure::options::role;
use crate::report::drying::Told;
use crate::survey::{Finding, Severity};
use crate::window::body;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Label, RichText, Ui};

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let whole = whole(context, comparison);
    for words in &whole.summary {
        let shown = units::text(ui.ctx(), words);
        let text = RichText::new(shown)
            .family(bold())
            .color(widgets::report::sign_colour(ui, words));
        ui.add(Label::new(text).wrap());
    }
    for note in &whole.notes {
        widgets::muted(ui, note);
    }
    ui.add_space(6.0);
    let width = f64::from((ui.available_width() / POINTS_PER_MM).max(120.0));
    let scene = context
        .view
        .texts
        .options(dates(context), comparison, width);
    let height = body::narrow(scene.height) * POINTS_PER_MM;
    body::show(ui, &scene, height);
    ui.add_space(4.0);
    let options = whole.options.iter().zip(&comparison.options);
    for (at, (told, option)) in options.enumerate() {
        let sealed = comparison.sealed();
        let then = sealed.and_then(|sealed| Some((sealed.options.get(at)?, sealed)));
        verdict(ui, told, (option, comparison), then);
    }
    widgets::report::part(ui, context.queue, &whole.figures);
    noticed(ui, context, comparison);
}

/// An option, and the comparison it is one of.
type OneOf<'a> = (&'a OptionAnswer, &'a Comparison);

/// Name, verdict, the sentence with its reason, and the same after the plan.
fn verdict(ui: &mut Ui, told: &Told, now: OneOf<'_>, then: Option<OneOf<'_>>) {
    let head = |ui: &mut Ui, name: RichText, option: Option<OneOf<'_>>| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().interact_size.y = 18.0;
            ui.label(name);
            if let Some((option, of)) = option {
                let colour = body::colour(role(option.standing()), palette(ui));
                let words = RichText::new(units::text(ui.ctx(), &option.signed_verdict(of)));
                ui.label(words.family(bold()).color(colour));
            }
        });
    };
    let name = RichText::new(units::text(ui.ctx(), &told.name)).family(bold());
    head(ui, name, Some(now));
    ui.add(Label::new(units::text(ui.ctx(), &told.now)).wrap());
    match &told.after_plan {
        None => {}
        Some(Ok(words)) => {
            head(ui, RichText::new("After the plan:"), then);
            ui.add(Label::new(units::text(ui.ctx(), words)).wrap());
        }
        Some(Err(unknown)) => {
            widgets::muted(ui, format!("After the plan: {unknown}."));
        }
    }
    ui.add_space(2.0);
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
