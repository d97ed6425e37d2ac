//! The columns of a logger's file, each with what it holds.

use super::chosen::Chosen;
use crate::assess::words::capital;
use crate::series::{Column, Unit, What};
use crate::window::request::Queue;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, Choice, TextField};
use eframe::egui;
use egui::{RichText, Ui};

/// Values of a column that are shown.
const VALUES: usize = 3;
/// Longest text of them, characters.
const LONGEST: usize = 34;

/// What a column may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Holds {
    Nothing,
    Moment,
    Date,
    TimeOfDay,
    Readings(What),
}

impl Holds {
    fn of(column: &Column) -> Self {
        match column {
            Column::LeftOut => Self::Nothing,
            Column::Moment => Self::Moment,
            Column::Date => Self::Date,
            Column::TimeOfDay => Self::TimeOfDay,
            Column::Readings { what, .. } => Self::Readings(*what),
        }
    }

    fn all() -> Vec<Self> {
        let times = [Self::Nothing, Self::Moment, Self::Date, Self::TimeOfDay];
        let readings = What::ALL.into_iter().map(Self::Readings);
        times.into_iter().chain(readings).collect()
    }

    fn name(self) -> &'static str {
        match self {
            Self::Nothing => "not used",
            Self::Moment => "date and time",
            Self::Date => "date",
            Self::TimeOfDay => "time of day",
            Self::Readings(what) => what.name(),
        }
    }

    /// The column, by a unit and a sensor where it has readings.
    fn column(self, before: &Column) -> Column {
        let (unit_before, sensor) = match before {
            Column::Readings { unit, sensor, .. } => (Some(*unit), sensor.clone()),
            _ => (None, String::new()),
        };
        match self {
            Self::Nothing => Column::LeftOut,
            Self::Moment => Column::Moment,
            Self::Date => Column::Date,
            Self::TimeOfDay => Column::TimeOfDay,
            Self::Readings(what) => Column::Readings {
                what,
                unit: unit_before
                    .filter(|unit| what.units().contains(unit))
                    .unwrap_or_else(|| what.held_in()),
                sensor,
            },
        }
    }
}

/// Draws them; whether anything was changed.
pub(super) fn show(ui: &mut Ui, chosen: &mut Chosen, queue: &mut Queue) -> bool {
    let options = Holds::all();
    let mut changed = false;
    for at in 0..chosen.mapping.columns.len() {
        let heading = chosen.guess.headings.get(at).map_or("", String::as_str);
        let values = values(chosen, at);
        let is_unsure = chosen.guess.units_not_said.contains(&at);
        let heading = match heading.trim() {
            "" => format!("Column {}", at + 1),
            heading => format!("{}: {heading}", at + 1),
        };
        let remarks = remarks(chosen, at);
        let Some(column) = chosen.mapping.columns.get_mut(at) else {
            continue;
        };
        ui.push_id(("column", at), |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(heading).family(bold()));
                ui.label(RichText::new(values).color(palette(ui).muted));
            });
            ui.horizontal_wrapped(|ui| {
                changed |= one(ui, queue, at + 1, (column, &options), is_unsure);
            });
            for remark in remarks {
                widgets::muted(ui, &remark);
            }
        });
        ui.add_space(2.0);
    }
    changed
}

fn one(
    ui: &mut Ui,
    queue: &mut Queue,
    number: usize,
    (column, options): (&mut Column, &[Holds]),
    is_unsure: bool,
) -> bool {
    let mut changed = false;
    let now = Holds::of(column);
    let label = format!("Column {number} holds");
    let holds = Choice::new(&label, &now, options)
        .compact()
        .width(190.0)
        .show(ui, |holds| holds.name().to_owned());
    if let Some(holds) = holds {
        *column = holds.column(column);
        changed = true;
    }
    let Column::Readings { what, unit, sensor } = column else {
        return changed;
    };
    let units: &[Unit] = what.units();
    if units.len() > 1 {
        ui.label("in");
        let label = format!("Unit of column {number}");
        let other = Choice::new(&label, unit, units)
            .compact()
            .width(90.0)
            .show(ui, |unit| unit.sign().to_owned());
        if let Some(other) = other {
            *unit = other;
            changed = true;
        }
    } else {
        ui.label(format!("in {}", unit.sign()));
    }
    ui.label("sensor");
    let label = format!("Sensor of column {number}");
    let typed = TextField::of_page(&label, sensor)
        .compact()
        .width(130.0)
        .hint("the only one")
        .show(ui, queue);
    if let Some(typed) = typed {
        *sensor = typed;
        changed = true;
    }
    if is_unsure {
        let words = "The file does not say the unit: look whether the numbers fit.";
        widgets::muted(ui, words);
    }
    changed
}

/// What is to be told of a column that is still taken as it was guessed.
fn remarks(chosen: &Chosen, at: usize) -> Vec<String> {
    if chosen.mapping.columns.get(at) != chosen.guess.mapping.columns.get(at) {
        return Vec::new();
    }
    let remarks = chosen.guess.remarks.iter();
    remarks
        .filter(|remark| remark.column == at)
        .map(|remark| format!("{}.", capital(&remark.to_string())))
        .collect()
}

/// The first values of a column as they stand.
fn values(chosen: &Chosen, at: usize) -> String {
    let rows = chosen.guess.first_rows.iter();
    let cells: Vec<&str> = rows
        .filter_map(|row| row.get(at))
        .map(|cell| cell.trim())
        .filter(|cell| !cell.is_empty())
        .take(VALUES)
        .collect();
    let joined = cells.join("   ");
    let mut short: String = joined.chars().take(LONGEST).collect();
    if short.len() < joined.len() {
        short.push('…');
    }
    short
}

#[cfg(test)]
mod tests {
    use super::super::chosen::{LoggerFile, tests::either};
    use super::*;
    use std::sync::Arc;

    #[test]
    fn a_column_keeps_its_unit_and_sensor_where_they_fit_what_it_now_holds() {
        let before = Column::Readings {
            what: What::Temperature,
            unit: Unit::Fahrenheit,
            sensor: "loft".to_owned(),
        };
        let as_dew = Holds::Readings(What::DewPoint).column(&before);
        assert_eq!(
            as_dew,
            Column::Readings {
                what: What::DewPoint,
                unit: Unit::Fahrenheit,
                sensor: "loft".to_owned(),
            }
        );
        let Column::Readings { unit, .. } = Holds::Readings(What::RelativeHumidity).column(&before)
        else {
            panic!("readings");
        };
        assert_eq!(unit, Unit::Percent);
        for holds in Holds::all() {
            assert_eq!(Holds::of(&holds.column(&before)), holds);
        }
    }

    #[test]
    fn what_is_unsure_of_a_column_is_told_until_somebody_says_otherwise() {
        let either = either();
        let text = String::from_utf8(either.bytes.clone()).unwrap();
        let file = LoggerFile {
            bytes: text.replace("Shed °C", "Shed °C/°F").into_bytes(),
            path: either.path.clone(),
            name: either.name.clone(),
        };
        let mut chosen = Chosen::of(Arc::new(file), |_| None).unwrap();
        let told = remarks(&chosen, 3);
        assert_eq!(told.len(), 1);
        assert!(
            told[0].starts_with("Column 4, ") && told[0].contains("two units"),
            "{told:?}"
        );
        assert_eq!(remarks(&chosen, 1), Vec::<String>::new());
        chosen.mapping.columns[3] = Column::LeftOut;
        assert_eq!(remarks(&chosen, 3), Vec::<String>::new());
    }
}
