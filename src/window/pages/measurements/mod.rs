//! The page Measurements: fan tests, air tests, loggers and trials written down, and what they say of the vehicle
//! and the survey.

mod air;
pub mod chart;
mod covered;
mod form;
mod readings;
mod rows;
mod trials;
mod view;

pub use view::{MeasurementsView, Section};

use super::sections;

use crate::assess::calibration::is_measured;
use crate::figure;
use crate::report::measured;
use crate::survey::{Edit, Field};
use crate::window::widgets::{self, report};
use crate::window::{body, help, units};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};
use view::MeasurementsContext;

/// Width of a card at least.
const CARD_LEAST: f32 = 460.0;
/// Points of the screen for each millimetre of a drawing.
const POINTS_PER_MM: f32 = 4.4;
/// Least and greatest width of a plot, mm.
const PLOT_MM: (f32, f32) = (60.0, 150.0);

/// Draws the page: what was written down on the left, what came of it on the right.
pub fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let shown = context.view.section;
    if let Some(section) = sections::choose(ui, &Section::ALL, shown) {
        context.view.section = section;
    }
    ScrollArea::vertical()
        .id_salt(("measurements", shown))
        .auto_shrink(false)
        .show(ui, |ui| {
            match shown {
                Section::FanTests => widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
                    0 => widgets::card(ui, "Fan tests", |ui| form::show(ui, context)),
                    _ => {
                        told(ui, context);
                        calibration(ui, context);
                    }
                }),
                Section::AirTests => widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
                    0 => widgets::card(ui, "Tests of the air change", |ui| air::show(ui, context)),
                    _ => {
                        air::told(ui, context);
                        calibration(ui, context);
                    }
                }),
                Section::Trials => trials::show(ui, context),
            }
            widgets::follow_focus(ui);
        });
}

/// What measurements make of the results, with the switch that turns it off.
fn calibration(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    if !is_measured(context.survey) {
        return;
    }
    let Some(material) = context.told() else {
        return;
    };
    ui.add_space(4.0);
    let section = measured::calibration(&material);
    widgets::card(ui, &section.title, |ui| {
        weighing(ui, context);
        report::section(ui, context.queue, &section);
    });
}

/// Whether measurements weigh in the results.
fn weighing(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let field = Field::Calibrated;
    let mut calibrated = context.survey.calibrated;
    let tick = ui.checkbox(&mut calibrated, field.label());
    help::explain(ui, tick, field.label(), field.help());
    if calibrated != context.survey.calibrated {
        context.queue.edit(Edit::Calibrated(calibrated), None);
    }
}

/// What the tests say, with their plots, and what to heed before one.
fn told(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let Some((results, material)) = context.results.zip(context.told()) else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    let outcomes = results.study().measured();
    if !context.survey.fan_tests.is_empty() {
        widgets::card(ui, "What they say", |ui| {
            if results.revision != context.revision {
                widgets::muted(ui, "This is being worked out anew.");
            }
            let room = (ui.available_width() / POINTS_PER_MM).clamp(PLOT_MM.0, PLOT_MM.1);
            for test in &context.survey.fan_tests {
                let Ok(outcome) = outcomes.fan_test(test.id) else {
                    continue;
                };
                let key = (results.revision, test.id, f64::from(room));
                let scene = context
                    .view
                    .plot(key, || figure::fan_test(outcome, f64::from(room)));
                ui.push_id(("plot", test.id), |ui| {
                    body::show(ui, &scene, body::narrow(scene.height) * POINTS_PER_MM);
                });
                let caption = measured::plot_caption(test);
                ui.label(RichText::new(units::text(ui.ctx(), &caption)).small());
                ui.add_space(4.0);
            }
            let section = measured::section(&material);
            report::section(ui, context.queue, &section);
        });
        ui.add_space(4.0);
    }
    let before = measured::before_a_test(outcomes);
    widgets::card(ui, &before.title, |ui| {
        report::section(ui, context.queue, &before);
    });
}
