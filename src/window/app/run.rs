//! Running what the queue holds, at the start of each frame.

use super::App;
use super::loggers::READINGS;
use super::photos::PICTURES;
use super::state::{Picking, System};
use crate::assess::shown::Units;
use crate::survey::{Edit, Field, Item, MergeKey, Place, Severity, Survey, VehicleKind};
use crate::window::commands::Command;
use crate::window::document::Document;
use crate::window::notices::{Cause, sentence_of};
use crate::window::page::Page;
use crate::window::photos::Source;
use crate::window::picker::{Pick, Picked, Way};
use crate::window::preferences::Preferences;
use crate::window::questions::{Answered, Dialog, PathFor, Then, what_is_given_up};
use crate::window::request::Request;
use crate::window::typesetting::{Output, SheetFile};
use eframe::egui;
use egui::{ThemePreference, ViewportCommand};
use std::path::{Path, PathBuf};
use std::sync::mpsc::TryRecvError;

/// Asked for the page that is shown: Tab begins at its top once more.
fn begin_again(ctx: &egui::Context) {
    if let Some(focused) = ctx.memory(|memory| memory.focused()) {
        ctx.memory_mut(|memory| memory.surrender_focus(focused));
    }
}

impl App {
    pub(super) fn run(&mut self, request: Request, system: System<'_>) {
        match request {
            Request::Edit { edit, merge } => self.edit(edit, merge),
            Request::CloseStep => self.with_document(|document| document.history.close_step()),
            Request::AbortStep => self.with_document(|document| document.history.abort_step()),
            Request::Stop(work) => self.answers.stop(work),
            Request::Again(work) => self.answers.again(work),
            Request::OpenWorking(topic) => self.view.working = Some(topic),
            Request::CloseWorking => self.view.working = None,
            Request::GoTo(place) => {
                self.asked = None;
                self.view.go_to(place);
            }
            Request::Command(command) => self.command(command, system),
            Request::NewSurvey(kind) => self.guard(Then::NewSurvey(kind), system),
            Request::OpenFile(path) => self.guard(Then::OpenFile(path), system),
            Request::OpenSample(sample) => self.open_sample(sample),
            Request::OpenRescued(path) => self.guard(Then::OpenRescued(path), system),
            Request::PutAway(path) => self.ask_to_put_away(&path),
            Request::ForgetRecent(path) => self.forget_recent(&path),
            Request::Answer(answered) => self.answer(answered, system),
            Request::TellUndoable(sentence) => self.notices.tell_undoable(sentence),
            Request::Dismiss(number) => self.notices.dismiss(number),
            Request::Show(page) => self.view.page = page,
            Request::SelectGap(gap) => self.view.gaps.select(Some(gap)),
            Request::EndGuide => self.end_guide(),
            Request::CancelSheet => self.sheets.cancel(),
            Request::SetSheetAgain => self.sheets.again(),
            Request::WriteFile(file) => self.ask_path(PathFor::Write(file), system),
            Request::ChooseLogo => self.ask_path(PathFor::Logo, system),
            Request::ChooseWeather => self.ask_path(PathFor::Weather, system),
            Request::ChooseLogger(of) => self.ask_path(PathFor::Logger(of), system),
            Request::LoggerAgain(id) => self.logger_again(id),
            Request::LookAtLogger { chosen, anew } => self.look_at_logger(chosen, anew),
            Request::StopLogger => self.loggers.stop(),
            Request::OpenWritten => self.sheets.open(),
        }
    }

    fn with_document(&mut self, act: impl FnOnce(&mut Document)) {
        if let Some(document) = &mut self.document {
            act(document);
        }
    }

    /// Makes a change, or asks first where it takes an opening from those that protect people.
    pub(super) fn edit(&mut self, edit: Edit, merge: Option<MergeKey>) {
        let Some(document) = &self.document else {
            return;
        };
        let survey = document.history.survey();
        match what_is_given_up(&survey.given_up_by(&edit)) {
            Some(sentence) => {
                let edit = Box::new(edit);
                self.asked = Some(
                    Dialog::GivenUp {
                        edit,
                        merge,
                        sentence,
                    }
                    .into(),
                );
            }
            None => self.change(edit, merge),
        }
    }

    fn change(&mut self, edit: Edit, merge: Option<MergeKey>) {
        let Some(document) = &mut self.document else {
            return;
        };
        match document.history.apply(edit, merge) {
            Ok(()) => {
                self.notices.gone_on();
                self.notices.over(Cause::Edit);
            }
            Err(refused) => {
                let sentence = sentence_of(&refused);
                self.notices
                    .tell_of(Cause::Edit, Severity::Warning, sentence);
            }
        }
    }

