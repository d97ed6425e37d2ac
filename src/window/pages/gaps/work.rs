//! How the selected gap would be sealed, where the work stands, and notes.

use super::super::fields::Fields;
use super::change;
use super::view::GapsContext;
use crate::survey::word::Word;
use crate::survey::{CostBasis, Edit, Field, Gap, Item, Remedy, WorkState};
use crate::window::changes_of_many::{remedied, remedy_kinds, remedy_words};
use crate::window::context::PageContext;
use crate::window::widgets::{self, Choice};
use eframe::egui::Ui;

/// Draws remedy and work.
pub(in crate::window::pages) fn show<View>(
    ui: &mut Ui,
    context: &mut PageContext<'_, View>,
    gap: &Gap,
) {
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
    let mut fields = change::fields(ui, context, gap);
    fields.one_of(Field::State, &WorkState::ALL, WorkState::name, |gap| {
        &mut gap.state
    });
    fields.text(Field::StateDate, |gap| &mut gap.state_date);
    remedy_kind(&mut fields, gap);
    if let Some(of) = &gap.remedy {
        remedy(ui, context, gap, of);
    }
}

fn remedy_kind(fields: &mut Fields<'_, '_, Gap>, gap: &Gap) {
    let current = gap.remedy.as_ref().map(|remedy| remedy.kind);
    let options = remedy_kinds();
    let (ui, _, _) = fields.parts();
    let chosen = Choice::of(Field::Remedy, &current, &options)
        .id(gap.id)
        .show(ui, |kind| remedy_words(*kind).to_owned());
    let remedy = chosen.map(|kind| remedied(gap, kind));
    fields.take(remedy, |gap| &mut gap.remedy);
}

fn remedy<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, gap: &Gap, remedy: &Remedy) {
    let currency = &context.survey.tariffs.currency;
    let put = |remedy| {
        let mut gap = gap.clone();
        gap.remedy = Some(remedy);
        Edit::gap(gap)
    };
    let mut fields = Fields::new(ui, context, Item::Gap(gap.id), remedy, &put);
    fields.text(Field::RemedyWords, |remedy| &mut remedy.words);
    fields.optional(Field::LeakLeft, |remedy| &mut remedy.leak_left_percent);
    let options = [CostBasis::Piece, CostBasis::Metre];
    fields.one_of(
        Field::CostBasis,
        &options,
        |basis| basis.word(),
        |remedy| &mut remedy.cost_basis,
    );
    fields.price(currency, Field::MaterialCost, |remedy| {
        &mut remedy.material_cost
    });
    fields.optional(Field::Minutes, |remedy| &mut remedy.minutes);
}

/// Draws damp reading and note.
pub(super) fn notes(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let mut fields = change::fields(ui, context, gap);
    fields.text(Field::Damp, |gap| &mut gap.damp);
    fields.text(Field::GapNote, |gap| &mut gap.note);
}
