//! How sure the results are: intervals, what to measure next, leakage not found; and the rose.

use super::{
    Window, air_change, ctrl, opened, press, replace_text, sample, shows, small_survey, survey,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::assess::quantity::Kind;
use gapledger::assess::uncertainty::{SEED, Uncertainty, uncertainty};
use gapledger::assess::{Topic, assess};
use gapledger::survey::{Certainty, Edit, GapId, Item, Record};
use gapledger::window::answers::{Effort, LongWork};
use gapledger::window::app::{App, Start};
use gapledger::window::background::Status;
use gapledger::window::background::on_a_thread;
use gapledger::window::page::Page;
use std::time::{Duration, Instant};

const SAMPLES: [&str; 4] = [
    "farmyard-caravan.ron",
    "street-panel-van.ron",
    "coastal-coachbuilt.ron",
    "forest-integrated.ron",
];

fn air_page(name: &str) -> Window<'static> {
    let mut window = opened(&sample(name));
    air_change(&mut window);
    window
}

fn drawn(window: &Window<'_>) -> Uncertainty {
    uncertainty(survey(window), SEED, Effort::test().draws).unwrap()
}

#[test]
fn intervals_stand_behind_the_headlines_and_in_every_weather_case() {
    for name in SAMPLES {
        let window = air_page(name);
        let found = drawn(&window);
        for case in &found.cases {
            let words = Kind::AirChanges.range(case.ach_per_h.as_ref().unwrap());
            assert!(shows(&window, &words), "{name}, {}: {words}", case.name);
        }
        let assessment = assess(survey(&window));
        for result in super::strip(survey(&window), &assessment, Some(&found)) {
            let words = format!("({})", result.range.unwrap());
            assert!(shows(&window, &words), "{name}: {words}");
        }
        assert!(!shows(&window, "(…)"), "{name}");
    }
}

/// In a window of 1280 points, and in one of 1024 with the results in one row as well.
#[test]
fn the_interval_of_the_water_is_never_broken_inside() {
    for name in SAMPLES {
        let mut window = air_page(name);
        for wide in [1280.0, 1024.0] {
            window.set_size(egui::vec2(wide, 900.0));
            window.run();
            let found = drawn(&window);
            let results = super::strip(survey(&window), &assess(survey(&window)), Some(&found));
            let tops: Vec<f32> = results
                .iter()
                .map(|result| {
                    let labels = window.query_all_by_label(&result.title);
                    // The strip is at the foot of the window.
                    labels.map(|label| label.rect().top()).fold(0.0, f32::max)
                })
                .collect();
            assert!(tops.iter().all(|top| (top - tops[0]).abs() < 1.0), "{name}");
            let figure = results[3].figure.clone().unwrap();
            let range = results[3].range.clone().unwrap();
            let beside = format!("{figure} ({range})");
            let below = format!("{figure}\n({range})");
            let height = |words: &str| {
                let label = window.query_by_label(words);
                label.map(|label| label.rect().height())
            };
            let one = height(&beside).is_some_and(|height| height < 26.0);
            let two = height(&below).is_some_and(|height| height < 46.0);
            assert!(one || two, "{name}, {wide}: {beside}");
        }
    }
}

/// 10.0 cm² between 8.0 and 12.5 reads so; the bracket holds the headline itself.
#[test]
fn the_bracket_holds_the_plain_result() {
    for name in SAMPLES {
        let window = air_page(name);
        let found = drawn(&window);
        let assessment = assess(survey(&window));
        let area = assessment.leakage.unintended.unwrap().figures.eqla;
        let interval = &found.eqla_unintended;
        assert!((interval.low..=interval.high).contains(&area), "{name}");
        let [result, ..] = super::strip(survey(&window), &assess(survey(&window)), Some(&found));
        assert_eq!(result.range, Some(Kind::LeakageCm2.range(interval)));
    }
}

/// The same draws on one thread and on several, and in another window.
#[test]
fn the_intervals_shown_are_the_same_on_any_number_of_threads() {
    let shown = |threads: usize| {
        let start = Start {
            spawner: on_a_thread(),
            effort: Effort {
                draws: 730,
                winter_draws: 2,
                threads,
                pause: Duration::ZERO,
            },
            ..Start::test(Some(sample("street-panel-van.ron")))
        };
        let mut window = super::window(start);
        let begun = Instant::now();
        while window.state().answers().status(LongWork::Uncertainty) != Status::Idle
            || window.state().answers().uncertainty(0).is_none()
        {
            assert!(begun.elapsed() < Duration::from_secs(60));
            std::thread::sleep(Duration::from_millis(5));
            window.step();
        }
        window.run();
        let found = window.state().answers().uncertainty(0).unwrap().clone();
        found.unwrap()
    };
    let one = shown(1);
    assert_eq!(one, shown(3));
    assert_eq!(one, shown(1));
}

