//! Loggers and trials as they were recorded.

use super::object::Object;
use crate::series::{Column, Mapping, Zone};
use crate::survey::word::Word;
use crate::survey::{LeftOut, LoggerCheck, LoggerSeries, Period, Trial};

/// A logger as it was recorded.
pub(super) fn logger(series: &LoggerSeries) -> Object {
    Object::new()
        .with("id", series.id.0)
        .with("name", &series.name)
        .with("hung", series.hung.word())
        .with("place", &series.place)
        .with("file", &series.file)
        .with("original", &series.original)
        .with("mapping", mapping(&series.mapping))
        .with("sensor", &series.sensor)
        .with("below_freezing", series.below_freezing.word())
        .with("too_warm_k", series.too_warm_k)
        .with("too_damp_percent", series.too_damp_percent)
        .with("offset_from", series.offset_from.word())
        .with("check", series.check.as_ref().map(check))
        .list("left_out", &series.left_out, left_out)
        .with("note", &series.note)
}

fn check(check: &LoggerCheck) -> Object {
    Object::new()
        .with("against", check.against.word())
        .with("beside", check.beside.map(|id| id.0))
        .with("from", check.from.map(|moment| moment.to_string()))
        .with("to", check.to.map(|moment| moment.to_string()))
}

fn left_out(one: &LeftOut) -> Object {
    Object::new()
        .with("from", one.from.to_string())
        .with("to", one.to.to_string())
        .with("what", one.what.map(|what| what.word()))
        .with("why", &one.why)
}

fn mapping(mapping: &Mapping) -> Object {
    let (ahead_s, name) = match &mapping.zone {
        Zone::Unnamed => (None, None),
        Zone::Offset(ahead_s) => (Some(*ahead_s), None),
        Zone::Named(name) => (None, Some(name.as_str())),
    };
    Object::new()
        .with("encoding", mapping.encoding.word())
        .with("separator", mapping.separator.word())
        .with("decimal", mapping.decimal.word())
        .with("lines_before", mapping.lines_before)
        .with("order", mapping.order.map(|order| order.word()))
        .with("zone_ahead_s", ahead_s)
        .with("zone_name", name)
        .with("clock_ahead_s", mapping.clock_ahead_s)
        .list("columns", &mapping.columns, column)
        .with("sheet", &mapping.sheet)
}

fn column(column: &Column) -> Object {
    let (used, of) = match column {
        Column::LeftOut => ("left_out", None),
        Column::Moment => ("moment", None),
        Column::Date => ("date", None),
        Column::TimeOfDay => ("time_of_day", None),
        Column::Readings { what, unit, sensor } => ("readings", Some((what, unit, sensor))),
    };
    Object::new()
        .with("used_for", used)
        .with("what", of.map(|(what, ..)| what.word()))
        .with("unit", of.map(|(_, unit, _)| unit.word()))
        .with("sensor", of.map(|(.., sensor)| sensor.as_str()))
}

/// A trial as it was recorded.
pub(super) fn trial(trial: &Trial) -> Object {
    Object::new()
        .with("id", trial.id.0)
        .with("name", &trial.name)
        .with("inside", trial.inside.map(|id| id.0))
        .with("outside_from", trial.outside_from.word())
        .with("outside", trial.outside.map(|id| id.0))
        .with("clock_ahead_h", trial.clock_ahead_h)
        .with("reference", trial.reference.map(|id| id.0))
        .list("periods", &trial.periods, period)
        .with("note", &trial.note)
}

fn period(period: &Period) -> Object {
    Object::new()
        .with("id", period.id.0)
        .with("from", period.from.map(|moment| moment.to_string()))
        .with("to", period.to.map(|moment| moment.to_string()))
        .with("ran", period.ran.word())
        .with("machine", period.machine.map(|id| id.0))
        .with("heater", period.heater.map(|id| id.0))
        .with("words", &period.words)
        .with("water_kg", period.water_kg)
        .with("used_kwh", period.used_kwh)
        .with("vents", period.vents.word())
        .with("people", period.people)
        .with("note", &period.note)
}
