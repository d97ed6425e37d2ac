//! What is drawn has room: on small windows, in touch size, and by what is folded away there.

use super::{Window, sample};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Rect, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{Survey, VehicleKind};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use std::path::PathBuf;

/// The window of this size, in touch size or not, with the first steps or without.
fn sized(path: PathBuf, size: (f32, f32), touch: bool, guide: bool) -> Window<'static> {
    let start = Start {
        guide,
        ..Start::test(Some(path))
    };
    let mut window = Harness::builder()
        .with_size(vec2(size.0, size.1))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    if touch {
        window.state_mut().queue().command(Command::TouchSize);
    }
    window.run();
    window
}

/// Everything with words or a value on the page, by what it is called and where it is.
fn pieces(window: &Window<'_>) -> Vec<(String, Rect)> {
    let roles = [
        Role::TextInput,
        Role::CheckBox,
        Role::ComboBox,
        Role::Label,
        Role::Link,
    ];
    let of = |role: Role| {
        let nodes = window.query_all_by_role(role);
        nodes.map(move |node| {
            let name = node.accesskit_node();
            let name = name.label().or(name.value()).unwrap_or_default();
            (format!("{role:?} {name:?}"), node.rect())
        })
    };
    roles.into_iter().flat_map(of).collect()
}

/// Where the results begin that are always in sight.
fn strip(window: &Window<'_>) -> Rect {
    let words = window.query_all_by_label_contains("EqLA, unintended");
    words.map(|node| node.rect()).next().unwrap()
}

#[test]
fn no_card_of_the_vehicle_page_lies_over_another() {
    for (size, touch) in [
        ((1280.0, 800.0), false),
        ((1366.0, 768.0), false),
        ((1024.0, 700.0), true),
        ((911.0, 512.0), false),
    ] {
        let mut window = sized(sample("vineyard-coachbuilt.ron"), size, touch, false);
        window
            .state_mut()
            .queue()
            .command(Command::Show(Page::Vehicle));
        window.run();
        let end = strip(&window);
        let seen: Vec<(String, Rect)> = pieces(&window)
            .into_iter()
            .filter(|(_, rect)| rect.bottom() < end.top() && rect.top() > 110.0)
            .collect();
        assert!(seen.len() > 10, "{size:?} {}", seen.len());
        for (at, (one, here)) in seen.iter().enumerate() {
            assert!(here.right() <= size.0, "{size:?}: {one} {here:?}");
            for (other, there) in seen.iter().skip(at + 1) {
                let both = here.shrink(1.0).intersects(there.shrink(1.0));
                assert!(!both, "{size:?}: {one} {here:?} over {other} {there:?}");
            }
        }
    }
}

#[test]
fn on_a_low_window_the_first_steps_are_one_line_and_the_air_opens_with_its_picture() {
    let path = sample("street-panel-van.ron");
    let mut window = sized(path, (1024.0, 700.0), true, true);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::AirChange));
    window.run();
    let first = window
        .get_by_label("First steps: Vehicle size, done")
        .rect();
    let close = window.get_by_label("Close the first steps").rect();
    assert!((first.center().y - close.center().y).abs() < 2.0);
    let end = strip(&window);
    let pictures = window.query_all_by_role(Role::Image);
    let body = pictures
        .map(|image| image.rect())
        .min_by(|one, other| one.left().total_cmp(&other.left()))
        .unwrap();
    let seen = end.top() - body.top();
    assert!(seen > 130.0 && body.width() > 500.0, "{body:?} {end:?}");
    // With room for both, the numbers come first and the steps explain themselves.
    window.set_size(vec2(1024.0, 1100.0));
    window.run();
    let number = window.query_all_by_label_contains("Air changes, mean");
    let number = number.map(|node| node.rect()).next().unwrap();
    let pictures = window.query_all_by_role(Role::Image);
    assert!(
        pictures
            .into_iter()
            .all(|image| image.rect().top() > number.top())
    );
}

#[test]
fn what_is_missing_is_behind_one_button_on_a_low_window() {
    let survey = Survey::starting(VehicleKind::PanelVan);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    let mut window = sized(path, (1024.0, 700.0), true, true);
    let fill = "Fill in a usual panel-van camper";
    let filled = |window: &Window<'_>| window.query_all_by_label(fill).count();
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::AirChange));
    window.run();
    let before = filled(&window);
    window.get_by_label_contains("Still missing: ").click();
    window.run();
    assert_eq!(filled(&window), before + 1);
    window
        .get_by_label("Missing for Air change: a gap with its sizes")
        .click();
    window.run();
    assert_eq!(window.state().view().page, Page::Gaps);
}

#[test]
fn on_a_low_gaps_page_body_and_ledger_stand_beside_each_other_in_sight() {
    let path = sample("farmyard-caravan.ron");
    let mut window = sized(path, (1024.0, 700.0), true, false);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Gaps));
    window.run();
    let end = strip(&window);
    let ledger = window.get_by_role_and_label(Role::ListBox, "Gap ledger");
    let body = window.get_by_role(Role::Image).rect();
    let ledger = ledger.rect();
    assert!(body.right() <= ledger.left(), "{body:?} {ledger:?}");
    for part in [body, ledger] {
        assert!(part.bottom() < end.top(), "{part:?} {end:?}");
        assert!(part.height() > 140.0, "{part:?}");
    }
}

