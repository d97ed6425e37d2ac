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
    // Rows for as many readings as are asked for come at once.
    press_far(&mut window, "Add a reading to air test 1");
    for (at, (minutes, value)) in ["0", "30", "60", "90", "120"].iter().zip(read).enumerate() {
        for (field, unit, value) in [
            ("Minutes", " (min)", *minutes),
            ("Reading", " (ppm)", value),
        ] {
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

/// The window on the air tests, with one of which nothing is known yet.
fn with_an_air_test() -> Window<'static> {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num9);
    window
        .get_by_role_and_label(Role::Tab, "Air tests")
        .click_accesskit();
    window.run();
    click_button(&mut window, "Add air test");
    window
}

/// What is typed after the button goes into the first new row, never behind the number above it.
#[test]
fn readings_of_the_air_are_typed_by_keys_without_losing_a_digit() {
    let mut window = with_an_air_test();
    replace_text(&mut window, "Outside air has", "420");
    press(&mut window, Key::Tab);
    press(&mut window, Key::Space);
    type_text(&mut window, "7");
    press(&mut window, Key::Tab);
    type_text(&mut window, "900");
    press(&mut window, Key::Tab);
    let air = |window: &Window<'_>| survey(window).air_tests[0].clone();
    let test = air(&window);
    assert_eq!(test.background, Some(420.0));
    assert_eq!(test.readings.len(), 5);
    let first = test.readings[0];
    assert_eq!((first.minutes, first.value), (Some(7.0), Some(900.0)));
    // One more, by keys again.
    window
        .get_by_role_and_label(Role::Button, "Add a reading to air test 1")
        .focus();
    window.run();
    press(&mut window, Key::Space);
    type_text(&mut window, "95");
    let test = air(&window);
    assert_eq!(test.readings.len(), 6);
    assert_eq!(test.readings[5].minutes, Some(95.0));
    assert_eq!(test.background, Some(420.0));
}

#[test]
fn one_more_reading_of_a_fan_test_takes_the_focus() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num9);
    click_button(&mut window, "Add fan test");
    for (rows, pressure) in [(5, "11"), (6, "66")] {
        window
            .get_by_role_and_label(Role::Button, "Add a reading blowing out, fan test 1")
            .focus();
        window.run();
        press(&mut window, Key::Space);
        type_text(&mut window, pressure);
        let readings = &test(&window).blowing_out.readings;
        assert_eq!(readings.len(), rows);
        let typed = readings[if rows == 5 { 0 } else { 5 }].pressure_pa;
        assert_eq!(typed, pressure.parse().ok());
    }
}

#[test]
fn numbers_of_an_air_test_have_their_units() {
    let mut window = with_an_air_test();
    press_far(&mut window, "Add a reading to air test 1");
    let named = |window: &Window<'_>, name: &str| {
        let input = window.query_by_role_and_label(Role::TextInput, name);
        input.is_some()
    };
    assert!(named(&window, "Reading 1, air test 1 (ppm)"));
    assert!(named(&window, "Minutes 1, air test 1 (min)"));
    for head in ["Minutes, min", "Reading, ppm"] {
        assert!(window.query_by_label(head).is_some(), "{head}");
    }
    let background = window.get_by_role_and_label(Role::TextInput, "Outside air has");
    let beside = background.rect();
    let mut units = window.query_all_by_label("ppm");
    let is_beside = units.any(|unit| (unit.rect().center().y - beside.center().y).abs() < 4.0);
    drop(units);
    assert!(is_beside);
    // A finger takes a row away as surely as it types into it.
    window
        .state_mut()
        .queue()
        .command(gapledger::window::commands::Command::TouchSize);
    window.run();
    let cross = window.get_by_role_and_label(Role::Button, "Remove reading 1, air test 1");
    let target = gapledger::window::theme::TOUCH_TARGET - 0.1;
    assert!(cross.rect().height() >= target && cross.rect().width() >= target);
}
