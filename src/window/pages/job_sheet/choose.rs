//! What is printed.

use crate::sheet::{Kind, Paper, WorkshopTexts};
use crate::window::request::{Queue, Request};
use crate::window::typesetting::SheetChoices;
use crate::window::widgets;
use eframe::egui;
use egui::{Id, TextEdit, Ui};

/// Longest text taken.
const LONGEST: usize = 4000;

pub(super) fn show(ui: &mut Ui, choices: &mut SheetChoices, queue: &mut Queue) {
    widgets::card(ui, "What is printed", |ui| {
        ui.horizontal_wrapped(|ui| {
            for kind in Kind::ALL {
                if ui.radio(choices.kind == kind, kind.name()).clicked() {
                    choices.kind = kind;
                }
            }
        });
        ui.horizontal_wrapped(|ui| {
            ui.label("Paper");
            for paper in Paper::ALL {
                if ui.radio(choices.paper == paper, paper.name()).clicked() {
                    choices.paper = paper;
                }
            }
        });
        ui.add_space(4.0);
        for part in choices.kind.parts() {
            let on = choices.parts.contains(part);
            match widgets::plain_tick(ui, part.name(), on) {
                Some(true) => {
                    choices.parts.insert(*part);
                }
                Some(false) => {
                    choices.parts.remove(part);
                }
                None => {}
            }
        }
        if choices.kind != Kind::Invoice {
            widgets::muted(ui, "Safety ventilation and cautions are always printed.");
        }
    });
    ui.add_space(4.0);
    widgets::card(ui, "Workshop", |ui| {
        for text in WorkshopTexts::ALL {
            let value = (text.of)(&mut choices.workshop);
            field(ui, (text.label, text.help), value, text.rows);
        }
        let help = "The picture at the head of every sheet.";
        field(ui, ("Path of the logo", help), &mut choices.logo, 1);
        if ui.button("Choose the logo…").clicked() {
            queue.push(Request::ChooseLogo);
        }
        widgets::muted(
            ui,
            "A JPEG, PNG or WebP file, which may be dropped here too. All of this is kept on this machine \
             for the next sheet.",
        );
    });
}

/// A field that takes effect when it is left, so that the pages are not set at each letter.
fn field(ui: &mut Ui, (label, help): (&str, &str), value: &mut String, rows: usize) {
    let id = Id::unique(("job sheet", label));
    let draft = ui.data(|data| data.get_temp::<String>(id));
    let mut text = draft.unwrap_or_else(|| value.clone());
    let name = widgets::label(ui, label, ui.available_width());
    let edit = if rows > 1 {
        TextEdit::multiline(&mut text).desired_rows(rows)
    } else {
        TextEdit::singleline(&mut text)
    };
    let response = ui
        .add(edit.id(id).desired_width(f32::INFINITY).char_limit(LONGEST))
        .labelled_by(name.id)
        .on_hover_text(help);
    if response.has_focus() {
        ui.data_mut(|data| data.insert_temp(id, text));
    } else if response.lost_focus() {
        let abort = ui.input(|input| input.key_pressed(egui::Key::Escape));
        ui.data_mut(|data| data.remove_temp::<String>(id));
        if !abort {
            *value = text;
        }
    }
}
