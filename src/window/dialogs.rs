//! Draws the question being asked, in a modal that Esc puts away.

use super::keys;
use super::notices::Notices;
use super::questions::{Answered, Asked, Dialog, PathFor, Then};
use super::request::{Queue, Request};
use super::theme::palette;
use super::widgets::{self, finding_list};
use crate::assess::quantity::Kind;
use crate::survey::{Finding, VehicleKind, starting_sizes};
use eframe::egui;
use egui::{Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// What a question may tell of.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// Name of the survey.
    pub name: &'a str,
    /// Everything that was noticed.
    pub findings: &'a [Finding],
    /// What was told.
    pub told: &'a Notices,
}

/// Draws the question and queues the answer.
pub fn show(ctx: &egui::Context, asked: &mut Asked, known: &Known<'_>, queue: &mut Queue) {
    let Known {
        name,
        findings,
        told,
    } = *known;
    let fresh = std::mem::take(&mut asked.fresh);
    let frame = egui::Frame::window(&ctx.global_style()).inner_margin(18);
    let modal = Modal::new(Id::unique("dialog"))
        .frame(frame)
        .show(ctx, |ui| {
            let wide = (ui.ctx().content_rect().width() - 60.0).min(560.0);
            ui.set_width(wide);
            match &mut asked.dialog {
                Dialog::Unsaved(then) => unsaved(ui, name, then, fresh, queue),
                Dialog::NewSurvey => new_survey(ui, fresh, queue),
                Dialog::Path {
                    purpose,
                    text,
                    note,
                } => path(ui, purpose, text, note, fresh, queue),
                Dialog::Overwrite { sentence, .. } => overwrite(ui, sentence, fresh, queue),
                Dialog::Replace { path, .. } => {
                    let sentence = format!("There is a file {} already.", path.display());
                    overwrite(ui, &sentence, fresh, queue);
                }
                Dialog::Shared { path, .. } => shared(ui, path, fresh, queue),
                Dialog::Rescued { sentence, .. } => rescued(ui, sentence, fresh, queue),
                Dialog::PutAway { sentence, .. } => put_away(ui, sentence, fresh, queue),
                Dialog::GivenUp { sentence, .. } => given_up(ui, sentence, fresh, queue),
                Dialog::Findings => all_findings(ui, findings, fresh, queue),
                Dialog::Messages => messages(ui, told, fresh, queue),
                Dialog::Keys => keys(ui, fresh, queue),
            }
        });
    if modal.should_close() {
        queue.push(Request::Answer(Answered::Cancel));
    }
}

/// A row of buttons; the first takes the focus when the question is fresh.
fn buttons(ui: &mut Ui, fresh: bool, queue: &mut Queue, answers: &[(&str, Answered)]) {
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        for (at, (words, answer)) in answers.iter().enumerate() {
            let response = ui.button(*words);
            if at == 0 && fresh {
                response.request_focus();
            }
            if response.clicked() {
                queue.push(Request::Answer(answer.clone()));
            }
        }
    });
}

fn unsaved(ui: &mut Ui, name: &str, then: &Then, fresh: bool, queue: &mut Queue) {
    ui.heading("Save the changes?");
    let what = match then {
        Then::Close => "leaving Gapledger",
        Then::New | Then::NewSurvey(_) => "starting a new survey",
        Then::Open | Then::OpenFile(_) => "opening another survey",
        Then::OpenRescued(_) => "opening what was rescued",
        Then::StartPage => "going to the start page",
    };
    ui.label(format!(
        "\u{201c}{name}\u{201d} has changes that are not saved. Save them before {what}?"
    ));
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Save", Answered::SaveFirst),
            ("Discard changes", Answered::Discard),
            ("Cancel", Answered::Cancel),
        ],
    );
}

fn new_survey(ui: &mut Ui, fresh: bool, queue: &mut Queue) {
    ui.heading("New survey");
    ui.label("What sort of vehicle is it? It can be changed later.");
    ui.add_space(4.0);
    kind_buttons(ui, fresh, queue);
    buttons(ui, false, queue, &[("Cancel", Answered::Cancel)]);
}

/// The sizes that a new survey of such a vehicle starts with.
fn starting_words(kind: VehicleKind) -> String {
    match starting_sizes(kind) {
        Some(sizes) => format!(
            "Starts with the usual sizes, to be measured: {} m long, {} m wide, {} m high",
            Kind::Metres.number(sizes.length_m),
            Kind::Metres.number(sizes.width_m),
            Kind::Metres.number(sizes.height_m),
        ),
        None => "Starts without sizes".to_owned(),
    }
}

/// One button for each kind of vehicle.
pub fn kind_buttons(ui: &mut Ui, focus_first: bool, queue: &mut Queue) {
    ui.horizontal_wrapped(|ui| {
        for (at, kind) in VehicleKind::ALL.into_iter().enumerate() {
            let response = ui.button(kind.name()).on_hover_text(starting_words(kind));
            if at == 0 && focus_first {
                response.request_focus();
            }
            if response.clicked() {
                queue.push(Request::NewSurvey(kind));
            }
        }
    });
}

