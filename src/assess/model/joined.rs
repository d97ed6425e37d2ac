//! The vehicle worked out where its inside is more than one space.

use super::{Leak, Varied};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::{Envelope, WindSide};
use crate::physics::balance::Path;
use crate::physics::flow_law::Gas;
use crate::physics::network::{Network, NetworkRoom, Surroundings};
use crate::physics::{Face, MoistAir};

/// The spaces with given airs.
pub(super) struct Joined {
    network: Network,
    outside: Gas,
    /// Air of each space.
    gases: Vec<Gas>,
    datum: f64,
}

/// Room to work in.
pub(super) struct JoinedMember {
    network: Network,
    room: NetworkRoom,
}

impl Joined {
    /// The spaces, where the inside is more than one.
    pub(super) fn new(
        leaks: &[Leak],
        envelope: &Envelope,
        outside: &MoistAir,
        inside: &MoistAir,
    ) -> Option<Self> {
        let rooms = envelope.rooms()?;
        let placed = leaks
            .iter()
            .map(|leak| (leak.flow, leak.z_low, leak.z_high));
        Some(Self {
            network: rooms.network(placed, outside, inside),
            outside: Gas::from(outside),
            gases: (0..rooms.count())
                .map(|space| Gas::from(&rooms.air(space, inside)))
                .collect(),
            datum: envelope.middle(),
        })
    }

    pub(super) fn member(&self) -> JoinedMember {
        JoinedMember {
            network: self.network.clone(),
            room: NetworkRoom::default(),
        }
    }

    /// Sets the factors on the gaps. Inner openings stay as surveyed.
    pub(super) fn vary(&self, member: &mut JoinedMember, leaks: &[Leak], varied: &Varied) {
        let gaps = member.network.outer.iter_mut().zip(&self.network.outer);
        for ((gap, base), (leak, factor)) in gaps.zip(leaks.iter().zip(&varied.factors)) {
            let path = if (varied.discharge - 1.0).abs() > 0.0 {
                let gas = &self.gases[gap.space];
                Path {
                    inward: leak.flow.at_discharge(&self.outside, varied.discharge),
                    outward: leak.flow.at_discharge(gas, varied.discharge),
                    ..base.path
                }
            } else {
                base.path
            };
            gap.path = path.scaled(*factor);
        }
    }

    /// Pressure of the first space and gross inflow in one wind direction.
    ///
    /// # Errors
    /// [`NotKnown`] where the balance cannot be struck.
    pub(super) fn solve(
        &self,
        member: &mut JoinedMember,
        leaks: &[Leak],
        varied: &Varied,
        direction: usize,
        dynamic_pressure: f64,
    ) -> Answer<(f64, f64)> {
        for (gap, leak) in member.network.outer.iter_mut().zip(leaks) {
            gap.coefficient = match leak.wind {
                WindSide::Cavity | WindSide::Face(Face::Underfloor) => varied.underfloor,
                WindSide::Face(_) => varied.walls * leak.coefficients[direction],
                WindSide::Fixed(coefficient) => coefficient,
            };
        }
        let surroundings = Surroundings {
            density: self.outside.density,
            dynamic_pressure,
            datum: self.datum,
        };
        let solved = member
            .network
            .solve(&surroundings, &mut member.room)
            .map_err(|error| NotKnown::because(error.to_string()))?;
        let first = member.room.pressures().first().copied();
        let pressure = first.ok_or_else(|| NotKnown::because("there is no space"))?;
        Ok((pressure, solved.inflow))
    }
}
