//! The ledger, by keyboard.

use super::{
    click_button, ctrl, opened, press, replace_text, shows, small_survey, survey, type_text,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::survey::{Facing, Form, GapId};
use gapledger::window::commands::Command;

#[test]
fn a_gap_is_added_by_keyboard_alone() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::End);
    press(&mut window, Key::Insert);
    type_text(&mut window, "cable hole");
    for _ in 0..3 {
        press(&mut window, Key::Tab);
    }
    // In the choice of form: one down from the narrow gap is the round hole.
    press(&mut window, Key::ArrowDown);
    press(&mut window, Key::Tab);
    type_text(&mut window, "20");
    press(&mut window, Key::Enter);
    let gap = survey(&window).gap(GapId(3)).unwrap();
    assert_eq!(gap.name, "cable hole");
    assert_eq!(
        gap.form,
        Form::RoundHole {
            diameter_mm: Some(20.0)
        }
    );
    // Zone and facing are those of the gap before.
    let before = survey(&window).gap(GapId(2)).unwrap();
    assert_eq!((gap.zone, gap.facing), (before.zone, before.facing));
    let figures = &window.state().results().unwrap().assessment().gaps[2];
    assert!(figures.leakage.figures().unwrap().eqla > 0.0);
}

#[test]
fn arrows_move_enter_edits_delete_deletes_and_undo_is_offered() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::ArrowDown);
    assert!(shows(&window, "Gap 2"));
    press(&mut window, Key::Enter);
    let name = window.get_by_role_and_label(Role::TextInput, "What it is");
    assert!(name.is_focused());
    press(&mut window, Key::Escape);
    press(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 1);
    assert!(shows(&window, "Gap 2 was deleted."));
    window.get_by_label("Undo").click();
    window.run();
    assert_eq!(survey(&window).gaps.len(), 2);
}

#[test]
fn delete_in_a_field_is_the_fields_own() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::Enter);
    press(&mut window, Key::Delete);
    ctrl(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 2);
}

#[test]
fn duplicate_and_mirror_follow_the_selected_gap() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::D);
    ctrl(&mut window, Key::M);
    let gaps = &survey(&window).gaps;
    assert_eq!(gaps.len(), 4);
    assert_eq!(gaps[2].facing, Facing::Nearside);
    assert_eq!(gaps[3].facing, Facing::Offside);
    assert_eq!(gaps[3].form, gaps[0].form);
}

#[test]
fn a_zone_that_holds_gaps_is_not_removed_and_the_reason_is_told() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let zone = survey(&window).zones[4].name.clone();
    window.get_by_label(&format!("remove zone {zone}")).focus();
    window.run();
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).zones.len(), 7);
    assert!(shows(&window, "still holds 2 gap(s)"));
}

#[test]
fn zones_are_added_and_renamed() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Name of a zone to add", "garage");
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).zones[7].name, "garage");
    // The field is empty again: a second press adds nothing.
    click_button(&mut window, "Add zone");
    assert_eq!(survey(&window).zones.len(), 8);
}

#[test]
fn a_closable_gap_says_how_it_stands_in_each_set_up() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window
        .get_by_role_and_label(Role::CheckBox, "can be closed")
        .click_accesskit();
    window.run();
    window
        .get_by_role_and_label(Role::CheckBox, "open when in use")
        .click_accesskit();
    window.run();
    let closing = survey(&window).gap(GapId(1)).unwrap().closing.unwrap();
    assert!(closing.open_in_use && !closing.open_laid_up);
    replace_text(&mut window, "Still passes when closed", "25");
    let closing = survey(&window).gap(GapId(1)).unwrap().closing.unwrap();
    assert!((closing.leaves_percent - 25.0).abs() < 1e-12);
}

#[test]
fn every_form_can_be_chosen_and_shows_its_sizes() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window.get_by_role_and_label(Role::ComboBox, "Form").focus();
    window.run();
    for (at, label) in [
        (1, "Diameter"),
        (2, "Height"),
        (3, "Diameter of the pipe"),
        (4, "Free share"),
        (5, "Area"),
        (6, "Test pressure"),
    ] {
        press(&mut window, Key::ArrowDown);
        let form = &survey(&window).gap(GapId(1)).unwrap().form;
        assert_eq!(form, &Form::blanks()[at]);
        window.get_by_role_and_label(Role::TextInput, label);
    }
}

#[test]
fn a_thousand_gaps_draw_only_the_rows_in_sight() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for _ in 0..300 {
        window.state_mut().queue().command(Command::DuplicateGap);
    }
    window.run();
    assert_eq!(survey(&window).gaps.len(), 302);
    press(&mut window, Key::Escape);
    press(&mut window, Key::End);
    let rows = window.query_all_by_role(Role::ListBoxOption).count();
    assert!((5..40).contains(&rows), "{rows}");
    assert!(shows(&window, "302 seal 1"));
}
