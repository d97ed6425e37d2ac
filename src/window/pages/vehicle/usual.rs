//! Usual build-ups to start a fabric element from.

use super::super::fields::Fields;
use crate::survey::build_ups::{UsualBuildUp, usual_build_ups};
use crate::survey::fabric::BuildUp;
use crate::survey::{FabricElement, FabricPart};
use crate::window::widgets;
use eframe::egui;
use egui::Ui;

/// Draws what is on offer for the element's part. One that is chosen takes the place of the
/// build-up and of the addition for thermal bridges, in one step.
pub(super) fn show(fields: &mut Fields<'_, '_, FabricElement>, element: &FabricElement) {
    let offered = for_part(element.part);
    if offered.is_empty() {
        return;
    }
    let (ui, _, _) = fields.parts();
    let chosen = choose(ui, &offered);
    if is_usual(element, &offered) {
        widgets::muted(
            ui,
            "This is a usual build-up, an assumption of this program [A] and not a measurement: \
             enter the thicknesses of this vehicle where you can find them.",
        );
    }
    if let Some(usual) = chosen {
        fields.change(|element| {
            element.build_up = usual.build_up;
            element.bridge_percent = usual.bridge_percent;
        });
    }
}

fn for_part(part: FabricPart) -> Vec<UsualBuildUp> {
    let mut all = usual_build_ups();
    all.retain(|usual| usual.part == part);
    all
}

/// Whether the element is just as the library has it.
fn is_usual(element: &FabricElement, offered: &[UsualBuildUp]) -> bool {
    let has_layers = matches!(&element.build_up, BuildUp::Layers(layers) if !layers.is_empty());
    has_layers
        && offered
            .iter()
            .any(|usual| usual.build_up == element.build_up)
}

fn choose(ui: &mut Ui, offered: &[UsualBuildUp]) -> Option<UsualBuildUp> {
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(4.0, 3.0);
        widgets::muted(ui, "Take a usual build-up [A]:");
        for usual in offered {
            let response = ui
                .small_button(usual.name)
                .on_hover_text("Replaces the layers and the thermal bridges below.");
            widgets::tell_name(ui, response.id, &format!("Usual build-up: {}", usual.name));
            if response.clicked() {
                chosen = Some(usual.clone());
            }
        }
    });
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_has_a_usual_build_up_and_is_offered_its_own_alone() {
        for part in FabricPart::ALL {
            let offered = for_part(part);
            assert!(!offered.is_empty(), "{part:?}");
            assert!(offered.iter().all(|usual| usual.part == part));
        }
    }
}
