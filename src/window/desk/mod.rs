//! The desk where job sheets are set: on workers, the newest choice first, with cancel.
//!
//! The window says what it wants to see; the desk sets it, draws the pages in sight, writes
//! files, and tells in its news what came of it.

mod files;
mod pictures;
mod work;

pub use files::{Output, SheetFile};
pub use work::{SheetChoices, Step};

use super::jobs::Spawner;
use crate::sheet::Typeset;
use crate::survey::Survey;
use eframe::egui;
use pictures::Pictures;
use std::ops::Range;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use work::Prepared;

/// What a sheet is of: equal keys are equal sheets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetKey {
    /// Revision of the survey.
    pub revision: u64,
    /// What was chosen.
    pub choices: SheetChoices,
}

/// A survey that a sheet is made of.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// The survey.
    pub survey: Arc<Survey>,
    /// Its file, beside which the photos are.
    pub path: Option<PathBuf>,
}

/// What workers send.
enum News {
    Step(u64, Step),
    Set(u64, Box<work::Outcome>),
    Picture(u64, pictures::Drawing),
    Written(Result<PathBuf, String>),
    Opened(Result<(), String>),
}

/// What the window is told: sentences about files.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Told {
    /// All went well.
    Done(String),
    /// It did not.
    Failed(String),
}

struct Running {
    number: u64,
    key: SheetKey,
    cancel: Arc<AtomicBool>,
    step: Step,
}

struct Ready {
    number: u64,
    key: SheetKey,
    pages: Arc<Typeset>,
}

/// News that may wait for the window; workers then wait too.
const NEWS_WAITING: usize = 64;

/// The desk.
pub struct SheetDesk {
    spawner: Spawner,
    wake: Arc<dyn Fn() + Send + Sync>,
    sender: SyncSender<News>,
    receiver: Receiver<News>,
    started: u64,
    running: Option<Running>,
    ready: Option<Ready>,
    given_up: Option<(SheetKey, String)>,
    prepared: Option<Arc<Prepared>>,
    pictures: Pictures,
    writing: bool,
    written: Option<PathBuf>,
}

impl SheetDesk {
    /// An empty desk. `wake` is called from workers whenever there is news.
    #[must_use]
    pub fn new(spawner: Spawner, wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = sync_channel(NEWS_WAITING);
        Self {
            spawner,
            wake,
            sender,
            receiver,
            started: 0,
            running: None,
            ready: None,
            given_up: None,
            prepared: None,
            pictures: Pictures::default(),
            writing: false,
            written: None,
        }
    }

    /// Clears the desk for another survey; what workers still do is dropped.
    pub fn clear(&mut self) {
        self.cancel();
        *self = Self::new(Arc::clone(&self.spawner), Arc::clone(&self.wake));
    }

    /// Says which sheet is wanted. Nothing happens while it is there or being set; another one
    /// being set is given up first.
    pub fn want(&mut self, key: &SheetKey, snapshot: &Snapshot) {
        let there = self.ready.as_ref().is_some_and(|ready| ready.key == *key);
        let given_up = self
            .given_up
            .as_ref()
            .is_some_and(|(other, _)| other == key);
        if there || given_up {
            return;
        }
        if let Some(running) = &self.running {
            if running.key != *key {
                running.cancel.store(true, Ordering::Relaxed);
            }
            return;
        }
        self.start(key.clone(), snapshot.clone());
    }

    fn start(&mut self, key: SheetKey, snapshot: Snapshot) {
        self.started += 1;
        let number = self.started;
        let cancel = Arc::new(AtomicBool::new(false));
        self.given_up = None;
        self.running = Some(Running {
            number,
            key: key.clone(),
            cancel: Arc::clone(&cancel),
            step: Step::Photos,
        });
        let prepared = self.prepared.clone();
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        self.spawn(move || {
            let tell = |step| {
                let _ = sender.send(News::Step(number, step));
                wake();
            };
            let outcome = catch_unwind(AssertUnwindSafe(|| {
                work::set(&key, &snapshot, prepared, &cancel, &tell)
            }))
            .unwrap_or_else(|_| work::Outcome::failed("it stopped half-way"));
            let _ = sender.send(News::Set(number, Box::new(outcome)));
            wake();
        });
    }

    /// Runs work on a worker; where none starts, that is the news.
    fn spawn(&mut self, work: impl FnOnce() + Send + 'static) {
        if let Err(error) = (self.spawner)(Box::new(work)) {
            let words = format!("No worker could be started: {error}.");
            if let Some(running) = self.running.take() {
                self.given_up = Some((running.key, words));
            }
            self.writing = false;
        }
    }

    /// Gives up what is being set.
    pub fn cancel(&mut self) {
        if let Some(running) = self.running.take() {
            running.cancel.store(true, Ordering::Relaxed);
            self.given_up = Some((running.key, "Cancelled.".to_owned()));
        }
    }

    /// Sets again what was given up.
    pub fn again(&mut self) {
        self.given_up = None;
    }

