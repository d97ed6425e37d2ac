//! The window: everything that draws, and nothing that computes.
//!
//! The survey changes only through the queue of [`request::Queue`], which runs at the start of each
//! frame; results come from [`answers`].

pub mod answers;
pub mod app;
pub mod background;
mod bar;
pub mod body;
pub mod changes_of_many;
pub mod clipboard;
mod command_entry;
pub mod commands;
pub mod context;
#[cfg(test)]
mod contrast;
pub mod data_folder;
pub mod dialogs;
pub mod document;
mod focus;
pub mod guide;
pub mod help;
mod key_order;
pub mod keys;
pub mod ledger;
mod lightbox;
pub mod loggers;
pub mod marks;
pub mod notices;
pub mod page;
pub mod pages;
pub mod paste;
pub mod photos;
pub mod picker;
pub mod preferences;
pub mod questions;
pub mod request;
pub mod samples;
mod start;
pub mod start_page;
pub mod strip;
pub mod theme;
mod today;
pub mod typesetting;
pub mod units;
mod unsaved_work;
pub mod widgets;

use app::{App, Start};
use eframe::egui;
use std::path::PathBuf;

const ICON: &[u8] = include_bytes!("../../icons/gapledger-256.png");

/// Size of the first window: with its title and a bar of the desktop it has room on a screen of
/// 1366 × 768.
const FIRST_SIZE: [f32; 2] = [1280.0, 700.0];

/// Opens the window and stays in it until it is closed.
///
/// # Errors
/// Where there is no display, or it offers no drawing surface.
pub fn run(path: Option<PathBuf>) -> eframe::Result {
    let mut viewport = egui::ViewportBuilder::default()
        .with_title("Gapledger")
        .with_app_id("gapledger")
        .with_inner_size(FIRST_SIZE)
        .with_min_inner_size([1024.0, 700.0]);
    // A window without its icon is still a window.
    if let Ok(icon) = eframe::icon_data::from_png_bytes(ICON) {
        viewport = viewport.with_icon(icon);
    }
    let options = eframe::NativeOptions {
        viewport,
        renderer: eframe::Renderer::Glow,
        // Shadows and what fades out at an edge run over a few points, where no steps are seen; noise
        // would be worked out for every point of the window.
        dithering: false,
        ..eframe::NativeOptions::default()
    };
    eframe::run_native(
        "gapledger",
        options,
        Box::new(|cc| Ok(Box::new(App::new(cc, Start::program(path))))),
    )
}

/// Whether there is a display to open the window on.
#[must_use]
pub fn has_display() -> bool {
    let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    cfg!(not(target_os = "linux"))
        || set("DISPLAY")
        || set("WAYLAND_DISPLAY")
        || set("WAYLAND_SOCKET")
}

/// An error of the toolkit as a person reads it: everything it says but the places in the sources
/// of libraries (`os error at …/file.rs:12`), which tell nothing of this machine.
#[must_use]
pub fn in_words(error: &str) -> String {
    let told = error.split(": ").filter(|part| !part.contains(".rs:"));
    told.collect::<Vec<_>>().join(": ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_window_has_room_on_a_small_screen_with_a_title_and_a_bar() {
        let [width, height] = FIRST_SIZE;
        assert!(width <= 1366.0 && height + 32.0 + 36.0 <= 768.0);
    }

    #[test]
    fn an_error_is_told_whole_but_for_places_in_the_sources_of_libraries() {
        let words =
            "winit: os error at /registry/winit-0.30/src/x11/mod.rs:765: no display: refused";
        assert_eq!(in_words(words), "winit: no display: refused");
        let words = "no OpenGL: version 2.1 is needed";
        assert_eq!(in_words(words), words);
    }
}
