//! Every kind is drawn inside its faces, whatever its sizes.

use super::*;
use crate::survey::Vehicle;
use proptest::prelude::*;

fn vehicle(kind: VehicleKind, [length, width, height, floor]: [f64; 4]) -> Vehicle {
    let mut vehicle = Survey::new(kind).vehicle;
    (vehicle.length_m, vehicle.width_m) = (Some(length), Some(width));
    (vehicle.height_m, vehicle.floor_height_m) = (Some(height), Some(floor));
    vehicle
}

/// The smallest and largest of both co-ordinates.
fn bounds(pieces: &[Piece]) -> [f64; 4] {
    let mut bounds = [f64::MAX, f64::MIN, f64::MAX, f64::MIN];
    let mut hold = |(side, up): Spot, reach: f64| {
        bounds[0] = bounds[0].min(side - reach);
        bounds[1] = bounds[1].max(side + reach);
        bounds[2] = bounds[2].min(up - reach);
        bounds[3] = bounds[3].max(up + reach);
    };
    for piece in pieces {
        match &piece.form {
            Form::Area(points) | Form::Line(points) => {
                points.iter().for_each(|point| hold(*point, 0.0));
            }
            Form::Disc(middle, radius) => hold(*middle, *radius),
        }
    }
    bounds
}

proptest! {
    #[test]
    fn every_outline_stays_inside_its_face_for_any_sizes(
        which in 0..5_usize,
        length in 1.5..15.0_f64,
        width in 1.0..3.0_f64,
        height in 1.0..4.5_f64,
        floor in 0.1..1.8_f64,
    ) {
        let kind = VehicleKind::ALL[which];
        let sizes = Sizes::of(&vehicle(kind, [length, width, height, floor]));
        let bar = sizes.drawbar_m();
        let (long, wide, tall) = (sizes.length_m, sizes.width_m, sizes.height_m);
        for (name, pieces, held) in [
            ("side", flank(&sizes), [-bar, long, 0.0, tall]),
            ("front", front(&sizes), [0.0, wide, 0.0, tall]),
            ("rear", rear(&sizes), [0.0, wide, 0.0, tall]),
            ("roof", roof(&sizes), [-bar, long, 0.0, wide]),
            ("underfloor", underfloor(&sizes), [-bar, long, 0.0, wide]),
        ] {
            let [left, right, low, high] = bounds(&pieces);
            let slack = 1e-9;
            prop_assert!(left >= held[0] - slack && right <= held[1] + slack, "{name}: {left} to {right}");
            prop_assert!(low >= held[2] - slack && high <= held[3] + slack, "{name}: {low} to {high}");
        }
    }
}

/// The body itself reaches from one end of the vehicle to the other, and to its roof.
#[test]
fn the_body_of_every_kind_is_as_long_wide_and_high_as_the_vehicle() {
    for kind in VehicleKind::ALL {
        let sizes = Sizes::of(&vehicle(kind, [6.2, 2.2, 2.8, 0.6]));
        let hull = |pieces: Vec<Piece>| {
            let hulls = pieces.into_iter().filter(|piece| piece.look == Look::Hull);
            bounds(&hulls.collect::<Vec<_>>())
        };
        let near = |value: f64, expected: f64| {
            assert!(
                (value - expected).abs() < 0.05,
                "{kind:?}: {value} {expected}"
            )
        };
        let [left, right, _, high] = hull(flank(&sizes));
        near(left, 0.0);
        near(right, 6.2);
        near(high, 2.8);
        for pieces in [front(&sizes), rear(&sizes)] {
            let [left, right, _, high] = hull(pieces);
            near(left, 0.0);
            near(right, 2.2);
            near(high, 2.8);
        }
        let [left, right, low, high] = hull(roof(&sizes));
        near(left, 0.0);
        near(right, 6.2);
        near(low, 0.0);
        near(high, 2.2);
    }
}

/// Texts of a scene.
fn texts(scene: &Scene) -> Vec<String> {
    let shapes = scene.marks.iter().map(|mark| &mark.shape);
    shapes
        .filter_map(|shape| match shape {
            Shape::Text { text, .. } => Some(text.replace('\u{a0}', " ")),
            _ => None,
        })
        .collect()
}

const ALL: SideShow = SideShow {
    dimensions: true,
    front: true,
};

