//! The Vehicle page: size, place, weather, targets, fabric and equipment.

mod body;
mod drying;
mod equipment;
mod fabric;
mod fabric_list;
mod layers;
mod lists;
mod machines;
mod materials;
pub(super) mod spaces;
mod usual;
mod weather;

use super::sections;
use crate::survey::{FabricId, Item, Survey};
use crate::window::page::PageContext;
use crate::window::widgets;
use eframe::egui;
use egui::{ScrollArea, Ui};

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct VehicleView {
    section: Section,
    element: Option<FabricId>,
}

/// The parts of the page, in the order of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Section {
    /// The survey itself, the vehicle's sizes, where it stands.
    #[default]
    Body,
    /// Weather cases, targets, prices.
    Weather,
    /// Fabric elements with their build-ups.
    Fabric,
    /// Appliances, machines, heaters, fans, moisture sources.
    Equipment,
    /// Spaces inside and what joins them.
    Spaces,
}

impl Section {
    /// Every section with its name.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::Body, "Body and place"),
        (Self::Weather, "Weather and targets"),
        (Self::Fabric, "Fabric"),
        (Self::Equipment, "Equipment"),
        (Self::Spaces, "Spaces inside"),
    ];
}

impl VehicleView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        self.section = match item {
            Item::Weather(_) | Item::Targets | Item::Tariffs => Section::Weather,
            Item::Fabric(id) => {
                self.element = Some(id);
                Section::Fabric
            }
            Item::Appliance(_)
            | Item::Machine(_)
            | Item::Drying
            | Item::Heater(_)
            | Item::Fan(_)
            | Item::Source(_) => Section::Equipment,
            Item::Space(_) | Item::InnerOpening(_) => Section::Spaces,
            _ => Section::Body,
        };
    }

    /// The section shown.
    #[must_use]
    pub fn section(&self) -> Section {
        self.section
    }

    /// The selected fabric element, or the first.
    #[must_use]
    pub fn element_in(&self, survey: &Survey) -> Option<FabricId> {
        let there = |id: FabricId| survey.fabric.iter().any(|element| element.id == id);
        self.element
            .filter(|&id| there(id))
            .or_else(|| survey.fabric.first().map(|element| element.id))
    }
}

/// Width of a card at least.
const CARD_LEAST: f32 = 370.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let shown = context.view.vehicle.section;
    if let Some(section) = sections::choose(ui, &Section::ALL, shown) {
        context.view.vehicle.section = section;
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

fn body_section(ui: &mut Ui, context: &mut PageContext<'_>) {
    widgets::columns(ui, CARD_LEAST, 3, |ui, at| match at {
        0 => widgets::card(ui, "Vehicle", |ui| body::vehicle(ui, context)),
        1 => widgets::card(ui, "Where it stands", |ui| body::site(ui, context)),
        _ => widgets::card(ui, "Survey", |ui| body::header(ui, context)),
    });
}
