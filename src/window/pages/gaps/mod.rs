//! The Gaps page: quick entry, the unfolded body, the ledger, the selected gap.

mod body;
mod cards;
mod cell;
mod change;
mod columns;
mod division;
mod filter;
mod form;
mod keys;
mod ledger_view;
mod listing;
mod many;
mod mark;
mod menu;
mod moving;
mod parts;
mod path;
mod photos;
mod quick;
mod rows;
mod selection;
pub mod site;
pub(super) mod sizes;
mod table;
mod view;
mod walk;
pub(super) mod work;
mod zones;

pub use columns::{Column, Columns};
pub use division::Division;
pub use view::GapsView;

pub(in crate::window) use walk::view::list_id as walk_list;

use crate::window::commands::Command;
use crate::window::widgets;
use eframe::egui;
use egui::Ui;
use view::GapsContext;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let survey = context.survey;
    context.view.select_what_was_added(survey);
    buttons(ui, context);
    parts::show(ui, context);
    let several = context.view.several();
    menu::show(ui, &mut context.view.menu, several, context.queue);
}

fn buttons(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let some = !context.survey.gaps.is_empty();
    ui.horizontal_wrapped(|ui| {
        for command in [
            Command::AddGap,
            Command::DuplicateGap,
            Command::MirrorGap,
            Command::DeleteGap,
        ] {
            let Some(line) = command.line() else { continue };
            let enabled = some || command == Command::AddGap;
            let keys = line.shortcuts.first();
            let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(keys));
            let button = ui
                .add_enabled(enabled, egui::Button::new(line.name))
                .on_hover_text(format!("{} ({keys})", line.tooltip));
            if button.clicked() {
                context.queue.command(command);
            }
        }
        division::choose(ui, &mut context.view.division);
        // Whoever works by finger has no such keys at hand.
        if !widgets::is_touch(ui) {
            widgets::muted(
                ui,
                "Arrows move, Enter edits, Insert adds, Delete deletes; with Shift several are selected.",
            );
        }
    });
}
