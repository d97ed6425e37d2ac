//! The number field and the text field.

use super::{ctrl, opened, press, replace_text, shows, small_survey, survey, text_of, type_text};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::physics::Underside;
use gapledger::survey::{Form, GapId};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

fn width(window: &super::Window<'_>) -> Option<f64> {
    match survey(window).gap(GapId(1)).unwrap().form {
        Form::NarrowGap { width_mm, .. } => width_mm,
        _ => None,
    }
}

fn length(window: &super::Window<'_>) -> Option<f64> {
    match survey(window).gap(GapId(1)).unwrap().form {
        Form::NarrowGap { length_mm, .. } => length_mm,
        _ => None,
    }
}

#[test]
fn a_decimal_comma_and_a_sum_are_read() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "1,5");
    assert_eq!(width(&window), Some(1.5));
    replace_text(&mut window, "Length", "2*600+2*400");
    assert_eq!(length(&window), Some(2000.0));
    press(&mut window, Key::Enter);
    assert_eq!(text_of(&window, "Length"), "2000");
}

#[test]
fn each_keystroke_moves_the_survey_and_all_are_one_step() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "1");
    assert_eq!(width(&window), Some(1.0));
    type_text(&mut window, "2");
    assert_eq!(width(&window), Some(12.0));
    press(&mut window, Key::Tab);
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert_eq!(width(&window), Some(2.0));
}

#[test]
fn esc_takes_typing_back_as_if_it_had_never_begun() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "7");
    assert_eq!(width(&window), Some(7.0));
    press(&mut window, Key::Escape);
    assert_eq!(width(&window), Some(2.0));
    assert!(!window.state_mut().unsaved());
    assert_eq!(text_of(&window, "Clear width"), "2");
}

#[test]
fn what_is_not_a_number_stays_visible_with_its_reason_and_changes_nothing() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (text, reason) in [
        ("NaN", "is not part of a number"),
        ("1/0", "finite number"),
        ("2*", "not finished"),
        ("1.2.3", "one decimal comma or point"),
    ] {
        replace_text(&mut window, "Clear width", text);
        press(&mut window, Key::Tab);
        assert_eq!(width(&window), Some(2.0), "{text}");
        assert_eq!(text_of(&window, "Clear width"), text);
        assert!(shows(&window, reason), "{text}: {reason}");
    }
    replace_text(&mut window, "Clear width", "3");
    press(&mut window, Key::Tab);
    assert_eq!(width(&window), Some(3.0));
    assert!(!shows(&window, "one decimal comma or point"));
}

#[test]
fn an_out_of_range_number_stays_visible_and_the_results_go_on_without_its_gap() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "99999");
    press(&mut window, Key::Tab);
    assert_eq!(width(&window), Some(99_999.0));
    assert_eq!(text_of(&window, "Clear width"), "99999");
    assert!(shows(&window, "outside 0.01 to 3000 mm"));
    assert!(shows(&window, "left out"));
    let results = window.state().results().unwrap();
    let leakage = &results.assessment().leakage;
    assert_eq!(leakage.left_out, vec![GapId(1)]);
    assert!(
        leakage
            .unintended
            .as_ref()
            .is_ok_and(|total| total.gaps == 1)
    );
}

#[test]
fn a_place_out_of_range_is_refused_at_its_field() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let height =
        |window: &super::Window<'_>| survey(window).gap(GapId(1)).unwrap().position.height_m;
    replace_text(&mut window, "Height of its middle", "99");
    press(&mut window, Key::Tab);
    assert_eq!(height(&window), Some(0.6));
    assert!(shows(&window, "outside 0.05 to 4.5 m: no gap is there"));
    replace_text(&mut window, "Height of its middle", "0.7");
    press(&mut window, Key::Tab);
    assert_eq!(height(&window), Some(0.7));
}

#[test]
fn a_cleared_size_is_not_zero_but_not_sized() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Clear width", "");
    press(&mut window, Key::Backspace);
    assert_eq!(width(&window), None);
    press(&mut window, Key::Tab);
    assert!(shows(&window, "not sized"));
}

#[test]
fn a_count_takes_whole_numbers_only() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "How many alike", "2.5");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "whole numbers only"));
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().count, 1);
    replace_text(&mut window, "How many alike", "4");
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().count, 4);
}

#[test]
fn typed_words_are_one_step_and_esc_takes_them_back() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "What it is", "d");
    type_text(&mut window, "oor");
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().name, "door");
    press(&mut window, Key::Escape);
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().name, "seal 1");
    assert!(!window.state_mut().unsaved());
}

#[test]
fn a_direction_may_be_typed_as_a_point_of_the_compass() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Vehicle));
    window.run();
    replace_text(&mut window, "Front points to", "n");
    // North as it is begun; half-way nothing that can be read, so as it was; north-north-west in
    // the end.
    assert_eq!(survey(&window).site.heading_deg, Some(0.0));
    type_text(&mut window, "n");
    assert_eq!(survey(&window).site.heading_deg, None);
    type_text(&mut window, "w");
    assert_eq!(survey(&window).site.heading_deg, Some(337.5));
    press(&mut window, Key::Enter);
    assert_eq!(text_of(&window, "Front points to"), "337.5");
    assert!(shows(&window, "° NNW"));
    replace_text(&mut window, "Prevailing wind from", "West");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).site.prevailing_wind_deg, Some(270.0));
    replace_text(&mut window, "Prevailing wind from", "leeward");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).site.prevailing_wind_deg, Some(270.0));
    assert_eq!(text_of(&window, "Prevailing wind from"), "leeward");
    assert!(shows(&window, "\u{201c}leeward\u{201d} is no direction"));
    // A height is no direction.
    replace_text(&mut window, "Altitude", "N");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "is not part of a number"));
}

#[test]
fn ctrl_a_in_a_field_selects_its_text_and_no_further_rows() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (field, text) in [("What it is", "sill"), ("Search the ledger", "seal")] {
        replace_text(&mut window, field, text);
        assert_eq!(text_of(&window, field), text);
        ctrl(&mut window, Key::A);
        type_text(&mut window, "trim");
        assert_eq!(text_of(&window, field), "trim");
        let chosen = window.state().view().gaps.chosen_in(survey(&window));
        assert!(chosen.len() < 2, "{field}");
    }
}

#[test]
fn a_tight_skirt_asks_for_its_gaps_and_an_open_floor_for_places() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num1);
    window.run();
    assert_eq!(survey(&window).vehicle.underside, Underside::Open);
    let by_place = "wind there by each gap's place";
    window
        .get_by_role_and_label(Role::CheckBox, by_place)
        .click_accesskit();
    window.run();
    assert!(survey(&window).vehicle.underfloor_by_place);
    assert!(!shows(&window, "Gaps of the skirt"));
    window
        .get_by_role_and_label(Role::ComboBox, "Under the floor")
        .focus();
    window.run();
    for _ in 0..3 {
        press(&mut window, Key::ArrowDown);
    }
    window.run();
    assert_eq!(survey(&window).vehicle.underside, Underside::SkirtedTight);
    assert!(!shows(&window, by_place));
    // Until its gaps are given, what passes it is not known.
    assert!(shows(
        &window,
        "what passes a tight skirt cannot be worked out"
    ));
    replace_text(&mut window, "Gaps of the skirt", "20000");
    assert_eq!(survey(&window).vehicle.skirt_free_area_mm2, Some(20_000.0));
    window.run();
    assert!(!shows(
        &window,
        "what passes a tight skirt cannot be worked out"
    ));
}
