//! The page shown while no survey is open.

use super::body::{Frame, paint};
use super::commands::Command;
use super::data_folder::offer::Offer;
use super::data_folder::recent::Recent;
use super::data_folder::words::{ago, count, difference};
use super::dialogs::kind_buttons;
use super::request::{Queue, Request};
use super::samples::Sample;
use super::theme::{bold, figure_style, palette};
use super::{units, widgets};
use crate::figure::outline::{self, Sizes};
use crate::figure::scene::Scene;
use crate::survey::Severity;
use crate::survey::date::DateWay;
use eframe::egui;
use egui::{Id, RichText, Sense, Ui, vec2};
use std::path::Path;
use std::time::SystemTime;

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
    pub samples: &'static [Sample],
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
                    widgets::muted(ui, "Each opens as a copy.");
                    for (at, sample) in offered.samples.iter().enumerate() {
                        ui.push_id(at, |ui| self::sample(ui, *sample, queue));
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
    let away = ui.button("Move aside…");
    widgets::tell_name(ui, away.id, &format!("Move aside: {name}"));
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
    widgets::muted(ui, "Recent surveys");
    for (at, file) in recent.iter().enumerate() {
        ui.push_id(at, |ui| match file.there {
            true => recent_file(ui, file, queue),
            false => gone(ui, file, queue),
        });
    }
}

fn recent_file(ui: &mut Ui, file: &Recent, queue: &mut Queue) {
    let path = file.path.display().to_string();
    let title = file.head.as_ref().map(|head| head.header.title.trim());
    let title = title.filter(|title| !title.is_empty());
    let title = title.map_or_else(|| words(&file.path), short);
    let scene = file.head.as_ref().map(|head| {
        let sizes = Sizes::of(&head.vehicle);
        outline::small_of(&sizes, DRAWING_MM)
    });
    drawn(ui, scene.as_ref(), |ui| {
        let link = widgets::link(ui, title).on_hover_text(&path);
        widgets::tell_name(ui, link.id, &format!("Open {path}"));
        if link.clicked() {
            queue.push(Request::OpenFile(file.path.clone()));
        }
        let dates = units::shown(ui.ctx()).dates();
        widgets::muted(ui, about(file, dates));
    });
}

/// Date, kind of vehicle and folder.
fn about(file: &Recent, dates: DateWay) -> String {
    let folder = file.path.parent().and_then(Path::file_name);
    let folder = folder.map(|folder| format!("in {}", short(&folder.to_string_lossy())));
    let head = match &file.head {
        Some(head) => {
            let date = head.header.date.trim();
            let date = (!date.is_empty()).then(|| short(&dates.written(date)));
            let kind = Some(head.vehicle.kind.name().to_owned());
            vec![date, kind]
        }
        None => vec![Some("no survey, as far as its beginning shows".to_owned())],
    };
    let parts = head.into_iter().chain([folder]).flatten();
    parts.collect::<Vec<_>>().join(", ")
}

/// A text of a file nobody has opened yet: a line of at most so many letters.
fn short(text: &str) -> String {
    const MOST: usize = 60;
    let line = text.lines().next().unwrap_or_default();
    match line.char_indices().nth(MOST) {
        Some((cut, _)) => format!("{}…", line.get(..cut).unwrap_or_default()),
        None => line.to_owned(),
    }
}

fn gone(ui: &mut Ui, file: &Recent, queue: &mut Queue) {
    let path = file.path.display().to_string();
    drawn(ui, None, |ui| {
        widgets::muted(ui, format!("{} no longer exists", words(&file.path))).on_hover_text(&path);
        let off = widgets::link(ui, "remove from the list");
        widgets::tell_name(ui, off.id, &format!("remove from the list: {path}"));
        if off.clicked() {
            queue.push(Request::ForgetRecent(file.path.clone()));
        }
    });
}

fn sample(ui: &mut Ui, sample: Sample, queue: &mut Queue) {
    let scene = outline::small(sample.kind, DRAWING_MM);
    drawn(ui, Some(&scene), |ui| {
        if widgets::link(ui, sample.title).clicked() {
            queue.push(Request::OpenSample(sample));
        }
        widgets::muted(ui, sample.kind.name());
    });
}

/// Size of the small drawing of a vehicle: in millimetres as it is drawn, and in points.
const DRAWING_MM: (f64, f64) = (24.0, 12.0);
const DRAWING: egui::Vec2 = vec2(60.0, 30.0);

/// Words beside the small drawing of a vehicle, or beside its room where it is not known.
fn drawn(ui: &mut Ui, scene: Option<&Scene>, content: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(DRAWING, Sense::hover());
        if let Some(scene) = scene {
            let frame = Frame::fit(scene, rect);
            paint(ui.painter(), scene, &frame, palette(ui));
        }
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            content(ui);
        });
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::{print, read_head};
    use crate::survey::{Survey, VehicleKind};
    use std::path::PathBuf;

    #[test]
    fn a_recent_survey_is_told_by_date_kind_and_folder_in_one_short_line() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a_one-van.ron");
        assert_eq!(words(&path), "a one van");
        let mut survey = Survey::new(VehicleKind::PanelVan);
        survey.header.date = "2026-11-03".to_owned();
        std::fs::write(&path, print(&survey)).unwrap();
        let told = |path: PathBuf| {
            let head = read_head(&path);
            let file = Recent {
                path,
                there: true,
                head,
            };
            about(&file, DateWay::default())
        };
        let inside = folder.path().file_name().unwrap().to_string_lossy();
        let expected = format!("2026-11-03, panel-van camper, in {inside}");
        assert_eq!(told(path), expected);
        let other = folder.path().join("letter.ron");
        std::fs::write(&other, "a letter").unwrap();
        assert!(told(other).starts_with("no survey"));
        assert_eq!(short(&"é".repeat(100)).chars().count(), 61);
        assert_eq!(short("one\ntwo"), "one");
    }
}
