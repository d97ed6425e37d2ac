//! The frame of the window: strip, undo, idleness, names.

use super::{
    click_button, ctrl, opened, press, replace_text, sample, shows, small_survey, strip, survey,
    window,
};
use eframe::egui;
use egui::Key;
use egui_kittest::kittest::Queryable;
use gapledger::assess::assess;
use gapledger::survey::{Form, SetUp};
use gapledger::window::app::Start;
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

/// Every headline that the assessment gives stands in the window, with its small print.
fn assert_strip_shows_assessment(window: &super::Window<'_>) {
    let survey = survey(window);
    for headline in strip(survey, &assess(survey), None) {
        match headline.figure {
            Ok(figure) => assert!(shows(window, &figure), "{}: {figure}", headline.title),
            Err(why) => assert!(shows(window, &why.reason), "{}: {why}", headline.title),
        }
    }
}

#[test]
fn an_edit_moves_the_strip_to_what_the_assessment_gives() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    assert_strip_shows_assessment(&window);
    let gap = survey(&window)
        .gaps
        .iter()
        .find(|gap| matches!(gap.form, Form::NarrowGap { .. }))
        .unwrap()
        .id;
    let before = strip(survey(&window), &assess(survey(&window)), None);
    window.state_mut().queue().go_to(gapledger::survey::Place {
        item: gapledger::survey::Item::Gap(gap),
        field: Some(gapledger::survey::Field::GapWidth),
    });
    window.run();
    replace_text(&mut window, "Clear width", "9,5");
    let Form::NarrowGap { width_mm, .. } = survey(&window).gap(gap).unwrap().form else {
        unreachable!("the form was not touched")
    };
    assert_eq!(width_mm, Some(9.5));
    let after = strip(survey(&window), &assess(survey(&window)), None);
    assert_ne!(before[0].figure, after[0].figure);
    assert_strip_shows_assessment(&window);
}

#[test]
fn undo_and_redo_take_whole_typings() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let first = survey(&window).clone();
    replace_text(&mut window, "Clear width", "3");
    super::type_text(&mut window, ".");
    super::type_text(&mut window, "5");
    press(&mut window, Key::Tab);
    press(&mut window, Key::Escape);
    let typed = survey(&window).clone();
    assert_ne!(first, typed);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window), &first);
    ctrl(&mut window, Key::Y);
    assert_eq!(survey(&window), &typed);
}

#[test]
fn the_set_up_is_always_in_sight_and_moves_results() {
    let mut window = opened(&sample("street-panel-van.ron"));
    let now = survey(&window).set_up;
    let other = SetUp::ALL
        .into_iter()
        .find(|set_up| *set_up != now)
        .unwrap();
    window
        .get_by_role_and_label(egui::accesskit::Role::RadioButton, other.name())
        .click();
    window.run();
    assert_eq!(survey(&window).set_up, other);
    assert_eq!(window.state().results().unwrap().assessment().set_up, other);
    assert_strip_shows_assessment(&window);
}

#[test]
fn pages_open_by_key_and_the_window_then_rests() {
    let mut window = opened(&sample("coastal-coachbuilt.ron"));
    for (key, page) in [
        (Key::Num1, Page::Vehicle),
        (Key::Num2, Page::Gaps),
        (Key::Num3, Page::AirChange),
        (Key::Num4, Page::DryingHeat),
    ] {
        ctrl(&mut window, key);
        assert_eq!(window.state().view().page, page);
        let output = &window.output().viewport_output;
        for viewport in output.values() {
            assert_eq!(viewport.repaint_delay, std::time::Duration::MAX, "{page:?}");
        }
    }
}

#[test]
fn every_input_on_every_page_has_a_name() {
    for name in ["farmyard-caravan.ron", "coastal-coachbuilt.ron"] {
        let mut window = opened(&sample(name));
        for page in Page::ALL {
            window.state_mut().queue().command(Command::Show(page));
            window.run();
            let unnamed = unnamed(&window);
            assert!(unnamed.is_empty(), "{name}, {page:?}: {unnamed:?}");
        }
    }
}

fn unnamed(window: &super::Window<'_>) -> Vec<String> {
    use egui_kittest::kittest::NodeT;
    window
        .query_all(egui_kittest::kittest::By::new().predicate(|node| {
            matches!(
                node.role(),
                egui::accesskit::Role::TextInput
                    | egui::accesskit::Role::MultilineTextInput
                    | egui::accesskit::Role::ComboBox
                    | egui::accesskit::Role::CheckBox
                    | egui::accesskit::Role::Button
                    | egui::accesskit::Role::Link
            ) && node.label().is_none_or(|label| label.trim().is_empty())
        }))
        .map(|node| format!("{:?}", node.accesskit_node().role()))
        .collect()
}

#[test]
fn every_headline_has_its_working() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let all = strip(survey(&window), &assess(survey(&window)), None);
    for headline in all {
        let topic = headline.topic.unwrap();
        window
            .get_by_label(&format!("how? {}", headline.title))
            .click();
        window.run();
        assert_eq!(window.state().view().working, Some(topic));
    }
}

#[test]
fn findings_lead_to_their_place() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    press(&mut window, Key::F8);
    assert!(shows(&window, "Findings ("));
    let way = window
        .query_all_by_label_contains("go to gap")
        .next()
        .unwrap();
    way.click();
    window.run();
    assert!(window.state().dialog().is_none());
    assert_eq!(window.state().view().page, Page::Gaps);
}

#[test]
fn the_start_page_begins_a_survey() {
    let mut window = window(Start::test(None));
    assert!(window.state().survey().is_none());
    click_button(&mut window, "panel-van camper");
    assert_eq!(
        survey(&window).vehicle.kind,
        gapledger::survey::VehicleKind::PanelVan
    );
    assert_eq!(window.state().view().page, Page::Vehicle);
}

#[test]
fn both_themes_and_every_size_draw_all_pages() {
    let mut window = opened(&sample("forest-integrated.ron"));
    for command in [Command::Dark, Command::Light] {
        window.state_mut().queue().command(command);
        for zoom in 0..11 {
            if zoom > 0 {
                window.state_mut().queue().command(Command::Larger);
            }
            for page in Page::ALL {
                window.state_mut().queue().command(Command::Show(page));
                window.run();
                assert!(shows(&window, "Set-up"), "{page:?}");
            }
        }
        window.state_mut().queue().command(Command::FirstSize);
    }
}
