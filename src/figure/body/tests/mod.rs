//! The drawing holds every gap, and a click on a mark means that gap.

mod fittings;
mod seams;

use super::{Arrangement, Layout, Show, body};
use crate::assess::assess;
use crate::figure::scene::{Point, Role, Shape, Stroke};
use crate::survey::gap::{Certainty, Facing, Form, Gap, Position};
use crate::survey::{GapId, Survey, VehicleKind, ZoneId, file};

fn survey() -> Survey {
    let mut survey = Survey::new(VehicleKind::CoachBuilt);
    let vehicle = &mut survey.vehicle;
    (vehicle.length_m, vehicle.width_m) = (Some(6.5), Some(2.3));
    (vehicle.height_m, vehicle.floor_height_m) = (Some(2.9), Some(0.6));
    vehicle.volume_m3 = Some(26.0);
    for (id, (facing, diameter_mm)) in (1..).zip([
        (Facing::Front, 10.0),
        (Facing::Nearside, 40.0),
        (Facing::Offside, 80.0),
        (Facing::Underfloor, 20.0),
    ]) {
        let form = Form::RoundHole {
            diameter_mm: Some(diameter_mm),
        };
        let mut gap = Gap::new(GapId(id), ZoneId(1), facing, form);
        gap.certainty = Certainty::Measured;
        gap.position = Position {
            along_m: Some(2.0),
            across_m: Some(1.0),
            height_m: Some(1.2),
            rise_m: None,
        };
        survey.gaps.push(gap);
    }
    survey
}

const PLAIN: Show<'static> = Show {
    selected: None,
    also: &[],
    direction: None,
    numbers: true,
    large: false,
    fitting: None,
    before: None,
};

#[test]
fn a_click_on_every_mark_means_its_gap() {
    let survey = survey();
    let figure = body(&survey, &assess(&survey), Arrangement::Wide, 300.0, &PLAIN);
    for gap in &survey.gaps {
        let (middle, _) = figure.scene.gap_extent(gap.id).unwrap();
        assert_eq!(figure.scene.gap_at(middle, 0.5), Some(gap.id));
        let picked = figure.layout.pick(middle).unwrap();
        assert_eq!(picked.facing, gap.facing);
    }
}

/// A mark's area grows with the leakage: twice the diameter, four times the area.
#[test]
fn the_area_of_a_mark_follows_the_leakage() {
    let survey = survey();
    let figure = body(&survey, &assess(&survey), Arrangement::Tall, 300.0, &PLAIN);
    let reach = |id| figure.scene.gap_extent(GapId(id)).unwrap().1;
    assert!((reach(3) / reach(2) - 2.0).abs() < 1e-9);
    assert!(reach(2) > reach(1));
}

#[test]
fn flows_point_in_and_out_and_only_where_air_moves() {
    let survey = survey();
    let answers = assess(&survey);
    let direction = &answers.cases[2].air.as_ref().unwrap().directions[0];
    let show = Show {
        direction: Some(direction),
        ..PLAIN
    };
    let figure = body(&survey, &answers, Arrangement::Wide, 300.0, &show);
    let arrows = |wanted: Role| {
        let is = |shape: &Shape| matches!(shape, Shape::Arrow { role, .. } if *role == wanted);
        figure
            .scene
            .marks
            .iter()
            .filter(|mark| is(&mark.shape))
            .count()
    };
    let flows = || direction.flows.iter().flatten();
    assert_eq!(
        arrows(Role::Inward),
        flows().filter(|flow| flow.in_kg_s > 0.0).count()
    );
    assert_eq!(
        arrows(Role::Outward),
        flows().filter(|flow| flow.out_kg_s > 0.0).count()
    );
}

