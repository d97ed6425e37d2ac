//! UnsavedWork up with the open survey, so that nothing of it is lost.

use super::App;
use crate::survey::Severity;
use crate::window::data_folder::autosave::{Autosave, News};
use crate::window::data_folder::{offer, words};
use crate::window::document::Document;
use crate::window::notices::sentence_of;
use crate::window::page::Page;
use crate::window::questions::Dialog;
use eframe::egui;
use std::path::Path;
use std::time::SystemTime;

impl App {
    /// Keeps up with the open survey; once in every frame.
    pub(super) fn keep(&mut self, ctx: &egui::Context) {
        self.take_news();
        let came_back = ctx.input(|input| {
            let focused = |event: &egui::Event| matches!(event, egui::Event::WindowFocused(true));
            input.raw.events.iter().any(focused)
        });
        let path = self.path().map(Path::to_owned);
        let another_file = self.unsaved.follow(path.as_deref());
        if (another_file || came_back) && self.unsaved.newly_elsewhere() {
            let name = self.name();
            self.notices.tell(
                Severity::Warning,
                format!(
                    "\u{201c}{name}\u{201d} is open in another Gapledger too. Change it in one of \
                     them only, or save this one under another name."
                ),
            );
        }
        let Some(document) = &mut self.document else {
            return;
        };
        if self.may_close {
            // What is unsaved now was let go.
            return;
        }
        // While something is dragged it is another survey in every frame: the last one is noted.
        if !self.view.gaps.body().is_dragged() {
            self.unsaved.note(document);
        }
        self.preferences.page = Some(self.view.page);
        self.tell_of_rescued();
    }

    fn name(&self) -> String {
        self.document
            .as_ref()
            .map_or_else(String::new, Document::name)
    }

    fn take_news(&mut self) {
        let news = self.unsaved.autosave.as_ref().map(Autosave::news);
        for news in news.unwrap_or_default() {
            match news {
                News::Found(offers, recent) => {
                    self.unsaved.offers = Some(offers);
                    self.unsaved.recent = recent;
                }
                News::Failed(sentence) => self.notices.tell(Severity::Warning, sentence),
            }
        }
    }

    /// Once for each survey that is opened: whether an earlier run left work on it, or on others.
    fn tell_of_rescued(&mut self) {
        let known = self.unsaved.offers.is_some() && self.asked.is_none();
        let first = self.unsaved.asked_for.is_none();
        if !known || self.unsaved.asked_for == Some(self.unsaved.document) {
            return;
        }
        self.unsaved.asked_for = Some(self.unsaved.document);
        let path = self.path().map(Path::to_owned);
        let offer = path.and_then(|path| self.unsaved.offer_for(&path).cloned());
        let on_this = offer.and_then(|offer| Some((offer.path, offer.content.ok()?)));
        if let Some((path, rescued)) = on_this {
            let sentence = format!(
                "Gapledger ended {} with changes to \u{201c}{}\u{201d} that were not saved. They \
                 were rescued. {}",
                words::ago(rescued.when, SystemTime::now()),
                self.name(),
                words::difference(&rescued.difference),
            );
            self.asked = Some(Dialog::Rescued { path, sentence }.into());
        } else if first && !self.unsaved.offers().is_empty() {
            self.notices.tell(
                Severity::Note,
                "Unsaved work of an earlier run was rescued: the start page (menu Survey) offers it.",
            );
        }
    }

    /// Opens what an earlier run left behind, as unsaved changes of the file it belongs to.
    pub(super) fn open_rescued(&mut self, path: &Path) {
        let Some(autosave) = &self.unsaved.autosave else {
            return;
        };
        // Showing it gives it the next number.
        let (belongs, survey) = match autosave.adopt(self.unsaved.document + 1, path) {
            Ok(adopted) => adopted,
            Err(words) => {
                self.notices.tell(Severity::Error, format!("{words}."));
                autosave.look();
                return;
            }
        };
        if let Some(offers) = &mut self.unsaved.offers {
            offers.retain(|offer| offer.path != path);
        }
        let document = Document::rescued(belongs.file, belongs.stamp, survey);
        self.show_document(document, Page::Gaps);
        self.unsaved.asked_for = Some(self.unsaved.document);
        self.notices.tell(
            Severity::Note,
            "This is what was rescued. Save it to keep it.",
        );
    }

    /// Asks whether what was rescued may be put away.
    pub(super) fn ask_to_put_away(&mut self, path: &Path) {
        let found = self
            .unsaved
            .offers()
            .iter()
            .find(|offer| offer.path == path);
        let (Some(offer), Some(autosave)) = (found, &self.unsaved.autosave) else {
            return;
        };
        let what = match &offer.content {
            Ok(rescued) => format!("What was rescued of \u{201c}{}\u{201d}", rescued.name),
            Err(_) => "This file".to_owned(),
        };
        let sentence = format!(
            "{what} will not be offered any more. It is not deleted, but moved to {}.",
            autosave.folder().put_away().display()
        );
        let path = path.to_owned();
        self.asked = Some(Dialog::PutAway { path, sentence }.into());
    }

    pub(super) fn put_away(&mut self, path: &Path) {
        let Some(autosave) = &self.unsaved.autosave else {
            return;
        };
        match offer::put_away(autosave.folder(), path) {
            Ok(place) => {
                let words = format!("It was moved to {}.", place.display());
                self.notices.tell(Severity::Note, words);
            }
            Err(error) => {
                let words = sentence_of(&error);
                let words = format!("{} could not be moved aside. {words}", path.display());
                self.notices.tell(Severity::Error, words);
            }
        }
        autosave.look();
    }

    /// Takes a file out of the list of those that were open last.
    pub(super) fn forget_recent(&mut self, path: &Path) {
        if let Some(autosave) = &self.unsaved.autosave {
            autosave.forget(path);
        }
    }

    /// Puts the open survey away and shows the start page.
    pub(super) fn put_survey_away(&mut self) {
        self.unsaved.let_go();
        // What was told of it is over with it.
        self.notices.forget_earlier();
        self.document = None;
        self.view = self.view.for_another_survey(Page::default());
        self.photos.open(None);
        self.answers.forget();
        if let Some(autosave) = &self.unsaved.autosave {
            autosave.look();
        }
    }

    /// Waits until everything is written down, and takes in what was found; for tests.
    pub fn finish_writing_down(&mut self) {
        if let Some(autosave) = &self.unsaved.autosave {
            autosave.finish();
        }
        self.take_news();
    }
}
