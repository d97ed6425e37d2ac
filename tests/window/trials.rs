//! A trial of 29 days: its loggers taken in, its periods marked by mouse and by keys, moved, typed and
//! taken away; the chart moved and zoomed; the cursor read.

use crate::*;
use gapledger::series::guess;
use gapledger::survey::file;
use gapledger::survey::{Hung, LoggerSeries, OutsideFrom, Period, SeriesId, Trial, TrialId};
use gapledger::window::page::Page;
use std::fmt::Write as _;

/// Days of the trial, from 1 November 2026.
const DAYS: u32 = 29;
pub(crate) const CHART: &str = "Chart of Orchard";

/// Rows by the hour: outside a wave about 6 °C and 90 %, inside a little warmer, its humidity as `damp`
/// says for each day.
fn rows(warmer: f64, damp: impl Fn(u32) -> f64) -> String {
    let mut text = String::from("Time,Temperature °C,Humidity %RH\n");
    for hour in 0..DAYS * 24 {
        let wave = (f64::from(hour) / 24.0 * std::f64::consts::TAU).sin();
        let t_c = 6.0 + warmer + 3.0 * wave;
        let rh = damp(hour / 24) - 4.0 * wave;
        let _ = writeln!(
            text,
            "2026-11-{:02} {:02}:00,{t_c:.2},{rh:.1}",
            hour / 24 + 1,
            hour % 24
        );
    }
    text
}

/// A survey with both loggers and a trial without periods.
pub(crate) fn with_loggers() -> (tempfile::TempDir, PathBuf) {
    let (folder, path) = small_survey();
    let data = file::data_folder(&path);
    let mut survey = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    let inside = rows(1.0, |day| if (12..19).contains(&day) { 62.0 } else { 80.0 });
    let outside = rows(0.0, |_| 88.0);
    for (id, hung, text) in [(1, Hung::Inside, inside), (2, Hung::Outside, outside)] {
        let name = file::keep_data(&data, text.as_bytes(), "log.csv").unwrap();
        let mapping = guess(text.as_bytes()).unwrap().mapping;
        survey
            .series
            .push(LoggerSeries::new(SeriesId(id), hung, name, mapping));
    }
    let mut trial = Trial::new(TrialId(1));
    trial.name = "Orchard".to_owned();
    trial.inside = Some(SeriesId(1));
    trial.outside = Some(SeriesId(2));
    survey.trials.push(trial);
    std::fs::write(&path, file::print(&survey)).unwrap();
    (folder, path)
}

pub(crate) fn on_trials(path: &Path) -> Window<'static> {
    let mut window = opened(path);
    ctrl(&mut window, Key::Num9);
    window
        .get_by_role_and_label(Role::Tab, "Loggers and trials")
        .click();
    window.run();
    assert_eq!(window.state().view().page, Page::Measurements);
    window
}

pub(crate) fn press_far(window: &mut Window<'_>, name: &str) {
    window
        .get_by_role_and_label(Role::Button, name)
        .click_accesskit();
    window.run();
}

fn trial<'a>(window: &'a Window<'_>) -> &'a Trial {
    &survey(window).trials[0]
}

/// The spans of the periods as they are written.
pub(crate) fn spans(window: &Window<'_>) -> Vec<String> {
    let written = |moment: Option<gapledger::survey::Moment>| {
        moment.map_or_else(|| "–".to_owned(), |moment| moment.to_string())
    };
    let periods = trial(window).periods.iter();
    periods
        .map(|period| format!("{} to {}", written(period.from), written(period.to)))
        .collect()
}

/// Drags on the chart between two shares of its width.
fn drag(window: &mut Window<'_>, from: f32, to: f32) {
    let rect = window.get_by_label(CHART).rect();
    // What is left of the plots are their numbers.
    let plot = rect.right() - rect.left();
    let y = rect.top() + 60.0;
    let at = |share: f32| egui::pos2(rect.left() + share * plot, y);
    window.hover_at(at(from));
    window.run();
    window.drag_at(at(from));
    window.run();
    for step in [0.3, 0.6, 1.0] {
        window.hover_at(at(from + step * (to - from)));
        window.run();
    }
    window.drop_at(at(to));
    window.run();
}

