//! A trial: its chart, its periods, and what it stands on.

use super::super::super::fields::{Fields, field_findings, whole_findings, worst};
use super::super::chart::{self, Marked};
use super::super::view::MeasurementsContext;
use super::named::called;
use super::period::{self, Became};
use super::says;
use crate::assess::words::sentence;
use crate::figure::trial;
use crate::survey::{
    Edit, Field, Item, Moment, OutsideFrom, Period, PeriodId, Record, RecordId, SeriesId, Survey,
    Trial,
};
use crate::window::answers::LongWork;
use crate::window::request::Request;
use crate::window::theme::bold;
use crate::window::typesetting::SheetFile;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Id, Layout, RichText, Ui};

/// Width of a column at least.
const COLUMN: f32 = 460.0;

/// Draws it.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    widgets::card(ui, "", |ui| {
        let part = |name| (name, trial.id);
        widgets::steady(ui, part("head"), |ui| head(ui, context, trial));
        widgets::steady(ui, part("over time"), |ui| over_time(ui, context, trial));
        ui.add_space(6.0);
        // What comes and goes with the results stands below what is typed into, which stays where it is.
        widgets::steady(ui, part("forms"), |ui| {
            widgets::columns(ui, COLUMN, 2, |ui, at| match at {
                0 => stands_on(ui, context, trial),
                _ => periods(ui, context, trial),
            });
        });
        whole_findings(ui, context.marks(Item::Trial(trial.id)));
        if context.answers.trial_lines(trial.id).is_some() {
            widgets::steady(ui, part("work"), |ui| work(ui, context));
        }
        widgets::steady(ui, part("says"), |ui| says::show(ui, context, trial));
    });
}

/// How far reading the loggers is.
fn work(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let status = context.answers.status(LongWork::Trials);
    widgets::long_work(
        ui,
        context.queue,
        LongWork::Trials,
        status,
        "what loggers read",
    );
}

/// The chart, on which periods are marked.
fn over_time(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    let Some(found) = context.answers.trial_lines(trial.id) else {
        work(ui, context);
        return;
    };
    let lines = match found.answer {
        Ok(lines) => lines,
        Err(unknown) => {
            let words = sentence(&unknown.reason);
            widgets::muted(ui, words);
            return;
        }
    };
    let bands = trial::bands(context.survey, trial);
    let id = Id::unique(("chart of trial", trial.id));
    let view = context.view.chart(trial.id);
    let name = name(trial);
    let of = (&**lines, bands.as_slice());
    let marked_now = chart::show(ui, view, (id, &name), found.revision, of);
    ui.horizontal_wrapped(|ui| {
        for (words, what, file) in [
            (
                "Save as picture…",
                "as picture",
                SheetFile::TrialPicture(trial.id),
            ),
            ("Save as CSV…", "as CSV", SheetFile::TrialRows(trial.id)),
        ] {
            if widgets::named_button(ui, words, &format!("Save {name} {what}")) {
                context.queue.push(Request::WriteFile(file));
            }
        }
    });
    if let Some(changed) = marked_now.and_then(|now| marked(trial, now)) {
        context.queue.edit(put(changed), None);
    }
}

/// What a trial is called.
pub(super) fn name(trial: &Trial) -> String {
    match trial.name.trim() {
        "" => format!("Trial {}", trial.id),
        name => name.to_owned(),
    }
}

fn head(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    let name = name(trial);
    ui.horizontal(|ui| {
        if let Some(severity) = worst(context, Item::Trial(trial.id)) {
            widgets::severity_sign(ui, severity);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if widgets::named_button(ui, "Remove", &format!("Remove {name}")) {
                let remove = Edit::Remove(RecordId::Trial(trial.id));
                context.queue.edit(remove, None);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(&name).family(bold())).truncate());
            });
        });
    });
}

/// The loggers and the outside air.
fn stands_on(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    let survey = context.survey;
    let mut loggers: Vec<Option<SeriesId>> = vec![None];
    loggers.extend(survey.series.iter().map(|series| Some(series.id)));
    let words = |id: &Option<SeriesId>| match id.and_then(|id| survey.logger(id)) {
        Some(series) => called(series),
        None => "none chosen".to_owned(),
    };
    let item = Item::Trial(trial.id);
    let mut fields = Fields::new(ui, context, item, trial, &put);
    fields.text(Field::TrialName, |trial| &mut trial.name);
    fields.choice(Field::InsideSeries, &loggers, words, |trial| {
        &mut trial.inside
    });
    fields.one_of(
        Field::OutsideFrom,
        &OutsideFrom::ALL,
        OutsideFrom::name,
        |trial| &mut trial.outside_from,
    );
    if trial.outside_from == OutsideFrom::Logger {
        fields.choice(Field::OutsideSeries, &loggers, words, |trial| {
            &mut trial.outside
        });
    }
    if has_zone(survey, trial) {
        fields.optional(Field::ClockAhead, |trial| &mut trial.clock_ahead_h);
    }
    let mut references: Vec<Option<PeriodId>> = vec![None];
    references.extend(trial.periods.iter().map(|period| Some(period.id)));
    let words = |id: &Option<PeriodId>| {
        let found = trial.periods.iter().enumerate();
        let found = found.map(|(at, period)| (at + 1, period));
        match found.into_iter().find(|(_, period)| Some(period.id) == *id) {
            Some((number, period)) => format!("{number}: {}", survey.ran_in_words(period)),
            None => Field::ReferencePeriod.when_empty().to_owned(),
        }
    };
    fields.choice(Field::ReferencePeriod, &references, words, |trial| {
        &mut trial.reference
    });
    fields.text(Field::TrialNote, |trial| &mut trial.note);
}

