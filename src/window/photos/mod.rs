//! Photos in the window: thumbnails, the photo shown large, what is known of each file.
//!
//! Everything that reads or writes happens on one worker. The pages ask for pictures while they
//! draw; what is not there yet is fetched after the frame, and only what was drawn in the last
//! frame stays on the graphics card.

mod worker;

pub use worker::Source;

use super::background::{Manner, Spawner, Status, Task, Wake};
use super::samples::SamplePhoto;
use crate::survey::file::{PhotoState, data_names, photo_folder};
use crate::survey::{GapId, Survey};
use eframe::egui::{ColorImage, Context, TextureHandle, TextureOptions, Vec2, load::SizedTexture};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use worker::{Carry, Done, Folders, SCREEN_PIXELS, Size, Work};

/// Pictures kept in memory, each 256 kB at most; more are read again in a moment.
const MOST_THUMBNAILS: usize = 24;

/// What there is to see of a photo.
#[derive(Clone, Debug, PartialEq)]
pub enum Sight {
    /// The picture and its size in pixels.
    Here(SizedTexture),
    /// It is being read.
    Coming,
    /// There is nothing to see, for this reason.
    Trouble(String),
}

/// A picture in memory, and on the graphics card while it is drawn.
struct Shown {
    /// Nothing of a photo shown large once it is on the graphics card: it is not needed twice.
    image: Result<Option<Arc<ColorImage>>, String>,
    /// In pixels.
    extent: Vec2,
    texture: Option<TextureHandle>,
    /// When it was last drawn, in frames.
    drawn: u64,
}

/// A photo that has come in for a gap.
pub(super) struct Arrived {
    pub(super) gap: GapId,
    pub(super) batch: u64,
    pub(super) kept: Result<String, String>,
}

/// The photos of the open survey.
pub struct Photos {
    /// One photo at a time: each may take hundreds of megabytes while it is decoded.
    task: Task<(u64, Folders, Work), (u64, Done)>,
    folders: Folders,
    /// Grows with every survey opened; answers for another one are dropped.
    survey: u64,
    pictures: BTreeMap<(Size, String), Shown>,
    wanted: BTreeSet<(Size, String)>,
    asked: BTreeSet<(Size, String)>,
    frame: u64,
    states: BTreeMap<String, PhotoState>,
    looking: BTreeSet<String>,
    /// Every name that a gap had since the survey was opened.
    named: BTreeSet<String>,
    /// Revision and count of answers for which findings were made last.
    noted: Option<(u64, u64)>,
    answers: u64,
    batches: u64,
    attaching: usize,
    carrying: usize,
    arrived: Vec<Arrived>,
    troubles: Vec<String>,
}

impl Photos {
    /// The program's own folder for photos of changes that are not saved.
    #[must_use]
    pub fn holding(&self) -> Option<&Path> {
        self.folders.holding.as_deref()
    }

    /// No survey yet. `holding` is the folder for photos of changes that are not saved.
    #[must_use]
    pub fn new(spawner: &Spawner, holding: Option<PathBuf>, wake: &Wake) -> Self {
        let manner = Manner::at_once("A photo could not be read or kept");
        let task = Task::new(spawner, wake, manner, |(survey, folders, work), line| {
            if let Some(done) = worker::run(&folders, work) {
                line.send((survey, done));
            }
        });
        let mut photos = Self {
            task,
            folders: Folders {
                beside: None,
                holding,
            },
            survey: 0,
            pictures: BTreeMap::new(),
            wanted: BTreeSet::new(),
            asked: BTreeSet::new(),
            frame: 0,
            states: BTreeMap::new(),
            looking: BTreeSet::new(),
            named: BTreeSet::new(),
            noted: None,
            answers: 0,
            batches: 0,
            attaching: 0,
            carrying: 0,
            arrived: Vec::new(),
            troubles: Vec::new(),
        };
        photos.submit(Work::ClearHolding);
        photos
    }

    /// Begins with the photos of another survey.
    pub(super) fn open(&mut self, survey_path: Option<&Path>) {
        self.survey += 1;
        self.folders.beside = survey_path.map(photo_folder);
        self.named.clear();
        self.attaching = 0;
        self.noted = None;
        self.forget();
    }

    /// Looks at every file again: somebody may have put photos into the folder.
    pub(super) fn look_again(&mut self) {
        self.pictures.retain(|_, shown| shown.image.is_ok());
        self.states.clear();
        self.looking.clear();
    }

    fn forget(&mut self) {
        self.pictures.clear();
        self.wanted.clear();
        self.asked.clear();
        self.states.clear();
        self.looking.clear();
    }

    /// Takes photos in for a gap; they arrive later.
    pub(super) fn attach(&mut self, gap: GapId, sources: Vec<Source>) {
        self.batches += 1;
        for source in sources {
            self.attaching += 1;
            let batch = self.batches;
            self.submit(Work::Attach { gap, batch, source });
        }
    }

