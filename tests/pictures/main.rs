//! Pictures of every page in both themes, compared with those kept in this folder.
//!
//! Drawn by the software renderer that `.ci/run` installs, so that every machine draws alike.
//! After a wanted change: `UPDATE_SNAPSHOTS=1 cargo test --features pictures --test pictures`,
//! and look at every picture before it is committed.

#![expect(clippy::unwrap_used, reason = "helpers of tests stop the test")]

use eframe::egui;
use egui::{Key, Modifiers, Theme};
use egui_kittest::{Harness, SnapshotOptions, SnapshotResults};
use gapledger::window::app::{App, Start};
use std::path::Path;

/// Pages by their shortcut and the picture's name.
const PAGES: [(Key, &str); 4] = [
    (Key::Num1, "vehicle"),
    (Key::Num2, "gaps"),
    (Key::Num3, "air_change"),
    (Key::Num4, "drying_heat"),
];

/// Few enough differing pixels that a label moved by 4 points is noticed.
fn options() -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(0.6)
        .max_failed_pixels(40_usize)
        .output_path("tests/pictures")
}

fn window(theme: Theme, zoom: f32) -> Harness<'static, App> {
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/farmyard-caravan.ron");
    let mut window = Harness::builder()
        .with_size(egui::vec2(1280.0, 800.0))
        .with_pixels_per_point(zoom)
        .with_max_steps(30)
        .wgpu()
        .build_eframe(|cc| App::new(cc, Start::test(Some(sample))));
    window.ctx.set_theme(theme);
    window.run();
    window
}

fn pictures(theme: Theme, zoom: f32, suffix: &str) {
    let mut window = window(theme, zoom);
    let mut results = SnapshotResults::new();
    for (key, page) in PAGES {
        window.key_press_modifiers(Modifiers::COMMAND, key);
        window.run();
        results.add(window.try_snapshot_options(format!("{page}-{suffix}"), &options()));
    }
}

#[test]
fn every_page_by_day() {
    pictures(Theme::Light, 1.0, "light");
}

#[test]
fn every_page_by_night() {
    pictures(Theme::Dark, 1.0, "dark");
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
