//! What is usual for a kind of vehicle: filled in, marked, confirmed, taken back; first steps that say
//! what is missing; a verdict after five actions.

use super::{Window, click_button, ctrl, press, replace_text, shows, survey, window};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{TypicalWinter, UsualPart};
use gapledger::window::app::Start;
use gapledger::window::page::Page;
use gapledger::window::pages::vehicle::Section;

const FILL: &str = "Fill in a usual panel-van camper";

fn new_van(guide: bool) -> Window<'static> {
    let mut window = window(Start {
        guide,
        ..Start::test(None)
    });
    click_button(&mut window, "panel-van camper");
    window
}

/// Every click, and every key or text typed at one place, counts as one.
#[test]
fn from_a_new_window_to_a_verdict_takes_five_actions() {
    let mut window = window(Start::test(None));
    // One: what sort of vehicle.
    click_button(&mut window, "panel-van camper");
    // Two: what is usual for it.
    click_button(&mut window, FILL);
    // Three: to quick entry; four: a gap.
    ctrl(&mut window, Key::E);
    super::type_text(&mut window, "d");
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).gaps.len(), 1);
    // Five: what would dry it.
    ctrl(&mut window, Key::Num4);
    let results = window.state().results().unwrap();
    assert!(results.assessment().season_ach_per_h.is_ok());
    let comparison = results.comparison().as_ref().unwrap();
    assert!(!comparison.options.is_empty());
    assert!(!shows(&window, "not known: the fabric"));
    assert!(!survey(&window).appliances_confirmed);
}

#[test]
fn a_fill_says_what_it_filled_and_one_undo_takes_it_back() {
    let mut window = new_van(false);
    let before = survey(&window).clone();
    window
        .get_by_role_and_label(Role::ComboBox, "Typical winter")
        .focus();
    window.run();
    super::type_text(&mut window, "a");
    click_button(&mut window, FILL);
    assert_eq!(survey(&window).usual.winter, Some(TypicalWinter::Alpine));
    assert!(shows(&window, "Filled in as usual for a panel-van camper"));
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &before);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::U);
    window.run();
    assert!(!survey(&window).usual.is_nothing());
}

#[test]
fn what_is_usual_says_so_beside_it_until_it_is_changed_or_confirmed() {
    let mut window = new_van(false);
    click_button(&mut window, FILL);
    window.get_by_role_and_label(Role::Tab, "Fabric").click();
    window.run();
    assert!(shows(&window, "usual, not measured"));
    let id = survey(&window).fabric[0].id;
    replace_text(&mut window, "Total area", "19.5");
    press(&mut window, Key::Tab);
    assert!(!survey(&window).usual.has(UsualPart::Fabric(id)));
    let mark = "\u{2248} usual, not measured";
    assert!(window.query_by_label(mark).is_none());
    window
        .get_by_role_and_label(Role::Tab, "Weather and targets")
        .click();
    window.run();
    let marked = |window: &Window<'_>| window.query_all_by_label(mark).count();
    // Three weather cases and the coldest outside temperature.
    assert_eq!(marked(&window), 4);
    window.get_by_label("Coldest outside: it is so").click();
    window.run();
    assert!(!survey(&window).usual.design_outside);
    assert_eq!(marked(&window), 3);
}

#[test]
fn first_steps_name_what_is_missing_and_lead_there() {
    let mut window = new_van(true);
    let missing = |window: &Window<'_>, what: &str| {
        let name = format!("Missing for {what}");
        window
            .query_by_role_and_label(Role::Button, &name)
            .is_some()
    };
    assert!(missing(&window, "Air change: a gap with its sizes"));
    assert!(missing(&window, "Drying & heat: the fabric"));
    click_button(&mut window, "Missing for Drying & heat: the fabric");
    assert_eq!(window.state().view().vehicle.section(), Section::Fabric);
    click_button(&mut window, "Missing for Air change: a gap with its sizes");
    assert_eq!(window.state().view().page, Page::Gaps);
    let appliances = "Missing for Sealing plan: that all appliances are listed";
    click_button(&mut window, appliances);
    assert_eq!(window.state().view().vehicle.section(), Section::Equipment);
    window
        .get_by_role_and_label(Role::CheckBox, "all of them are listed")
        .click_accesskit();
    window.run();
    assert!(!missing(
        &window,
        "Sealing plan: that all appliances are listed"
    ));
    ctrl(&mut window, Key::Num4);
    let fills: Vec<_> = window.query_all_by_label(FILL).collect();
    let below = fills.iter().map(|node| node.rect().top());
    let lowest = below.fold(0.0_f32, f32::max);
    assert!(lowest > 150.0, "one on the page itself: {lowest}");
    fills.last().unwrap().click();
    drop(fills);
    window.run();
    assert!(!missing(&window, "Drying & heat: the fabric"));
}

#[test]
fn the_compass_is_turned_by_keys_and_by_dragging_in_one_step() {
    let mut window = new_van(false);
    let heading = |window: &Window<'_>| survey(window).site.heading_deg;
    let knob = "Compass: Front points to";
    window.get_by_role_and_label(Role::Slider, knob).focus();
    window.run();
    press(&mut window, Key::ArrowRight);
    assert_eq!(heading(&window), Some(5.0));
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowLeft);
    window.run();
    assert_eq!(heading(&window), Some(350.0));
    // Keys in a row are one step.
    ctrl(&mut window, Key::Z);
    assert_eq!(heading(&window), None);
    let knob = "Compass: Prevailing wind from";
    let from = window
        .get_by_role_and_label(Role::Slider, knob)
        .rect()
        .center();
    let middle = from + egui::vec2(0.0, 63.6);
    window.drag_at(from);
    window.run();
    for to in [
        egui::vec2(40.0, -40.0),
        egui::vec2(68.0, 2.0),
        egui::vec2(68.0, 68.0),
    ] {
        window.hover_at(middle + to);
        window.run();
    }
    window.drop_at(middle + egui::vec2(68.0, 68.0));
    window.run();
    let wind = |window: &Window<'_>| survey(window).site.prevailing_wind_deg;
    assert_eq!(wind(&window), Some(135.0));
    ctrl(&mut window, Key::Z);
    assert_eq!(wind(&window), None);
}

#[test]
fn the_drawing_follows_the_length_as_it_is_typed() {
    let mut window = new_van(false);
    let drawn = |window: &Window<'_>| {
        let mut images = window.query_all_by(|node| node.role() == Role::Image);
        let side = images.find_map(|node| {
            let words = node.accesskit_node().label()?;
            words.contains("seen from its nearside").then_some(words)
        });
        side.unwrap()
    };
    let before = drawn(&window);
    window
        .get_by_role_and_label(Role::TextInput, "Length")
        .focus();
    window.run();
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.run();
    super::type_text(&mut window, "6.4");
    let after = drawn(&window);
    assert!(before != after && after.contains("6.4"), "{after}");
}
