//! Loggers' files taken in by label and keyboard: what was guessed is shown, what cannot be known is
//! asked, and a file that cannot be read leaves the survey whole.

use crate::*;
use gapledger::series::DateOrder;
use gapledger::survey::Hung;
use gapledger::window::page::Page;
use gapledger::window::pages::measurements::Section;
use gapledger::window::questions::Dialog;
use gapledger::window::request::Request;
use std::fmt::Write as _;

/// The small survey, on the loggers of the page Measurements.
fn on_loggers(path: &Path) -> Window<'static> {
    let mut window = opened(path);
    ctrl(&mut window, Key::Num9);
    window
        .get_by_role_and_label(Role::Tab, "Loggers and trials")
        .click();
    window.run();
    assert_eq!(window.state().view().page, Page::Measurements);
    window
}

/// Chooses a file by typing its path.
fn choose(window: &mut Window<'_>, path: &Path) {
    press_far(window, "Add a logger's file…");
    replace_text(window, "Path of the file", &path.display().to_string());
    press(window, Key::Enter);
    window.run();
}

/// Presses a button wherever on the page it is.
fn press_far(window: &mut Window<'_>, name: &str) {
    window
        .get_by_role_and_label(Role::Button, name)
        .click_accesskit();
    window.run();
}

/// Chooses what begins with these letters in the drop-down with this name.
fn choose_by_letters(window: &mut Window<'_>, name: &str, letters: &str) {
    window.get_by_role_and_label(Role::ComboBox, name).focus();
    window.run();
    type_text(window, letters);
}

fn is_asking(window: &Window<'_>) -> bool {
    matches!(window.state().dialog(), Some(Dialog::Logger(_)))
}

/// Rows of two sensors by the hour, the day written by `day`.
fn rows(day: impl Fn(u32) -> String) -> String {
    let mut text = String::from("Date;Inside °C;Inside % RH;Shed °C;Shed % RH\r\n");
    for hour in 0..240_u32 {
        let _ = write!(
            text,
            "{} {:02}:00;{},5;61;4,5;88\r\n",
            day(hour / 24),
            hour % 24,
            8 + hour % 7
        );
    }
    text
}

#[test]
fn a_file_is_looked_at_said_and_taken_in_by_keyboard() {
    let (folder, path) = small_survey();
    let file = folder.path().join("cellar.csv");
    // 1/4, 2/4 …: the first of April and on, or the fourth of January, February …
    std::fs::write(&file, rows(|day| format!("{:02}/04/2026", day + 1))).unwrap();
    let mut window = on_loggers(&path);
    choose(&mut window, &file);
    assert!(is_asking(&window));
    assert!(shows(&window, "How is cellar.csv read?"));
    // Both readings of the dates are shown, and neither is taken.
    assert!(shows(
        &window,
        "day, month, year: from 2026-04-01 00:00 to 2026-04-10 23:00"
    ));
    assert!(shows(
        &window,
        "month, day, year: from 2026-01-04 00:00 to 2026-10-04 23:00"
    ));
    assert!(shows(
        &window,
        "Say which of the two ways the dates are written in."
    ));
    // The first of them has the focus: a space says it.
    press(&mut window, Key::Space);
    assert!(
        shows(&window, "2026-04-01 01:00"),
        "the first rows are read so"
    );
    // One sensor's name says where it hung, the other's does not.
    assert!(shows(&window, "Say where each sensor hung."));
    choose_by_letters(&mut window, "Shed hung", "out");
    press_far(&mut window, "Read it so");
    assert!(!is_asking(&window));
    let loggers = &survey(&window).series;
    let taken: Vec<(&str, Hung)> = loggers
        .iter()
        .map(|logger| (logger.sensor.as_str(), logger.hung))
        .collect();
    assert_eq!(taken, [("Inside", Hung::Inside), ("Shed", Hung::Outside)]);
    assert_eq!(loggers[0].mapping.order, Some(DateOrder::DayMonthYear));
    assert_eq!(loggers[0].original, "cellar.csv");
    let kept = path.with_extension("data").join(&loggers[0].file);
    assert_eq!(std::fs::read(kept).unwrap(), std::fs::read(&file).unwrap());
    assert!(shows(&window, "240 rows of cellar.csv were read"));
    // Both are one step for undo.
    ctrl(&mut window, Key::Z);
    assert!(survey(&window).series.is_empty());
}

#[test]
fn the_next_file_of_that_shape_is_read_as_the_last_was() {
    let (folder, path) = small_survey();
    let mut window = on_loggers(&path);
    for (name, first) in [("one.csv", true), ("two.csv", false)] {
        let file = folder.path().join(name);
        std::fs::write(&file, rows(|day| format!("{:02}/05/2026", day + 1))).unwrap();
        choose(&mut window, &file);
        let asks = shows(&window, "Say which of the two ways");
        assert_eq!(asks, first, "{name}");
        assert_ne!(
            shows(&window, "Read as the last file of this shape was"),
            first
        );
        if first {
            press(&mut window, Key::Space);
        }
        choose_by_letters(&mut window, "Shed hung", "not");
        press_far(&mut window, "Read it so");
        assert!(!is_asking(&window), "{name}");
    }
    assert_eq!(survey(&window).series.len(), 2);
}

