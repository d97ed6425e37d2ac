//! The photo folder beside the survey file.

mod keep;
mod picture;
mod room;
mod shrink;
#[cfg(test)]
mod tests;
mod whole;

#[cfg(test)]
pub(crate) use room::Room;

pub use keep::{
    HELD_DAYS, KeepError, Kept, PRINT_COPY_PIXELS, carry_photos, carry_photos_through,
    clear_holding, keep_photo, keep_photo_through, print_copy, read_photo_file, ready_print_copy,
    set_aside,
};
pub use picture::{
    LARGEST_PHOTO_BYTES, MOST_PIXELS, Picture, PictureError, PictureKind, Pixels, png_of,
};
pub use whole::whole_photo_state;

use crate::survey::Survey;
use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, BufReader};
use std::path::{Path, PathBuf};

/// Whether a photo that the survey names is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PhotoState {
    /// A file of that name is there and may be read.
    Present,
    /// There is no such file.
    Missing,
    /// Something of that name is there, but it is no file or may not be read.
    Unreadable,
    /// A file is there, but it is no whole picture of a kind that can be shown.
    Broken,
    /// It has more bytes or pixels than are read.
    TooLarge,
}

impl PhotoState {
    /// What a photo is that could not be read for this.
    #[must_use]
    pub fn after(error: &PictureError) -> Self {
        match error {
            PictureError::Unreadable(_) => Self::Unreadable,
            PictureError::TooLarge | PictureError::TooManyPixels { .. } => Self::TooLarge,
            _ => Self::Broken,
        }
    }
}

/// The folder that the photos of a survey file are in: `NAME.photos` beside `NAME.ron`.
///
/// ```
/// # use std::path::Path;
/// use gapledger::survey::file::photo_folder;
/// let folder = photo_folder(Path::new("surveys/old van.ron"));
/// assert_eq!(folder, Path::new("surveys/old van.photos"));
/// ```
#[must_use]
pub fn photo_folder(survey_path: &Path) -> PathBuf {
    survey_path.with_extension("photos")
}

/// Whether a name is that of a file in the photo folder itself: not empty, no `..`, and none of
/// the letters that lead to another folder or drive on any system.
#[must_use]
pub fn is_plain_file_name(name: &str) -> bool {
    !matches!(name, "" | "." | "..")
        && name.len() <= 255
        && !name
            .chars()
            .any(|letter| matches!(letter, '/' | '\\' | ':') || letter.is_control())
}

/// Where the print copy of a photo is kept: a JPEG of at most [`PRINT_COPY_PIXELS`] pixels a side,
/// upright, in the folder `print` of the photo folder. It can be made again at any time.
///
/// ```
/// # use std::path::Path;
/// use gapledger::survey::file::print_copy_path;
/// let copy = print_copy_path(Path::new("old van.photos"), "seal.png");
/// assert_eq!(copy, Path::new("old van.photos/print/seal.png.jpg"));
/// ```
#[must_use]
pub fn print_copy_path(photo_folder: &Path, name: &str) -> PathBuf {
    photo_folder.join("print").join(format!("{name}.jpg"))
}

/// Whether one photo of a survey is there and begins as a picture does. It is not decoded.
#[must_use]
pub fn photo_state(survey_path: &Path, name: &str) -> PhotoState {
    photo_state_in(&photo_folder(survey_path), name)
}

/// [`photo_state`] in any folder.
#[must_use]
pub fn photo_state_in(folder: &Path, name: &str) -> PhotoState {
    if !is_plain_file_name(name) {
        return PhotoState::Unreadable;
    }
    let path = folder.join(name);
    match path.metadata() {
        // Opening a pipe would wait for ever, hence the question first.
        Ok(there) if there.is_file() => match File::open(&path) {
            Ok(file) => match picture::look(BufReader::new(file)) {
                Ok(_) if there.len() <= LARGEST_PHOTO_BYTES => PhotoState::Present,
                Ok(_) => PhotoState::TooLarge,
                Err(error) => PhotoState::after(&error),
            },
            Err(_) => PhotoState::Unreadable,
        },
        Ok(_) => PhotoState::Unreadable,
        Err(error) if error.kind() == io::ErrorKind::NotFound => PhotoState::Missing,
        Err(_) => PhotoState::Unreadable,
    }
}

/// The state of every photo that the survey names.
#[must_use]
pub fn photo_states(survey_path: &Path, survey: &Survey) -> BTreeMap<String, PhotoState> {
    survey
        .gaps
        .iter()
        .flat_map(|gap| &gap.photos)
        .map(|photo| (photo.name.clone(), photo_state(survey_path, &photo.name)))
        .collect()
}
