//! The unfolded body on the Gaps page, by pointer and by keyboard.

use super::plan_work::{held, let_go};
use super::{Window, click_button, ctrl, press, sample, shows, small_survey, survey};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Pos2};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{Facing, Gap, GapId, Position};
use gapledger::window::answers::LongWork;
use gapledger::window::background::Status;
use gapledger::window::commands::Command;
use std::path::Path;

const UNFOLDED: &str = "The touring caravan unfolded, with 2 gaps marked on its faces";

/// The window with a file open and the unfolded body beside the ledger.
fn opened(path: &Path) -> Window<'static> {
    let mut window = super::opened(path);
    click_button(&mut window, "Both");
    window
}

fn at(along: f64, across: f64, height: f64) -> Position {
    Position {
        along_m: Some(along),
        across_m: Some(across),
        height_m: Some(height),
        rise_m: None,
    }
}

fn on_screen(window: &Window<'_>, facing: Facing, position: Position) -> Pos2 {
    let body = window.state().view().gaps.body();
    body.on_screen(facing, &position).unwrap()
}

fn mark(window: &Window<'_>, id: u32) -> Pos2 {
    let body = window.state().view().gaps.body();
    body.mark_on_screen(GapId(id)).unwrap()
}

fn gap(window: &Window<'_>, id: u32) -> Gap {
    survey(window).gap(GapId(id)).unwrap().clone()
}

fn selected(window: &Window<'_>) -> Option<GapId> {
    window.state().view().gaps.selected_in(survey(window))
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

fn move_to(window: &mut Window<'_>, pos: Pos2) {
    window.event(Event::PointerMoved(pos));
    window.step();
}

fn click(window: &mut Window<'_>, pos: Pos2) {
    move_to(window, pos);
    button(window, pos, true);
    button(window, pos, false);
    window.run();
}

/// Presses at one point and moves to another in two steps, without letting go.
fn drag(window: &mut Window<'_>, from: Pos2, to: Pos2) {
    move_to(window, from);
    button(window, from, true);
    move_to(window, from + (to - from) / 2.0);
    move_to(window, to);
    window.run();
}

fn drop_at(window: &mut Window<'_>, pos: Pos2) {
    button(window, pos, false);
    window.run();
}

fn near(value: Option<f64>, expected: f64) {
    let value = value.unwrap();
    assert!((value - expected).abs() < 0.03, "{value} for {expected}");
}

fn focus_drawing(window: &mut Window<'_>) {
    window.get_by_label(UNFOLDED).focus();
    window.run();
}

#[test]
fn a_click_on_a_free_place_adds_a_gap_there_and_its_form_takes_the_focus() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let free = on_screen(&window, Facing::Offside, at(1.4, 2.3, 1.1));
    click(&mut window, free);
    let added = gap(&window, 3);
    assert_eq!(added.facing, Facing::Offside);
    near(added.position.along_m, 1.4);
    near(added.position.across_m, 2.3);
    near(added.position.height_m, 1.1);
    assert_eq!(selected(&window), Some(GapId(3)));
    let name = window.get_by_role_and_label(Role::TextInput, "What it is");
    assert!(name.is_focused());
    // Zone and form are those of the gap selected before.
    assert_eq!(added.zone, gap(&window, 1).zone);
    let roof = on_screen(&window, Facing::Roof, at(2.5, 1.0, 2.6));
    click(&mut window, roof);
    let added = gap(&window, 4);
    assert_eq!(added.facing, Facing::Roof);
    near(added.position.across_m, 1.0);
    near(added.position.height_m, 2.6);
    // Beside every face nothing is added.
    let corner = on_screen(&window, Facing::Front, at(0.0, 2.3, 0.0));
    click(&mut window, corner + egui::vec2(4.0, 8.0));
    assert_eq!(survey(&window).gaps.len(), 4);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window).gaps.len(), 3);
}

