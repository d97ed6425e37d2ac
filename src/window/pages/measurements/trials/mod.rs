//! Loggers taken in, and the trials that stand on them.

mod check;
mod form;
mod loggers;
mod named;
mod odd;
mod period;
mod says;

use super::view::MeasurementsContext;
use crate::survey::{Field, Item, Place, Trial};
use crate::window::request::Request;
use crate::window::widgets;
use eframe::egui::Ui;

/// Draws both.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    widgets::card(ui, "Loggers", |ui| loggers::show(ui, context));
    ui.add_space(4.0);
    let survey = context.survey;
    for trial in &survey.trials {
        widgets::steady(ui, ("trial", trial.id), |ui| form::show(ui, context, trial));
        ui.add_space(4.0);
    }
    widgets::steady(ui, "another trial", |ui| another(ui, context));
}

/// The way to begin a trial.
fn another(ui: &mut Ui, context: &mut MeasurementsContext<'_>) {
    let survey = context.survey;
    widgets::card(ui, "", |ui| {
        if survey.trials.is_empty() {
            widgets::muted(
                ui,
                "A trial is one way of keeping dry after another, with a logger inside all the while and \
                 one outside. Nothing at first, then a method, then nothing again, then the method once \
                 more: one week of each, and the weather is told apart from the method.",
            );
        }
        if ui.button("Add a trial").clicked() {
            let mut trial = Trial::new(survey.free_trial_id());
            let hung = |hung| {
                let found = survey.series.iter().find(|series| series.hung == hung);
                found.map(|series| series.id)
            };
            trial.inside = hung(crate::survey::Hung::Inside);
            trial.outside = hung(crate::survey::Hung::Outside);
            let name = Place::at(Item::Trial(trial.id), Field::TrialName);
            context.queue.edit(form::put(trial), None);
            context.queue.push(Request::GoTo(name));
        }
    });
}
