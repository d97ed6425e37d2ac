//! The check of a logger: beside another or over salt, with what came of it and the way to use it.

use super::super::super::fields::Fields;
use super::super::view::MeasurementsContext;
use super::named::called;
use crate::assess::measured::trial::OffBy;
use crate::assess::words::capital;
use crate::report::measured;
use crate::survey::{Against, Edit, Field, Item, LoggerCheck, LoggerSeries, SeriesId};
use crate::window::theme::bold;
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::{Button, RichText, Ui};

/// Draws it, or the way to begin one.
pub(super) fn show(
    ui: &mut Ui,
    context: &mut MeasurementsContext<'_>,
    series: &LoggerSeries,
    put: &dyn Fn(LoggerSeries) -> Edit,
) {
    let name = called(series);
    let Some(check) = series.check else {
        if widgets::named_button(ui, "Check how far it is off", &format!("Check {name}")) {
            let mut changed = series.clone();
            changed.check = Some(LoggerCheck::default());
            context.queue.edit(put(changed), None);
        }
        return;
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Check: how far it is off").family(bold()));
        // Beside the heading it stays where it is, whatever comes of the check.
        let remove = format!("Remove the check of {name}");
        if widgets::named_button(ui, "Remove the check", &remove) {
            let mut changed = series.clone();
            changed.check = None;
            context.queue.edit(put(changed), None);
        }
    });
    form(ui, context, (series, check), put);
    told(ui, context, (series, check), put);
}

fn form(
    ui: &mut Ui,
    context: &mut MeasurementsContext<'_>,
    (series, check): (&LoggerSeries, LoggerCheck),
    put: &dyn Fn(LoggerSeries) -> Edit,
) {
    let survey = context.survey;
    let item = Item::Series(series.id);
    let mut others: Vec<Option<SeriesId>> = vec![None];
    let rest = survey.series.iter().filter(|other| other.id != series.id);
    others.extend(rest.map(|other| Some(other.id)));
    let words = |id: &Option<SeriesId>| match id.and_then(|id| survey.logger(id)) {
        Some(other) => called(other),
        None => "none chosen".to_owned(),
    };
    let with = |check: LoggerCheck| {
        let mut changed = series.clone();
        changed.check = Some(check);
        put(changed)
    };
    let mut fields = Fields::new(ui, context, item, &check, &with);
    fields.one_of(
        Field::CheckedAgainst,
        &Against::ALL,
        Against::name,
        |check| &mut check.against,
    );
    if check.against == Against::Logger {
        fields.choice(Field::CheckedBeside, &others, words, |check| {
            &mut check.beside
        });
    }
    if check.against != Against::Logger {
        widgets::muted(ui, Field::CheckedAgainst.help());
        widgets::muted(ui, Field::CheckedFrom.help());
    }
    let mut now = check;
    for (field, moment, word) in [
        (Field::CheckedFrom, &mut now.from, "begins"),
        (Field::CheckedTo, &mut now.to, "ends"),
    ] {
        let name = format!("Check of {} {word}", called(series));
        if let Some(typed) = widgets::moment_field(ui, field, &name, series.id, *moment) {
            *moment = typed;
        }
    }
    if now != check {
        context.queue.edit(with(now), None);
    }
    super::super::super::fields::field_findings(
        ui,
        context.marks(item),
        &[Field::CheckedBeside, Field::CheckedFrom, Field::CheckedTo],
    );
}

/// What came of it, once its files were read, and the way to take it off the readings.
fn told(
    ui: &mut Ui,
    context: &mut MeasurementsContext<'_>,
    (series, check): (&LoggerSeries, LoggerCheck),
    put: &dyn Fn(LoggerSeries) -> Edit,
) {
    if check.from.is_none() || check.to.is_none() {
        return;
    }
    let Some(tried) = context.answers.tried() else {
        return;
    };
    let found = tried
        .answer
        .tried()
        .and_then(|tried| tried.check(series.id));
    if tried.revision != context.revision || found.is_none() {
        widgets::muted(ui, "The check is being worked out.");
        return;
    }
    for sentence in measured::check_in_words(context.survey, (series, check), found) {
        ui.label(units::text(ui.ctx(), &capital(&sentence)));
    }
    let Some(off_by) = found.and_then(|found| found.as_ref().ok()) else {
        return;
    };
    let Some(changed) = corrected(series, check, off_by) else {
        return;
    };
    // It stays where it is once it was pressed: a second click must not meet what moves up under it.
    let to_use = !measured::is_taken_off(series, check, off_by);
    let button = ui.add_enabled(to_use, Button::new("Use this offset"));
    let name = format!("Use this offset for {}", called(series));
    widgets::tell_name(ui, button.id, &name);
    if button.clicked() {
        context.queue.edit(put(changed), None);
    }
}

/// The logger with what the check found taken off; `None` where it is too far off to be corrected.
fn corrected(series: &LoggerSeries, check: LoggerCheck, off_by: &OffBy) -> Option<LoggerSeries> {
    let offset = off_by.offset().ok()?;
    let mut changed = series.clone();
    changed.too_warm_k = offset.too_warm_k.or(series.too_warm_k);
    changed.too_damp_percent = Some(offset.too_damp_percent);
    changed.offset_from = check.against.offset_from();
    Some(changed)
}
