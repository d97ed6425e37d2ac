//! Help on the fields: hover, description, and the line that F1 opens.

use super::{Window, ctrl, opened, press, sample, shows, small_survey, window};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::window::app::Start;

/// Inputs that are about the page and not about the survey.
const OF_THE_PAGE: [&str; 4] = [
    "Path of a photo to add",
    "Search the ledger",
    "Name of a zone to add",
    "Name of a photo to add",
];

/// The inputs of the page shown that no sentence explains.
fn unexplained(window: &Window<'_>) -> Vec<String> {
    let mut bare = Vec::new();
    for role in [
        Role::TextInput,
        Role::MultilineTextInput,
        Role::ComboBox,
        Role::CheckBox,
    ] {
        for node in window.query_all_by_role(role) {
            let node = node.accesskit_node();
            let name = node.label().unwrap_or_default();
            let explained = node.description().is_some_and(|words| words.ends_with('.'));
            if !explained && !OF_THE_PAGE.contains(&name.as_str()) {
                bare.push(name);
            }
        }
    }
    bare
}

#[test]
fn every_field_of_the_gaps_page_is_explained() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window
        .get_by_role_and_label(Role::CheckBox, "can be closed")
        .click();
    window.run();
    for choice in ["Form", "Remedy", "Lies behind"] {
        let steps = if choice == "Form" { 7 } else { 1 };
        for _ in 0..steps {
            assert_eq!(unexplained(&window), Vec::<String>::new());
            window.get_by_role_and_label(Role::ComboBox, choice).focus();
            window.run();
            press(&mut window, Key::ArrowDown);
        }
    }
    assert_eq!(unexplained(&window), Vec::<String>::new());
    assert!(window.query_all_by_role(Role::TextInput).count() > 10);
}

#[test]
fn every_field_of_the_vehicle_page_is_explained() {
    for entry in std::fs::read_dir(sample("")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "ron") {
            continue;
        }
        let mut window = opened(&path);
        ctrl(&mut window, Key::Num1);
        for section in [
            "Body and place",
            "Weather and targets",
            "Fabric",
            "Equipment",
            "Spaces inside",
        ] {
            window.get_by_role_and_label(Role::Tab, section).click();
            window.run();
            let bare = unexplained(&window);
            assert_eq!(bare, Vec::<String>::new(), "{} {section}", path.display());
        }
    }
}

#[test]
fn f1_opens_a_line_that_follows_the_focus() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    assert!(!shows(&window, "feeler gauges"));
    press(&mut window, Key::F1);
    assert!(shows(&window, "Gap ledger: Up and Down"));
    window
        .get_by_role_and_label(Role::TextInput, "Clear width")
        .focus();
    window.run();
    assert!(shows(&window, "Clear width: Push feeler gauges in"));
    window
        .get_by_role_and_label(Role::ComboBox, "Facing")
        .focus();
    window.run();
    assert!(shows(
        &window,
        "Facing: The outside that the air comes from"
    ));
    window.get_by_label("Close the help").click();
    window.run();
    assert!(!shows(&window, "The outside that the air comes from"));
}

#[test]
fn help_leaves_a_window_at_rest_at_rest() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::F1);
    window
        .get_by_role_and_label(Role::TextInput, "Length")
        .focus();
    window.run();
    // The blinking cursor asks for a frame now and then, but nothing asks for one at once.
    let delay = window.output().viewport_output[&egui::ViewportId::ROOT].repaint_delay;
    assert!(delay > std::time::Duration::from_millis(100), "{delay:?}");
}

#[test]
fn on_the_start_page_help_is_about_the_start_page() {
    let mut window = window(Start::test(None));
    assert!(!shows(&window, "Choose the kind of vehicle"));
    press(&mut window, Key::F1);
    assert!(shows(
        &window,
        "Choose the kind of vehicle to begin a new survey"
    ));
    press(&mut window, Key::F1);
    assert!(!shows(&window, "Choose the kind of vehicle"));
}