#[test]
fn the_dimensions_are_those_of_the_vehicle_and_missing_ones_say_so() {
    let mut survey = Survey::new(VehicleKind::PanelVan);
    survey.vehicle = vehicle(VehicleKind::PanelVan, [5.72, 2.11, 2.63, 0.58]);
    let figure = side(&survey, ALL, 200.0);
    assert_eq!(
        texts(&figure.scene),
        ["5.72 m", "2.63 m", "0.58 m", "2.11 m"]
    );
    assert!((figure.scene.width - 200.0).abs() < 1e-9);
    // To scale: the roof is 2.63 m above the ground of the drawing.
    let tall = figure.at(0.0, 0.0).y - figure.at(0.0, 2.63).y;
    assert!((tall - 2.63 * figure.scale).abs() < 1e-9);
    (survey.vehicle.length_m, survey.vehicle.floor_height_m) = (None, None);
    let figure = side(&survey, ALL, 200.0);
    assert_eq!(
        texts(&figure.scene),
        ["length ?", "2.63 m", "floor ?", "2.11 m"]
    );
    assert!(figure.scene.description.contains("length not recorded"));
    // The body is only a usual one: no unbroken edge.
    let unbroken = |shape: &Shape| matches!(shape, Shape::Polygon { fill: Some(Role::Body), outline: Some(stroke), .. } if stroke.role == Role::Ink);
    let count = |survey: &Survey| {
        let side_alone = side(survey, SideShow::default(), 100.0).scene;
        side_alone
            .marks
            .iter()
            .filter(|mark| unbroken(&mark.shape))
            .count()
    };
    assert_eq!(count(&survey), 0);
    survey.vehicle.length_m = Some(5.72);
    assert_eq!(count(&survey), 1);
}

/// Every point of a scene lies on its paper.
fn lies_on_paper(scene: &Scene) {
    let inside = |point: &Point| {
        (-1e-6..=scene.width + 1e-6).contains(&point.x)
            && (-1e-6..=scene.height + 1e-6).contains(&point.y)
    };
    for mark in &scene.marks {
        let points = match &mark.shape {
            Shape::Polyline { points, .. } | Shape::Polygon { points, .. } => points.clone(),
            Shape::Circle { centre, .. } => vec![*centre],
            Shape::Arrow { from, to, .. } => vec![*from, *to],
            // Letters are 0.61 of their height wide.
            Shape::Text {
                at,
                text,
                size,
                anchor,
                ..
            } => {
                let letters = u32::try_from(text.chars().count()).unwrap();
                let wide = 0.61 * size * f64::from(letters);
                let left = match anchor {
                    crate::figure::Anchor::Left => at.x,
                    crate::figure::Anchor::Middle => at.x - wide / 2.0,
                    crate::figure::Anchor::Right => at.x - wide,
                };
                vec![Point::new(left, at.y), Point::new(left + wide, at.y)]
            }
        };
        assert!(points.iter().all(inside), "{:?}", mark.shape);
    }
}

#[test]
fn nothing_of_a_side_view_lies_off_its_paper() {
    for kind in VehicleKind::ALL {
        let mut survey = Survey::new(kind);
        for recorded in [true, false] {
            if recorded {
                survey.vehicle = vehicle(kind, [11.25, 2.55, 3.35, 0.95]);
            } else {
                survey.vehicle = Survey::new(kind).vehicle;
            }
            for width in [90.0, 240.0] {
                for dimensions in [true, false] {
                    for front in [true, false] {
                        let show = SideShow { dimensions, front };
                        lies_on_paper(&side(&survey, show, width).scene);
                    }
                }
            }
        }
        lies_on_paper(&small(kind, (14.0, 7.0)));
    }
}

#[test]
fn no_two_kinds_look_alike() {
    for (at, one) in VehicleKind::ALL.into_iter().enumerate() {
        assert!(texts(&small(one, (14.0, 7.0))).is_empty());
        for other in &VehicleKind::ALL[..at] {
            let same = [one, *other].map(|kind| vehicle(kind, [6.0, 2.2, 2.7, 0.6]));
            let [a, b] = same.map(|vehicle| flank(&Sizes::of(&vehicle)).len());
            let [small_a, small_b] = [one, *other].map(|kind| small(kind, (14.0, 7.0)).marks);
            assert!(a != b || small_a != small_b, "{one:?} {other:?}");
            assert_ne!(small_a, small_b);
        }
    }
}
