//! How the Gaps page is divided.

use super::*;
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use gapledger::window::pages::gaps::Column;
use gapledger::window::request::Request;

const EDGE: &str = "Edge between body and ledger";

fn both(path: &Path) -> Window<'static> {
    let mut window = opened(path);
    click_button(&mut window, "Both");
    window
}

fn edge(window: &Window<'_>) -> f32 {
    window.get_by_label(EDGE).rect().center().x
}

#[test]
fn the_edge_is_moved_by_keyboard_and_stays_over_pages_and_surveys() {
    let (_folder, path) = small_survey();
    let mut window = both(&path);
    let first = edge(&window);
    window.get_by_label(EDGE).focus();
    window.run();
    for _ in 0..4 {
        press(&mut window, Key::ArrowLeft);
    }
    let moved = edge(&window);
    assert!((first - moved - 64.0).abs() < 2.0, "{first} {moved}");
    for page in [Page::Vehicle, Page::JobSheet, Page::Gaps] {
        window.state_mut().queue().command(Command::Show(page));
        window.run();
    }
    assert!((edge(&window) - moved).abs() < 1.0);
    let other = Request::OpenFile(sample("farmyard-caravan.ron"));
    window.state_mut().queue().push(other);
    window.run();
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Gaps));
    window.run();
    assert!((edge(&window) - moved).abs() < 1.0);
    window.get_by_label(EDGE).focus();
    window.run();
    press(&mut window, Key::Enter);
    assert!((edge(&window) - first).abs() < 1.0);
}

#[test]
fn the_edge_is_dragged_and_leaves_room_for_both() {
    let (_folder, path) = small_survey();
    let mut window = both(&path);
    let at = window.get_by_label(EDGE).rect().center();
    window.hover_at(at);
    window.run();
    window.drag_at(at);
    window.run();
    let to = egui::pos2(at.x - 90.0, at.y);
    window.hover_at(to);
    window.run();
    assert!((edge(&window) - to.x).abs() < 2.0);
    window.hover_at(egui::pos2(5.0, at.y));
    window.run();
    let least = edge(&window);
    window.drop_at(egui::pos2(5.0, at.y));
    window.run();
    assert!(
        least > 290.0 && (edge(&window) - least).abs() < 1.0,
        "{least}"
    );
}

/// The leakage area is among the columns that a narrow ledger shows without scrolling.
#[test]
fn the_leakage_area_stands_beside_the_name() {
    let (_folder, path) = small_survey();
    let window = both(&path);
    let shown = window.state().view().gaps.columns.shown();
    let place = |column| shown.iter().position(|other| *other == column).unwrap();
    assert_eq!(place(Column::Area), place(Column::Name) + 1);
}
