//! The vehicle with given air outside and inside, balanced in every wind direction: gap by gap where
//! the flow through each is asked for, and four gaps at a time ([`Ensemble`]) where there are many and
//! nothing but their sum is.
#![expect(
    clippy::indexing_slicing,
    reason = "an envelope has a space at least; network and envelope are parallel lists"
)]

use super::answer::Answer;
use super::envelope::{DIRECTIONS, Envelope, mean};
use crate::physics::MoistAir;
use crate::physics::ensemble::Ensemble;
use crate::physics::network::{FanWay, Network, OpeningFlow, Space, Workspace};
use crate::physics::wind::{dynamic_pressure, one_sided_flow};

/// From so many gaps on, to lay them out side by side costs less than is gained by it.
const MANY: usize = 80;
/// Imbalance that may be left where they are, as a share of the through-flow.
const TIGHT: f64 = 1e-10;

impl Envelope {
    /// Mean gross inflow of outside air over all directions, kg/s, and the density of the inside air,
    /// that of the first space, kg/m³, with the wind at roof height in m/s.
    ///
    /// # Errors
    /// As [`VehicleInAir::directions`].
    pub(crate) fn mean_inflow(
        &self,
        (outside, inside): (&MoistAir, &MoistAir),
        wind: f64,
    ) -> Answer<(f64, f64)> {
        if self.leaks().len() < MANY || self.openings() > 0 {
            let in_air = self.at(outside, inside);
            return Ok((in_air.mean_inflow(wind)?, in_air.density_in()));
        }
        let ensemble = Ensemble::new(self.body(outside, inside));
        let (body, mut member) = (ensemble.body(), ensemble.member());
        let pressure = dynamic_pressure(body.outside.density, wind);
        let gusts = one_sided_flow(self.widest(), wind) * body.outside.density;
        let mut inflows = [0.0; DIRECTIONS];
        for (index, inflow) in inflows.iter_mut().enumerate() {
            let coefficients = ensemble.arrange(self.coefficients(index).iter().copied());
            let solved = ensemble.solve_from_afar(&mut member, &coefficients, pressure, TIGHT)?;
            *inflow = solved.inflow.max(gusts);
        }
        Ok((mean(&inflows), body.spaces[0].gas.density))
    }
}

/// The vehicle with given air outside and inside.
pub(crate) struct VehicleInAir<'a> {
    envelope: &'a Envelope,
    network: Network,
    /// Openings of the side with the most, for the one-sided rule, m².
    widest_side: f64,
}

/// The balance of one wind direction.
pub(crate) struct SolvedDirection<'a> {
    in_air: &'a VehicleInAir<'a>,
    workspace: &'a Workspace,
    /// Gross inflow of outside air, kg/s, the one-sided rule taken into account.
    pub(crate) inflow: f64,
    /// Whether the one-sided rule gives more than the balance.
    pub(crate) one_sided: bool,
    /// Gross outflow, kg/s.
    pub(crate) outflow: f64,
}

impl<'a> VehicleInAir<'a> {
    pub(super) fn new(envelope: &'a Envelope, network: Network) -> Self {
        Self {
            envelope,
            network,
            widest_side: envelope.widest(),
        }
    }

    /// Gives the network back.
    pub(super) fn into_network(self) -> Network {
        self.network
    }

    /// Density of the inside air, that of the first space, kg/m³.
    pub(crate) fn density_in(&self) -> f64 {
        self.first_space().gas.density
    }

    /// The spaces, at least one.
    pub(crate) fn spaces(&self) -> &[Space] {
        &self.network.spaces
    }

    fn first_space(&self) -> &Space {
        &self.network.spaces[0]
    }

    /// Solves every direction in turn, with the wind at roof height in m/s.
    ///
    /// BS 5925's one-sided rule holds where all openings lie on one face. It is applied to the
    /// face where it gives the most, so that an opening elsewhere never lowers the result: the
    /// inflow is what it or the balance gives, whichever is more.
    ///
    /// # Errors
    /// [`NotKnown`](super::answer::NotKnown) where a balance has no finite solution.
    pub(crate) fn directions(
        &self,
        wind: f64,
        mut each: impl FnMut(usize, SolvedDirection<'_>),
    ) -> Answer<()> {
        let density_out = self.network.outside.density;
        let pressure = dynamic_pressure(density_out, wind);
        let gusts = one_sided_flow(self.widest_side, wind) * density_out;
        let mut workspace = Workspace::default();
        for index in 0..DIRECTIONS {
            let coefficients = self.envelope.coefficients(index);
            let solved = self.network.solve(pressure, coefficients, &mut workspace)?;
            let direction = SolvedDirection {
                in_air: self,
                workspace: &workspace,
                inflow: solved.inflow.max(gusts),
                one_sided: gusts > solved.inflow,
                outflow: solved.outflow,
            };
            each(index, direction);
        }
        Ok(())
    }

    /// Gross inflow of outside air in every direction, kg/s.
    ///
    /// # Errors
    /// As [`VehicleInAir::directions`].
    pub(crate) fn inflows(&self, wind: f64) -> Answer<[f64; DIRECTIONS]> {
        let mut inflows = [0.0; DIRECTIONS];
        self.directions(wind, |index, solved| inflows[index] = solved.inflow)?;
        Ok(inflows)
    }

    /// Gross inflow of outside air in a wind with these pressure coefficients, one for each gap, kg/s;
    /// looked for near the pressures that the workspace holds.
    ///
    /// # Errors
    /// As [`VehicleInAir::directions`].
    pub(crate) fn inflow_with(
        &self,
        wind: f64,
        coefficients: &[f64],
        workspace: &mut Workspace,
    ) -> Answer<f64> {
        let density_out = self.network.outside.density;
        let pressure = dynamic_pressure(density_out, wind);
        let gusts = one_sided_flow(self.widest_side, wind) * density_out;
        let solved = self.network.solve(pressure, coefficients, workspace)?;
        Ok(solved.inflow.max(gusts))
    }

    /// Mean gross inflow of outside air over all directions, kg/s.
    ///
    /// # Errors
    /// As [`VehicleInAir::directions`].
    pub(crate) fn mean_inflow(&self, wind: f64) -> Answer<f64> {
        Ok(mean(&self.inflows(wind)?))
    }
}

impl SolvedDirection<'_> {
    /// Pressure of each space at mid-height, Pa.
    pub(crate) fn pressures(&self) -> &[f64] {
        self.workspace.pressures()
    }

