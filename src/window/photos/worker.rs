//! What is done with photos away from the window: reading, decoding, keeping, carrying.

use crate::survey::GapId;
use crate::survey::file::{
    HELD_DAYS, PRINT_COPY_PIXELS, PhotoState, Picture, PictureError, Pixels, carry_data,
    carry_photos, clear_holding, keep_photo, photo_state_in, png_of, read_photo_file,
    ready_print_copy, set_aside,
};
use crate::window::samples::SamplePhoto;
use eframe::egui::ColorImage;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, SystemTime};

/// Longest side of a thumbnail, in pixels.
pub(super) const THUMBNAIL_PIXELS: u32 = 256;
/// Longest side of the photo shown large on a large screen: every graphics card takes it.
const LARGE_PIXELS: u32 = 2048;
/// Longest side of the photo shown large where the window shows no more: the print copy has it.
pub(super) const SCREEN_PIXELS: u32 = PRINT_COPY_PIXELS;

/// Where photos are.
#[derive(Clone, Debug, Default)]
pub(super) struct Folders {
    /// The survey's photo folder, once it has a file.
    pub(super) beside: Option<PathBuf>,
    /// The program's own, for photos of changes that are not saved.
    pub(super) holding: Option<PathBuf>,
}

impl Folders {
    fn of(&self, name: &str) -> Option<&Path> {
        let all = [&self.beside, &self.holding];
        let mut all = all.into_iter().flatten();
        all.find(|folder| folder.join(name).exists())
            .map(PathBuf::as_path)
    }

    fn state(&self, name: &str) -> PhotoState {
        self.of(name)
            .map_or(PhotoState::Missing, |folder| photo_state_in(folder, name))
    }
}

/// Where a new photo comes from.
#[derive(Clone, Debug)]
pub enum Source {
    /// A file.
    File(PathBuf),
    /// Pixels from the clipboard.
    Pixels(Arc<ColorImage>),
}

impl Source {
    /// What to call it in a sentence.
    fn words(&self) -> String {
        match self {
            Self::File(path) => path.file_name().map_or_else(
                || path.display().to_string(),
                |name| name.to_string_lossy().into_owned(),
            ),
            Self::Pixels(_) => "the picture pasted".to_owned(),
        }
    }

    fn bytes(&self) -> Result<Vec<u8>, PictureError> {
        match self {
            Self::File(path) => read_photo_file(path),
            Self::Pixels(image) => png_of(Pixels {
                width: u32::try_from(image.width()).unwrap_or(u32::MAX),
                height: u32::try_from(image.height()).unwrap_or(u32::MAX),
                rgba: image
                    .pixels
                    .iter()
                    .flat_map(|colour| colour.to_srgba_unmultiplied())
                    .collect(),
            }),
        }
    }
}

/// Which size of a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Size {
    /// For lists.
    Thumbnail,
    /// Shown large, as far as most windows need it.
    Screen,
    /// Shown large in a window that has room for more.
    Large,
}

