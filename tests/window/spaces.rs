//! More than one space inside, and what hangs on warmth, parking and pressure coefficients.

use super::{
    Window, air_change, click_button, ctrl, opened, press, replace_text, sample, shows,
    small_survey, survey,
};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::assess::quantity::Kind;
use gapledger::assess::uncertainty::{SEED, uncertainty};
use gapledger::assess::words::{capital, figure};
use gapledger::assess::{Study, assess, face_totals};
use gapledger::survey::{Certainty, Edit, Form, GapId, InnerOpeningId, Item, Record, SpaceId};
use gapledger::window::answers::Effort;
use gapledger::window::page::Page;

fn spaces_section(window: &mut Window<'_>) {
    ctrl(window, Key::Num1);
    window
        .get_by_role_and_label(Role::Tab, "Spaces inside")
        .click_accesskit();
    window.run();
}

/// Two spaces, the second gap in the second, a doorway between them that closes.
fn parted() -> (tempfile::TempDir, Window<'static>) {
    let (folder, path) = small_survey();
    let mut window = opened(&path);
    spaces_section(&mut window);
    assert!(shows(&window, "There is only one space"));
    click_button(&mut window, "Divide the inside into two spaces");
    click_button(&mut window, "Add inner opening");
    let mut gap = survey(&window).gap(GapId(2)).unwrap().clone();
    gap.space = Some(SpaceId(2));
    let edit = Edit::Put(Record::Gap(Box::new(gap)));
    window.state_mut().queue().edit(edit, None);
    window.run();
    (folder, window)
}

#[test]
fn a_doorway_without_sizes_makes_the_air_not_known_and_typing_them_makes_it_known() {
    let (_folder, mut window) = parted();
    let air = |window: &Window<'_>| assess(survey(window)).cases[0].air.clone();
    let why = air(&window).unwrap_err();
    assert!(why.reason.contains("not sized"), "{}", why.reason);
    replace_text(&mut window, "Width", "600");
    press(&mut window, Key::Tab);
    replace_text(&mut window, "Height", "1700");
    press(&mut window, Key::Tab);
    let opening = &survey(&window).inner_openings[0];
    assert_eq!(
        opening.form,
        Form::RectangularHole {
            width_mm: Some(600.0),
            height_mm: Some(1700.0)
        }
    );
    let open = air(&window).unwrap();
    // A doorway a thousand times the size of the gaps is as good as none: the air is that of one
    // space.
    let mut single = survey(&window).clone();
    single.spaces.clear();
    single.inner_openings.clear();
    single.gaps.iter_mut().for_each(|gap| gap.space = None);
    let one = assess(&single).cases[0].air.clone().unwrap();
    let (open, one) = (open.mean_ach_per_h.unwrap(), one.mean_ach_per_h.unwrap());
    assert!((open / one - 1.0).abs() < 0.01, "{open} {one}");
}

#[test]
fn closing_a_door_is_a_switch_that_says_what_it_saves() {
    let (_folder, mut window) = parted();
    replace_text(&mut window, "Width", "600");
    press(&mut window, Key::Tab);
    replace_text(&mut window, "Height", "1700");
    press(&mut window, Key::Tab);
    window
        .get_by_role_and_label(Role::CheckBox, "can be closed")
        .click_accesskit();
    window.run();
    window
        .get_by_role_and_label(Role::CheckBox, "open when laid up")
        .click_accesskit();
    window.run();
    replace_text(&mut window, "Still passes when closed", "0,1");
    press(&mut window, Key::Tab);
    air_change(&mut window);
    window.run();
    let effect = &Study::of(survey(&window)).closing_effects()[0].clone();
    assert!(effect.stands_open);
    for case in &effect.cases {
        let (open, closed) = case.ach_per_h.clone().unwrap();
        let words = format!(
            "{} open, {} closed",
            Kind::AirChanges.text(open),
            Kind::AirChanges.text(closed)
        );
        assert!(shows(&window, &words), "{words}");
    }
    let before = assess(survey(&window)).season_ach_per_h.unwrap();
    window
        .get_by_role_and_label(Role::CheckBox, "inner opening 1: closed, laid up")
        .click_accesskit();
    window.run();
    window.run();
    assert!(
        !survey(&window).inner_openings[0]
            .closing
            .unwrap()
            .open_laid_up
    );
    let after = assess(survey(&window)).season_ach_per_h.unwrap();
    assert!(after < before, "{after} {before}");
    ctrl(&mut window, Key::Z);
    assert!(
        survey(&window).inner_openings[0]
            .closing
            .unwrap()
            .open_laid_up
    );
}

#[test]
fn a_gap_names_its_space_and_a_space_in_use_stays() {
    let (_folder, mut window) = parted();
    click_button(&mut window, "Remove washroom");
    assert_eq!(survey(&window).spaces.len(), 2);
    assert!(shows(&window, "while gap 2 names it"));
    ctrl(&mut window, Key::Num2);
    window
        .get_by_role_and_label(Role::ComboBox, "Space inside")
        .focus();
    window.run();
    press(&mut window, Key::ArrowDown);
    let selected = window
        .state()
        .view()
        .gaps
        .selected_in(survey(&window))
        .unwrap();
    assert_eq!(
        survey(&window).gap(selected).unwrap().space,
        Some(SpaceId(1))
    );
}