/// Whatever sizes are missing or absurd, the drawing has finite sizes.
#[test]
fn a_vehicle_without_sizes_is_drawn_as_a_usual_one() {
    let mut vehicle = Survey::new(VehicleKind::Other).vehicle;
    for value in [None, Some(f64::NAN), Some(-3.0), Some(1e12)] {
        (vehicle.length_m, vehicle.height_m) = (value, value);
        let (width, height) = Layout::new(&vehicle, Arrangement::Wide, 300.0).size();
        assert!(width.is_finite() && height.is_finite() && height > 10.0);
    }
}

fn crowded(count: u32, apart_m: f64) -> Survey {
    let mut survey = survey();
    survey.gaps.clear();
    for id in 1..=count {
        let form = Form::RoundHole {
            diameter_mm: Some(8.0),
        };
        let mut gap = Gap::new(GapId(id), ZoneId(1), Facing::Nearside, form);
        gap.position = Position {
            along_m: Some(2.0 + f64::from(id) * apart_m),
            across_m: Some(0.0),
            height_m: Some(1.0),
            rise_m: None,
        };
        survey.gaps.push(gap);
    }
    survey
}

fn drawn(survey: &Survey) -> super::BodyFigure {
    body(survey, &assess(survey), Arrangement::Tall, 160.0, &PLAIN)
}

#[test]
fn a_few_gaps_in_one_place_are_drawn_apart_and_each_can_be_hit() {
    let survey = crowded(6, 0.0);
    let figure = drawn(&survey);
    for place in &figure.places {
        assert_eq!(figure.gaps_at(place.at, 0.1), [place.gap]);
        for other in &figure.places {
            let between = place.at.distance(other.at);
            assert!(place.gap == other.gap || between >= place.reach + other.reach);
        }
    }
}

#[test]
fn many_gaps_in_one_place_become_one_mark_that_says_how_many() {
    let survey = crowded(30, 0.0);
    let figure = drawn(&survey);
    let at = figure.places[0].at;
    assert_eq!(figure.gaps_at(at, 0.1).len(), 30);
    let says = |shape: &Shape| matches!(shape, Shape::Text { text, .. } if text == "30 gaps");
    assert!(figure.scene.marks.iter().any(|mark| says(&mark.shape)));
    // Enlarged, a row of them 5 cm apart parts again: 30 marks, each its own.
    let row = crowded(30, 0.05);
    let figure = body(&row, &assess(&row), Arrangement::Tall, 1500.0, &PLAIN);
    assert!(figure.places.iter().all(|place| place.sharing == 1));
}

/// The numbers of a drawing as rectangles: middle line, from left to right.
fn numbers(figure: &super::BodyFigure) -> Vec<(String, Point, f64, f64)> {
    let shapes = figure.scene.marks.iter().map(|mark| &mark.shape);
    shapes
        .filter_map(|shape| match shape {
            Shape::Text { at, text, size, .. }
                if text.starts_with(|first: char| first.is_ascii_digit()) =>
            {
                let letters = f64::from(u32::try_from(text.chars().count()).unwrap());
                // The digits of B612 are 0.61 of their height wide.
                Some((text.clone(), *at, letters * size * 0.61, *size * 0.4))
            }
            _ => None,
        })
        .collect()
}

/// Every number can be read: none lies on another, and none on a mark.
fn all_can_be_read(figure: &super::BodyFigure) {
    let numbers = numbers(figure);
    for (at, (one, place, wide, half)) in numbers.iter().enumerate() {
        for (other, other_place, other_wide, other_half) in &numbers[..at] {
            let across =
                (place.x + wide).min(other_place.x + other_wide) - place.x.max(other_place.x);
            let down = half + other_half - (place.y - other_place.y).abs();
            assert!(across.min(down) < 0.05, "{one} lies on {other}");
        }
        for mark in &figure.places {
            let x = mark.at.x.clamp(place.x, place.x + wide);
            let y = mark.at.y.clamp(place.y - half, place.y + half);
            let inside = mark.reach - mark.at.distance(Point::new(x, y));
            assert!(inside < 0.05, "{one} lies on the mark of {}", mark.gap);
        }
    }
}

