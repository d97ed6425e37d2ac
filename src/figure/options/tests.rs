//! The picture of the options against the figures of the comparison.

use super::*;
use crate::assess::compare;
use crate::assess::drying::Verdict;
use crate::survey::file::parse;
use crate::survey::{Purpose, WorkState};

fn comparison() -> Comparison {
    let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
    compare(&parse(text).unwrap()).unwrap()
}

/// The filled areas of the season's bars, by row: their left and right ends.
fn held(scene: &Scene) -> Vec<(f64, f64, f64)> {
    let filled = scene.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Polygon {
            points,
            fill: Some(Role::Well),
            outline: Some(_),
        } => Some((points[0].y, points[0].x, points[1].x)),
        _ => None,
    });
    filled.collect()
}

/// The middles of the circles: the marks of the first weather case, its key first.
fn circles(scene: &Scene) -> Vec<Point> {
    let circles = scene.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Circle { centre, .. } => Some(*centre),
        _ => None,
    });
    circles.collect()
}

/// The same of the squares.
fn squares(scene: &Scene) -> Vec<Point> {
    let squares = scene.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Polygon {
            points,
            fill: Some(Role::Second),
            outline: None,
        } => Some(Point::new(
            f64::midpoint(points[0].x, points[2].x),
            f64::midpoint(points[0].y, points[2].y),
        )),
        _ => None,
    });
    squares.collect()
}

fn humidities(comparison: &Comparison, case: usize) -> Vec<f64> {
    let options = comparison.options.iter();
    let states = options.filter_map(|option| option.cases[case].as_ref().ok());
    states.map(|state| state.rh).collect()
}

#[test]
fn every_weather_case_has_a_mark_on_every_row_on_one_scale() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    // The caravan's first case is marked by circles, its second by squares.
    for (case, marks) in [(0, circles(&scene)), (1, squares(&scene))] {
        let rh = humidities(&comparison, case);
        assert!(rh.len() >= 8);
        // One mark more explains the sign.
        assert_eq!(marks.len(), rh.len() + 1);
        let marks = &marks[1..];
        assert!(marks.windows(2).all(|pair| pair[1].y > pair[0].y));
        let least = (0..rh.len())
            .min_by(|a, b| rh[*a].total_cmp(&rh[*b]))
            .unwrap();
        let most = (0..rh.len())
            .max_by(|a, b| rh[*a].total_cmp(&rh[*b]))
            .unwrap();
        // Two marks fix the scale; every other one must lie on it.
        let scale = (marks[most].x - marks[least].x) / (rh[most] - rh[least]);
        assert!(scale > 0.0);
        for (mark, rh_here) in marks.iter().zip(&rh) {
            let x = marks[least].x + scale * (rh_here - rh[least]);
            assert!((mark.x - x).abs() < 1e-6);
        }
    }
}

#[test]
fn no_mark_hides_another_of_the_same_row() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    let (first, second) = (circles(&scene), squares(&scene));
    for (a, b) in first.iter().zip(&second).skip(1) {
        assert!((a.y - b.y).abs() >= MARK, "{} {}", a.y, b.y);
    }
}

#[test]
fn the_bar_of_the_season_is_filled_over_the_share_that_is_held() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    let filled = held(&scene);
    let mut seen = 0;
    let mut top = Vec::new();
    for (y, ..) in &filled {
        if !top.contains(y) {
            top.push(*y);
        }
    }
    let holding = comparison
        .options
        .iter()
        .filter_map(|option| match option.verdict {
            Ok(Verdict::Always) => Some(1.0),
            Ok(Verdict::Partly(share)) => Some(share),
            _ => None,
        });
    for (share, y) in holding.zip(&top) {
        let row = filled.iter().filter(|(at, ..)| (at - y).abs() < 1e-9);
        let length: f64 = row.map(|(_, from, to)| to - from).sum();
        assert!((length - share * SEASON).abs() < 1e-9, "{length} {share}");
        seen += 1;
    }
    assert!(seen >= 2 && seen == top.len());
}

