//! The readings of a fan test in one direction.

use super::super::fields::{Fields, Part};
use super::rows;
use crate::survey::{FanReading, FanReadings, FanTest, FanTestId, Field};
use crate::window::request::Queue;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, NumberField};
use eframe::egui;
use egui::{Grid, RichText, Ui};

/// Width of a number's input and of its column.
const WIDE: (f32, f32) = (70.0, 96.0);

/// Which readings: of which test, blowing which way.
type Which<'a> = (FanTestId, &'a str);

/// Draws the readings and the pressures with the fan covered.
pub(super) fn show(
    fields: &mut Fields<'_, '_, FanTest>,
    way: &str,
    readings: &FanReadings,
    part: Part<FanTest, FanReadings>,
) {
    let id = match fields.item() {
        crate::survey::Item::FanTest(id) => id,
        _ => return,
    };
    let (ui, queue, _) = fields.parts();
    ui.add_space(3.0);
    ui.label(RichText::new(way).family(bold()));
    let mut changed = readings.clone();
    if !readings.readings.is_empty() {
        zero(ui, queue, (id, way), &mut changed);
        table(ui, queue, (id, way), &mut changed.readings);
    }
    let name = format!("Add a reading {}, fan test {id}", way.to_lowercase());
    let rows = changed.readings.len();
    let more = rows::add(ui, ((id, way), &name), rows, |at| {
        NumberField::id_of(Field::ReadPressure, (id, way.to_owned(), at))
    });
    let blank = std::iter::repeat_n(FanReading::default(), more);
    changed.readings.extend(blank);
    if changed != *readings {
        fields.change(|test| *part(test) = changed);
    }
}

/// The pressures with the fan covered.
fn zero(ui: &mut Ui, queue: &mut Queue, (id, way): Which<'_>, of: &mut FanReadings) {
    for (field, value) in [
        (Field::ZeroBefore, &mut of.zero_before_pa),
        (Field::ZeroAfter, &mut of.zero_after_pa),
    ] {
        let label = format!("{}, {}", field.label(), way.to_lowercase());
        let typed = NumberField::new(field, *value)
            .label(&label)
            .id((id, way.to_owned()))
            .show(ui, queue);
        if let Some(typed) = typed {
            *value = typed;
        }
    }
}

fn table(ui: &mut Ui, queue: &mut Queue, which: Which<'_>, readings: &mut Vec<FanReading>) {
    let (id, way) = which;
    let mut away = None;
    Grid::new(("readings", id, way))
        .num_columns(4)
        .spacing([5.0, 3.0])
        .show(ui, |ui| {
            let shown = units::shown(ui.ctx());
            for words in ["", "Pressure, Pa", "Flow, m³/h"] {
                let (words, _) = shown.head(words);
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for (at, reading) in readings.iter_mut().enumerate() {
                ui.label(format!("{}", at + 1));
                cells(ui, queue, which, at, reading);
                let name = format!(
                    "Remove reading {} {}, fan test {id}",
                    at + 1,
                    way.to_lowercase()
                );
                if widgets::cross(ui, &name) {
                    away = Some(at);
                }
                ui.end_row();
            }
        });
    if let Some(at) = away {
        readings.remove(at);
    }
}

/// A reading has no id of its own: its place in the list names it.
fn cells(
    ui: &mut Ui,
    queue: &mut Queue,
    (id, way): Which<'_>,
    at: usize,
    reading: &mut FanReading,
) {
    for (field, value) in [
        (Field::ReadPressure, &mut reading.pressure_pa),
        (Field::ReadFlow, &mut reading.flow_m3_per_h),
    ] {
        let label = format!("{} {}, {}", field.label(), at + 1, way.to_lowercase());
        let of = (id, way.to_owned(), at);
        let wanted = rows::is_wanted(ui, NumberField::id_of(field, &of));
        let input = NumberField::new(field, *value)
            .label(&label)
            .id(of)
            .focus(wanted)
            .compact()
            .width(WIDE.0);
        let typed = ui
            .scope(|ui| {
                ui.set_width(WIDE.1);
                input.show(ui, queue)
            })
            .inner;
        if let Some(typed) = typed {
            *value = typed;
        }
    }
}
