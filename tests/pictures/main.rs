//! Pictures of pages, each kept because it tells something that no other does, compared with those
//! in this folder.
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

/// The colour of the page under everything, with which every frame of the window begins; the harness
/// begins with none.
struct Cleared;

impl egui::Plugin for Cleared {
    fn debug_name(&self) -> &'static str {
        "cleared"
    }

    fn on_begin_pass(&mut self, ui: &mut egui::Ui) {
        let (all, fill) = (ui.ctx().viewport_rect(), ui.visuals().panel_fill);
        let painter = ui.ctx().layer_painter(egui::LayerId::background());
        painter.rect_filled(all, 0.0, fill);
    }
}

/// The window over its page's colour.
fn cleared(cc: &eframe::CreationContext<'_>, start: Start) -> App {
    cc.egui_ctx.add_plugin(Cleared);
    App::new(cc, start)
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
        .build_eframe(|cc| cleared(cc, Start::test(Some(sample))));
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

/// Compares these pages.
fn pictures(pages: &[Page], theme: Theme, size: Size, suffix: &str) {
    let mut window = window(theme, size);
    let mut results = SnapshotResults::new();
    for page in pages {
        window.state_mut().queue().command(Command::Show(*page));
        window.run();
        let name = page.name().to_lowercase().replace([' ', '&'], "_");
        let name = name.replace("___", "_");
        results.add(window.try_snapshot_options(format!("{name}-{suffix}"), &options()));
    }
}

#[test]
fn every_page_by_day() {
    pictures(&Page::ALL, Theme::Light, Size::Usual, "light");
}

/// One with drawings: what is drawn has colours of its own by night.
#[test]
fn drawings_by_night() {
    pictures(&[Page::DryingHeat], Theme::Dark, Size::Usual, "dark");
}

/// The page with the most on it.
#[test]
fn half_as_large_again() {
    pictures(
        &[Page::Gaps],
        Theme::Light,
        Size::OneAndAHalf,
        "light-larger",
    );
}

/// The page with the most fields.
#[test]
fn in_touch_size() {
    pictures(&[Page::Vehicle], Theme::Dark, Size::Touch, "dark-touch");
}

/// Every version of a picture stays in the history for ever: pages and sheets have twenty at most.
#[test]
fn few_pictures_are_kept() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures");
    let mut kept: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".png") && !name.starts_with("readme-"))
        .filter(|name| {
            ![".new.png", ".diff.png", ".old.png"]
                .iter()
                .any(|end| name.ends_with(end))
        })
        .collect();
    kept.sort();
    assert!(kept.len() <= 20, "{} pictures: {kept:?}", kept.len());
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