/// A piece of work.
pub(super) enum Work {
    Attach {
        gap: GapId,
        batch: u64,
        source: Source,
    },
    Show {
        name: String,
        size: Size,
    },
    Look(Vec<String>),
    Carry(Carry),
    ClearHolding,
    Unpack(&'static [SamplePhoto]),
}

/// Photos to bring beside the survey after a save.
pub(super) struct Carry {
    pub(super) names: Vec<String>,
    pub(super) from: Vec<PathBuf>,
    pub(super) to: PathBuf,
    /// Photos that no gap names any more.
    pub(super) aside: Vec<String>,
    /// Files of loggers.
    pub(super) data: Vec<String>,
}

/// What came of it.
pub(super) enum Done {
    Attached {
        gap: GapId,
        batch: u64,
        kept: Result<(String, Arc<ColorImage>), String>,
    },
    Shown {
        name: String,
        size: Size,
        image: Result<Arc<ColorImage>, (PhotoState, String)>,
    },
    Looked(Vec<(String, PhotoState)>),
    /// The photos that did not come along, each with the reason.
    Carried(Vec<(String, String)>),
}

/// Does a piece of work; nothing comes of some.
pub(super) fn run(folders: &Folders, work: Work) -> Option<Done> {
    Some(match work {
        Work::Attach { gap, batch, source } => Done::Attached {
            gap,
            batch,
            kept: attach(folders, &source)
                .map_err(|reason| format!("{} was not added: {reason}.", capital(&source.words()))),
        },
        Work::Show { name, size } => {
            let image = show(folders, &name, size);
            Done::Shown { name, size, image }
        }
        Work::Look(names) => Done::Looked(
            names
                .into_iter()
                .map(|name| {
                    let state = folders.state(&name);
                    (name, state)
                })
                .collect(),
        ),
        Work::Carry(carry) => Done::Carried(bring(&carry, folders)),
        Work::ClearHolding => {
            if let Some(holding) = &folders.holding {
                clear_holding(holding, is_old);
            }
            return None;
        }
        Work::Unpack(photos) => {
            // A photo that does not get there is told as missing where it is shown.
            for (name, bytes) in folders.holding.iter().flat_map(|_| photos) {
                let _ = unpack(folders, name, bytes);
            }
            return None;
        }
    })
}

fn unpack(folders: &Folders, name: &str, bytes: &[u8]) -> std::io::Result<()> {
    let Some(holding) = &folders.holding else {
        return Ok(());
    };
    std::fs::create_dir_all(holding)?;
    std::fs::write(holding.join(name), bytes)
}

/// Whether a file was last written longer ago than photos are held.
fn is_old(file: &std::fs::Metadata) -> bool {
    const HELD: Duration = Duration::from_secs(HELD_DAYS * 24 * 3600);
    let age = file
        .modified()
        .map(|then| SystemTime::now().duration_since(then));
    matches!(age, Ok(Ok(age)) if age > HELD)
}

fn capital(words: &str) -> String {
    // A file's name stays as it is written.
    match words.strip_prefix("the ") {
        Some(rest) => format!("The {rest}"),
        None => format!("\u{201c}{words}\u{201d}"),
    }
}

fn attach(folders: &Folders, source: &Source) -> Result<(String, Arc<ColorImage>), String> {
    let Some(holding) = &folders.holding else {
        return Err("the system names no folder that the program may keep it in".to_owned());
    };
    let bytes = source.bytes().map_err(|error| error.to_string())?;
    let kept = keep_photo(holding, &bytes).map_err(|error| error.to_string())?;
    let thumbnail = colour_image(kept.picture.pixels(THUMBNAIL_PIXELS));
    Ok((kept.name, thumbnail))
}

fn show(
    folders: &Folders,
    name: &str,
    size: Size,
) -> Result<Arc<ColorImage>, (PhotoState, String)> {
    let missing = || (PhotoState::Missing, "the file is not there".to_owned());
    let folder = folders.of(name).ok_or_else(missing)?;
    let (path, pixels) = match size {
        // The print copy is read much faster than the photo.
        Size::Thumbnail => (ready_print_copy(folder, name), THUMBNAIL_PIXELS),
        Size::Screen => (ready_print_copy(folder, name), SCREEN_PIXELS),
        Size::Large => (None, LARGE_PIXELS),
    };
    let path = path.unwrap_or_else(|| folder.join(name));
    let bytes = read_photo_file(&path);
    // The decoded photo is let go before its pixels are made ready for the screen.
    let small = |picture: &Picture| picture.pixels(pixels);
    let small = bytes.and_then(|bytes| Picture::read_in_turn(&bytes, small));
    match small {
        Ok(small) => Ok(colour_image(small)),
        Err(error) => Err((PhotoState::after(&error), error.to_string())),
    }
}

fn colour_image(pixels: Pixels) -> Arc<ColorImage> {
    let size = [pixels.width as usize, pixels.height as usize];
    Arc::new(ColorImage::from_rgba_unmultiplied(size, &pixels.rgba))
}

fn bring(carry: &Carry, folders: &Folders) -> Vec<(String, String)> {
    let names = carry.names.iter().map(String::as_str);
    let mut failed = carry_photos(names, &carry.from, &carry.to);
    // What is held stands in one folder; beside a survey the data have a folder of their own.
    let data_beside = |photos: &PathBuf| match Some(photos) == folders.holding.as_ref() {
        true => photos.clone(),
        false => photos.with_extension("data"),
    };
    let from: Vec<PathBuf> = carry.from.iter().map(data_beside).collect();
    let data = carry.data.iter().map(String::as_str);
    failed.extend(carry_data(data, &from, &data_beside(&carry.to)));
    if let Some(holding) = &folders.holding {
        set_aside(carry.aside.iter().map(String::as_str), &carry.to, holding);
    }
    failed
        .into_iter()
        .map(|(name, error)| (name, error.to_string()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_is_held_for_ninety_days() {
        let file = tempfile::tempfile().unwrap();
        let day = Duration::from_secs(24 * 3600);
        for (days, old) in [(0, false), (89, false), (91, true)] {
            file.set_modified(SystemTime::now() - day * days).unwrap();
            assert_eq!(is_old(&file.metadata().unwrap()), old, "{days}");
        }
    }
}
