//! How sure the air change is, and what to measure next.

use super::super::not_found::offer;
use super::view::AirChangeContext;
use crate::report::{Material, uncertainty};
use crate::survey::{Edit, Field, Item};
use crate::window::answers::LongWork;
use crate::window::widgets::{self, NumberField, report};
use eframe::egui::Ui;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>, told: &Material<'_>) {
    let answers = context.answers;
    let status = answers.status(LongWork::Uncertainty);
    widgets::long_work(
        ui,
        context.queue,
        LongWork::Uncertainty,
        status,
        "how sure the results are",
    );
    if let Some(found) = answers.uncertainty(context.revision) {
        let section = uncertainty::section(told, found);
        report::section(ui, context.queue, &section);
    }
    not_found(ui, context);
}

/// The share that nobody found, to be typed.
fn not_found(ui: &mut Ui, context: &mut AirChangeContext<'_>) {
    ui.add_space(6.0);
    let percent = context.survey.leakage_not_found_percent;
    let typed = NumberField::new(Field::NotFound, percent)
        .marks(context.marks(Item::Ledger))
        .show(ui, context.queue);
    if let Some(percent) = typed {
        context.queue.typed(Edit::LeakageNotFound(percent));
    }
    offer(ui, context.survey, context.queue);
    if percent.is_none() {
        widgets::muted(
            ui,
            "What a survey misses: a share of the leakage found, spread over the faces by area; 20 % is a \
             fair guess [A]. It widens the intervals and never moves a headline.",
        );
    }
}
