//! The form of each test of the air change.

use super::super::fields::{Fields, field_findings, whole_findings, worst};
use super::rows;
use super::view::MeasurementsContext;
use crate::report::measured;
use crate::survey::{
    AirReading, AirTest, AirTestBy, AirTestId, Edit, Field, Item, Record, RecordId, SetUp, Tested,
};
use crate::window::request::Queue;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, NumberField, report};
use eframe::egui;
use egui::{Align, Grid, Layout, RichText, Ui};

/// Width of a number, and of its cell.
const WIDE: (f32, f32) = (70.0, 110.0);

fn put(test: AirTest) -> Edit {
    Edit::Put(Record::AirTest(Box::new(test)))
}

/// Draws the forms, and the button for one more.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let survey = context.survey;
    if survey.air_tests.is_empty() {
        widgets::muted(
            ui,
            "How fast breath leaves the air once everybody is out, or how much water a machine gathers, shows \
             the air change in the weather there is. Write down the readings here.",
        );
    }
    for test in &survey.air_tests {
        ui.push_id(("air test", test.id), |ui| {
            head(ui, context, test);
            let item = Item::AirTest(test.id);
            let mut fields = Fields::new(ui, context, item, test, &put);
            one(&mut fields, test);
        });
        ui.separator();
    }
    if ui.button("Add air test").clicked() {
        let test = AirTest::new(survey.free_air_test_id(), survey.set_up);
        context.queue.edit(put(test), None);
    }
}

/// What the tests say, and what to heed before one.
pub(super) fn told(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let Some(material) = context.told() else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    let section = measured::air_tests(&material);
    if !section.blocks.is_empty() {
        widgets::card(ui, &section.title, |ui| {
            report::section(ui, context.queue, &section);
        });
        ui.add_space(4.0);
    }
    let before = measured::before_an_air_test();
    widgets::card(ui, &before.title, |ui| {
        report::section(ui, context.queue, &before);
    });
}

/// Its name, a sign where something was noticed, and *Remove*.
fn head(ui: &mut Ui, context: &mut MeasurementsContext<'_>, test: &AirTest) {
    let item = Item::AirTest(test.id);
    let name = match test.name.trim() {
        "" => format!("Air test {}", test.id),
        name => name.to_owned(),
    };
    ui.horizontal(|ui| {
        if let Some(severity) = worst(context, item) {
            widgets::severity_sign(ui, severity);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if widgets::named_button(ui, "Remove", &format!("Remove {name}")) {
                let remove = Edit::Remove(RecordId::AirTest(test.id));
                context.queue.edit(remove, None);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(&name).family(bold())).truncate());
            });
        });
    });
    whole_findings(ui, context.marks(item));
}

fn one(fields: &mut Fields<'_, '_, AirTest>, test: &AirTest) {
    fields.text(Field::AirTestName, |test| &mut test.name);
    fields.text(Field::AirTestDate, |test| &mut test.date);
    fields.text(Field::AirTestInstrument, |test| &mut test.instrument);
    fields.one_of(Field::AirTestBy, &AirTestBy::ALL, AirTestBy::name, |test| {
        &mut test.by
    });
    let (ui, ..) = fields.parts();
    widgets::muted(ui, "A flame is never a source.");
    fields.one_of(Field::AirTestTested, &Tested::ALL, Tested::name, |test| {
        &mut test.tested
    });
    fields.one_of(Field::AirTestSetUp, &SetUp::ALL, SetUp::name, |test| {
        &mut test.set_up
    });
    fields.text(Field::AirTestClosed, |test| &mut test.closed);
    fields.optional(Field::AirTestInside, |test| &mut test.inside_c);
    fields.optional(Field::AirTestOutside, |test| &mut test.outside_c);
    fields.optional(Field::AirTestWind, |test| &mut test.wind_m_s);
    if test.by.is_decay() {
        let unit = test.by.unit();
        if unit.is_empty() {
            fields.hint("unit of the readings");
        }
        fields.optional_in(unit, Field::Background, |test| &mut test.background);
        readings(fields, test);
    } else {
        fields.optional(Field::CollectedFor, |test| &mut test.hours);
        fields.optional(Field::Collected, |test| &mut test.collected_l);
        fields.optional(Field::GivenOff, |test| &mut test.given_off_l);
        fields.optional(Field::MeanInsideRh, |test| &mut test.inside_rh_percent);
        fields.optional(Field::MeanOutsideRh, |test| &mut test.outside_rh_percent);
        fields.optional(Field::StartRh, |test| &mut test.start_rh_percent);
        fields.optional(Field::EndRh, |test| &mut test.end_rh_percent);
    }
    fields.text(Field::AirTestNote, |test| &mut test.note);
}

/// The readings of a decay, and the button for more.
fn readings(fields: &mut Fields<'_, '_, AirTest>, test: &AirTest) {
    let (ui, queue, marks) = fields.parts();
    let mut changed = test.readings.clone();
    if !changed.is_empty() {
        table(ui, queue, test, &mut changed);
    }
    let name = format!("Add a reading to air test {}", test.id);
    let more = rows::add(ui, (test.id, &name), changed.len(), |at| {
        NumberField::id_of(Field::AirReadingAt, (test.id, at))
    });
    changed.extend(std::iter::repeat_n(AirReading::default(), more));
    field_findings(ui, marks, &[Field::AirReadingAt, Field::AirReading]);
    if changed != test.readings {
        fields.change(|test| test.readings = changed);
    }
}

fn table(ui: &mut Ui, queue: &mut Queue, test: &AirTest, readings: &mut Vec<AirReading>) {
    let id = test.id;
    let heads = [Field::AirReadingAt, Field::AirReading].map(|field| {
        match unit_of(field, test.by.unit()) {
            "" => field.label().to_owned(),
            unit => format!("{}, {unit}", field.label()),
        }
    });
    let mut away = None;
    Grid::new(("air readings", id))
        .num_columns(4)
        .spacing([5.0, 3.0])
        .show(ui, |ui| {
            ui.label("");
            for words in heads {
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for (at, reading) in readings.iter_mut().enumerate() {
                ui.label(format!("{}", at + 1));
                cells(ui, queue, (id, at), (reading, test.by.unit()));
                let name = format!("Remove reading {}, air test {id}", at + 1);
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

/// The unit of a number of a reading; `read` is that of what was read.
fn unit_of(field: Field, read: &'static str) -> &'static str {
    match field {
        Field::AirReading => read,
        field => field.unit(),
    }
}

/// A reading has no id of its own: its place in the list names it.
fn cells(
    ui: &mut Ui,
    queue: &mut Queue,
    id: (AirTestId, usize),
    (reading, read): (&mut AirReading, &'static str),
) {
    for (field, value) in [
        (Field::AirReadingAt, &mut reading.minutes),
        (Field::AirReading, &mut reading.value),
    ] {
        let label = format!("{} {}, air test {}", field.label(), id.1 + 1, id.0);
        let wanted = rows::is_wanted(ui, NumberField::id_of(field, id));
        let input = NumberField::new(field, *value)
            .label(&label)
            .id(id)
            .focus(wanted)
            .unit(unit_of(field, read))
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