    /// Pressure of the first space, Pa.
    pub(crate) fn inside_pressure(&self) -> f64 {
        self.pressures()[0]
    }

    /// Share of its free flow that each running fan moves.
    pub(crate) fn fan_shares(&self) -> Vec<f64> {
        let fans = self.in_air.network.fans.iter();
        let flows = fans.zip(self.workspace.fan_flows());
        flows.map(|(fan, flow)| flow / fan.free_flow).collect()
    }

    /// Height at which the first space and undisturbed outside air are at the same pressure, m.
    pub(crate) fn neutral_level(&self) -> Option<f64> {
        let network = &self.in_air.network;
        network.neutral_level(self.in_air.first_space(), self.inside_pressure())
    }

    /// Flow through each gap of the ledger; none for gaps that are in no balance.
    pub(crate) fn flows(&self) -> Vec<Option<OpeningFlow>> {
        let envelope = self.in_air.envelope;
        let mut by_ledger = vec![None; envelope.gaps()];
        for (leak, flow) in envelope.leaks().iter().zip(self.workspace.outer_flows()) {
            if let Some(at) = leak.ledger {
                by_ledger[at] = Some(*flow);
            }
        }
        by_ledger
    }

    /// Flow through each inner opening, in the survey's order.
    pub(crate) fn inner_flows(&self) -> &[OpeningFlow] {
        self.workspace.inner_flows()
    }

    /// Air into each space, kg/s: from outside, its supply fans included, and from other spaces.
    pub(crate) fn air_into_spaces(&self) -> Vec<[f64; 2]> {
        let network = &self.in_air.network;
        let mut into = vec![[0.0; 2]; network.spaces.len()];
        for (fan, flow) in network.fans.iter().zip(self.workspace.fan_flows()) {
            if fan.way == FanWay::Supply {
                into[fan.space][0] += flow;
            }
        }
        for (gap, flow) in network.outer.iter().zip(self.workspace.outer_flows()) {
            into[gap.space][0] += flow.forward;
        }
        for (opening, flow) in network.inner.iter().zip(self.inner_flows()) {
            into[opening.to][1] += flow.forward;
            into[opening.from][1] += flow.back;
        }
        into
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::factors::Factors;
    use crate::assess::prepared::Prepared;
    use crate::assess::tests::{add, bare, hole};
    use crate::survey::{Facing, Form};

    /// Side by side and gap by gap many gaps let in the same; the balance gap by gap is held to tables
    /// solved independently.
    #[test]
    fn many_gaps_let_in_what_the_balance_gap_by_gap_says() {
        const FACES: [Facing; 5] = [
            Facing::Front,
            Facing::Nearside,
            Facing::Roof,
            Facing::Underfloor,
            Facing::Rear,
        ];
        let mut survey = bare();
        for (at, share) in (0..120).zip((0..7_u32).cycle()) {
            let (facing, height) = (FACES[at % 5], 0.5 + 0.2 * f64::from(share));
            if at % 3 == 0 {
                hole(&mut survey, facing, height, 0.4 + f64::from(share));
            } else {
                let crack = Form::NarrowGap {
                    length_mm: Some(200.0 + 90.0 * f64::from(share)),
                    width_mm: Some(0.6),
                    depth_mm: Some(22.0),
                    bends: share % 3,
                };
                add(&mut survey, facing, height, crack);
            }
        }
        let prepared = Prepared::new(&survey, &Factors::default());
        let envelope = prepared.envelope.unwrap();
        assert!(envelope.leaks().len() >= MANY);
        let outside = MoistAir::from_relative_humidity(3.0, 0.9, 101_325.0).unwrap();
        for (inside_c, wind) in [(3.0, 0.5), (18.0, 0.5), (8.0, 4.0), (5.0, 11.0)] {
            let inside = MoistAir::new(inside_c, outside.humidity_ratio, 101_325.0).unwrap();
            let in_air = envelope.at(&outside, &inside);
            let expected = in_air.mean_inflow(wind).unwrap();
            let (found, density) = envelope.mean_inflow((&outside, &inside), wind).unwrap();
            assert!(
                (found / expected - 1.0).abs() < 1e-9,
                "{found} instead of {expected} at {wind} m/s"
            );
            assert!((density - in_air.density_in()).abs() < 1e-12);
        }
    }
}