pub(crate) fn focus_chart(window: &mut Window<'_>) {
    window.get_by_label(CHART).focus();
    window.run();
}

#[test]
fn periods_are_marked_by_mouse_moved_at_their_ends_and_taken_away() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    assert!(shows(
        &window,
        "In view: 2026-11-01 00:00 to 2026-11-29 23:00"
    ));
    window
        .get_by_role_and_label(Role::RadioButton, "marks a period")
        .click();
    window.run();
    for at in 0..5_u16 {
        let from = 0.12 + 0.17 * f32::from(at);
        drag(&mut window, from, from + 0.14);
    }
    let found = trial(&window).periods.clone();
    assert_eq!(found.len(), 5, "{:?}", spans(&window));
    let days: Vec<(i64, i64)> = found.iter().filter_map(Period::span_s).collect();
    assert!(
        days.windows(2).all(|pair| pair[0].1 <= pair[1].0),
        "{days:?}"
    );
    assert!(days.iter().all(|(from, to)| {
        let long = to - from;
        from % 600 == 0 && to % 600 == 0 && (3 * 86_400..6 * 86_400).contains(&long)
    }));
    // The end of the last one is taken hold of and moved.
    drag(&mut window, 0.12 + 0.17 * 4.0 + 0.14, 0.98);
    let moved = trial(&window).periods.clone();
    assert_eq!(moved.len(), 5, "an end was moved, nothing new was marked");
    assert_eq!(moved[4].from, found[4].from);
    assert!(moved[4].to > found[4].to);
    press_far(&mut window, "Remove period 2");
    assert_eq!(trial(&window).periods.len(), 4);
    ctrl(&mut window, Key::Z);
    assert_eq!(trial(&window).periods, moved);
}

#[test]
fn five_periods_are_marked_by_keys_alone() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    focus_chart(&mut window);
    press(&mut window, Key::Home);
    for _ in 0..5 {
        press(&mut window, Key::B);
        assert!(shows(&window, "A period begins at"));
        // The view is 29 days: a step is some six hours.
        for _ in 0..20 {
            press(&mut window, Key::ArrowRight);
        }
        press(&mut window, Key::E);
    }
    let found = spans(&window);
    assert_eq!(found.len(), 5);
    assert!(
        found[0].starts_with("2026-11-01 00:00 to 2026-11-0"),
        "{found:?}"
    );
    let periods: Vec<(i64, i64)> = trial(&window)
        .periods
        .iter()
        .filter_map(Period::span_s)
        .collect();
    assert!(
        periods.windows(2).all(|pair| pair[0].1 == pair[1].0),
        "{periods:?}"
    );
    // Esc takes back what was begun, and stays on the chart.
    press(&mut window, Key::B);
    press(&mut window, Key::Escape);
    assert!(!shows(&window, "A period begins at"));
    press(&mut window, Key::E);
    assert_eq!(trial(&window).periods.len(), 5);
}

#[test]
fn the_chart_is_moved_zoomed_and_read_by_keys_and_buttons() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    focus_chart(&mut window);
    press(&mut window, Key::Home);
    assert!(shows(
        &window,
        "2026-11-01 00:00: inside 7.0\u{a0}°C, 80\u{a0}%"
    ));
    assert!(shows(&window, "outside 6.0\u{a0}°C, 88\u{a0}%"));
    press(&mut window, Key::End);
    assert!(shows(&window, "2026-11-29 23:00: inside"));
    press_far(&mut window, "Closer: chart of Orchard");
    press_far(&mut window, "Earlier: chart of Orchard");
    press_far(&mut window, "All: chart of Orchard");
    focus_chart(&mut window);
    press(&mut window, Key::Home);
    for _ in 0..4 {
        press(&mut window, Key::Plus);
    }
    // A view of two days: one press is one reading of an hour.
    press(&mut window, Key::ArrowRight);
    assert!(shows(&window, "2026-11-01 01:00: inside"));
    press(&mut window, Key::Num0);
    press(&mut window, Key::ArrowRight);
    assert!(
        shows(&window, "2026-11-01 06:00: inside") || shows(&window, "2026-11-01 07:00: inside")
    );
}

