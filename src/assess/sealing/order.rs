//! The order of most saving for the money, and what it comes to step by step.
#![expect(
    clippy::indexing_slicing,
    reason = "candidates are named by their place; a missing number must never turn into a silent default"
)]

use super::aim::{Aim, Figures};
use super::prospect::{Prospect, TRY_ALL_UP_TO, Trial, told_apart};
use super::sealable::Sealable;
use super::watch::{Watch, Watched};
use crate::assess::answer::Answer;
use std::cmp::Ordering;
use std::ops::Range;

/// Least cost that a saving is divided by, so that what costs nothing comes first.
pub(super) const LEAST_COST: f64 = 1e-3;
/// Beyond [`TRY_ALL_UP_TO`] gaps so many of them are tried at each step, the most promising by the
/// slopes of the inflow.
const TRY_FIRST: usize = 4;

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

/// Gaps in such an order, as yet without what it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Sequence {
    /// Places among the gaps that may be sealed.
    candidates: Vec<usize>,
}

impl Sequence {
    /// How many gaps it holds.
    #[must_use]
    pub fn steps(&self) -> usize {
        self.candidates.len()
    }
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
        self.order_among(aim, |_| true)
    }

    /// The sequence of that order, told how far it is and given up where `watch` says so. What it
    /// comes to step by step is worked out by [`Prospect::along`] and put to it by
    /// [`Prospect::order_of`].
    ///
    /// # Errors
    /// As [`Prospect::order`], and where it was given up.
    pub fn sequence_watched(&self, aim: Aim, watch: Watch<'_>) -> Answer<Sequence> {
        self.sequence(aim, |_| true, Watched::by(watch))
    }

    /// The order of some of the gaps, the others left as they are.
    pub(super) fn order_among(
        &self,
        aim: Aim,
        chosen: impl Fn(&Sealable) -> bool,
    ) -> Answer<Order> {
        let sequence = self.sequence(aim, chosen, Watched::default())?;
        let after = self.along(&sequence, 0..sequence.steps())?;
        Ok(self.order_of(&sequence, after))
    }

    fn sequence(
        &self,
        aim: Aim,
        chosen: impl Fn(&Sealable) -> bool,
        mut watched: Watched<'_>,
    ) -> Answer<Sequence> {
        let mut trial = self.trial();
        let mut value = trial.value(aim)?;
        let mut waiting: Vec<Waiting> = self
            .candidates
            .iter()
            .enumerate()
            .filter(|(_, candidate)| chosen(&candidate.sealable))
            .filter_map(|(at, candidate)| {
                let cost = candidate.sealable.cost().ok()?.priced;
                Some(Waiting { at, cost })
            })
            .collect();
        let all = waiting.len();
        let mut candidates = Vec::new();
        while let Some((place, after)) = best_next(&mut trial, &waiting, value, aim)? {
            let next = waiting.remove(place);
            trial.seal(next.at);
            watched.reached(all - waiting.len(), all);
            watched.ask()?;
            value = after;
            candidates.push(next.at);
        }
        Ok(Sequence { candidates })
    }

    /// The headlines after some steps of a sequence, each with all earlier ones taken too. Pieces of
    /// it may be worked out in any order and on any thread.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where a balance has no finite solution.
    pub fn along(&self, sequence: &Sequence, steps: Range<usize>) -> Answer<Vec<Figures>> {
        let mut trial = self.trial();
        for at in &sequence.candidates[..steps.start] {
            trial.seal(*at);
        }
        let after = |at: &usize| {
            trial.seal(*at);
            trial.figures()
        };
        sequence.candidates[steps].iter().map(after).collect()
    }

    /// A sequence with the headlines after each of its steps.
    pub fn order_of(&self, sequence: &Sequence, after: Vec<Figures>) -> Order {
        let mut spent = 0.0;
        let steps = sequence.candidates.iter().zip(after).map(|(at, after)| {
            let sealable = self.candidates[*at].sealable.clone();
            spent += sealable.cost().map_or(0.0, |cost| cost.priced);
            Step {
                sealable,
                spent,
                after,
            }
        });
        Order {
            before: self.before().clone(),
            steps: steps.collect(),
        }
    }
}

/// A gap that is not sealed yet.
struct Waiting {
    at: usize,
    cost: f64,
}

/// Place of the gap with the most saving for its cost, and the aim's figure with it sealed;
/// `None` where nothing saves any more.
fn best_next(
    trial: &mut Trial<'_>,
    waiting: &[Waiting],
    value: f64,
    aim: Aim,
) -> Answer<Option<(usize, f64)>> {
    let mut tries: Vec<usize> = (0..waiting.len()).collect();
    if waiting.len() > TRY_ALL_UP_TO {
        let (_, promises) = trial.promises(aim)?;
        let merit =
            |place: &usize| promises[waiting[*place].at] / waiting[*place].cost.max(LEAST_COST);
        tries.sort_by(|a, b| merit(b).total_cmp(&merit(a)));
        tries.truncate(TRY_FIRST);
    }
    let mut best: Option<(usize, f64, f64)> = None;
    for place in tries {
        let one = &waiting[place];
        trial.seal(one.at);
        let after = trial.value(aim)?;
        trial.open(one.at);
        let merit = told_apart(value - after, value) / one.cost.max(LEAST_COST);
        let is_before = |other: usize| one.at < waiting[other].at;
        let is_better = |(other, _, most): (usize, f64, f64)| match merit.total_cmp(&most) {
            Ordering::Greater => true,
            Ordering::Equal => is_before(other),
            Ordering::Less => false,
        };
        if best.is_none_or(is_better) {
            best = Some((place, after, merit));
        }
    }
    // Below the accuracy of the balance there is nothing to be saved.
    let worth = |after: f64| value - after > 1e-7 * value.abs();
    Ok(best
        .filter(|best| worth(best.1))
        .map(|best| (best.0, best.1)))
}
