//! What is folded away under its heading.

use super::words::tell_name;
use eframe::egui;
use egui::{Button, Ui};

/// Draws a heading that unfolds and folds what is under it; `open` is what the page remembers.
pub fn fold(ui: &mut Ui, heading: &str, open: &mut bool, content: impl FnOnce(&mut Ui)) {
    let sign = if *open { "▼" } else { "▶" };
    let button = Button::new(format!("{sign} {heading}")).frame_when_inactive(false);
    let response = ui.add(button);
    tell_name(ui, response.id, heading);
    let now = *open;
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_expanded(now));
    if response.clicked() {
        *open = !*open;
    }
    if *open {
        content(ui);
    }
}
