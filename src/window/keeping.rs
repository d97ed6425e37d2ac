//! The window's side of losing nothing: what it hands to the worker, and what it is told.

use super::app::App;
use super::dialogs::Dialog;
use super::document::Document;
use super::keep::DataFolder;
use super::keep::keeper::{Keeper, News, Snapshot};
use super::keep::offer::{self, Offer};
use super::keep::open_files::{OpenFile, is_open_elsewhere};
use super::keep::recent::Recent;
use super::keep::rescue::Belongs;
use super::keep::words;
use super::notices::sentence_of;
use super::page::{Page, ViewState};
use crate::survey::Severity;
use eframe::egui;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

/// What the window remembers of its dealings with the worker.
#[derive(Default)]
pub(super) struct Keeping {
    keeper: Option<Keeper>,
    /// Number of the open survey in this run.
    document: u64,
    /// Document, revision and whether it was unsaved, as last handed over.
    noted: Option<(u64, u64, bool)>,
    /// The open file, and that this program has it open.
    file: Option<(PathBuf, Option<OpenFile>)>,
    /// It was told that another program has the file open.
    told_elsewhere: bool,
    /// The file that the user saves to although another program has it open.
    agreed: Option<PathBuf>,
    /// What earlier runs left behind; `None` until the worker has looked.
    offers: Option<Vec<Offer>>,
    recent: Vec<Recent>,
    /// The survey for which it was looked whether there is rescued work.
    asked_for: Option<u64>,
}

impl Keeping {
    /// Starts the worker. The sentence says why there is none.
    pub(super) fn start(
        folder: Option<DataFolder>,
        wake: Box<dyn Fn() + Send + Sync>,
    ) -> (Self, Option<String>) {
        let mut keeping = Self::default();
        let problem = match folder.map(|folder| Keeper::start(folder, wake)) {
            None => None,
            Some(Ok(keeper)) => {
                keeper.look();
                keeping.keeper = Some(keeper);
                None
            }
            Some(Err(error)) => Some(format!(
                "Unsaved work is not written down, because no worker started ({error}): save often."
            )),
        };
        (keeping, problem)
    }

    /// What earlier runs left behind.
    pub(super) fn offers(&self) -> &[Offer] {
        self.offers.as_deref().unwrap_or_default()
    }

    /// The files that were open last.
    pub(super) fn recent(&self) -> &[Recent] {
        &self.recent
    }

    /// The open survey is saved, let go, or replaced: what was written down of it goes, and the
    /// next survey gets a number of its own.
    pub(super) fn let_go(&mut self) {
        if let Some(keeper) = &self.keeper {
            keeper.settled(self.document);
        }
        self.document += 1;
        self.noted = None;
        self.agreed = None;
    }

    /// Whether another program has a file open which the user has not agreed to save to all the
    /// same.
    pub(super) fn must_ask_before_saving(&self, path: &Path) -> bool {
        let Some(keeper) = &self.keeper else {
            return false;
        };
        self.agreed.as_deref() != Some(path)
            && is_open_elsewhere(keeper.folder(), keeper.session(), path)
    }

    /// The user saves to this file although another program has it open.
    pub(super) fn agree(&mut self, path: &Path) {
        self.agreed = Some(path.to_owned());
    }

    /// Hands the survey over when it has changed, and takes back what is saved.
    fn note(&mut self, document: &mut Document) {
        let Some(keeper) = &self.keeper else { return };
        let unsaved = document.unsaved();
        let now = (self.document, document.history.revision(), unsaved);
        if self.noted == Some(now) {
            return;
        }
        let was_unsaved = self.noted.is_some_and(|(_, _, unsaved)| unsaved);
        self.noted = Some(now);
        if unsaved {
            let absolute = |path: &Path| std::path::absolute(path).unwrap_or(path.to_owned());
            keeper.note(Snapshot {
                document: self.document,
                belongs: Belongs {
                    file: document.path().map(absolute),
                    stamp: document.stamp().cloned(),
                    when: SystemTime::now(),
                },
                survey: Arc::clone(document.history.survey()),
            });
        } else if was_unsaved {
            keeper.settled(self.document);
        }
    }

    /// Keeps up with the file of the open survey. True when the survey has another file now.
    fn follow(&mut self, path: Option<&Path>) -> bool {
        let known = self.file.as_ref().map(|(path, _)| path.as_path());
        if known == path {
            return false;
        }
        self.told_elsewhere = false;
        self.file = path.map(|path| {
            let open = self.keeper.as_ref().map(|keeper| {
                let absolute = std::path::absolute(path).unwrap_or(path.to_owned());
                keeper.remember(&absolute);
                OpenFile::open(keeper.folder(), keeper.session(), path)
            });
            (path.to_owned(), open)
        });
        true
    }

    /// Whether another program has the file open, and that is news.
    fn newly_elsewhere(&mut self) -> bool {
        let elsewhere = match &self.file {
            Some((_, Some(open))) => open.elsewhere(),
            _ => false,
        };
        let before = std::mem::replace(&mut self.told_elsewhere, elsewhere);
        elsewhere && !before
    }

