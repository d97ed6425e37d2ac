//! The best set of gaps to seal within a budget.
//!
//! Savings do not add up: sealing one gap shifts air to the others, so every set is judged by an
//! air balance of its own, and this is no plain knapsack problem.
//!
//! Up to twelve gaps every affordable set is tried. Beyond, greedy sets are improved by
//! exchange: one or two gaps in for one or two out, as long as that helps. There is no proof
//! that it finds the best set; a test holds it against trying all sets, to the best itself in 280
//! of 300 trials and to 99 % of its saving in every one. Beyond [`TRY_ALL_UP_TO`] gaps what each
//! is worth is read off the slopes of the inflow, all gaps at once, and only the most promising are
//! tried in earnest ([`super::promise`]).
#![expect(
    clippy::indexing_slicing,
    reason = "sets are lists of flags by candidate; a missing number must never turn into a silent default"
)]

use super::aim::Aim;
use super::prospect::{Prospect, TRY_ALL_UP_TO, Trial};
use super::sealable::Sealable;
use super::watch::{Watch, Watched};
use crate::assess::answer::{Answer, NotKnown};

/// So many gaps are searched exhaustively.
pub(super) const EXACT_UP_TO: usize = 12;
/// Exchanges tried in earnest in each round, of those that look best.
const TRIED: usize = 96;
/// Gaps that are forced into the best set found, to see whether a better one grows round them.
const FORCED: usize = 16;
/// Beginnings that are improved by exchange before that.
const BEGINNINGS: usize = 3;
/// Rounds of exchange at most.
const ROUNDS: usize = 40;
/// Up to so many gaps, two are exchanged for two as well.
const TWO_FOR_TWO_UP_TO: usize = 60;
/// Beyond so many gaps, one is exchanged for one only.
const PAIRS_UP_TO: usize = TRY_ALL_UP_TO;
/// A set may cost this much more than the budget, for the rounding of sums.
pub(super) const CENT: f64 = 1e-9;

/// A choice of candidates and the aim's figure with them sealed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Choice {
    pub(super) sealed: Vec<bool>,
    pub(super) value: f64,
}

/// Search for the best choice.
pub(super) struct Search<'a> {
    pub(super) trial: Trial<'a>,
    /// Cost of each candidate; infinite where it is not known.
    pub(super) costs: Vec<f64>,
    pub(super) budget: f64,
    pub(super) aim: Aim,
    /// The aim's figure with nothing sealed.
    pub(super) nothing: f64,
    pub(super) watched: Watched<'a>,
}

impl Prospect {
    /// The set of gaps that saves most of the aim for at most `budget`, in the ledger's order.
    ///
    /// ```text
    /// min f(S)   over all S with Σ c_j ≤ budget
    /// ```
    /// where f is the aim's figure with the gaps of S sealed, and c_j what is priced of sealing gap
    /// j, in the survey's currency. Gaps whose cost is not known are never in it.
    ///
    /// # Errors
    /// [`NotKnown`] where the aim's figure is not, or the budget is no number.
    pub fn best_within(&self, aim: Aim, budget: f64) -> Answer<Vec<Sealable>> {
        self.best(self.search(aim, budget)?)
    }

    /// The same, told how far it is and given up where `watch` says so.
    ///
    /// # Errors
    /// As [`Prospect::best_within`], and where it was given up.
    pub fn best_within_watched(
        &self,
        aim: Aim,
        budget: f64,
        watch: Watch<'_>,
    ) -> Answer<Vec<Sealable>> {
        let mut search = self.search(aim, budget)?;
        search.watched = Watched::by(watch);
        self.best(search)
    }

    fn best(&self, mut search: Search<'_>) -> Answer<Vec<Sealable>> {
        let choice = if search.affordable().len() <= EXACT_UP_TO {
            search.exhaustive()?
        } else {
            search.greedy_and_exchange()?
        };
        let chosen = self.candidates.iter().zip(choice.sealed);
        Ok(chosen
            .filter(|(_, sealed)| *sealed)
            .map(|(candidate, _)| candidate.sealable.clone())
            .collect())
    }

    pub(super) fn search(&self, aim: Aim, budget: f64) -> Answer<Search<'_>> {
        if !(budget >= 0.0 && budget.is_finite()) {
            return Err(NotKnown::because(
                "the budget must be a sum of zero or more",
            ));
        }
        let mut trial = self.trial();
        let nothing = trial.value(aim)?;
        let costs = self
            .candidates
            .iter()
            .map(|one| {
                one.sealable
                    .cost()
                    .map_or(f64::INFINITY, |cost| cost.priced)
            })
            .collect();
        Ok(Search {
            trial,
            costs,
            budget,
            aim,
            nothing,
            watched: Watched::default(),
        })
    }
}

