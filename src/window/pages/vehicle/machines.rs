//! Drying machines with their maker's figures.

use super::super::fields::{Fields, Part, field_findings};
use super::lists;
use super::view::VehicleContext;
use crate::survey::equipment::{MachinePoint, RatingState};
use crate::survey::{Edit, Field, Machine, MachineId, MachineKind, Record, RecordId};
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, NumberField};
use eframe::egui;
use egui::{Grid, RichText, Ui};

fn put(machine: Machine) -> Edit {
    Edit::Put(Record::Machine(Box::new(machine)))
}

/// Draws the list.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    lists::show(
        ui,
        context,
        &survey.machines,
        &put,
        |one| {
            (
                RecordId::Machine(one.id),
                &one.name,
                one.kind.name().to_owned(),
            )
        },
        |fields, machine| {
            one(fields, machine);
            money(fields, &survey.tariffs.currency);
        },
    );
    widgets::muted(
        ui,
        "Enter the maker's figure with the temperature and humidity it was stated at: the same \
         machine gathers far less in cold air.",
    );
    let machine = Machine::new(survey.free_machine_id(), MachineKind::Compressor);
    lists::add(ui, context, "Add drying machine", put(machine));
}

fn one(fields: &mut Fields<'_, '_, Machine>, machine: &Machine) {
    fields.text(Field::Name, |machine| &mut machine.name);
    fields.one_of(
        Field::MachineKind,
        &MachineKind::ALL,
        MachineKind::name,
        |machine| &mut machine.kind,
    );
    if machine.kind == MachineKind::SaltTub {
        fields.optional(Field::TubArea, |machine| &mut machine.tub_area_m2);
        fields.optional(Field::TubHolds, |machine| &mut machine.tub_l);
        return;
    }
    fields.optional(Field::RatedRemoval, |machine| {
        &mut machine.rated_removal_l_per_day
    });
    fields.optional(Field::RatedTemperature, |machine| {
        &mut machine.rated_temperature_c
    });
    fields.optional(Field::RatedRh, |machine| &mut machine.rated_rh_percent);
    usual_states(fields, machine);
    fields.optional(Field::Power, |machine| &mut machine.power_w);
    fields.optional(Field::Airflow, |machine| &mut machine.airflow_m3_per_h);
    fields.optional(Field::LowestRoom, |machine| &mut machine.lowest_room_c);
    fields.tick(Field::Hygrostat, |machine| &mut machine.hygrostat);
    points(fields, machine);
}

/// The air that plates commonly mean, at a click.
fn usual_states(fields: &mut Fields<'_, '_, Machine>, machine: &Machine) {
    let (ui, ..) = fields.parts();
    widgets::muted(ui, units::text(ui.ctx(), RatingState::WORDS));
    let chosen = ui
        .horizontal_wrapped(|ui| {
            let mut chosen = None;
            for state in RatingState::USUAL {
                let words = units::text(ui.ctx(), &state.name());
                let button = ui.button(&words);
                let name = format!("Stated at {words}, machine {}", machine.id);
                widgets::tell_name(ui, button.id, &name);
                if button.clicked() {
                    chosen = Some(state);
                }
            }
            chosen
        })
        .inner;
    if let Some(state) = chosen {
        fields.change(|machine| {
            machine.rated_temperature_c = Some(state.temperature_c);
            machine.rated_rh_percent = Some(state.rh_percent);
        });
    }
}

/// What it costs, or that it is there already.
fn money(fields: &mut Fields<'_, '_, Machine>, currency: &str) {
    fields.tick(Field::Owned, |machine| &mut machine.owned);
    fields.price(currency, Field::Price, |machine| &mut machine.price);
    fields.price(currency, Field::Upkeep, |machine| {
        &mut machine.upkeep_per_month
    });
}

/// The columns: their headings and fields.
const NUMBERS: [(&str, Field, Part<MachinePoint, f64>); 4] = [
    ("°C", Field::PointTemperature, |point| {
        &mut point.temperature_c
    }),
    ("% RH", Field::PointRh, |point| &mut point.rh_percent),
    ("L/day", Field::PointRemoval, |point| {
        &mut point.removal_l_per_day
    }),
    ("W", Field::PointPower, |point| &mut point.power_w),
];

/// Further figures of the maker's, one row for each state.
fn points(fields: &mut Fields<'_, '_, Machine>, machine: &Machine) {
    let (ui, queue, marks) = fields.parts();
    let mut changed = machine.points.clone();
    let mut any = false;
    if !machine.points.is_empty() {
        widgets::muted(ui, "Further figures of the maker's:");
        any = table(ui, queue, machine.id, &mut changed);
        field_findings(ui, marks, &NUMBERS.map(|(_, field, _)| field));
    }
    // A row needs four numbers: it starts with those of the rating, where they are known.
    let start = machine.points.last().copied().or_else(|| rating(machine));
    let add = ui
        .add_enabled(start.is_some(), egui::Button::new("Add a further figure"))
        .on_disabled_hover_text(
            "Enter removal, temperature, humidity and power of the rating first",
        );
    widgets::tell_name(
        ui,
        add.id,
        &format!("Add a further figure to machine {}", machine.id),
    );
    if let Some(start) = start
        && add.clicked()
    {
        changed.push(start);
        any = true;
    }
    if any {
        fields.change(|machine| machine.points = changed);
    }
}

fn rating(machine: &Machine) -> Option<MachinePoint> {
    Some(MachinePoint {
        temperature_c: machine.rated_temperature_c?,
        rh_percent: machine.rated_rh_percent?,
        removal_l_per_day: machine.rated_removal_l_per_day?,
        power_w: machine.power_w?,
    })
}

/// Whether a point was changed or removed.
fn table(ui: &mut Ui, queue: &mut Queue, id: MachineId, points: &mut Vec<MachinePoint>) -> bool {
    let mut any = false;
    let mut away = None;
    Grid::new(("points", id))
        .num_columns(5)
        .spacing([5.0, 3.0])
        .show(ui, |ui| {
            let shown = units::shown(ui.ctx());
            for (words, _, _) in NUMBERS {
                let (words, _) = shown.head(words);
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for (at, point) in points.iter_mut().enumerate() {
                any |= cells(ui, queue, (id, at), point);
                let name = format!("Remove figure {} of machine {id}", at + 1);
                if widgets::cross(ui, &name) {
                    away = Some(at);
                }
                ui.end_row();
            }
        });
    if let Some(at) = away {
        points.remove(at);
    }
    any || away.is_some()
}

/// A point has no id of its own: its place in the list names it.
fn cells(ui: &mut Ui, queue: &mut Queue, id: (MachineId, usize), point: &mut MachinePoint) -> bool {
    let mut any = false;
    for (_, field, part) in NUMBERS {
        let value = part(point);
        let label = format!("{} of figure {}", field.label(), id.1 + 1);
        let typed = NumberField::new(field, Some(*value))
            .label(&label)
            .id(id)
            .compact()
            .required()
            .width(54.0);
        let typed = ui
            .scope(|ui| {
                ui.set_width(72.0);
                typed.show(ui, queue)
            })
            .inner;
        if let Some(Some(typed)) = typed {
            *value = typed;
            any = true;
        }
    }
    any
}
