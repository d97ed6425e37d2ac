//! The walk round, by keyboard.

use super::{
    Window, air_change, click_button, ctrl, opened, press, shows, small_survey, survey, type_text,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{Edit, Form, GapId, Outcome, Station, UsualPlace, Visit};
use gapledger::window::commands::Command;

/// The usual places, in walking order.
fn places(window: &Window<'_>) -> Vec<(&'static Station, &'static UsualPlace)> {
    survey(window).usual_places().collect()
}

fn outcome(window: &Window<'_>, at: usize) -> Option<Outcome> {
    let (station, place) = places(window)[at];
    survey(window).outcome(station.id, place.id)
}

/// What the list says of the place chosen.
fn chosen(window: &Window<'_>) -> String {
    let list = window.get_by_label_contains("Usual places:");
    list.accesskit_node().value().unwrap_or_default()
}

fn list_has_focus(window: &Window<'_>) -> bool {
    window.get_by_label_contains("Usual places:").is_focused()
}

#[test]
fn a_station_is_walked_by_keys_alone_and_each_gap_takes_one_key_beside_its_sizes() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::F7);
    assert!(list_has_focus(&window));
    let all = places(&window);
    assert!(chosen(&window).starts_with(all[0].1.name));
    press(&mut window, Key::N);
    assert_eq!(outcome(&window, 0), Some(Outcome::Nothing));
    press(&mut window, Key::R);
    assert_eq!(outcome(&window, 1), Some(Outcome::NotReached));
    // On to the first narrow gap.
    let narrow = all
        .iter()
        .position(|(_, place)| {
            let shape = place.shape().unwrap();
            place.leaks() && matches!(shape.form, Form::NarrowGap { .. })
        })
        .filter(|at| *at > 1);
    let narrow = narrow.unwrap_or_else(|| {
        let later = all.iter().enumerate().skip(2);
        let mut later = later.filter(|(_, (_, place))| {
            matches!(place.shape().unwrap().form, Form::NarrowGap { .. })
        });
        later.next().unwrap().0
    });
    for _ in 2..narrow {
        press(&mut window, Key::ArrowDown);
    }
    assert!(chosen(&window).starts_with(all[narrow].1.name));
    let mut keys = 0;
    let mut count = |window: &mut Window<'_>, key| {
        press(window, key);
        keys += 1;
    };
    count(&mut window, Key::Enter);
    let gap = survey(&window).gap(GapId(3)).unwrap();
    assert_eq!(gap.name, all[narrow].1.name);
    assert_eq!(gap.facing, all[narrow].1.facing);
    assert_eq!(outcome(&window, narrow), Some(Outcome::Found));
    // The first size has the focus, selected whole.
    type_text(&mut window, "1234");
    count(&mut window, Key::Tab);
    type_text(&mut window, "0.7");
    count(&mut window, Key::F7);
    let form = survey(&window).gap(GapId(3)).unwrap().form.clone();
    let Form::NarrowGap {
        length_mm,
        width_mm,
        ..
    } = form
    else {
        panic!("{form:?}");
    };
    assert_eq!((length_mm, width_mm), (Some(1234.0), Some(0.7)));
    // Beside the digits of the sizes: found, the next size, on to the next place.
    assert_eq!(keys, 3);
    assert!(list_has_focus(&window));
    assert!(!chosen(&window).starts_with(all[narrow].1.name));
    // Found is one step for undo, and the place is open again with it.
    for _ in 0..3 {
        ctrl(&mut window, Key::Z);
    }
    assert_eq!(survey(&window).gap(GapId(3)), None);
    assert_eq!(outcome(&window, narrow), None);
    assert_eq!(outcome(&window, 1), Some(Outcome::NotReached));
}

#[test]
fn letters_that_are_typed_say_nothing_of_a_place() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::F);
    for key in [Key::N, Key::R, Key::Enter, Key::Backspace] {
        press(&mut window, key);
    }
    assert!(survey(&window).walk.is_empty());
    assert_eq!(survey(&window).gaps.len(), 2);
}

#[test]
fn a_place_with_a_gap_is_not_called_empty_and_can_be_said_again() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::F7);
    press(&mut window, Key::Enter);
    assert_eq!(outcome(&window, 0), Some(Outcome::Found));
    let queue = |window: &mut Window<'_>, command| {
        window.state_mut().queue().command(command);
        window.run();
    };
    queue(&mut window, Command::LookedNothing);
    assert!(shows(&window, "3 was found there"));
    assert_eq!(outcome(&window, 0), Some(Outcome::Found));
    // Deleted, it is open; said, it can be taken back.
    queue(&mut window, Command::DeleteGap);
    assert_eq!(outcome(&window, 0), None);
    queue(&mut window, Command::NotReached);
    assert_eq!(outcome(&window, 0), Some(Outcome::NotReached));
    press(&mut window, Key::F7);
    press(&mut window, Key::Home);
    press(&mut window, Key::Backspace);
    assert_eq!(outcome(&window, 0), None);
}

#[test]
fn the_arrows_go_from_place_to_place_and_from_station_to_station() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::F7);
    let all = places(&window);
    let second = all.iter().position(|at| at.0.id != all[0].0.id).unwrap();
    press(&mut window, Key::ArrowRight);
    assert!(chosen(&window).starts_with(all[second].1.name));
    press(&mut window, Key::ArrowLeft);
    assert!(chosen(&window).starts_with(all[0].1.name));
    press(&mut window, Key::End);
    assert!(chosen(&window).starts_with(all[all.len() - 1].1.name));
    assert!(list_has_focus(&window));
}

#[test]
fn what_the_places_left_may_hold_is_offered_and_taken_with_one_action() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let leaks: Vec<_> = places(&window)
        .into_iter()
        .filter(|(_, place)| place.leaks())
        .collect();
    let visits = leaks.iter().enumerate().map(|(at, (station, place))| {
        let outcome = match at {
            0..4 => Outcome::NotReached,
            _ => Outcome::Nothing,
        };
        Edit::Visited(Visit::of(station, place, outcome))
    });
    let all = Edit::Several(visits.collect());
    window.state_mut().queue().edit(all, None);
    window.run();
    // Worked by hand: four places left, over those looked at.
    let looked = leaks.len() - 4;
    let percent = (400 + looked / 2) / looked;
    window.state_mut().queue().command(Command::WalkRound);
    window.run();
    let before = survey(&window).leakage_not_found_percent;
    assert_eq!(before, None, "nothing is set by itself");
    let name = format!("Take {percent} % for leakage not found");
    click_button(&mut window, &name);
    let percent = f64::from(u32::try_from(percent).unwrap());
    assert_eq!(survey(&window).leakage_not_found_percent, Some(percent));
    assert!(
        window
            .query_by_role_and_label(Role::Button, &name)
            .is_none()
    );
    // It stands beside the figure on the Air change page too.
    ctrl(&mut window, Key::Z);
    air_change(&mut window);
    assert!(
        window
            .query_by_role_and_label(Role::Button, &name)
            .is_some()
    );
}

#[test]
fn the_edge_above_the_form_is_moved_by_keys() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let name = "Edge between ledger and form";
    let at = |window: &Window<'_>| window.get_by_label(name).rect().center().y;
    let first = at(&window);
    window.get_by_label(name).focus();
    window.run();
    for _ in 0..3 {
        press(&mut window, Key::ArrowDown);
    }
    let moved = at(&window);
    assert!((moved - first - 48.0).abs() < 3.0, "{first} {moved}");
    window.get_by_label(name).focus();
    window.run();
    press(&mut window, Key::Enter);
    assert!((at(&window) - first).abs() < 2.0);
}
