//! The stations of a walk round, in walking order, each with the places where leisure vehicles
//! usually leak, and how to look there.
//!
//! Which places are usual is common practice \[C\]; where on the vehicle they usually are, and the
//! sizes that a gap there starts with, are guesses of this project \[A\]. Openings that protect
//! people stand among them with their purpose, so that they are seen, counted and never offered
//! for sealing.

mod fitting;
mod inside;
mod outside;
mod place;
mod start;

pub use place::{Look, Station, UsualPlace};
pub use start::found;

use super::VehicleKind;

/// The stations of such a vehicle, in walking order.
pub fn stations(kind: VehicleKind) -> impl Iterator<Item = &'static Station> {
    let all = outside::STATIONS.iter().chain(inside::STATIONS);
    all.filter(move |station| station.places(kind).next().is_some())
}

#[cfg(test)]
mod tests;
