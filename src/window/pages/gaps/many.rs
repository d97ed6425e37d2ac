//! Changing the selected gaps together.

use super::view::GapsContext;
use crate::survey::leave::{self, states};
use crate::survey::{Certainty, Gap, GapPart, Survey, WorkState, ZoneId};
use crate::window::changes_of_many;
use crate::window::widgets::{self, Choice};
use eframe::egui::Ui;

/// Width of a choice.
const CHOICE: f32 = 140.0;

/// What all of them have in common, or none where they differ.
fn common<T: PartialEq>(gaps: &[&Gap], part: impl Fn(&Gap) -> T) -> Option<T> {
    let mut parts = gaps.iter().map(|gap| part(gap));
    let first = parts.next()?;
    parts.all(|other| other == first).then_some(first)
}

/// A choice for all of them.
fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    what: &str,
    now: Option<T>,
    all: impl IntoIterator<Item = T>,
    words: impl Fn(&T) -> String,
) -> Option<T> {
    let mut options: Vec<Option<T>> = all.into_iter().map(Some).collect();
    if now.is_none() {
        options.insert(0, None);
    }
    Choice::new(&format!("{what} of the selected gaps"), &now, &options)
        .compact()
        .width(CHOICE)
        .show(ui, |option| match option {
            Some(option) => format!("{what}: {}", words(option)),
            None => format!("{what}: different"),
        })
        .flatten()
}

/// Draws what can be changed for all selected gaps, where several are.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    if !context.view.several() {
        return;
    }
    let survey = context.survey;
    let ids = context.view.chosen_in(survey);
    let gaps: Vec<&Gap> = ids.iter().filter_map(|&id| survey.gap(id)).collect();
    ui.horizontal_wrapped(|ui| {
        ui.strong(format!("{} gaps selected", gaps.len()));
        let zones: Vec<ZoneId> = survey.zones.iter().map(|zone| zone.id).collect();
        let zone = choice(ui, "Zone", common(&gaps, |gap| gap.zone), zones, |id| {
            survey.zone_name(*id).to_owned()
        });
        let state = common(&gaps, |gap| gap.state);
        let offered = WorkState::ALL
            .into_iter()
            .filter(|state| gaps.iter().any(|gap| states(survey, gap).contains(state)));
        let state = choice(ui, "State", state, offered, |one| one.name().to_owned());
        let part = common(&gaps, |gap| gap.part);
        let part = choice(ui, "Part", part, GapPart::ALL, |one| one.name().to_owned());
        let sure = common(&gaps, |gap| gap.certainty);
        let sure = choice(ui, "Size", sure, Certainty::ALL, |one| {
            one.name().to_owned()
        });
        let remedy = common(&gaps, |gap| gap.remedy.as_ref().map(|remedy| remedy.kind));
        let kinds = changes_of_many::remedy_kinds(survey, &gaps);
        let remedy = choice(ui, "Remedy", remedy, kinds, |kind| {
            changes_of_many::remedy_words(*kind).to_owned()
        });
        let edit = zone
            .map(|zone| changes_of_many::zone(survey, &ids, zone))
            .or_else(|| state.map(|state| changes_of_many::state(survey, &ids, state)))
            .or_else(|| part.map(|part| changes_of_many::part(survey, &ids, part)))
            .or_else(|| sure.map(|sure| changes_of_many::certainty(survey, &ids, sure)))
            .or_else(|| remedy.map(|kind| changes_of_many::remedy(survey, &ids, kind)));
        if let Some(edit) = edit {
            context.queue.edit(edit, None);
        }
        protected(ui, survey, &gaps);
    });
}

fn protected(ui: &mut Ui, survey: &Survey, gaps: &[&Gap]) {
    let kept = gaps.iter().filter(|gap| leave::never(survey, gap));
    let words = match kept.count() {
        0 => return,
        1 => {
            "1 of them must stay open: it gets no remedy and is never planned or sealed.".to_owned()
        }
        kept => format!(
            "{kept} of them must stay open: they get no remedy and are never planned or sealed."
        ),
    };
    widgets::muted(ui, words);
}
