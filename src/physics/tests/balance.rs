//! The balance against closed forms and a published network.

use super::super::flow_law::Gas;
use super::super::network::*;
use super::{Found, HAND_AIR, OneSpace, Weather, dry_air, near, near_share, opening, power};

/// Two openings, the lower at 0.5 m and the other 2 m above it, 20 °C inside and 0 °C outside.
fn stack(lower_area: f64, upper_area: f64) -> (Found, Weather) {
    let (outside, inside) = (dry_air(0.0), dry_air(20.0));
    let at = |area, z| Path::new(&opening(area), &outside, &inside, z, z);
    let body = OneSpace {
        paths: vec![at(lower_area, 0.5), at(upper_area, 2.5)],
        ..OneSpace::default()
    };
    let conditions = Weather {
        density_out: outside.density,
        density_in: inside.density,
        dynamic_pressure: 0.0,
        datum: 1.5,
    };
    (
        body.solve(&conditions, &[0.0, 0.0], 0.0).unwrap(),
        conditions,
    )
}

#[test]
fn stack_through_two_openings_has_its_closed_form() {
    // Exact: m = Cd √(2(ρ_o−ρ_i) g H)/√(1/(A₁²ρ_o) + 1/(A₂²ρ_i)); neutral level
    // H/[1+(A₁/A₂)²(T_i/T_o)] above the lower opening (API RP 500 form [S]).
    for (lower, upper, flow, level) in [
        (0.01, 0.01, 0.008_958, 0.9647),
        (0.02, 0.005, 0.006_052, 0.1101),
    ] {
        let (solved, conditions) = stack(lower, upper);
        near(solved.inflow, flow, 5e-7);
        near_share(solved.outflow, solved.inflow, 1e-9);
        let neutral = conditions.neutral_level(solved.inside_pressure).unwrap() - 0.5;
        near(neutral, level, 5e-5);
        near_share(
            neutral,
            2.0 / (1.0 + (lower / upper).powi(2) * 293.15 / 273.15),
            1e-9,
        );
    }
}

#[test]
fn datum_only_moves_the_pressure_stated() {
    let (outside, inside) = (dry_air(0.0), dry_air(20.0));
    let at = |area, z| Path::new(&opening(area), &outside, &inside, z, z);
    let body = OneSpace {
        paths: vec![at(0.01, 0.4), at(0.02, 2.2)],
        ..OneSpace::default()
    };
    let solve = |datum| {
        let conditions = Weather {
            density_out: outside.density,
            density_in: inside.density,
            dynamic_pressure: 6.0,
            datum,
        };
        body.solve(&conditions, &[0.1, -0.2], 0.0).unwrap()
    };
    let (low, high) = (solve(0.0), solve(1.5));
    near_share(low.inflow, high.inflow, 1e-10);
    let column = (outside.density - inside.density) * 9.81 * 1.5;
    // Inside air is lighter and loses less pressure with height than outside air.
    near(high.inside_pressure - low.inside_pressure, column, 1e-9);
}

#[test]
fn cross_wind_has_its_closed_form() {
    // BS 5925 closed form [R]: 100/200 cm², ΔCp 0.9, 4 m/s, ρ 1.2: 20.70 L/s.
    let at = |area| Path::new(&opening(area), &HAND_AIR, &HAND_AIR, 1.2, 1.2);
    let body = OneSpace {
        paths: vec![at(0.01), at(0.02)],
        ..OneSpace::default()
    };
    let conditions = Weather {
        density_out: 1.2,
        density_in: 1.2,
        dynamic_pressure: 9.6,
        datum: 1.2,
    };
    for start in [-1e6, 0.0, 5.0, 1e6] {
        let solved = body.solve(&conditions, &[0.5, -0.4], start).unwrap();
        near(solved.inflow / 1.2 * 1e3, 20.70, 5e-3);
        // The wider opening takes A₁²/(A₁² + A₂²) = 1/5 of the pressure.
        near(solved.inside_pressure, 9.6 * (-0.4 + 0.9 / 5.0), 1e-9);
    }
    // Wind from the other side: the same air the other way.
    let solved = body.solve(&conditions, &[-0.4, 0.5], 0.0).unwrap();
    near(solved.inflow / 1.2 * 1e3, 20.70, 5e-3);
    let flows = &solved.flows;
    near_share(flows[0].back, solved.outflow, 1e-12);
    near(flows[0].forward, 0.0, 0.0);
    near_share(flows[1].net(), solved.inflow, 1e-12);
}

