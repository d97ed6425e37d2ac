//! What stands above and below the drawing: zoom, missing sizes, legend.

use super::super::view::GapsContext;
use super::sight::STEP;
use super::view::drawing_id;
use crate::figure::body::{LegendEntry, legend};
use crate::survey::Vehicle;
use crate::window::body::{Frame, paint};
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{Rect, Sense, Ui, vec2};

/// Side of a mark in the legend, points.
const MARK: f32 = 17.0;

/// Draws the line above the drawing.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        let view = &mut context.view.body;
        if tool(ui, "+", "Enlarge the drawing (+)", true) {
            view.enlarge_wanted = Some(STEP);
        }
        let enlarged = view.sight.is_enlarged();
        if tool(ui, "−", "Reduce the drawing (−)", enlarged) {
            view.enlarge_wanted = Some(1.0 / STEP);
        }
        if tool(ui, "Whole", "Show the whole body (0)", enlarged) {
            view.sight.whole();
        }
        let words = "What shapes, outlines and sizes of the marks mean";
        if ui
            .selectable_label(view.legend, "Legend")
            .on_hover_text(words)
            .clicked()
        {
            view.legend = !view.legend;
        }
        let words = "Move, remove and add the windows, doors and vents that are drawn";
        if ui
            .selectable_label(view.fittings, "Windows & doors")
            .on_hover_text(words)
            .clicked()
        {
            view.fittings = !view.fittings;
        }
        match missing(&context.survey.vehicle) {
            Some(words) => {
                widgets::muted(ui, words);
            }
            // A line of its own on a low window would be taken from the drawing.
            None if widgets::is_low(ui) => {}
            None => {
                widgets::muted(
                    ui,
                    "A click on a free place adds a gap; drag a mark to move it.",
                );
            }
        }
    });
}

fn tool(ui: &mut Ui, sign: &str, words: &str, enabled: bool) -> bool {
    let response = ui
        .add_enabled(enabled, egui::Button::new(sign))
        .on_hover_text(words);
    widgets::tell_name(ui, response.id, words);
    if response.clicked() {
        ui.memory_mut(|memory| memory.request_focus(drawing_id()));
    }
    response.clicked()
}

/// Which sizes the drawing lacks, and what follows.
fn missing(vehicle: &Vehicle) -> Option<String> {
    let sizes = [
        (vehicle.length_m, "length"),
        (vehicle.width_m, "width"),
        (vehicle.height_m, "height"),
        (vehicle.floor_height_m, "floor height"),
    ];
    let missing: Vec<&str> = sizes
        .into_iter()
        .filter(|(size, _)| size.is_none())
        .map(|(_, name)| name)
        .collect();
    (!missing.is_empty()).then(|| {
        format!(
            "Drawn in a usual size: {} not recorded, so places are left open in that direction. \
             Record it on the Vehicle page.",
            missing.join(", ")
        )
    })
}

/// Draws the legend.
pub(super) fn legend_rows(ui: &mut Ui) {
    // Words, not targets: the rows need no room for a finger.
    ui.spacing_mut().interact_size.y = MARK;
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.horizontal_wrapped(|ui| {
        for LegendEntry { scene, words } in legend() {
            let text = egui::WidgetText::from(egui::RichText::new(&words).small());
            let galley = text.into_galley(
                ui,
                Some(egui::TextWrapMode::Extend),
                f32::INFINITY,
                egui::TextStyle::Small,
            );
            let size = vec2(MARK + 3.0 + galley.size().x, MARK);
            let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
            let place = Rect::from_min_size(rect.min, vec2(MARK, MARK));
            let frame = Frame::fit(&scene, place);
            paint(ui.painter(), &scene, &frame, palette(ui));
            let at = egui::pos2(place.right() + 3.0, rect.center().y - galley.size().y / 2.0);
            ui.painter().galley(at, galley, palette(ui).text);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
        }
    });
    widgets::muted(
        ui,
        "The area of a mark follows the leakage area of its gap; from 60 cm² on, and for small \
         ones, it stays as it is. A mark with a thin line belongs where the line begins.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Survey, VehicleKind};

    #[test]
    fn the_drawing_says_which_sizes_it_lacks() {
        let mut vehicle = Survey::new(VehicleKind::PanelVan).vehicle;
        assert!(missing(&vehicle).unwrap().contains("length, width, height"));
        (vehicle.length_m, vehicle.width_m) = (Some(6.0), Some(2.0));
        (vehicle.height_m, vehicle.floor_height_m) = (Some(2.7), None);
        let words = missing(&vehicle).unwrap();
        assert!(words.contains("floor height not recorded"));
        vehicle.floor_height_m = Some(0.6);
        assert_eq!(missing(&vehicle), None);
    }
}
