//! A line of a menu: a command of the table with its keys.

use super::commands::CommandLine;
use super::request::Queue;
use super::widgets;
use eframe::egui;
use egui::{Button, Response, Ui};

/// Draws it under a name; a click queues the command and closes the menu.
pub(super) fn entry(
    ui: &mut Ui,
    line: &CommandLine,
    name: &str,
    enabled: bool,
    queue: &mut Queue,
) -> Response {
    let mut button = Button::new(name);
    if let Some(shortcut) = line.shortcuts.first() {
        button = button.shortcut_text(ui.ctx().format_shortcut(shortcut));
    }
    let response = ui
        .add_enabled(enabled, button)
        .on_hover_text(line.tooltip)
        .on_disabled_hover_text("Open a survey first");
    widgets::tell_name(ui, response.id, name);
    if response.clicked() {
        queue.command(line.command);
        ui.close();
    }
    response
}
