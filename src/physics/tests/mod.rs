//! Checks of the physics against outside sources, closed forms and laws of nature.
//!
//! Each check names where its value comes from, and the mark that says how that is known.

mod air;
mod balance;
mod balance_properties;
mod ensemble;
mod fans;
mod flow_law;
mod heat_and_moisture;
mod measurement;
mod network;
mod pressure_coefficient;
mod several_spaces;
mod single_opening;
mod tall;

use super::air::{MoistAir, STANDARD_PRESSURE};
use super::flow_law::{FlowLaw, GapFlow, Gas, SHARP_DISCHARGE};
use super::network::{
    Fan, FanWay, Network, NetworkError, OpeningFlow, OuterGap, Path, Space, Workspace,
};

/// Air of the hand-worked checks: 1.2 kg/m³, 1.81e-5 Pa s.
const HAND_AIR: Gas = Gas {
    density: 1.2,
    viscosity: 1.81e-5,
};

/// A network of one space without its weather.
#[derive(Clone, Default)]
struct OneSpace {
    paths: Vec<Path>,
    /// What fans blow in and draw out whatever the pressure, kg/s.
    supply: f64,
    extract: f64,
    /// Further fans.
    fans: Vec<Fan>,
}

/// The weather round it, and its inside air.
#[derive(Clone, Copy)]
struct Weather {
    density_out: f64,
    density_in: f64,
    dynamic_pressure: f64,
    datum: f64,
}

/// All that its balance comes to.
#[derive(Debug, PartialEq)]
struct Found {
    inside_pressure: f64,
    inflow: f64,
    outflow: f64,
    imbalance: f64,
    steps: u32,
    flows: Vec<OpeningFlow>,
}

impl OneSpace {
    fn network(&self, weather: &Weather) -> Network {
        let gas = |density| Gas {
            density,
            ..HAND_AIR
        };
        let paths = self.paths.iter();
        Network {
            outside: gas(weather.density_out),
            datum: weather.datum,
            spaces: vec![Space {
                gas: gas(weather.density_in),
            }],
            outer: paths
                .map(|path| OuterGap {
                    space: 0,
                    path: *path,
                })
                .collect(),
            inner: Vec::new(),
            fans: [
                constant_fans(0, self.supply, self.extract).as_slice(),
                &self.fans,
            ]
            .concat(),
        }
    }

    fn solve(
        &self,
        weather: &Weather,
        coefficients: &[f64],
        start: f64,
    ) -> Result<Found, NetworkError> {
        let mut workspace = Workspace::default();
        workspace.start_from(&[start]);
        let network = self.network(weather);
        let solved = network.solve(weather.dynamic_pressure, coefficients, &mut workspace)?;
        Ok(Found {
            inside_pressure: workspace.pressures()[0],
            inflow: solved.inflow,
            outflow: solved.outflow,
            imbalance: solved.imbalance,
            steps: solved.steps,
            flows: workspace.outer_flows().to_vec(),
        })
    }
}

impl Weather {
    fn neutral_level(&self, inside_pressure: f64) -> Option<f64> {
        let network = OneSpace::default().network(self);
        network.neutral_level(&network.spaces[0], inside_pressure)
    }
}

/// Fans of a space that move their flow whatever the pressure, kg/s.
fn constant_fans(space: usize, supply: f64, extract: f64) -> Vec<Fan> {
    let fan = |way, free_flow| Fan {
        space,
        way,
        free_flow,
        most_pressure: f64::INFINITY,
    };
    vec![fan(FanWay::Supply, supply), fan(FanWay::Extract, extract)]
}

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
