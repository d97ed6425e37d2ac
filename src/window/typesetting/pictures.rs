//! Pictures of the pages in sight, and of no others: each holds as much memory as the screen.

use crate::sheet::Typeset;
use crate::sheet::typeset::PagePicture;
use eframe::egui;
use egui::{ColorImage, TextureHandle, TextureOptions};
use std::collections::BTreeMap;
use std::ops::Range;

/// Longest side of a picture, pixels: graphics cards refuse more than 8192.
const LONGEST: f64 = 4096.0;

/// A page to draw, or drawn.
pub(super) struct Drawing {
    page: usize,
    width: u32,
    scale: f64,
    picture: Option<PagePicture>,
}

impl Drawing {
    /// Draws it.
    pub(super) fn draw(mut self, pages: &Typeset) -> Self {
        self.picture = pages.picture(self.page, self.scale);
        self
    }
}

struct Kept {
    /// Width asked for, pixels; `None` while it is of an older sheet.
    width: Option<u32>,
    texture: Option<TextureHandle>,
}

/// The pictures.
#[derive(Default)]
pub(super) struct Pictures {
    kept: BTreeMap<usize, Kept>,
}

impl Pictures {
    /// The pages to draw for these to be in sight; all others are let go.
    pub(super) fn missing(
        &mut self,
        pages: &Typeset,
        in_sight: Range<usize>,
        width: u32,
    ) -> Vec<Drawing> {
        let (first, last) = (in_sight.start, in_sight.end.min(pages.pages()));
        self.kept.retain(|page, _| (first..last).contains(page));
        let mut drawings = Vec::new();
        for page in first..last {
            let Some((wide, high)) = pages.page_size(page) else {
                continue;
            };
            let kept = self.kept.entry(page).or_insert(Kept {
                width: None,
                texture: None,
            });
            if kept.width == Some(width) {
                continue;
            }
            kept.width = Some(width);
            let scale = (f64::from(width) / wide).min(LONGEST / wide.max(high));
            drawings.push(Drawing {
                page,
                width,
                scale,
                picture: None,
            });
        }
        drawings
    }

    /// Takes a drawn page, unless it is wanted no more.
    pub(super) fn take(&mut self, ctx: &egui::Context, drawn: Drawing) {
        let Some(kept) = self.kept.get_mut(&drawn.page) else {
            return;
        };
        let (Some(picture), true) = (drawn.picture, kept.width == Some(drawn.width)) else {
            return;
        };
        let size = [picture.width, picture.height];
        let image = ColorImage::from_rgba_premultiplied(size, &picture.rgba);
        match &mut kept.texture {
            Some(texture) => texture.set(image, TextureOptions::LINEAR),
            none => {
                let name = format!("page {}", drawn.page + 1);
                *none = Some(ctx.load_texture(name, image, TextureOptions::LINEAR));
            }
        }
    }

    /// The pages were set anew: the old pictures stay in sight until the new ones are there.
    pub(super) fn age(&mut self) {
        for kept in self.kept.values_mut() {
            kept.width = None;
        }
    }

    /// Lets go of all of them.
    pub(super) fn let_go(&mut self) {
        self.kept.clear();
    }

    /// Whether no page is drawn or asked for.
    pub(super) fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }

    /// The picture of a page.
    pub(super) fn of(&self, page: usize) -> Option<&TextureHandle> {
        self.kept.get(&page)?.texture.as_ref()
    }
}