#[test]
fn a_click_on_a_mark_selects_its_row_and_a_row_its_mark() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let second = mark(&window, 2);
    click(&mut window, second);
    assert_eq!(selected(&window), Some(GapId(2)));
    assert!(shows(&window, "Gap 2"));
    assert_eq!(survey(&window).gaps.len(), 2);
    window.get_by_label_contains("1 seal 1: doors").click();
    window.run();
    assert_eq!(selected(&window), Some(GapId(1)));
    let drawing = window.get_by_label(UNFOLDED);
    let value = drawing.accesskit_node().value().unwrap();
    assert!(value.starts_with("selected: 1 seal 1: nearside"), "{value}");
}

#[test]
fn a_dragged_mark_moves_live_and_is_one_step() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let before = survey(&window).clone();
    let (from, to) = (
        mark(&window, 1),
        on_screen(&window, Facing::Nearside, at(4.0, 0.0, 1.6)),
    );
    drag(&mut window, from, to);
    // Live: the survey, and with it every result, has it before the button is let go.
    near(gap(&window, 1).position.height_m, 1.6);
    let results = window.state().results().unwrap();
    assert!(results.revision > 1);
    drop_at(&mut window, to);
    near(gap(&window, 1).position.along_m, 4.0);
    assert_eq!(selected(&window), Some(GapId(1)));
    // On to the roof: another step, another facing.
    let (from, to) = (
        mark(&window, 1),
        on_screen(&window, Facing::Roof, at(3.0, 1.2, 2.6)),
    );
    drag(&mut window, from, to);
    drop_at(&mut window, to);
    assert_eq!(gap(&window, 1).facing, Facing::Roof);
    ctrl(&mut window, Key::Z);
    assert_eq!(gap(&window, 1).facing, Facing::Nearside);
    near(gap(&window, 1).position.height_m, 1.6);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &before);
}

/// While a mark is on its way the drawing has the processor to itself; where it rests results come,
/// before it is let go.
#[test]
fn results_wait_while_a_mark_moves_and_come_where_it_rests() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let results = |window: &Window<'_>| window.state().results().unwrap().revision;
    let before = results(&window);
    let (from, to) = (
        mark(&window, 1),
        on_screen(&window, Facing::Nearside, at(4.0, 0.0, 1.6)),
    );
    move_to(&mut window, from);
    button(&mut window, from, true);
    for part in [0.2, 0.4, 0.6, 0.8, 1.0] {
        move_to(&mut window, from.lerp(to, part));
        assert_eq!(results(&window), before, "{part}");
    }
    window.run();
    near(gap(&window, 1).position.height_m, 1.6);
    assert!(results(&window) > before);
    drop_at(&mut window, to);
}

/// Draws that were begun for the survey before would take their time from the drawing.
#[test]
fn a_mark_that_moves_gives_up_longer_work_on_the_survey_before() {
    let (mut window, held) = held("farmyard-caravan.ron");
    let_go(&mut window, &held);
    click_button(&mut window, "Both");
    let_go(&mut window, &held);
    let draws = |window: &Window<'_>| window.state().answers().status(LongWork::Uncertainty);
    let from = mark(&window, 1);
    let to = from + egui::vec2(30.0, 0.0);
    drag(&mut window, from, to);
    drop_at(&mut window, to);
    assert!(matches!(draws(&window), Status::Working(_)));
    let moved = survey(&window).clone();
    move_to(&mut window, to);
    button(&mut window, to, true);
    for way in [10.0, 20.0, 30.0] {
        move_to(&mut window, to - egui::vec2(way, 0.0));
    }
    assert_ne!(survey(&window), &moved);
    assert_eq!(draws(&window), Status::Idle);
    drop_at(&mut window, from);
    assert!(matches!(draws(&window), Status::Working(_)));
}

