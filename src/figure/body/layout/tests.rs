//! Places on the drawing, there and back.

use super::*;
use crate::survey::{Survey, VehicleKind};
use proptest::prelude::*;

fn layout(arrangement: Arrangement) -> Layout {
    let mut vehicle = Survey::new(VehicleKind::TouringCaravan).vehicle;
    vehicle.length_m = Some(5.6);
    vehicle.width_m = Some(2.1);
    vehicle.height_m = Some(2.55);
    vehicle.floor_height_m = Some(0.5);
    Layout::new(&vehicle, arrangement, 300.0)
}

#[test]
fn the_drawing_is_as_wide_as_asked() {
    for arrangement in Arrangement::ALL {
        assert!((layout(arrangement).size().0 - 300.0).abs() < 1e-9);
    }
}

#[test]
fn nearside_is_left_seen_facing_forward() {
    // The front is to the left of the roof, so the left-hand side is at the bottom.
    let layout = layout(Arrangement::Wide);
    let at = |across_m| Position {
        across_m: Some(across_m),
        ..Position::default()
    };
    let (near, _) = layout.place(Facing::Roof, &at(0.1));
    let (off, _) = layout.place(Facing::Roof, &at(2.0));
    assert!(near.y > off.y);
    // Seen from in front the nearside is to the right, from behind to the left.
    let x = |facing| {
        (
            layout.place(facing, &at(0.1)).0.x,
            layout.place(facing, &at(2.0)).0.x,
        )
    };
    let (near, off) = x(Facing::Front);
    assert!(near > off);
    let (near, off) = x(Facing::Rear);
    assert!(near < off);
}

#[test]
fn up_is_up_on_every_side_and_the_front_where_one_standing_there_sees_it() {
    for arrangement in Arrangement::ALL {
        let layout = layout(arrangement);
        for facing in SIDES {
            let (low, high) = (
                layout.spot(facing, (1.0, 0.5)),
                layout.spot(facing, (1.0, 2.0)),
            );
            assert!((low.x - high.x).abs() < 1e-9, "{facing:?}");
            assert!(
                (low.y - high.y - 1.5 * layout.scale).abs() < 1e-9,
                "{facing:?}"
            );
        }
        let forward =
            |facing| layout.spot(facing, (0.0, 1.0)).x < layout.spot(facing, (4.0, 1.0)).x;
        assert!(forward(Facing::Nearside) && !forward(Facing::Offside));
        assert!(forward(Facing::Roof) && forward(Facing::Underfloor));
    }
}

#[test]
fn no_two_faces_overlap_and_all_lie_on_the_drawing() {
    for arrangement in Arrangement::ALL {
        let layout = layout(arrangement);
        let (width, height) = layout.size();
        for face in FACES {
            let panel = layout.panel(face);
            assert!(panel.left >= MARGIN - 1e-9 && panel.right <= width - MARGIN + 1e-9);
            assert!(panel.top >= ABOVE - 1e-9 && panel.bottom <= height - BELOW + 1e-9);
        }
        for (at, one) in FACES.iter().enumerate() {
            for other in &FACES[at + 1..] {
                let (a, b) = (layout.panel(*one), layout.panel(*other));
                let apart = a.right <= b.left + 1e-9
                    || b.right <= a.left + 1e-9
                    || a.bottom <= b.top + 1e-9
                    || b.bottom <= a.top + 1e-9;
                assert!(apart, "{one:?} {other:?}");
            }
        }
    }
}

proptest! {
    /// A vehicle of any sizes has its faces beside each other and on the drawing.
    #[test]
    fn faces_of_any_sizes_lie_beside_each_other(
        which in 0..5_usize,
        arrangement in 0..3_usize,
        length in 1.5..15.0_f64,
        width in 1.0..3.0_f64,
        height in 1.0..4.5_f64,
        floor in 0.1..1.8_f64,
    ) {
        let mut vehicle = Survey::new(VehicleKind::ALL[which]).vehicle;
        (vehicle.length_m, vehicle.width_m) = (Some(length), Some(width));
        (vehicle.height_m, vehicle.floor_height_m) = (Some(height), Some(floor));
        let layout = Layout::new(&vehicle, Arrangement::ALL[arrangement], 300.0);
        let (wide, tall) = layout.size();
        for (at, one) in FACES.iter().enumerate() {
            let a = layout.panel(*one);
            prop_assert!(a.left >= 0.0 && a.top >= 0.0 && a.right <= wide + 1e-9 && a.bottom <= tall + 1e-9);
            for other in &FACES[at + 1..] {
                let b = layout.panel(*other);
                let apart = a.right <= b.left + 1e-9
                    || b.right <= a.left + 1e-9
                    || a.bottom <= b.top + 1e-9
                    || b.bottom <= a.top + 1e-9;
                prop_assert!(apart, "{one:?} {other:?}");
            }
        }
    }

    /// What is drawn at a place is picked at that place, within the rounding to 1 cm.
    #[test]
    fn place_and_pick_agree(
        which in 0..6_usize,
        along in 0.01..5.59_f64,
        across in 0.01..2.09_f64,
        height in 0.01..2.54_f64,
        arrangement in 0..3_usize,
    ) {
        let layout = layout(Arrangement::ALL[arrangement]);
        let facing = Facing::ALL[which];
        let position = Position {
            along_m: Some(along),
            across_m: Some(across),
            height_m: Some(height),
            rise_m: None,
        };
        let (point, complete) = layout.place(facing, &position);
        prop_assert!(complete);
        let picked = layout.pick(point).unwrap();
        prop_assert_eq!(picked.facing, facing);
        let near = |value: Option<f64>, expected: f64| {
            value.is_none_or(|value| (value - expected).abs() <= 0.005 + 1e-9)
        };
        prop_assert!(near(picked.position.along_m, along));
        prop_assert!(near(picked.position.across_m, across));
        if !matches!(facing, Facing::Roof | Facing::Underfloor) {
            prop_assert!(near(picked.position.height_m, height));
        }
    }
}
