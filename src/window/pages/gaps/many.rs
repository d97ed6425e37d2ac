//! The form of several selected gaps: what is changed in it is changed in all of them.

use super::view::GapsContext;
use crate::assess::words::{counted, listed};
use crate::survey::leave::{self, states};
use crate::survey::{
    Certainty, Edit, Facing, Field, Gap, GapId, GapPart, Purpose, RemedyKind, Survey, WorkState,
    ZoneId,
};
use crate::window::changes_of_many;
use crate::window::widgets::{self, Choice};
use eframe::egui::Ui;

/// So many of the gaps are named.
const NAMED_MOST: usize = 12;
/// So many of the values that differ are named.
const VALUES_MOST: usize = 5;

/// The gaps that are changed together.
struct Together<'a> {
    survey: &'a Survey,
    ids: Vec<GapId>,
    gaps: Vec<&'a Gap>,
    /// The next field takes the focus.
    focus: bool,
    /// The change that a field has asked for.
    edit: Option<Edit>,
}

impl Together<'_> {
    /// A choice for all of them. Where they differ it says so, and how many have which value.
    fn field<T: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        field: Field,
        value: impl Fn(&Gap) -> T,
        offered: &[T],
        words: impl Fn(&T) -> String,
    ) -> Option<T> {
        let values = tally(&self.gaps, value);
        let now = match &values[..] {
            [(one, _)] => Some(one.clone()),
            _ => None,
        };
        let mut options: Vec<Option<T>> = offered.iter().cloned().map(Some).collect();
        if now.is_none() {
            options.insert(0, None);
        }
        let name = format!("{}, all selected gaps", field.label());
        let focus = std::mem::take(&mut self.focus);
        let chosen = widgets::row(ui, field.label(), |ui| {
            Choice::new(&name, &now, &options)
                .compact()
                .focus(focus)
                .help(field.help())
                .show(ui, |option| match option {
                    Some(option) => words(option),
                    None => "different".to_owned(),
                })
        });
        if values.len() > 1 {
            let mut told: Vec<String> = values
                .iter()
                .take(VALUES_MOST)
                .map(|(value, gaps)| format!("{gaps} {}", words(value)))
                .collect();
            if let Some(more @ 1..) = values.len().checked_sub(VALUES_MOST) {
                told.push(counted(more, "other value", "other values"));
            }
            widgets::muted(ui, format!("{}.", listed(told)));
        }
        chosen.flatten()
    }

    fn asks(&mut self, edit: Option<Edit>) {
        self.edit = self.edit.take().or(edit);
    }
}

/// Each value with how many have it, the most frequent first.
fn tally<T: PartialEq>(gaps: &[&Gap], value: impl Fn(&Gap) -> T) -> Vec<(T, usize)> {
    let mut values: Vec<(T, usize)> = Vec::new();
    for gap in gaps {
        let value = value(gap);
        match values.iter_mut().find(|(other, _)| *other == value) {
            Some((_, count)) => *count += 1,
            None => values.push((value, 1)),
        }
    }
    values.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    values
}

/// Title of the form.
pub(super) fn title(context: &GapsContext<'_>) -> String {
    let chosen = context.view.chosen_in(context.survey);
    format!("{} gaps selected", chosen.len())
}

/// Draws the form.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let survey = context.survey;
    let ids = context.view.chosen_in(survey);
    let gaps: Vec<&Gap> = ids.iter().filter_map(|&id| survey.gap(id)).collect();
    named(ui, &gaps);
    protected(ui, survey, &gaps);
    let mut all = Together {
        survey,
        ids,
        gaps,
        focus: context.view.edit_wanted,
        edit: None,
    };
    what(ui, &mut all);
    work(ui, &mut all);
    if let Some(edit) = all.edit {
        context.queue.edit(edit, None);
    }
}

/// What the gaps are.
fn what(ui: &mut Ui, all: &mut Together<'_>) {
    let (survey, ids) = (all.survey, all.ids.clone());
    let zones: Vec<ZoneId> = survey.zones.iter().map(|zone| zone.id).collect();
    let words = |id: &ZoneId| survey.zone_name(*id).to_owned();
    let zone = all.field(ui, Field::Zone, |gap| gap.zone, &zones, words);
    all.asks(zone.map(|zone| changes_of_many::zone(survey, &ids, zone)));
    let words = |one: &Facing| one.name().to_owned();
    let facing = all.field(ui, Field::Facing, |gap| gap.facing, &Facing::ALL, words);
    all.asks(facing.map(|facing| changes_of_many::facing(survey, &ids, facing)));
    let words = |one: &Certainty| one.name().to_owned();
    let (field, options) = (Field::Certainty, &Certainty::ALL);
    let sure = all.field(ui, field, |gap| gap.certainty, options, words);
    all.asks(sure.map(|sure| changes_of_many::certainty(survey, &ids, sure)));
    let words = |one: &GapPart| one.name().to_owned();
    let part = all.field(ui, Field::GapPart, |gap| gap.part, &GapPart::ALL, words);
    all.asks(part.map(|part| changes_of_many::part(survey, &ids, part)));
    let words = |one: &Purpose| one.name().to_owned();
    let purpose = all.field(ui, Field::Purpose, |gap| gap.purpose, &Purpose::ALL, words);
    all.asks(purpose.map(|purpose| changes_of_many::purpose(survey, &ids, purpose)));
}

/// What is done about them.
fn work(ui: &mut Ui, all: &mut Together<'_>) {
    let (survey, ids) = (all.survey, all.ids.clone());
    let kinds = changes_of_many::remedy_kinds(survey, &all.gaps);
    let words = |kind: &Option<RemedyKind>| changes_of_many::remedy_words(*kind).to_owned();
    let own = |gap: &Gap| gap.remedy.as_ref().map(|remedy| remedy.kind);
    let remedy = all.field(ui, Field::Remedy, own, &kinds, words);
    all.asks(remedy.map(|kind| changes_of_many::remedy(survey, &ids, kind)));
    let offered: Vec<WorkState> = WorkState::ALL
        .into_iter()
        .filter(|state| {
            let mut gaps = all.gaps.iter();
            gaps.any(|gap| states(survey, gap).contains(state))
        })
        .collect();
    let words = |one: &WorkState| one.name().to_owned();
    let state = all.field(ui, Field::State, |gap| gap.state, &offered, words);
    all.asks(state.map(|state| changes_of_many::state(survey, &ids, state)));
}

/// Which gaps they are.
fn named(ui: &mut Ui, gaps: &[&Gap]) {
    let mut numbers: Vec<String> = gaps
        .iter()
        .take(NAMED_MOST)
        .map(|gap| gap.id.to_string())
        .collect();
    if let Some(more @ 1..) = gaps.len().checked_sub(NAMED_MOST) {
        numbers.push(format!("{more} more"));
    }
    let words = format!(
        "Gaps {}. A choice made here is made for all of them, in one step.",
        listed(numbers)
    );
    widgets::muted(ui, words);
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
