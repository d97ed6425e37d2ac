//! Whether a photo is whole, found by decoding it.

use super::keep::{read_photo_file, ready_print_copy};
use super::picture::Picture;
use super::{PhotoState, photo_folder, photo_state_in};
use std::path::Path;

/// Whether one photo of a survey is there and whole. It is decoded, unless it was when its print copy was
/// made: what is cut or damaged further in is found too.
#[must_use]
pub fn whole_photo_state(survey_path: &Path, name: &str) -> PhotoState {
    let folder = photo_folder(survey_path);
    let state = photo_state_in(&folder, name);
    if state != PhotoState::Present || ready_print_copy(&folder, name).is_some() {
        return state;
    }
    let read = read_photo_file(&folder.join(name));
    match read.and_then(|bytes| Picture::read_in_turn(&bytes, |_| ())) {
        Ok(()) => PhotoState::Present,
        Err(error) => PhotoState::after(&error),
    }
}
