//! The bar at the top: menus, pages, and the set-up that results are shown for.

use super::command_entry;
use super::commands::{Command, CommandLine, MENUS};
use super::page::Page;
use super::request::Queue;
use super::theme::palette;
use super::widgets;
use crate::survey::{Edit, History, SetUp};
use eframe::egui;
use egui::containers::menu::{MenuBar, MenuButton};
use egui::{RichText, ScrollArea, Ui, vec2};

/// Room for the set-up, so that it wraps as one piece.
const SET_UP_WIDTH: f32 = 196.0;

/// Height that the bar's and the menu's own edges take beside the entries.
const ROUND_MENU: f32 = 24.0;

/// Draws the bar.
pub(super) fn show(ui: &mut Ui, history: Option<&History>, shown: Page, queue: &mut Queue) {
    ui.horizontal_wrapped(|ui| {
        let height = ui.spacing().interact_size.y;
        ui.allocate_ui(vec2(170.0, height), |ui| {
            MenuBar::new().ui(ui, |ui| menus(ui, history, queue));
        });
        let Some(history) = history else { return };
        for page in Page::ALL {
            tab(ui, page, shown == page, queue);
        }
        ui.allocate_ui(vec2(SET_UP_WIDTH, height), |ui| {
            ui.horizontal(|ui| set_up(ui, history.survey().set_up, queue));
        });
    });
}

fn menus(ui: &mut Ui, history: Option<&History>, queue: &mut Queue) {
    for (menu, lines) in MENUS {
        MenuButton::new(menu).ui(ui, |ui| {
            // In touch size on a low screen a menu is longer than the screen.
            let room = ui.ctx().content_rect().height() - ui.spacing().interact_size.y - ROUND_MENU;
            ScrollArea::vertical().max_height(room).show(ui, |ui| {
                for line in lines {
                    if line.starts_group {
                        ui.separator();
                    }
                    entry(ui, line, history, queue);
                }
                widgets::follow_focus(ui);
            });
        });
    }
}

fn entry(ui: &mut Ui, line: &CommandLine, history: Option<&History>, queue: &mut Queue) {
    let step = history.filter(|_| line.command == Command::Undo);
    let name = match step.and_then(History::last_step) {
        Some(step) => format!("{}: {step}", line.name),
        None => line.name.to_owned(),
    };
    let enabled = history.is_some() || !line.needs_survey;
    command_entry::entry(ui, line, &name, enabled, queue);
}

fn tab(ui: &mut Ui, page: Page, shown: bool, queue: &mut Queue) {
    let command = Command::Show(page);
    let response = widgets::tab(ui, page.name(), shown, palette(ui).accent);
    if let Some(line) = command.line() {
        let keys = line.shortcuts.first();
        let keys = keys.map_or_else(String::new, |keys| {
            format!(" ({})", ui.ctx().format_shortcut(keys))
        });
        response
            .clone()
            .on_hover_text(format!("{}{keys}", line.tooltip));
    }
    if response.clicked() {
        queue.command(command);
    }
}

fn set_up(ui: &mut Ui, current: SetUp, queue: &mut Queue) {
    ui.label(RichText::new("Set-up").color(palette(ui).muted))
        .on_hover_text("Which closable gaps stand open: every result is for the set-up chosen");
    for set_up in SetUp::ALL {
        let response = ui.radio(set_up == current, set_up.name());
        if response.clicked() && set_up != current {
            queue.edit(Edit::SetUp(set_up), None);
        }
    }
}
