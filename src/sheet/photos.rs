//! Photos made ready for print: upright, small enough, and surely readable.

use super::blocks::Picture;
use crate::survey::Survey;
use crate::survey::file::{
    Picture as Decoded, PictureError as Unreadable, Pixels, is_plain_file_name, photo_folder,
    png_of, read_photo_file, ready_print_copy,
};
use crate::tasks::processors;
use image::codecs::jpeg::JpegEncoder;
use image::{Rgb, RgbImage};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

/// Longest side of a photo on paper, pixels: 300 to the inch at the size they are printed.
const LONGEST_SIDE: u32 = 800;
/// Bytes that all photos of a sheet may take together.
const ALL_PHOTOS: usize = 5_000_000;
/// Bytes that one photo may take, however few there are.
const ONE_PHOTO: usize = 200_000;
/// Qualities tried until a photo is small enough, each with the least that a photo was seen to take with
/// it, in hundredths of what it takes with the first: of smooth pictures and of grainy ones **\[N\]**. One
/// with which a photo cannot be small enough is not tried. The last is taken whatever it takes.
const QUALITIES: [(u8, usize); 4] = [(82, 100), (72, 65), (60, 48), (45, 34)];
/// Longest side of a logo, pixels.
const LOGO_SIDE: u32 = 1200;

/// Why a picture cannot be used.
#[derive(Debug, thiserror::Error)]
#[error("{path:?}: {why}")]
pub struct PictureError {
    /// The file.
    pub path: PathBuf,
    /// What is wrong, and what to do.
    pub why: Unreadable,
}

/// Copies for print of all photos of a survey, by name. Those that are missing or cannot be read
/// are left out; the sheet names them. Stops early once `stopped` says so.
#[must_use]
pub fn print_copies(
    survey_file: &Path,
    survey: &Survey,
    stopped: &(impl Fn() -> bool + Sync),
) -> BTreeMap<String, Picture> {
    let folder = photo_folder(survey_file);
    let photos = survey.gaps.iter().flat_map(|gap| &gap.photos);
    let names: BTreeSet<&String> = photos.map(|photo| &photo.name).collect();
    let names: Vec<&String> = names
        .into_iter()
        .filter(|name| is_plain_file_name(name))
        .collect();
    let budget = (ALL_PHOTOS / names.len().max(1)).min(ONE_PHOTO);
    let next = AtomicUsize::new(0);
    let copies = Mutex::new(BTreeMap::new());
    let work = || {
        while !stopped() {
            let Some(name) = names.get(next.fetch_add(1, Ordering::Relaxed)) else {
                return;
            };
            // The copy made when the photo was attached is read far quicker than the photo.
            let ready = ready_print_copy(&folder, name);
            let path = ready.unwrap_or_else(|| folder.join(name));
            if let Ok(picture) = printable(&path, budget) {
                let mut copies = copies.lock().unwrap_or_else(PoisonError::into_inner);
                copies.insert((*name).clone(), picture);
            }
        }
    };
    let workers = processors();
    thread::scope(|scope| {
        for _ in 1..workers.min(names.len()) {
            // Where no more threads start, this one does the work.
            let _ = thread::Builder::new()
                .name("photos".to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    copies.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// One photo as JPEG within a number of bytes, where quality allows.
fn printable(path: &Path, budget: usize) -> Result<Picture, PictureError> {
    let image = on_white(&pixels(path, LONGEST_SIDE)?);
    let mut out = Vec::new();
    let mut with_the_first = 0;
    for (at, (quality, least)) in QUALITIES.into_iter().enumerate() {
        let is_last = at + 1 == QUALITIES.len();
        if !is_last && with_the_first * least / 100 > budget {
            continue;
        }
        out.clear();
        JpegEncoder::new_with_quality(&mut out, quality)
            .encode_image(&image)
            .map_err(|_| PictureError {
                path: path.to_owned(),
                why: Unreadable::Damaged,
            })?;
        if out.len() <= budget {
            break;
        }
        with_the_first = with_the_first.max(out.len());
    }
    Ok(Picture {
        width: image.width(),
        height: image.height(),
        bytes: Arc::new(out),
    })
}

/// A logo, see-through where it is.
///
/// # Errors
/// [`PictureError`].
pub fn logo(path: &Path) -> Result<Picture, PictureError> {
    let pixels = pixels(path, LOGO_SIDE)?;
    let (width, height) = (pixels.width, pixels.height);
    let bytes = png_of(pixels).map_err(|why| PictureError {
        path: path.to_owned(),
        why,
    })?;
    Ok(Picture {
        width,
        height,
        bytes: Arc::new(bytes),
    })
}

fn pixels(path: &Path, longest_side: u32) -> Result<Pixels, PictureError> {
    let failed = |why| PictureError {
        path: path.to_owned(),
        why,
    };
    let bytes = read_photo_file(path).map_err(failed)?;
    let small = |picture: &Decoded| picture.pixels(longest_side);
    Decoded::read_in_turn(&bytes, small).map_err(failed)
}

/// A picture on white paper.
fn on_white(pixels: &Pixels) -> RgbImage {
    let mut image = RgbImage::new(pixels.width, pixels.height);
    let each = pixels.rgba.chunks_exact(4);
    for (place, pixel) in image.pixels_mut().zip(each) {
        if let &[red, green, blue, opacity] = pixel {
            let over = |colour: u8| {
                let (colour, opacity) = (u32::from(colour), u32::from(opacity));
                u8::try_from((colour * opacity + 255 * (255 - opacity)) / 255).unwrap_or(u8::MAX)
            };
            *place = Rgb([over(red), over(green), over(blue)]);
        }
    }
    image
}
