//! Quick entry: gaps by keyboard alone.

use super::{Window, click_button, ctrl, opened, press, shows, small_survey, survey, text_of};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Key};
use egui_kittest::kittest::Queryable;
use gapledger::survey::{Certainty, Facing, Form, Gap, GapId, Purpose};

/// Types and presses keys one by one, and counts them.
struct Keys<'w, 'h> {
    window: &'w mut Window<'h>,
    count: usize,
}

impl Keys<'_, '_> {
    fn key(&mut self, key: Key) -> &mut Self {
        press(self.window, key);
        self.count += 1;
        self
    }

    fn tabs(&mut self, count: usize) -> &mut Self {
        for _ in 0..count {
            self.key(Key::Tab);
        }
        self
    }

    fn back(&mut self, count: usize) -> &mut Self {
        for _ in 0..count {
            self.window
                .key_press_modifiers(egui::Modifiers::SHIFT, Key::Tab);
            self.window.run();
            self.count += 1;
        }
        self
    }

    fn text(&mut self, text: &str) -> &mut Self {
        for letter in text.chars() {
            self.window.event(Event::Text(letter.to_string()));
            self.window.run();
            self.count += 1;
        }
        self
    }

    fn jump(&mut self) -> &mut Self {
        ctrl(self.window, Key::E);
        self.count += 1;
        self
    }
}

fn keys<'w, 'h>(window: &'w mut Window<'h>) -> Keys<'w, 'h> {
    Keys { window, count: 0 }
}

fn gap(window: &Window<'_>, id: u32) -> Gap {
    survey(window).gap(GapId(id)).unwrap().clone()
}

fn focused(window: &Window<'_>, role: Role, name: &str) -> bool {
    window.get_by_role_and_label(role, name).is_focused()
}

#[test]
fn enter_adds_and_the_next_gap_keeps_zone_facing_and_shape() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    keys(&mut window).jump();
    assert!(focused(&window, Role::ComboBox, "New gap: shape"));
    // A sum with a decimal comma, width, depth; bends and count stay; place and height.
    keys(&mut window)
        .tabs(1)
        .text("2*600+2*400,5")
        .tabs(1)
        .text("1,5")
        .tabs(1)
        .text("20")
        .tabs(3)
        .text("1,2")
        .tabs(1)
        .text("0,9")
        .key(Key::Enter);
    let first = gap(&window, 3);
    assert_eq!(
        first.form,
        Form::NarrowGap {
            length_mm: Some(2001.0),
            width_mm: Some(1.5),
            depth_mm: Some(20.0),
            bends: 0
        }
    );
    assert_eq!(first.facing, Facing::Nearside);
    assert_eq!(first.position.along_m, Some(1.2));
    assert_eq!(first.position.height_m, Some(0.9));
    assert_eq!(first.position.across_m, Some(0.0));
    assert_eq!(first.certainty, Certainty::Estimated);
    assert_eq!(
        window.state().view().gaps.selected_in(survey(&window)),
        Some(GapId(3))
    );
    assert!(shows(&window, "Added gap 3"));
    // The focus is back in the first size, which is empty; depth belongs to the wall and stays.
    assert!(focused(&window, Role::TextInput, "New gap: length (mm)"));
    assert_eq!(text_of(&window, "New gap: length (mm)"), "");
    assert_eq!(text_of(&window, "New gap: depth (mm)"), "20");
    keys(&mut window)
        .text("500")
        .tabs(1)
        .text("1")
        .key(Key::Enter);
    let second = gap(&window, 4);
    assert_eq!((second.zone, second.facing), (first.zone, first.facing));
    assert_eq!(second.position.along_m, None);
    // Each is a step of its own.
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window).gaps.len(), 3);
}

#[test]
fn a_shape_is_found_by_its_letter_and_counts_as_guessed_until_measured() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    keys(&mut window)
        .jump()
        .text("h")
        .key(Key::Tab)
        .key(Key::Enter);
    let collar = gap(&window, 3);
    assert_eq!(collar.name, "heater flue collar");
    assert_eq!(collar.purpose, Purpose::ApplianceAir);
    assert_eq!(collar.certainty, Certainty::Guessed);
    assert!(shows(&window, "guesses of this program"));
    // Typed over, with the first size selected whole.
    keys(&mut window).text("90").key(Key::Enter);
    let typed = gap(&window, 4);
    assert_eq!(typed.certainty, Certainty::Estimated);
    assert_eq!(
        typed.form,
        Form::RingGap {
            hole_mm: Some(90.0),
            pipe_mm: Some(80.0)
        }
    );
    // A shape that is always in the roof turns the facing.
    keys(&mut window)
        .back(1)
        .text("roof")
        .tabs(1)
        .key(Key::Enter);
    let added = gap(&window, 5);
    assert_eq!(
        (added.name.as_str(), added.facing),
        ("rooflight lid", Facing::Roof)
    );
}

#[test]
fn what_is_not_a_number_adds_nothing_and_esc_brings_back_what_was_there() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    keys(&mut window).jump().tabs(1).text("2*").key(Key::Enter);
    assert_eq!(survey(&window).gaps.len(), 2);
    assert!(shows(&window, "does not hold a number yet"));
    keys(&mut window).text("300").key(Key::Enter);
    let added = gap(&window, 3);
    let Form::NarrowGap { length_mm, .. } = added.form else {
        panic!("{:?}", added.form);
    };
    assert_eq!(length_mm, Some(600.0));
    // 12 is there, 7 typed over it is taken back.
    keys(&mut window).tabs(1).text("12").key(Key::Tab);
    keys(&mut window).back(1).text("7").key(Key::Escape);
    assert_eq!(text_of(&window, "New gap: width (mm)"), "12");
    // Taking back what was typed here takes back nothing else.
    assert_eq!(survey(&window).gaps.len(), 3);
}

