//! Pictures of every page in both themes, compared with those kept in this folder.
//!
//! Drawn by the software renderer that `.ci/run` installs, so that every machine draws alike.
//! After a wanted change: `UPDATE_SNAPSHOTS=1 cargo test --features pictures --test pictures`,
//! and look at every picture before it is committed.

#![expect(clippy::unwrap_used, reason = "helpers of tests stop the test")]

mod sheets;

use eframe::egui;
use egui::Theme;
use egui_kittest::{Harness, SnapshotOptions, SnapshotResults};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use std::path::Path;

/// Few enough differing pixels that a label moved by 4 points is noticed.
fn options() -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(0.6)
        .max_failed_pixels(40_usize)
        .output_path("tests/pictures")
}

/// How large everything is drawn.
#[derive(Clone, Copy)]
enum Size {
    /// As at first.
    Usual,
    /// Half as large again, in a window of the same pixels.
    OneAndAHalf,
    /// Inputs and buttons for fingers.
    Touch,
}

fn window(theme: Theme, size: Size) -> Harness<'static, App> {
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/farmyard-caravan.ron");
    let zoom = match size {
        Size::OneAndAHalf => 1.5,
        Size::Usual | Size::Touch => 1.0,
    };
    let mut window = Harness::builder()
        .with_size(egui::vec2(1280.0, 800.0) / zoom)
        .with_pixels_per_point(zoom)
        .with_max_steps(30)
        .wgpu()
        .build_eframe(|cc| App::new(cc, Start::test(Some(sample))));
    window.state_mut().queue().command(match theme {
        Theme::Light => Command::Light,
        Theme::Dark => Command::Dark,
    });
    if matches!(size, Size::Touch) {
        window.state_mut().queue().command(Command::TouchSize);
    }
    window.run();
    window
}

fn pictures(theme: Theme, size: Size, suffix: &str) {
    let mut window = window(theme, size);
    let mut results = SnapshotResults::new();
    for page in Page::ALL {
        window.state_mut().queue().command(Command::Show(page));
        window.run();
        let name = page.name().to_lowercase().replace([' ', '&'], "_");
        let name = name.replace("___", "_");
        results.add(window.try_snapshot_options(format!("{name}-{suffix}"), &options()));
    }
}

#[test]
fn every_page_by_day() {
    pictures(Theme::Light, Size::Usual, "light");
}

#[test]
fn every_page_by_night() {
    pictures(Theme::Dark, Size::Usual, "dark");
}

#[test]
fn every_page_half_as_large_again_by_day() {
    pictures(Theme::Light, Size::OneAndAHalf, "light-larger");
}

#[test]
fn every_page_half_as_large_again_by_night() {
    pictures(Theme::Dark, Size::OneAndAHalf, "dark-larger");
}

#[test]
fn every_page_in_touch_size_by_day() {
    pictures(Theme::Light, Size::Touch, "light-touch");
}

#[test]
fn every_page_in_touch_size_by_night() {
    pictures(Theme::Dark, Size::Touch, "dark-touch");
}

/// The comparison itself: the same picture passes, one whose labels moved by 4 points fails.
#[test]
fn a_label_that_moved_is_noticed() {
    let folder = tempfile::tempdir().unwrap();
    let draw = |left: i8| {
        let mut harness = Harness::builder()
            .with_size(egui::vec2(300.0, 120.0))
            .wgpu()
            .build_ui(move |ui| {
                egui::Frame::new()
                    .inner_margin(egui::Margin {
                        left,
                        ..egui::Margin::same(12)
                    })
                    .show(ui, |ui| ui.label("Air changes, windy"));
            });
        harness.run();
        harness.render().unwrap()
    };
    let kept = draw(12);
    kept.save(folder.path().join("label.png")).unwrap();
    let options = options().output_path(folder.path());
    let compare = |image: &_| egui_kittest::try_image_snapshot_options(image, "label", &options);
    assert!(compare(&kept).is_ok());
    assert!(compare(&draw(16)).is_err());
}
