//! The Vehicle page: size, place, weather, targets, fabric and equipment.

mod body;
mod drying;
mod equipment;
mod fabric;
mod fabric_list;
mod fill;
mod layers;
mod lists;
mod machines;
mod materials;
mod side;
mod spaces;
mod usual;
mod view;
mod weather;

pub use view::{Section, VehicleView};

use super::sections;
use crate::window::widgets;
use eframe::egui;
use egui::{ScrollArea, Ui};
use view::{CARD_LEAST, VehicleContext};

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let shown = context.view.section;
    if let Some(section) = sections::choose(ui, &Section::ALL, shown) {
        context.view.section = section;
    }
    ScrollArea::vertical()
        .id_salt(shown)
        .auto_shrink(false)
        .show(ui, |ui| {
            match shown {
                Section::Body => body_section(ui, context),
                Section::Weather => weather::show(ui, context),
                Section::Fabric => fabric::show(ui, context),
                Section::Equipment => equipment::show(ui, context),
                Section::Spaces => spaces::show(ui, context),
            }
            widgets::follow_focus(ui);
        });
}

/// The cards of the first section.
#[derive(Clone, Copy)]
enum Card {
    Drawing,
    Vehicle,
    Usual,
    Place,
    Survey,
}

/// The drawing stands beside the sizes that it follows, or above them where nothing stands beside.
fn body_section(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    use Card::{Drawing, Place, Survey, Usual, Vehicle};
    let columns: &[&[Card]] = match widgets::columns_that_fit(ui, CARD_LEAST) {
        1 => &[&[Drawing, Vehicle, Usual, Place, Survey]],
        2 => &[&[Vehicle, Survey], &[Drawing, Usual, Place]],
        _ => &[&[Vehicle], &[Drawing, Usual], &[Place, Survey]],
    };
    widgets::columns(ui, CARD_LEAST, columns.len(), |ui, at| {
        for one in columns.get(at).copied().unwrap_or_default() {
            card(ui, context, *one);
            ui.add_space(4.0);
        }
    });
}

fn card(ui: &mut Ui, context: &mut VehicleContext<'_>, card: Card) {
    match card {
        Card::Drawing => side::show(ui, context),
        Card::Vehicle => widgets::card(ui, "Vehicle", |ui| body::vehicle(ui, context)),
        Card::Usual => fill::show(ui, context),
        Card::Place => widgets::card(ui, "Where it stands", |ui| body::site(ui, context)),
        Card::Survey => widgets::card(ui, "Survey", |ui| body::header(ui, context)),
    }
}
