//! Gaps that span a height.

use super::super::flow_law::{GapFlow, Gas};
use super::super::network::*;
use super::{OneSpace, Weather, crack, dry_air, near, near_share, opening, power};

fn case(outside: &Gas, inside: &Gas, dynamic_pressure: f64, datum: f64) -> Weather {
    Weather {
        density_out: outside.density,
        density_in: inside.density,
        dynamic_pressure,
        datum,
    }
}

#[test]
fn open_doorway_breathes_in_low_and_out_high() {
    // Worked by hand: 0.5 m wide, 1 m tall, 20 °C inside, 0 °C outside, dry: 0.10559 kg/s,
    // neutral level 0.494 m, 0.0877 m³/s at inside density.
    let (outside, inside) = (dry_air(0.0), dry_air(20.0));
    let doorway = Path::new(&opening(0.5), &outside, &inside, 1.0, 0.0);
    let body = OneSpace {
        paths: vec![doorway],
        ..OneSpace::default()
    };
    let conditions = case(&outside, &inside, 0.0, 0.5);
    let solved = body.solve(&conditions, &[0.0], 0.0).unwrap();
    near(solved.inflow, 0.10559, 5e-6);
    near_share(solved.outflow, solved.inflow, 1e-9);
    near(
        conditions.neutral_level(solved.inside_pressure).unwrap(),
        0.494,
        5e-4,
    );
    near(solved.inflow / inside.density, 0.0877, 5e-5);
    // BS 5925 form [R]: Cd (A/3) √(g h ΔT/T̄) = 0.0846 m³/s with the mean of both densities.
    let bs_5925 = 0.61 * 0.5 / 3.0 * (9.81_f64 * 20.0 / 283.15).sqrt();
    near(bs_5925, 0.0846, 5e-5);
    near_share(
        solved.inflow / (outside.density * inside.density).sqrt(),
        bs_5925,
        1e-3,
    );
    // Both ways at once, as the flows of the path say too.
    let flow = solved.flows[0];
    near_share(flow.forward, 0.10559, 1e-4);
    near_share(flow.back, 0.10559, 1e-4);
}

#[test]
fn leakage_spread_over_the_walls_has_its_closed_form() {
    // Uniform wall leakage [M]: stack flow C (½^(n+1)/(n+1)) (Δρ g H)ⁿ.
    let (outside, inside) = (1.2005, 1.1995);
    let height = 2.1;
    for exponent in [0.5, 0.65, 1.0] {
        let wall = power(0.03, exponent).at(&Gas::REFERENCE);
        let body = OneSpace {
            paths: vec![Path {
                inward: wall,
                outward: wall,
                z_low: 0.4,
                z_high: 0.4 + height,
            }],
            ..OneSpace::default()
        };
        let conditions = Weather {
            density_out: outside,
            density_in: inside,
            dynamic_pressure: 3.0,
            datum: 1.1,
        };
        let solved = body.solve(&conditions, &[0.2], 0.0).unwrap();
        let stack = 0.001 * 9.81 * height;
        let expected =
            0.03 * 0.5_f64.powf(exponent + 1.0) / (exponent + 1.0) * f64::powf(stack, exponent);
        near_share(solved.inflow / 1.2, expected, 1e-3);
    }
}

/// A tall gap against many level slices of it, beside a high chimney that draws.
fn against_slices(gap: &GapFlow, warm_c: f64, coefficient: f64) {
    const SLICES: u32 = 4000;
    let (outside, inside) = (dry_air(2.0), dry_air(warm_c));
    let (low, high) = (0.6, 2.4);
    let vent = Path::new(&opening(20e-4), &outside, &inside, 2.7, 2.7);
    let conditions = case(&outside, &inside, 4.0, 1.5);
    let whole = OneSpace {
        paths: vec![Path::new(gap, &outside, &inside, low, high), vent],
        ..OneSpace::default()
    };
    let expected = whole.solve(&conditions, &[coefficient, -0.1], 0.0).unwrap();
    let share = 1.0 / f64::from(SLICES);
    let slice = gap.times(share).unwrap();
    let mut sliced = OneSpace {
        paths: vec![vent],
        ..OneSpace::default()
    };
    for number in 0..SLICES {
        let z = low + (high - low) * (f64::from(number) + 0.5) * share;
        sliced
            .paths
            .push(Path::new(&slice, &outside, &inside, z, z));
    }
    let mut coefficients = vec![coefficient; sliced.paths.len()];
    coefficients[0] = -0.1;
    let found = sliced.solve(&conditions, &coefficients, 0.0).unwrap();
    near(found.inside_pressure, expected.inside_pressure, 2e-5);
    near_share(found.inflow, expected.inflow, 5e-5);
    near_share(found.outflow, expected.outflow, 5e-5);
    let whole_flow = expected.flows[0];
    let (mut inward, mut outward) = (0.0, 0.0);
    for flow in &found.flows[1..] {
        inward += flow.forward;
        outward += flow.back;
    }
    let scale = expected.inflow;
    near(whole_flow.forward, inward, 1e-4 * scale);
    near(whole_flow.back, outward, 1e-4 * scale);
}

#[test]
fn tall_gap_is_many_slices() {
    let seals = [
        crack(3.6, 1e-3, 30e-3, 0),
        crack(3.6, 4e-3, 30e-3, 0),
        crack(3.6, 4e-3, 30e-3, 1).behind(80e-4).unwrap(),
        opening(60e-4),
        power(4e-3, 0.6),
        power(4e-3, 0.6).behind(50e-4).unwrap(),
    ];
    for seal in &seals {
        for (warm_c, coefficient) in [(22.0, -0.1), (22.0, 0.2), (-8.0, -0.3), (2.5, 0.1)] {
            against_slices(seal, warm_c, coefficient);
        }
    }
}

#[test]
fn tall_gap_with_hardly_any_stack_is_a_level_one() {
    // A span below 1e-6 Pa is taken at mid-height; just above it is integrated: both must agree.
    let flow = |difference: f64| {
        let seal = crack(2.0, 2e-3, 30e-3, 0).at(&Gas::REFERENCE);
        let vent = opening(1e-3).at(&Gas::REFERENCE);
        let body = OneSpace {
            paths: vec![
                Path {
                    inward: seal,
                    outward: seal,
                    z_low: 0.5,
                    z_high: 2.5,
                },
                Path {
                    inward: vent,
                    outward: vent,
                    z_low: 1.0,
                    z_high: 1.0,
                },
            ],
            ..OneSpace::default()
        };
        let conditions = Weather {
            density_out: 1.2 + difference,
            density_in: 1.2,
            dynamic_pressure: 5.0,
            datum: 1.5,
        };
        body.solve(&conditions, &[0.5, -0.5], 0.0).unwrap().inflow
    };
    let level = flow(0.0);
    for difference in [1e-9, 4.9e-8, 5.2e-8, 1e-7, 1e-6] {
        near_share(flow(difference), level, 2.0 * difference + 1e-11);
    }
}
