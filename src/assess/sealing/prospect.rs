//! What sealing each gap by itself would save.
#![expect(
    clippy::indexing_slicing,
    reason = "leaks and factors are parallel; a missing number must never turn into a silent default"
)]

use super::aim::{Aim, Figures, Scales};
use super::payback::Payback;
use super::sealable::{Sealable, StaysOpen};
use crate::assess::answer::Answer;
use crate::assess::calibration::Calibration;
use crate::assess::model::{Inflow, Model, Varied, Want, Workbench};
use crate::assess::prepared::Prepared;
use crate::physics::ensemble::Change;
use crate::survey::{GapId, Survey, WorkState};
use std::ops::Range;
use std::sync::{Arc, OnceLock};

/// Imbalance left, as a share of the through-flow: savings are differences of nearly equal
/// numbers.
pub(super) const FINE: f64 = 1e-6;
/// Up to so many gaps each is tried at each step. Beyond, all are judged by the slopes of the inflow
/// and only the most promising are tried.
pub(super) const TRY_ALL_UP_TO: usize = 80;

/// Step below which savings of a figure are not told apart, as a share of it: the balances are not
/// more accurate.
const APART: f64 = 1e-8;

/// A saving of a figure by which gaps are put in order: those that save alike are equal, and stay in
/// the order of the ledger.
pub(super) fn told_apart(saving: f64, of: f64) -> f64 {
    let step = APART * of.abs();
    if step > 0.0 {
        (saving / step).round() * step
    } else {
        saving
    }
}

/// A survey made ready to be sealed.
pub struct Prospect {
    pub(super) model: Arc<Model>,
    pub(super) scales: Scales,
    pub(super) candidates: Vec<Candidate>,
    left_open: Vec<LeftOpen>,
    before: Figures,
    /// With each candidate sealed and nothing else, once somebody worked that out.
    singly: OnceLock<Vec<Figures>>,
}

pub(super) struct Candidate {
    pub(super) sealable: Sealable,
    /// Its leak in the model.
    pub(super) leak: usize,
}

/// A gap that no plan may hold, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeftOpen {
    /// The gap.
    pub gap: GapId,
    /// Why.
    pub why: StaysOpen,
}

/// Every gap that may be sealed with what that saves, and those that stay.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranking {
    /// What it was ranked by.
    pub aim: Aim,
    /// Before anything is sealed.
    pub before: Figures,
    /// The greatest saving first.
    pub ranked: Vec<Ranked>,
    /// Gaps that no plan may hold, and why, in the ledger's order.
    pub left_open: Vec<LeftOpen>,
}

/// What sealing one gap, and no other, would save.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// The gap and its remedy.
    pub sealable: Sealable,
    /// What it saves.
    pub saves: Figures,
    /// Saving of the aim for each unit of money; `None` where the whole cost is not
    /// known, or nothing.
    pub saving_per_cost: Option<f64>,
    /// When it has paid for itself.
    pub payback: Answer<Payback>,
}

impl Prospect {
    /// Makes a survey ready.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the air change itself is not.
    pub fn new(survey: &Survey) -> Answer<Self> {
        let calibration = Calibration::of(survey);
        let prepared = Prepared::new(survey, calibration.factors());
        let model = Model::new(survey, &prepared, false)?;
        Self::of(survey, Arc::new(model))
    }

    pub(crate) fn of(survey: &Survey, model: Arc<Model>) -> Answer<Self> {
        let scales = Scales::new(survey, &model);
        let (mut candidates, mut left_open) = (Vec::new(), Vec::new());
        for (ledger, gap) in survey.gaps.iter().enumerate() {
            let leak = model
                .leaks()
                .iter()
                .position(|leak| leak.ledger == Some(ledger));
            let candidate = Sealable::of(survey, gap.id).and_then(|sealable| {
                if gap.state == WorkState::Deferred {
                    return Err(StaysOpen::Deferred);
                }
                let leak = leak.ok_or(StaysOpen::NotSized)?;
                Ok(Candidate { sealable, leak })
            });
            match candidate {
                Ok(candidate) => candidates.push(candidate),
                Err(why) => left_open.push(LeftOpen { gap: gap.id, why }),
            }
        }
        let mut bench = model.workbench();
        model.evaluate(&mut bench, &model.as_surveyed(FINE), Want::Both)?;
        let before = scales.figures(&model, &bench.inflows);
        Ok(Self {
            model,
            scales,
            candidates,
            left_open,
            before,
            singly: OnceLock::new(),
        })
    }

    /// The headlines as the vehicle stands.
    #[must_use]
    pub fn before(&self) -> &Figures {
        &self.before
    }

    /// Gaps that no plan may hold, and why, in the ledger's order.
    #[must_use]
    pub fn left_open(&self) -> &[LeftOpen] {
        &self.left_open
    }

    /// Gaps that may be sealed, in the ledger's order.
    pub fn sealables(&self) -> impl ExactSizeIterator<Item = &Sealable> {
        self.candidates.iter().map(|candidate| &candidate.sealable)
    }

    /// The headlines with each of some gaps sealed and nothing else, named by their places among
    /// those that may be sealed. It takes one balance for each: pieces of it may be worked out in
    /// any order and on any thread, and be put together by [`Prospect::keep_singly`].
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where a balance has no finite solution.
    pub fn singly(&self, candidates: Range<usize>) -> Answer<Vec<Figures>> {
        if self.candidates.len() > TRY_ALL_UP_TO && self.model.is_one_space() {
            return self.singly_of_many(candidates);
        }
        let mut trial = self.trial();
        let alone = |at: usize| {
            trial.seal(at);
            let figures = trial.figures();
            trial.open(at);
            figures
        };
        candidates.map(alone).collect()
    }

