//! Photos made ready for print: upright, small enough, and surely readable.

use super::blocks::Picture;
use crate::survey::Survey;
use crate::survey::file::{is_plain_file_name, photo_folder};
use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits, RgbImage};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::{fs, thread};

/// Longest side of a photo on paper, pixels: 300 to the inch at the size they are printed.
const LONGEST_SIDE: u32 = 800;
/// Bytes that all photos of a sheet may take together.
const ALL_PHOTOS: usize = 5_000_000;
/// Bytes that one photo may take, however few there are.
const ONE_PHOTO: usize = 200_000;
/// Qualities tried until a photo is small enough; the last is taken whatever it takes.
const QUALITIES: [u8; 4] = [82, 72, 60, 45];
/// Sides of a picture that is still opened, pixels.
const MOST_PIXELS: u32 = 20_000;
/// Memory that opening one picture may take.
const MOST_MEMORY: u64 = 512 << 20;
/// Longest file that is read.
const MOST_BYTES: u64 = 200 << 20;
/// Longest side of a logo, pixels.
const LOGO_SIDE: u32 = 1200;

/// Why a picture cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum PictureError {
    /// The file cannot be read.
    #[error("{path:?} cannot be read ({source}): check that it is there and may be read")]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// It is too long.
    #[error("{path:?} is longer than 200 MB: take a smaller picture")]
    TooLong {
        /// The file.
        path: PathBuf,
    },
    /// It is no picture that can be read.
    #[error("{path:?} is no picture that can be read ({source}): take a JPEG, PNG or WebP file")]
    Picture {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        source: image::ImageError,
    },
}

/// Copies for print of all photos of a survey, by name. Those that are missing or cannot be read
/// are left out; the sheet names them. Stops early when `cancel` is set.
#[must_use]
pub fn print_copies(
    survey_file: &Path,
    survey: &Survey,
    cancel: &AtomicBool,
) -> BTreeMap<String, Picture> {
    let folder = photo_folder(survey_file);
    let names: BTreeSet<&String> = survey.gaps.iter().flat_map(|gap| &gap.photos).collect();
    let names: Vec<&String> = names
        .into_iter()
        .filter(|name| is_plain_file_name(name))
        .collect();
    let budget = (ALL_PHOTOS / names.len().max(1)).min(ONE_PHOTO);
    let next = AtomicUsize::new(0);
    let copies = Mutex::new(BTreeMap::new());
    let work = || {
        while !cancel.load(Ordering::Relaxed) {
            let Some(name) = names.get(next.fetch_add(1, Ordering::Relaxed)) else {
                return;
            };
            if let Ok(picture) = print_copy(&folder.join(name), budget) {
                let mut copies = copies.lock().unwrap_or_else(PoisonError::into_inner);
                copies.insert((*name).clone(), picture);
            }
        }
    };
    let workers = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 1..workers.min(names.len()) {
            let _ = thread::Builder::new()
                .name("photos".to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    copies.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// One photo for print: upright, at most 800 pixels long, as JPEG within a number of bytes where
/// quality allows.
///
/// # Errors
/// [`PictureError`].
pub fn print_copy(path: &Path, budget: usize) -> Result<Picture, PictureError> {
    let bytes = read(path)?;
    let opened = open(path, &bytes)?;
    let small = opened.image.width().max(opened.image.height()) <= LONGEST_SIDE;
    if opened.fit_as_it_is && small && bytes.len() <= budget {
        return Ok(Picture {
            width: opened.image.width(),
            height: opened.image.height(),
            bytes: Arc::new(bytes),
        });
    }
    let image = if small {
        opened.image
    } else {
        opened
            .image
            .resize(LONGEST_SIDE, LONGEST_SIDE, FilterType::Triangle)
    };
    let image = on_white(&image);
    let failed = |source| PictureError::Picture {
        path: path.to_owned(),
        source,
    };
    let mut out = Vec::new();
    for quality in QUALITIES {
        out.clear();
        JpegEncoder::new_with_quality(&mut out, quality)
            .encode_image(&image)
            .map_err(failed)?;
        if out.len() <= budget {
            break;
        }
    }
    Ok(Picture {
        width: image.width(),
        height: image.height(),
        bytes: Arc::new(out),
    })
}

/// A logo: as large as it may be, see-through where it is.
///
/// # Errors
/// [`PictureError`].
pub fn logo(path: &Path) -> Result<Picture, PictureError> {
    let bytes = read(path)?;
    let image = open(path, &bytes)?.image;
    let image = if image.width().max(image.height()) > LOGO_SIDE {
        image.resize(LOGO_SIDE, LOGO_SIDE, FilterType::Lanczos3)
    } else {
        image
    };
    let mut out = Cursor::new(Vec::new());
    DynamicImage::ImageRgba8(image.to_rgba8())
        .write_to(&mut out, ImageFormat::Png)
        .map_err(|source| PictureError::Picture {
            path: path.to_owned(),
            source,
        })?;
    Ok(Picture {
        width: image.width(),
        height: image.height(),
        bytes: Arc::new(out.into_inner()),
    })
}

fn read(path: &Path) -> Result<Vec<u8>, PictureError> {
    let failed = |source| PictureError::Io {
        path: path.to_owned(),
        source,
    };
    let there = fs::metadata(path).map_err(failed)?;
    // Opening a pipe would wait for ever.
    if !there.is_file() {
        return Err(failed(std::io::Error::other("it is not a file")));
    }
    if there.len() > MOST_BYTES {
        return Err(PictureError::TooLong {
            path: path.to_owned(),
        });
    }
    fs::read(path).map_err(failed)
}

struct Opened {
    image: DynamicImage,
    /// A plain upright JPEG in red, green and blue without a colour profile of its own.
    fit_as_it_is: bool,
}

fn open(path: &Path, bytes: &[u8]) -> Result<Opened, PictureError> {
    let failed = |source| PictureError::Picture {
        path: path.to_owned(),
        source,
    };
    let io = |source| failed(image::ImageError::IoError(source));
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(io)?;
    let is_jpeg = reader.format() == Some(ImageFormat::Jpeg);
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_PIXELS);
    limits.max_image_height = Some(MOST_PIXELS);
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(failed)?;
    let orientation = decoder.orientation().map_err(failed)?;
    let has_profile = decoder.icc_profile().map_err(failed)?.is_some();
    let plain = matches!(
        decoder.original_color_type(),
        image::ExtendedColorType::Rgb8 | image::ExtendedColorType::L8
    );
    let mut image = DynamicImage::from_decoder(decoder).map_err(failed)?;
    image.apply_orientation(orientation);
    Ok(Opened {
        image,
        fit_as_it_is: is_jpeg && plain && !has_profile && orientation == Orientation::NoTransforms,
    })
}

/// A picture on white paper.
fn on_white(image: &DynamicImage) -> RgbImage {
    if !image.color().has_alpha() {
        return image.to_rgb8();
    }
    let seen_through = image.to_rgba8();
    RgbImage::from_fn(image.width(), image.height(), |x, y| {
        let [red, green, blue, opacity] = seen_through.get_pixel(x, y).0;
        let over = |colour: u8| {
            let (colour, opacity) = (u32::from(colour), u32::from(opacity));
            u8::try_from((colour * opacity + 255 * (255 - opacity)) / 255).unwrap_or(u8::MAX)
        };
        image::Rgb([over(red), over(green), over(blue)])
    })
}
