//! Long gaps are lines along their seal, as long as the seal is.

use super::{PLAIN, survey};
use crate::assess::assess;
use crate::figure::body::{Arrangement, BodyFigure, Show, body};
use crate::figure::outline::{Sizes, fittings};
use crate::figure::scene::{Point, Role, Shape};
use crate::survey::gap::{Facing, Form, Gap, Position, Purpose};
use crate::survey::{FittingKind, GapId, Survey, WorkState, ZoneId};
use proptest::prelude::*;

fn seal(facing: Facing, length_m: f64, (along, across, height): (f64, f64, f64)) -> Gap {
    let form = Form::NarrowGap {
        length_mm: Some(length_m * 1000.0),
        width_mm: Some(1.0),
        depth_mm: Some(20.0),
        bends: 0,
    };
    let mut gap = Gap::new(GapId(1), ZoneId(1), facing, form);
    gap.position = Position {
        along_m: Some(along),
        across_m: Some(across),
        height_m: Some(height),
        rise_m: None,
    };
    gap
}

/// A vehicle 6.5 m long, 2.3 m wide and 2.9 m high with just these gaps, and nothing at whose edge
/// they could be.
fn with(gaps: Vec<Gap>) -> Survey {
    let mut survey = survey();
    survey.fittings = Some(Vec::new());
    survey.gaps = gaps;
    survey
}

fn drawn(survey: &Survey) -> BodyFigure {
    body(survey, &assess(survey), Arrangement::Square, 300.0, &PLAIN)
}

fn long(path: &[Point]) -> f64 {
    let ends = path.iter().zip(&path[1..]);
    ends.map(|(from, to)| from.distance(*to)).sum()
}

proptest! {
    /// As long as the seal, to scale, and on its face, wherever its middle is and whatever it spans.
    #[test]
    fn a_line_is_as_long_as_its_seal_and_stays_on_its_face(
        which in 0..6_usize,
        length in 0.6..2.2_f64,
        along in 0.0..6.5_f64,
        across in 0.0..2.3_f64,
        height in 0.1..2.9_f64,
        rise in prop::option::of(0.05..2.2_f64),
    ) {
        let facing = Facing::ALL[which];
        let mut gap = seal(facing, length, (along, across, height));
        gap.position.rise_m = rise;
        let figure = drawn(&with(vec![gap]));
        let path = &figure.places[0].path;
        let expected = length * figure.layout.scale;
        prop_assert!((long(path) - expected).abs() < 1e-6, "{} for {expected}", long(path));
        let panel = figure.layout.panel(facing);
        for point in path {
            let inside = (panel.left - 1e-6..=panel.right + 1e-6).contains(&point.x)
                && (panel.top - 1e-6..=panel.bottom + 1e-6).contains(&point.y);
            prop_assert!(inside, "{point:?} off {panel:?}");
        }
    }
}

#[test]
fn a_seal_at_a_door_runs_along_the_edge_of_the_door() {
    let mut survey = survey();
    let usual = fittings::usual(&Sizes::of(&survey.vehicle));
    let door = usual
        .iter()
        .find(|one| one.kind == FittingKind::HabitationDoor);
    let door = door.unwrap().outline;
    for length in [1.2, 2.0 * (door.width_m + door.height_m)] {
        let edge = door.along_m - door.width_m / 2.0;
        let place = (edge + 0.03, 0.0, door.up_m);
        survey.gaps = vec![seal(Facing::Nearside, length, place)];
        let figure = drawn(&survey);
        let path = &figure.places[0].path;
        assert!((long(path) - length * figure.layout.scale).abs() < 1e-6);
        for point in path {
            let (side, up) = figure.layout.spot_at(Facing::Nearside, *point);
            let (x, y) = ((side - door.along_m).abs(), (up - door.up_m).abs());
            let (wide, tall) = (door.width_m / 2.0, door.height_m / 2.0);
            let on_edge = (x - wide).abs() < 1e-6 && y <= tall + 1e-6
                || (y - tall).abs() < 1e-6 && x <= wide + 1e-6;
            assert!(on_edge, "{side} {up}");
        }
    }
}

