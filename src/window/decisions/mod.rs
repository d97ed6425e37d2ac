//! What takes longer than an edit may wait for: how sure the results are, and what to seal.
//!
//! Each is an [`Errand`]: worked out after a pause, given up when the survey changes, stopped
//! where the user says so. The window shows what it has and says when that is out of date.

mod work;

use super::errand::{Errand, Status};
use super::jobs::Spawner;
use super::page::Page;
use crate::assess::sealing::{Aim, Figures, LeftOpen, Order, Plan, Ranked, StaysOpen};
use crate::assess::spaces::ClosingEffect;
use crate::assess::uncertainty::{DRAWS, Uncertainty};
use crate::assess::{Answer, Parking, SetSensitivity, TemperatureCurve};
use crate::sheet::uncertainty::processors;
use crate::survey::{GapId, Survey};
use std::sync::Arc;
use std::time::Duration;

/// How much work is made of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Draws of what is in doubt.
    pub draws: u32,
    /// Threads that draw.
    pub threads: usize,
    /// Time without an edit after which longer work begins.
    pub pause: Duration,
}

impl Effort {
    /// As the program works.
    #[must_use]
    pub fn program() -> Self {
        Self {
            draws: DRAWS,
            threads: processors(),
            pause: Duration::from_millis(700),
        }
    }

    /// As tests work: few draws, on the caller's thread, at once.
    #[must_use]
    pub fn test() -> Self {
        Self {
            draws: 120,
            threads: 1,
            pause: Duration::ZERO,
        }
    }
}

/// Longer work that a user can stop and ask for again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LongWork {
    /// How sure the results are.
    Uncertainty,
    /// The order in which to seal.
    Sealing,
    /// The best set within a budget.
    Budget,
}

/// What the Sealing plan page asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// What to save most of.
    pub aim: Aim,
    /// Money to spend at most, where a budget is named.
    pub budget: Option<f64>,
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
    /// Gaps that no plan may hold, and why.
    pub left_open: Vec<LeftOpen>,
}

/// The plan that the surveyor ticked.
#[derive(Clone, Debug, PartialEq)]
pub struct Ticked {
    /// The plan; `None` where nothing is ticked.
    pub plan: Option<Answer<Plan>>,
    /// Gaps marked as planned that must stay open.
    pub refused: Vec<(GapId, StaysOpen)>,
}

/// The best set for a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    /// What it saves most of.
    pub aim: Aim,
    /// Money to spend at most.
    pub budget: f64,
    /// The set, worked out.
    pub plan: Answer<Plan>,
}

/// What hangs on warmth, parking, pressure coefficients, and doors inside.
#[derive(Clone, Debug, PartialEq)]
pub struct Understood {
    /// Air changes against how much warmer it is inside, for each weather case.
    pub against_temperature: Answer<Vec<TemperatureCurve>>,
    /// Best and worst heading for the prevailing wind.
    pub parking: Answer<Parking>,
    /// Both sets of pressure coefficients.
    pub pressure_sets: [SetSensitivity; 2],
    /// What closing each inner opening does.
    pub closing: Vec<ClosingEffect>,
}

/// An answer and the survey's revision it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct Dated<T> {
    /// Revision of the survey.
    pub revision: u64,
    /// The answer.
    pub answer: T,
}

type Asked<T> = (u64, Arc<Survey>, T);

enum SealingPart {
    Ranking(Answer<Ranking>),
    Ticked(Box<Ticked>),
    Order(Answer<Order>),
}

/// The longer work of the window and what has come of it.
pub struct Decisions {
    spawner: Spawner,
    wake: Arc<dyn Fn() + Send + Sync>,
    effort: Effort,
    uncertainty_work: Errand<Asked<()>, Dated<Answer<Uncertainty>>>,
    sealing_work: Errand<Asked<Aim>, Dated<SealingPart>>,
    budget_work: Errand<Asked<(Aim, f64)>, Dated<Best>>,
    understood_work: Errand<Asked<()>, Dated<Understood>>,
    understood_asked: Option<u64>,
    understood: Option<Dated<Understood>>,
    uncertainty_asked: Option<u64>,
    sealing_asked: Option<(u64, Aim)>,
    budget_asked: Option<(u64, Aim, u64)>,
    uncertainty: Option<Dated<Answer<Uncertainty>>>,
    ranking: Option<Dated<Answer<Ranking>>>,
    ticked: Option<Dated<Ticked>>,
    order: Option<Dated<Answer<Order>>>,
    best: Option<Dated<Best>>,
}

impl Decisions {
    /// Nothing asked yet. `wake` is called from workers whenever something is ready.
    #[must_use]
    pub fn new(spawner: Spawner, wake: Arc<dyn Fn() + Send + Sync>, effort: Effort) -> Self {
        let uncertainty_work = Errand::new(
            Arc::clone(&spawner),
            Arc::clone(&wake),
            effort.pause,
            "How sure the results are",
            Arc::new(move |(revision, survey, ()): &Asked<()>, line| {
                if let Some(answer) = work::draw(survey, effort, line) {
                    line.send(Dated {
                        revision: *revision,
                        answer,
                    });
                }
            }),
        );
        let sealing_work = Errand::new(
            Arc::clone(&spawner),
            Arc::clone(&wake),
            Duration::ZERO,
            "What to seal",
            Arc::new(work::seal),
        );
        let budget_work = Errand::new(
            Arc::clone(&spawner),
            Arc::clone(&wake),
            effort.pause,
            "The best set within the budget",
            Arc::new(work::search),
        );
        let understood_work = Errand::new(
            Arc::clone(&spawner),
            Arc::clone(&wake),
            Duration::ZERO,
            "What hangs on warmth and parking",
            Arc::new(work::understand),
        );
        Self {
            understood_work,
            understood_asked: None,
            understood: None,
            spawner,
            wake,
            effort,
            uncertainty_work,
            sealing_work,
            budget_work,
            uncertainty_asked: None,
            sealing_asked: None,
            budget_asked: None,
            uncertainty: None,
            ranking: None,
            ticked: None,
            order: None,
            best: None,
        }
    }

