//! A single space: one unknown.

use super::search::search;
use super::{Arranged, Ensemble, Member};
use crate::physics::network::Solved;

impl Ensemble {
    /// `None` where the steps do not get there soon.
    pub(super) fn solve_one_space(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Option<Solved> {
        let found = search(member.state.pressures[0], tolerance, |pressure| {
            self.evaluate(member, (coefficients, scale), 0, pressure)
        })?;
        member.state.pressures[0] = found.pressure;
        Some(found.solved)
    }
}