#[test]
fn a_click_anywhere_on_a_line_means_its_gap_and_beside_it_none() {
    let mut short = seal(Facing::Nearside, 2.0, (3.0, 0.0, 2.2));
    short.id = GapId(2);
    let survey = with(vec![seal(Facing::Nearside, 2.0, (3.0, 0.0, 1.4)), short]);
    let figure = drawn(&survey);
    for place in &figure.places {
        let (from, to) = (place.path[0], place.path[1]);
        for share in [0.02, 0.3, 0.97] {
            let x = from.x + share * (to.x - from.x);
            let at = Point::new(x, from.y + 0.1);
            assert_eq!(figure.gaps_at(at, 0.5), [place.gap]);
            assert_eq!(figure.scene.gap_at(at, 0.5), Some(place.gap));
            let beside = Point::new(x, from.y + 6.0);
            assert!(figure.gaps_at(beside, 0.5).is_empty());
        }
    }
}

#[test]
fn short_gaps_and_those_without_a_place_stay_marks() {
    let mut unplaced = seal(Facing::Nearside, 2.0, (3.0, 0.0, 1.4));
    unplaced.position.height_m = None;
    let short = seal(Facing::Nearside, 0.05, (3.0, 0.0, 1.4));
    for gap in [unplaced, short] {
        assert!(drawn(&with(vec![gap])).places[0].path.is_empty());
    }
}

/// The lines of a drawing that stand for gaps: colour and breadth.
fn lines(figure: &BodyFigure) -> Vec<(Role, f64)> {
    let marks = figure.scene.marks.iter().filter(|mark| mark.gap.is_some());
    marks
        .filter_map(|mark| match &mark.shape {
            Shape::Polyline { stroke, .. } => Some((stroke.role, stroke.width)),
            _ => None,
        })
        .collect()
}

#[test]
fn a_line_is_broader_the_more_leaks_and_thin_once_sealed() {
    let mut wide = seal(Facing::Nearside, 2.0, (3.0, 0.0, 1.4));
    let narrow = drawn(&with(vec![wide.clone()]));
    if let Form::NarrowGap { width_mm, .. } = &mut wide.form {
        *width_mm = Some(4.0);
    }
    let broad = drawn(&with(vec![wide.clone()]));
    let [(role, thin)] = lines(&narrow)[..] else {
        panic!("one line");
    };
    assert_eq!(role, Role::Leak);
    assert!(lines(&broad)[0].1 > 1.5 * thin);
    wide.state = WorkState::Sealed;
    let sealed = drawn(&with(vec![wide.clone()]));
    assert_eq!(lines(&sealed)[0].0, Role::Ink);
    assert!(lines(&sealed)[0].1 < thin);
    // One that protects people keeps the sign of its purpose on it.
    wide.purpose = Purpose::SafetyVentilation;
    let signs = |survey: &Survey| {
        let figure = drawn(survey);
        let marks = figure.scene.marks.iter().filter(|mark| mark.gap.is_some());
        marks
            .filter(|mark| matches!(mark.shape, Shape::Polygon { .. }))
            .count()
    };
    assert_eq!(signs(&with(vec![wide.clone()])), 1);
    wide.purpose = Purpose::Unintended;
    assert_eq!(signs(&with(vec![wide])), 0);
}

/// While a mark is dragged no number looks for another place.
#[test]
fn numbers_stay_beside_their_marks_while_one_is_moved() {
    let mut survey = with(
        (0..12)
            .map(|number| {
                let mut gap = seal(
                    Facing::Nearside,
                    0.8,
                    (1.0 + 0.4 * f64::from(number), 0.0, 1.2),
                );
                gap.id = GapId(number + 1);
                gap
            })
            .collect(),
    );
    let before = drawn(&survey);
    survey.gaps[3].position.height_m = Some(2.0);
    let answers = assess(&survey);
    let show = Show {
        before: Some(&before.labels),
        ..PLAIN
    };
    let after = body(&survey, &answers, Arrangement::Square, 300.0, &show);
    for label in &before.labels {
        assert!(after.labels.contains(label), "{label:?}");
    }
    let texts = |figure: &BodyFigure| {
        figure
            .scene
            .marks
            .iter()
            .filter(|mark| matches!(mark.shape, Shape::Text { .. }))
            .count()
    };
    assert_eq!(texts(&before), texts(&after));
    // Let go, they look for room again.
    let settled = drawn(&survey);
    assert_ne!(settled.labels, before.labels);
}
