//! One photo large: marks drawn by mouse and keyboard, words, turning over.

use super::photos::{Site, add, names};
use super::{Window, click_button, ctrl, press, replace_text, shows, survey, text_of};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Key, pos2};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{GapId, PhotoMark};

fn marks(window: &Window<'_>) -> Vec<PhotoMark> {
    survey(window).gap(GapId(1)).unwrap().photos[0]
        .marks
        .clone()
}

fn open_first(window: &mut Window<'_>) {
    window.get_by_label_contains("open photo 1 of").click();
    window.run();
}

/// A survey whose first gap has one photo, which is shown large.
fn with_a_photo_open() -> (Site, Window<'static>) {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    open_first(&mut window);
    (site, window)
}

/// Across, down and radius of the first mark, which must be a circle.
fn circle(window: &Window<'_>) -> [f64; 3] {
    let circle = match marks(window)[0] {
        PhotoMark::Circle {
            across,
            down,
            radius,
        } => Some([across, down, radius]),
        PhotoMark::Arrow { .. } => None,
    };
    circle.unwrap()
}

fn near(found: &[f64], meant: &[f64], within: f64) {
    for (found, meant) in found.iter().zip(meant) {
        assert!((found - meant).abs() < within, "{found} {meant}");
    }
}

/// With the large photo open: where it lies on the screen.
fn photo_rect(window: &Window<'_>) -> egui::Rect {
    let node = window.get_by_role(Role::Image);
    node.rect()
}

fn drag(window: &mut Window<'_>, from: (f32, f32), to: (f32, f32)) {
    let rect = photo_rect(window);
    let at = |share: (f32, f32)| {
        pos2(
            rect.min.x + share.0 * rect.width(),
            rect.min.y + share.1 * rect.height(),
        )
    };
    window.hover_at(at(from));
    window.step();
    window.drag_at(at(from));
    window.step();
    for part in [0.3, 0.7, 1.0] {
        window.hover_at(at(from).lerp(at(to), part));
        window.step();
    }
    window.drop_at(at(to));
    window.run();
}

#[test]
fn marks_are_drawn_by_mouse_and_undone_one_by_one() {
    let (_site, mut window) = with_a_photo_open();
    assert!(shows(&window, "Photo 1 of 1 – gap 1 “seal 1”"));
    drag(&mut window, (0.5, 0.5), (0.6, 0.5));
    near(&circle(&window), &[0.5, 0.5, 0.1], 0.01);
    window.get_by_label("Arrow").click();
    window.run();
    drag(&mut window, (0.1, 0.1), (0.3, 0.4));
    let PhotoMark::Arrow {
        from_across,
        across,
        down,
        ..
    } = marks(&window)[1]
    else {
        panic!("then an arrow")
    };
    near(&[from_across, across, down], &[0.1, 0.3, 0.4], 0.01);
    // The arrow is selected: dragging it moves it, as one step.
    drag(&mut window, (0.2, 0.25), (0.4, 0.25));
    assert!((marks(&window)[1].place().0 - 0.5).abs() < 0.01);
    ctrl(&mut window, Key::Z);
    assert!((marks(&window)[1].place().0 - 0.3).abs() < 0.01);
    ctrl(&mut window, Key::Z);
    assert_eq!(marks(&window).len(), 1);
    ctrl(&mut window, Key::Z);
    assert!(marks(&window).is_empty());
    press(&mut window, Key::Escape);
    assert!(!shows(&window, "Photo 1 of 1 –"));
    assert_eq!(survey(&window).gaps.len(), 2);
}

#[test]
fn esc_during_a_drag_gives_up_the_drag_and_the_photo_stays_open() {
    let (_site, mut window) = with_a_photo_open();
    let middle = photo_rect(&window).center();
    window.hover_at(middle);
    window.step();
    window.drag_at(middle);
    window.step();
    window.hover_at(middle + egui::vec2(80.0, 0.0));
    window.step();
    press(&mut window, Key::Escape);
    window.drop_at(middle + egui::vec2(80.0, 0.0));
    window.run();
    assert!(marks(&window).is_empty());
    assert!(shows(&window, "Photo 1 of 1 –"));
}

#[test]
fn marks_are_put_moved_sized_and_removed_by_keyboard() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    window.get_by_label_contains("open photo 1 of").focus();
    window.run();
    press(&mut window, Key::Enter);
    // The keys of the tools draw nothing yet.
    press(&mut window, Key::A);
    press(&mut window, Key::C);
    assert!(marks(&window).is_empty());
    press(&mut window, Key::Enter);
    for key in [Key::ArrowRight, Key::ArrowRight, Key::ArrowUp, Key::Plus] {
        press(&mut window, key);
    }
    near(&circle(&window), &[0.52, 0.49, 0.11], 1e-9);
    press(&mut window, Key::Enter);
    press(&mut window, Key::A);
    press(&mut window, Key::Enter);
    assert_eq!(marks(&window).len(), 2);
    assert!(matches!(marks(&window)[1], PhotoMark::Arrow { .. }));
    press(&mut window, Key::Delete);
    assert_eq!(marks(&window).len(), 1);
    assert_eq!(survey(&window).gaps.len(), 2, "Delete is the mark's");
    window.get_by_label("mark 1 circle").click();
    window.run();
    click_button(&mut window, "Remove mark");
    assert!(marks(&window).is_empty());
    for expected in [1, 2, 1] {
        ctrl(&mut window, Key::Z);
        assert_eq!(marks(&window).len(), expected);
    }
}

#[test]
fn arrows_turn_the_photos_over_and_words_are_kept() {
    let site = Site::new();
    let mut window = site.opened();
    for shade in 1..=3 {
        add(
            &mut window,
            &site.picture(&format!("{shade}.png"), shade * 60),
        );
    }
    open_first(&mut window);
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::ArrowRight);
    assert!(shows(&window, "Photo 3 of 3"));
    press(&mut window, Key::ArrowLeft);
    assert!(shows(&window, "Photo 2 of 3"));
    replace_text(&mut window, "What it shows", "lower corner");
    assert_eq!(text_of(&window, "What it shows"), "lower corner");
    assert_eq!(
        survey(&window).gap(GapId(1)).unwrap().photos[1].caption,
        "lower corner"
    );
    click_button(&mut window, "Close");
    assert!(shows(&window, "open photo 2 of 3, lower corner"));
    // What is no longer drawn leaves the graphics card.
    assert_eq!(window.state().photos().uploaded(), 3);
    ctrl(&mut window, Key::Num1);
    assert_eq!(window.state().photos().uploaded(), 0);
}

#[test]
fn undo_under_an_open_photo_closes_it_with_its_photo() {
    let (_site, mut window) = with_a_photo_open();
    ctrl(&mut window, Key::Z);
    assert!(names(&window, 1).is_empty());
    assert!(!shows(&window, "Photo 1 of"));
}

#[test]
fn with_photos_in_sight_the_window_rests() {
    let (_site, mut window) = with_a_photo_open();
    window.run();
    let output = &window.output().viewport_output[&egui::ViewportId::ROOT];
    assert_eq!(output.repaint_delay, std::time::Duration::MAX);
    let node = window.get_by_label_contains("photo, 0 marks");
    assert!(node.accesskit_node().is_focused());
}
