//! Checks of the physics against outside sources, closed forms and laws of nature.
//!
//! Each check names where its value comes from, and the mark that says how that is known.

mod air;
mod balance;
mod balance_properties;
mod ensemble;
mod flow_law;
mod heat_and_moisture;
mod joined;
mod network;
mod pressure_coefficient;
mod single_opening;
mod tall;

use super::air::{MoistAir, STANDARD_PRESSURE};
use super::flow_law::{FlowLaw, GapFlow, Gas, SHARP_DISCHARGE};

/// Air of the hand-worked checks: 1.2 kg/m³, 1.81e-5 Pa s.
const HAND_AIR: Gas = Gas {
    density: 1.2,
    viscosity: 1.81e-5,
};

fn dry_air(t_c: f64) -> Gas {
    Gas::from(&MoistAir::new(t_c, 0.0, STANDARD_PRESSURE).unwrap())
}

fn opening(area: f64) -> GapFlow {
    GapFlow::new(FlowLaw::Opening {
        area,
        discharge: SHARP_DISCHARGE,
    })
    .unwrap()
}

fn crack(length: f64, width: f64, depth: f64, bends: u32) -> GapFlow {
    GapFlow::new(FlowLaw::Crack {
        length,
        width,
        depth,
        bends,
    })
    .unwrap()
}

fn power(coefficient: f64, exponent: f64) -> GapFlow {
    GapFlow::new(FlowLaw::Power {
        coefficient,
        exponent,
    })
    .unwrap()
}

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not within {tolerance} of {expected}"
    );
}

#[track_caller]
fn near_share(value: f64, expected: f64, share: f64) {
    near(value, expected, share * expected.abs());
}