impl Search<'_> {
    /// Candidates that can be paid for by themselves.
    pub(super) fn affordable(&self) -> Vec<usize> {
        let fits = |at: &usize| self.costs[*at] <= self.budget + CENT;
        (0..self.costs.len()).filter(fits).collect()
    }

    /// The aim's figure with exactly these sealed.
    ///
    /// # Errors
    /// [`NotKnown`] where the figure is not, or the search was given up.
    pub(super) fn value(&mut self, sealed: &[bool]) -> Answer<f64> {
        self.watched.ask()?;
        for (at, sealed) in sealed.iter().enumerate() {
            self.trial.set(at, *sealed);
        }
        self.trial.value(self.aim)
    }

    pub(super) fn cost(&self, sealed: &[bool]) -> f64 {
        let chosen = sealed
            .iter()
            .zip(&self.costs)
            .filter(|(sealed, _)| **sealed);
        chosen.map(|(_, cost)| cost).sum()
    }

    fn empty(&self) -> Choice {
        Choice {
            sealed: vec![false; self.costs.len()],
            value: self.nothing,
        }
    }

    /// Tries every affordable set.
    pub(super) fn exhaustive(&mut self) -> Answer<Choice> {
        let open = self.affordable();
        let mut best = self.empty();
        let sets = 1_usize << open.len();
        for set in 1..sets {
            self.watched.reached(set, sets);
            let mut sealed = vec![false; self.costs.len()];
            for (bit, at) in open.iter().enumerate() {
                sealed[*at] = set >> bit & 1 == 1;
            }
            if self.cost(&sealed) <= self.budget + CENT {
                let value = self.value(&sealed)?;
                if value < best.value {
                    best = Choice { sealed, value };
                }
            }
        }
        Ok(best)
    }

    /// Three greedy beginnings, each improved: by saving for the money, by saving alone, and
    /// from everything sealed backwards.
    pub(super) fn greedy_and_exchange(&mut self) -> Answer<Choice> {
        let mut best = self.empty();
        let beginnings = [self.greedy(true)?, self.greedy(false)?, self.backwards()?];
        for (done, begun) in (1..).zip(beginnings) {
            self.watched.reached(done, BEGINNINGS + FORCED);
            let improved = self.exchange(begun)?;
            if improved.value < best.value {
                best = improved;
            }
        }
        self.force(best)
    }

    /// Sealing all gaps of one face saves more than they do one by one, so that exchanges of a
    /// few may find no way there. Each of the greatest gaps left out is put in by force, room
    /// made for it, and the rest improved round it.
    fn force(&mut self, mut best: Choice) -> Answer<Choice> {
        let mut left_out = Vec::new();
        let empty = self.empty();
        let alone = self.each_changed(&empty)?;
        for at in self.affordable() {
            if !best.sealed[at] {
                left_out.push((empty.value - alone[at], at));
            }
        }
        left_out.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (done, (_, at)) in (BEGINNINGS..).zip(left_out.into_iter().take(self.effort(FORCED))) {
            self.watched.reached(done, BEGINNINGS + FORCED);
            let mut begun = best.clone();
            begun.sealed[at] = true;
            begun.value = self.value(&begun.sealed)?;
            let begun = self.make_room(begun, Some(at))?;
            let filled = self.fill(begun, true)?;
            let improved = self.exchange(filled)?;
            if improved.value < best.value {
                best = improved;
            }
        }
        Ok(best)
    }

    fn greedy(&mut self, by_money: bool) -> Answer<Choice> {
        let empty = self.empty();
        self.fill(empty, by_money)
    }

    /// Adds what saves most, for the money or by itself, until nothing more can be paid for.
    fn fill(&mut self, mut choice: Choice, by_money: bool) -> Answer<Choice> {
        let mut spent = self.cost(&choice.sealed);
        let mut left = self.affordable();
        left.retain(|at| !choice.sealed[*at]);
        loop {
            left.retain(|at| spent + self.costs[*at] <= self.budget + CENT);
            if left.len() > TRY_ALL_UP_TO {
                spent += self.fill_most_promising(&mut choice, &mut left, by_money)?;
                continue;
            }
            let mut next: Option<(usize, f64, f64)> = None;
            for at in &left {
                let value = self.with(&choice.sealed, &[], &[*at])?;
                let saving = choice.value - value;
                let merit = if by_money {
                    saving / self.costs[*at].max(1e-3)
                } else {
                    saving
                };
                if saving > 0.0 && next.is_none_or(|(_, _, best)| merit > best) {
                    next = Some((*at, value, merit));
                }
            }
            let Some((at, value, _)) = next else {
                return Ok(choice);
            };
            choice.sealed[at] = true;
            choice.value = value;
            spent += self.costs[at];
            left.retain(|other| *other != at);
        }
    }

    /// What sealing each candidate saves, or saves now where it is sealed: each tried by itself,
    /// or told by the slopes where there are many.
    fn each_changed(&mut self, choice: &Choice) -> Answer<Vec<f64>> {
        if self.costs.len() > TRY_ALL_UP_TO {
            return self.promises(&choice.sealed);
        }
        let mut changed = vec![0.0; self.costs.len()];
        for at in self.affordable() {
            changed[at] = if choice.sealed[at] {
                self.with(&choice.sealed, &[at], &[])? - choice.value
            } else {
                choice.value - self.with(&choice.sealed, &[], &[at])?
            };
        }
        Ok(changed)
    }

    /// Everything sealed, then opened again one by one until it can be paid for.
    fn backwards(&mut self) -> Answer<Choice> {
        let mut choice = self.empty();
        for at in self.affordable() {
            choice.sealed[at] = true;
        }
        choice.value = self.value(&choice.sealed)?;
        self.make_room(choice, None)
    }

    /// Opens again what loses least for the money, until the rest can be paid for.
    fn make_room(&mut self, mut choice: Choice, keep: Option<usize>) -> Answer<Choice> {
        while self.cost(&choice.sealed) > self.budget + CENT {
            if choice.sealed.iter().filter(|sealed| **sealed).count() > TRY_ALL_UP_TO {
                self.open_least_promising(&mut choice, keep)?;
                continue;
            }
            let mut next: Option<(usize, f64, f64)> = None;
            for at in (0..self.costs.len()).filter(|at| choice.sealed[*at] && keep != Some(*at)) {
                let value = self.with(&choice.sealed, &[at], &[])?;
                let loss = (value - choice.value) / self.costs[at].max(1e-3);
                if next.is_none_or(|(_, _, least)| loss < least) {
                    next = Some((at, value, loss));
                }
            }
            let Some((at, value, _)) = next else { break };
            choice.sealed[at] = false;
            choice.value = value;
        }
        Ok(choice)
    }

    /// The aim's figure with some candidates opened and others sealed.
    pub(super) fn with(&mut self, sealed: &[bool], out: &[usize], add: &[usize]) -> Answer<f64> {
        let mut changed = sealed.to_vec();
        for at in out {
            changed[*at] = false;
        }
        for at in add {
            changed[*at] = true;
        }
        self.value(&changed)
    }

    /// Makes the exchange that helps most, again and again, until none helps or [`ROUNDS`] are over.
    /// In each round all exchanges are ordered by promise, and the first [`TRIED`] are balanced.
    fn exchange(&mut self, mut choice: Choice) -> Answer<Choice> {
        for _ in 0..ROUNDS {
            let mut moves = self.moves(&choice)?;
            moves.sort_by(|a, b| b.promise.total_cmp(&a.promise));
            let mut best: Option<(usize, f64)> = None;
            for (at, one) in moves.iter().take(self.effort(TRIED)).enumerate() {
                let value = self.with(&choice.sealed, &one.out, &one.add)?;
                let better = best.map_or(choice.value, |(_, value)| value);
                if value < better - 1e-9 * choice.value.abs() {
                    best = Some((at, value));
                }
            }
            let Some((at, value)) = best else { break };
            for out in &moves[at].out {
                choice.sealed[*out] = false;
            }
            for add in &moves[at].add {
                choice.sealed[*add] = true;
            }
            choice.value = value;
        }
        Ok(choice)
    }

    /// Affordable exchanges with what they promise: the savings of those that come in less those
    /// of the ones that go out, each by itself.
    fn moves(&mut self, choice: &Choice) -> Answer<Vec<Move>> {
        let changed = self.each_changed(choice)?;
        let (mut inside, mut outside) = (Vec::new(), Vec::new());
        for at in self.affordable() {
            if choice.sealed[at] {
                inside.push((at, changed[at]));
            } else {
                outside.push((at, changed[at]));
            }
        }
        if self.costs.len() > TRY_ALL_UP_TO {
            self.keep_most_promising(&mut outside, 1.0);
            self.keep_most_promising(&mut inside, -1.0);
        }
        let room = self.budget + CENT - self.cost(&choice.sealed);
        let pairs = self.costs.len() <= PAIRS_UP_TO;
        let (outs, adds) = (groups(&inside, pairs), groups(&outside, pairs));
        let cost = |group: &[usize]| group.iter().map(|at| self.costs[*at]).sum::<f64>();
        let mut moves = Vec::new();
        for (add, gain) in &adds {
            let needed = cost(add);
            for (out, loss) in std::iter::once(&(Vec::new(), 0.0)).chain(&outs) {
                let few = add.len() + out.len() <= 3 || self.costs.len() <= TWO_FOR_TWO_UP_TO;
                if few && gain > loss && needed <= room + cost(out) {
                    moves.push(Move {
                        out: out.clone(),
                        add: add.clone(),
                        promise: gain - loss,
                    });
                }
            }
        }
        Ok(moves)
    }
}

/// An exchange.
struct Move {
    out: Vec<usize>,
    add: Vec<usize>,
    promise: f64,
}

/// Candidates one by one and, if asked for, two by two, with their savings added up.
fn groups(single: &[(usize, f64)], pairs: bool) -> Vec<(Vec<usize>, f64)> {
    let mut groups: Vec<(Vec<usize>, f64)> = single
        .iter()
        .map(|(at, saving)| (vec![*at], *saving))
        .collect();
    if pairs {
        for (place, (first, one)) in single.iter().enumerate() {
            for (second, other) in &single[place + 1..] {
                groups.push((vec![*first, *second], one + other));
            }
        }
    }
    groups
}