#[test]
fn what_is_held_stands_left_of_the_target_line() {
    let comparison = comparison();
    let scene = options(&comparison, 240.0);
    let line = scene.marks.iter().find_map(|mark| match &mark.shape {
        Shape::Polyline { points, stroke } if stroke.role == Role::Own => Some(points[0].x),
        _ => None,
    });
    let line = line.unwrap();
    let mut count = 0;
    let states = comparison
        .options
        .iter()
        .map(|option| option.cases[0].as_ref().unwrap());
    for (mark, state) in circles(&scene)[1..].iter().zip(states) {
        assert_eq!(mark.x <= line + 0.2, state.holds);
        count += u32::from(state.holds);
    }
    assert!(count > 0);
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
                let long = wide(text, *size);
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

/// Letters of the screen are set wider than was reckoned with: they give way to marks and edge.
#[test]
fn names_end_before_the_scale_and_verdicts_at_the_edge_whatever_the_letters() {
    let comparison = comparison();
    for width in [150.0, 214.0, 240.0] {
        let scene = options(&comparison, width);
        let ends = |from: f64| {
            let texts = scene.marks.iter().filter_map(|mark| match &mark.shape {
                Shape::Text { at, room, .. } if (at.x - from).abs() < 1e-9 => Some((at.x, *room)),
                _ => None,
            });
            let ends = texts.filter_map(|(left, room)| Some(left + room?));
            ends.collect::<Vec<f64>>()
        };
        let axis = ends(6.5);
        let verdicts = ends(width - RIGHT + SEASON + 2.0);
        assert_eq!(axis.len(), comparison.options.len());
        assert_eq!(verdicts.len(), comparison.options.len());
        assert!(
            verdicts.iter().all(|end| *end <= width + 1e-9),
            "{verdicts:?}"
        );
        let marks = circles(&scene);
        let leftmost = marks[1..].iter().map(|mark| mark.x - MARK);
        let leftmost = leftmost.fold(f64::INFINITY, f64::min);
        assert!(
            axis.iter().all(|end| *end < leftmost),
            "{axis:?} {leftmost}"
        );
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
fn the_description_tells_every_case_and_verdict_in_words() {
    let comparison = comparison();
    let words = options(&comparison, 240.0).description;
    for option in &comparison.options {
        assert!(words.contains(&option.name));
        assert!(
            words.contains(&option.verdict_words(&comparison)),
            "{words}"
        );
    }
    for case in &comparison.cases {
        assert!(words.contains(&format!("in “{}”", case.name)));
    }
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
    let marks = circles(&scene);
    let of = |all: &Comparison, at: usize| {
        let state = all.options[at].cases[0].as_ref();
        state.ok().map(|state| state.rh)
    };
    let mut wanted = Vec::new();
    for at in 0..comparison.options.len() {
        wanted.extend([of(&comparison, at), of(then, at)].into_iter().flatten());
    }
    let marks = &marks[1..];
    assert_eq!(marks.len(), wanted.len());
    assert!(marks.windows(2).all(|pair| pair[1].y > pair[0].y));
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
fn a_mark_at_saturation_stands_clear_of_the_bar_of_the_season() {
    for width in [140.0, 180.0, 240.0] {
        let axis = Axis::new(0.6, &[], width, (12.0, 100.0));
        let mark = axis.x(1.0) + 1.2 * MARK;
        assert!(width - RIGHT - mark >= 2.0, "{width}: {mark}");
    }
}

#[test]
fn many_weather_cases_with_long_names_take_lines_of_their_own() {
    let mut comparison = comparison();
    let few = options(&comparison, 150.0).height;
    for at in 0..9 {
        let mut case = comparison.cases[0].clone();
        case.name = format!("a very long name of some weather, number {at}");
        comparison.cases.push(case);
        for option in &mut comparison.options {
            let state = option.cases[0].clone();
            option.cases.push(state);
        }
    }
    let scene = options(&comparison, 150.0);
    assert!(scene.height > few + 3.0 * KEY);
}
