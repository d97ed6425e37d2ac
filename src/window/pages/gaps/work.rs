//! How the selected gap would be sealed, where the work stands, and notes.

use super::super::fields::Fields;
use super::change;
use super::view::GapsContext;
use crate::assess::words::capital;
use crate::survey::leave::{heed, leave, states};
use crate::survey::word::Word;
use crate::survey::{CostBasis, Edit, Field, Gap, Item, Remedy, RemedyKind, Survey, WorkState};
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
    let survey = context.survey;
    if let Some(words) = what_holds(survey, gap) {
        widgets::muted(ui, words);
    }
    let states = states(survey, gap);
    let remedies = remedy_kinds(survey, &[gap]);
    let mut fields = change::fields(ui, context, gap);
    fields.one_of(Field::State, &states, WorkState::name, |gap| &mut gap.state);
    fields.text(Field::StateDate, |gap| &mut gap.state_date);
    remedy_kind(&mut fields, gap, &remedies);
    if let Some(of) = &gap.remedy {
        remedy(ui, context, gap, of);
    }
}

/// What holds for any work on the gap.
fn what_holds(survey: &Survey, gap: &Gap) -> Option<String> {
    match leave(survey, gap) {
        Err(why) if why.protects() => Some(format!(
            "{}. Local codes apply; gas work belongs to licensed fitters.",
            capital(&why.to_string())
        )),
        Err(why) => Some(format!("It is in no plan: {why}.")),
        Ok(manner) => heed(survey, gap, manner).map(|words| format!("{}.", capital(&words))),
    }
}

fn remedy_kind(fields: &mut Fields<'_, '_, Gap>, gap: &Gap, options: &[Option<RemedyKind>]) {
    let current = gap.remedy.as_ref().map(|remedy| remedy.kind);
    let (ui, _, _) = fields.parts();
    let chosen = Choice::of(Field::Remedy, &current, options)
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