    fn command(&mut self, command: Command, system: System<'_>) {
        match command {
            Command::New => self.guard(Then::New, system),
            Command::Open => self.guard(Then::Open, system),
            Command::StartPage => self.guard(Then::StartPage, system),
            Command::Quit => self.guard(Then::Close, system),
            Command::Save => self.save_or_ask(None, system),
            Command::SaveAs => self.ask_path(PathFor::Save(None), system),
            Command::SaveSheet => self.save_sheet(system),
            Command::SaveGuide => {
                let choices = &self.view.job_sheet.choices;
                let file = SheetFile::Guide(choices.paper, choices.units);
                self.ask_path(PathFor::Write(file), system);
            }
            Command::SaveLedger => self.ask_path(PathFor::Write(SheetFile::Ledger), system),
            Command::SavePlan => self.ask_path(PathFor::Write(SheetFile::Plan), system),
            Command::Undo | Command::Redo => self.step_back(command == Command::Undo),
            Command::AddGap | Command::DuplicateGap | Command::MirrorGap | Command::DeleteGap => {
                self.ledger_command(command)
            }
            Command::CopyGaps => self.copy_gaps(system.ctx),
            Command::PasteGaps => self.ask_for_clipboard(system.ctx),
            Command::SelectAllGaps => self.select_all_gaps(),
            Command::MoveUp | Command::MoveDown => self.move_gaps(command == Command::MoveDown),
            Command::QuickEntry => {
                self.view.page = Page::Gaps;
                self.view.gaps.quick_entry();
            }
            Command::FindGap => {
                self.view.page = Page::Gaps;
                self.view.gaps.search();
            }
            Command::FieldHelp => self.view.help = !self.view.help,
            Command::AddPhotos => self.ask_photos(system),
            Command::UsualVehicle => self.fill_usual(),
            Command::Show(page) => {
                if self.view.page == page {
                    begin_again(system.ctx);
                }
                self.view.page = page;
            }
            Command::Findings => self.asked = Some(Dialog::Findings.into()),
            Command::Messages => self.asked = Some(Dialog::Messages.into()),
            Command::Keys => self.asked = Some(Dialog::Keys.into()),
            Command::FirstSteps => self.guide.begin(),
            Command::Light => self.look(system, |look| look.theme = ThemePreference::Light),
            Command::Dark => self.look(system, |look| look.theme = ThemePreference::Dark),
            Command::FollowSystem => {
                self.look(system, |look| look.theme = ThemePreference::System);
            }
            Command::Metric => self.look(system, |look| look.units = Units::Metric),
            Command::UsCustomary => self.look(system, |look| look.units = Units::UsCustomary),
            Command::Larger => self.look(system, |look| look.set_zoom(look.zoom + 0.1)),
            Command::Smaller => self.look(system, |look| look.set_zoom(look.zoom - 0.1)),
            Command::FirstSize => self.look(system, |look| look.set_zoom(1.0)),
            Command::SiteMode => self.turn_site_mode(),
            Command::WalkRound
            | Command::Found
            | Command::LookedNothing
            | Command::NotReached
            | Command::NotLookedAt => self.walk_command(command),
            Command::TouchSize => self.look(system, |look| look.touch = !look.touch),
        }
    }

    fn end_guide(&mut self) {
        self.guide.open = false;
        self.preferences.guide_seen = true;
    }

    fn look(&mut self, system: System<'_>, change: impl FnOnce(&mut Preferences)) {
        change(&mut self.preferences);
        self.preferences.apply(system.ctx);
        // Where the window is in site mode, its size comes back in the next frame.
        self.site_sized = false;
    }

    /// Goes on at once, or asks about unsaved changes first.
    fn guard(&mut self, then: Then, system: System<'_>) {
        if self.unsaved() {
            self.asked = Some(Dialog::Unsaved(then).into());
        } else {
            self.proceed(then, system);
        }
    }

    pub(super) fn proceed(&mut self, then: Then, system: System<'_>) {
        self.asked = None;
        match then {
            Then::Close if self.files.is_busy() => self.files.close_when_done(),
            Then::Close if self.photos_still_carried() => {}
            Then::Close => {
                self.unsaved.let_go();
                self.may_close = true;
                system.ctx.send_viewport_cmd(ViewportCommand::Close);
            }
            Then::New => self.asked = Some(Dialog::NewSurvey.into()),
            Then::NewSurvey(kind) => self.new_survey(kind),
            Then::Open => self.ask_path(PathFor::Open, system),
            Then::OpenFile(path) => self.open_file(&path),
            Then::OpenRescued(path) => self.open_rescued(&path),
            Then::StartPage => self.put_survey_away(),
        }
    }

