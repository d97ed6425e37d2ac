//! Numbers typed with their units, and the window in US customary units.

use super::{ctrl, opened, press, replace_text, shows, small_survey, survey, text_of, type_text};
use eframe::egui::Key;
use egui_kittest::kittest::{By, NodeT, Queryable};
use gapledger::survey::file::load;
use gapledger::survey::{Form, GapId};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

fn length(window: &super::Window<'_>) -> Option<f64> {
    match survey(window).gap(GapId(1)).unwrap().form {
        Form::NarrowGap { length_mm, .. } => length_mm,
        _ => None,
    }
}

fn choose(window: &mut super::Window<'_>, command: Command) {
    window.state_mut().queue().command(command);
    window.run();
}

#[test]
fn a_length_is_typed_in_the_unit_of_the_tape_and_is_one_step() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (first, rest, mm) in [
        ("3", "0 cm", 300.0),
        ("1", ".2 m", 1200.0),
        ("2", " ft", 609.6),
        ("3", "/8 in", 9.525),
        ("1", "' 6\"", 457.2),
        ("1", " 000", 1000.0),
        ("1", ".234,5", 1234.5),
    ] {
        let before = length(&window);
        replace_text(&mut window, "Length", first);
        for letter in rest.chars() {
            type_text(&mut window, &letter.to_string());
        }
        press(&mut window, Key::Tab);
        assert_eq!(length(&window), Some(mm), "{first}{rest}");
        press(&mut window, Key::Escape);
        ctrl(&mut window, Key::Z);
        assert_eq!(length(&window), before, "{first}{rest} is one step");
    }
}

#[test]
fn what_can_be_read_in_two_ways_is_refused_with_both_and_nothing_is_saved() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (text, one, other) in [
        ("1,234", "1.234", "1234"),
        ("1'500", "1500", "1 feet 500 inches"),
    ] {
        let (first, rest) = text.split_at(1);
        replace_text(&mut window, "Length", first);
        for letter in rest.chars() {
            type_text(&mut window, &letter.to_string());
        }
        press(&mut window, Key::Tab);
        assert_eq!(text_of(&window, "Length"), text);
        assert!(shows(&window, one) && shows(&window, other), "{text}");
        ctrl(&mut window, Key::S);
        assert_eq!(length(&window), Some(1000.0));
        assert_eq!(&load(&path).unwrap().survey, survey(&window));
    }
}

#[test]
fn in_us_units_a_field_shows_and_reads_inches_and_the_survey_stays_metric() {
    let (_folder, path) = small_survey();
    let before = load(&path).unwrap().survey;
    let mut window = opened(&path);
    choose(&mut window, Command::UsCustomary);
    assert_eq!(text_of(&window, "Length"), "39.3701");
    // Going through the fields, and typing what stands there, changes nothing.
    for _ in 0..8 {
        press(&mut window, Key::Tab);
    }
    replace_text(&mut window, "Length", "39.3701");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window), &before);
    assert!(!window.state_mut().unsaved());
    replace_text(&mut window, "Length", "36");
    press(&mut window, Key::Tab);
    assert_eq!(length(&window), Some(914.4));
    replace_text(&mut window, "Length", "2 m");
    press(&mut window, Key::Tab);
    assert_eq!(length(&window), Some(2000.0));
    replace_text(&mut window, "Length", "99999");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "1970 in"));
    choose(&mut window, Command::Metric);
    assert_eq!(text_of(&window, "Length"), "2539974.6");
}

#[test]
fn in_us_units_the_pages_of_the_survey_show_no_metric_unit() {
    let mut window = opened(&super::sample("vineyard-coachbuilt.ron"));
    choose(&mut window, Command::UsCustomary);
    for page in Page::ALL {
        choose(&mut window, Command::Show(page));
        window.run_steps(4);
        let metric = metric_words(&window);
        assert!(metric.is_empty(), "{page:?}: {metric:#?}");
    }
}

/// Every label of the window that holds a metric unit.
fn metric_words(window: &super::Window<'_>) -> Vec<String> {
    let metric = [
        "mm", "cm²", "mm²", "m²", "m³", "m³/h", "kg/h", "g/h", "L/day", "°C", "m/s", "W/K", "kg",
        "g/kg",
    ];
    let mut found = Vec::new();
    for node in window.query_all(By::new()) {
        let node = node.accesskit_node();
        for words in [node.label(), node.value()].into_iter().flatten() {
            // What the surveyor wrote stays as it is.
            let machines = survey(window).machines.iter();
            let words = machines.fold(words, |words, one| words.replace(&one.name, ""));
            let is_metric = words
                .split([' ', '\u{a0}', ',', ';', '(', ')', '\n', ':', '.'])
                .any(|word| metric.contains(&word));
            if is_metric {
                found.push(words);
            }
        }
    }
    found.sort();
    found.dedup();
    found
}
