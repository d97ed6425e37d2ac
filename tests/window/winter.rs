//! The Winter page: a winter chosen, run, looked at by day and hour, and changed month by month.

use super::{Window, click_button, ctrl, opened, press, replace_text, sample, shows, survey};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::survey::{TypicalWinter, file};
use gapledger::window::page::Page;
use std::path::PathBuf;

/// The caravan with a season of two weeks in January.
fn short() -> (tempfile::TempDir, PathBuf) {
    let text = std::fs::read_to_string(sample("farmyard-caravan.ron")).unwrap();
    let mut survey = file::parse(&text).unwrap();
    survey.stay.season_first = "01-10".into();
    survey.stay.season_last = "01-23".into();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("caravan.ron");
    std::fs::write(&path, file::print(&survey)).unwrap();
    (folder, path)
}

fn on_winter(path: &std::path::Path) -> Window<'static> {
    let mut window = opened(path);
    ctrl(&mut window, Key::Num8);
    assert_eq!(window.state().view().page, Page::Winter);
    window
}

/// Presses a button wherever on the page it is.
fn press_far(window: &mut Window<'_>, name: &str) {
    window
        .get_by_role_and_label(Role::Button, name)
        .click_accesskit();
    window.run();
}

#[test]
fn a_winter_is_chosen_by_its_name_and_told_by_sentences_pictures_and_figures() {
    let (_folder, path) = short();
    let mut window = on_winter(&path);
    assert!(shows(&window, "Choose a winter above"));
    click_button(&mut window, "Alpine");
    assert_eq!(survey(&window).stay.winter, Some(TypicalWinter::Alpine));
    assert!(shows(&window, "Drain the water"));
    assert!(shows(&window, "frost nights"));
    assert!(shows(&window, "January: "));
    assert!(shows(&window, "Plot by hour: Relative humidity"));
    press_far(&mut window, "Figures, frost, mould and assumptions");
    assert!(shows(&window, "Frost in the water system"));
    // One undo takes the choice back, and nothing of the winter stays.
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window).stay.winter, None);
    assert!(!shows(&window, "Drain the water"));
}

#[test]
fn a_month_is_changed_by_keyboard_and_goes_back_with_one_button() {
    let (_folder, path) = short();
    let mut window = on_winter(&path);
    click_button(&mut window, "Northern");
    press_far(&mut window, "Monthly means of the winter");
    replace_text(&mut window, "January: Mean (°C)", "-15.5");
    press(&mut window, Key::Tab);
    let stay = &survey(&window).stay;
    let own = TypicalWinter::Northern.means().months;
    assert_eq!(stay.months.len(), 12);
    assert_eq!(stay.months.first().map(|month| month.mean_c), Some(-15.5));
    assert_eq!(stay.months.get(1), own.get(1));
    press_far(&mut window, "Back to the figures of the typical winter");
    assert_eq!(survey(&window).stay.months, []);
}

#[test]
fn a_weather_file_that_is_not_there_is_told_and_leaves_the_survey_whole() {
    let (_folder, path) = short();
    let mut window = on_winter(&path);
    replace_text(&mut window, "Weather file", "hill.epw");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).stay.weather_file, "hill.epw");
    assert!(shows(&window, "there is no weather file"));
    assert!(!survey(&window).gaps.is_empty());
}

#[test]
fn the_page_drying_and_heat_leads_to_the_winter() {
    let (_folder, path) = short();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num4);
    window
        .get_by_role_and_label(Role::Link, "Winter: a season hour by hour")
        .click_accesskit();
    window.run();
    assert_eq!(window.state().view().page, Page::Winter);
}
