//! How the selected gap would be sealed, where the work stands, and notes.

use super::change::change;
use super::view::GapsContext;
use crate::survey::{CostBasis, Gap, Remedy, RemedyKind, WorkState};
use crate::window::context::PageContext;
use crate::window::marks::Marks;
use crate::window::request::Queue;
use crate::window::together::remedied;
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui;
use egui::Ui;

/// Draws remedy and work.
pub(in crate::window::pages) fn show<View>(
    ui: &mut Ui,
    context: &mut PageContext<'_, View>,
    gap: &Gap,
    marks: Marks<'_>,
) {
    let queue = &mut *context.queue;
    if gap.purpose.must_stay_open() {
        widgets::muted(
            ui,
            format!(
                "This is {}: it stays open and is never sealed. Local codes apply; gas work \
                 belongs to licensed fitters.",
                gap.purpose.name()
            ),
        );
    }
    let state = Choice::new("State", &gap.state, &WorkState::ALL)
        .id(gap.id)
        .show(ui, |state| state.name().to_owned());
    if let Some(state) = state {
        change(queue, gap, |gap| gap.state = state);
    }
    let date = TextField::new("Date of that", "state_date", &gap.state_date)
        .id(gap.id)
        .marks(marks)
        .hint("2026-01-31")
        .width(110.0)
        .show(ui, queue);
    if let Some(date) = date {
        change(queue, gap, |gap| gap.state_date = date);
    }
    remedy_kind(ui, queue, gap);
    if let Some(remedy) = &gap.remedy {
        remedy_words(ui, queue, gap, remedy);
        remedy_numbers(
            ui,
            queue,
            gap,
            remedy,
            marks,
            &context.survey.tariffs.currency,
        );
    }
}

fn remedy_kind(ui: &mut Ui, queue: &mut Queue, gap: &Gap) {
    let current = gap.remedy.as_ref().map(|remedy| remedy.kind);
    let mut options = vec![None];
    options.extend(RemedyKind::ALL.map(Some));
    let chosen = Choice::new("Remedy", &current, &options)
        .id(gap.id)
        .show(ui, |kind| {
            kind.map_or("none yet", RemedyKind::name).to_owned()
        });
    let Some(chosen) = chosen else { return };
    let remedy = remedied(gap.remedy.as_ref(), chosen);
    change(queue, gap, |gap| gap.remedy = remedy);
}

fn change_remedy(queue: &mut Queue, gap: &Gap, remedy: &Remedy, with: impl FnOnce(&mut Remedy)) {
    let mut changed = remedy.clone();
    with(&mut changed);
    change(queue, gap, |gap| gap.remedy = Some(changed));
}

fn remedy_words(ui: &mut Ui, queue: &mut Queue, gap: &Gap, remedy: &Remedy) {
    let words = TextField::new("Words for the job", "words", &remedy.words)
        .id(gap.id)
        .show(ui, queue);
    if let Some(words) = words {
        change_remedy(queue, gap, remedy, |remedy| remedy.words = words);
    }
}

fn remedy_numbers(
    ui: &mut Ui,
    queue: &mut Queue,
    gap: &Gap,
    remedy: &Remedy,
    marks: Marks<'_>,
    currency: &str,
) {
    let left = NumberField::new(
        "Leak that remains",
        "leak_left_percent",
        remedy.leak_left_percent,
    )
    .id(gap.id)
    .marks(marks)
    .show(ui, queue);
    if let Some(left) = left {
        change_remedy(queue, gap, remedy, |remedy| remedy.leak_left_percent = left);
    }
    let basis = Choice::new(
        "Material counted by",
        &remedy.cost_basis,
        &[CostBasis::Piece, CostBasis::Metre],
    )
    .id(gap.id)
    .width(110.0)
    .show(ui, |basis| {
        match basis {
            CostBasis::Piece => "piece",
            CostBasis::Metre => "metre",
        }
        .to_owned()
    });
    if let Some(basis) = basis {
        change_remedy(queue, gap, remedy, |remedy| remedy.cost_basis = basis);
    }
    let cost = NumberField::new("Material cost", "material_cost", remedy.material_cost)
        .id(gap.id)
        .marks(marks)
        .unit(currency)
        .show(ui, queue);
    if let Some(cost) = cost {
        change_remedy(queue, gap, remedy, |remedy| remedy.material_cost = cost);
    }
    let minutes = NumberField::new("Working time", "minutes", remedy.minutes)
        .id(gap.id)
        .marks(marks)
        .show(ui, queue);
    if let Some(minutes) = minutes {
        change_remedy(queue, gap, remedy, |remedy| remedy.minutes = minutes);
    }
}

/// Draws damp reading and note.
pub(super) fn notes(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    let damp = TextField::new("Damp reading", "damp", &gap.damp)
        .id(gap.id)
        .marks(marks)
        .hint("percent or words")
        .show(ui, context.queue);
    if let Some(damp) = damp {
        change(context.queue, gap, |gap| gap.damp = damp);
    }
    let note = TextField::new("Note", "note", &gap.note)
        .id(gap.id)
        .rows(3)
        .show(ui, context.queue);
    if let Some(note) = note {
        change(context.queue, gap, |gap| gap.note = note);
    }
}