#[test]
fn a_period_is_typed_and_what_is_no_moment_stays_to_be_mended() {
    let (_folder, path) = with_loggers();
    let mut window = on_trials(&path);
    press_far(&mut window, "Add a period to Orchard");
    replace_text(&mut window, "Period 1 begins", "2026-11-05 14:30");
    press(&mut window, Key::Tab);
    replace_text(&mut window, "Period 1 ends", "yesterday");
    press(&mut window, Key::Tab);
    assert_eq!(spans(&window), ["2026-11-05 14:30 to –"]);
    assert!(shows(&window, "is no day with a time"));
    replace_text(&mut window, "Period 1 ends", "2026-11-12");
    press(&mut window, Key::Enter);
    assert_eq!(spans(&window), ["2026-11-05 14:30 to 2026-11-12 00:00"]);
    assert!(!shows(&window, "is no day with a time"));
    replace_text(&mut window, "Water collected in period 1 (kg)", "2.9");
    press(&mut window, Key::Enter);
    assert_eq!(trial(&window).periods[0].water_kg, Some(2.9));
    window
        .get_by_role_and_label(Role::ComboBox, "What ran in period 1")
        .focus();
    window.run();
    type_text(&mut window, "something");
    replace_text(&mut window, "In words in period 1", "two tubs of salt");
    press(&mut window, Key::Enter);
    assert_eq!(trial(&window).periods[0].words, "two tubs of salt");
    // The next begins where this one ended.
    press_far(&mut window, "Add a period to Orchard");
    assert_eq!(spans(&window)[1], "2026-11-12 00:00 to –");
}

#[test]
fn without_a_file_the_trial_says_what_is_missing_and_the_survey_is_whole() {
    let (_folder, path) = with_loggers();
    std::fs::remove_dir_all(file::data_folder(&path)).unwrap();
    let mut window = on_trials(&path);
    assert!(shows(&window, "is missing"));
    assert!(window.query_by_label(CHART).is_none());
    assert_eq!(survey(&window).series.len(), 2);
    window
        .get_by_role_and_label(Role::ComboBox, "Outside air from")
        .focus();
    window.run();
    type_text(&mut window, "the weather c");
    assert_eq!(trial(&window).outside_from, OutsideFrom::Cases);
}

#[test]
fn odd_readings_are_left_out_and_put_back_by_the_users_word() {
    let (_folder, path) = with_loggers();
    let data = file::data_folder(&path);
    let mut survey_there = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    let text = rows(1.0, |day| if day == 9 { 105.0 } else { 80.0 });
    survey_there.series[0].file = file::keep_data(&data, text.as_bytes(), "log.csv").unwrap();
    std::fs::write(&path, file::print(&survey_there)).unwrap();
    let mut window = on_trials(&path);
    press_far(&mut window, "Logger 1, inside, in free air");
    let odd = "Relative humidity from 2026-11-10 00:00 to 2026-11-10 23:00: reads above 100 %";
    assert!(shows(&window, odd));
    assert!(shows(&window, "Nothing: every reading counts."));
    // The chart marks them, and its legend says with what.
    assert!(shows(&window, "odd, still counts"));
    let leave = format!("Leave out {odd} (24 readings)");
    press_far(&mut window, &leave);
    assert_eq!(survey(&window).series[0].left_out.len(), 1);
    assert!(window.query_by_label(&leave).is_none());
    assert!(!shows(&window, "odd, still counts"));
    assert!(shows(&window, "inside, left out"));
    focus_chart(&mut window);
    press_far(&mut window, &format!("Put back {odd}"));
    assert!(survey(&window).series[0].left_out.is_empty());
}

