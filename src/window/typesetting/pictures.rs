//! Pictures of the pages: all of them as they came, packed, and those in sight unpacked, since each
//! of these holds as much memory as the screen.

use super::put_away::PutAway;
use eframe::egui;
use egui::{ColorImage, TextureHandle, TextureOptions};
use image::ImageFormat;
use std::collections::BTreeMap;
use std::ops::Range;

/// A page to unpack: which it is, of the sheet with this number, as PNG.
pub(super) struct Packed {
    pub(super) page: usize,
    pub(super) number: u64,
    png: PutAway,
}

impl Packed {
    /// Unpacks it.
    pub(super) fn unpacked(&self) -> Result<ColorImage, String> {
        let failed = |error: &dyn std::fmt::Display| {
            format!("page {} could not be drawn: {error}", self.page + 1)
        };
        let png = self.png.bytes().map_err(|error| failed(&error))?;
        let picture = image::load_from_memory_with_format(&png, ImageFormat::Png)
            .map_err(|error| failed(&error))?;
        let picture = picture.into_rgb8();
        let pixels = |number: u32| usize::try_from(number).unwrap_or(usize::MAX);
        let size = [pixels(picture.width()), pixels(picture.height())];
        Ok(ColorImage::from_rgb(size, picture.as_raw()))
    }
}

/// A page in sight.
#[derive(Default)]
struct Kept {
    /// The sheet that its picture was asked of.
    asked: Option<u64>,
    texture: Option<TextureHandle>,
}

/// The pictures.
#[derive(Default)]
pub(super) struct Pictures {
    /// Those of the newest sheet, by page.
    packed: BTreeMap<usize, PutAway>,
    kept: BTreeMap<usize, Kept>,
}

impl Pictures {
    /// Takes a page as it came.
    pub(super) fn pack(&mut self, page: usize, png: PutAway) {
        self.packed.insert(page, png);
    }

    /// The pages to unpack for these to be in sight, of the sheet with this number; all others are let
    /// go. Those of an older sheet stay until the newer are there.
    pub(super) fn missing(&mut self, in_sight: Range<usize>, number: u64) -> Vec<Packed> {
        self.kept.retain(|page, _| in_sight.contains(page));
        let there = self.packed.range(in_sight);
        let mut missing = Vec::new();
        for (page, png) in there {
            let kept = self.kept.entry(*page).or_default();
            if kept.asked.replace(number) != Some(number) {
                missing.push(Packed {
                    page: *page,
                    number,
                    png: png.clone(),
                });
            }
        }
        missing
    }

    /// Takes a page that was unpacked, unless it is wanted no more.
    pub(super) fn take(
        &mut self,
        ctx: &egui::Context,
        page: usize,
        number: u64,
        image: ColorImage,
    ) {
        let Some(kept) = self.kept.get_mut(&page) else {
            return;
        };
        if kept.asked != Some(number) {
            return;
        }
        match &mut kept.texture {
            Some(texture) => texture.set(image, TextureOptions::LINEAR),
            none => {
                let name = format!("page {}", page + 1);
                *none = Some(ctx.load_texture(name, image, TextureOptions::LINEAR));
            }
        }
    }

    /// Another sheet begins: the packed pages of the older one are of no use any more.
    pub(super) fn begin(&mut self) {
        self.packed.clear();
    }

    /// Lets go of those in sight.
    pub(super) fn let_go(&mut self) {
        self.kept.clear();
    }

    /// Whether no page is in sight.
    pub(super) fn none_in_sight(&self) -> bool {
        self.kept.is_empty()
    }

    /// The picture of a page.
    pub(super) fn of(&self, page: usize) -> Option<&TextureHandle> {
        self.kept.get(&page)?.texture.as_ref()
    }
}
