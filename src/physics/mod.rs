//! SI numbers in, SI numbers out: moist air, openings, wind, heat and the balance of air
//! between a vehicle and its surroundings. Knows no survey, does no input or output.
//!
//! Sources are named beside each formula. The letter after a source says how it is known:
//! **\[S\]** read in the source named, **\[R\]** read in a text that relays it, **\[M\]** from
//! memory, **\[C\]** common practice without a source, **\[N\]** computed by this project, with
//! method and validation written down, **\[A\]** an assumption of this program.
//!
//! Pressure differences are outside minus inside: a positive one drives air in. Heights are
//! metres above the ground. Temperatures named `_c` are in °C, all other quantities in SI.

pub mod air;
pub mod basic_model;
pub mod clear_night;
pub mod contents;
pub mod counts;
pub mod coupled;
pub mod curve;
pub mod ensemble;
pub mod fabric;
pub mod flame;
pub mod flow_law;
pub mod leakage;
pub mod machine;
pub mod measurement;
pub mod moisture;
pub mod mould;
pub mod network;
pub mod people;
pub mod pressure_coefficient;
pub(crate) mod root;
pub mod sky;
pub mod sun;
pub mod units;
pub mod warm_up;
pub mod wind;
pub mod winter;

#[cfg(test)]
mod tests;

pub use air::{AirError, GRAVITY, MoistAir, STANDARD_PRESSURE};
pub use curve::Curve;
pub use ensemble::Ensemble;
pub use flow_law::{FlowLaw, GapFlow, Gas, OpeningError};
pub use network::{
    Body, Fan, FanWay, Network, NetworkError, OpeningFlow, Path, PlacedFlow, Solved, Workspace,
};
pub use pressure_coefficient::{Face, PressureSet, Underside};
pub use wind::{Shelter, Terrain};