/// With very many gaps the drawing alone follows the pointer.
#[test]
fn among_very_many_gaps_results_wait_until_the_mark_is_let_go() {
    let folder = tempfile::tempdir().unwrap();
    let (_small, path) = small_survey();
    let mut survey = gapledger::survey::file::load(&path).unwrap().survey;
    let model = survey.gaps[1].clone();
    for number in 3..=160 {
        let mut gap = model.clone();
        gap.id = GapId(number);
        survey.gaps.push(gap);
    }
    let many = folder.path().join("many.ron");
    std::fs::write(&many, gapledger::survey::file::print(&survey)).unwrap();
    let mut window = opened(&many);
    let before = window.state().results().unwrap().revision;
    let (from, to) = (
        mark(&window, 1),
        on_screen(&window, Facing::Nearside, at(4.0, 0.0, 1.6)),
    );
    drag(&mut window, from, to);
    near(gap(&window, 1).position.height_m, 1.6);
    assert_eq!(window.state().results().unwrap().revision, before);
    drop_at(&mut window, to);
    assert!(window.state().results().unwrap().revision > before);
}

#[test]
fn esc_takes_a_drag_back_and_the_rest_of_it_does_nothing() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let before = survey(&window).clone();
    let (from, to) = (
        mark(&window, 1),
        on_screen(&window, Facing::Nearside, at(4.0, 0.0, 1.6)),
    );
    drag(&mut window, from, to);
    assert_ne!(survey(&window), &before);
    press(&mut window, Key::Escape);
    assert_eq!(survey(&window), &before);
    move_to(&mut window, to + egui::vec2(20.0, 0.0));
    drop_at(&mut window, to);
    assert_eq!(survey(&window), &before);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &before);
}

#[test]
fn arrows_step_through_the_marks_and_enter_edits() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    focus_drawing(&mut window);
    // Round the vehicle: the nearside with gap 1 comes before the offside with gap 2.
    press(&mut window, Key::ArrowRight);
    assert_eq!(selected(&window), Some(GapId(2)));
    press(&mut window, Key::ArrowRight);
    assert_eq!(selected(&window), Some(GapId(2)));
    press(&mut window, Key::ArrowUp);
    assert_eq!(selected(&window), Some(GapId(1)));
    press(&mut window, Key::End);
    assert_eq!(selected(&window), Some(GapId(2)));
    press(&mut window, Key::Enter);
    let name = window.get_by_role_and_label(Role::TextInput, "What it is");
    assert!(name.is_focused());
    focus_drawing(&mut window);
    press(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 1);
}

#[test]
fn nudges_while_ctrl_is_held_are_one_step_of_50_mm_each() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    focus_drawing(&mut window);
    let nudge = |window: &mut Window<'_>, key| {
        window.key_press_modifiers(Modifiers::COMMAND, key);
        window.step();
    };
    nudge(&mut window, Key::ArrowUp);
    window.run();
    near(gap(&window, 1).position.height_m, 0.65);
    // Without a place along, the mark stood in the middle: 2.5 m of 5 m.
    near(gap(&window, 1).position.along_m, 2.5);
    nudge(&mut window, Key::ArrowRight);
    window.run();
    near(gap(&window, 1).position.along_m, 2.55);
    ctrl(&mut window, Key::Z);
    near(gap(&window, 1).position.along_m, 2.5);
    ctrl(&mut window, Key::Z);
    assert_eq!(gap(&window, 1).position.along_m, None);
}