#[test]
fn every_guess_can_be_changed() {
    let (folder, path) = small_survey();
    let file = folder.path().join("fahrenheit.csv");
    let mut text = String::from("Time,Temp,Hum\n");
    for hour in 0..48 {
        let _ = writeln!(
            text,
            "2026-01-{:02} {:02}:00,50.0,61",
            1 + hour / 24,
            hour % 24
        );
    }
    std::fs::write(&file, text).unwrap();
    let mut window = on_loggers(&path);
    choose(&mut window, &file);
    assert!(shows(&window, "The file does not say the unit"));
    choose_by_letters(&mut window, "Unit of column 2", "°F");
    assert!(shows(&window, "10.0"), "50 °F are 10 °C");
    replace_text(&mut window, "Clock ahead by (min)", "60");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "2025-12-31 23:00"), "an hour too early");
    choose_by_letters(&mut window, "Sign between columns", "tab");
    assert!(shows(&window, "No row with a time and a number was found"));
    choose_by_letters(&mut window, "Sign between columns", "comma");
    choose_by_letters(&mut window, "The sensor hung", "inside");
    press_far(&mut window, "Read it so");
    let logger = &survey(&window).series[0];
    assert_eq!(logger.mapping.clock_ahead_s, 3600);
    assert_eq!(logger.hung, Hung::Inside);
}

#[test]
fn a_file_that_cannot_be_read_is_told_by_a_sentence_and_the_survey_is_whole() {
    let (folder, path) = small_survey();
    let mut window = on_loggers(&path);
    let before = survey(&window).clone();
    let prose = folder.path().join("prose.txt");
    std::fs::write(&prose, "Nobody wrote a number here.\n").unwrap();
    let gone = folder.path().join("gone.csv");
    for (file, words) in [
        (prose.as_path(), "no row with a time and a number"),
        (folder.path(), "a folder, a pipe or a device"),
        (gone.as_path(), "There is no file"),
    ] {
        choose(&mut window, file);
        assert!(!is_asking(&window), "{}", file.display());
        assert!(shows(&window, words), "{words}");
    }
    // A line that is wrong far down leads back to the question, with the line.
    let cut = folder.path().join("cut.csv");
    let text = rows(|day| format!("2026-04-{:02}", day + 1));
    std::fs::write(&cut, format!("{text}2026-05-01 00:00;5 ±1;61;4,5;88\r\n")).unwrap();
    choose(&mut window, &cut);
    choose_by_letters(&mut window, "Shed hung", "not");
    press_far(&mut window, "Read it so");
    assert!(is_asking(&window));
    assert!(shows(&window, "line 242, column 2"));
    press(&mut window, Key::Escape);
    assert!(!is_asking(&window));
    assert_eq!(*survey(&window), before);
}

#[test]
fn a_finding_about_a_logger_leads_to_its_form() {
    let (folder, path) = small_survey();
    let file = folder.path().join("one.csv");
    std::fs::write(&file, rows(|day| format!("2026-04-{:02}", day + 1))).unwrap();
    let mut window = on_loggers(&path);
    choose(&mut window, &file);
    choose_by_letters(&mut window, "Shed hung", "not");
    press_far(&mut window, "Read it so");
    ctrl(&mut window, Key::Num1);
    let id = survey(&window).series[0].id;
    let item = gapledger::survey::Item::Series(id);
    let place = gapledger::survey::Place::at(item, gapledger::survey::Field::TooWarm);
    window.state_mut().queue().push(Request::GoTo(place));
    window.run();
    assert_eq!(window.state().view().page, Page::Measurements);
    assert_eq!(
        window.state().view().measurements.section(),
        Section::Trials
    );
    replace_text(&mut window, "Reads too warm by", "0.4");
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).series[0].too_warm_k, Some(0.4));
}

/// A survey with a file of two sensors taken in, inside and outside.
fn with_two_sensors() -> (tempfile::TempDir, PathBuf, Window<'static>) {
    let (folder, path) = small_survey();
    let file = folder.path().join("one.csv");
    std::fs::write(&file, rows(|day| format!("2026-04-{:02}", day + 1))).unwrap();
    let mut window = on_loggers(&path);
    choose(&mut window, &file);
    choose_by_letters(&mut window, "Shed hung", "out");
    press_far(&mut window, "Read it so");
    assert_eq!(survey(&window).series.len(), 2);
    (folder, path, window)
}