#[test]
fn published_network_is_met() {
    // C. Ghiaus, Dynamic Models for Building Energy Management, tutorial A05 [S]: two openings
    // on each of N and S at 0.5 m, each 10 m³/(h Pa^0.64); chimney at 8.5 m, 50 m³/(h Pa^0.5);
    // ρ_o 1.315, ρ_i 1.191, datum 0.5 m. The book takes g = 9.8: heights are scaled to suit.
    const BOOK_GRAVITY: f64 = 9.8 / 9.81;
    let window = power(10.0 / 3600.0, 0.64)
        .times(2.0)
        .unwrap()
        .at(&Gas::REFERENCE);
    let chimney = power(50.0 / 3600.0, 0.5).at(&Gas::REFERENCE);
    let top = 0.5 + 8.0 * BOOK_GRAVITY;
    let level = |curve, z| Path {
        inward: curve,
        outward: curve,
        z_low: z,
        z_high: z,
    };
    let body = OneSpace {
        paths: vec![level(window, 0.5), level(window, 0.5), level(chimney, top)],
        ..OneSpace::default()
    };
    let coefficients = [0.4, -0.55, -0.7];
    let solve = |speed: f64| {
        let conditions = Weather {
            density_out: 1.315,
            density_in: 1.191,
            dynamic_pressure: 0.5 * 1.315 * speed * speed,
            datum: 0.5,
        };
        let solved = body.solve(&conditions, &coefficients, 0.0).unwrap();
        let flows: Vec<f64> = solved.flows.iter().map(OpeningFlow::net).collect();
        (solved, flows)
    };
    let (calm, flows) = solve(0.0);
    near(calm.inside_pressure, -4.45, 6e-3);
    for (flow, expected) in flows.iter().zip([0.019, 0.019, -0.038]) {
        near(*flow, expected, 6e-4);
    }
    let (windy, flows) = solve(5.0);
    near(windy.inside_pressure, -10.50, 6e-3);
    for (flow, expected) in flows.iter().zip([0.045, 0.009, -0.054]) {
        near(*flow, expected, 6e-4);
    }
}

#[test]
fn extract_fan_draws_the_pressure_worked_by_hand() {
    // 0.012 kg/s through two openings of 100 cm², ρ 1.2: p_i −0.4031 Pa.
    let at = || Path::new(&opening(0.01), &HAND_AIR, &HAND_AIR, 1.0, 1.0);
    let mut body = OneSpace {
        paths: vec![at(), at()],
        extract: 0.012,
        ..OneSpace::default()
    };
    let conditions = Weather {
        density_out: 1.2,
        density_in: 1.2,
        dynamic_pressure: 0.0,
        datum: 1.0,
    };
    let solved = body.solve(&conditions, &[0.0, 0.0], 0.0).unwrap();
    near(solved.inside_pressure, -0.4031, 5e-5);
    near(solved.inflow, 0.012, 1e-11);
    near(solved.outflow, 0.012, 1e-12);
    // Blown in instead, it raises the pressure as much, and counts as outside air.
    (body.extract, body.supply) = (0.0, 0.012);
    let solved = body.solve(&conditions, &[0.0, 0.0], 0.0).unwrap();
    near(solved.inside_pressure, 0.4031, 5e-5);
    near(solved.inflow, 0.012, 1e-12);
}
