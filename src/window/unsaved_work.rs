//! The window's side of losing nothing: what it hands to the worker, and what it was told.

use super::data_folder::DataFolder;
use super::data_folder::autosave::{Autosave, Snapshot};
use super::data_folder::offer::Offer;
use super::data_folder::open_files::{OpenFile, is_open_elsewhere};
use super::data_folder::recent::Recent;
use super::data_folder::rescue::Belongs;
use super::document::Document;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

/// What the window remembers of its dealings with the worker.
#[derive(Default)]
pub(super) struct UnsavedWork {
    pub(super) autosave: Option<Autosave>,
    /// Number of the open survey in this run.
    pub(super) document: u64,
    /// Document, revision and whether it was unsaved, as last handed over.
    pub(super) noted: Option<(u64, u64, bool)>,
    /// The open file, and that this program has it open.
    pub(super) file: Option<(PathBuf, Option<OpenFile>)>,
    /// It was told that another program has the file open.
    pub(super) told_elsewhere: bool,
    /// The file that the user saves to although another program has it open.
    pub(super) agreed: Option<PathBuf>,
    /// What earlier runs left behind; `None` until the worker has looked.
    pub(super) offers: Option<Vec<Offer>>,
    pub(super) recent: Vec<Recent>,
    /// The survey for which it was looked whether there is rescued work.
    pub(super) asked_for: Option<u64>,
}

impl UnsavedWork {
    /// Starts the worker. The sentence says why there is none.
    pub(super) fn start(
        folder: Option<DataFolder>,
        wake: Box<dyn Fn() + Send + Sync>,
    ) -> (Self, Option<String>) {
        let mut unsaved = Self::default();
        let problem = match folder.map(|folder| Autosave::start(folder, wake)) {
            None => None,
            Some(Ok(autosave)) => {
                autosave.look();
                unsaved.autosave = Some(autosave);
                None
            }
            Some(Err(error)) => Some(format!(
                "Unsaved work is not written down, because no worker started ({error}): save often."
            )),
        };
        (unsaved, problem)
    }

    /// Number of the open survey in this run.
    pub(super) fn document(&self) -> u64 {
        self.document
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
        if let Some(autosave) = &self.autosave {
            autosave.settled(self.document);
        }
        self.document += 1;
        self.noted = None;
        self.agreed = None;
    }

    /// Whether another program has a file open which the user has not agreed to save to all the
    /// same.
    pub(super) fn must_ask_before_saving(&self, path: &Path) -> bool {
        let Some(autosave) = &self.autosave else {
            return false;
        };
        self.agreed.as_deref() != Some(path)
            && is_open_elsewhere(autosave.folder(), autosave.session(), path)
    }

    /// The user saves to this file although another program has it open.
    pub(super) fn agree(&mut self, path: &Path) {
        self.agreed = Some(path.to_owned());
    }

    /// Hands the survey over when it has changed, and takes back what is saved.
    pub(super) fn note(&mut self, document: &mut Document) {
        let Some(autosave) = &self.autosave else {
            return;
        };
        let unsaved = document.unsaved();
        let now = (self.document, document.history.revision(), unsaved);
        if self.noted == Some(now) {
            return;
        }
        let was_unsaved = self.noted.is_some_and(|(_, _, unsaved)| unsaved);
        self.noted = Some(now);
        if unsaved {
            let absolute = |path: &Path| std::path::absolute(path).unwrap_or(path.to_owned());
            autosave.note(Snapshot {
                document: self.document,
                belongs: Belongs {
                    file: document.path().map(absolute),
                    stamp: document.stamp().cloned(),
                    when: SystemTime::now(),
                },
                survey: Arc::clone(document.history.survey()),
            });
        } else if was_unsaved {
            autosave.settled(self.document);
        }
    }

    /// Keeps up with the file of the open survey. True when the survey has another file now.
    pub(super) fn follow(&mut self, path: Option<&Path>) -> bool {
        let known = self.file.as_ref().map(|(path, _)| path.as_path());
        if known == path {
            return false;
        }
        self.told_elsewhere = false;
        self.file = path.map(|path| {
            let open = self.autosave.as_ref().map(|autosave| {
                let absolute = std::path::absolute(path).unwrap_or(path.to_owned());
                autosave.remember(&absolute);
                OpenFile::open(autosave.folder(), autosave.session(), path)
            });
            (path.to_owned(), open)
        });
        true
    }

    /// Whether another program has the file open, and that is news.
    pub(super) fn newly_elsewhere(&mut self) -> bool {
        let elsewhere = match &self.file {
            Some((_, Some(open))) => open.elsewhere(),
            _ => false,
        };
        let before = std::mem::replace(&mut self.told_elsewhere, elsewhere);
        elsewhere && !before
    }

    /// What was rescued of a file.
    pub(super) fn offer_for(&self, path: &Path) -> Option<&Offer> {
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