#[test]
fn how_a_file_is_read_is_changed_afterwards_for_all_its_loggers_and_undone() {
    let (_folder, _path, mut window) = with_two_sensors();
    let before = survey(&window).clone();
    press_far(&mut window, "Inside, inside, in free air");
    press_far(&mut window, "How the file of Inside is read");
    assert!(is_asking(&window));
    assert!(shows(&window, "changes 2 loggers of the survey"));
    replace_text(&mut window, "Clock ahead by (min)", "60");
    press(&mut window, Key::Tab);
    choose_by_letters(&mut window, "Shed hung", "somewhere");
    press_far(&mut window, "Read it so");
    assert!(!is_asking(&window));
    let now = &survey(&window).series;
    let told: Vec<_> = now
        .iter()
        .map(|one| (one.id, one.hung, one.mapping.clock_ahead_s))
        .collect();
    assert_eq!(
        told,
        [
            (before.series[0].id, Hung::Inside, 3600),
            (before.series[1].id, Hung::Elsewhere, 3600)
        ]
    );
    assert_eq!(now[0].file, before.series[0].file, "the file is the same");
    ctrl(&mut window, Key::Z);
    assert_eq!(*survey(&window), before);
}

#[test]
fn another_file_takes_the_place_of_a_loggers_and_what_was_said_of_it_stays() {
    let (folder, _path, mut window) = with_two_sensors();
    let before = survey(&window).clone();
    let other = folder.path().join("longer.csv");
    let text = rows(|day| format!("2026-05-{:02}", day + 1));
    std::fs::write(&other, &text).unwrap();
    press_far(&mut window, "Inside, inside, in free air");
    replace_text(&mut window, "Reads too warm by", "0.4");
    press(&mut window, Key::Enter);
    press_far(&mut window, "Another file for Inside");
    replace_text(
        &mut window,
        "Path of the file",
        &other.display().to_string(),
    );
    press(&mut window, Key::Enter);
    window.run();
    assert!(shows(&window, "How is longer.csv read?"));
    press_far(&mut window, "Read it so");
    let now = &survey(&window).series;
    assert_eq!(now.len(), 2);
    assert!(now.iter().all(|one| one.original == "longer.csv"));
    assert_ne!(now[0].file, before.series[0].file);
    assert_eq!(
        (now[0].id, now[0].too_warm_k),
        (before.series[0].id, Some(0.4))
    );
}

#[test]
fn a_file_that_is_gone_is_a_finding_at_its_logger() {
    let (_folder, path, mut window) = with_two_sensors();
    ctrl(&mut window, Key::S);
    window.run();
    let kept = survey(&window).series[0].file.clone();
    drop(window);
    let data = path.with_extension("data").join(&kept);
    std::fs::write(&data, "another file\n").unwrap();
    let mut window = on_loggers(&path);
    press_far(&mut window, "Inside, inside, in free air");
    assert!(shows(&window, "was changed since it was taken in"));
    drop(window);
    std::fs::remove_file(&data).unwrap();
    let mut window = on_loggers(&path);
    press_far(&mut window, "Inside, inside, in free air");
    assert!(shows(&window, "is missing"));
    assert!(shows(&window, "put it back into the folder"));
}

#[test]
fn a_file_dropped_on_the_page_is_looked_at_and_of_several_the_first_is_named() {
    let (folder, path) = small_survey();
    let mut window = on_loggers(&path);
    let files: Vec<PathBuf> = ["one.csv", "two.csv"]
        .map(|name| folder.path().join(name))
        .to_vec();
    for file in &files {
        std::fs::write(file, rows(|day| format!("2026-04-{:02}", day + 1))).unwrap();
    }
    hold(&mut window, &files[0]);
    assert!(shows(&window, "Drop the file of a logger to read it"));
    assert!(!shows(&window, "Drop to add photos"));
    drop_files(&mut window, &[&files[0], &files[1]]);
    assert!(is_asking(&window));
    assert!(shows(&window, "How is one.csv read?"));
    assert!(shows(&window, "only one.csv was taken"));
}

#[test]
fn the_question_how_a_file_is_read_is_as_tall_at_once_as_it_will_be() {
    let (folder, path) = small_survey();
    let file = folder.path().join("cellar.csv");
    std::fs::write(&file, rows(|day| format!("{:02}/04/2026", day + 1))).unwrap();
    let mut window = on_loggers(&path);
    choose(&mut window, &file);
    let foot = |window: &Window<'_>| {
        let cancel = window.get_by_role_and_label(Role::Button, "Cancel");
        cancel.rect().top()
    };
    let first = foot(&window);
    for _ in 0..5 {
        window.step();
    }
    assert!(
        (foot(&window) - first).abs() < 1.0,
        "{first} {}",
        foot(&window)
    );
}

#[test]
fn a_trial_without_a_period_has_no_empty_tables_and_calls_its_loggers_as_the_page_does() {
    let (_folder, _path, mut window) = with_two_sensors();
    press_far(&mut window, "Add a trial");
    window.run();
    assert!(shows(&window, "No method has been tried yet"));
    assert!(shows(&window, "logger \u{201c}Inside\u{201d} ("));
    assert!(!shows(&window, "Against without, points"));
    // On by keyboard: to its name, and from a new period to its ends.
    let name = window.get_by_role_and_label(Role::TextInput, "Trial");
    assert!(name.accesskit_node().is_focused());
    press_far(&mut window, "Add a period to Trial 1");
    type_text(&mut window, "2026-04-01 00:00");
    press(&mut window, Key::Enter);
    let trial = &survey(&window).trials[0];
    assert!(trial.periods[0].from.is_some() && trial.periods[0].to.is_none());
}
