//! Opening and saving the survey, on a worker: the window goes on meanwhile.
//!
//! One file is read or written at a time. What is changed while a save runs stays unsaved; what is
//! asked for while one runs is done after it.

use super::App;
use super::file_work::{Doing, Done, Running, Waiting};
use super::state::System;
use crate::survey::Severity;
use crate::survey::file::{
    FileStamp, LoadError, Loaded, NEWEST_FORMAT, SaveError, backup_path, load,
};
use crate::window::document::Document;
use crate::window::notices::sentence_of;
use crate::window::page::Page;
use crate::window::questions::{Dialog, PathFor, Then};
use crate::window::request::Request;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::TryRecvError;

impl App {
    /// Opens a file, or tells why not; the survey that was open then stays open.
    pub fn open_file(&mut self, path: &Path) {
        if self.files.is_busy() {
            let words = "Another file is being read or written: open this one after it.";
            self.notices.tell(Severity::Note, words);
            return;
        }
        let document = self.document.as_ref();
        let revision = document.map(|document| document.history.revision());
        let from = path.to_owned();
        let started = self
            .files
            .start(path, Doing::Loading { revision }, move || {
                Done::Loaded(Box::new(load(&from)))
            });
        if let Err(error) = started {
            self.no_worker(&error);
        }
        self.loaded_at_once();
    }

    /// Takes in a file that was read before the window went on.
    fn loaded_at_once(&mut self) {
        if let Some((running, Done::Loaded(loaded))) = self.take_done() {
            self.loaded(&running, *loaded);
        }
    }

    fn no_worker(&mut self, error: &std::io::Error) {
        let words =
            format!("Files cannot be reached just now, because no worker started: {error}.");
        self.notices.tell(Severity::Error, words);
    }

    fn take_done(&mut self) -> Option<(Running, Done)> {
        let running = self.files.running.take()?;
        match running.done.try_recv() {
            Ok(done) => Some((running, done)),
            Err(TryRecvError::Empty) => {
                self.files.running = Some(running);
                None
            }
            // The worker broke: what it had is as it was before.
            Err(TryRecvError::Disconnected) => {
                let words = format!("{} could not be reached.", running.path.display());
                self.notices.tell(Severity::Error, words);
                None
            }
        }
    }

    fn loaded(&mut self, running: &Running, loaded: Result<Loaded, LoadError>) {
        let Doing::Loading { revision } = running.doing else {
            return;
        };
        let now = self.document.as_ref();
        let now = now.map(|document| document.history.revision());
        match loaded {
            // What was changed meanwhile is not let go without a question.
            Ok(_) if now != revision && self.unsaved() => {
                self.queue.push(Request::OpenFile(running.path.clone()));
            }
            Ok(loaded) => {
                let format = loaded.format;
                let document = Document::loaded(running.path.clone(), loaded);
                let page = self.preferences.page.unwrap_or(Page::Gaps);
                self.show_document(document, page);
                if format < NEWEST_FORMAT {
                    let words = older_format(&running.path, format);
                    self.notices.tell(Severity::Note, words);
                }
            }
            Err(error) => self.notices.tell(Severity::Error, sentence_of(&error)),
        }
    }

    pub(super) fn save_or_ask(&mut self, then: Option<Then>, system: System<'_>) {
        match self.path().map(Path::to_owned) {
            Some(path) => self.save_to(path, false, then, system),
            None => self.ask_path(PathFor::Save(then), system),
        }
    }

    pub(super) fn save_to(
        &mut self,
        path: PathBuf,
        anyway: bool,
        then: Option<Then>,
        system: System<'_>,
    ) {
        self.asked = None;
        if self.files.is_busy() {
            self.files.waiting = Some(Waiting { path, anyway, then });
            return;
        }
        if self.unsaved.must_ask_before_saving(&path) {
            self.asked = Some(Dialog::Shared { path, then }.into());
            return;
        }
        let Some(document) = &self.document else {
            return;
        };
        let asked = document.to_save(&path, anyway);
        let doing = Doing::Saving {
            document: self.unsaved.document(),
            survey: Arc::clone(&asked.survey),
            then,
        };
        let mut backups = std::mem::take(&mut self.files.backups);
        let started = self.files.start(&path, doing, move || {
            let result = asked.write(&mut backups);
            Done::Saved(backups, result)
        });
        if let Err(error) = started {
            self.no_worker(&error);
        }
        self.files_in(system);
    }

    /// Takes in what came of a file; once in every frame.
    pub(super) fn files_in(&mut self, system: System<'_>) {
        let Some((running, done)) = self.take_done() else {
            return;
        };
        match done {
            Done::Loaded(loaded) => self.loaded(&running, *loaded),
            Done::Saved(backups, result) => {
                self.files.backups = backups;
                self.saved(running, result, system);
            }
        }
        if self.files.is_busy() {
            return;
        }
        if let Some(Waiting { path, anyway, then }) = self.files.waiting.take() {
            self.save_to(path, anyway, then, system);
        } else if std::mem::take(&mut self.files.closing) {
            self.proceed(Then::Close, system);
        }
    }

    fn saved(
        &mut self,
        running: Running,
        result: Result<FileStamp, SaveError>,
        system: System<'_>,
    ) {
        let Running { path, doing, .. } = running;
        let Doing::Saving {
            document,
            survey,
            then,
        } = doing
        else {
            return;
        };
        let same = self.unsaved.document() == document;
        let stamp = match &result {
            Ok(stamp) | Err(SaveError::NotConfirmed { stamp, .. }) => Some(stamp.clone()),
            Err(_) => None,
        };
        if let (Some(open), Some(stamp), true) = (&mut self.document, stamp, same) {
            self.photos.saved(&path, &survey);
            open.saved(&path, survey, stamp);
        }
        match result {
            Ok(_) => {
                let words = format!("Saved as {}.", path.display());
                self.notices.tell(Severity::Note, words);
                match then.filter(|_| same) {
                    // What was changed meanwhile is asked about once more.
                    Some(then) if self.unsaved() => self.asked = Some(Dialog::Unsaved(then).into()),
                    Some(then) => self.proceed(then, system),
                    None => {}
                }
            }
            Err(error @ (SaveError::ChangedOnDisk { .. } | SaveError::Exists { .. })) if same => {
                let sentence = sentence_of(&error);
                let dialog = Dialog::Overwrite {
                    path,
                    sentence,
                    then,
                };
                self.asked = Some(dialog.into());
            }
            Err(error) => {
                let note = sentence_of(&error);
                self.notices.tell(Severity::Error, note.clone());
                if same {
                    // What was typed is there again to be mended.
                    let (purpose, text) = (PathFor::Save(then), path.display().to_string());
                    let dialog = Dialog::Path {
                        purpose,
                        text,
                        note,
                    };
                    self.asked = Some(dialog.into());
                }
            }
        }
    }
}

/// What saving does to a file of an older format.
fn older_format(path: &Path, format: u32) -> String {
    let backup = backup_path(path);
    let kept = backup.file_name().unwrap_or_default().to_string_lossy();
    format!(
        "This file is in format {format}. Saving writes format {NEWEST_FORMAT}, which older versions of \
         Gapledger do not read; the file as it is stays beside it as {kept}."
    )
}
