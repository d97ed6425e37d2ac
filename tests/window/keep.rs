//! Nothing is lost: rescue, recent files, two programs on one file.

use super::{Window, click_button, ctrl, press, replace_text, shows, small_survey, survey, window};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::survey::file::load;
use gapledger::survey::{VehicleKind, starting_sizes};
use gapledger::window::app::Start;
use gapledger::window::commands::Command;
use gapledger::window::data_folder::{DataFolder, offer};
use gapledger::window::page::Page;
use gapledger::window::questions::Dialog;
use gapledger::window::samples::SAMPLES;
use std::path::Path;

/// The window with a folder of its own, after its worker has looked round.
fn kept(data: &Path, path: Option<&Path>) -> Window<'static> {
    let mut window = window(Start {
        data: Some(DataFolder::at(data)),
        ..Start::test(path.map(Path::to_owned))
    });
    settle(&mut window);
    window
}

fn settle(window: &mut Window<'_>) {
    window.state_mut().finish_writing_down();
    window.run();
}

/// A program that ended with an unsaved change: the clear width is 7.25 mm.
fn leave_unsaved(data: &Path, path: &Path) {
    let mut window = kept(data, Some(path));
    replace_text(&mut window, "Clear width", "7.25");
    press(&mut window, Key::Tab);
    ctrl(&mut window, Key::N);
    assert_eq!(survey(&window).gaps.len(), 3);
}

fn rescues(data: &Path) -> usize {
    let files = std::fs::read_dir(DataFolder::at(data).rescue()).unwrap();
    let names = files.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    names.filter(|name| name.ends_with(".ron")).count()
}

#[test]
fn what_was_not_saved_is_offered_and_opens_as_unsaved_changes_of_its_file() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    let before = std::fs::read(&path).unwrap();
    leave_unsaved(&data, &path);
    assert_eq!(std::fs::read(&path).unwrap(), before);
    let mut window = kept(&data, None);
    assert!(shows(&window, "Rescued work"));
    assert!(shows(&window, "touring caravan"));
    assert!(shows(&window, "3 gaps, changed less than a minute ago"));
    assert!(shows(
        &window,
        "1 gap more than the saved file, 1 gap changed."
    ));
    assert!(shows(&window, &path.display().to_string()));
    // The newest has the focus.
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).gaps.len(), 3);
    assert!(window.state_mut().unsaved());
    assert_eq!(window.state().path(), Some(path.as_path()));
    settle(&mut window);
    assert_eq!(rescues(&data), 1, "still written down while it is unsaved");
    ctrl(&mut window, Key::S);
    assert!(window.state().dialog().is_none());
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
    settle(&mut window);
    assert_eq!(rescues(&data), 0);
}

#[test]
fn a_file_changed_since_is_not_overwritten_by_what_was_rescued() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let mut other = load(&path).unwrap().survey;
    other.header.title = "somebody else's".to_owned();
    std::fs::write(&path, gapledger::survey::file::print(&other)).unwrap();
    let mut window = kept(&data, None);
    assert!(shows(&window, "The saved file has changed since."));
    click_button(&mut window, "Open what was rescued: touring caravan");
    ctrl(&mut window, Key::S);
    assert!(matches!(
        window.state().dialog(),
        Some(Dialog::Overwrite { .. })
    ));
    assert_eq!(load(&path).unwrap().survey, other);
}

#[test]
fn opening_the_file_itself_asks_whether_to_open_what_was_rescued() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let mut window = kept(&data, Some(&path));
    assert!(matches!(
        window.state().dialog(),
        Some(Dialog::Rescued { .. })
    ));
    assert!(shows(&window, "1 gap more than the saved file"));
    click_button(&mut window, "Use the saved file");
    assert_eq!(survey(&window).gaps.len(), 2);
    settle(&mut window);
    assert!(window.state().dialog().is_none(), "asked once only");
    ctrl(&mut window, Key::W);
    settle(&mut window);
    assert!(shows(&window, "Rescued work"));
    drop(window);
    let mut window = kept(&data, Some(&path));
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).gaps.len(), 3);
    assert!(window.state_mut().unsaved());
}

