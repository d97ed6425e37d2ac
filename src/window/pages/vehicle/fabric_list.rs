//! The list of fabric elements, with what each loses.

use super::super::fields::worst;
use super::lists::shown_name;
use super::view::VehicleContext;
use crate::assess::Answer;
use crate::assess::quantity::Kind;
use crate::survey::unit::named;
use crate::survey::{FabricElement, FabricId, Item};
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::{Button, Grid, RichText, Ui};

/// U-value, W/(m² K), and loss with bridges, W/K, of one element.
pub(super) fn loss(context: &VehicleContext<'_>, id: FabricId) -> Option<Answer<(f64, f64)>> {
    let results = context.results?;
    let at = context
        .survey
        .fabric
        .iter()
        .position(|element| element.id == id)?;
    match &results.assessment().fabric {
        Ok(fabric) => fabric.elements.get(at).copied().map(Ok),
        Err(not_known) => Some(Err(not_known.clone())),
    }
}

/// Draws the list and its totals.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    if context.survey.fabric.is_empty() {
        ui.label("No element yet. Add walls, roof, floor, windows and doors with their areas.");
        return;
    }
    let total = context
        .results
        .and_then(|results| results.assessment().fabric.as_ref().ok())
        .map(|fabric| fabric.ua_w_per_k);
    ui.spacing_mut().item_spacing.y = 2.0;
    Grid::new("fabric elements")
        .num_columns(5)
        .striped(true)
        .spacing([10.0, 2.0])
        .show(ui, |ui| {
            let shown = units::shown(ui.ctx());
            for words in ["Element", "Area m²", "U W/(m² K)", "Loss W/K", "Share"] {
                ui.label(
                    RichText::new(shown.head(words).0)
                        .small()
                        .color(palette(ui).muted),
                );
            }
            ui.end_row();
            for element in &context.survey.fabric {
                row(ui, context, element, total);
                ui.end_row();
            }
        });
}

fn row(ui: &mut Ui, context: &mut VehicleContext<'_>, element: &FabricElement, total: Option<f64>) {
    let selected = context.view.element_in(context.survey) == Some(element.id);
    let name = shown_name(&element.name, element.part.name());
    ui.horizontal(|ui| {
        // The growing atom keeps the name at the left.
        let button = Button::new((name.as_str(), egui::Atom::grow()))
            .selected(selected)
            .truncate();
        let response = ui.add_sized([170.0, 22.0], button);
        if response.clicked() {
            context.view.element = Some(element.id);
        }
        if let Some(severity) = worst(context, Item::Fabric(element.id)) {
            widgets::severity_sign(ui, severity);
        }
    });
    let shown = units::shown(ui.ctx());
    let in_unit = |number: String, unit: &str| shown.cell(&number, named(unit)).into_owned();
    ui.label(element.area_m2.map_or_else(
        || "?".to_owned(),
        |area| in_unit(Kind::SquareMetres.number(area), "m²"),
    ));
    match loss(context, element.id) {
        Some(Ok((u, loss))) => {
            ui.label(in_unit(Kind::Plain.number(u), "W/(m² K)"));
            ui.label(in_unit(Kind::WattsPerKelvin.number(loss), "W/K"));
            let share = total.filter(|total| *total > 0.0).map(|total| loss / total);
            ui.label(share.map_or_else(String::new, |share| Kind::Share.text(share)));
        }
        _ => {
            ui.label("–")
                .on_hover_text("not known: see the total below");
            ui.label("–");
            ui.label("");
        }
    }
}

/// The totals of all elements.
pub(super) fn totals(ui: &mut Ui, context: &VehicleContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let fabric = &results.assessment().fabric;
    let loss = fabric
        .clone()
        .map(|fabric| Kind::WattsPerKelvin.text(fabric.ua_w_per_k));
    let area = fabric
        .clone()
        .map(|fabric| Kind::SquareMetres.text(fabric.area_m2));
    for (words, answer) in [("Loss of the fabric", loss), ("Area of all elements", area)] {
        widgets::row(ui, words, |ui| {
            ui.vertical(|ui| widgets::answer_line(ui, &answer));
        });
    }
    let envelope = &results.assessment().leakage.envelope_m2;
    let words = envelope.clone().map(|area| Kind::SquareMetres.text(area));
    widgets::row(ui, "Area of the envelope", |ui| {
        ui.vertical(|ui| widgets::answer_line(ui, &words));
    });
    widgets::muted(
        ui,
        "The loss contains thermal bridges. Area of all elements should come near the area of \
         the envelope, which follows from the outside sizes.",
    );
}