    fn new_survey(&mut self, kind: VehicleKind) {
        let mut survey = Survey::starting(kind);
        survey.header.date = self.today.map_or_else(String::new, |today| today());
        self.show_document(Document::new(survey), Page::Vehicle);
        self.view.go_to(Place::at(Item::Vehicle, Field::Length));
    }

    pub(super) fn ask_path(&mut self, purpose: PathFor, system: System<'_>) {
        let text = match (&purpose, self.path()) {
            (PathFor::Save(_), Some(path)) => path.display().to_string(),
            (PathFor::Write(file), Some(path)) => {
                let stem = path.file_stem().unwrap_or_default().to_string_lossy();
                let name = format!("{stem} {}.{}", file.name(), file.ending());
                path.with_file_name(name).display().to_string()
            }
            (PathFor::Save(_), None) => self.first_path(None),
            (PathFor::Write(file), None) => self.first_path(Some(*file)),
            _ => String::new(),
        };
        self.asked = Some(
            Dialog::Path {
                purpose,
                text,
                note: self.no_file_dialog(),
            }
            .into(),
        );
        self.browse(system);
    }

    /// What is said where the system has shown that it has no file dialog.
    fn no_file_dialog(&self) -> String {
        match self.file_dialog {
            true => String::new(),
            false => "The system offers no file dialog here: type the path.".to_owned(),
        }
    }

    /// A path to begin with, for what has no file yet: in the folder of the survey that was open
    /// last, else in the person's own.
    fn first_path(&self, file: Option<SheetFile>) -> String {
        let recent = self.unsaved.recent().first();
        let folder = recent.and_then(|recent| recent.path.parent().map(Path::to_owned));
        let folder = folder.or_else(std::env::home_dir).unwrap_or_default();
        let name = self.document.as_ref().map(Document::name);
        let name = name.unwrap_or_default().replace(['/', '\\', ':'], "-");
        let name = match file {
            Some(file) => format!("{name} {}.{}", file.name(), file.ending()),
            None => format!("{name}.ron"),
        };
        folder.join(name).display().to_string()
    }

    /// The sheet must be in sight before it is written.
    fn save_sheet(&mut self, system: System<'_>) {
        self.view.page = Page::JobSheet;
        if self.sheets.pages().is_none() || self.sheets.step().is_some() {
            let words = "The pages are being set; save them when they are there.";
            self.notices.tell(Severity::Note, words);
            return;
        }
        let kind = self.view.job_sheet.choices.kind;
        self.ask_path(PathFor::Write(SheetFile::Pdf(kind)), system);
    }

    /// Writes a file, or asks first where one is there already.
    fn write_file(&mut self, file: SheetFile, path: PathBuf, anyway: bool) {
        let Some(of) = self.study_now() else {
            return;
        };
        if !anyway && path.exists() {
            self.asked = Some(Dialog::Replace { path, file }.into());
            return;
        }
        let survey_path = self.path().map(Path::to_owned);
        let mark = self.view.job_sheet.mark;
        self.sheets.write(Output {
            file,
            path,
            of,
            survey_path,
            mark,
        });
    }

    fn browse(&mut self, system: System<'_>) {
        let (saving, file) = match self.dialog() {
            Some(Dialog::Path { purpose, .. }) => match purpose {
                PathFor::Open | PathFor::Logo | PathFor::Weather | PathFor::Logger(_) => {
                    (false, None)
                }
                PathFor::Save(_) | PathFor::Write(_) => (true, purpose.file()),
                PathFor::Photo(_) => {
                    self.asked = None;
                    self.ask_photos(system);
                    return;
                }
            },
            _ => return,
        };
        if self.picking.is_some() || !self.file_dialog {
            return;
        }
        let name = self
            .document
            .as_ref()
            .map_or_else(String::new, Document::name);
        let name = match file {
            Some(file) => format!("{name} {}.{}", file.name(), file.ending()),
            None => format!("{name}.ron"),
        };
        let asked_for = |wanted: &PathFor| match self.dialog() {
            Some(Dialog::Path { purpose, .. }) => purpose == wanted,
            _ => false,
        };
        let for_logger = match self.dialog() {
            Some(Dialog::Path { purpose, .. }) => matches!(purpose, PathFor::Logger(_)),
            _ => false,
        };
        let (sort, endings) = if asked_for(&PathFor::Logo) {
            ("pictures", PICTURES.to_vec())
        } else if asked_for(&PathFor::Weather) {
            ("weather", vec!["epw", "csv", "txt"])
        } else if for_logger {
            ("readings", READINGS.to_vec())
        } else {
            let ending = file.map_or("ron", SheetFile::ending);
            (ending, vec![ending])
        };
        let pick = Pick {
            way: if saving { Way::Save(name) } else { Way::One },
            folder: self.path().and_then(Path::parent).map(Path::to_owned),
            sort,
            endings,
        };
        self.picking = Some(Picking {
            answer: (self.picker)(&pick, system.frame, system.ctx),
            photos_of: None,
        });
    }