fn path(
    ui: &mut Ui,
    purpose: &PathFor,
    text: &mut String,
    note: &str,
    fresh: bool,
    queue: &mut Queue,
) {
    let (heading, verb) = match purpose {
        PathFor::Open => ("Open a survey".to_owned(), "Open"),
        PathFor::Save(_) => ("Save the survey as".to_owned(), "Save"),
        PathFor::Photo(_) => ("Add a photo".to_owned(), "Add"),
        PathFor::Write(file) => (format!("Write the {} to", file.name()), "Write"),
    };
    let hint = match (purpose, purpose.file()) {
        (PathFor::Photo(_), _) => "/folder/photo.jpg".to_owned(),
        (_, Some(file)) => format!("/folder/name.{}", file.ending()),
        _ => "/folder/name.ron".to_owned(),
    };
    ui.heading(heading);
    let label = widgets::label(ui, "Path of the file", 200.0);
    let response = ui
        .add(
            TextEdit::singleline(text)
                .id(Id::unique("path of the file"))
                .desired_width(f32::INFINITY)
                .return_key(None)
                .hint_text(hint),
        )
        .labelled_by(label.id);
    if fresh {
        response.request_focus();
    }
    if !note.is_empty() {
        ui.label(RichText::new(note).color(palette(ui).muted));
    }
    let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let mut take = entered;
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        take |= ui.button(verb).clicked();
        if ui.button("Browse…").clicked() {
            queue.push(Request::Answer(Answered::Browse));
        }
        if ui.button("Cancel").clicked() {
            queue.push(Request::Answer(Answered::Cancel));
        }
    });
    if take && !text.trim().is_empty() {
        queue.push(Request::Answer(Answered::Path(PathBuf::from(text.trim()))));
    }
}

fn overwrite(ui: &mut Ui, sentence: &str, fresh: bool, queue: &mut Queue) {
    ui.heading("Overwrite the file?");
    ui.label(sentence);
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Save under another name", Answered::OtherName),
            ("Overwrite", Answered::Overwrite),
            ("Cancel", Answered::Cancel),
        ],
    );
}

fn shared(ui: &mut Ui, path: &Path, fresh: bool, queue: &mut Queue) {
    ui.heading("Save over the other window's work?");
    ui.label(format!(
        "{} is open in another Gapledger too. If you save here, the other will be asked whether \
         to overwrite your changes, and the work of one of you may be lost.",
        path.display()
    ));
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Save under another name", Answered::OtherName),
            ("Save anyway", Answered::SaveAnyway),
            ("Cancel", Answered::Cancel),
        ],
    );
}

fn rescued(ui: &mut Ui, sentence: &str, fresh: bool, queue: &mut Queue) {
    ui.heading("Open the rescued changes?");
    ui.label(sentence);
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Open what was rescued", Answered::OpenRescued),
            ("Use the saved file", Answered::Cancel),
        ],
    );
    widgets::muted(ui, "What was rescued stays on the start page.");
}

fn put_away(ui: &mut Ui, sentence: &str, fresh: bool, queue: &mut Queue) {
    ui.heading("Put it away?");
    ui.label(sentence);
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Keep it on the start page", Answered::Cancel),
            ("Put away", Answered::PutAway),
        ],
    );
}

fn given_up(ui: &mut Ui, sentence: &str, fresh: bool, queue: &mut Queue) {
    ui.heading("Does it really protect nobody?");
    ui.label(sentence);
    buttons(
        ui,
        fresh,
        queue,
        &[
            ("Leave it as it is", Answered::Cancel),
            ("It was entered wrongly: change it", Answered::GiveUp),
        ],
    );
}

fn all_findings(ui: &mut Ui, findings: &[Finding], fresh: bool, queue: &mut Queue) {
    ui.heading(format!("Findings ({})", findings.len()));
    if findings.is_empty() {
        ui.label("No findings in this survey.");
    }
    let tall = ui.ctx().content_rect().height() - 180.0;
    ScrollArea::vertical()
        .max_height(tall.max(80.0))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            finding_list(ui, queue, findings.iter(), true);
        });
    buttons(ui, fresh, queue, &[("Close", Answered::Cancel)]);
}

fn messages(ui: &mut Ui, told: &Notices, fresh: bool, queue: &mut Queue) {
    ui.heading("Messages");
    let tall = ui.ctx().content_rect().height() - 180.0;
    ScrollArea::vertical()
        .max_height(tall.max(80.0))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            told.show_all(ui);
        });
    buttons(ui, fresh, queue, &[("Close", Answered::Cancel)]);
}

fn keys(ui: &mut Ui, fresh: bool, queue: &mut Queue) {
    ui.heading("Keys");
    keys::show(ui);
    buttons(ui, fresh, queue, &[("Close", Answered::Cancel)]);
}