#[test]
fn keys_and_wheel_enlarge_the_body_and_zero_shows_all_of_it() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    focus_drawing(&mut window);
    let long = |window: &Window<'_>| {
        let ends = [0.5, 4.5].map(|along| on_screen(window, Facing::Roof, at(along, 1.0, 2.6)));
        (ends[1] - ends[0]).length()
    };
    let whole = long(&window);
    press(&mut window, Key::Plus);
    press(&mut window, Key::Plus);
    assert!((long(&window) / whole - 1.69).abs() < 0.01);
    let before = mark(&window, 1);
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
    window.run();
    assert!(mark(&window, 1).x < before.x - 50.0);
    press(&mut window, Key::Minus);
    assert!((long(&window) / whole - 1.3).abs() < 0.01);
    press(&mut window, Key::Num0);
    assert!((long(&window) / whole - 1.0).abs() < 1e-3);
    click_button(&mut window, "Enlarge the drawing (+)");
    assert!((long(&window) / whole - 1.3).abs() < 0.01);
    click_button(&mut window, "Show the whole body (0)");
    let middle = on_screen(&window, Facing::Roof, at(2.5, 1.15, 2.6));
    move_to(&mut window, middle);
    window.event(Event::MouseWheel {
        unit: egui::MouseWheelUnit::Point,
        delta: egui::vec2(0.0, 120.0),
        modifiers: Modifiers::NONE,
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
    });
    window.run();
    assert!(long(&window) > whole * 1.2);
    // What was under the pointer is still there.
    let after = on_screen(&window, Facing::Roof, at(2.5, 1.15, 2.6));
    assert!((after - middle).length() < 1.0);
}

#[test]
fn duplicate_and_mirror_work_from_the_drawing() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let from = mark(&window, 2);
    click(&mut window, from);
    ctrl(&mut window, Key::M);
    let mirrored = gap(&window, 3);
    assert_eq!(mirrored.facing, Facing::Nearside);
    assert_eq!(mirrored.position.height_m, Some(2.4));
    let from = mark(&window, 1);
    click(&mut window, from);
    ctrl(&mut window, Key::D);
    assert_eq!(gap(&window, 4).facing, Facing::Nearside);
    // The copy lies in the same place, and both can be told apart and hit.
    assert!((mark(&window, 4) - mark(&window, 1)).length() > 6.0);
}

#[test]
fn a_drawing_without_recorded_sizes_makes_up_no_place() {
    let (_folder, path) = small_survey();
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::write(&path, text.replace("    length_m: 5,\n", "")).unwrap();
    let mut window = opened(&path);
    assert!(shows(&window, "length not recorded"));
    let free = on_screen(&window, Facing::Nearside, at(1.4, 0.0, 1.4));
    click(&mut window, free);
    let added = gap(&window, 3);
    assert_eq!(added.position.along_m, None);
    near(added.position.height_m, 1.4);
}

#[test]
fn ledger_body_or_both_are_shown_and_the_drawing_is_made_once() {
    let mut window = opened(&sample("coastal-coachbuilt.ron"));
    let drawing = |window: &Window<'_>| {
        let found = window.query_all_by_role(Role::Image);
        let unfolded = |node: &egui_kittest::Node<'_>| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.contains("unfolded"))
        };
        found.filter(unfolded).count()
    };
    assert_eq!(drawing(&window), 1);
    assert!(window.query_by_label("Gap ledger").is_some());
    click_button(&mut window, "Ledger");
    assert_eq!(drawing(&window), 0);
    click_button(&mut window, "Body");
    assert_eq!(drawing(&window), 1);
    assert!(window.query_by_label("Gap ledger").is_none());
    // Nothing else has the focus: keys go to the drawing.
    let before = selected(&window);
    press(&mut window, Key::End);
    assert_ne!(selected(&window), before);
    click_button(&mut window, "Legend");
    for words in ["gas drop-out", "outline: guessed", "struck: sealed"] {
        assert!(shows(&window, words), "{words}");
    }
}

#[test]
fn many_gaps_in_one_place_say_so_and_a_click_goes_through_them() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for _ in 0..40 {
        window.state_mut().queue().command(Command::DuplicateGap);
    }
    window.run();
    press(&mut window, Key::Escape);
    let place = mark(&window, 1);
    click(&mut window, place);
    let first = selected(&window);
    click(&mut window, place);
    let second = selected(&window);
    assert_ne!(first, second);
    assert_eq!(survey(&window).gaps.len(), 42);
}
