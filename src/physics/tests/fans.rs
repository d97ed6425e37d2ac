//! Fans that pressure slows: cases with a closed form, limits, and fans with nothing open.

use super::super::network::*;
use super::{HAND_AIR, OneSpace, Weather, near, near_share, opening};

const CALM: Weather = Weather {
    density_out: 1.2,
    density_in: 1.2,
    dynamic_pressure: 0.0,
    datum: 1.0,
};

fn fan(way: FanWay, free_flow: f64, most_pressure: f64) -> Fan {
    Fan {
        space: 0,
        way,
        free_flow,
        most_pressure,
    }
}

fn with_hole(area: f64, fans: Vec<Fan>) -> OneSpace {
    OneSpace {
        paths: vec![Path::new(&opening(area), &HAND_AIR, &HAND_AIR, 1.0, 1.0)],
        fans,
        ..OneSpace::default()
    }
}

/// The flow falls in a straight line to nothing at 60 Pa, never above the free flow and never
/// below nothing (the form this project assumes [A]).
#[test]
fn a_fan_follows_its_straight_line() {
    let extract = fan(FanWay::Extract, 0.5, 60.0);
    let at = |pressure: f64| extract.at(pressure).flow;
    let points = [
        (10.0, 0.5),
        (0.0, 0.5),
        (-15.0, 0.375),
        (-30.0, 0.25),
        (-60.0, 0.0),
        (-80.0, 0.0),
    ];
    for (pressure, flow) in points {
        near(at(pressure), flow, 1e-15);
    }
    let supply = fan(FanWay::Supply, 0.5, 60.0);
    for (pressure, flow) in points {
        near(supply.at(-pressure).flow, flow, 1e-15);
    }
}

/// One hole and one fan: `ρ/2 (Q/(Cd A))² = Δp` and `Q = Q₀ (1 − Δp/Δp_max)` give a quadratic,
/// `c Q² + (Δp_max/Q₀) Q − Δp_max = 0` with `c = ρ/(2 Cd² A²)`, solved here by its formula. A fan of
/// 1 500 m³/h through 4 cm²: 8.7 m³/h at 59.7 Pa, where a flow held fast would ask for 1.8 MPa.
#[test]
fn a_strong_fan_through_a_small_hole_is_held_by_its_own_pressure() {
    for (area, free) in [(4e-4, 1500.0 / 3600.0), (0.01, 0.02), (0.05, 0.1)] {
        let c: f64 = 1.2 / (2.0 * (0.61_f64 * area).powi(2));
        let slope = 60.0 / free;
        let exact = (-slope + (slope * slope + 4.0 * c * 60.0).sqrt()) / (2.0 * c);
        for way in [FanWay::Supply, FanWay::Extract] {
            let solved = with_hole(area, vec![fan(way, 1.2 * free, 60.0)])
                .solve(&CALM, &[0.0], 0.0)
                .unwrap();
            near_share(solved.inflow, 1.2 * exact, 1e-10);
            near_share(solved.inside_pressure.abs(), c * exact * exact, 1e-10);
            assert_eq!(solved.inside_pressure > 0.0, way == FanWay::Supply);
        }
    }
    let strong = fan(FanWay::Extract, 1.2 * 1500.0 / 3600.0, 60.0);
    let solved = with_hole(4e-4, vec![strong])
        .solve(&CALM, &[0.0], 0.0)
        .unwrap();
    near(solved.inflow / 1.2 * 3600.0, 8.7, 0.1);
    near(solved.inside_pressure, -59.65, 0.05);
}

/// Nothing open: an extract fan lowers the inside to the pressure that stops it, a supply fan
/// raises it, and of two against each other `Q₁(1 − p/60) = Q₂` where the second has no pressure
/// to work against.
#[test]
fn fans_with_nothing_open_come_to_a_stop() {
    let alone = |fans| OneSpace {
        fans,
        ..OneSpace::default()
    };
    let extract = fan(FanWay::Extract, 0.02, 60.0);
    let solved = alone(vec![extract]).solve(&CALM, &[], 0.0).unwrap();
    near(solved.inside_pressure, -60.0, 1e-6);
    near(solved.inflow, 0.0, 1e-9);
    near(solved.outflow, 0.0, 1e-9);
    let supply = fan(FanWay::Supply, 0.05, 60.0);
    let solved = alone(vec![supply]).solve(&CALM, &[], 0.0).unwrap();
    near(solved.inside_pressure, 60.0, 1e-6);
    let solved = alone(vec![supply, extract]).solve(&CALM, &[], 0.0).unwrap();
    near(solved.inside_pressure, 60.0 * (1.0 - 0.02 / 0.05), 1e-9);
    near(solved.inflow, 0.02, 1e-12);
}

/// The same two in two spaces joined by a doorway, by the search for several spaces.
#[test]
fn fans_of_two_sealed_spaces_work_against_each_other() {
    let mut two = Network {
        outside: HAND_AIR,
        datum: 1.0,
        spaces: vec![Space { gas: HAND_AIR }; 2],
        outer: vec![],
        inner: vec![InnerOpening {
            from: 0,
            to: 1,
            path: Path::new(&opening(1.0), &HAND_AIR, &HAND_AIR, 1.0, 1.0),
        }],
        fans: vec![
            fan(FanWay::Supply, 0.05, 60.0),
            Fan {
                space: 1,
                ..fan(FanWay::Extract, 0.02, 60.0)
            },
        ],
    };
    let mut workspace = Workspace::default();
    let solved = two.solve(0.0, &[], &mut workspace).unwrap();
    near(workspace.pressures()[0], 36.0, 1e-6);
    near(solved.inflow, 0.02, 1e-9);
    near(workspace.inner_flows()[0].forward, 0.02, 1e-9);
    two.fans.truncate(1);
    let solved = two.solve(0.0, &[], &mut workspace).unwrap();
    near(workspace.pressures()[1], 60.0, 1e-6);
    near(solved.inflow, 0.0, 1e-9);
    // A fan that moves its flow whatever the pressure has nowhere to put it.
    two.fans = vec![
        fan(FanWay::Supply, 0.05, f64::INFINITY),
        fan(FanWay::Extract, 0.02, 60.0),
    ];
    assert_eq!(
        two.solve(0.0, &[], &mut workspace),
        Err(NetworkError::NoOpening)
    );
}

#[test]
fn fans_that_cannot_be_are_refused() {
    for (free_flow, most_pressure) in [(-0.1, 60.0), (f64::NAN, 60.0), (0.1, 0.0), (0.1, f64::NAN)]
    {
        let body = with_hole(0.01, vec![fan(FanWay::Supply, free_flow, most_pressure)]);
        assert_eq!(body.solve(&CALM, &[0.0], 0.0), Err(NetworkError::NotFinite));
    }
    let elsewhere = Fan {
        space: 1,
        ..fan(FanWay::Supply, 0.1, 60.0)
    };
    let body = with_hole(0.01, vec![elsewhere]);
    assert_eq!(
        body.solve(&CALM, &[0.0], 0.0),
        Err(NetworkError::NoSuchSpace)
    );
}
