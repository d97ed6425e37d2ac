//! The loggers: each on a line, with its form where it is unfolded.

use super::super::super::fields::{Fields, field_findings, whole_findings, worst};
use super::super::view::MeasurementsContext;
use super::named::called;
use super::{check, odd};
use crate::survey::{
    BelowFreezing, Edit, Field, Hung, Item, LoggerSeries, OffsetFrom, Record, RecordId,
    below_freezing_name,
};
use crate::window::help;
use crate::window::request::Request;
use crate::window::widgets;
use eframe::egui::Ui;

/// All, in the order offered.
const BELOW: [BelowFreezing; 2] = [BelowFreezing::OverWater, BelowFreezing::OverIce];

fn put(series: LoggerSeries) -> Edit {
    Edit::Put(Record::Series(Box::new(series)))
}

/// Draws them, and the button for one more.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let survey = context.survey;
    if survey.series.is_empty() {
        widgets::muted(
            ui,
            "Take in what your loggers wrote: CSV, TXT or XLSX. You see the first rows before anything \
             is read, and the file itself is kept beside the survey, unchanged. It may be dropped here.",
        );
    }
    for series in &survey.series {
        widgets::steady(ui, ("logger", series.id), |ui| one(ui, context, series));
    }
    widgets::steady(ui, "another logger", |ui| {
        if ui.button("Add a logger's file…").clicked() {
            context.queue.push(Request::ChooseLogger(None));
        }
    });
}

fn one(ui: &mut Ui, context: &mut MeasurementsContext<'_>, series: &LoggerSeries) {
    let item = Item::Series(series.id);
    let name = called(series);
    let heading = format!("{name}, {}", series.hung.name());
    let mut open = context.view.unfolded.contains(&series.id);
    if let Some(severity) = worst(context, item)
        && !open
    {
        widgets::severity_sign(ui, severity);
    }
    let of = ("heading of a logger", series.id);
    widgets::steady(ui, of, |ui| widgets::fold(ui, &heading, &mut open, |_| {}));
    if open {
        whole_findings(ui, context.marks(item));
        let mut fields = Fields::new(ui, context, item, series, &put);
        form(&mut fields);
        file(ui, context, series);
        let of = ("check of a logger", series.id);
        widgets::steady(ui, of, |ui| check::show(ui, context, series, &put));
        odd::show(ui, context, series, &put);
        ui.add_space(6.0);
        let of = ("removal of a logger", series.id);
        widgets::steady(ui, of, |ui| {
            if widgets::named_button(ui, "Remove this logger", &format!("Remove {name}")) {
                let remove = Edit::Remove(RecordId::Series(series.id));
                context.queue.edit(remove, None);
            }
        });
        ui.separator();
        context.view.unfolded.insert(series.id);
    } else {
        context.view.unfolded.remove(&series.id);
    }
}

/// The file that its readings are from, with the ways to read it otherwise or to put another in its
/// place.
fn file(ui: &mut Ui, context: &mut MeasurementsContext<'_>, series: &LoggerSeries) {
    let name = called(series);
    let field = Field::LoggerFile;
    let original = match series.original.as_str() {
        "" => &series.file,
        original => original,
    };
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(format!("{}: {original}", field.label()));
        help::explain(ui, label, field.label(), field.help());
        let again = format!("How the file of {name} is read");
        if widgets::named_button(ui, "How it is read…", &again) {
            context.queue.push(Request::LoggerAgain(series.id));
        }
        let other = format!("Another file for {name}");
        if widgets::named_button(ui, "Another file…", &other) {
            context.queue.push(Request::ChooseLogger(Some(series.id)));
        }
    });
    field_findings(
        ui,
        context.marks(Item::Series(series.id)),
        &[field, Field::Mapping],
    );
}

fn form(fields: &mut Fields<'_, '_, LoggerSeries>) {
    fields.text(Field::LoggerName, |series| &mut series.name);
    fields.one_of(Field::Hung, &Hung::ALL, Hung::name, |series| {
        &mut series.hung
    });
    fields.text(Field::HungPlace, |series| &mut series.place);
    fields.one_of(
        Field::BelowFreezing,
        &BELOW,
        below_freezing_name,
        |series| &mut series.below_freezing,
    );
    fields.optional(Field::TooWarm, |series| &mut series.too_warm_k);
    fields.optional(Field::TooDamp, |series| &mut series.too_damp_percent);
    fields.one_of(
        Field::OffsetFrom,
        &OffsetFrom::ALL,
        OffsetFrom::name,
        |series| &mut series.offset_from,
    );
    fields.text(Field::LoggerNote, |series| &mut series.note);
}
