//! The walk round: stations in walking order, their usual places, and what came of each.

mod list;
mod mark;
pub(in crate::window) mod view;

pub(super) use list::show as list;
pub(super) use mark::paint as paint_mark;

use super::super::not_found;
use super::view::GapsContext;
use crate::report::walk::progress_sentence;
use crate::window::commands::Command;
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

/// What may be said of a place, in the order offered.
const OUTCOMES: [Command; 4] = [
    Command::Found,
    Command::LookedNothing,
    Command::NotReached,
    Command::NotLookedAt,
];

/// Height that the list keeps.
const LIST_LEAST: f32 = 110.0;

/// Draws the walk round within a height.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, height: f32) {
    let top = ui.cursor().top();
    widgets::muted(ui, progress_sentence(&context.survey.progress()));
    place(ui, context);
    how_to_look(ui, context);
    let height = (height - (ui.cursor().top() - top)).max(LIST_LEAST);
    let size = egui::vec2(ui.available_width(), height);
    ui.allocate_ui(size, |ui| {
        ui.set_min_height(height);
        ui.set_max_height(height);
        list(ui, context, None);
    });
    not_found::offer(ui, context.survey, context.queue);
}

/// The place that is looked at, what may be said of it, and what to beware of there: none of it in
/// what scrolls.
pub(super) fn place(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let Some((station, place)) = context.view.walk.place_in(context.survey) else {
        return;
    };
    ui.scope(|ui| {
        if widgets::is_touch(ui) {
            // Words alone need no room for a finger.
            ui.spacing_mut().interact_size.y = ui.text_style_height(&egui::TextStyle::Body);
        }
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(place.name).family(bold()));
            ui.label(RichText::new(station.words()).color(palette(ui).muted));
        });
    });
    ui.horizontal_wrapped(|ui| {
        for command in OUTCOMES {
            outcome_button(ui, context, command);
        }
    });
    if let Some(caution) = station.caution {
        let words = RichText::new(format!("⚠ {caution}")).color(palette(ui).warning);
        ui.add(egui::Label::new(words).wrap());
    }
}

/// How to look at that place.
pub(super) fn how_to_look(ui: &mut Ui, context: &GapsContext<'_>) {
    if let Some((_, place)) = context.view.walk.place_in(context.survey) {
        widgets::muted(ui, place.how_to_look());
    }
}

fn outcome_button(ui: &mut Ui, context: &mut GapsContext<'_>, command: Command) {
    let Some(line) = command.line() else { return };
    let keys = line.shortcuts.first();
    let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(keys));
    let response = ui
        .button(line.name)
        .on_hover_text(format!("{} ({keys})", line.tooltip));
    if response.clicked() {
        context.queue.command(command);
    }
}
