//! The drawing holds every gap, and a click on a mark means that gap.

use super::{Arrangement, Layout, Show, body};
use crate::assess::assess;
use crate::figure::scene::{Role, Shape};
use crate::survey::gap::{Certainty, Facing, Form, Gap, Position};
use crate::survey::{GapId, Survey, VehicleKind, ZoneId};

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
    direction: None,
    numbers: true,
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
