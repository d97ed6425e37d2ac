//! Opening, saving, and never losing changes.

use super::{click_button, ctrl, opened, press, replace_text, shows, small_survey, survey, window};
use eframe::egui;
use egui::{Key, Modifiers, ViewportCommand, ViewportId};
use gapledger::survey::file::load;
use gapledger::window::app::Start;
use gapledger::window::background::Spawner;
use gapledger::window::questions::Dialog;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex};

fn asks_about_changes(window: &super::Window<'_>) -> bool {
    matches!(window.state().dialog(), Some(Dialog::Unsaved(_)))
}

fn commands(window: &super::Window<'_>) -> Vec<ViewportCommand> {
    let output = &window.output().viewport_output;
    output[&ViewportId::ROOT].commands.clone()
}

fn close(window: &mut super::Window<'_>) {
    let viewports = &mut window.input_mut().viewports;
    let root = viewports.get_mut(&ViewportId::ROOT).unwrap();
    root.events.push(egui::ViewportEvent::Close);
    window.step();
}

#[test]
fn closing_with_unsaved_changes_asks_and_cancel_keeps_everything() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "3");
    close(&mut window);
    assert!(commands(&window).contains(&ViewportCommand::CancelClose));
    window.run();
    assert!(asks_about_changes(&window));
    press(&mut window, Key::Escape);
    assert!(window.state().dialog().is_none());
    assert!(window.state_mut().unsaved());
}

#[test]
fn closing_without_changes_closes() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    close(&mut window);
    assert!(!commands(&window).contains(&ViewportCommand::CancelClose));
    assert!(window.state().dialog().is_none());
}

#[test]
fn quitting_may_save_first() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::Q);
    assert!(asks_about_changes(&window));
    click_button(&mut window, "Save");
    assert!(!window.state_mut().unsaved());
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
}

#[test]
fn opening_another_survey_may_discard_the_changes() {
    let (_folder, path) = small_survey();
    let (_other_folder, other) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::O);
    click_button(&mut window, "Discard changes");
    assert!(matches!(window.state().dialog(), Some(Dialog::Path { .. })));
    assert!(shows(&window, "The system offers no file dialog"));
    replace_text(
        &mut window,
        "Path of the file",
        &other.display().to_string(),
    );
    press(&mut window, Key::Enter);
    assert_eq!(window.state().path(), Some(other.as_path()));
    assert!(!window.state_mut().unsaved());
}

#[test]
fn a_file_changed_on_disk_is_not_overwritten_without_asking() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "3");
    std::fs::write(&path, "somebody else's").unwrap();
    ctrl(&mut window, Key::S);
    assert!(matches!(
        window.state().dialog(),
        Some(Dialog::Overwrite { .. })
    ));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "somebody else's");
    click_button(&mut window, "Overwrite");
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
}

#[test]
fn save_as_takes_a_typed_path_and_adds_the_ending() {
    let (folder, path) = small_survey();
    let mut window = opened(&path);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    window.run();
    let other = folder.path().join("other");
    replace_text(
        &mut window,
        "Path of the file",
        &other.display().to_string(),
    );
    press(&mut window, Key::Enter);
    let saved = folder.path().join("other.ron");
    assert_eq!(window.state().path(), Some(saved.as_path()));
    assert!(load(&saved).is_ok() && load(&path).is_ok());
}

#[test]
fn a_file_that_cannot_be_read_is_told_and_the_open_survey_stays() {
    let (folder, path) = small_survey();
    let mut window = opened(&path);
    let bad = folder.path().join("bad.ron");
    std::fs::write(&bad, "(format: 7)").unwrap();
    window.state_mut().open_file(&bad);
    window.run();
    assert!(shows(&window, "format 7"));
    assert_eq!(survey(&window).gaps.len(), 2);
    assert_eq!(window.state().path(), Some(path.as_path()));
}

#[test]
fn a_path_that_cannot_be_opened_leads_to_the_start_page() {
    let window = window(Start::test(Some("/nowhere/at/all.ron".into())));
    assert!(window.state().survey().is_none());
    assert!(shows(&window, "/nowhere/at/all.ron"));
}

#[test]
fn a_saved_survey_is_not_unsaved_again_until_it_changes() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "3");
    press(&mut window, Key::Tab);
    ctrl(&mut window, Key::S);
    assert!(!window.state_mut().unsaved());
    assert!(shows(&window, "Saved as"));
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert!(window.state_mut().unsaved());
}