    /// Brings the photos of a sample where those of changes that are not saved are.
    pub(super) fn unpack(&mut self, photos: &'static [SamplePhoto]) {
        if !photos.is_empty() {
            self.submit(Work::Unpack(photos));
        }
    }

    /// Whether photos are on their way into the survey.
    #[must_use]
    pub fn attaching(&self) -> bool {
        self.attaching > 0
    }

    /// Whether photos are still being copied beside a survey that was saved.
    #[must_use]
    pub fn carrying(&self) -> bool {
        self.carrying > 0
    }

    /// Brings the photos beside the file that was just saved.
    pub(super) fn saved(&mut self, path: &Path, survey: &Survey) {
        let to = photo_folder(path);
        let now = names(survey);
        let own = self.folders.beside.as_deref() == Some(&*to);
        let aside = if own {
            self.named.difference(&now).cloned().collect()
        } else {
            Vec::new()
        };
        let from = [self.folders.beside.take(), self.folders.holding.clone()];
        self.folders.beside = Some(to.clone());
        let data: Vec<String> = data_names(survey).into_iter().collect();
        if now.is_empty() && aside.is_empty() && data.is_empty() {
            return;
        }
        self.carrying += 1;
        self.submit(Work::Carry(Carry {
            names: now.into_iter().collect(),
            from: from.into_iter().flatten().collect(),
            to,
            aside,
            data,
        }));
    }

    fn submit(&mut self, work: Work) {
        let entry = (self.survey, self.folders.clone(), work);
        // The photo somebody is looking at goes before all that waits.
        let started = match entry.2 {
            Work::Show {
                size: Size::Screen | Size::Large,
                ..
            } => self.task.add_first(entry),
            _ => self.task.add(entry),
        };
        self.troubles.extend(started.err());
    }

    /// Once a frame: fetches what was asked for and takes in what has come back.
    pub(super) fn tick(&mut self, revision: Option<u64>, survey: Option<&Survey>) {
        for key in std::mem::take(&mut self.wanted) {
            if !self.pictures.contains_key(&key) && self.asked.insert(key.clone()) {
                let (size, name) = key;
                self.submit(Work::Show { name, size });
            }
        }
        self.let_go();
        if let (Some(_), Some(survey)) = (revision, survey) {
            let unknown: Vec<String> = names(survey)
                .into_iter()
                .filter(|name| !self.states.contains_key(name) && !self.looking.contains(name))
                .collect();
            self.named.extend(unknown.iter().cloned());
            if !unknown.is_empty() {
                self.looking.extend(unknown.iter().cloned());
                self.submit(Work::Look(unknown));
            }
        }
        self.collect();
    }

    /// Takes in what has come back.
    pub(super) fn collect(&mut self) {
        let (all, failed) = self.task.collect();
        for (survey, done) in all {
            match done {
                Done::Carried(failed) => self.carried(&failed),
                _ if survey != self.survey => {}
                done => self.take(done),
            }
        }
        if failed.is_some() && self.task.status() == Status::Idle {
            // Nothing is on its way any more, whichever of it fell.
            (self.attaching, self.carrying) = (0, 0);
        }
        self.troubles.extend(failed);
    }

    fn take(&mut self, done: Done) {
        self.answers += 1;
        match done {
            Done::Attached { gap, batch, kept } => {
                self.attaching = self.attaching.saturating_sub(1);
                let kept = kept.map(|(name, image)| {
                    self.states.insert(name.clone(), PhotoState::Present);
                    self.named.insert(name.clone());
                    self.put(Size::Thumbnail, name.clone(), Ok(image));
                    name
                });
                self.arrived.push(Arrived { gap, batch, kept });
            }
            Done::Shown { name, size, image } => {
                self.asked.remove(&(size, name.clone()));
                let image = image.map_err(|(state, words)| {
                    self.states.insert(name.clone(), state);
                    words
                });
                self.put(size, name, image);
            }
            Done::Looked(states) => {
                for (name, state) in states {
                    self.looking.remove(&name);
                    self.states.insert(name, state);
                }
            }
            Done::Carried(failed) => self.carried(&failed),
        }
    }

    fn carried(&mut self, failed: &[(String, String)]) {
        self.carrying = self.carrying.saturating_sub(1);
        if let Some((_, reason)) = failed.first() {
            self.troubles.push(format!(
                "{} file(s) could not be put beside the survey: {reason}. They are kept in the \
                 program's own folder: free the place and save again.",
                failed.len()
            ));
        }
    }

