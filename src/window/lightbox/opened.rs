//! The photo shown large, and what is being done to it.

use crate::survey::{Edit, Gap, GapId, MergeKey, Photo, PhotoMark};
use crate::window::request::Queue;

/// What a drag on the photo draws.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::window) enum Tool {
    /// A circle from its middle outwards.
    #[default]
    Circle,
    /// An arrow from its tail to its tip.
    Arrow,
}

/// What the pointer is doing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Drag {
    /// Drawing a mark that began here, in shares of the picture.
    Draw { from: (f64, f64), to: (f64, f64) },
    /// Moving the selected mark; the pointer was here last.
    Move { last: (f64, f64) },
}

/// The photo shown large, and what is being done to it.
#[derive(Clone, Debug)]
pub(in crate::window) struct Lightbox {
    pub(super) gap: GapId,
    pub(super) name: String,
    pub(super) tool: Tool,
    /// The mark selected, by its place in the list.
    pub(super) selected: Option<usize>,
    pub(super) drag: Option<Drag>,
    /// The photo takes the focus in the next frame.
    pub(super) fresh: bool,
}

impl Lightbox {
    /// Opens a photo of a gap.
    #[must_use]
    pub(in crate::window) fn new(gap: GapId, name: &str) -> Self {
        Self {
            gap,
            name: name.to_owned(),
            tool: Tool::default(),
            selected: None,
            drag: None,
            fresh: true,
        }
    }
}

/// The gap and the place of the photo in it.
pub(super) struct At<'a> {
    pub(super) gap: &'a Gap,
    pub(super) at: usize,
    pub(super) photo: &'a Photo,
}

impl At<'_> {
    /// Queues a change of the photo.
    pub(super) fn change(
        &self,
        queue: &mut Queue,
        merge: Option<MergeKey>,
        change: impl FnOnce(&mut Photo),
    ) {
        let mut gap = self.gap.clone();
        if let Some(photo) = gap.photos.get_mut(self.at) {
            change(photo);
        }
        queue.edit(Edit::gap(gap), merge);
    }

    /// Changes one mark; changes of the same mark in a row are one step.
    pub(super) fn change_mark(&self, queue: &mut Queue, number: usize, mark: PhotoMark) {
        let key = MergeKey(format!(
            "mark {number} of {} at {}",
            self.photo.name, self.gap.id
        ));
        self.change(queue, Some(key), |photo| {
            if let Some(old) = photo.marks.get_mut(number) {
                *old = rounded(mark);
            }
        });
    }
}

/// Shows another photo of the gap.
pub(super) fn turn_to(
    queue: &mut Queue,
    lightbox: &mut Lightbox,
    here: &At<'_>,
    at: Option<usize>,
) {
    if let Some(photo) = at.and_then(|at| here.gap.photos.get(at)) {
        queue.close_step();
        *lightbox = Lightbox {
            tool: lightbox.tool,
            ..Lightbox::new(here.gap.id, &photo.name)
        };
    }
}

/// The mark with its places rounded to a ten-thousandth of the picture, less than a pixel: the file
/// stays readable.
pub(super) fn rounded(mark: PhotoMark) -> PhotoMark {
    let round = |share: f64| (share * 1e4).round() / 1e4;
    mark.changed(|across, down| (round(across), round(down)), round)
}
