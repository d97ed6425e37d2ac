//! Job sheets set in the background: pages, their pictures, and the files written from them.
//!
//! The window says what it wants to see; a task sets it, the newest choice first, another draws
//! the pages in sight, and a third writes files. What came of it is told.

mod files;
mod order;
mod pictures;
mod set;

pub use files::{Output, SheetFile, Written};
pub use order::{SheetChoices, SheetKey};
pub use set::Step;

use super::answers::{Effort, Revised};
use super::background::{Manner, Spawner, Task, Wake};
use crate::sheet::Typeset;
use eframe::egui;
use order::{Order, PrintCopies};
use pictures::{Drawing, Pictures};
use set::{News, set};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A page to draw, of the sheet with this number.
type ToDraw = (u64, Arc<Typeset>, Drawing);

/// What is done with a file.
enum FileWork {
    Write(Output, Option<Arc<Typeset>>),
    Open(PathBuf),
}

/// What came of it.
enum FileNews {
    Written(Result<Written, String>),
    Opened(PathBuf, Result<(), String>),
}

/// What the window is told: sentences about files.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Told {
    /// All went well.
    Done(String),
    /// It did not.
    Failed(String),
}

struct Ready {
    number: u64,
    key: SheetKey,
    pages: Arc<Typeset>,
}

/// Sheets being set, and the one that is there.
pub struct Typesetting {
    spawner: Spawner,
    wake: Wake,
    effort: Effort,
    setting: Task<Order, News>,
    drawing: Task<ToDraw, (u64, Drawing)>,
    files: Task<FileWork, FileNews>,
    /// The sheet being set, and how far it is.
    running: Option<(SheetKey, Step)>,
    ready: Option<Ready>,
    given_up: Option<(SheetKey, String)>,
    photos: Option<Arc<PrintCopies>>,
    pictures: Pictures,
    told: Vec<Told>,
    writing: bool,
    written: Option<Written>,
}

impl Typesetting {
    /// Nothing set yet. `wake` is called from workers whenever there is news.
    #[must_use]
    pub fn new(spawner: Spawner, wake: Wake, effort: Effort) -> Self {
        Self {
            setting: Task::new(
                &spawner,
                &wake,
                Manner::at_once("The sheet could not be set"),
                set,
            ),
            drawing: Task::new(
                &spawner,
                &wake,
                Manner::at_once("A page could not be drawn"),
                |(number, pages, drawing): ToDraw, line| line.send((number, drawing.draw(&pages))),
            ),
            files: Task::new(
                &spawner,
                &wake,
                Manner::at_once("The file could not be written or opened"),
                |work, line| {
                    line.send(match work {
                        FileWork::Write(output, pages) => {
                            FileNews::Written(output.write(pages.as_deref()))
                        }
                        FileWork::Open(path) => {
                            let opened = files::open(&path);
                            FileNews::Opened(path, opened)
                        }
                    });
                },
            ),
            spawner,
            wake,
            effort,
            running: None,
            ready: None,
            given_up: None,
            photos: None,
            pictures: Pictures::default(),
            told: Vec::new(),
            writing: false,
            written: None,
        }
    }

    /// Begins with another survey; what workers still do is dropped.
    pub fn clear(&mut self) {
        *self = Self::new(
            Arc::clone(&self.spawner),
            Arc::clone(&self.wake),
            self.effort,
        );
    }

    /// Says which sheet is wanted. Nothing happens while it is there or being set; another one
    /// being set is given up.
    pub fn want(&mut self, key: &SheetKey, of: &Arc<Revised>, path: Option<&Path>) {
        let running = self.running.as_ref().map(|(key, _)| key);
        let given_up = self.given_up.as_ref().map(|(key, _)| key);
        if self.shows(key) || running == Some(key) || given_up == Some(key) {
            return;
        }
        self.given_up = None;
        self.running = Some((key.clone(), Step::Photos));
        let order = Order {
            key: key.clone(),
            of: Arc::clone(of),
            path: path.map(Path::to_owned),
            photos: self.photos.clone(),
            effort: self.effort,
        };
        let refused = self.setting.submit(order).err();
        self.give_up(refused);
    }

