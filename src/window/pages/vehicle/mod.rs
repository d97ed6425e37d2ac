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

fn body_section(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    widgets::columns(ui, CARD_LEAST, 3, |ui, at| match at {
        0 => widgets::card(ui, "Vehicle", |ui| body::vehicle(ui, context)),
        1 => widgets::card(ui, "Where it stands", |ui| body::site(ui, context)),
        _ => widgets::card(ui, "Survey", |ui| body::header(ui, context)),
    });
}
