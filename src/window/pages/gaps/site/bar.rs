//! The bar of site mode: the way out, undo and save, how far the walk has come, and the results in
//! a line.

use super::super::view::GapsContext;
use crate::report::key_results::key_results;
use crate::window::commands::Command;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Layout, RichText, Ui};

/// The commands in it, with what stands on the button.
const BUTTONS: [(Command, &str); 3] = [
    (Command::SiteMode, "Leave site mode"),
    (Command::Undo, "Undo"),
    (Command::Save, "Save"),
];

/// Draws the bar.
pub fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    ui.horizontal(|ui| {
        for (command, words) in BUTTONS {
            let Some(line) = command.line() else { continue };
            let keys = line.shortcuts.first();
            let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(keys));
            let button = ui.button(words);
            if button
                .on_hover_text(format!("{} ({keys})", line.tooltip))
                .clicked()
            {
                context.queue.command(command);
            }
        }
        let progress = context.survey.progress();
        let words = format!("{} of {} places", progress.looked(), progress.places);
        ui.label(RichText::new(words).family(bold()));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            results(ui, context);
        });
    });
}

/// The leakage area and the air changes, as far as there is room.
fn results(ui: &mut Ui, context: &GapsContext<'_>) {
    let Some(told) = context.told() else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    let [leakage, _, windy, ..] = key_results(&told);
    let words: Vec<String> = [windy, leakage]
        .into_iter()
        .filter_map(|result| Some(format!("{} {}", result.title, result.figure.ok()?)))
        .collect();
    for words in words {
        let words = units::text(ui.ctx(), &words);
        let text = RichText::new(words).color(palette(ui).text);
        ui.add(egui::Label::new(text).truncate());
        ui.add_space(8.0);
    }
}
