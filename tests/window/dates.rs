//! Dates: written as the system writes them, refused with a sentence, and today to begin with.

use super::{ctrl, press, replace_text, shows, small_survey, survey, text_of, window};
use eframe::egui::Key;
use gapledger::survey::date::DateWay;
use gapledger::survey::file::load;
use gapledger::window::app::Start;
use std::path::Path;

/// The Vehicle page of a survey where dates are written so.
fn written(path: &Path, dates: DateWay) -> super::Window<'static> {
    let mut window = window(Start {
        dates,
        ..Start::test(Some(path.to_owned()))
    });
    ctrl(&mut window, Key::Num1);
    window
}

fn date<'a>(window: &'a super::Window<'_>) -> &'a str {
    &survey(window).header.date
}

#[test]
fn a_date_is_typed_and_shown_in_the_order_of_the_country_and_kept_year_first() {
    let (_folder, path) = small_survey();
    for (way, typed, shown) in [
        (DateWay::MonthDayYear, "3/4/2026", "03/04/2026"),
        (DateWay::DayMonthYear('.'), "4.3.2026", "04.03.2026"),
        (DateWay::DayMonthYear('/'), "4/3/2026", "04/03/2026"),
        (DateWay::YearMonthDay, "2026-03-04", "2026-03-04"),
        // The way of files is understood everywhere.
        (DateWay::MonthDayYear, "2026-03-04", "03/04/2026"),
    ] {
        let mut window = written(&path, way);
        replace_text(&mut window, "Date", typed);
        press(&mut window, Key::Tab);
        assert_eq!(date(&window), "2026-03-04", "{typed}");
        assert_eq!(text_of(&window, "Date"), shown, "{typed}");
    }
}

#[test]
fn what_is_no_date_or_two_is_refused_with_a_sentence_and_not_saved() {
    let (_folder, path) = small_survey();
    for (way, typed, why) in [
        (
            DateWay::MonthDayYear,
            "13/32/2026",
            "is no date: write it as month/day/year",
        ),
        (
            DateWay::DayMonthYear('.'),
            "soon",
            "is no date: write it as day.month.year",
        ),
        (
            DateWay::YearMonthDay,
            "3/4/2026",
            "may be 3 April 2026 or 4 March 2026",
        ),
    ] {
        let mut window = written(&path, way);
        replace_text(&mut window, "Date", "2026-01-31");
        press(&mut window, Key::Tab);
        assert_eq!(date(&window), "2026-01-31");
        replace_text(&mut window, "Date", typed);
        press(&mut window, Key::Tab);
        // It stays to be mended, and the survey has the date from before.
        assert_eq!(text_of(&window, "Date"), typed);
        assert_eq!(date(&window), "2026-01-31", "{typed}");
        assert!(shows(&window, why), "{typed}");
        ctrl(&mut window, Key::S);
        assert_eq!(load(&path).unwrap().survey.header.date, "2026-01-31");
        replace_text(&mut window, "Date", "x");
        press(&mut window, Key::Escape);
        assert_eq!(text_of(&window, "Date"), way.written("2026-01-31"));
        assert!(!shows(&window, "is no date"));
        std::fs::write(&path, {
            let mut survey = load(&path).unwrap().survey;
            survey.header.date.clear();
            gapledger::survey::file::print(&survey)
        })
        .unwrap();
    }
}

#[test]
fn a_date_that_was_begun_and_not_ended_leaves_no_piece_of_it_behind() {
    let (_folder, path) = small_survey();
    let mut window = written(&path, DateWay::DayMonthYear('.'));
    for typed in ["1", "1.", "1.3", "1.3.20"] {
        replace_text(&mut window, "Date", typed);
        assert_eq!(date(&window), "", "{typed}");
    }
    press(&mut window, Key::Escape);
    assert_eq!(text_of(&window, "Date"), "");
    assert!(!window.state_mut().unsaved());
}

#[test]
fn a_new_survey_is_dated_with_today() {
    let mut window = window(Start {
        dates: DateWay::MonthDayYear,
        today: Some(|| "2026-03-04".to_owned()),
        ..Start::test(None)
    });
    super::click_button(&mut window, "panel-van camper");
    assert_eq!(date(&window), "2026-03-04");
    assert_eq!(text_of(&window, "Date"), "03/04/2026");
}
