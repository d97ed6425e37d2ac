//! The button that fills in what is usual for a kind of vehicle.

use crate::report::usual;
use crate::survey::VehicleKind;
use eframe::egui::{Response, Ui};

/// Draws it; what it does is said beside it, or on hover.
pub fn usual_button(ui: &mut Ui, kind: VehicleKind) -> Response {
    let name = usual::name(kind);
    ui.button(format!("Fill in a{}", name.trim_start_matches('A')))
}