#[test]
fn with_another_file_open_the_rescued_work_is_only_told_of() {
    let (folder, path) = small_survey();
    let (_other_folder, other) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let window = kept(&data, Some(&other));
    assert!(window.state().dialog().is_none());
    assert!(shows(&window, "Unsaved work of an earlier run was rescued"));
}

#[test]
fn what_was_rescued_is_put_away_only_after_a_question() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let mut window = kept(&data, None);
    click_button(&mut window, "Move aside: touring caravan");
    click_button(&mut window, "Keep it on the start page");
    assert_eq!(rescues(&data), 1);
    click_button(&mut window, "Move aside: touring caravan");
    click_button(&mut window, "Move aside");
    settle(&mut window);
    assert!(!shows(&window, "Rescued work"));
    assert_eq!(rescues(&data), 0);
    let kept = std::fs::read_dir(DataFolder::at(&data).put_away()).unwrap();
    assert_eq!(kept.count(), 1);
}

#[test]
fn a_damaged_rescue_is_told_of_and_left() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let left = offer::look(&DataFolder::at(&data)).remove(0).path;
    let half = std::fs::read(&left).unwrap();
    let half = &half[..half.len() / 2];
    std::fs::write(&left, half).unwrap();
    let window = kept(&data, None);
    assert!(shows(
        &window,
        &format!("{} cannot be read", left.display())
    ));
    assert!(shows(&window, "It has been left as it is"));
    assert_eq!(std::fs::read(&left).unwrap(), half);
}

#[test]
fn discarded_and_saved_changes_leave_nothing_behind() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    let mut window = kept(&data, Some(&path));
    replace_text(&mut window, "Clear width", "7.25");
    settle(&mut window);
    assert_eq!(rescues(&data), 1);
    ctrl(&mut window, Key::Q);
    click_button(&mut window, "Discard changes");
    drop(window);
    assert_eq!(rescues(&data), 0);
    let mut window = kept(&data, Some(&path));
    replace_text(&mut window, "Clear width", "7.5");
    press(&mut window, Key::Tab);
    settle(&mut window);
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert!(!window.state_mut().unsaved());
    settle(&mut window);
    assert_eq!(rescues(&data), 0, "undone to what is saved");
}

#[test]
fn a_new_survey_in_place_of_an_unsaved_one_leaves_only_itself() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    let mut window = kept(&data, Some(&path));
    replace_text(&mut window, "Clear width", "7.25");
    settle(&mut window);
    ctrl(&mut window, Key::W);
    click_button(&mut window, "Discard changes");
    settle(&mut window);
    assert_eq!(rescues(&data), 0);
    click_button(&mut window, "panel-van camper");
    let sizes = starting_sizes(VehicleKind::PanelVan).unwrap();
    assert_eq!(survey(&window).vehicle.length_m, Some(sizes.length_m));
    ctrl(&mut window, Key::N);
    drop(window);
    let offers = offer::look(&DataFolder::at(&data));
    let rescued = offers[0].content.as_ref().unwrap();
    assert_eq!((offers.len(), rescued.gaps), (1, 1));
    assert_eq!(rescued.difference, offer::Difference::NeverSaved);
}

/// The window gets the focus again, as when the user comes back to it.
fn come_back(window: &mut Window<'_>) {
    window.event(egui::Event::WindowFocused(false));
    window.run();
    window.event(egui::Event::WindowFocused(true));
    window.run();
}

