//! The form of each fan test.

use super::super::fields::{Fields, field_findings, whole_findings, worst};
use super::view::MeasurementsContext;
use super::{covered, readings};
use crate::survey::{Edit, FanTest, Field, Item, Record, RecordId, SetUp, Survey, Tested};
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Layout, RichText, Ui};

fn put(test: FanTest) -> Edit {
    Edit::Put(Record::FanTest(Box::new(test)))
}

/// Draws the forms, and the button for one more.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let survey = context.survey;
    if survey.fan_tests.is_empty() {
        widgets::muted(
            ui,
            "A fan in the door shows what the whole vehicle leaks, the gaps that nobody found included. \
             Write down its readings here.",
        );
    }
    for test in &survey.fan_tests {
        ui.push_id(("fan test", test.id), |ui| {
            head(ui, context, test);
            let item = Item::FanTest(test.id);
            let mut fields = Fields::new(ui, context, item, test, &put);
            one(&mut fields, survey, test);
        });
        ui.separator();
    }
    if ui.button("Add fan test").clicked() {
        let test = FanTest::new(survey.free_fan_test_id(), survey.set_up);
        context.queue.edit(put(test), None);
    }
}

/// Its name, a sign where something was noticed, and *Remove*.
fn head(ui: &mut Ui, context: &mut MeasurementsContext<'_>, test: &FanTest) {
    let item = Item::FanTest(test.id);
    let name = match test.name.trim() {
        "" => format!("Fan test {}", test.id),
        name => name.to_owned(),
    };
    ui.horizontal(|ui| {
        if let Some(severity) = worst(context, item) {
            widgets::severity_sign(ui, severity);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if widgets::named_button(ui, "Remove", &format!("Remove {name}")) {
                let remove = Edit::Remove(RecordId::FanTest(test.id));
                context.queue.edit(remove, None);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(&name).family(bold())).truncate());
            });
        });
    });
    whole_findings(ui, context.marks(item));
}

fn one(fields: &mut Fields<'_, '_, FanTest>, survey: &Survey, test: &FanTest) {
    fields.text(Field::FanTestName, |test| &mut test.name);
    fields.text(Field::FanTestDate, |test| &mut test.date);
    fields.text(Field::Instrument, |test| &mut test.instrument);
    fields.one_of(Field::Tested, &Tested::ALL, Tested::name, |test| {
        &mut test.tested
    });
    fields.one_of(Field::TestedSetUp, &SetUp::ALL, SetUp::name, |test| {
        &mut test.set_up
    });
    fields.text(Field::ClosedForTest, |test| &mut test.closed);
    covered::show(fields, survey, test);
    fields.optional(Field::TestInside, |test| &mut test.inside_c);
    fields.optional(Field::TestOutside, |test| &mut test.outside_c);
    fields.optional(Field::Barometer, |test| &mut test.barometer_hpa);
    fields.optional(Field::TestWind, |test| &mut test.wind_m_s);
    readings::show(fields, "Blowing out", &test.blowing_out, |test| {
        &mut test.blowing_out
    });
    readings::show(fields, "Blowing in", &test.blowing_in, |test| {
        &mut test.blowing_in
    });
    let (ui, _, marks) = fields.parts();
    let several = [
        Field::ZeroBefore,
        Field::ZeroAfter,
        Field::ReadPressure,
        Field::ReadFlow,
    ];
    field_findings(ui, marks, &several);
    fields.text(Field::TestNote, |test| &mut test.note);
}