#[test]
fn the_numbers_of_gaps_close_together_can_be_read() {
    for (count, apart_m) in [(6, 0.0), (9, 0.0), (12, 0.12), (20, 0.15), (30, 0.11)] {
        all_can_be_read(&drawn(&crowded(count, apart_m)));
    }
    for sample in [
        include_str!("../../../../sample-surveys/farmyard-caravan.ron"),
        include_str!("../../../../sample-surveys/street-panel-van.ron"),
        include_str!("../../../../sample-surveys/forest-integrated.ron"),
        include_str!("../../../../sample-surveys/coastal-coachbuilt.ron"),
    ] {
        let survey = file::parse(sample).unwrap();
        let figure = body(&survey, &assess(&survey), Arrangement::Tall, 176.0, &PLAIN);
        assert_eq!(numbers(&figure).len(), survey.gaps.len());
        all_can_be_read(&figure);
    }
}

/// Whether two lines cross, by the side on which each end lies.
fn cross(a: (Point, Point), b: (Point, Point)) -> bool {
    let side = |from: Point, to: Point, point: Point| {
        (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)
    };
    side(a.0, a.1, b.0) * side(a.0, a.1, b.1) < -1e-9
        && side(b.0, b.1, a.0) * side(b.0, b.1, a.1) < -1e-9
}

#[test]
fn the_lines_to_marks_drawn_apart_do_not_cross() {
    let mut survey = crowded(7, 0.0);
    // Round one place, in an order that the ledger does not follow.
    for (gap, turn) in survey.gaps.iter_mut().zip([0, 3, 6, 2, 5, 1, 4]) {
        let angle = f64::from(turn) * std::f64::consts::TAU / 7.0;
        gap.position.along_m = Some(2.0 + 0.04 * angle.cos());
        gap.position.height_m = Some(1.0 + 0.04 * angle.sin());
    }
    let figure = drawn(&survey);
    let lines: Vec<(Point, Point)> = survey
        .gaps
        .iter()
        .zip(&figure.places)
        .map(|(gap, place)| (figure.layout.place(gap.facing, &gap.position).0, place.at))
        .collect();
    for (at, line) in lines.iter().enumerate() {
        assert!(line.0.distance(line.1) > 0.5, "drawn apart");
        for other in &lines[..at] {
            assert!(!cross(*line, *other), "{lines:?}");
        }
    }
}

#[test]
fn marks_are_small_where_there_are_many() {
    let reach = |count: u32| {
        let mut survey = crowded(count, 0.01);
        for gap in &mut survey.gaps {
            gap.form = Form::RoundHole {
                diameter_mm: Some(90.0),
            };
        }
        drawn(&survey).places[0].reach
    };
    let (few, many) = (reach(9), reach(300));
    assert!(many < 0.7 * few, "{many} {few}");
}

#[test]
fn the_keyboard_reads_the_faces_in_the_order_of_a_walk_round_and_each_from_the_left() {
    let survey = survey();
    let mut order = drawn(&survey).reading_order();
    // Round the vehicle from the front: nearside, rear, offside; underfloor last.
    assert_eq!(order, [1, 2, 3, 4].map(GapId));
    order = drawn(&crowded(4, -0.3)).reading_order();
    assert_eq!(order, [4, 3, 2, 1].map(GapId));
}