    fn put(&mut self, size: Size, name: String, image: Result<Arc<ColorImage>, String>) {
        if size != Size::Thumbnail {
            self.pictures
                .retain(|(size, _), _| *size == Size::Thumbnail);
        }
        let shown = Shown {
            extent: image.as_ref().map_or(Vec2::ZERO, |image| extent(image)),
            image: image.map(Some),
            texture: None,
            drawn: self.frame,
        };
        self.pictures.insert((size, name), shown);
        while self.pictures.len() > MOST_THUMBNAILS {
            let frame = self.frame;
            let oldest = self
                .pictures
                .iter()
                .filter(|(_, shown)| shown.drawn + 1 < frame)
                .min_by_key(|(_, shown)| shown.drawn)
                .map(|(key, _)| key.clone());
            let Some(oldest) = oldest else { break };
            self.pictures.remove(&oldest);
        }
    }

    /// What was not drawn in the last frame leaves the graphics card, and a large photo the memory.
    fn let_go(&mut self) {
        let frame = self.frame;
        self.pictures
            .retain(|(size, _), shown| *size == Size::Thumbnail || shown.drawn == frame);
        for shown in self.pictures.values_mut() {
            if shown.drawn != frame {
                shown.texture = None;
            }
        }
        self.frame += 1;
    }

    /// Photos that came in since, and sentences to tell.
    pub(super) fn arrivals(&mut self) -> (Vec<Arrived>, Vec<String>) {
        (
            std::mem::take(&mut self.arrived),
            std::mem::take(&mut self.troubles),
        )
    }

    /// What is known of each photo's file, where that has changed since the last call.
    pub(super) fn news(&mut self, revision: u64) -> Option<&BTreeMap<String, PhotoState>> {
        let now = Some((revision, self.answers));
        if self.noted == now {
            return None;
        }
        self.noted = now;
        Some(&self.states)
    }

    /// The photo small, fetched if it is not there.
    pub fn thumbnail(&mut self, ctx: &Context, name: &str) -> Sight {
        self.sight(ctx, Size::Thumbnail, name)
    }

    /// The photo as large as it is shown, where there is room for so many pixels; until that has
    /// come, what is there of it.
    pub fn large(&mut self, ctx: &Context, name: &str, room: Vec2) -> Sight {
        let small = self.sight(ctx, Size::Thumbnail, name);
        let longest = match &small {
            Sight::Here(there) => (room / there.size).min_elem() * there.size.max_elem(),
            _ => room.max_elem(),
        };
        #[expect(clippy::cast_precision_loss, reason = "a small number of pixels")]
        let enough = longest <= SCREEN_PIXELS as f32;
        let there = |size| self.pictures.contains_key(&(size, name.to_owned()));
        let (has_screen, has_large) = (there(Size::Screen), there(Size::Large));
        let wanted = if enough && !has_large {
            Size::Screen
        } else {
            Size::Large
        };
        match self.sight(ctx, wanted, name) {
            Sight::Coming if has_screen => self.sight(ctx, Size::Screen, name),
            Sight::Coming => small,
            sight => sight,
        }
    }

    /// Pictures on the graphics card.
    #[must_use]
    pub fn uploaded(&self) -> usize {
        let there = |shown: &&Shown| shown.texture.is_some();
        self.pictures.values().filter(there).count()
    }

    fn sight(&mut self, ctx: &Context, size: Size, name: &str) -> Sight {
        let key = (size, name.to_owned());
        let Some(shown) = self.pictures.get_mut(&key) else {
            if !self.asked.contains(&key) && self.wanted.insert(key) {
                ctx.request_repaint();
            }
            return Sight::Coming;
        };
        shown.drawn = self.frame;
        let image = match &mut shown.image {
            Err(words) => return Sight::Trouble(words.clone()),
            Ok(image) if size == Size::Thumbnail => image.clone(),
            Ok(image) => image.take(),
        };
        if shown.texture.is_none() {
            let load = |image| ctx.load_texture(name, image, TextureOptions::LINEAR);
            shown.texture = image.map(load);
        }
        match &shown.texture {
            Some(texture) => Sight::Here(SizedTexture::new(texture.id(), shown.extent)),
            None => Sight::Coming,
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "at most 2048 pixels")]
fn extent(image: &ColorImage) -> Vec2 {
    let [width, height] = image.size;
    Vec2::new(width as f32, height as f32)
}

/// The program's own folder for photos of changes that are not saved.
#[must_use]
pub fn holding_folder() -> Option<PathBuf> {
    use etcetera::BaseStrategy;
    let folders = etcetera::choose_base_strategy().ok()?;
    Some(folders.data_dir().join("gapledger").join("photos"))
}

/// The names of all photos of a survey.
fn names(survey: &Survey) -> BTreeSet<String> {
    let photos = survey.gaps.iter().flat_map(|gap| &gap.photos);
    photos.map(|photo| photo.name.clone()).collect()
}