#[test]
fn what_each_method_did_stands_in_one_picture_and_in_words() {
    let mut window = on_trials(&sample("orchard-trial.ron"));
    let described = "What each period did.";
    assert!(shows(&window, described));
    assert!(shows(
        &window,
        "no effect on humidity that the data can show"
    ));
    // Taken away, the method is no longer in the picture.
    let before = survey(&window).trials[0].periods.len();
    press_far(&mut window, "Remove period 2");
    assert_eq!(survey(&window).trials[0].periods.len(), before - 1);
    assert!(shows(&window, described));
}

#[test]
fn a_trial_is_saved_as_a_picture_and_as_a_table() {
    let (folder, path) = with_loggers();
    let mut window = on_trials(&path);
    for (button, name, holds) in [
        ("Save Orchard as picture", "orchard.svg", "<svg"),
        ("Save Orchard as CSV", "orchard.csv", "time,inside_c,"),
    ] {
        press_far(&mut window, button);
        let to = folder.path().join(name);
        replace_text(&mut window, "Path of the file", &to.display().to_string());
        press(&mut window, Key::Enter);
        window.run();
        let written = std::fs::read_to_string(&to).unwrap();
        assert!(written.contains(holds), "{name}");
    }
    let table = std::fs::read_to_string(folder.path().join("orchard.csv")).unwrap();
    // A head and a line for each reading.
    assert_eq!(table.lines().count(), 1 + 29 * 24);
}

#[test]
fn a_logger_is_checked_beside_another_and_its_offset_used_and_undone() {
    let (_folder, path) = with_loggers();
    let mut survey_on_disk = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    survey_on_disk.series[0].name = "white".to_owned();
    survey_on_disk.series[1].name = "grey".to_owned();
    std::fs::write(&path, file::print(&survey_on_disk)).unwrap();
    let mut window = on_trials(&path);
    let item = gapledger::survey::Item::Series(SeriesId(1));
    let place = gapledger::survey::Place::at(item, gapledger::survey::Field::TooWarm);
    window
        .state_mut()
        .queue()
        .push(gapledger::window::request::Request::GoTo(place));
    window.run();
    press_far(&mut window, "Check white");
    window
        .get_by_role_and_label(Role::ComboBox, "Logger beside it")
        .focus();
    window.run();
    type_text(&mut window, "grey");
    for (name, moment) in [
        ("Check of white begins", "2026-11-01 00:00"),
        ("Check of white ends", "2026-11-02 00:00"),
    ] {
        replace_text(&mut window, name, moment);
        press(&mut window, Key::Enter);
    }
    window.run();
    // Both waves run together: 1.0 K apart, and 80 against 88 % that day.
    assert!(shows(&window, "it reads 1.0\u{a0}K too warm"));
    assert!(shows(&window, "8.0 points of humidity too dry"));
    assert!(shows(&window, "Not taken off yet"));
    let offered = window
        .get_by_role_and_label(Role::Button, "Use this offset for white")
        .rect();
    press_far(&mut window, "Use this offset for white");
    let white = &survey(&window).series[0];
    assert_eq!(
        (white.too_warm_k, white.too_damp_percent),
        (Some(1.0), Some(-8.0))
    );
    assert_eq!(white.offset_from, gapledger::survey::OffsetFrom::SideBySide);
    window.run();
    assert!(shows(&window, "This is taken off its readings."));
    // A second click meets nothing: the button is where it was, and removing the check is not under it.
    let used = window.get_by_role_and_label(Role::Button, "Use this offset for white");
    assert!(used.accesskit_node().is_disabled());
    assert_eq!(used.rect(), offered);
    // Not in a field, where the same keys undo what is typed.
    window
        .get_by_role_and_label(Role::Button, "Remove the check of white")
        .focus();
    window.run();
    ctrl(&mut window, Key::Z);
    let white = &survey(&window).series[0];
    assert_eq!((white.too_warm_k, white.too_damp_percent), (None, None));
    assert!(white.check.is_some(), "the check itself stays");
}
