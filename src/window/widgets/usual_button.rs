//! The button that fills in what is usual for a kind of vehicle.

use crate::report::usual;
use crate::survey::VehicleKind;
use eframe::egui::Ui;

/// Draws it; whether it was pressed.
pub fn usual_button(ui: &mut Ui, kind: VehicleKind) -> bool {
    let words = format!("Fill in a{}", usual::name(kind).trim_start_matches('A'));
    let button = ui.button(words);
    button.on_hover_text(usual::offer(kind)).clicked()
}