    /// Forgets everything, for a survey of another file.
    pub fn forget(&mut self) {
        *self = Self::new(
            Arc::clone(&self.spawner),
            Arc::clone(&self.wake),
            self.effort,
        );
    }

    /// Asks for what the page shown needs and is not asked for yet, and takes in what has come
    /// back. The sentences say what went wrong.
    pub fn follow(
        &mut self,
        revision: u64,
        survey: &Arc<Survey>,
        page: Page,
        wanted: Wanted,
    ) -> Vec<String> {
        let mut refused = Vec::new();
        if self.uncertainty_asked != Some(revision) {
            self.uncertainty_asked = Some(revision);
            refused.push(
                self.uncertainty_work
                    .submit((revision, Arc::clone(survey), ())),
            );
        }
        if page == Page::AirChange && self.understood_asked != Some(revision) {
            self.understood_asked = Some(revision);
            let asked = (revision, Arc::clone(survey), ());
            refused.push(self.understood_work.submit(asked));
        }
        if page == Page::SealingPlan {
            let aim = wanted.aim;
            if self.sealing_asked != Some((revision, aim)) {
                self.sealing_asked = Some((revision, aim));
                let asked = (revision, Arc::clone(survey), aim);
                refused.push(self.sealing_work.submit(asked));
            }
            let key = wanted.budget.map(|sum| (revision, aim, sum.to_bits()));
            if self.budget_asked != key {
                self.budget_asked = key;
                match wanted.budget {
                    Some(budget) => {
                        let asked = (revision, Arc::clone(survey), (aim, budget));
                        refused.push(self.budget_work.submit(asked));
                    }
                    None => {
                        self.budget_work.stop();
                        self.best = None;
                    }
                }
            }
        }
        let mut sentences: Vec<String> = refused.into_iter().filter_map(Result::err).collect();
        self.collect(&mut sentences);
        sentences
    }

    fn collect(&mut self, sentences: &mut Vec<String>) {
        let (parts, sentence) = self.uncertainty_work.collect();
        sentences.extend(sentence);
        if let Some(newest) = parts.into_iter().last() {
            self.uncertainty = Some(newest);
        }
        let (parts, sentence) = self.sealing_work.collect();
        sentences.extend(sentence);
        for Dated { revision, answer } in parts {
            match answer {
                SealingPart::Ranking(answer) => self.ranking = Some(Dated { revision, answer }),
                SealingPart::Order(answer) => self.order = Some(Dated { revision, answer }),
                SealingPart::Ticked(ticked) => {
                    let answer = *ticked;
                    self.ticked = Some(Dated { revision, answer });
                }
            }
        }
        let (parts, sentence) = self.understood_work.collect();
        sentences.extend(sentence);
        if let Some(newest) = parts.into_iter().last() {
            self.understood = Some(newest);
        }
        let (parts, sentence) = self.budget_work.collect();
        sentences.extend(sentence);
        if let Some(newest) = parts.into_iter().last() {
            self.best = Some(newest);
        }
    }

    /// What hangs on warmth and parking, possibly of an older revision.
    #[must_use]
    pub fn understood(&self) -> Option<&Dated<Understood>> {
        self.understood.as_ref()
    }

    /// Stops a piece of work.
    pub fn stop(&mut self, work: LongWork) {
        match work {
            LongWork::Uncertainty => self.uncertainty_work.stop(),
            LongWork::Sealing => self.sealing_work.stop(),
            LongWork::Budget => self.budget_work.stop(),
        }
    }

    /// Asks for a piece of work once more.
    pub fn again(&mut self, work: LongWork) {
        match work {
            LongWork::Uncertainty => self.uncertainty_asked = None,
            LongWork::Sealing => self.sealing_asked = None,
            LongWork::Budget => self.budget_asked = None,
        }
    }

    /// Where a piece of work stands.
    #[must_use]
    pub fn status(&self, work: LongWork) -> Status {
        match work {
            LongWork::Uncertainty => self.uncertainty_work.status(),
            LongWork::Sealing => self.sealing_work.status(),
            LongWork::Budget => self.budget_work.status(),
        }
    }

    /// How sure the results of this revision are.
    #[must_use]
    pub fn uncertainty(&self, revision: u64) -> Option<&Answer<Uncertainty>> {
        let dated = self.uncertainty.as_ref()?;
        (dated.revision == revision).then_some(&dated.answer)
    }

    /// The newest ranking, possibly of an older revision.
    #[must_use]
    pub fn ranking(&self) -> Option<&Dated<Answer<Ranking>>> {
        self.ranking.as_ref()
    }

    /// The newest plan as ticked, possibly of an older revision.
    #[must_use]
    pub fn ticked(&self) -> Option<&Dated<Ticked>> {
        self.ticked.as_ref()
    }

    /// The newest order in which to seal, possibly of an older revision.
    #[must_use]
    pub fn order(&self) -> Option<&Dated<Answer<Order>>> {
        self.order.as_ref()
    }

    /// The newest set within a budget, possibly of an older revision.
    #[must_use]
    pub fn best(&self) -> Option<&Dated<Best>> {
        self.best.as_ref()
    }
}
