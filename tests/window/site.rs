//! Site mode: by taps alone, on a small screen.

use super::{Window, click_button, press, shows, small_survey, survey};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{Certainty, Facing, Field, Form, Gap, GapId, GapPart, Outcome, Position};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use gapledger::window::questions::{Dialog, PathFor};
use gapledger::window::theme::TOUCH_TARGET;
use std::path::Path;

const SCREEN: (f32, f32) = (1024.0, 700.0);

/// The window on a small screen, in site mode.
fn site(path: &Path) -> Window<'static> {
    let start = Start::test(Some(path.to_owned()));
    let mut window = Harness::builder()
        .with_size(egui::vec2(SCREEN.0, SCREEN.1))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    window.run();
    press(&mut window, Key::F9);
    assert!(window.state().view().gaps.in_site_mode());
    window
}

/// Taps, and counts them.
struct Taps<'w, 'h> {
    window: &'w mut Window<'h>,
    count: usize,
}

impl Taps<'_, '_> {
    fn at(&mut self, pos: Pos2) -> &mut Self {
        self.window.event(Event::PointerMoved(pos));
        self.window.step();
        for pressed in [true, false] {
            self.window.event(Event::PointerButton {
                pos,
                button: PointerButton::Primary,
                pressed,
                modifiers: Modifiers::NONE,
            });
            self.window.step();
        }
        self.window.run();
        self.count += 1;
        self
    }

    fn on(&mut self, name: &str) -> &mut Self {
        let button = self.window.get_by_role_and_label(Role::Button, name);
        let at = button.rect().center();
        self.at(at)
    }

    fn digits(&mut self, digits: &str) -> &mut Self {
        for digit in digits.chars() {
            let name = match digit {
                '.' => "decimal point".to_owned(),
                '½' => "and a half".to_owned(),
                digit => digit.to_string(),
            };
            self.on(&name);
        }
        self
    }
}

fn taps<'w, 'h>(window: &'w mut Window<'h>) -> Taps<'w, 'h> {
    Taps { window, count: 0 }
}

fn gap(window: &Window<'_>, id: u32) -> Gap {
    survey(window).gap(GapId(id)).unwrap().clone()
}

/// Length and width of a narrow gap.
fn sizes(gap: &Gap) -> (Option<f64>, Option<f64>) {
    match gap.form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            ..
        } => (length_mm, width_mm),
        _ => panic!("{:?}", gap.form),
    }
}

/// Goes to the station with this name.
fn stand_at(window: &mut Window<'_>, name: &str) {
    for _ in 0..20 {
        let place = window.state().view().gaps.walk_place(survey(window));
        if place.is_some_and(|(station, _)| station.name == name) {
            return;
        }
        click_button(window, "Next station");
    }
    panic!("there is no station {name}");
}

#[test]
fn three_gaps_are_added_by_taps_alone_and_site_mode_is_left_again() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    stand_at(&mut window, "floor edge");
    // Found, length, width, on to the next place.
    let mut first = taps(&mut window);
    first.on("Found").digits("1200").on("Next number");
    first.digits("0.8").on("Next place");
    assert_eq!(first.count, 10);
    let added = gap(&window, 3);
    assert_eq!(sizes(&added), (Some(1200.0), Some(0.8)));
    assert_eq!(added.part, GapPart::FixedJoint);
    assert_eq!(added.certainty, Certainty::Estimated);
    // A half is one tap, and a wrong digit goes with another.
    let mut second = taps(&mut window);
    second.on("Found").digits("957").on("Delete a digit");
    second.on("Next number").digits("1½").on("Next place");
    assert_eq!(second.count, 9);
    assert_eq!(sizes(&gap(&window, 4)), (Some(95.0), Some(1.5)));
    // With its usual sizes, which stay guesses, a gap is one tap.
    let mut third = taps(&mut window);
    third.on("Found");
    assert_eq!(third.count, 1);
    assert_eq!(gap(&window, 5).certainty, Certainty::Guessed);
    let found = survey(&window).progress().found;
    assert_eq!(found, 3);
    // Each is a step of its own.
    taps(&mut window).on("Undo");
    assert_eq!(survey(&window).gap(GapId(5)), None);
    taps(&mut window).on("Leave site mode");
    assert!(!window.state().view().gaps.in_site_mode());
    assert!(
        window
            .query_by_role_and_label(Role::Button, "Ledger")
            .is_some()
    );
    let small = window.get_by_role_and_label(Role::Button, "Ledger").rect();
    assert!(small.height() < TOUCH_TARGET);
}