#[test]
fn the_button_adds_too_and_zone_and_certainty_are_remembered() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let choose = |window: &mut Window<'_>, name: &str, times: usize| {
        window.get_by_role_and_label(Role::ComboBox, name).focus();
        window.run();
        for _ in 0..times {
            press(window, Key::ArrowDown);
        }
    };
    choose(&mut window, "New gap: zone", 2);
    choose(&mut window, "New gap: facing", 1);
    choose(&mut window, "New gap: size found by", 0);
    press(&mut window, Key::ArrowUp);
    click_button(&mut window, "Add the new gap");
    keys(&mut window).text("100").key(Key::Enter);
    for id in [3, 4] {
        let gap = gap(&window, id);
        assert_eq!(gap.zone, survey(&window).zones[2].id);
        assert_eq!(gap.facing, Facing::Offside);
        assert_eq!(gap.certainty, Certainty::Measured);
    }
    // Nothing was measured of the first: it is in the ledger, without a size and not as zero.
    assert_eq!(gap(&window, 3).form, Form::blanks()[0]);
}

/// Ten gaps of a walk round with sizes and places, by keyboard alone. Typing slowly, at two keys
/// a second (common practice, no source), 30 keys are 15 s.
#[test]
fn ten_gaps_take_fewer_than_thirty_keys_each() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let mut keys = keys(&mut window);
    keys.jump().text("d").tabs(1);
    // Door seal: width measured, place and height.
    keys.tabs(1)
        .text("1,2")
        .tabs(4)
        .text("2,1")
        .tabs(1)
        .text("1,4")
        .key(Key::Enter);
    // Two windows after each other.
    keys.jump()
        .text("wi")
        .tabs(1)
        .tabs(5)
        .text("1,1")
        .tabs(1)
        .text("1,7")
        .key(Key::Enter);
    keys.tabs(5).text("3,4").tabs(1).text("1,7").key(Key::Enter);
    // A locker flap, and the toilet flap.
    keys.jump()
        .text("l")
        .tabs(6)
        .text("4,2")
        .tabs(1)
        .text("0,8")
        .key(Key::Enter);
    keys.jump()
        .text("t")
        .tabs(6)
        .text("4,7")
        .tabs(1)
        .text("1")
        .key(Key::Enter);
    // A rooflight with its place along and across.
    keys.jump()
        .text("ro")
        .tabs(6)
        .text("2,5")
        .tabs(1)
        .text("1,1")
        .key(Key::Enter);
    // Three holes in the floor with their diameters.
    for along in ["1,5", "2,2", "3,9"] {
        keys.jump()
            .text("wa")
            .tabs(1)
            .text("24")
            .tabs(1)
            .text("15")
            .tabs(2)
            .text(along);
        keys.tabs(1).text("0,6").key(Key::Enter);
    }
    // A drain.
    keys.jump()
        .text("sh")
        .tabs(1)
        .text("25")
        .tabs(2)
        .text("3")
        .tabs(1)
        .text("1,1")
        .key(Key::Enter);
    let count = keys.count;
    let gaps = &survey(&window).gaps;
    assert_eq!(gaps.len(), 12);
    let sized = &window.state().results().unwrap().assessment().gaps;
    let known = |id: GapId| {
        let answer = sized.iter().find(|answer| answer.id == id).unwrap();
        answer.leakage.figures().is_some()
    };
    assert!(
        gaps.iter()
            .all(|gap| known(gap.id) && gap.position.height_m.is_some())
    );
    println!("{count} keys for ten gaps");
    assert!(count < 300, "{count} keys for ten gaps");
}

#[test]
fn every_input_of_the_bar_has_a_name_and_a_survey_without_zones_says_what_is_missing() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (role, name) in [
        (Role::ComboBox, "New gap: zone"),
        (Role::ComboBox, "New gap: facing"),
        (Role::ComboBox, "New gap: shape"),
        (Role::ComboBox, "New gap: size found by"),
        (Role::TextInput, "New gap: width (mm)"),
        (Role::TextInput, "New gap: alike"),
        (Role::TextInput, "New gap: along (m)"),
        (Role::TextInput, "New gap: name"),
    ] {
        let node = window.get_by_role_and_label(role, name);
        assert!(node.rect().width() > 30.0, "{name}");
    }
    let text = std::fs::read_to_string(&path).unwrap();
    let (before, after) = text.split_once("  zones: [").unwrap();
    let (_, after) = after.split_once("  gaps: [").unwrap();
    let (_, after) = after.split_once("\n  ],\n").unwrap();
    std::fs::write(&path, format!("{before}  zones: [],\n  gaps: [],\n{after}")).unwrap();
    window = opened(&path);
    assert!(shows(&window, "add a zone first"));
    click_button(&mut window, "Add the new gap");
    assert!(survey(&window).gaps.is_empty());
}

#[test]
fn quick_entry_is_reached_from_the_walk_round() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    click_button(&mut window, "Walk round");
    assert!(shows(&window, "Usual places: "));
    let mut typed = keys(&mut window);
    typed.jump();
    assert!(!shows(&window, "Usual places: "));
    assert!(focused(&window, Role::ComboBox, "New gap: shape"));
}
