//! The keyboard: where the focus goes when what has it vanishes, and what Tab reaches.

use super::plan_work::{held, let_go, searching};
use super::*;
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

fn focused(window: &Window<'_>, role: Role, name: &str) -> bool {
    window
        .query_by_role_and_label(role, name)
        .is_some_and(|node| node.is_focused())
}

/// The name of whatever has the focus.
pub(crate) fn holder(window: &Window<'_>) -> Option<String> {
    let all =
        window.query_all(egui_kittest::kittest::By::new().predicate(|node| node.is_focused()));
    let mut names = all.filter_map(|node| {
        let node = node.accesskit_node();
        node.label().or_else(|| node.value())
    });
    names.next()
}

pub(crate) fn focus(window: &mut Window<'_>, role: Role, name: &str) {
    window.get_by_role_and_label(role, name).focus();
    window.run();
}

#[test]
fn stopping_a_search_and_its_end_leave_the_focus_at_the_search() {
    let (mut window, held) = searching();
    focus(&mut window, Role::Button, "Stop working out the best set");
    press(&mut window, Key::Enter);
    let again = "Work out the best set";
    assert!(
        focused(&window, Role::Button, again),
        "{:?}",
        holder(&window)
    );
    press(&mut window, Key::Enter);
    let stop = "Stop working out the best set";
    assert!(
        focused(&window, Role::Button, stop),
        "{:?}",
        holder(&window)
    );
    let_go(&mut window, &held);
    assert!(window.state().answers().best().is_some());
    assert!(
        focused(&window, Role::Button, "Make this the plan"),
        "{:?}",
        holder(&window)
    );
}

#[test]
fn cancelling_the_job_sheet_leaves_the_focus_at_setting_it_again() {
    let (mut window, held) = held("two-opening-check.ron");
    let_go(&mut window, &held);
    ctrl(&mut window, Key::Num6);
    focus(&mut window, Role::Button, "Cancel setting the pages");
    press(&mut window, Key::Enter);
    assert!(
        focused(&window, Role::Button, "Set the pages again"),
        "{:?}",
        holder(&window)
    );
    press(&mut window, Key::Enter);
    assert!(focused(&window, Role::Button, "Cancel setting the pages"));
    let_go(&mut window, &held);
    assert!(focused(&window, Role::Button, "Save as PDF…"));
}

#[test]
fn a_list_and_a_dialog_give_the_focus_back() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num1);
    focus(&mut window, Role::ComboBox, "Kind");
    press(&mut window, Key::Enter);
    press(&mut window, Key::Tab);
    press(&mut window, Key::Enter);
    assert!(
        focused(&window, Role::ComboBox, "Kind"),
        "{:?}",
        holder(&window)
    );
    window.state_mut().queue().command(Command::Keys);
    window.run();
    press(&mut window, Key::Tab);
    press(&mut window, Key::Escape);
    window.run();
    assert!(window.state().dialog().is_none());
    assert!(
        focused(&window, Role::ComboBox, "Kind"),
        "{:?}",
        holder(&window)
    );
}

#[test]
fn another_page_does_not_inherit_the_focus() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num5);
    focus(&mut window, Role::TextInput, "Budget");
    ctrl(&mut window, Key::Num3);
    assert_eq!(holder(&window), None);
}

#[test]
fn where_nothing_has_the_focus_tab_begins_on_the_page_and_comes_to_the_menus_after_it() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num5);
    assert_eq!(holder(&window), None);
    press(&mut window, Key::Tab);
    assert_eq!(holder(&window).as_deref(), Some("Aim of the plan"));
    ctrl(&mut window, Key::Num9);
    press(&mut window, Key::Tab);
    assert_eq!(holder(&window).as_deref(), Some("Fan tests"));
}

/// Everything that Tab reaches until it comes round.
fn round(window: &mut Window<'_>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for _ in 0..400 {
        press(window, Key::Tab);
        let Some(name) = holder(window) else { continue };
        if all.len() > 3 && all.first() == Some(&name) {
            return all;
        }
        all.push(name);
    }
    assert!(all.is_empty(), "Tab never comes round: {all:?}");
    all
}

/// The names in this order, whatever stands between them.
fn in_order(all: &[String], wanted: &[&str]) {
    let mut rest = all.iter();
    for name in wanted {
        assert!(rest.any(|other| other == name), "{name} in {all:?}");
    }
}

#[test]
fn tab_reaches_everything_on_the_job_sheet_in_the_order_of_the_work() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num6);
    let all = round(&mut window);
    in_order(
        &all,
        &[
            "Save as PDF…",
            "survey report",
            "work order",
            "completion sheet",
            "A4",
            "Letter",
            "vehicle and place",
            "photos",
            "workings and sources",
            "Name",
            "Address",
            "Path of the logo",
            "Ledger as CSV…",
            "Plan as CSV…",
            "Begin with a byte-order mark",
        ],
    );
}

#[test]
fn tab_reaches_everything_on_the_sealing_plan_in_the_order_of_the_page() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num5);
    assert_eq!(window.state().view().page, Page::SealingPlan);
    let all = round(&mut window);
    in_order(
        &all,
        &[
            "Aim of the plan",
            "Date of changes",
            "what to seal",
            "remedies and prices",
            "Budget",
        ],
    );
    for role in [
        Role::Button,
        Role::CheckBox,
        Role::ComboBox,
        Role::TextInput,
    ] {
        for node in window.query_all_by_role(role) {
            let node = node.accesskit_node();
            let name = node.label().unwrap_or_default();
            assert!(
                node.is_disabled() || all.contains(&name),
                "{role:?} {name} is not reached: {all:?}"
            );
        }
    }
}

#[test]
fn enter_in_the_field_that_the_ledger_led_to_leads_back() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::Enter);
    assert!(
        focused(&window, Role::TextInput, "Length"),
        "{:?}",
        holder(&window)
    );
    ctrl(&mut window, Key::A);
    type_text(&mut window, "1234");
    press(&mut window, Key::Enter);
    assert!(
        focused(&window, Role::ListBox, "Gap ledger"),
        "{:?}",
        holder(&window)
    );
    let Form::NarrowGap { length_mm, .. } = &survey(&window).gap(GapId(1)).unwrap().form else {
        panic!("another form");
    };
    assert_eq!(*length_mm, Some(1234.0));
    // The next row by the same keys; what is no number does not leave the field.
    press(&mut window, Key::ArrowDown);
    press(&mut window, Key::Enter);
    ctrl(&mut window, Key::A);
    type_text(&mut window, "long");
    press(&mut window, Key::Enter);
    assert!(focused(&window, Role::TextInput, "Length"));
    press(&mut window, Key::Escape);
    window.run();
    assert!(focused(&window, Role::ListBox, "Gap ledger"));
}

#[test]
fn enter_on_a_choice_of_quick_entry_adds_the_gap_and_space_opens_the_list() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::E);
    assert!(focused(&window, Role::ComboBox, "New gap: shape"));
    press(&mut window, Key::Space);
    assert!(egui::Popup::is_any_open(&window.ctx));
    press(&mut window, Key::Escape);
    assert_eq!(survey(&window).gaps.len(), 2);
    ctrl(&mut window, Key::E);
    press(&mut window, Key::Enter);
    assert!(!egui::Popup::is_any_open(&window.ctx));
    assert_eq!(survey(&window).gaps.len(), 3);
}
