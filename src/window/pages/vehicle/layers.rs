//! The layers of a build-up, from outside to inside.

use super::super::fields::{Fields, Part, field_findings};
use super::materials::{MATERIALS, air_gap, blank, layer};
use crate::survey::fabric::{BuildUp, Layer};
use crate::survey::{FabricElement, FabricId, Field};
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, NumberField, TextField};
use eframe::egui;
use egui::{Grid, RichText, Ui};

/// What a row of the table asks for.
enum Asked {
    Change(Layer),
    Up,
    Down,
    Remove,
}

/// Draws the table and the ways to add a layer.
pub(super) fn show(
    fields: &mut Fields<'_, '_, FabricElement>,
    element: FabricId,
    layers: &[Layer],
) {
    let (ui, queue, marks) = fields.parts();
    widgets::muted(ui, "Layers from outside to inside:");
    let mut asked = None;
    if !layers.is_empty() {
        Grid::new(("layers", element))
            .num_columns(5)
            .spacing([5.0, 3.0])
            .show(ui, |ui| {
                let shown = units::shown(ui.ctx());
                for words in ["Material", "mm", "λ, W/(m K)", "or R, m² K/W", ""] {
                    ui.label(
                        RichText::new(shown.head(words).0)
                            .small()
                            .color(palette(ui).muted),
                    );
                }
                ui.end_row();
                for (at, layer) in layers.iter().enumerate() {
                    if let Some(what) = row(ui, queue, (element, at), layer) {
                        asked = Some((at, what));
                    }
                    ui.end_row();
                }
            });
    }
    let added = add(ui);
    field_findings(ui, marks, &NUMBERS.map(|(field, _)| field));
    let mut changed = layers.to_vec();
    if let Some((at, what)) = asked {
        carry_out(&mut changed, at, what);
    } else if let Some(layer) = added {
        changed.push(layer);
    } else {
        return;
    }
    fields.change(|element| element.build_up = BuildUp::Layers(changed));
}

fn carry_out(layers: &mut Vec<Layer>, at: usize, what: Asked) {
    match what {
        Asked::Change(layer) => {
            if let Some(old) = layers.get_mut(at) {
                *old = layer;
            }
        }
        Asked::Up if at > 0 && at < layers.len() => layers.swap(at, at - 1),
        Asked::Down if at + 1 < layers.len() => layers.swap(at, at + 1),
        Asked::Remove if at < layers.len() => {
            layers.remove(at);
        }
        Asked::Up | Asked::Down | Asked::Remove => {}
    }
}

const NUMBERS: [(Field, Part<Layer, Option<f64>>); 3] = [
    (Field::Thickness, |layer| &mut layer.thickness_mm),
    (Field::Conductivity, |layer| {
        &mut layer.conductivity_w_per_m_k
    }),
    (Field::Resistance, |layer| &mut layer.resistance_m2_k_per_w),
];

const MATERIAL_WIDTH: f32 = 118.0;
const NUMBER_WIDTH: f32 = 62.0;

/// A cell that keeps its width; a grid would make it as narrow as its column's heading.
fn wide<R>(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui) -> R) -> R {
    ui.scope(|ui| {
        ui.set_width(width);
        content(ui)
    })
    .inner
}

/// The cells of one layer. A layer has no id of its own: its place in the build-up names it.
fn row(ui: &mut Ui, queue: &mut Queue, id: (FabricId, usize), layer: &Layer) -> Option<Asked> {
    let number = id.1 + 1;
    let mut changed = layer.clone();
    let mut any = false;
    let label = format!("Material of layer {number}");
    let field = TextField::new(Field::Material, &layer.material)
        .label(&label)
        .id(id)
        .compact()
        .width(MATERIAL_WIDTH);
    let material = wide(ui, MATERIAL_WIDTH + 18.0, |ui| field.show(ui, queue));
    if let Some(material) = material {
        changed.material = material;
        any = true;
    }
    for (field, part) in NUMBERS {
        let value = part(&mut changed);
        let label = format!("{} of layer {number}", field.label());
        let input = NumberField::new(field, *value)
            .label(&label)
            .id(id)
            .compact()
            .width(NUMBER_WIDTH);
        let typed = wide(ui, NUMBER_WIDTH + 18.0, |ui| input.show(ui, queue));
        if let Some(typed) = typed {
            *value = typed;
            any = true;
        }
    }
    buttons(ui, number).or_else(|| any.then_some(Asked::Change(changed)))
}

fn buttons(ui: &mut Ui, number: usize) -> Option<Asked> {
    let mut asked = None;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        ui.spacing_mut().button_padding.x = 5.0;
        for (sign, words, what) in [
            ("↑", "further out", Asked::Up),
            ("↓", "further in", Asked::Down),
            ("✖", "away", Asked::Remove),
        ] {
            let button = egui::Button::new(sign).min_size(egui::vec2(22.0, 22.0));
            let name = format!("Layer {number} {words}");
            let response = ui.add(button).on_hover_text(&name);
            widgets::tell_name(ui, response.id, &name);
            if response.clicked() {
                asked = Some(what);
            }
        }
    });
    asked
}

/// The materials on offer; `Some` is a layer to add inside.
fn add(ui: &mut Ui) -> Option<Layer> {
    let mut added = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(4.0, 3.0);
        ui.label(
            RichText::new("Add inside:")
                .small()
                .color(palette(ui).muted),
        );
        let mut offer = |ui: &mut Ui, name: &str, layer: fn() -> Layer| {
            if named_button(ui, name) {
                added = Some(layer());
            }
        };
        offer(ui, "air gap", air_gap);
        offer(ui, "other", blank);
        for (name, material) in MATERIALS {
            if named_button(ui, name) {
                added = Some(layer(name, material));
            }
        }
    });
    added
}

fn named_button(ui: &mut Ui, name: &str) -> bool {
    let response = ui.small_button(name);
    widgets::tell_name(ui, response.id, &format!("Add layer: {name}"));
    response.clicked()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn three() -> Vec<Layer> {
        MATERIALS
            .iter()
            .take(3)
            .map(|(name, material)| layer(name, *material))
            .collect()
    }

    #[test]
    fn layers_move_by_one_place_and_stop_at_the_ends() {
        let names = |layers: &[Layer]| {
            layers
                .iter()
                .map(|layer| layer.material.clone())
                .collect::<Vec<_>>()
        };
        let mut layers = three();
        carry_out(&mut layers, 0, Asked::Up);
        assert_eq!(names(&layers), names(&three()));
        carry_out(&mut layers, 0, Asked::Down);
        assert_eq!(names(&layers), ["aluminium", "GRP", "steel"]);
        carry_out(&mut layers, 2, Asked::Down);
        carry_out(&mut layers, 2, Asked::Up);
        assert_eq!(names(&layers), ["aluminium", "steel", "GRP"]);
        carry_out(&mut layers, 1, Asked::Remove);
        carry_out(&mut layers, 7, Asked::Remove);
        assert_eq!(names(&layers), ["aluminium", "GRP"]);
    }
}
