//! The order of most saving for the money, and what it comes to step by step.
#![expect(
    clippy::indexing_slicing,
    reason = "candidates are named by their place; a missing number must never turn into a silent default"
)]

use super::aim::{Aim, Figures};
use super::prospect::{Prospect, Trial};
use super::sealable::Sealable;
use super::watch::{Watch, Watched};
use crate::assess::answer::Answer;

/// Least cost that a saving is divided by, so that what costs nothing comes first.
const LEAST_COST: f64 = 1e-3;
/// From so many gaps on, only the most promising are tried anew at each step.
const TRY_ALL_UP_TO: usize = 80;
const TRY_FIRST: usize = 24;

/// Gaps in the order in which to seal them.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Before anything is sealed.
    pub before: Figures,
    /// One step for each gap.
    pub steps: Vec<Step>,
}

/// One gap more sealed.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The gap and its remedy.
    pub sealable: Sealable,
    /// Money spent up to here, in the survey's currency.
    pub spent: f64,
    /// The headlines with this and all earlier gaps sealed.
    pub after: Figures,
}

impl Prospect {
    /// The greedy order: at each step the gap with the most saving for its cost, given what is
    /// sealed already.
    ///
    /// ```text
    /// next = argmax (f(S) − f(S ∪ j))/max(c_j, 0.001)
    /// ```
    /// where f is the aim's figure, S what is sealed already, and c_j what is priced of sealing gap
    /// j. Gaps whose cost is not known, and those that save less than 10⁻⁷ of the figure, are not
    /// in it. Each step is the best one by itself: a set for a given sum may be better
    /// ([`Prospect::best_within`]).
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the aim's figure is not.
    pub fn order(&self, aim: Aim) -> Answer<Order> {
        self.ordered(aim, |_| true, Watched::default())
    }

    /// The same, told how far it is and given up where `watch` says so.
    ///
    /// # Errors
    /// As [`Prospect::order`], and where it was given up.
    pub fn order_watched(&self, aim: Aim, watch: Watch<'_>) -> Answer<Order> {
        self.ordered(aim, |_| true, Watched::by(watch))
    }

    /// The order of some of the gaps, the others left as they are.
    pub(super) fn order_among(
        &self,
        aim: Aim,
        chosen: impl Fn(&Sealable) -> bool,
    ) -> Answer<Order> {
        self.ordered(aim, chosen, Watched::default())
    }

    fn ordered(
        &self,
        aim: Aim,
        chosen: impl Fn(&Sealable) -> bool,
        mut watched: Watched<'_>,
    ) -> Answer<Order> {
        let mut trial = self.trial();
        let mut value = trial.value(aim)?;
        let mut waiting: Vec<Waiting> = self
            .candidates
            .iter()
            .enumerate()
            .filter(|(_, candidate)| chosen(&candidate.sealable))
            .filter_map(|(at, candidate)| {
                let cost = candidate.sealable.cost().ok()?.priced;
                Some(Waiting {
                    at,
                    cost,
                    merit: f64::INFINITY,
                })
            })
            .collect();
        let all = waiting.len();
        let (mut spent, mut steps) = (0.0, Vec::new());
        while let Some((place, after)) = best_next(&mut trial, &mut waiting, value, aim)? {
            let next = waiting.remove(place);
            trial.seal(next.at);
            watched.reached(all - waiting.len(), all);
            watched.ask()?;
            spent += next.cost;
            value = after;
            steps.push(Step {
                sealable: self.candidates[next.at].sealable.clone(),
                spent,
                after: trial.figures()?,
            });
        }
        Ok(Order {
            before: self.before().clone(),
            steps,
        })
    }
}

/// A gap that is not sealed yet.
struct Waiting {
    at: usize,
    cost: f64,
    /// Saving for the money when last tried.
    merit: f64,
}

/// Place of the gap with the most saving for its cost, and the aim's figure with it sealed;
/// `None` where nothing saves any more.
fn best_next(
    trial: &mut Trial<'_>,
    waiting: &mut [Waiting],
    value: f64,
    aim: Aim,
) -> Answer<Option<(usize, f64)>> {
    waiting.sort_by(|a, b| b.merit.total_cmp(&a.merit).then(a.at.cmp(&b.at)));
    let tried_before = waiting.iter().all(|one| one.merit.is_finite());
    let tries = if waiting.len() <= TRY_ALL_UP_TO || !tried_before {
        waiting.len()
    } else {
        TRY_FIRST
    };
    let mut best: Option<(usize, f64, f64)> = None;
    for (place, one) in waiting.iter_mut().enumerate().take(tries) {
        trial.seal(one.at);
        let after = trial.value(aim)?;
        trial.open(one.at);
        one.merit = (value - after) / one.cost.max(LEAST_COST);
        if best.is_none_or(|(_, _, merit)| one.merit > merit) {
            best = Some((place, after, one.merit));
        }
    }
    // Below the accuracy of the balance there is nothing to be saved.
    let worth = |after: f64| value - after > 1e-7 * value.abs();
    Ok(best
        .filter(|best| worth(best.1))
        .map(|best| (best.0, best.1)))
}