#[test]
fn two_programs_on_one_file_notice_each_other_and_saving_asks() {
    const TOLD: &str = "is open in another Gapledger too";
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    let mut first = kept(&data, Some(&path));
    assert!(!shows(&first, TOLD));
    let mut second = kept(&data, Some(&path));
    assert!(shows(&second, TOLD));
    come_back(&mut first);
    assert!(shows(&first, TOLD));
    replace_text(&mut second, "Clear width", "4");
    replace_text(&mut first, "Clear width", "5");
    ctrl(&mut second, Key::S);
    assert!(matches!(
        second.state().dialog(),
        Some(Dialog::Shared { .. })
    ));
    click_button(&mut second, "Save anyway");
    assert!(!second.state_mut().unsaved());
    // The first is asked for the other program's sake, and again because the file has changed.
    ctrl(&mut first, Key::S);
    click_button(&mut first, "Save anyway");
    assert!(matches!(
        first.state().dialog(),
        Some(Dialog::Overwrite { .. })
    ));
    press(&mut first, Key::Escape);
    assert_eq!(&load(&path).unwrap().survey, survey(&second));
    drop(second);
    let mut third = kept(&data, Some(&path));
    assert!(shows(&third, TOLD));
    drop(first);
    replace_text(&mut third, "Clear width", "6");
    ctrl(&mut third, Key::S);
    assert!(third.state().dialog().is_none(), "alone again");
    assert!(!third.state_mut().unsaved());
}

#[test]
fn files_that_were_open_are_offered_again_and_missing_ones_say_so() {
    let (folder, path) = small_survey();
    let (other_folder, other) = small_survey();
    let data = folder.path().join("data");
    drop(kept(&data, Some(&path)));
    drop(kept(&data, Some(&other)));
    drop(other_folder);
    let mut window = kept(&data, None);
    assert!(shows(&window, "small no longer exists"));
    let off = format!("remove from the list: {}", other.display());
    window.get_by_label(&off).click();
    window.run();
    settle(&mut window);
    assert!(!shows(&window, "no longer exists"));
    let open = format!("Open {}", path.display());
    window.get_by_role_and_label(Role::Link, &open).click();
    window.run();
    assert_eq!(window.state().path(), Some(path.as_path()));
}

#[test]
fn a_survey_opens_on_the_page_that_was_shown_last() {
    let (folder, path) = small_survey();
    let mut window = kept(&folder.path().join("data"), Some(&path));
    assert_eq!(window.state().view().page, Page::Gaps);
    ctrl(&mut window, Key::Num3);
    ctrl(&mut window, Key::W);
    settle(&mut window);
    assert!(window.state().survey().is_none());
    let open = format!("Open {}", path.display());
    window.get_by_role_and_label(Role::Link, &open).click();
    window.run();
    assert_eq!(window.state().view().page, Page::AirChange);
}

/// Walks by Tab at double size, where the page is longer than the window.
fn assert_focus_stays_in_sight(window: &mut Window<'_>, stops: usize) {
    for _ in 0..10 {
        window.state_mut().queue().command(Command::Larger);
        window.run();
    }
    let screen = window.ctx.content_rect();
    let mut seen = std::collections::BTreeSet::new();
    for _ in 0..stops + 5 {
        press(window, Key::Tab);
        let focused = window.ctx.memory(|memory| memory.focused());
        let Some(id) = focused else { continue };
        let rect = window.ctx.read_response(id).unwrap().rect;
        let name = format!("{id:?} at {rect:?} in {screen:?}");
        assert!(screen.contains_rect(rect), "{name}");
        seen.insert(format!("{id:?}"));
    }
    assert!(seen.len() >= stops, "{} stops", seen.len());
}

#[test]
fn what_has_the_focus_is_scrolled_into_sight() {
    let (folder, path) = small_survey();
    let data = folder.path().join("data");
    leave_unsaved(&data, &path);
    let mut start = window(Start {
        data: Some(DataFolder::at(&data)),
        samples: vec![SAMPLES[0]; 12].leak(),
        ..Start::test(None)
    });
    settle(&mut start);
    assert_focus_stays_in_sight(&mut start, 20);
    let mut vehicle = super::opened(&path);
    ctrl(&mut vehicle, Key::Num1);
    assert_focus_stays_in_sight(&mut vehicle, 25);
}

#[test]
fn the_window_sleeps_while_the_worker_works() {
    let (folder, path) = small_survey();
    let mut window = kept(&folder.path().join("data"), Some(&path));
    replace_text(&mut window, "Clear width", "4");
    press(&mut window, Key::Tab);
    window.run();
    let root = &window.output().viewport_output[&egui::ViewportId::ROOT];
    assert_eq!(root.repaint_delay, std::time::Duration::MAX);
}