    /// Takes the answer of the system's file dialog, once it is there.
    pub(super) fn take_picked(&mut self) {
        let Some(picking) = &self.picking else { return };
        let picked = match picking.answer.try_recv() {
            Err(TryRecvError::Empty) => return,
            Ok(picked) => picked,
            Err(TryRecvError::Disconnected) => Picked::NoDialog,
        };
        let photos_of = picking.photos_of;
        self.picking = None;
        self.file_dialog = picked != Picked::NoDialog;
        let no_dialog = self.no_file_dialog();
        if let Some(gap) = photos_of {
            self.photos_picked(gap, picked);
            return;
        }
        let Some(asked) = &mut self.asked else { return };
        let Dialog::Path { note, .. } = &mut asked.dialog else {
            return;
        };
        let path = match picked {
            Picked::Paths(paths) => paths.into_iter().next(),
            Picked::Cancelled => None,
            Picked::NoDialog => {
                *note = no_dialog;
                return;
            }
        };
        let answered = path.map_or(Answered::Cancel, Answered::Path);
        self.queue.push(Request::Answer(answered));
    }

    fn answer(&mut self, answered: Answered, system: System<'_>) {
        if answered == Answered::Browse {
            self.browse(system);
            return;
        }
        let Some(asked) = self.asked.take() else {
            return;
        };
        match (asked.dialog, answered) {
            (Dialog::Unsaved(then), Answered::SaveFirst) => {
                self.save_or_ask(Some(then), system);
            }
            (Dialog::Unsaved(then), Answered::Discard) => self.proceed(then, system),
            (Dialog::Path { purpose, .. }, Answered::Path(path)) => match purpose {
                PathFor::Open => self.open_file(&path),
                PathFor::Photo(gap) => self.attach(gap, vec![Source::File(path)]),
                PathFor::Logo => self.take_logo(&path),
                PathFor::Weather => self.take_weather(&path),
                PathFor::Logger(of) => self.take_logger_for(of, &path),
                PathFor::Save(then) => {
                    self.save_to(with_ending(path, "ron"), false, then, system);
                }
                PathFor::Write(file) => {
                    self.write_file(file, with_ending(path, file.ending()), false);
                }
            },
            (Dialog::Overwrite { path, then, .. }, Answered::Overwrite) => {
                self.save_to(path, true, then, system);
            }
            (Dialog::Shared { path, then }, Answered::SaveAnyway) => {
                self.unsaved.agree(&path);
                self.save_to(path, false, then, system);
            }
            (Dialog::Rescued { path, .. }, Answered::OpenRescued) => {
                self.guard(Then::OpenRescued(path), system);
            }
            (Dialog::Logger(chosen), Answered::ReadLogger) => self.read_logger(chosen),
            (Dialog::PutAway { path, .. }, Answered::PutAway) => self.put_away(&path),
            (Dialog::GivenUp { edit, merge, .. }, Answered::GiveUp) => self.change(*edit, merge),
            (Dialog::Overwrite { then, .. } | Dialog::Shared { then, .. }, Answered::OtherName) => {
                self.ask_path(PathFor::Save(then), system);
            }
            (Dialog::Replace { path, file }, Answered::Overwrite) => {
                self.write_file(file, path, true);
            }
            (Dialog::Replace { file, .. }, Answered::OtherName) => {
                self.ask_path(PathFor::Write(file), system);
            }
            _ => {}
        }
    }

    /// Whether the window must wait with closing until photos are beside their survey.
    fn photos_still_carried(&mut self) -> bool {
        self.photos.collect();
        let carrying = self.photos.carrying();
        if carrying {
            self.closing_after_photos = true;
            let words = "Photos are being copied beside the survey. The window then closes.";
            self.notices.tell(Severity::Note, words);
        }
        carrying
    }

    /// Keeps the window open while changes are not saved, and asks; and while photos are copied.
    pub(super) fn guard_closing(&mut self, ctx: &egui::Context) {
        let closing = ctx.input(|input| input.viewport().close_requested());
        if closing && !self.may_close && !self.unsaved() && self.photos_still_carried() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            return;
        }
        if closing && !self.may_close && self.unsaved() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.asked = Some(Dialog::Unsaved(Then::Close).into());
        }
    }
}

/// A file has its ending, also where the person left that out.
fn with_ending(mut path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_none() {
        path.set_extension(ending);
    }
    path
}
