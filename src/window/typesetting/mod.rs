//! Job sheets set in the background: pages, their pictures, and the files written from them.
//!
//! The window says what it wants to see; a task has it set by another process, the newest choice
//! first, another unpacks the pages in sight, and a third writes files. What came of it is told.
//! That process ends with its sheet: what it drew and its PDF are kept in a file without a name.

mod files;
mod order;
mod pictures;
mod put_away;
mod set;
mod setter;

pub use files::{Output, SheetFile, Written};
pub use order::{SheetChoices, SheetKey};
pub use set::Step;
pub use setter::Setter;

use super::answers::{Effort, Revised};
use super::background::{Manner, Spawner, Task, Wake};
use crate::sheet::setting::Look;
use eframe::egui;
use egui::ColorImage;
use order::{Order, PrintCopies};
use pictures::{Packed, Pictures};
use put_away::PutAway;
use set::{News, set};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A page unpacked: of which sheet, which it is.
type Unpacked = Result<(u64, usize, ColorImage), String>;

/// What is done with a file.
enum FileWork {
    Write(Output, Option<PutAway>),
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

/// The pages of a sheet.
pub struct SetPages {
    number: u64,
    key: SheetKey,
    width: u32,
    sizes: Vec<(f64, f64)>,
    replaced: Option<String>,
    pdf: Option<PutAway>,
    /// All of its pages are drawn, and the PDF is there.
    whole: bool,
}

impl SetPages {
    /// How many pages there are.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.sizes.len()
    }

    /// Width and height of a page, points of 1/72 inch; `None` where there is no such page.
    #[must_use]
    pub fn page_size(&self, page: usize) -> Option<(f64, f64)> {
        self.sizes.get(page).copied()
    }

    /// Whether they are those of this key.
    #[must_use]
    pub fn is_of(&self, key: &SheetKey) -> bool {
        self.key == *key
    }

    /// A sentence about characters that had to be replaced, if any had.
    #[must_use]
    pub fn replaced(&self) -> Option<&str> {
        self.replaced.as_deref()
    }
}

/// What is being set.
struct Running {
    key: SheetKey,
    width: u32,
    at: Step,
}