#[cfg(unix)]
#[test]
fn a_protected_file_opens_and_says_at_once_that_it_cannot_be_saved_there() {
    use std::fs::{Permissions, set_permissions};
    use std::os::unix::fs::PermissionsExt;
    let (folder, path) = small_survey();
    assert!(opened(&path).state().notices().list().is_empty());
    for (protected, mode, freed, words) in [
        (path.as_path(), 0o444, 0o644, "is write-protected"),
        (
            folder.path(),
            0o555,
            0o755,
            "is in a write-protected folder",
        ),
    ] {
        set_permissions(protected, Permissions::from_mode(mode)).unwrap();
        let window = opened(&path);
        assert_eq!(survey(&window).gaps.len(), 2);
        assert!(shows(&window, words), "{words}");
        set_permissions(protected, Permissions::from_mode(freed)).unwrap();
    }
}

type Work = Box<dyn FnOnce() + Send>;

/// A worker for files that waits until it is told to go on.
#[derive(Clone, Default)]
struct Held(Arc<Mutex<VecDeque<Work>>>);

impl Held {
    fn spawner(&self) -> Spawner {
        let waiting = Arc::clone(&self.0);
        Arc::new(move |work| {
            waiting.lock().unwrap().push_back(work);
            Ok(())
        })
    }

    fn go_on(&self, window: &mut super::Window<'_>) {
        let work = self.0.lock().unwrap().pop_front().unwrap();
        work();
        window.run();
    }

    fn opened(&self, path: &std::path::Path) -> super::Window<'static> {
        let mut start = Start::test(Some(path.to_owned()));
        start.file_spawner = self.spawner();
        let mut window = window(start);
        assert!(window.state().survey().is_none());
        assert!(shows(&window, "Opening"));
        self.go_on(&mut window);
        assert!(window.state().survey().is_some());
        window
    }
}

#[test]
fn what_is_changed_while_a_save_runs_stays_unsaved() {
    let (_folder, path) = small_survey();
    let held = Held::default();
    let mut window = held.opened(&path);
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::S);
    assert!(shows(&window, "Saving"));
    let asked = survey(&window).clone();
    replace_text(&mut window, "Clear width", "4");
    held.go_on(&mut window);
    assert!(shows(&window, "Saved as"));
    assert_eq!(load(&path).unwrap().survey, asked);
    assert_ne!(&asked, survey(&window));
    assert!(window.state_mut().unsaved());
    ctrl(&mut window, Key::S);
    held.go_on(&mut window);
    assert!(!window.state_mut().unsaved());
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
}

#[test]
fn a_save_asked_for_while_one_runs_follows_it() {
    let (_folder, path) = small_survey();
    let held = Held::default();
    let mut window = held.opened(&path);
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::S);
    replace_text(&mut window, "Clear width", "4");
    ctrl(&mut window, Key::S);
    held.go_on(&mut window);
    assert!(window.state_mut().unsaved());
    held.go_on(&mut window);
    assert!(!window.state_mut().unsaved());
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
}

#[test]
fn leaving_after_a_save_asks_again_where_something_was_changed_meanwhile() {
    let (_folder, path) = small_survey();
    let held = Held::default();
    let mut window = held.opened(&path);
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::Q);
    click_button(&mut window, "Save");
    replace_text(&mut window, "Clear width", "4");
    held.go_on(&mut window);
    assert!(asks_about_changes(&window));
}

#[test]
fn a_survey_changed_while_another_is_read_is_asked_about() {
    let (_folder, path) = small_survey();
    let (_other_folder, other) = small_survey();
    let held = Held::default();
    let mut window = held.opened(&path);
    window.state_mut().open_file(&other);
    replace_text(&mut window, "Clear width", "3");
    held.go_on(&mut window);
    assert_eq!(window.state().path(), Some(&*path));
    assert!(asks_about_changes(&window));
}

#[test]
fn a_file_of_the_older_format_is_told_and_saved_in_the_newer_one() {
    let older = "(format: 1, vehicle: (kind: other), gaps: [(id: 1, zone: 5, facing: rear, \
                 form: narrow_gap(length_mm: 600, width_mm: 2, depth_mm: 20))])";
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    std::fs::write(&path, older).unwrap();
    let mut window = opened(&path);
    let told = "This file is in format 1. Saving writes format 2";
    assert!(shows(&window, told));
    assert!(shows(&window, "stays beside it as van.ron.bak"));
    replace_text(&mut window, "Clear width", "3");
    ctrl(&mut window, Key::S);
    let saved = std::fs::read_to_string(&path).unwrap();
    assert!(saved.starts_with("// Gapledger survey\n"), "{saved}");
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
    let kept = gapledger::survey::file::backup_path(&path);
    assert_eq!(std::fs::read_to_string(kept).unwrap(), older);
    assert!(!shows(&opened(&path), told));
}
