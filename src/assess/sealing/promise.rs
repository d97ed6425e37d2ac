//! The search among very many gaps: what each is worth is told by the slopes of the inflow, and
//! several are taken at a step, so that its work grows little faster than the number of gaps.
#![expect(
    clippy::indexing_slicing,
    reason = "sets are lists of flags by candidate; a missing number must never turn into a silent default"
)]

use super::best::{CENT, Choice, Search};
use super::order::LEAST_COST;
use super::prospect::TRY_ALL_UP_TO;
use crate::assess::answer::Answer;

/// Of so many gaps that are left one is taken at each step.
const ONE_IN: usize = 64;
/// Gaps on either side of an exchange, of those that promise most, and most for the money.
const EXCHANGED: usize = 48;
/// Among many gaps so much less is tried of everything.
const LESS_EFFORT: usize = 4;

impl Search<'_> {
    /// How many of so many are tried.
    pub(super) fn effort(&self, few: usize) -> usize {
        if self.costs.len() > TRY_ALL_UP_TO {
            few / LESS_EFFORT
        } else {
            few
        }
    }

    /// What sealing each candidate promises to save, or to have saved where it is sealed.
    pub(super) fn promises(&mut self, sealed: &[bool]) -> Answer<Vec<f64>> {
        self.value(sealed)?;
        Ok(self.trial.promises(self.aim)?.1)
    }

    /// Adds those that promise most, for the money or by themselves, takes them from `left`, and
    /// gives what they cost.
    pub(super) fn fill_most_promising(
        &mut self,
        choice: &mut Choice,
        left: &mut Vec<usize>,
        by_money: bool,
    ) -> Answer<f64> {
        let promises = self.promises(&choice.sealed)?;
        let merit = |at: &usize| {
            let cost = if by_money { self.costs[*at] } else { 1.0 };
            promises[*at] / cost.max(LEAST_COST)
        };
        left.retain(|at| promises[*at] > 0.0);
        left.sort_by(|a, b| merit(b).total_cmp(&merit(a)));
        let most = (left.len() / ONE_IN).max(1);
        let room = self.budget + CENT - self.cost(&choice.sealed);
        let mut spent = 0.0;
        for at in left.iter().take(most) {
            if spent + self.costs[*at] <= room {
                choice.sealed[*at] = true;
                spent += self.costs[*at];
            }
        }
        left.retain(|at| !choice.sealed[*at]);
        choice.value = self.value(&choice.sealed)?;
        Ok(spent)
    }

    /// Opens again those that lose least for the money, no more of them than must be.
    pub(super) fn open_least_promising(
        &mut self,
        choice: &mut Choice,
        keep: Option<usize>,
    ) -> Answer<()> {
        let promises = self.promises(&choice.sealed)?;
        let merit = |at: &usize| promises[*at] / self.costs[*at].max(LEAST_COST);
        let open = |at: &usize| choice.sealed[*at] && keep != Some(*at);
        let mut inside: Vec<usize> = (0..self.costs.len()).filter(open).collect();
        inside.sort_by(|a, b| merit(a).total_cmp(&merit(b)));
        let mut over = self.cost(&choice.sealed) - self.budget - CENT;
        for at in inside.iter().take((inside.len() / ONE_IN).max(1)) {
            if over > 0.0 {
                choice.sealed[*at] = false;
                over -= self.costs[*at];
            }
        }
        choice.value = self.value(&choice.sealed)?;
        Ok(())
    }

    /// Keeps those of which exchanges are made: with the greatest saving, and the greatest for
    /// the money; with `sign` −1 the least.
    pub(super) fn keep_most_promising(&self, single: &mut Vec<(usize, f64)>, sign: f64) {
        let mut kept = Vec::new();
        for by_money in [false, true] {
            let merit = |one: &(usize, f64)| {
                let cost = if by_money { self.costs[one.0] } else { 1.0 };
                sign * one.1 / cost.max(LEAST_COST)
            };
            single.sort_by(|a, b| merit(b).total_cmp(&merit(a)));
            kept.extend(single.iter().take(EXCHANGED).copied());
        }
        kept.sort_by_key(|one| one.0);
        kept.dedup_by_key(|one| one.0);
        *single = kept;
    }
}
