//! Windows, doors and vents on the unfolded body, by keyboard and by pointer; outlines on the start
//! page's buttons.

use super::{Window, click_button, ctrl, press, shows, small_survey, survey};
use eframe::egui;
use egui::{Event, Key, Modifiers, PointerButton, Pos2};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::figure::outline::{Sizes, fittings};
use gapledger::survey::{Facing, Fitting, FittingId, FittingKind};

const UNFOLDED: &str = "The touring caravan unfolded, with 2 gaps marked on its faces";

fn opened() -> (tempfile::TempDir, Window<'static>) {
    let (folder, path) = small_survey();
    let mut window = super::opened(&path);
    click_button(&mut window, "Both");
    window.get_by_label("Windows & doors").click();
    window.run();
    window.get_by_label(UNFOLDED).focus();
    window.run();
    (folder, window)
}

fn usual(window: &Window<'_>) -> Vec<Fitting> {
    fittings::usual(&Sizes::of(&survey(window).vehicle))
}

/// What the drawing says is chosen.
fn chosen(window: &Window<'_>) -> String {
    let drawing = window.get_by_label(UNFOLDED);
    drawing.accesskit_node().value().unwrap_or_default()
}

fn own(window: &Window<'_>, id: u32) -> Option<Fitting> {
    let own = survey(window).fittings.as_ref()?;
    own.iter().find(|one| one.id == FittingId(id)).cloned()
}

#[test]
fn a_fitting_is_reached_moved_and_removed_by_keys_and_brought_back() {
    let (_folder, mut window) = opened();
    let before = survey(&window).clone();
    let all = usual(&window);
    assert!(survey(&window).fittings.is_none());
    assert!(shows(&window, "no result depends on them"));
    // Round the vehicle from the front: the front window is the first.
    press(&mut window, Key::ArrowRight);
    assert!(
        chosen(&window).starts_with("chosen: window, front"),
        "{}",
        chosen(&window)
    );
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::ArrowLeft);
    let front = all
        .iter()
        .find(|one| one.outline.facing == Facing::Front)
        .unwrap();
    window.key_press_modifiers(Modifiers::COMMAND, Key::ArrowUp);
    window.run();
    let moved = own(&window, front.id.0).unwrap();
    assert!((moved.outline.up_m - front.outline.up_m - 0.05).abs() < 0.0051);
    assert_eq!(survey(&window).fittings.as_ref().unwrap().len(), all.len());
    press(&mut window, Key::Delete);
    assert!(own(&window, front.id.0).is_none());
    assert_eq!(survey(&window).gaps.len(), 2, "no gap was deleted");
    // Both are steps that undo names and takes back.
    ctrl(&mut window, Key::Z);
    assert!(own(&window, front.id.0).is_some());
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &before);
    // Chosen from the list, removed by its button, and the usual ones brought back.
    let label = format!(
        "window, front, {:.2} m from the nearside",
        front.outline.along_m
    );
    window.get_by_label(&label).click();
    window.run();
    click_button(&mut window, "Remove what is chosen");
    assert!(own(&window, front.id.0).is_none());
    click_button(&mut window, "Add rooflight");
    let added = survey(&window)
        .fittings
        .as_ref()
        .unwrap()
        .last()
        .unwrap()
        .clone();
    assert_eq!(added.kind, FittingKind::Rooflight);
    click_button(&mut window, "Bring the usual ones back");
    assert_eq!(survey(&window), &before);
}

fn button(window: &mut Window<'_>, pos: Pos2, pressed: bool) {
    window.event(Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    });
    window.step();
}

#[test]
fn a_fitting_is_dragged_in_one_step_and_a_click_beside_adds_no_gap() {
    let (_folder, mut window) = opened();
    let before = survey(&window).clone();
    let door = usual(&window)
        .into_iter()
        .find(|one| one.kind == FittingKind::HabitationDoor);
    let door = door.unwrap();
    let body = |window: &Window<'_>| window.state().view().gaps.body().fitting_on_screen(door.id);
    let from = body(&window).unwrap();
    window.event(Event::PointerMoved(from));
    window.step();
    button(&mut window, from, true);
    for step in [10.0, 20.0, 30.0] {
        window.event(Event::PointerMoved(from - egui::vec2(step, 0.0)));
        window.step();
    }
    window.run();
    button(&mut window, from - egui::vec2(30.0, 0.0), false);
    window.run();
    let moved = own(&window, door.id.0).unwrap().outline;
    assert_eq!(moved.facing, Facing::Nearside);
    assert!(moved.along_m < door.outline.along_m - 0.2, "{moved:?}");
    assert!((moved.up_m - door.outline.up_m).abs() < 0.011);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &before);
    // Where no fitting is, a click chooses none, and adds no gap as it would otherwise.
    let free = window.state().view().gaps.body();
    let place = gapledger::survey::Position {
        along_m: Some(4.9),
        across_m: Some(1.0),
        ..Default::default()
    };
    let at = free.on_screen(Facing::Underfloor, &place).unwrap();
    window.event(Event::PointerMoved(at));
    window.step();
    button(&mut window, at, true);
    button(&mut window, at, false);
    window.run();
    assert_eq!(survey(&window).gaps.len(), 2);
    assert!(chosen(&window).is_empty());
}