    /// Draws the pages in sight, `width` pixels wide; pages out of sight are let go.
    pub fn show(&mut self, in_sight: Range<usize>, width: u32) {
        let Some(ready) = &self.ready else { return };
        let (number, pages) = (ready.number, Arc::clone(&ready.pages));
        for drawing in self.pictures.missing(&pages, in_sight, width) {
            let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
            let pages = Arc::clone(&pages);
            self.spawn(move || {
                let drawn = catch_unwind(AssertUnwindSafe(|| drawing.draw(&pages)));
                if let Ok(drawn) = drawn {
                    let _ = sender.send(News::Picture(number, drawn));
                    wake();
                }
            });
        }
    }

    /// Writes a file; the window is told how it went.
    pub fn write(&mut self, output: Output) {
        self.writing = true;
        let pages = self.ready.as_ref().map(|ready| Arc::clone(&ready.pages));
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        self.spawn(move || {
            let written = catch_unwind(AssertUnwindSafe(|| output.write(pages.as_deref())))
                .unwrap_or_else(
                    |_| Err("the file was not written: it stopped half-way".to_owned()),
                );
            let _ = sender.send(News::Written(written));
            wake();
        });
    }

    /// Opens the file that was written last with the system's viewer.
    pub fn open(&mut self) {
        let Some(path) = self.written.clone() else {
            return;
        };
        let (sender, wake) = (self.sender.clone(), Arc::clone(&self.wake));
        self.spawn(move || {
            let _ = sender.send(News::Opened(files::open(&path)));
            wake();
        });
    }

    /// Takes in what workers sent. The window tells what is returned.
    pub fn collect(&mut self, ctx: &egui::Context) -> Vec<Told> {
        let mut told = Vec::new();
        while let Ok(news) = self.receiver.try_recv() {
            match news {
                News::Step(number, step) => {
                    if let Some(running) = &mut self.running
                        && running.number == number
                    {
                        running.step = step;
                    }
                }
                News::Set(number, outcome) => self.take(number, *outcome),
                News::Picture(number, drawn) => {
                    if self
                        .ready
                        .as_ref()
                        .is_some_and(|ready| ready.number == number)
                    {
                        self.pictures.take(ctx, drawn);
                    }
                }
                News::Written(result) => {
                    self.writing = false;
                    told.push(self.told(result));
                }
                News::Opened(Err(words)) => told.push(Told::Failed(words)),
                // Whether a viewer then came up nobody tells.
                News::Opened(Ok(())) => told.extend(self.written.as_ref().map(|path| {
                    Told::Done(format!(
                        "The system was asked to show {}. If nothing opens, it has no viewer for \
                         such files: open it from its folder.",
                        path.display()
                    ))
                })),
            }
        }
        told
    }

    fn told(&mut self, result: Result<PathBuf, String>) -> Told {
        match result {
            Ok(path) => {
                let words = format!("Written to {}.", path.display());
                self.written = Some(path);
                Told::Done(words)
            }
            Err(words) => Told::Failed(words),
        }
    }

    fn take(&mut self, number: u64, outcome: work::Outcome) {
        let Some(running) = self.running.take_if(|running| running.number == number) else {
            return;
        };
        if let Some(prepared) = outcome.prepared {
            self.prepared = Some(prepared);
        }
        match outcome.pages {
            Some(Ok(pages)) => {
                self.pictures.age();
                self.ready = Some(Ready {
                    number,
                    key: running.key,
                    pages: Arc::new(pages),
                });
            }
            Some(Err(words)) => self.given_up = Some((running.key, words)),
            // Given up for another choice, which is wanted anew in the next frame.
            None => {}
        }
    }

    /// The pages that were set last, while newer ones are being set.
    #[must_use]
    pub fn pages(&self) -> Option<&Typeset> {
        self.ready.as_ref().map(|ready| &*ready.pages)
    }

    /// Whether the pages are those of this key.
    #[must_use]
    pub fn shows(&self, key: &SheetKey) -> bool {
        self.ready.as_ref().is_some_and(|ready| ready.key == *key)
    }

    /// What is being done, while something is.
    #[must_use]
    pub fn step(&self) -> Option<Step> {
        self.running.as_ref().map(|running| running.step)
    }

    /// Why the sheet wanted is not there, where it was given up.
    #[must_use]
    pub fn given_up(&self) -> Option<&str> {
        self.given_up.as_ref().map(|(_, words)| words.as_str())
    }

    /// The picture of a page, once it is drawn.
    #[must_use]
    pub fn picture(&self, page: usize) -> Option<&egui::TextureHandle> {
        self.pictures.of(page)
    }

    /// Whether a file is being written.
    #[must_use]
    pub fn is_writing(&self) -> bool {
        self.writing
    }

    /// The file written last.
    #[must_use]
    pub fn written(&self) -> Option<&Path> {
        self.written.as_deref()
    }
}

#[cfg(test)]
mod tests;
