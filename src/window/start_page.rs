//! The page shown while no survey is open.

use super::commands::Command;
use super::dialogs::kind_buttons;
use super::page::{Queue, Request};
use super::theme::{figure_style, palette};
use super::widgets;
use eframe::egui;
use egui::{RichText, Ui};
use std::path::{Path, PathBuf};

/// The surveys in a folder of samples, by name; none where there is no such folder.
#[must_use]
pub fn samples(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut samples: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .collect();
    samples.sort();
    samples
}

/// A file's name as words: `farmyard-caravan.ron` is *farmyard caravan*.
fn words(path: &Path) -> String {
    path.file_stem().map_or_else(String::new, |stem| {
        stem.to_string_lossy().replace(['-', '_'], " ")
    })
}

/// Draws the page.
pub fn show(ui: &mut Ui, samples: &[PathBuf], queue: &mut Queue) {
    ui.vertical_centered(|ui| {
        let wide = ui.available_width().min(620.0);
        ui.set_max_width(wide);
        ui.add_space(ui.available_height().min(600.0) * 0.08);
        ui.label(
            RichText::new("Gapledger")
                .text_style(figure_style())
                .size(30.0)
                .color(palette(ui).accent),
        );
        ui.label("Write down every gap; see what the air through them costs.");
        ui.add_space(14.0);
        ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
            widgets::card(ui, "New survey", |ui| {
                widgets::muted(ui, "What sort of vehicle is it?");
                kind_buttons(ui, false, queue);
            });
            ui.add_space(8.0);
            widgets::card(ui, "Open a survey", |ui| {
                if ui.button("Open…").clicked() {
                    queue.command(Command::Open);
                }
            });
            ui.add_space(8.0);
            if !samples.is_empty() {
                widgets::card(ui, "Samples, all invented", |ui| {
                    for path in samples {
                        if widgets::link(ui, words(path)).clicked() {
                            queue.push(Request::OpenFile(path.clone()));
                        }
                    }
                });
            }
        });
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_surveys_are_offered_by_name() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["b-two.ron", "a_one.ron", "notes.txt"] {
            std::fs::write(folder.path().join(name), "").unwrap();
        }
        let found: Vec<String> = samples(folder.path())
            .iter()
            .map(|path| words(path))
            .collect();
        assert_eq!(found, ["a one", "b two"]);
        assert!(samples(&folder.path().join("absent")).is_empty());
    }
}
