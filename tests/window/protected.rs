//! Openings that protect people: what the window asks, offers and marks.

use super::{Window, click_button, opened, sample, shows, survey, type_text};
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::leave::states;
use gapledger::survey::{Edit, Form, Gap, GapId, GapPart, Purpose, WorkState, file};
use gapledger::window::request::Request;

const LEAVE: &str = "Leave it as it is";
const CHANGE: &str = "It was entered wrongly: change it";

fn ventilator(window: &Window<'_>) -> Gap {
    let mut gaps = survey(window).gaps.iter();
    let fixed = |gap: &&Gap| gap.purpose == Purpose::SafetyVentilation;
    gaps.find(fixed).unwrap().clone()
}

fn call_unintended(window: &mut Window<'_>, gap: &Gap) {
    let mut changed = gap.clone();
    changed.purpose = Purpose::Unintended;
    window.state_mut().queue().edit(Edit::gap(changed), None);
    window.run();
    window.run();
}

#[test]
fn calling_a_ventilator_unintended_asks_first_and_leaves_a_mark() {
    let mut window = opened(&sample("coastal-coachbuilt.ron"));
    let before = survey(&window).clone();
    let gap = ventilator(&window);
    call_unintended(&mut window, &gap);
    assert!(shows(&window, "it protects the people inside"));
    assert!(shows(&window, "may take the air from people or a flame"));
    assert_eq!(survey(&window), &before);
    click_button(&mut window, LEAVE);
    assert_eq!(survey(&window), &before);
    call_unintended(&mut window, &gap);
    click_button(&mut window, CHANGE);
    let now = survey(&window).gap(gap.id).expect("still there").clone();
    assert_eq!(now.purpose, Purpose::Unintended);
    assert_eq!(now.purpose_was, Some(Purpose::SafetyVentilation));
    window.state_mut().queue().push(Request::SelectGap(gap.id));
    window.run();
    window.run();
    assert!(shows(
        &window,
        "Purpose changed by hand, it was safety ventilation."
    ));
    // It is saved, and read again.
    let text = file::print(survey(&window));
    let read = file::parse(&text).expect("its own file");
    assert_eq!(read.gap(gap.id), Some(&now));
}

#[test]
fn no_state_that_closes_a_ventilator_is_offered() {
    let window = opened(&sample("coastal-coachbuilt.ron"));
    let gap = ventilator(&window);
    let offered = states(survey(&window), &gap);
    assert_eq!(offered, [WorkState::Open, WorkState::Deferred]);
}

/// A grille typed in among the fridge vents, as a surveyor would.
#[test]
fn a_grille_typed_in_has_a_purpose_that_is_not_said() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let quick = |window: &mut Window<'_>, label: &str, option: &str| {
        window.get_by_role_and_label(Role::ComboBox, label).focus();
        window.run();
        for letter in option.chars() {
            type_text(window, &letter.to_string());
        }
        let choice = window.get_by_role_and_label(Role::ComboBox, label);
        assert_eq!(choice.accesskit_node().value().as_deref(), Some(option));
    };
    quick(&mut window, "New gap: zone", "fridge vents");
    quick(&mut window, "New gap: shape", "grille");
    click_button(&mut window, "Add the new gap");
    let gap = survey(&window).gaps.last().expect("the new gap").clone();
    assert!(matches!(gap.form, Form::Grille { .. }));
    assert_eq!((gap.part, gap.purpose), (GapPart::Grille, Purpose::NotSaid));
    assert_eq!(gap.id, GapId(38));
    quick(&mut window, "New gap: purpose", "appliance air");
    click_button(&mut window, "Add the new gap");
    let gap = survey(&window).gaps.last().expect("the new gap");
    assert_eq!(gap.purpose, Purpose::ApplianceAir);
}