/// Sheets being set, and the one that is there.
pub struct Typesetting {
    spawner: Spawner,
    wake: Wake,
    effort: Effort,
    setter: Setter,
    setting: Task<Order, News>,
    unpacking: Task<Packed, Unpacked>,
    files: Task<FileWork, FileNews>,
    /// The sheet being set, and how far it is.
    running: Option<Running>,
    ready: Option<SetPages>,
    /// How many sheets have begun to come: no two of them have the same number.
    begun: u64,
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
    pub fn new(spawner: Spawner, wake: Wake, effort: Effort, setter: Setter) -> Self {
        let writer = setter.clone();
        Self {
            setting: Task::new(
                &spawner,
                &wake,
                Manner::at_once("The sheet could not be set"),
                set,
            ),
            unpacking: Task::new(
                &spawner,
                &wake,
                Manner::at_once("A page could not be drawn"),
                |packed: Packed, line| {
                    let image = packed.unpacked();
                    line.send(image.map(|image| (packed.number, packed.page, image)));
                },
            ),
            files: Task::new(
                &spawner,
                &wake,
                Manner::at_once("The file could not be written or opened"),
                move |work, line| {
                    line.send(match work {
                        FileWork::Write(output, pdf) => {
                            FileNews::Written(output.write(pdf.as_ref(), &writer))
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
            setter,
            running: None,
            ready: None,
            begun: 0,
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
            self.setter.clone(),
        );
    }

    /// Says which sheet is wanted, and how its pages are drawn. Nothing happens while it is there or
    /// being set; another one being set is given up.
    pub fn want(&mut self, key: &SheetKey, look: Look, of: &Arc<Revised>, path: Option<&Path>) {
        let running = self.running.as_ref();
        if running.is_some_and(|run| run.key == *key && run.width == look.width) {
            return;
        }
        if self.is_ready(key, look.width) {
            self.stop_setting();
            // What was given up in between is wanted no more, nor why.
            self.given_up = None;
            return;
        }
        if self.given_up.as_ref().is_some_and(|(of, _)| of == key) {
            return;
        }
        self.given_up = None;
        self.running = Some(Running {
            key: key.clone(),
            width: look.width,
            at: Step::Photos,
        });
        let order = Order {
            key: key.clone(),
            of: Arc::clone(of),
            path: path.map(Path::to_owned),
            photos: self.photos.clone(),
            effort: self.effort,
            setter: self.setter.clone(),
            look,
        };
        let refused = self.setting.submit(order).err();
        self.give_up(refused);
    }

    /// Whether the sheet with this key is there as a whole, drawn so wide.
    fn is_ready(&self, key: &SheetKey, width: u32) -> bool {
        let ready = self.ready.as_ref();
        ready.is_some_and(|ready| ready.whole && ready.key == *key && ready.width == width)
    }

    /// Stops what is being set; a part of a sheet is none.
    fn stop_setting(&mut self) {
        if self.running.take().is_some() {
            self.setting.forget();
        }
        self.ready = self.ready.take().filter(|ready| ready.whole);
    }

    /// Gives up what is being set, for this reason.
    fn give_up(&mut self, why: Option<String>) {
        if let Some(why) = why
            && let Some(Running { key, .. }) = self.running.take()
        {
            self.given_up = Some((key, why));
            self.ready = self.ready.take().filter(|ready| ready.whole);
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

    /// Shows the pages in sight; pages out of sight are let go.
    pub fn show(&mut self, in_sight: Range<usize>) {
        let Some(ready) = &self.ready else { return };
        let missing = self.pictures.missing(in_sight, ready.number);
        // What came into sight last is unpacked first.
        for packed in missing.into_iter().rev() {
            let refused = self.unpacking.add_first(packed).err();
            self.told.extend(refused.map(Told::Failed));
        }
    }

    /// The page with the sheet was left: nothing is set any more, and no picture is kept unpacked.
    pub fn left(&mut self) {
        self.stop_setting();
        if !self.pictures.none_in_sight() {
            self.pictures.let_go();
            self.unpacking.forget();
        }
    }

    /// Writes a file; the window is told how it went.
    pub fn write(&mut self, output: Output) {
        let pdf = self.ready.as_ref().and_then(|ready| ready.pdf.clone());
        self.writing = true;
        self.with_files(FileWork::Write(output, pdf));
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
        let (unpacked, failed) = self.unpacking.collect();
        self.told.extend(failed.map(Told::Failed));
        for unpacked in unpacked {
            match unpacked {
                Ok((number, page, image)) => self.pictures.take(ctx, page, number, image),
                Err(words) => self.told.push(Told::Failed(words)),
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
                if let Some(running) = &mut self.running {
                    running.at = step;
                }
            }
            News::Copies(photos) => self.photos = Some(photos),
            News::Pages { sizes, replaced } => self.begin(sizes, replaced),
            News::Picture { page, png } => self.pictures.pack(page, png),
            News::Pdf(pdf) => {
                self.running = None;
                if let Some(ready) = &mut self.ready {
                    ready.pdf = Some(pdf);
                    ready.whole = true;
                }
            }
            News::Failed(words) => self.give_up(Some(words)),
        }
    }

    /// Begins with the pages of a sheet, none of which is drawn yet.
    fn begin(&mut self, sizes: Vec<(f64, f64)>, replaced: Option<String>) {
        let Some(running) = &self.running else { return };
        let before = self.ready.take();
        self.begun += 1;
        // The same sheet drawn wider or narrower is the same PDF.
        let same = before.filter(|before| before.key == running.key);
        self.pictures.begin();
        self.unpacking.forget();
        self.ready = Some(SetPages {
            number: self.begun,
            key: running.key.clone(),
            width: running.width,
            sizes,
            replaced,
            pdf: same.and_then(|same| same.pdf),
            whole: false,
        });
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
    pub fn pages(&self) -> Option<&SetPages> {
        self.ready.as_ref()
    }

    /// Whether the pages are those of this key, all of them with their PDF.
    #[must_use]
    pub fn shows(&self, key: &SheetKey) -> bool {
        let whole = |ready: &SetPages| ready.is_of(key) && ready.pdf.is_some();
        self.ready.as_ref().is_some_and(whole)
    }

    /// What is being done, while something is; to draw the pages wider or narrower is nothing to wait
    /// for.
    #[must_use]
    pub fn step(&self) -> Option<Step> {
        let running = self.running.as_ref()?;
        (!self.shows(&running.key)).then_some(running.at)
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