    /// What was rescued of a file.
    fn offer_for(&self, path: &Path) -> Option<&Offer> {
        let same = |file: &Path| match (file.canonicalize(), path.canonicalize()) {
            (Ok(one), Ok(other)) => one == other,
            _ => std::path::absolute(path).is_ok_and(|path| path == file),
        };
        self.offers().iter().find(|offer| {
            let content = offer.content.as_ref().ok();
            content
                .and_then(|rescued| rescued.file.as_deref())
                .is_some_and(same)
        })
    }
}

impl App {
    /// Keeps up with the open survey; once in every frame.
    pub(super) fn keep(&mut self, ctx: &egui::Context) {
        self.take_news();
        let came_back = ctx.input(|input| {
            let focused = |event: &egui::Event| matches!(event, egui::Event::WindowFocused(true));
            input.raw.events.iter().any(focused)
        });
        let path = self.path().map(Path::to_owned);
        let another_file = self.keeping.follow(path.as_deref());
        if (another_file || came_back) && self.keeping.newly_elsewhere() {
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
        self.keeping.note(document);
        self.looks.page = Some(self.view.page);
        self.tell_of_rescued();
    }

    fn name(&self) -> String {
        self.document
            .as_ref()
            .map_or_else(String::new, Document::name)
    }

    fn take_news(&mut self) {
        let news = self.keeping.keeper.as_ref().map(Keeper::news);
        for news in news.unwrap_or_default() {
            match news {
                News::Found(offers, recent) => {
                    self.keeping.offers = Some(offers);
                    self.keeping.recent = recent;
                }
                News::Failed(sentence) => self.notices.tell(Severity::Warning, sentence),
            }
        }
    }

    /// Once for each survey that is opened: whether an earlier run left work on it, or on others.
    fn tell_of_rescued(&mut self) {
        let known = self.keeping.offers.is_some() && self.asked.is_none();
        let first = self.keeping.asked_for.is_none();
        if !known || self.keeping.asked_for == Some(self.keeping.document) {
            return;
        }
        self.keeping.asked_for = Some(self.keeping.document);
        let path = self.path().map(Path::to_owned);
        let offer = path.and_then(|path| self.keeping.offer_for(&path).cloned());
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
        } else if first && !self.keeping.offers().is_empty() {
            self.notices.tell(
                Severity::Note,
                "Unsaved work of an earlier run was rescued: the start page (menu Survey) offers it.",
            );
        }
    }

    /// Opens what an earlier run left behind, as unsaved changes of the file it belongs to.
    pub(super) fn open_rescued(&mut self, path: &Path) {
        let Some(keeper) = &self.keeping.keeper else {
            return;
        };
        // Showing it gives it the next number.
        let (belongs, survey) = match keeper.adopt(self.keeping.document + 1, path) {
            Ok(adopted) => adopted,
            Err(words) => {
                self.notices.tell(Severity::Error, format!("{words}."));
                keeper.look();
                return;
            }
        };
        if let Some(offers) = &mut self.keeping.offers {
            offers.retain(|offer| offer.path != path);
        }
        let document = Document::rescued(belongs.file, belongs.stamp, survey);
        self.show_document(document, Page::Gaps);
        self.keeping.asked_for = Some(self.keeping.document);
        self.notices.tell(
            Severity::Note,
            "This is what was rescued. Save it to keep it.",
        );
    }

    /// Asks whether what was rescued may be put away.
    pub(super) fn ask_to_put_away(&mut self, path: &Path) {
        let found = self
            .keeping
            .offers()
            .iter()
            .find(|offer| offer.path == path);
        let (Some(offer), Some(keeper)) = (found, &self.keeping.keeper) else {
            return;
        };
        let what = match &offer.content {
            Ok(rescued) => format!("What was rescued of \u{201c}{}\u{201d}", rescued.name),
            Err(_) => "This file".to_owned(),
        };
        let sentence = format!(
            "{what} will not be offered any more. It is not deleted, but moved to {}.",
            keeper.folder().put_away().display()
        );
        let path = path.to_owned();
        self.asked = Some(Dialog::PutAway { path, sentence }.into());
    }

    pub(super) fn put_away(&mut self, path: &Path) {
        let Some(keeper) = &self.keeping.keeper else {
            return;
        };
        match offer::put_away(keeper.folder(), path) {
            Ok(place) => {
                let words = format!("It was moved to {}.", place.display());
                self.notices.tell(Severity::Note, words);
            }
            Err(error) => {
                let words = sentence_of(&error);
                let words = format!("{} could not be put away. {words}", path.display());
                self.notices.tell(Severity::Error, words);
            }
        }
        keeper.look();
    }

    /// Takes a file out of the list of those that were open last.
    pub(super) fn forget_recent(&mut self, path: &Path) {
        if let Some(keeper) = &self.keeping.keeper {
            keeper.forget(path);
        }
    }

    /// Puts the open survey away and shows the start page.
    pub(super) fn put_survey_away(&mut self) {
        self.keeping.let_go();
        self.document = None;
        self.view = ViewState::default();
        self.photos.open(None);
        self.jobs.forget();
        if let Some(keeper) = &self.keeping.keeper {
            keeper.look();
        }
    }

    /// Waits until everything is written down, and takes in what was found; for tests.
    pub fn finish_keeping(&mut self) {
        if let Some(keeper) = &self.keeping.keeper {
            keeper.finish();
        }
        self.take_news();
    }
}
