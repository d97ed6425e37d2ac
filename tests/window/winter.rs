//! The Winter page: a winter chosen, run, looked at by day and hour, and changed month by month.

use super::plan_work::{held, let_go};
use super::{
    Window, click_button, ctrl, drop_file, hold, opened, press, replace_text, sample, shows,
    survey, type_text,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{
    Moment, Period, PeriodId, Survey, Trial, TrialId, TypicalWinter, WorkState, file,
};
use gapledger::window::answers::LongWork;
use gapledger::window::background::Status;
use gapledger::window::page::Page;
use std::path::PathBuf;

/// The caravan with a season of two weeks in January.
fn short() -> (tempfile::TempDir, PathBuf) {
    short_with(|_| {})
}

fn short_with(change: impl FnOnce(&mut Survey)) -> (tempfile::TempDir, PathBuf) {
    let text = std::fs::read_to_string(sample("farmyard-caravan.ron")).unwrap();
    let mut survey = file::parse(&text).unwrap();
    survey.stay.season_first = "01-10".into();
    survey.stay.season_last = "01-23".into();
    change(&mut survey);
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
fn a_weather_file_that_is_chosen_is_kept_with_the_survey_and_can_be_taken_out() {
    let (folder, path) = short();
    let elsewhere = tempfile::tempdir().unwrap();
    let chosen = elsewhere.path().join("Far Hill.epw");
    let weather = gapledger::assess::winter::invented(TypicalWinter::Northern);
    let bytes = gapledger::climate::epw::write(&weather);
    std::fs::write(&chosen, &bytes).unwrap();
    let mut window = on_winter(&path);
    press_far(&mut window, "Choose a weather file…");
    let typed = chosen.display().to_string();
    replace_text(&mut window, "Path of the file", &typed);
    press(&mut window, Key::Enter);
    window.run();
    let stay = survey(&window).stay.clone();
    assert_eq!(stay.weather_original, "Far Hill.epw");
    assert!(stay.weather_file.ends_with(".epw") && stay.weather_file.len() > 16);
    assert!(shows(&window, "Weather file: Far Hill.epw"));
    ctrl(&mut window, Key::S);
    let kept = folder.path().join("caravan.data").join(&stay.weather_file);
    assert_eq!(std::fs::read(&kept).unwrap(), bytes.as_bytes());
    assert_eq!(std::fs::read(&chosen).unwrap(), bytes.as_bytes());
    press_far(&mut window, "Take the weather file out");
    let stay = &survey(&window).stay;
    assert!(stay.weather_file.is_empty() && stay.weather_original.is_empty());
    assert!(kept.exists());
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

#[test]
fn draws_follow_the_winter_below_each_figure_and_can_be_stopped_and_asked_for_again() {
    const DRAWN: &str = "(nine in ten draws";
    let (_folder, path) = short();
    let (mut window, held) = held(path.to_str().unwrap());
    let_go(&mut window, &held);
    ctrl(&mut window, Key::Num8);
    click_button(&mut window, "Alpine");
    let_go(&mut window, &held);
    let status = |window: &Window<'_>| window.state().answers().status(LongWork::WinterBands);
    assert!(matches!(status(&window), Status::Working(_)));
    assert!(shows(&window, "frost nights") && !shows(&window, DRAWN));
    press_far(
        &mut window,
        "Stop working out the spread of the winter's figures",
    );
    assert_eq!(status(&window), Status::Stopped);
    let_go(&mut window, &held);
    assert!(!shows(&window, DRAWN));
    press_far(&mut window, "Work out the spread of the winter's figures");
    let_go(&mut window, &held);
    assert_eq!(status(&window), Status::Idle);
    assert!(shows(&window, DRAWN));
    press_far(&mut window, "Figures, frost, mould and assumptions");
    assert!(shows(&window, "How sure the winter is"));
    assert!(shows(&window, "3 draws of this winter"));
}

#[test]
fn two_options_stand_before_and_after_the_plan_and_first_the_driest_beside_nothing() {
    const AFTER: &str = "Nothing, once the planned gaps are sealed";
    let (_folder, path) = short();
    let mut window = on_winter(&path);
    click_button(&mut window, "Alpine");
    assert!(shows(&window, "No gap is planned yet"));
    assert!(!shows(&window, AFTER));
    let (_folder, path) = short_with(|survey| {
        for gap in &mut survey.gaps {
            if gap.state == WorkState::Open {
                gap.state = WorkState::Planned;
            }
        }
    });
    let mut window = on_winter(&path);
    click_button(&mut window, "Alpine");
    assert!(shows(&window, AFTER));
    let run = window.state().answers().winter().unwrap();
    let run = run.answer.as_ref().unwrap();
    let driest = run.driest().unwrap();
    let wet = |at: usize| {
        let season = run.seasons()[at].as_ref().unwrap();
        season.humidity.share_above[2]
    };
    for at in 0..run.seasons().len() {
        assert!(wet(driest) <= wet(at));
    }
    let name = &run.options()[driest].name;
    assert!(shows(
        &window,
        &format!("{name}, once the planned gaps are sealed")[1..]
    ));
}

#[test]
fn what_was_measured_stands_before_the_options_or_why_nothing_can_be_held_against_it() {
    let (_folder, path) = short_with(|survey| {
        let mut trial = Trial::new(TrialId(1));
        let at = Moment::parse("2023-01-10 00:00");
        let to = Moment::parse("2023-01-15 00:00");
        trial.periods = vec![Period::new(PeriodId(1), at, to)];
        survey.trials = vec![trial];
    });
    let mut window = on_winter(&path);
    assert!(!shows(&window, "Before anything is said of options"));
    click_button(&mut window, "Alpine");
    assert!(shows(&window, "Before anything is said of options"));
    assert!(shows(&window, "no logger inside is chosen"));
    let top = |words: &str| {
        let node = window.query_all_by_label_contains(words).next().unwrap();
        node.rect().top()
    };
    assert!(top("Before anything is said of options") < top("Drain the water"));
}

/// What the choice of the winter stands at.
fn which(window: &Window<'_>) -> String {
    let choice = window.get_by_role_and_label(Role::ComboBox, "Which winter");
    choice.accesskit_node().value().unwrap()
}

#[test]
fn the_choice_of_the_winter_tells_a_weather_file_in_use_and_another_winter_takes_it_out() {
    let (folder, path) = short();
    let chosen = folder.path().join("Far Hill.epw");
    let weather = gapledger::assess::winter::invented(TypicalWinter::Northern);
    std::fs::write(&chosen, gapledger::climate::epw::write(&weather)).unwrap();
    let mut window = on_winter(&path);
    assert_eq!(which(&window), "choose one");
    hold(&mut window, &chosen);
    assert!(shows(&window, "Drop a weather file to run the winter"));
    drop_file(&mut window, &chosen);
    assert_eq!(survey(&window).stay.weather_original, "Far Hill.epw");
    assert_eq!(which(&window), "the weather file");
    assert!(shows(&window, "weather of Far Hill.epw"));
    assert!(shows(&window, "frost nights"));
    // A winter that was chosen and did nothing would be believed to have been run.
    let choice = window.get_by_role_and_label(Role::ComboBox, "Which winter");
    choice.focus();
    window.run();
    type_text(&mut window, "alp");
    let stay = &survey(&window).stay;
    assert_eq!(stay.winter, Some(TypicalWinter::Alpine));
    assert!(stay.weather_file.is_empty() && stay.weather_original.is_empty());
    assert_eq!(which(&window), "alpine");
    ctrl(&mut window, Key::Z);
    assert_eq!(which(&window), "the weather file");
}
