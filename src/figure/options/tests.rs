//! The picture of the options against the figures of the comparison.

use super::*;
use crate::assess::compare;
use crate::survey::file::parse;
use crate::survey::{Purpose, WorkState};

fn comparison() -> Comparison {
    let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
    compare(&parse(text).unwrap()).unwrap()
}

fn squares(scene: &Scene) -> Vec<Point> {
    let filled = scene.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Polygon {
            points,
            fill,
            outline: None,
            ..
        } if fill.is_some() => Some(Point::new(
            f64::midpoint(points[0].x, points[1].x),
            f64::midpoint(points[0].y, points[2].y),
        )),
        _ => None,
    });
    // The first one explains the sign in the head.
    filled.skip(1).collect()
}

#[test]
fn the_windy_marks_stand_in_the_order_of_their_humidity_and_on_their_rows() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    let marks = squares(&scene);
    let rh: Vec<f64> = comparison
        .options
        .iter()
        .filter_map(|option| humidity(option, comparison.windiest))
        .collect();
    assert!(rh.len() >= 8);
    assert_eq!(marks.len(), rh.len());
    for (a, b) in marks.iter().zip(marks.iter().skip(1)) {
        assert!(b.y > a.y);
    }
    // Two marks fix the scale; every other one must lie on it.
    let (low, high) = (
        (0..rh.len())
            .min_by(|a, b| rh[*a].total_cmp(&rh[*b]))
            .unwrap(),
        (0..rh.len())
            .max_by(|a, b| rh[*a].total_cmp(&rh[*b]))
            .unwrap(),
    );
    let scale = (marks[high].x - marks[low].x) / (rh[high] - rh[low]);
    assert!(scale > 0.0);
    for (mark, rh_here) in marks.iter().zip(&rh) {
        let x = marks[low].x + scale * (rh_here - rh[low]);
        assert!((mark.x - x).abs() < 1e-6);
    }
}

#[test]
fn what_is_held_stands_left_of_the_target_line() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    let line = scene.marks.iter().find_map(|mark| match &mark.shape {
        Shape::Polyline {
            points,
            stroke: Stroke {
                role: Role::Own, ..
            },
        } => Some(points[0].x),
        _ => None,
    });
    let line = line.unwrap();
    let with = comparison
        .options
        .iter()
        .filter(|option| humidity(option, comparison.windiest).is_some());
    let mut held = 0;
    for (mark, option) in squares(&scene).iter().zip(with) {
        let windy = option.cases[comparison.windiest].as_ref().unwrap();
        assert_eq!(mark.x <= line + 0.2, windy.holds, "{}", option.name);
        held += u32::from(windy.holds);
    }
    assert!(held > 0);
}

#[test]
fn everything_stays_on_the_sheet_and_names_are_cut_rather_than_overprinted() {
    for width in [150.0, 240.0, 400.0] {
        let mut comparison = comparison();
        comparison.options[2].name = "a name that goes on ".repeat(12);
        let scene = options(&comparison, width);
        for mark in &scene.marks {
            if let Shape::Text {
                at,
                text,
                size,
                anchor,
                ..
            } = &mark.shape
            {
                #[expect(clippy::cast_precision_loss, reason = "a few letters")]
                let long = text.chars().count() as f64 * size * LETTER_WIDTH;
                let (from, to) = match anchor {
                    Anchor::Left => (at.x, at.x + long),
                    Anchor::Middle => (at.x - long / 2.0, at.x + long / 2.0),
                    Anchor::Right => (at.x - long, at.x),
                };
                assert!(from >= -1.0 && to <= width + 1.0, "{text}: {from} to {to}");
            }
        }
    }
}

#[test]
fn labels_of_the_axis_stand_clear_of_each_other_at_every_width() {
    for width in [120.0, 140.0, 180.0, 240.0, 400.0] {
        let scene = options(&comparison(), width);
        let foot = scene.height - FOOT + 2.2;
        let mut xs = Vec::new();
        for mark in &scene.marks {
            if let Shape::Text { at, .. } = &mark.shape
                && (at.y - foot).abs() < 1e-9
            {
                xs.push(at.x);
            }
        }
        assert!(xs.len() >= 2, "{width}");
        // Five letters of the axis's size.
        let wide = 5.0 * 2.2 * LETTER_WIDTH;
        assert!(
            xs.windows(2).all(|pair| pair[1] - pair[0] > wide),
            "{width}: {xs:?}"
        );
    }
}

#[test]
fn the_description_tells_every_verdict_in_words() {
    let comparison = comparison();
    let words = options(&comparison, 240.0).description;
    for option in &comparison.options {
        assert!(words.contains(&option.name));
    }
    assert!(words.contains("still and windy") || words.contains("only when"));
    assert!(!words.contains('✔') && !words.contains('✖'));
}

#[test]
fn after_the_plan_every_option_has_a_second_line_with_its_own_humidity() {
    let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
    let mut survey = parse(text).unwrap();
    for gap in &mut survey.gaps {
        if gap.purpose == Purpose::Unintended {
            gap.state = WorkState::Planned;
        }
    }
    let comparison = compare(&survey).unwrap();
    let then = comparison.after_plan.as_ref().unwrap();
    let then = then.comparison.as_ref().unwrap();
    let scene = options(&comparison, 240.0);
    let marks = squares(&scene);
    let of = |all: &Comparison, at: usize| humidity(&all.options[at], all.windiest);
    let mut wanted = Vec::new();
    for at in 0..comparison.options.len() {
        wanted.extend([of(&comparison, at), of(then, at)].into_iter().flatten());
    }
    assert_eq!(marks.len(), wanted.len());
    assert!(
        marks
            .iter()
            .zip(marks.iter().skip(1))
            .all(|(a, b)| b.y > a.y)
    );
    // On one scale: a higher humidity stands further right.
    for (a, rh_a) in marks.iter().zip(&wanted) {
        for (b, rh_b) in marks.iter().zip(&wanted) {
            assert_eq!(
                rh_b - rh_a > 1e-6,
                b.x - a.x > 1e-6 * 120.0,
                "{rh_a} {rh_b}"
            );
        }
    }
    let second = scene.description.matches("after the plan").count();
    assert_eq!(second, comparison.options.len());
    let plain = options(&self::comparison(), 240.0);
    assert!(scene.height > plain.height && !plain.description.contains("after the plan"));
}

#[test]
fn a_mark_at_saturation_stands_clear_of_the_figures_beside_the_scale() {
    // The window draws letters a quarter larger than their height.
    const LARGER: f64 = 1.25;
    for width in [140.0, 180.0, 240.0] {
        let axis = Axis::new(0.6, &[], width, 100.0);
        let mark = axis.x(1.0) + 1.15 + 0.45 / 2.0;
        let figure = width - RIGHT + STILL - 5.0 * LETTER * LETTER_WIDTH * LARGER;
        assert!(figure - mark >= 2.0, "{width}: {mark} and {figure}");
    }
}
