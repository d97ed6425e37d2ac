//! Commands about the gaps of the ledger: added, copied, moved, deleted, each in one step.

use super::App;
use super::photos::paths_in;
use crate::assess::words::counted;
use crate::survey::{Edit, GapId, Severity};
use crate::window::changes_of_many::{self, ChangeOfMany};
use crate::window::commands::Command;
use crate::window::notices::Cause;
use crate::window::page::Page;
use crate::window::{clipboard, ledger, paste};
use eframe::egui;
use egui::{Event, ViewportCommand};

const NOTHING_SELECTED: &str = "No gap is selected.";

/// So long, in seconds, the system has for what is on its clipboard.
const CLIPBOARD_TAKES: f64 = 1.0;

impl App {
    pub(super) fn ledger_command(&mut self, command: Command) {
        let Some(document) = &self.document else {
            return;
        };
        let survey = document.history.survey();
        let chosen = self.view.gaps.chosen_in(survey);
        let change = match command {
            Command::AddGap => {
                let one = self.view.gaps.selected_in(survey);
                ledger::add(survey, one).map(|gap| ChangeOfMany {
                    selected: vec![gap.id],
                    edit: Edit::gap(gap),
                })
            }
            Command::DuplicateGap => changes_of_many::duplicate(survey, &chosen),
            Command::MirrorGap => changes_of_many::mirror(survey, &chosen),
            _ => changes_of_many::delete(survey, &chosen, &self.view.gaps.shown_in(survey)),
        };
        let Some(change) = change else {
            let words = match command {
                Command::AddGap => "A gap needs a zone: add a zone first.",
                _ => NOTHING_SELECTED,
            };
            self.notices.tell(Severity::Note, words);
            return;
        };
        let before = document.history.revision();
        self.edit(change.edit, None);
        let made = self
            .document
            .as_ref()
            .map(|document| document.history.revision())
            != Some(before);
        if made {
            self.after_ledger_command(command, &chosen, &change.selected);
        }
    }

    fn after_ledger_command(&mut self, command: Command, chosen: &[GapId], selected: &[GapId]) {
        self.view.page = Page::Gaps;
        match (command, chosen, selected) {
            (Command::DeleteGap, [id], _) => {
                self.view.gaps.select_all(selected);
                self.notices.tell_undoable(format!("Gap {id} was deleted."));
            }
            (Command::DeleteGap, ..) => {
                self.view.gaps.select_all(selected);
                let many = chosen.len();
                self.notices
                    .tell_undoable(format!("{many} gaps were deleted."));
            }
            (_, _, [one]) => self.view.gaps.select_added(*one),
            _ => self.view.gaps.select_all(selected),
        }
        let survey = self.survey();
        let has_photos = |id: &GapId| {
            let gap = survey.and_then(|survey| survey.gap(*id));
            gap.is_some_and(|gap| !gap.photos.is_empty())
        };
        let copied = matches!(command, Command::DuplicateGap | Command::MirrorGap);
        if copied && chosen.iter().any(has_photos) {
            let words = "Photos stay with the gap they were taken of.";
            self.notices.tell(Severity::Note, words);
        }
    }

    /// Puts the selected gaps on the clipboard.
    pub(super) fn copy_gaps(&mut self, ctx: &egui::Context) {
        let Some(survey) = self.survey() else { return };
        let chosen = self.view.gaps.chosen_in(survey);
        if chosen.is_empty() {
            self.notices.tell(Severity::Note, NOTHING_SELECTED);
            return;
        }
        let of_chosen = survey.gaps.iter().filter(|gap| chosen.contains(&gap.id));
        let photos: usize = of_chosen.map(|gap| gap.photos.len()).sum();
        let copied = counted(chosen.len(), "gap", "gaps");
        let mut words = format!("{copied} copied: paste in this window or another.");
        if photos > 0 {
            let photos = counted(photos, "photo stays", "photos stay");
            words = format!("{words} {photos} here.");
        }
        ctx.copy_text(clipboard::text(survey, &chosen));
        self.notices.tell(Severity::Note, words);
    }

    /// Asks the system for what is on its clipboard; it comes in a later frame.
    pub(super) fn ask_for_clipboard(&mut self, ctx: &egui::Context) {
        self.paste_wanted = Some(ctx.input(|input| input.time));
        ctx.send_viewport_cmd(ViewportCommand::RequestPaste);
        ctx.request_repaint_after_secs(1.1);
    }

    /// Takes what comes from the clipboard, unless it is for a text; once in every frame.
    pub(super) fn paste_in(&mut self, ctx: &egui::Context) {
        let wanted = self.paste_wanted.is_some();
        let ledger = self.document.is_some()
            && self.view.page == Page::Gaps
            && self.view.gaps.lightbox.is_none()
            && !ctx.text_edit_focused();
        if wanted || ledger {
            let mut texts = Vec::new();
            ctx.input_mut(|input| {
                input.events.retain(|event| match event {
                    // Paths of photos are for the gap that is selected.
                    Event::Paste(text) if wanted || paths_in(text).is_empty() => {
                        texts.push(text.clone());
                        false
                    }
                    _ => true,
                });
            });
            for text in texts {
                self.paste_wanted = None;
                self.paste_gaps(&text);
            }
        }
        let now = ctx.input(|input| input.time);
        if self
            .paste_wanted
            .is_some_and(|since| now - since > CLIPBOARD_TAKES)
        {
            self.paste_wanted = None;
            let words = "There is no text on the clipboard.";
            self.notices.tell(Severity::Note, words);
        }
    }

    fn paste_gaps(&mut self, text: &str) {
        self.notices.turn();
        let Some(survey) = self.survey() else { return };
        let pasted = match clipboard::read(text) {
            Ok(copied) => paste::paste(survey, &copied),
            Err(words) => {
                self.notices.tell_of(Cause::Edit, Severity::Warning, words);
                return;
            }
        };
        let Some(pasted) = pasted else { return };
        if self.made(pasted.change.edit) {
            self.view.page = Page::Gaps;
            self.view.gaps.select_pasted(&pasted.change.selected);
            self.notices.tell_undoable(pasted.told);
        }
    }

    /// Makes a change; whether it was made at once.
    fn made(&mut self, edit: Edit) -> bool {
        let revision = |app: &Self| app.document.as_ref().map(|it| it.history.revision());
        let before = revision(self);
        self.edit(edit, None);
        before != revision(self)
    }

    /// Selects every row of the ledger.
    pub(super) fn select_all_gaps(&mut self) {
        let Some(document) = &self.document else {
            return;
        };
        self.view.page = Page::Gaps;
        self.view.gaps.select_everything(document.history.survey());
    }

    /// Moves the selected gaps a row up or down.
    pub(super) fn move_gaps(&mut self, down: bool) {
        let Some(survey) = self.survey() else { return };
        let gaps = &self.view.gaps;
        let chosen = gaps.chosen_in(survey);
        if gaps.is_sorted() {
            let words = "The rows are sorted by a column: click its heading until they stand in the \
                         order of the survey, which is the one that can be changed.";
            self.notices.tell(Severity::Note, words);
            return;
        }
        let edit = changes_of_many::moved(survey, &chosen, &gaps.shown_in(survey), down);
        if edit.is_some_and(|edit| self.made(edit)) {
            self.view.gaps.keep_in_sight();
        }
    }
}
