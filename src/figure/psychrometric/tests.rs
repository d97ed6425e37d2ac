//! Points of the chart stand where moist air says.

use super::*;
use crate::assess::compare;
use crate::survey::file::parse;

const SIZE: (f64, f64) = (150.0, 95.0);

fn comparison() -> Comparison {
    let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
    compare(&parse(text).unwrap()).unwrap()
}

fn chart(shown: Option<usize>) -> (Comparison, Psychrometric) {
    let comparison = comparison();
    let chart = psychrometric(&comparison, comparison.windiest, shown, SIZE).unwrap();
    (comparison, chart)
}

fn circles(chart: &Psychrometric) -> Vec<Point> {
    let centre = |mark: &super::super::scene::Mark| match mark.shape {
        Shape::Circle { centre, .. } => Some(centre),
        _ => None,
    };
    chart.scene.marks.iter().filter_map(centre).collect()
}

#[test]
fn every_known_inside_state_has_its_mark_and_reads_back() {
    let (comparison, chart) = chart(None);
    let states: Vec<MoistAir> = comparison
        .options
        .iter()
        .filter_map(|option| inside(option, comparison.windiest))
        .collect();
    let circles = circles(&chart);
    assert!(states.len() >= 8);
    assert_eq!(circles.len(), states.len());
    for (at, air) in circles.iter().zip(&states) {
        let read = chart.state_at(*at).unwrap();
        assert!((read.t_c - air.t_c).abs() < 1e-9);
        assert!((read.humidity_ratio - air.humidity_ratio).abs() < 1e-12);
        assert!((read.relative_humidity() - air.relative_humidity()).abs() < 1e-9);
    }
}

/// Saturated air of 25 °C, p_v 3169.7 Pa, holds W 0.0213603998 at 95 461 Pa: psychrolib's
/// published tests \[S\].
#[test]
fn the_saturation_curve_goes_through_published_states() {
    let axes = Axes {
        left: 10.0,
        right: 110.0,
        top: 5.0,
        bottom: 85.0,
        coldest_c: 0.0,
        warmest_c: 50.0,
        least: 0.0,
        most: 0.04,
        pressure: 95_461.0,
    };
    let mut scene = Scene::new(120.0, 100.0);
    curve(
        &mut scene,
        &axes,
        1.0,
        Stroke::solid(Role::Ink, 0.5),
        "100 %",
    );
    let Shape::Polyline { points, .. } = &scene.marks[0].shape else {
        unreachable!("a curve is a line")
    };
    // 25 °C stands in the middle of the chart.
    let at = points.iter().find(|point| (point.x - 60.0).abs() < 1e-9);
    let ratio = (85.0 - at.unwrap().y) / 80.0 * 0.04;
    assert!((ratio - 0.021_360_4).abs() < 1e-5, "{ratio}");
    // It leaves through the upper edge, and its name stands above it.
    let end = points.last().unwrap();
    assert!((end.y - 5.0).abs() < 1e-9);
    assert!(matches!(&scene.marks[1].shape, Shape::Text { at, .. } if at.y < 5.0));
}

#[test]
fn beside_the_chart_and_beyond_saturation_there_is_no_state() {
    let (_, chart) = chart(None);
    let axes = chart.axes;
    for point in [
        Point::new(axes.left - 0.1, 40.0),
        Point::new(axes.right + 0.1, 40.0),
        Point::new(60.0, axes.bottom + 0.1),
        Point::new(60.0, axes.top - 0.1),
        // The upper left corner: cold air cannot hold so much.
        Point::new(axes.left + 0.1, axes.top + 0.1),
    ] {
        assert_eq!(chart.state_at(point), None, "{point:?}");
    }
    let dry = chart.state_at(Point::new(axes.right, axes.bottom)).unwrap();
    assert!((dry.humidity_ratio - axes.least).abs() < 1e-12);
    assert!((dry.t_c - axes.warmest_c).abs() < 1e-9);
}

#[test]
fn warming_points_to_the_right_and_drying_down() {
    let comparison = comparison();
    let at = comparison
        .options
        .iter()
        .position(|option| {
            option.cases[comparison.windiest]
                .as_ref()
                .is_ok_and(|case| case.fall.is_some_and(|fall| fall.water_share > 0.2))
        })
        .unwrap();
    let chart = psychrometric(&comparison, comparison.windiest, Some(at), SIZE).unwrap();
    let arrows: Vec<(Point, Point)> = chart
        .scene
        .marks
        .iter()
        .filter_map(|mark| match mark.shape {
            Shape::Arrow { from, to, .. } => Some((from, to)),
            _ => None,
        })
        .collect();
    let [(start, corner), (tail, end)] = arrows[..] else {
        unreachable!("two arrows: {arrows:?}")
    };
    assert!(corner.x > start.x && (corner.y - start.y).abs() < 1e-9);
    assert!(end.y > tail.y && (end.x - tail.x).abs() < 1e-9);
    let after = inside(&comparison.options[at], comparison.windiest).unwrap();
    assert!(end.distance(chart.place(after.t_c, after.humidity_ratio)) < 1e-9);
    // Without an option to show there is none.
    let still = psychrometric(&comparison, comparison.windiest, None, SIZE).unwrap();
    assert!(
        !still
            .scene
            .marks
            .iter()
            .any(|mark| matches!(mark.shape, Shape::Arrow { .. }))
    );
}

#[test]
fn the_curves_are_named_and_everything_stays_on_the_sheet() {
    let (comparison, chart) = chart(Some(5));
    let mut names = Vec::new();
    for mark in &chart.scene.marks {
        if let Shape::Text { at, text, .. } = &mark.shape {
            assert!((0.0..=SIZE.0).contains(&at.x), "{text}");
            assert!((0.0..=SIZE.1).contains(&at.y), "{text}");
            names.push(text.clone());
        }
    }
    let target = format!("target {:.0}\u{a0}%", comparison.target_rh * 100.0);
    for name in [
        "80\u{a0}% RH",
        "100\u{a0}%, condenses",
        "outside",
        "temperature",
        &target,
    ] {
        assert!(names.iter().any(|text| text == name), "{name}: {names:?}");
    }
}