    /// The same beside the balance as surveyed, which all have in common.
    fn singly_of_many(&self, candidates: Range<usize>) -> Answer<Vec<Figures>> {
        let change = |one: &Candidate| (one.leak, one.sealable.leak_left());
        let changes: Vec<Change> = self.candidates.iter().map(change).collect();
        let inflows = self.model.one_by_one(&changes, candidates, FINE)?;
        let figures = inflows
            .iter()
            .map(|inflows| self.scales.figures(&self.model, inflows));
        Ok(figures.collect())
    }

    /// Keeps the headlines with each gap sealed and nothing else, in the order of those that may be
    /// sealed; the first that are kept stay.
    pub fn keep_singly(&self, figures: Vec<Figures>) {
        if figures.len() == self.candidates.len() {
            let _ = self.singly.set(figures);
        }
    }

    /// Whether it is known what sealing each gap alone comes to.
    #[must_use]
    pub fn knows_singly(&self) -> bool {
        self.singly.get().is_some()
    }

    /// Every gap that may be sealed with what sealing it alone saves, the greatest saving first.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the aim's figure is not.
    pub fn rank(&self, aim: Aim) -> Answer<Vec<Ranked>> {
        let before = self.before.of(aim)?;
        if !self.knows_singly() {
            self.keep_singly(self.singly(0..self.candidates.len())?);
        }
        let singly = self.singly.get().into_iter().flatten();
        let mut ranked = Vec::with_capacity(self.candidates.len());
        for (candidate, figures) in self.candidates.iter().zip(singly) {
            let saves = self.before.less(figures);
            let cost = candidate.sealable.cost();
            let saving = saves.of(aim)?;
            let whole = cost.and_then(|cost| cost.whole());
            let per_cost = whole.as_ref().ok().filter(|cost| **cost > 0.0);
            ranked.push(Ranked {
                sealable: candidate.sealable.clone(),
                saving_per_cost: per_cost.map(|cost| saving / cost),
                payback: Payback::of(whole, &saves.winter_cost),
                saves,
            });
        }
        let key = |ranked: &Ranked| {
            let saves = ranked.saves.of(aim).unwrap_or(f64::NEG_INFINITY);
            told_apart(saves, before)
        };
        ranked.sort_by(|a, b| key(b).total_cmp(&key(a)));
        Ok(ranked)
    }

    /// The same with what was there before, and what stays.
    pub(crate) fn ranking(&self, aim: Aim) -> Answer<Ranking> {
        Ok(Ranking {
            aim,
            before: self.before.clone(),
            ranked: self.rank(aim)?,
            left_open: self.left_open.clone(),
        })
    }

    pub(super) fn trial(&self) -> Trial<'_> {
        Trial {
            prospect: self,
            varied: self.model.as_surveyed(FINE),
            bench: self.model.workbench(),
        }
    }
}

/// The vehicle with some of its gaps sealed.
pub(super) struct Trial<'a> {
    prospect: &'a Prospect,
    varied: Varied,
    bench: Workbench,
}

impl Trial<'_> {
    pub(super) fn seal(&mut self, candidate: usize) {
        let candidate = &self.prospect.candidates[candidate];
        self.varied.factors[candidate.leak] = candidate.sealable.leak_left();
    }

    pub(super) fn open(&mut self, candidate: usize) {
        self.varied.factors[self.prospect.candidates[candidate].leak] = 1.0;
    }

    pub(super) fn set(&mut self, candidate: usize, sealed: bool) {
        if sealed {
            self.seal(candidate);
        } else {
            self.open(candidate);
        }
    }

    pub(super) fn figures(&mut self) -> Answer<Figures> {
        let model = &self.prospect.model;
        model.evaluate(&mut self.bench, &self.varied, Want::Both)?;
        Ok(self.prospect.scales.figures(model, &self.bench.inflows))
    }

    /// The aim's figure alone, which is quicker.
    pub(super) fn value(&mut self, aim: Aim) -> Answer<f64> {
        let (model, scales) = (&self.prospect.model, &self.prospect.scales);
        let cases = scales.cases(model, aim);
        model.evaluate_cases(&mut self.bench, &self.varied, aim.wants(), cases)?;
        scales.of(model, &self.bench.inflows, aim)
    }

    /// The aim's figure, and what each candidate does to it by itself, judged by the slopes of
    /// the inflow: what sealing it would save or, where it is sealed, what sealing it saves.
    /// Good for small gaps among many; larger ones save less than it says.
    pub(super) fn promises(&mut self, aim: Aim) -> Answer<(f64, Vec<f64>)> {
        let value = self.value(aim)?;
        let (model, scales) = (&self.prospect.model, &self.prospect.scales);
        let mut weights = Vec::new();
        for at in scales.cases(model, aim) {
            let before = self.bench.inflows[at];
            let doubled = Inflow {
                recorded: 2.0 * before.recorded,
                at_set_temperature: 2.0 * before.at_set_temperature,
            };
            let each = match aim.wants() {
                Want::Recorded => before.recorded,
                _ => before.at_set_temperature,
            };
            self.bench.inflows[at] = doubled;
            let more = scales.of(model, &self.bench.inflows, aim)? - value;
            self.bench.inflows[at] = before;
            if each > 0.0 {
                weights.push((at, more / each));
            }
        }
        let slopes = model.inflow_slopes(&mut self.bench, &self.varied, aim.wants(), &weights)?;
        let promised = self
            .prospect
            .candidates
            .iter()
            .map(|candidate| (1.0 - candidate.sealable.leak_left()) * slopes[candidate.leak]);
        Ok((value, promised.collect()))
    }
}
