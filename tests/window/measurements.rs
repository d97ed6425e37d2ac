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
