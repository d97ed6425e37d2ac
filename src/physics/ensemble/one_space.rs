//! A single space: one unknown, whose steps a bracket holds in.

use super::{Arranged, Ensemble, Member};
use crate::physics::network::Solved;

/// Evaluations after which the exact balance takes over.
const MOST_EVALUATIONS: u32 = 12;

impl Ensemble {
    /// `None` where the steps do not get there soon.
    pub(super) fn solve_one_space(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Option<Solved> {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let mut pressure = member.state.pressures[0];
        for steps in 1..=MOST_EVALUATIONS {
            let total = self.evaluate(member, (coefficients, scale), 0, pressure);
            let surplus = total.inflow - total.outflow;
            if surplus.abs() <= tolerance * total.inflow.max(total.outflow) && total.slope > 0.0 {
                member.state.pressures[0] = pressure + surplus / total.slope;
                let inflow = total.inflow - surplus * (total.slope_in / total.slope);
                return Some(Solved {
                    inflow,
                    outflow: inflow,
                    imbalance: surplus.abs(),
                    steps,
                });
            }
            if surplus > 0.0 {
                low = pressure;
            } else {
                high = pressure;
            }
            let next = pressure + surplus / total.slope;
            pressure = if next > low && next < high {
                next
            } else {
                0.5 * (low + high)
            };
            if !pressure.is_finite() {
                break;
            }
        }
        None
    }
}