#[test]
fn a_unit_of_the_tape_is_one_tap_on_the_pad_and_inches_have_their_fractions() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    stand_at(&mut window, "floor edge");
    let mut metric = taps(&mut window);
    metric.on("Found").digits("120").on("centimetres");
    metric.on("Next number").digits("0.8").on("Next place");
    assert_eq!(metric.count, 10);
    assert_eq!(sizes(&gap(&window, 3)), (Some(1200.0), Some(0.8)));
    let mut sum = taps(&mut window);
    sum.on("Found").digits("2").on("times").digits("600");
    assert_eq!(sizes(&gap(&window, 4)).0, Some(1200.0));
    // A count has no unit.
    let enabled = |window: &Window<'_>, name: &str| {
        let key = window.get_by_role_and_label(Role::Button, name);
        !key.accesskit_node().is_disabled()
    };
    assert!(enabled(&window, "metres"));
    for _ in 0..3 {
        click_button(&mut window, "Next number");
    }
    assert!(!enabled(&window, "metres"));
    assert!(enabled(&window, "times"));
    window.state_mut().queue().command(Command::UsCustomary);
    window.run();
    click_button(&mut window, "Next place");
    let mut us = taps(&mut window);
    us.on("Found").digits("3").on("feet");
    us.on("Next number")
        .digits("3")
        .on("divided by")
        .digits("8")
        .on("inches");
    assert_eq!(sizes(&gap(&window, 5)), (Some(914.4), Some(9.525)));
    click_button(&mut window, "Next place");
    let mut eighth = taps(&mut window);
    eighth.on("Found").digits("1").on("and an eighth");
    let shown = sizes(&gap(&window, 6)).0.unwrap();
    assert!((shown - 28.575).abs() < 1e-9, "{shown}");
}

#[test]
fn the_first_eight_fields_are_in_sight_and_every_target_is_large_enough() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    stand_at(&mut window, "floor edge");
    taps(&mut window).on("Found");
    let pad = window.get_by_role_and_label(Role::Button, "7").rect();
    let unit = |field: Field| match field.unit() {
        "" => field.label().to_owned(),
        unit => format!("{} ({unit})", field.label()),
    };
    let fields = [
        (Role::ComboBox, Field::Form),
        (Role::ComboBox, Field::Purpose),
        (Role::TextInput, Field::GapLength),
        (Role::TextInput, Field::GapWidth),
        (Role::TextInput, Field::GapDepth),
        (Role::TextInput, Field::Bends),
        (Role::TextInput, Field::GapCount),
        (Role::ComboBox, Field::Certainty),
    ]
    .map(|(role, field)| (role, unit(field)));
    for (role, name) in fields {
        let rect = window.get_by_role_and_label(role, &name).rect();
        assert!(rect.bottom() <= pad.top(), "{name} {rect:?} {pad:?}");
        assert!(rect.right() <= SCREEN.0, "{name} {rect:?}");
    }
    for role in [
        Role::Button,
        Role::TextInput,
        Role::ComboBox,
        Role::CheckBox,
    ] {
        for node in window.query_all_by_role(role) {
            let (rect, name) = (node.rect(), node.accesskit_node().label());
            assert!(rect.height() >= TOUCH_TARGET - 0.1, "{name:?} {rect:?}");
            assert!(rect.right() <= SCREEN.0 + 0.1, "{name:?} {rect:?}");
        }
    }
    for name in ["New gap", "Photo", "Photo first", "Next place"] {
        let rect = window.get_by_role_and_label(Role::Button, name).rect();
        assert!(rect.bottom() <= SCREEN.1, "{name} {rect:?}");
    }
}

