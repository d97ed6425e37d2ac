//! One period of a trial.

use crate::survey::{Field, HeaterId, MachineId, Period, Ran, Survey, Trial, TrialId, Vents};
use crate::window::request::Queue;
use crate::window::theme::bold;
use crate::window::units;
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui;
use egui::{RichText, Ui};

/// Widths of choices and of words.
const CHOICE: f32 = 170.0;
const WORDS: f32 = 200.0;
const LABEL: f32 = 100.0;

/// What became of a period.
pub(super) enum Became {
    /// Nothing.
    Same,
    /// It goes away.
    Removed,
    /// Moments were set: a step of its own.
    Placed,
    /// Something else was changed by the field that has just reported it.
    Changed,
}

/// Draws its fields.
pub(super) fn show(
    ui: &mut Ui,
    queue: &mut Queue,
    survey: &Survey,
    trial: &Trial,
    (number, period): (usize, &mut Period),
) -> Became {
    let before = period.clone();
    let mut removed = false;
    let mut placed = false;
    let id = (trial.id, period.id);
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(format!("{number}")).family(bold()));
        for (field, end, word) in [
            (Field::PeriodFrom, &mut period.from, "begins"),
            (Field::PeriodTo, &mut period.to, "ends"),
        ] {
            let name = format!("Period {number} {word}");
            if let Some(moment) = widgets::moment_field(ui, field, &name, id, *end) {
                *end = moment;
                placed = true;
            }
        }
    });
    ui.horizontal_wrapped(|ui| ran(ui, queue, survey, (number, id.0), period));
    ui.horizontal_wrapped(|ui| {
        for (field, value) in [
            (Field::WaterCollected, &mut period.water_kg),
            (Field::PeriodKwh, &mut period.used_kwh),
            (Field::PeriodPeople, &mut period.people),
        ] {
            let unit = units::shown(ui.ctx())
                .units()
                .symbol(field.unit())
                .to_owned();
            ui.label(match unit.as_str() {
                "" => field.label().to_owned(),
                unit => format!("{}, {unit}", field.label()),
            });
            let name = format!("{} in period {number}", field.label());
            let typed = NumberField::new(field, *value)
                .label(&name)
                .id(id)
                .compact()
                .show(ui, queue);
            if let Some(typed) = typed {
                *value = typed;
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(Field::PeriodVents.label());
        let name = format!("{} in period {number}", Field::PeriodVents.label());
        let vents = Choice::of(Field::PeriodVents, &period.vents, &Vents::ALL)
            .label(&name)
            .id(id)
            .compact()
            .width(LABEL)
            .show(ui, |vents| vents.name().to_owned());
        period.vents = vents.unwrap_or(period.vents);
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(Field::PeriodNote.label());
        let name = format!("Note on period {number}");
        let typed = TextField::new(Field::PeriodNote, &period.note)
            .label(&name)
            .id(id)
            .compact()
            .width(3.0 * WORDS / 2.0)
            .show(ui, queue);
        if let Some(note) = typed {
            period.note = note;
        }
        // Behind all that is typed: whoever goes on by Tab and Enter does not come upon it.
        let name = format!("Remove period {number}");
        removed = widgets::named_button(ui, "✖", &name);
    });
    match (removed, placed, *period != before) {
        (true, ..) => Became::Removed,
        (_, true, _) => Became::Placed,
        (.., true) => Became::Changed,
        _ => Became::Same,
    }
}

/// What ran: nothing, equipment of the survey, or words.
fn ran(
    ui: &mut Ui,
    queue: &mut Queue,
    survey: &Survey,
    (number, trial): (usize, TrialId),
    period: &mut Period,
) {
    let id = (trial, period.id);
    ui.label(Field::RanWhat.label());
    let name = format!("What ran in period {number}");
    let ran = Choice::of(Field::RanWhat, &period.ran, &Ran::ALL)
        .label(&name)
        .id(id)
        .compact()
        .width(CHOICE)
        .show(ui, |ran| ran.name().to_owned());
    period.ran = ran.unwrap_or(period.ran);
    match period.ran {
        Ran::NotSaid | Ran::Nothing => {}
        Ran::Equipment => {
            let mut machines: Vec<Option<MachineId>> = vec![None];
            machines.extend(survey.machines.iter().map(|machine| Some(machine.id)));
            let called = |wanted: &Option<MachineId>| {
                let found = survey.machines.iter().find(|one| Some(one.id) == *wanted);
                named(
                    found.map(|one| one.name.as_str()),
                    "no machine",
                    wanted.is_some(),
                )
            };
            let name = format!("Machine in period {number}");
            let machine = Choice::of(Field::RanMachine, &period.machine, &machines)
                .label(&name)
                .id(id)
                .compact()
                .width(CHOICE)
                .show(ui, called);
            period.machine = machine.unwrap_or(period.machine);
            let mut heaters: Vec<Option<HeaterId>> = vec![None];
            heaters.extend(survey.heaters.iter().map(|heater| Some(heater.id)));
            let called = |wanted: &Option<HeaterId>| {
                let found = survey.heaters.iter().find(|one| Some(one.id) == *wanted);
                named(
                    found.map(|one| one.name.as_str()),
                    "no heater",
                    wanted.is_some(),
                )
            };
            let name = format!("Heater in period {number}");
            let heater = Choice::of(Field::RanHeater, &period.heater, &heaters)
                .label(&name)
                .id(id)
                .compact()
                .width(CHOICE)
                .show(ui, called);
            period.heater = heater.unwrap_or(period.heater);
        }
        Ran::Other => {
            let name = format!("In words in period {number}");
            let typed = TextField::new(Field::RanWords, &period.words)
                .label(&name)
                .id(id)
                .compact()
                .width(WORDS)
                .show(ui, queue);
            if let Some(words) = typed {
                period.words = words;
            }
        }
    }
}

/// The name of equipment, or that it is none or gone.
fn named(name: Option<&str>, none: &str, wanted: bool) -> String {
    match name.map(str::trim) {
        Some("") => "without a name".to_owned(),
        Some(name) => name.to_owned(),
        None if wanted => "no longer in the survey".to_owned(),
        None => none.to_owned(),
    }
}