#[test]
fn parking_warmth_coefficients_and_faces_stand_as_worked_out() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    air_change(&mut window);
    window.run();
    let survey_now = survey(&window).clone();
    let study = Study::of(&survey_now);
    let assessment = study.assessment();
    let parked = study.parking().clone().unwrap();
    let mut letters = parked.sentence.chars();
    let first: String = letters.next().unwrap().to_uppercase().collect();
    assert!(shows(&window, &format!("{first}{}.", letters.as_str())));
    let choices = study.wind_choices();
    for choice in choices.sets.iter().chain(&choices.undersides) {
        for ach in choice.mean_ach_per_h.clone() {
            assert!(shows(&window, &Kind::AirChanges.number(ach.unwrap())));
        }
    }
    let direction = &assessment.cases[0].air.as_ref().unwrap().directions[0];
    let totals = face_totals(&survey_now, direction);
    assert!(totals.len() >= 5);
    for total in totals.iter().filter(|total| total.in_kg_s * 3600.0 > 0.01) {
        assert!(
            shows(
                &window,
                &Kind::KilogramsPerHour.number(total.in_kg_s * 3600.0)
            ),
            "{total:?}"
        );
    }
    window
        .get_by_role_and_label(
            Role::DisclosureTriangle,
            "Air changes by warmth inside as a table",
        )
        .click_accesskit();
    window.run();
    for curve in study.temperature_curves().clone().unwrap() {
        for (kelvin, ach) in curve.points {
            assert!(
                shows(&window, &figure(ach, 3)),
                "{}, {kelvin} K",
                curve.name
            );
        }
    }
}

#[test]
fn another_prevailing_wind_moves_the_way_to_park() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    air_change(&mut window);
    window.run();
    let before = Study::of(survey(&window)).parking().clone().unwrap();
    replace_text(&mut window, "Prevailing wind from", "0");
    press(&mut window, Key::Tab);
    window.run();
    let after = Study::of(survey(&window)).parking().clone().unwrap();
    // The wind turned by so much, and the best heading with it.
    let turned = (before.wind_from_deg - after.wind_from_deg).rem_euclid(360.0);
    let best = (before.best.0 - after.best.0).rem_euclid(360.0);
    assert!((turned - best).abs() < 1e-9);
    assert!(shows(&window, &after.sentence[1..]));
    assert!(!shows(&window, &before.sentence[1..]));
}

/// Outside air of each space and what it gets from the others, in every weather case.
#[test]
fn the_air_of_each_space_stands_under_the_cases() {
    let mut window = opened(&sample("vineyard-coachbuilt.ron"));
    air_change(&mut window);
    window.run();
    let now = survey(&window).clone();
    for case in assess(&now).cases {
        let air = case.air.unwrap();
        assert_eq!(air.spaces.len(), now.spaces.len());
        for space in air.spaces {
            assert!(shows(&window, &now.space_name(space.id)));
            for ach in [space.ach_per_h, space.from_spaces_per_h] {
                assert!(shows(&window, &Kind::AirChanges.number(ach.unwrap())));
            }
            for flow in [space.mean_inflow_kg_s, space.mean_from_spaces_kg_s] {
                let words = Kind::KilogramsPerHour.number(flow * 3600.0);
                assert!(shows(&window, &words), "{words}");
            }
        }
    }
    // A single space has no such table.
    let mut window = opened(&sample("farmyard-caravan.ron"));
    air_change(&mut window);
    window.run();
    assert!(!shows(&window, "Air into each space"));
}

/// How sure the size of a doorway is, is asked for like a gap's; where it was guessed and throttles
/// the air it is to be measured next, and the link leads to it.
#[test]
fn a_guessed_inner_opening_is_measured_next_and_its_link_leads_there() {
    let (_folder, mut window) = parted();
    replace_text(&mut window, "Width", "10");
    press(&mut window, Key::Tab);
    replace_text(&mut window, "Height", "20");
    press(&mut window, Key::Tab);
    window
        .get_by_role_and_label(Role::ComboBox, "Size found by")
        .focus();
    window.run();
    press(&mut window, Key::ArrowDown);
    let opening = survey(&window).inner_openings[0].clone();
    assert_eq!(opening.certainty, Certainty::Guessed);
    for gap in survey(&window).gaps.clone() {
        let mut gap = gap;
        gap.certainty = Certainty::Measured;
        let edit = Edit::Put(Record::Gap(Box::new(gap)));
        window.state_mut().queue().edit(edit, None);
    }
    window.run();
    air_change(&mut window);
    window.run();
    let found = uncertainty(survey(&window), SEED, Effort::test().draws).unwrap();
    let first = &found.measure_next[0];
    assert_eq!(
        first.item,
        Item::InnerOpening(InnerOpeningId(1)),
        "{first:?}"
    );
    let sentence = format!("{}.", capital(&first.sentence));
    assert!(shows(&window, &sentence), "{sentence}");
    window
        .get_by_role_and_label(Role::Link, "go to inner opening 1")
        .click_accesskit();
    window.run();
    assert_eq!(window.state().view().page, Page::Vehicle);
    assert!(shows(&window, "What joins them"));
}
