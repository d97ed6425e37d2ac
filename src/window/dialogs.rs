//! Draws the question being asked, in a modal that Esc puts away.

use super::body::{Frame, paint};
use super::keys;
use super::loggers;
use super::notices::Notices;
use super::questions::{Answered, Asked, Dialog, PathFor, Then};
use super::request::{Queue, Request};
use super::theme::palette;
use super::widgets::{self, finding_list};
use crate::assess::quantity::Kind;
use crate::figure::outline::small;
use crate::survey::{Finding, VehicleKind, starting_sizes};
use crate::window::units;
use eframe::egui;
use egui::text::{CCursor, LayoutJob, TextFormat};
use egui::text_selection::CCursorRange;
use egui::{Align, Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui, Vec2, vec2};
use std::path::{Path, PathBuf};

/// Width of a question, and of one with a table in it.
const USUAL: f32 = 560.0;
const WIDE: f32 = 860.0;

/// What a question may tell of.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// Name of the survey.
    pub name: &'a str,
    /// Everything that was noticed.
    pub findings: &'a [Finding],
    /// What was told.
    pub told: &'a Notices,
    /// Whether the system has file dialogs.
    pub file_dialog: bool,
}

/// Draws the question and queues the answer.
pub fn show(ctx: &egui::Context, asked: &mut Asked, known: &Known<'_>, queue: &mut Queue) {
    let Known {
        name,
        findings,
        told,
        file_dialog,
    } = *known;
    let fresh = std::mem::take(&mut asked.fresh);
    let frame = egui::Frame::window(&ctx.global_style()).inner_margin(18);
    let modal = Modal::new(Id::unique("dialog"))
        .frame(frame)
        .show(ctx, |ui| {
            let most = match asked.dialog {
                Dialog::Logger(_) => WIDE,
                _ => USUAL,
            };
            let wide = (ui.ctx().content_rect().width() - 60.0).min(most);
            ui.set_width(wide);
            match &mut asked.dialog {
                Dialog::NewSurvey => new_survey(ui, fresh, queue),
                Dialog::Path {
                    purpose,
                    text,
                    note,
                } => path(ui, purpose, text, (note, file_dialog), fresh, queue),
                Dialog::Logger(chosen) => loggers::show(ui, chosen, fresh, queue),
                Dialog::Findings => {
                    let heading = format!("Findings ({})", findings.len());
                    listed(ui, &heading, fresh, queue, |ui, queue| {
                        if findings.is_empty() {
                            ui.label("No findings in this survey.");
                        }
                        finding_list(ui, queue, findings.iter(), true);
                    });
                }
                Dialog::Messages => {
                    listed(ui, "Messages", fresh, queue, |ui, _| told.show_all(ui));
                }
                Dialog::Keys => listed(ui, "Keys", fresh, queue, |ui, _| keys::show(ui)),
                Dialog::Unsaved(then) => ask(ui, unsaved(name, then), fresh, queue),
                Dialog::Overwrite { sentence, .. } => {
                    ask(ui, overwrite(sentence.clone()), fresh, queue);
                }
                Dialog::Replace { path, .. } => {
                    let sentence = format!("There is a file {} already.", path.display());
                    ask(ui, overwrite(sentence), fresh, queue);
                }
                Dialog::Shared { path, .. } => ask(ui, shared(path), fresh, queue),
                Dialog::Rescued { sentence, .. } => {
                    ask(ui, rescued(sentence), fresh, queue);
                    widgets::muted(ui, "What was rescued stays on the start page.");
                }
                Dialog::PutAway { sentence, .. } => ask(ui, put_away(sentence), fresh, queue),
                Dialog::GivenUp { sentence, .. } => {
                    ask(ui, given_up(sentence.clone()), fresh, queue);
                }
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

/// A question that is answered by a button: heading, sentence, answers.
type Question = (&'static str, String, Vec<(&'static str, Answered)>);

fn ask(ui: &mut Ui, (heading, sentence, answers): Question, fresh: bool, queue: &mut Queue) {
    ui.heading(heading);
    ui.label(sentence);
    buttons(ui, fresh, queue, &answers);
}

const CANCEL: (&str, Answered) = ("Cancel", Answered::Cancel);
const OTHER_NAME: (&str, Answered) = ("Save under another name", Answered::OtherName);

fn unsaved(name: &str, then: &Then) -> Question {
    let what = match then {
        Then::Close => "leaving Gapledger",
        Then::New | Then::NewSurvey(_) => "starting a new survey",
        Then::Open | Then::OpenFile(_) => "opening another survey",
        Then::OpenRescued(_) => "opening what was rescued",
        Then::StartPage => "going to the start page",
    };
    let sentence =
        format!("\u{201c}{name}\u{201d} has changes that are not saved. Save them before {what}?");
    let save = ("Save", Answered::SaveFirst);
    let discard = ("Discard changes", Answered::Discard);
    ("Save the changes?", sentence, vec![save, discard, CANCEL])
}

fn overwrite(sentence: String) -> Question {
    let over = ("Overwrite", Answered::Overwrite);
    let answers = vec![OTHER_NAME, over, CANCEL];
    ("Overwrite the file?", sentence, answers)
}

fn shared(path: &Path) -> Question {
    let sentence = format!(
        "{} is open in another Gapledger too. If you save here, the other will be asked whether \
         to overwrite your changes, and the work of one of you may be lost.",
        path.display()
    );
    let anyway = ("Save anyway", Answered::SaveAnyway);
    let answers = vec![OTHER_NAME, anyway, CANCEL];
    ("Save over the other window's work?", sentence, answers)
}

fn rescued(sentence: &str) -> Question {
    let open = ("Open what was rescued", Answered::OpenRescued);
    let answers = vec![open, ("Use the saved file", Answered::Cancel)];
    ("Open the rescued changes?", sentence.to_owned(), answers)
}

fn given_up(sentence: String) -> Question {
    let leave = ("Leave it as it is", Answered::Cancel);
    let change = ("It was entered wrongly: change it", Answered::GiveUp);
    (
        "Does it really protect nobody?",
        sentence,
        vec![leave, change],
    )
}

fn put_away(sentence: &str) -> Question {
    let keep = ("Keep it on the start page", Answered::Cancel);
    let answers = vec![keep, ("Move aside", Answered::PutAway)];
    ("Move it aside?", sentence.to_owned(), answers)
}

/// A list to read, which scrolls.
fn listed(
    ui: &mut Ui,
    heading: &str,
    fresh: bool,
    queue: &mut Queue,
    list: impl FnOnce(&mut Ui, &mut Queue),
) {
    ui.heading(heading);
    let tall = ui.ctx().content_rect().height() - 180.0;
    let tall = tall.max(80.0);
    // As tall at once as it will be: it would grow by a piece with each frame that something else asks for.
    ScrollArea::vertical()
        .max_height(tall)
        .min_scrolled_height(tall)
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            list(ui, queue);
        });
    buttons(ui, fresh, queue, &[("Close", Answered::Cancel)]);
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

/// Size of the outline on a button: in millimetres as it is drawn, and in points.
const OUTLINE_MM: (f64, f64) = (20.0, 10.0);
const OUTLINE: Vec2 = vec2(48.0, 24.0);

/// A button with the outline of a kind of vehicle beside its word.
fn pictured(ui: &mut Ui, kind: VehicleKind) -> egui::Response {
    const BETWEEN: f32 = 6.0;
    let format = TextFormat {
        font_id: egui::TextStyle::Button.resolve(ui.style()),
        color: egui::Color32::PLACEHOLDER,
        valign: Align::Center,
        ..TextFormat::default()
    };
    let mut words = LayoutJob::default();
    words.append(kind.name(), OUTLINE.x + BETWEEN, format);
    let least = vec2(0.0, OUTLINE.y + 2.0 * ui.spacing().button_padding.y);
    let button = egui::Button::new(words).min_size(least);
    let response = ui.add(button.wrap_mode(egui::TextWrapMode::Extend));
    let left = response.rect.left_center() + vec2(ui.spacing().button_padding.x, 0.0);
    let place = egui::Rect::from_min_size(left - vec2(0.0, OUTLINE.y / 2.0), OUTLINE);
    let scene = small(kind, OUTLINE_MM);
    paint(
        ui.painter(),
        &scene,
        &Frame::fit(&scene, place),
        palette(ui),
    );
    response
}

/// One button for each kind of vehicle.
pub fn kind_buttons(ui: &mut Ui, focus_first: bool, queue: &mut Queue) {
    ui.horizontal_wrapped(|ui| {
        for (at, kind) in VehicleKind::ALL.into_iter().enumerate() {
            let words = units::text(ui.ctx(), &starting_words(kind));
            let response = pictured(ui, kind).on_hover_text(words);
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
    (note, file_dialog): (&str, bool),
    fresh: bool,
    queue: &mut Queue,
) {
    let (heading, verb) = match purpose {
        PathFor::Open => ("Open a survey".to_owned(), "Open"),
        PathFor::Save(_) => ("Save the survey as".to_owned(), "Save"),
        PathFor::Photo(_) => ("Add a photo".to_owned(), "Add"),
        PathFor::Logo => ("Choose the workshop\u{2019}s logo".to_owned(), "Choose"),
        PathFor::Weather => ("Choose a weather file".to_owned(), "Choose"),
        PathFor::Logger(_) => ("Choose a logger\u{2019}s file".to_owned(), "Choose"),
        PathFor::Write(file) => (format!("Write the {} to", file.name()), "Write"),
    };
    let hint = match (purpose, purpose.file()) {
        (PathFor::Photo(_), _) => "/folder/photo.jpg".to_owned(),
        (PathFor::Logo, _) => "/folder/logo.png".to_owned(),
        (PathFor::Weather, _) => "/folder/weather.epw".to_owned(),
        (PathFor::Logger(_), _) => "/folder/readings.csv".to_owned(),
        (_, Some(file)) => format!("/folder/name.{}", file.ending()),
        _ => "/folder/name.ron".to_owned(),
    };
    ui.heading(heading);
    let label = widgets::label(ui, "Path of the file", 200.0);
    let mut output = TextEdit::singleline(text)
        .id(Id::unique("path of the file"))
        .desired_width(f32::INFINITY)
        .return_key(None)
        .hint_text(hint)
        .show(ui);
    let response = output.response.response.clone().labelled_by(label.id);
    if fresh {
        response.request_focus();
        // What is typed replaces the path offered.
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), response.id);
    }
    if !note.is_empty() {
        ui.label(RichText::new(note).color(palette(ui).muted));
    }
    let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let mut take = entered;
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        take |= ui.button(verb).clicked();
        if file_dialog && ui.button("Browse…").clicked() {
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
