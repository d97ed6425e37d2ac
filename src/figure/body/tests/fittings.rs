//! Windows, doors and vents lie on their faces and go where they are moved.

use super::{PLAIN, survey};
use crate::assess::assess;
use crate::figure::body::{Arrangement, BodyFigure, Layout, body};
use crate::figure::outline::{Sizes, fittings};
use crate::figure::scene::Point;
use crate::survey::{Facing, Fitting, FittingKind, Survey, VehicleKind};
use proptest::prelude::*;

proptest! {
    /// Every usual fitting lies wholly on its face, whatever the vehicle's sizes.
    #[test]
    fn every_usual_fitting_lies_on_its_face(
        which in 0..5_usize,
        length in 1.5..15.0_f64,
        width in 1.0..3.0_f64,
        height in 1.0..4.5_f64,
        floor in 0.1..1.8_f64,
    ) {
        let mut vehicle = Survey::new(VehicleKind::ALL[which]).vehicle;
        (vehicle.length_m, vehicle.width_m) = (Some(length), Some(width));
        (vehicle.height_m, vehicle.floor_height_m) = (Some(height), Some(floor));
        let sizes = Sizes::of(&vehicle);
        for fitting in fittings::usual(&sizes) {
            let (from, to) = fittings::corners(&fitting.outline);
            let (side, up) = match fitting.outline.facing {
                Facing::Front | Facing::Rear => (sizes.width_m, sizes.height_m),
                Facing::Roof => (sizes.length_m, sizes.width_m),
                _ => (sizes.length_m, sizes.height_m),
            };
            let words = format!("{fitting:?}");
            prop_assert!(from.0 >= -1e-9 && to.0 <= side + 1e-9, "{words}");
            prop_assert!(from.1 >= -1e-9 && to.1 <= up + 1e-9, "{words}");
            prop_assert!(to.0 > from.0 && to.1 > from.1, "{words}");
        }
    }

    /// What a file may say is drawn on the face all the same.
    #[test]
    fn a_fitting_of_absurd_size_and_place_is_drawn_on_its_face(
        along in prop::num::f64::ANY,
        up in prop::num::f64::ANY,
        wide in prop::num::f64::ANY,
        tall in prop::num::f64::ANY,
    ) {
        let mut survey = survey();
        let mut fitting = usual(&survey, FittingKind::Window);
        let outline = &mut fitting.outline;
        (outline.along_m, outline.up_m) = (along, up);
        (outline.width_m, outline.height_m) = (wide, tall);
        survey.fittings = Some(vec![fitting.clone()]);
        let figure = drawn(&survey);
        let (place, face) = (figure.fittings[0].panel, figure.layout.panel(fitting.outline.facing));
        prop_assert!(place.left >= face.left - 1e-9 && place.right <= face.right + 1e-9);
        prop_assert!(place.top >= face.top - 1e-9 && place.bottom <= face.bottom + 1e-9);
    }
}

fn usual(survey: &Survey, kind: FittingKind) -> Fitting {
    let usual = fittings::usual(&Sizes::of(&survey.vehicle));
    usual.into_iter().find(|one| one.kind == kind).unwrap()
}

fn drawn(survey: &Survey) -> BodyFigure {
    body(survey, &assess(survey), Arrangement::Wide, 300.0, &PLAIN)
}

#[test]
fn a_fitting_goes_to_the_point_and_the_face_it_is_moved_to() {
    let survey = survey();
    let layout = Layout::new(&survey.vehicle, Arrangement::Wide, 300.0);
    let window = usual(&survey, FittingKind::Window);
    let to = layout.spot(Facing::Offside, (3.0, 1.8));
    let moved = layout.fitting_moved(&window, to);
    assert_eq!(moved.outline.facing, Facing::Offside);
    assert!((moved.outline.along_m - 3.0).abs() < 0.0051);
    assert!((moved.outline.up_m - 1.8).abs() < 0.0051);
    assert_eq!((moved.id, moved.kind), (window.id, window.kind));
    // Off every face it stays on its own, wholly.
    let panel = layout.panel(window.outline.facing);
    let off = layout.fitting_moved(&window, Point::new(panel.left - 1.0, 1e6));
    assert_eq!(off.outline.facing, window.outline.facing);
    assert!((off.outline.along_m - window.outline.width_m / 2.0).abs() < 1e-9);
}

#[test]
fn a_point_on_a_fitting_means_it_and_of_two_the_smaller() {
    let mut survey = survey();
    let figure = drawn(&survey);
    assert!(figure.fittings.len() >= 8);
    let flap = figure
        .fittings
        .iter()
        .find(|place| usual(&survey, FittingKind::HabitationDoor).id == place.id);
    let (id, panel) = (flap.unwrap().id, flap.unwrap().panel);
    assert_eq!(figure.fitting_at(panel.middle()), Some(id));
    assert_eq!(figure.fitting_at(Point::new(0.5, 0.5)), None);
    let mut list = fittings::usual(&Sizes::of(&survey.vehicle));
    let mut small = usual(&survey, FittingKind::RefrigeratorVent);
    let door = usual(&survey, FittingKind::HabitationDoor).outline;
    small.outline.facing = door.facing;
    (small.outline.along_m, small.outline.up_m) = (door.along_m, door.up_m);
    list.retain(|one| one.id != small.id);
    list.push(small.clone());
    survey.fittings = Some(list);
    assert_eq!(drawn(&survey).fitting_at(panel.middle()), Some(small.id));
    survey.fittings = Some(Vec::new());
    assert!(drawn(&survey).fittings.is_empty());
}

/// A window that the fabric places is drawn once.
#[test]
fn what_the_fabric_places_has_no_usual_fitting_on_it() {
    let text = include_str!("../../../../sample-surveys/farmyard-caravan.ron");
    let survey = crate::survey::file::parse(text).unwrap();
    let shown = fittings::shown(&survey);
    assert!(!shown.is_empty());
    assert!(shown.iter().all(|one| one.kind != FittingKind::Window));
    let mut bare = survey.clone();
    bare.fabric.clear();
    let windows = fittings::shown(&bare);
    assert!(windows.iter().any(|one| one.kind == FittingKind::Window));
}
