//! A trial written down by keys alone: where the focus goes while results come, and what stays where it
//! is.

use super::focus::{focus, holder};
use super::trials::{CHART, focus_chart, on_trials, press_far, spans, with_loggers};
use super::*;
use gapledger::survey::file;
use gapledger::window::request::Request;

fn rect(window: &Window<'_>, role: Role, name: &str) -> egui::Rect {
    window.get_by_role_and_label(role, name).rect()
}

/// Adds a period by keys and types when it was; the end is left by this key.
fn period(window: &mut Window<'_>, number: usize, (from, to): (&str, &str), last: Key) {
    focus(window, Role::Button, "Add a period to Orchard");
    press(window, Key::Enter);
    window.run();
    if number > 1 {
        focus(window, Role::TextInput, &format!("Period {number} begins"));
    }
    assert_eq!(holder(window), Some(format!("Period {number} begins")));
    // What stood there is selected and gives way.
    type_text(window, from);
    press(window, Key::Tab);
    assert_eq!(holder(window), Some(format!("Period {number} ends")));
    type_text(window, to);
    press(window, last);
    window.run();
}

#[test]
fn tab_from_the_end_of_a_period_leads_to_what_ran_while_results_come_and_go() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    let times = [
        ("2026-11-01 12:00", "2026-11-12 12:00"),
        ("2026-11-12 12:00", "2026-11-11 12:00"),
        ("2026-11-19 12:00", "2026-11-26 12:00"),
    ];
    for (at, time) in times.into_iter().enumerate() {
        period(&mut window, at + 1, time, Key::Tab);
        let wanted = format!("What ran in period {}", at + 1);
        assert_eq!(holder(&window), Some(wanted));
    }
    assert_eq!(spans(&window)[1], "2026-11-12 12:00 to 2026-11-11 12:00");
}

#[test]
fn what_is_typed_into_stays_where_it_is_while_results_come() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    press_far(&mut window, "Add a period to Orchard");
    replace_text(&mut window, "Period 1 begins", "2026-11-01");
    press(&mut window, Key::Enter);
    let what = "What ran in period 1";
    let before = rect(&window, Role::ComboBox, what);
    replace_text(&mut window, "Period 1 ends", "2026-11-12");
    press(&mut window, Key::Enter);
    window.run();
    assert_eq!(rect(&window, Role::ComboBox, what), before);
    // What came of it stands below.
    let said = window.query_all_by_label_contains("what it did is not known");
    let said = said.map(|node| node.rect().top()).next().unwrap();
    assert!(said > before.bottom());
}

#[test]
fn what_a_button_adds_has_the_focus_and_is_in_sight() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    window.set_size(egui::vec2(1280.0, 600.0));
    window.run();
    let in_sight = |window: &Window<'_>, name: &str| {
        let rect = rect(window, Role::TextInput, name);
        rect.top() > 60.0 && rect.bottom() < 600.0
    };
    for (number, end) in [(1, "begins"), (2, "begins")] {
        focus(&mut window, Role::Button, "Add a period to Orchard");
        press(&mut window, Key::Enter);
        window.run();
        let name = format!("Period {number} {end}");
        assert_eq!(holder(&window), Some(name.clone()));
        assert!(in_sight(&window, &name), "{name}");
    }
    focus(&mut window, Role::Button, "Add a trial");
    press(&mut window, Key::Enter);
    window.run();
    let all = window.query_all_by_role_and_label(Role::TextInput, "Trial");
    let named = all.filter(|node| node.is_focused()).map(|node| node.rect());
    let rects: Vec<egui::Rect> = named.collect();
    assert_eq!(rects.len(), 1, "{:?}", holder(&window));
    assert!(
        rects[0].top() > 60.0 && rects[0].bottom() < 600.0,
        "{rects:?}"
    );
}

#[test]
fn removing_a_period_is_the_last_stop_is_told_and_keeps_the_focus_near() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    period(&mut window, 1, ("2026-11-01", "2026-11-08"), Key::Enter);
    period(&mut window, 2, ("2026-11-08", "2026-11-15"), Key::Enter);
    focus(&mut window, Role::TextInput, "Note on period 1");
    press(&mut window, Key::Tab);
    assert_eq!(holder(&window).as_deref(), Some("Remove period 1"));
    press(&mut window, Key::Enter);
    window.run();
    assert_eq!(spans(&window), ["2026-11-08 00:00 to 2026-11-15 00:00"]);
    assert!(shows(&window, "Period 1 of Orchard was removed."));
    assert_eq!(holder(&window).as_deref(), Some("Add a period to Orchard"));
    focus(&mut window, Role::Button, "Remove period 1");
    press(&mut window, Key::Enter);
    window.run();
    assert_eq!(holder(&window).as_deref(), Some("Add a period to Orchard"));
    window.get_by_role_and_label(Role::Link, "Undo").click();
    window.run();
    assert_eq!(spans(&window).len(), 1);
}

#[test]
fn once_a_file_is_read_the_focus_is_where_the_next_is_added() {
    let (folder, path) = with_loggers();
    let file = folder.path().join("third.csv");
    let text: String = (0..48)
        .map(|hour| format!("2026-11-{:02} {:02}:00,8.0,70\n", 1 + hour / 24, hour % 24))
        .collect();
    let head = "Time,Inside °C,Inside % RH\n";
    std::fs::write(&file, format!("{head}{text}")).unwrap();
    let mut window = on_trials(&path);
    focus(&mut window, Role::Button, "Add a logger's file…");
    press(&mut window, Key::Enter);
    window.run();
    replace_text(&mut window, "Path of the file", &file.display().to_string());
    press(&mut window, Key::Enter);
    window.run();
    focus(&mut window, Role::Button, "Read it so");
    press(&mut window, Key::Enter);
    window.run();
    assert_eq!(survey(&window).series.len(), 3);
    assert_eq!(holder(&window).as_deref(), Some("Add a logger's file…"));
}

#[test]
fn the_page_asked_for_once_more_begins_at_its_top() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    focus(&mut window, Role::Button, "Add a trial");
    ctrl(&mut window, Key::Num9);
    assert_eq!(holder(&window), None);
    press(&mut window, Key::Tab);
    assert_eq!(holder(&window).as_deref(), Some("Fan tests"));
}

#[test]
fn the_cursor_is_told_above_the_chart_and_goes_by_single_readings_with_shift() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    focus_chart(&mut window);
    press(&mut window, Key::Home);
    let chart = window.get_by_label(CHART).rect();
    for _ in 0..12 {
        window.key_press_modifiers(egui::Modifiers::SHIFT, Key::ArrowRight);
        window.run();
    }
    let told = window.query_all_by_label_contains("2026-11-01 12:00: inside");
    let told = told.map(|node| node.rect().bottom()).next().unwrap();
    assert!(told <= chart.top());
    assert_eq!(window.get_by_label(CHART).rect(), chart, "nothing moves it");
    assert!(shows(&window, "with Shift by one reading"));
    window
        .state_mut()
        .queue()
        .push(Request::Command(gapledger::window::commands::Command::Keys));
    window.run();
    assert!(shows(&window, "A period begins at the cursor, ends there"));
}

#[test]
fn a_logger_without_a_name_is_called_the_same_in_its_list_and_in_the_trial() {
    let (_folder, path) = with_loggers();
    let mut on_disk = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    on_disk.series[0].original = "cellar.csv".to_owned();
    std::fs::write(&path, file::print(&on_disk)).unwrap();
    let window = on_trials(&path);
    assert!(shows(&window, "cellar.csv, "));
    assert!(shows(&window, "logger \u{201c}cellar.csv\u{201d} ("));
}
