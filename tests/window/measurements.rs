//! Fan tests, written down by label and keyboard.

use crate::*;
use gapledger::survey::{FanTest, FanTestId};
use gapledger::window::page::Page;

fn test<'a>(window: &'a Window<'_>) -> &'a FanTest {
    survey(window).fan_test(FanTestId(1)).unwrap()
}

/// Presses a button wherever on the page it is.
fn press_far(window: &mut Window<'_>, name: &str) {
    window
        .get_by_role_and_label(Role::Button, name)
        .click_accesskit();
    window.run();
}

#[test]
fn a_fan_test_is_written_down_covered_and_uncovered_by_label() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num9);
    assert_eq!(window.state().view().page, Page::Measurements);
    click_button(&mut window, "Add fan test");
    window.run();
    replace_text(&mut window, "Air inside", "18");
    press(&mut window, Key::Enter);
    replace_text(&mut window, "Air outside", "6.5");
    press(&mut window, Key::Enter);
    assert_eq!(test(&window).inside_c, Some(18.0));
    assert_eq!(test(&window).outside_c, Some(6.5));
    // Five rows come at once: as many readings as the standard asks for.
    click_button(&mut window, "Add a reading blowing out, fan test 1");
    window.run();
    assert_eq!(test(&window).blowing_out.readings.len(), 5);
    replace_text(&mut window, "Pressure 1, blowing out (Pa)", "10");
    press(&mut window, Key::Enter);
    replace_text(&mut window, "Flow 1, blowing out (m³/h)", "61");
    press(&mut window, Key::Enter);
    let first = test(&window).blowing_out.readings[0];
    assert_eq!(
        (first.pressure_pa, first.flow_m3_per_h),
        (Some(10.0), Some(61.0))
    );
    // What is covered is a danger, and the test is kept, until it is ticked.
    press_far(&mut window, "Add a covered opening to fan test 1");
    assert!(survey(&window).is_anything_covered());
    press_far(&mut window, "Remove Fan test 1");
    assert_eq!(survey(&window).fan_tests.len(), 1);
    window
        .get_by_label("an opening without a name uncovered again")
        .click_accesskit();
    window.run();
    assert!(!survey(&window).is_anything_covered());
    press_far(&mut window, "Remove Fan test 1");
    assert!(survey(&window).fan_tests.is_empty());
}

/// Readings of a decay typed in by label: 0.7441 per hour, METHOD's worked example. Results then say
/// that they are calibrated, until the switch is turned.
#[test]
fn a_decay_is_written_down_and_weighs_until_it_is_turned_off() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num9);
    window
        .get_by_role_and_label(Role::Tab, "Air tests")
        .click_accesskit();
    window.run();
    assert!(shows(&window, "A flame is never a source"));
    click_button(&mut window, "Add air test");
    window.run();
    for (field, value) in [
        ("Mean air inside", "12"),
        ("Mean air outside", "6"),
        ("Mean wind at the vehicle", "2"),
        ("Outside air has", "420"),
    ] {
        replace_text(&mut window, field, value);
        press(&mut window, Key::Enter);
    }
    let read = ["3020", "2270", "1630", "1290", "1010"];
    for (at, (minutes, value)) in ["0", "30", "60", "90", "120"].iter().zip(read).enumerate() {
        press_far(&mut window, "Add a reading to air test 1");
        for (field, unit, value) in [("Minutes", " (min)", *minutes), ("Reading", "", value)] {
            let label = format!("{field} {}, air test 1{unit}", at + 1);
            replace_text(&mut window, &label, value);
            press(&mut window, Key::Enter);
        }
    }
    let test = survey(&window)
        .air_test(gapledger::survey::AirTestId(1))
        .unwrap();
    assert_eq!(test.readings.len(), 5);
    assert_eq!(test.readings[4].value, Some(1010.0));
    let study = gapledger::assess::Study::of(survey(&window));
    assert!(study.calibration().is_any());
    let found = study
        .measured()
        .air_test(gapledger::survey::AirTestId(1))
        .unwrap();
    let ach = found.ach_per_h.clone().unwrap();
    assert!((ach.value - 0.7441).abs() < 1e-4, "{ach:?}");
    assert!(survey(&window).calibrated);
    window
        .get_by_role_and_label(Role::CheckBox, "Measurements weigh in the results")
        .click_accesskit();
    window.run();
    assert!(!survey(&window).calibrated);
    press_far(&mut window, "Remove Air test 1");
    assert!(survey(&window).air_tests.is_empty());
}
