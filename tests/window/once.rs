//! Whatever pages are opened and sheets are set, each thing is worked out once for a revision.

use crate::*;
use gapledger::assess::Part;

/// How often each part was worked out for the survey as it is.
fn counts(window: &Window<'_>) -> Vec<(Part, u32)> {
    let study = window.state().results().unwrap().study();
    Part::ALL.map(|part| (part, study.count(part))).to_vec()
}

fn open_everything(window: &mut Window<'_>) {
    for key in [
        Key::Num6,
        Key::Num1,
        Key::Num2,
        Key::Num3,
        Key::Num4,
        Key::Num5,
        Key::Num6,
    ] {
        match key {
            Key::Num3 => air_change(window),
            key => ctrl(window, key),
        }
        window.run();
    }
    assert!(shows(window, " pages"));
}

/// A budget alone asks for the best set, a winter that was chosen for the hours of a winter, and a
/// trial in the survey for what trials say.
fn once(part: Part) -> (Part, u32) {
    (
        part,
        u32::from(!matches!(
            part,
            Part::Best | Part::Trials | Part::Winter | Part::WinterBands
        )),
    )
}

#[test]
fn every_page_and_the_report_work_each_thing_out_once() {
    for name in ["farmyard-caravan.ron", "coastal-coachbuilt.ron"] {
        let mut window = opened(&sample(name));
        open_everything(&mut window);
        assert_eq!(counts(&window), Part::ALL.map(once), "{name}");
    }
}

#[test]
fn a_changed_survey_is_worked_out_once_more() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    open_everything(&mut window);
    let mut vehicle = survey(&window).vehicle.clone();
    vehicle.berths += 1;
    let edit = Edit::Vehicle(vehicle);
    window.state_mut().queue().edit(edit, None);
    window.run();
    open_everything(&mut window);
    assert_eq!(window.state().results().unwrap().revision, 1);
    assert_eq!(counts(&window), Part::ALL.map(once));
}
