//! Contents, sun and supply.

use super::super::fields::Fields;
use super::view::VehicleContext;
use crate::survey::{Edit, Field, Item};
use crate::window::widgets;
use eframe::egui::Ui;

/// Draws the card's fields.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let drying = &context.survey.drying;
    let mut fields = Fields::new(ui, context, Item::Drying, drying, &Edit::Drying);
    fields.optional(Field::ContentsMass, |drying| &mut drying.contents_kg);
    fields.optional(Field::ContentsMoisture, |drying| {
        &mut drying.contents_moisture_percent
    });
    widgets::muted(
        fields.ui,
        "Furniture, boards, cushions and carpets, with the moisture that a wood-moisture meter \
         shows: for the litres and days to dry them out.",
    );
    fields.optional(Field::HeatCapacity, |drying| {
        &mut drying.heat_capacity_kj_per_k
    });
    fields.number(Field::Sun, |drying| &mut drying.sun_w);
    fields.optional(Field::Salt, |drying| &mut drying.salt_kg);
    fields.optional(Field::HookUp, |drying| &mut drying.hookup_a);
    fields.optional(Field::Battery, |drying| &mut drying.battery_wh);
    fields.noticed();
}
