//! What is in sight: the row of a new gap, and dialogs over everything else.

use super::{Window, click_button, opened, press, shows, survey};
use eframe::egui;
use egui::Key;
use egui::accesskit::{Role, Toggled};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use gapledger::survey::{Edit, Facing, Form, Gap, GapId, Survey, VehicleKind};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use gapledger::window::picker::Pick;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, mpsc};

/// A ledger longer than its height.
fn long_ledger(folder: &Path) -> PathBuf {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    for id in 1..=40 {
        let form = Form::RoundHole {
            diameter_mm: Some(12.0),
        };
        let gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Rear, form);
        survey.apply(Edit::gap(gap)).unwrap();
    }
    let path = folder.join("long.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    path
}

fn on_a_small_screen(path: PathBuf) -> Window<'static> {
    let start = Start {
        guide: true,
        ..Start::test(Some(path))
    };
    let mut window = Harness::builder()
        .with_size(egui::vec2(1366.0, 768.0))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    window.run();
    window
}

/// Where the selected row is, if it is drawn, and where the ledger ends.
fn selected_row(window: &Window<'_>) -> Option<(egui::Rect, f32)> {
    let ledger = window.get_by_role_and_label(Role::ListBox, "Gap ledger");
    let end = ledger.rect().bottom();
    let selected = window.query_all_by(|node| {
        // Of a choice among several the toolkit says that it is toggled.
        node.role() == Role::ListBoxOption && node.toggled() == Some(Toggled::True)
    });
    selected.map(|node| (node.rect(), end)).next()
}

#[test]
fn the_row_of_a_new_gap_is_in_sight_wherever_it_was_asked_for() {
    for page in [Page::Gaps, Page::Vehicle, Page::AirChange] {
        for again in 0..2 {
            let folder = tempfile::tempdir().unwrap();
            let mut window = on_a_small_screen(long_ledger(folder.path()));
            window.state_mut().queue().command(Command::Show(page));
            window.run();
            for _ in 0..=again {
                window.state_mut().queue().command(Command::AddGap);
                window.run();
            }
            let (row, end) = selected_row(&window).unwrap_or_else(|| panic!("{page:?}"));
            assert!(row.bottom() <= end + 0.5, "{page:?}: {row:?} {end}");
            assert!(row.height() > 20.0, "{page:?}: {row:?}");
        }
    }
}

#[test]
fn a_tooltip_goes_when_a_dialog_comes() {
    let folder = tempfile::tempdir().unwrap();
    let mut window = opened(&long_ledger(folder.path()));
    let tab = window.get_by_role_and_label(Role::Tab, "Air change");
    let at = tab.rect().center();
    window.hover_at(at);
    window.run_steps(30);
    let tooltip = "Air changes in each weather case";
    assert!(shows(&window, tooltip));
    press(&mut window, Key::F8);
    window.run_steps(5);
    assert!(shows(&window, "Findings ("));
    assert!(!shows(&window, tooltip));
}

#[test]
fn where_the_system_has_no_file_dialog_none_is_offered_nor_asked_for() {
    let asked = Arc::new(AtomicUsize::new(0));
    let count = Arc::clone(&asked);
    let mut start = Start::test(None);
    start.file_dialog = false;
    start.picker = Arc::new(move |_: &Pick, _, _| {
        count.fetch_add(1, Ordering::SeqCst);
        // It would never answer.
        let (answers, receiver) = mpsc::sync_channel(1);
        std::mem::forget(answers);
        receiver
    });
    let mut window = super::window(start);
    click_button(&mut window, "panel-van camper");
    for command in [Command::SaveAs, Command::AddGap, Command::AddPhotos] {
        window.state_mut().queue().command(command);
        window.run();
        let browse = window.query_by_role_and_label(Role::Button, "Browse\u{2026}");
        assert!(browse.is_none(), "{command:?}");
        if command == Command::AddGap {
            assert_eq!(survey(&window).gaps.len(), 1);
            continue;
        }
        assert!(shows(&window, "The system offers no file dialog here"));
        press(&mut window, Key::Escape);
    }
    assert_eq!(asked.load(Ordering::SeqCst), 0);
}