#[test]
fn the_guessed_gap_is_measured_next_and_its_link_leads_there() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    for (id, certainty) in [(1, Certainty::Guessed), (2, Certainty::Measured)] {
        let mut gap = survey(&window).gap(GapId(id)).unwrap().clone();
        gap.certainty = certainty;
        let edit = Edit::Put(Record::Gap(Box::new(gap)));
        window.state_mut().queue().edit(edit, None);
    }
    window.run();
    air_change(&mut window);
    window.run();
    let found = drawn(&window);
    let first = &found.measure_next[0];
    assert_eq!(first.item, Item::Gap(GapId(1)));
    assert!(shows(&window, &first.sentence[1..]));
    window
        .get_by_role_and_label(Role::Link, "go to gap 1")
        .click_accesskit();
    window.run();
    assert_eq!(window.state().view().page, Page::Gaps);
    let selected = window.state().view().gaps.selected_in(survey(&window));
    assert_eq!(selected, Some(GapId(1)));
}

#[test]
fn leakage_not_found_is_a_line_of_its_own_and_moves_no_headline() {
    let mut window = air_page("farmyard-caravan.ron");
    let before = assess(survey(&window));
    replace_text(&mut window, "Leakage not found", "20");
    press(&mut window, Key::Tab);
    window.run();
    assert_eq!(survey(&window).leakage_not_found_percent, Some(20.0));
    let line = drawn(&window).not_found.unwrap();
    assert!(shows(&window, "more EqLA; air changes: "));
    assert!(shows(&window, &Kind::LeakageCm2.text(line.eqla)));
    let after = assess(survey(&window));
    assert_eq!(before.leakage, after.leakage);
    replace_text(&mut window, "Leakage not found", "120");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "outside 0 to 100 %"));
    ctrl(&mut window, Key::Z);
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window).leakage_not_found_percent, None);
}

#[test]
fn how_sure_the_results_are_has_a_working() {
    let mut window = air_page("farmyard-caravan.ron");
    window
        .get_by_role_and_label(Role::Link, "how? Mean air change over the season")
        .click_accesskit();
    window.run();
    assert_eq!(window.state().view().working, Some(Topic::Uncertainty));
    assert!(shows(&window, "JCGM 101:2008"));
    let found = drawn(&window);
    let first = &found.air_change_shares[0];
    assert!(shows(&window, &first.of.name()));
    let part = format!(
        "{} of the uncertainty",
        Kind::WholePercent.text(first.share)
    );
    assert!(window.query_all_by_label(&part).count() > 0, "{part}");
}

#[test]
fn the_rose_is_turned_by_keys_and_by_clicks() {
    let start = Start::test(Some(sample("street-panel-van.ron")));
    let mut window = egui_kittest::Harness::builder()
        .with_size(egui::vec2(1280.0, 2400.0))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    window.run();
    air_change(&mut window);
    let rose = |window: &Window<'_>| {
        window
            .get_all_by_role(Role::Image)
            .find(|node| {
                let label = node.accesskit_node().label();
                label.is_some_and(|label| label.contains("wind from") && label.contains("chosen"))
            })
            .map(|node| node.rect())
            .unwrap()
    };
    window
        .get_all_by_role(Role::Image)
        .find(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.contains("chosen"))
        })
        .unwrap()
        .focus();
    window.run();
    press(&mut window, Key::ArrowRight);
    assert_eq!(window.state().view().air_change.direction(), 1);
    press(&mut window, Key::ArrowUp);
    press(&mut window, Key::ArrowLeft);
    assert_eq!(window.state().view().air_change.direction(), 15);
    assert!(shows(&window, "Flows shown: wind from 337.5°"));
    // A click to the right of the middle: from the offside.
    let found = rose(&window);
    let at = found.center() + egui::vec2(found.height() * 0.3, 0.0);
    window.hover_at(at);
    window.run();
    window.drag_at(at);
    window.run();
    window.drop_at(at);
    window.run();
    assert_eq!(window.state().view().air_change.direction(), 4);
}

#[test]
fn a_page_at_rest_makes_no_drawing_and_no_table_anew() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    air_change(&mut window);
    window.run();
    let drawn = |window: &Window<'_>| window.state().view().air_change.times_drawn();
    let before = drawn(&window);
    assert!(before > 0);
    for _ in 0..5 {
        window.step();
    }
    assert_eq!(drawn(&window), before);
    // Another direction is another picture of the flows and of the pressures; rose and curves stay.
    window
        .get_all_by_role(Role::Image)
        .find(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.contains("chosen"))
        })
        .unwrap()
        .focus();
    window.run();
    press(&mut window, Key::ArrowRight);
    assert_eq!(drawn(&window), before + 2);
}

#[test]
fn inside_pressure_and_neutral_level_are_drawn_and_told() {
    let window = air_page("two-opening-check.ron");
    let told = window
        .get_all_by_role(Role::Image)
        .filter_map(|node| node.accesskit_node().label())
        .find(|label| label.starts_with("Section through the body"))
        .unwrap();
    // 0.5 m + 0.9647 m: the closed form for two openings (form of API RP 500 [S]).
    assert!(told.contains("neutral level 1.46 m"), "{told}");
}
