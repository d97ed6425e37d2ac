//! Bodies so simple that the balance has a closed form, and bodies with none.

use super::super::flow_law::Gas;
use super::super::network::*;
use super::{HAND_AIR, OneSpace, Weather, near, opening};

fn still(density: f64) -> Weather {
    Weather {
        density_out: density,
        density_in: density,
        dynamic_pressure: 0.0,
        datum: 0.0,
    }
}

#[test]
fn one_opening_has_no_through_flow() {
    let body = OneSpace {
        paths: vec![Path::new(&opening(0.01), &HAND_AIR, &HAND_AIR, 1.3, 1.3)],
        ..OneSpace::default()
    };
    let case = Weather {
        density_out: 1.29,
        density_in: 1.2,
        dynamic_pressure: 37.0,
        datum: 0.7,
    };
    for start in [0.0, 1e3, -1e-9] {
        let solved = body.solve(&case, &[0.37], start).unwrap();
        near(
            solved.inside_pressure,
            0.37 * 37.0 - 0.09 * 9.81 * 0.6,
            1e-12,
        );
        near(solved.inflow, 0.0, 0.0);
        near(solved.outflow, 0.0, 0.0);
    }
}

#[test]
fn one_opening_with_a_fan_takes_the_pressure_the_law_says() {
    // Q = Cd A √(2Δp/ρ) turned round: Δp = ρ/2 (Q/(Cd A))², supply and extract.
    let body = |supply, extract| OneSpace {
        paths: vec![Path::new(&opening(0.01), &HAND_AIR, &HAND_AIR, 1.0, 1.0)],
        supply,
        extract,
        ..OneSpace::default()
    };
    let dp: f64 = 0.6 * (0.02_f64 / (0.61 * 0.01)).powi(2);
    let supplied = body(0.024, 0.0).solve(&still(1.2), &[0.0], 0.0).unwrap();
    near(supplied.inside_pressure, dp, 1e-9);
    near(supplied.inflow, 0.024, 1e-12);
    near(supplied.outflow, 0.024, 1e-11);
    let drawn = body(0.0, 0.024).solve(&still(1.2), &[0.0], 0.0).unwrap();
    near(drawn.inside_pressure, -dp, 1e-9);
    near(drawn.inflow, 0.024, 1e-11);
}

#[test]
fn sealed_body_keeps_its_pressure() {
    let solved = OneSpace::default().solve(&still(1.2), &[], 3.5).unwrap();
    near(solved.inside_pressure, 3.5, 0.0);
    near(solved.inflow, 0.0, 0.0);
    let closed = opening(0.01).times(0.0).unwrap();
    let body = OneSpace {
        paths: vec![Path::new(&closed, &HAND_AIR, &HAND_AIR, 1.0, 1.0)],
        ..OneSpace::default()
    };
    near(
        body.solve(&still(1.2), &[0.4], 0.0).unwrap().outflow,
        0.0,
        0.0,
    );
}

#[test]
fn fan_without_an_opening_has_no_balance() {
    let mut body = OneSpace {
        supply: 0.01,
        ..OneSpace::default()
    };
    assert_eq!(
        body.solve(&still(1.2), &[], 0.0),
        Err(NetworkError::NoOpening)
    );
    body.extract = 0.01;
    near(body.solve(&still(1.2), &[], 0.0).unwrap().inflow, 0.01, 0.0);
}

#[test]
fn nonsense_is_refused() {
    let body = OneSpace {
        paths: vec![Path::new(&opening(0.01), &HAND_AIR, &HAND_AIR, 1.0, 1.0)],
        ..OneSpace::default()
    };
    assert_eq!(
        body.solve(&still(1.2), &[], 0.0),
        Err(NetworkError::CoefficientCount {
            gaps: 1,
            coefficients: 0
        })
    );
    assert_eq!(
        body.solve(&still(1.2), &[f64::NAN], 0.0),
        Err(NetworkError::NotFinite)
    );
    assert_eq!(
        body.solve(&still(1.2), &[0.0], f64::NAN),
        Err(NetworkError::NotFinite)
    );
    assert_eq!(
        body.solve(&still(0.0), &[0.0], 0.0),
        Err(NetworkError::NotFinite)
    );
}

#[test]
fn no_neutral_level_without_a_density_difference() {
    let mut case = still(1.2);
    assert!(case.neutral_level(1.0).is_none());
    // 0.1 kg/m³ lighter inside, p_i 0.981 Pa at 2 m: neutral 1 m below.
    case.density_in = 1.1;
    case.datum = 2.0;
    near(case.neutral_level(0.981).unwrap(), 1.0, 1e-9);
}

#[test]
fn tiny_gap_beside_a_wide_opening_still_balances() {
    // The opening of 1 m² holds the inside within 1e-17 Pa of its own outside pressure, which
    // 10 Pa cannot resolve. Expected flow: all of the 100 Pa over the tiny gap, 0.61 A √(2·100/ρ) ρ.
    let gas = Gas::REFERENCE;
    let at = |area| Path::new(&opening(area), &gas, &gas, 1.0, 1.0);
    let body = OneSpace {
        paths: vec![at(1.0), at(1e-9)],
        ..OneSpace::default()
    };
    let solved = body
        .solve(
            &Weather {
                dynamic_pressure: 100.0,
                ..still(gas.density)
            },
            &[-0.3, 0.7],
            12.0,
        )
        .unwrap();
    let expected = 0.61e-9 * (2.0 * 100.0 * gas.density).sqrt();
    near(solved.inflow, expected, 1e-12 * expected);
    near(solved.outflow, expected, 1e-9 * expected);
    assert!(solved.steps < 20, "{}", solved.steps);
}