/// Whether one of its loggers has times of a named zone or of an offset.
fn has_zone(survey: &Survey, trial: &Trial) -> bool {
    let ids = [trial.inside, trial.outside].into_iter().flatten();
    ids.filter_map(|id| survey.logger(id))
        .any(|series| series.mapping.zone != crate::series::Zone::Unnamed)
}

/// The periods, in the order they were written down.
fn periods(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    ui.label(RichText::new("Periods").family(bold()));
    let mut changed = trial.clone();
    let mut became = Became::Same;
    let mut gone = None;
    for (at, period) in changed.periods.iter_mut().enumerate() {
        let id = period.id;
        let one = widgets::steady(ui, ("period", trial.id, id), |ui| {
            let queue = &mut *context.queue;
            period::show(ui, queue, context.survey, trial, (at + 1, period))
        });
        ui.separator();
        match one {
            Became::Same => {}
            Became::Removed => gone = Some(at),
            other => became = other,
        }
    }
    let several = [Field::PeriodFrom, Field::PeriodTo, Field::RanWhat];
    field_findings(ui, context.marks(Item::Trial(trial.id)), &several);
    let add = widgets::steady(ui, ("another period", trial.id), |ui| {
        ui.button("Add a period")
    });
    widgets::tell_name(ui, add.id, &format!("Add a period to {}", name(trial)));
    if let Some(at) = gone {
        without(context, trial, at);
        // Not to a field, where the keys for undo take back what is typed.
        add.request_focus();
        return;
    }
    if add.clicked() {
        // It begins where the last one ended.
        let from = changed.periods.last().and_then(|period| period.to);
        let id = changed.free_period_id();
        changed.periods.push(Period::new(id, from, None));
        // On to what is to be said of it.
        let to = match from {
            Some(_) => Field::PeriodTo,
            None => Field::PeriodFrom,
        };
        focus(ui, trial, to, id);
        context.queue.edit(put(changed), None);
        return;
    }
    match became {
        Became::Placed => context.queue.edit(put(changed), None),
        Became::Changed => context.queue.typed(put(changed)),
        Became::Same | Became::Removed => {}
    }
}

/// Gives the focus to an end of a period.
fn focus(ui: &Ui, trial: &Trial, end: Field, period: PeriodId) {
    let field = widgets::moment_id(end, (trial.id, period));
    ui.memory_mut(|memory| memory.request_focus(field));
}

/// Takes the period at this place away, and tells so.
fn without(context: &mut MeasurementsContext<'_>, trial: &Trial, at: usize) {
    let mut changed = trial.clone();
    if at >= changed.periods.len() {
        return;
    }
    let gone = changed.periods.remove(at).id;
    changed.reference = changed.reference.filter(|id| *id != gone);
    context.queue.edit(put(changed), None);
    let told = format!("Period {} of {} was removed.", at + 1, name(trial));
    context.queue.push(Request::TellUndoable(told));
}

/// The trial with a period that was marked on its chart.
pub(super) fn marked(trial: &Trial, marked: Marked) -> Option<Trial> {
    let mut changed = trial.clone();
    match marked {
        Marked::New(from, to) => {
            let id = changed.free_period_id();
            let (from, to) = (Moment::from_seconds(from)?, Moment::from_seconds(to)?);
            let period = Period::new(id, Some(from), Some(to));
            changed.periods.push(period);
            // In the order of time, as they are told.
            changed.periods.sort_by_key(|period| period.from);
        }
        Marked::Moved(place, from, to) => {
            let mut drawn = changed
                .periods
                .iter_mut()
                .filter(|period| period.span_s().is_some());
            let period = drawn.nth(place)?;
            period.from = Some(Moment::from_seconds(from)?);
            period.to = Some(Moment::from_seconds(to)?);
        }
    }
    Some(changed)
}

/// The edit that puts a trial.
pub(super) fn put(trial: Trial) -> Edit {
    Edit::Put(Record::Trial(Box::new(trial)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::TrialId;

    #[test]
    fn what_is_marked_on_the_chart_becomes_a_period_in_the_order_of_time() {
        let trial = Trial::new(TrialId(1));
        let later = marked(&trial, Marked::New(900_000, 950_000)).unwrap();
        let both = marked(&later, Marked::New(100_000, 150_000)).unwrap();
        let spans: Vec<_> = both.periods.iter().filter_map(Period::span_s).collect();
        assert_eq!(spans, [(100_000, 150_000), (900_000, 950_000)]);
        assert_ne!(both.periods[0].id, both.periods[1].id);
        let moved = marked(&both, Marked::Moved(1, 900_000, 990_000)).unwrap();
        assert_eq!(moved.periods[1].span_s(), Some((900_000, 990_000)));
        assert_eq!(moved.periods[1].id, both.periods[1].id);
        assert_eq!(marked(&both, Marked::Moved(7, 0, 1)), None);
    }
}