#[test]
fn a_touch_of_the_drawing_adds_a_gap_whose_first_number_takes_the_pad() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    let place = Position {
        along_m: Some(1.4),
        across_m: Some(2.3),
        height_m: Some(1.1),
        rise_m: None,
    };
    let body = window.state().view().gaps.body();
    let at = body.on_screen(Facing::Offside, &place).unwrap();
    let mut touched = taps(&mut window);
    touched.at(at).digits("640");
    let added = gap(&window, 3);
    assert_eq!(added.facing, Facing::Offside);
    assert_eq!(sizes(&added).0, Some(640.0));
    // Its place is no usual one.
    assert!(survey(&window).walk.is_empty());
}

#[test]
fn a_photo_comes_first_and_the_gap_is_described_afterwards() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    taps(&mut window).on("Photo first");
    assert_eq!(gap(&window, 3).part, GapPart::NotSaid);
    // No system dialog in tests: the path is asked for, of the new gap.
    let asked = window.state().dialog();
    assert!(
        matches!(
            asked,
            Some(Dialog::Path {
                purpose: PathFor::Photo(GapId(3)),
                ..
            })
        ),
        "{asked:?}"
    );
}

#[test]
fn site_mode_shows_nothing_else_and_another_page_leaves_it() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    for name in ["Survey", "View", "Ledger", "Both"] {
        let there = window.query_by_role_and_label(Role::Button, name);
        assert!(there.is_none(), "{name}");
    }
    assert!(window.query_by_label("New gap: zone").is_none());
    assert!(shows(&window, "EqLA"));
    assert!(shows(&window, "places"));
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Vehicle));
    window.run();
    assert!(!window.state().view().gaps.in_site_mode());
    // The same key leads in and out.
    press(&mut window, Key::F9);
    assert!(window.state().view().gaps.in_site_mode());
    press(&mut window, Key::F9);
    assert!(!window.state().view().gaps.in_site_mode());
}

/// Where a label that holds these words is.
fn words_at(window: &Window<'_>, words: &str) -> egui::Rect {
    let mut labels = window.query_all_by_label_contains(words);
    labels.next().map(|label| label.rect()).unwrap()
}

#[test]
fn what_to_beware_of_is_seen_whole_and_the_list_of_places_gives_way() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    for (station, words) in [
        ("roof", "do not stand on the roof."),
        ("under the floor", "may let leaked gas fall out"),
    ] {
        stand_at(&mut window, station);
        let caution = words_at(&window, words);
        let found = window.get_by_role_and_label(Role::Button, "Found").rect();
        let list = words_at(&window, "Usual places: ");
        assert!(caution.height() > 20.0, "{station}: {caution:?}");
        assert!(
            caution.top() >= found.bottom(),
            "{station}: {caution:?} {found:?}"
        );
        assert!(
            caution.bottom() <= list.top(),
            "{station}: {caution:?} {list:?}"
        );
        assert!(
            list.bottom() <= SCREEN.1 && list.height() >= TOUCH_TARGET,
            "{list:?}"
        );
    }
}

#[test]
fn a_place_is_chosen_and_said_by_taps() {
    let (_folder, path) = small_survey();
    let mut window = site(&path);
    let (station, place) = survey(&window).usual_places().next().unwrap();
    taps(&mut window).on("Looked, nothing");
    let said = survey(&window).outcome(station.id, place.id);
    assert_eq!(said, Some(Outcome::Nothing));
    stand_at(&mut window, "windows");
    let row = window.get_by_label("seals of the windows, nearside: not looked at yet");
    let at = row.rect().center();
    taps(&mut window).at(at).on("Not reached");
    let said = survey(&window).outcome("windows", "nearside_windows");
    assert_eq!(said, Some(Outcome::NotReached));
}
