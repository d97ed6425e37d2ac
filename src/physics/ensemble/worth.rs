//! What each gap is worth: how the gross inflow of a balanced body changes with the flow of one
//! gap, for all gaps at once, without balancing again for each.
//!
//! ```text
//! ∂inflow/∂f_j ≈ in_j − λ_s (in_j − out_j),   J λ = S_in
//! ```
//! where
//! * f_j: factor on the flow of gap j, which lies in space s,
//! * in_j, out_j: what the gap would let in and out with factor one at the pressures of the
//!   balance, kg/s,
//! * J: slopes of all surpluses with the pressures of the spaces, kg/(s Pa); it is symmetric,
//! * S_in: slope of the gross inflow of each space, kg/(s Pa).
//!
//! This is the derivative, so that it holds for small gaps among many; a search tries the most
//! promising ones in earnest.

use super::{Arranged, Ensemble, LANES, Member};

impl Ensemble {
    /// Adds `weight` times the slope of the gross inflow with each gap's factor, kg/s, to
    /// `slopes`, gap by gap, at the balance that `member` holds. `open` is the same body with
    /// every factor one: a gap that is shut has a worth too.
    pub fn add_inflow_slopes(
        &self,
        (member, open): (&mut Member, &Member),
        (coefficients, scale): (&Arranged, f64),
        weight: f64,
        slopes: &mut [f64],
    ) {
        let answers = self.inflow_by_surplus(member, coefficients, scale);
        let mut flows = vec![([0.0; LANES], [0.0; LANES]); self.stack.len()];
        for (space, (own, answer)) in self.spaces.iter().zip(answers).enumerate() {
            let worth = |inflow: f64, outflow: f64| inflow - answer * (inflow - outflow);
            for at in own.level.clone().chain(own.tall.clone()) {
                flows[at] = self.flows_of_block((member, open), (coefficients, scale), (space, at));
            }
            for (gap, slope) in self.gaps.iter().zip(slopes.iter_mut()) {
                let (block, lane) = (gap.slot / LANES, gap.slot % LANES);
                if own.level.contains(&block) || own.tall.contains(&block) {
                    let (inflow, outflow) = &flows[block];
                    *slope += weight * worth(inflow[lane], outflow[lane]);
                }
            }
            for (place, slot) in own.powers.clone().zip(own.power_slot..) {
                let (block, lane) = (slot / LANES, slot % LANES);
                let outside = scale * coefficients.lanes[block][lane] + member.base[block][lane];
                let dp = outside - member.state.pressures[space];
                let flow = own.airs.flow(&open.powers[place], dp);
                slopes[self.powers[place]] += weight * worth(flow.inward, flow.outward);
            }
        }
    }

    /// The λ of each space: how the gross inflow falls for each kg/s more that the space is given.
    fn inflow_by_surplus(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
    ) -> Vec<f64> {
        if self.spaces.len() == 1 {
            let pressure = member.state.pressures[0];
            let total = self.evaluate(member, (coefficients, scale), 0, pressure);
            vec![total.slope_in / total.slope]
        } else {
            self.answers_of_several_spaces(member, coefficients, scale)
        }
    }
}