/// What would be seen of words that stand in an input is cut at its edge, so the input is as wide.
#[test]
fn the_words_in_an_empty_field_have_room() {
    let mut window = sized(
        sample("farmyard-caravan.ron"),
        (1366.0, 768.0),
        false,
        false,
    );
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Winter));
    window.run();
    let field = window
        .get_by_role_and_label(Role::TextInput, "Latitude")
        .rect();
    // "of the winter" in 14 points.
    assert!(field.width() > 104.0, "{field:?}");
    let short = window.get_by_role_and_label(Role::TextInput, "First day");
    assert!(short.rect().width() > field.width());
}

#[test]
fn on_a_low_window_a_result_stays_beside_its_title() {
    let window = sized(
        sample("vineyard-coachbuilt.ron"),
        (911.0, 512.0),
        false,
        false,
    );
    let words: Vec<String> = pieces(&window)
        .into_iter()
        .filter(|(name, rect)| rect.top() > 440.0 && name.contains("Heat"))
        .map(|(name, _)| name)
        .collect();
    assert!(words.iter().any(|name| name.contains('W')), "{words:?}");
}

#[test]
fn the_direction_of_the_wind_and_its_two_steps_stand_on_one_line() {
    for (size, touch) in [((911.0, 512.0), false), ((1024.0, 700.0), true)] {
        let mut window = sized(sample("vineyard-coachbuilt.ron"), size, touch, false);
        window
            .state_mut()
            .queue()
            .command(Command::Show(Page::AirChange));
        window.run();
        let at = |name: &str| window.get_by_label(name).rect().center().y;
        let (back, on) = (
            at("Wind from one step anticlockwise"),
            at("Wind from one step clockwise"),
        );
        assert!((back - on).abs() < 2.0, "{size:?}: {back} {on}");
    }
}

/// A sentence among the facts goes on in the next line: otherwise the page is wider than the window, and
/// there is no way to its right side.
#[test]
fn no_fact_makes_drying_and_heat_wider_than_the_window() {
    for name in ["vineyard-coachbuilt.ron", "forest-integrated.ron"] {
        let size = (1024.0, 700.0);
        let mut window = sized(sample(name), size, false, false);
        let queue = window.state_mut().queue();
        queue.command(Command::Show(Page::DryingHeat));
        window.run();
        for words in [
            "Local codes and the makers",
            "Heat capacity taken as",
            "within an hour",
        ] {
            let seen: Vec<Rect> = window
                .query_all_by_label_contains(words)
                .map(|node| node.rect())
                .collect();
            assert!(!seen.is_empty(), "{name}: {words}");
            for rect in seen {
                assert!(rect.right() <= size.0, "{name}: {words} {rect:?}");
            }
        }
    }
}

/// At twice the size: the window has half as many points.
#[test]
fn numbers_and_dates_of_the_sealing_plan_stay_on_one_line_in_a_narrow_window() {
    let path = sample("vineyard-coachbuilt.ron");
    let mut window = sized(path, (512.0, 350.0), false, false);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::SealingPlan));
    window.run();
    window.run();
    let is_short = |words: &str| {
        let digits = words.chars().filter(char::is_ascii_digit).count();
        digits > 1
            && words
                .chars()
                .all(|sign| sign.is_ascii_digit() || sign == '-')
    };
    let mut seen = [0; 2];
    for node in window.query_all_by_role(Role::Label) {
        let words = node.accesskit_node();
        let words = words.label().or(words.value()).unwrap_or_default();
        if is_short(&words) {
            assert!(node.rect().height() < 24.0, "{words} {:?}", node.rect());
            seen[usize::from(words.contains('-'))] += 1;
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}

/// Where the next size is reached for is where it was seen before the first was typed.
#[test]
fn the_sizes_of_a_new_vehicle_stay_where_they_are_while_the_first_is_typed() {
    let survey = Survey::starting(VehicleKind::PanelVan);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    let mut window = sized(path, (1024.0, 700.0), true, false);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Vehicle));
    window.run();
    let note = "the sizes are usual ones";
    let told = |window: &Window<'_>| window.query_all_by_label_contains(note).count();
    let tops = |window: &Window<'_>| {
        ["Width", "Roof above ground", "Floor above ground"].map(|name| {
            let input = window.get_by_role_and_label(Role::TextInput, name);
            input.rect().top()
        })
    };
    let (before, notes) = (tops(&window), told(&window));
    assert!(notes > 0);
    super::replace_text(&mut window, "Length", "5.95");
    super::press(&mut window, egui::Key::Tab);
    assert!(told(&window) < notes);
    for (now, then) in tops(&window).iter().zip(before) {
        assert!((now - then).abs() < 0.5, "{now} {then}");
    }
}
