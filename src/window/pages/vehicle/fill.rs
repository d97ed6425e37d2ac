//! What is usual for the vehicle's kind: filled in by one button, and its mark beside what it filled.

use super::view::VehicleContext;
use crate::report::usual;
use crate::survey::{Edit, TypicalWinter, UsualPart};
use crate::window::commands::Command;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice};
use eframe::egui::{RichText, Ui};

/// Draws the card: which winter, and the button.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let kind = context.survey.vehicle.kind;
    widgets::card(ui, &usual::name(kind), |ui| {
        let winter = context.view.winter_in(context.survey);
        let chosen = Choice::new("Typical winter", &winter, &TypicalWinter::ALL)
            .help(
                "Where the vehicle stands in winter: weather and the coldest night follow from it.",
            )
            .show(ui, |winter| winter.name().to_owned());
        if chosen.is_some() {
            context.view.winter = chosen;
        }
        widgets::muted(ui, winter.description());
        if widgets::usual_button(ui, kind).clicked() {
            context.queue.command(Command::UsualVehicle);
        }
        widgets::muted(ui, usual::offer(kind));
    });
}

/// The mark of a part that is usual and not measured, with the way to say that it is so; `what` names
/// the part.
pub(super) fn mark(ui: &mut Ui, context: &mut VehicleContext<'_>, part: UsualPart, what: &str) {
    if !context.survey.usual.has(part) {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        let colour = palette(ui).warning;
        let words = RichText::new(format!("\u{2248} {}", usual::MARK));
        ui.label(words.color(colour));
        if widgets::named_link(ui, "it is so", &format!("{what}: it is so")) {
            context.queue.edit(Edit::Known(part), None);
        }
    });
}