#[test]
fn the_selected_gap_is_named_beside_its_mark_and_a_sealed_one_is_struck() {
    let mut survey = survey();
    survey.gaps[1].name = "step well seam".into();
    survey.gaps[1].position.rise_m = Some(0.5);
    survey.gaps[2].state = crate::survey::WorkState::Sealed;
    let show = Show {
        selected: Some(GapId(2)),
        also: &[],
        ..PLAIN
    };
    let answers = assess(&survey);
    let figure = body(&survey, &answers, Arrangement::Tall, 160.0, &show);
    let shapes = || figure.scene.marks.iter().map(|mark| &mark.shape);
    assert!(
        shapes()
            .any(|shape| matches!(shape, Shape::Text { text, .. } if text == "2 step well seam"))
    );
    // The height that it spans, as long as on the vehicle.
    let span = shapes().find_map(|shape| match shape {
        Shape::Polyline {
            points,
            stroke: Stroke {
                role: Role::Selected,
                ..
            },
        } => Some(points[0].distance(points[1])),
        _ => None,
    });
    assert!((span.unwrap() - 0.5 * figure.layout.scale).abs() < 1e-9);
    let fill = |id| {
        let mark = figure.scene.marks.iter().find(|mark| mark.gap == Some(id));
        match mark.map(|mark| &mark.shape) {
            Some(Shape::Circle { fill, .. }) => *fill,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(fill(GapId(3)), None);
    assert_eq!(fill(GapId(2)), Some(Role::Leak));
}

#[test]
fn numbers_may_be_large_enough_for_arm_s_length() {
    let survey = survey();
    let answers = assess(&survey);
    let sizes = |large| {
        let show = Show { large, ..PLAIN };
        let figure = body(&survey, &answers, Arrangement::Tall, 176.0, &show);
        let marks = figure.scene.marks.into_iter();
        let numbers = marks.filter_map(|mark| match mark.shape {
            Shape::Text { text, size, .. } if text.parse::<u32>().is_ok() => Some(size),
            _ => None,
        });
        numbers.collect::<Vec<f64>>()
    };
    let (usual, large) = (sizes(false), sizes(true));
    assert_eq!(usual.len(), large.len());
    assert!(usual.iter().all(|size| *size < 3.0));
    // Letters of 14 points.
    assert!(large.iter().all(|size| *size >= 4.0 && *size < 6.0));
}

#[test]
fn no_two_entries_of_the_legend_look_alike() {
    let entries = super::legend();
    for (at, entry) in entries.iter().enumerate() {
        assert!(!entry.words.is_empty());
        for other in &entries[..at] {
            let plain = |scene: &crate::figure::Scene| scene.marks.clone();
            let same = plain(&entry.scene) == plain(&other.scene);
            // Unintended and measured are the same mark, told twice.
            assert!(!same || entry.words.starts_with("outline: measured"));
        }
    }
}

/// What a face is called stays beside it, however small the drawing is.
#[test]
fn no_caption_runs_out_of_the_drawing_or_into_the_next() {
    for kind in VehicleKind::ALL {
        let survey = Survey::new(kind);
        for width in [90.0, 111.0, 150.0, 300.0] {
            let scene = body(&survey, &assess(&survey), Arrangement::Wide, width, &PLAIN).scene;
            let captions: Vec<(Point, &str, f64)> = scene
                .marks
                .iter()
                .filter_map(|mark| match &mark.shape {
                    Shape::Text { at, text, size, .. }
                        if text.starts_with("roof") || text.starts_with("underfloor") =>
                    {
                        Some((*at, text.as_str(), *size))
                    }
                    _ => None,
                })
                .collect();
            let [(roof, roof_words, size), (floor, floor_words, _)] = captions[..] else {
                panic!("{captions:?}");
            };
            let wide = |words: &str| 0.5 * size * f64::from(u32::try_from(words.len()).unwrap());
            assert!(roof.x + wide(roof_words) < floor.x, "{width}: {roof_words}");
            assert!(
                floor.x + wide(floor_words) < scene.width,
                "{width}: {floor_words}"
            );
            let is_whole = floor_words.contains("above");
            let is_right = match width {
                narrow if narrow < 100.0 => !is_whole,
                wide if wide > 200.0 => is_whole,
                _ => true,
            };
            assert!(is_right, "{kind:?} {width}: {floor_words}");
        }
    }
}