    /// Gives up what is being set, for this reason.
    fn give_up(&mut self, why: Option<String>) {
        if let Some(why) = why
            && let Some((key, _)) = self.running.take()
        {
            self.given_up = Some((key, why));
        }
    }

    /// Gives up what is being set.
    pub fn cancel(&mut self) {
        self.setting.stop();
        self.give_up(Some("Cancelled.".to_owned()));
    }

    /// Sets again what was given up.
    pub fn again(&mut self) {
        self.given_up = None;
    }

    /// Draws the pages in sight, `width` pixels wide; pages out of sight are let go.
    pub fn show(&mut self, in_sight: Range<usize>, width: u32) {
        let Some(ready) = &self.ready else { return };
        let missing = self.pictures.missing(&ready.pages, in_sight, width);
        // What came into sight last is drawn first.
        for drawing in missing.into_iter().rev() {
            let to_draw = (ready.number, Arc::clone(&ready.pages), drawing);
            let refused = self.drawing.add_first(to_draw).err();
            self.told.extend(refused.map(Told::Failed));
        }
    }

    /// The page with the sheet was left: no picture is kept for when it is shown again.
    pub fn left(&mut self) {
        if !self.pictures.is_empty() {
            self.pictures.let_go();
            self.drawing.forget();
        }
    }

    /// Writes a file; the window is told how it went.
    pub fn write(&mut self, output: Output) {
        let pages = self.ready.as_ref().map(|ready| Arc::clone(&ready.pages));
        self.writing = true;
        self.with_files(FileWork::Write(output, pages));
    }

    /// Opens the file that was written last with the system's viewer.
    pub fn open(&mut self) {
        if let Some(written) = self.written.clone() {
            self.with_files(FileWork::Open(written.path));
        }
    }

    fn with_files(&mut self, work: FileWork) {
        if let Err(sentence) = self.files.add(work) {
            self.writing = false;
            self.told.push(Told::Failed(sentence));
        }
    }

    /// Takes in what workers sent. The window tells what is returned.
    pub fn collect(&mut self, ctx: &egui::Context) -> Vec<Told> {
        let (news, failed) = self.setting.collect();
        for news in news {
            self.take(news);
        }
        self.give_up(failed);
        let (drawn, failed) = self.drawing.collect();
        self.told.extend(failed.map(Told::Failed));
        for (number, drawing) in drawn {
            if self
                .ready
                .as_ref()
                .is_some_and(|ready| ready.number == number)
            {
                self.pictures.take(ctx, drawing);
            }
        }
        let (news, failed) = self.files.collect();
        if let Some(failed) = failed {
            self.writing = false;
            self.told.push(Told::Failed(failed));
        }
        for news in news {
            let told = self.file_told(news);
            self.told.push(told);
        }
        std::mem::take(&mut self.told)
    }

    fn take(&mut self, news: News) {
        match news {
            News::Step(step) => {
                if let Some((_, at)) = &mut self.running {
                    *at = step;
                }
            }
            News::Copies(photos) => self.photos = Some(photos),
            News::Set(key, Ok(pages)) => {
                let pages = *pages;
                self.running = None;
                self.pictures.age();
                self.drawing.forget();
                self.ready = Some(Ready {
                    number: self.ready.as_ref().map_or(0, |ready| ready.number + 1),
                    key,
                    pages: Arc::new(pages),
                });
            }
            News::Set(_, Err(words)) => self.give_up(Some(words)),
        }
    }

    fn file_told(&mut self, news: FileNews) -> Told {
        match news {
            FileNews::Written(result) => {
                self.writing = false;
                match result {
                    Ok(written) => {
                        let words = format!("Written to {}.", written.path.display());
                        self.written = Some(written);
                        Told::Done(words)
                    }
                    Err(words) => Told::Failed(words),
                }
            }
            FileNews::Opened(_, Err(words)) => Told::Failed(words),
            // Whether a viewer then came up nobody tells.
            FileNews::Opened(path, Ok(())) => Told::Done(format!(
                "The system was asked to show {}. If nothing opens, it has no viewer for such \
                 files: open it from its folder.",
                path.display()
            )),
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
        self.running.as_ref().map(|(_, step)| *step)
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
    pub fn written(&self) -> Option<&Written> {
        self.written.as_ref()
    }
}

#[cfg(test)]
mod tests;
