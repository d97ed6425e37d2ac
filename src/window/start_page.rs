//! The page shown while no survey is open.

use super::commands::Command;
use super::data_folder::offer::Offer;
use super::data_folder::recent::Recent;
use super::data_folder::words::{ago, count, difference};
use super::dialogs::kind_buttons;
use super::request::{Queue, Request};
use super::theme::{bold, figure_style, palette};
use super::widgets;
use crate::survey::Severity;
use eframe::egui;
use egui::{Id, RichText, Ui};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

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

/// What the page has to offer.
#[derive(Clone, Copy, Debug)]
pub struct Offered<'a> {
    /// What earlier runs left behind.
    pub rescued: &'a [Offer],
    /// The files that were open last.
    pub recent: &'a [Recent],
    /// Samples.
    pub samples: &'a [PathBuf],
}

/// Widest the page becomes.
const WIDEST: f32 = 880.0;

/// Draws the page.
pub fn show(ui: &mut Ui, offered: &Offered<'_>, queue: &mut Queue) {
    ui.vertical_centered(|ui| {
        ui.set_max_width(ui.available_width().min(WIDEST));
        ui.add_space(ui.available_height().min(600.0) * 0.05);
        ui.label(
            RichText::new("Gapledger")
                .text_style(figure_style())
                .size(30.0)
                .color(palette(ui).accent),
        );
        ui.label("Write down every gap; see what the air through them costs.");
        ui.add_space(12.0);
        ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
            if !offered.rescued.is_empty() {
                widgets::card(ui, "Rescued work", |ui| {
                    let words =
                        "Gapledger ended before this was saved. At most its last three seconds are lost.";
                    widgets::muted(ui, words);
                    for offer in offered.rescued {
                        ui.push_id(&offer.path, |ui| rescued(ui, offer, queue));
                    }
                });
                ui.add_space(8.0);
            }
            let cards = if offered.samples.is_empty() { 2 } else { 3 };
            widgets::columns(ui, 360.0, cards, |ui, card| match card {
                0 => widgets::card(ui, "New survey", |ui| {
                    widgets::muted(ui, "What sort of vehicle is it?");
                    kind_buttons(ui, false, queue);
                }),
                1 => widgets::card(ui, "Open a survey", |ui| {
                    if ui.button("Open…").clicked() {
                        queue.command(Command::Open);
                    }
                    recent_files(ui, offered.recent, queue);
                }),
                _ => widgets::card(ui, "Samples, all invented", |ui| {
                    for path in offered.samples {
                        if widgets::link(ui, words(path)).clicked() {
                            queue.push(Request::OpenFile(path.clone()));
                        }
                    }
                }),
            });
        });
    });
}

/// One piece of rescued work: what it is, and what can be done with it.
fn rescued(ui: &mut Ui, offer: &Offer, queue: &mut Queue) {
    ui.add_space(4.0);
    let rescued = match &offer.content {
        Ok(rescued) => rescued,
        Err(why) => {
            ui.horizontal_wrapped(|ui| {
                widgets::severity_sign(ui, Severity::Warning);
                ui.label(format!(
                    "{} cannot be read: {why}. It has been left as it is.",
                    offer.path.display()
                ));
            });
            let name = offer.path.display().to_string();
            put_away(ui, offer, &name, queue);
            return;
        }
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(&rescued.name).family(bold()));
        ui.label(format!(
            "{}, changed {}",
            count(rescued.gaps as u64, "gap"),
            ago(rescued.when, SystemTime::now())
        ));
    });
    ui.label(difference(&rescued.difference));
    if let Some(file) = &rescued.file {
        widgets::muted(ui, file.display().to_string());
    }
    ui.horizontal_wrapped(|ui| {
        let open = ui.button("Open what was rescued");
        let name = format!("Open what was rescued: {}", rescued.name);
        widgets::tell_name(ui, open.id, &name);
        // Enter opens what was rescued last; only once, not to take the focus away later.
        let shown = ui.ctx().data_mut(|data| {
            let shown = data.get_temp_mut_or_default::<bool>(Id::unique("rescued work shown"));
            std::mem::replace(shown, true)
        });
        if !shown && ui.memory(|memory| memory.focused().is_none()) {
            open.request_focus();
        }
        if open.clicked() {
            queue.push(Request::OpenRescued(offer.path.clone()));
        }
        put_away(ui, offer, &rescued.name, queue);
    });
}

fn put_away(ui: &mut Ui, offer: &Offer, name: &str, queue: &mut Queue) {
    let away = ui.button("Put away…");
    widgets::tell_name(ui, away.id, &format!("Put away: {name}"));
    if away.clicked() {
        queue.push(Request::PutAway(offer.path.clone()));
    }
}

/// The files that were open last; one that is gone says so and can be taken off the list.
fn recent_files(ui: &mut Ui, recent: &[Recent], queue: &mut Queue) {
    if recent.is_empty() {
        return;
    }
    ui.add_space(4.0);
    widgets::muted(ui, "Recent files");
    for file in recent {
        let path = file.path.display().to_string();
        ui.horizontal_wrapped(|ui| {
            if file.there {
                let link = widgets::link(ui, words(&file.path)).on_hover_text(&path);
                widgets::tell_name(ui, link.id, &format!("Open {path}"));
                if link.clicked() {
                    queue.push(Request::OpenFile(file.path.clone()));
                }
            } else {
                widgets::muted(ui, format!("{} no longer exists", words(&file.path)))
                    .on_hover_text(&path);
                let off = widgets::link(ui, "remove from the list");
                widgets::tell_name(ui, off.id, &format!("remove from the list: {path}"));
                if off.clicked() {
                    queue.push(Request::ForgetRecent(file.path.clone()));
                }
            }
            if let Some(folder) = file.path.parent().and_then(Path::file_name) {
                widgets::muted(ui, format!("in {}", folder.to_string_lossy()));
            }
        });
    }
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
