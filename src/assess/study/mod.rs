//! One survey and everything that is worked out about it, each thing once.
//!
//! A [`Study`] is made for one state of a survey. It prepares the survey once, works out each
//! part when it is first asked for, and keeps it: the pages of the window, the paper and the
//! headless commands share one study and so tell the same numbers. It may be shared between
//! threads; who asks for a part that another thread is working out waits for it.
//!
//! It starts no thread itself. What takes long comes in pieces ([`Study::trials`],
//! [`Study::order_by`]) or can be watched and given up ([`Study::best`]).
//!
//! ```
//! use gapledger::assess::Study;
//! use gapledger::assess::sealing::Aim;
//! use gapledger::survey::file;
//! let survey = file::load("sample-surveys/farmyard-caravan.ron".as_ref())?.survey;
//! let study = Study::of(&survey);
//! let season = study.assessment().season_ach_per_h.clone()?;
//! let ranking = study.ranking(Aim::AchWindy).as_ref().map_err(Clone::clone)?;
//! assert!(ranking.ranked[0].saves.ach_season_per_h.clone()? < season);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
#![expect(
    clippy::indexing_slicing,
    reason = "every part and every aim has its place in a list of that length"
)]

mod calibrated;
mod first;
mod loggers;
mod measured;
mod order;
mod part;
mod planned;
mod watched;
mod winter;
mod wished;

pub use part::Part;
use watched::unless_given_up;

use super::answer::{Answer, Assessment};
use super::assessment::assessment;
use super::calibration::Calibration;
use super::curves::{TemperatureCurve, WindCurve};
use super::drying::{AfterPlan, Comparison};
use super::in_short::First;
use super::measured::Measured;
use super::measured::trial::{Loggers, Tried};
use super::model::Model;
use super::parking::Parking;
use super::prepared::Prepared;
use super::sealing::{
    Aim, Chosen, Order, Plan, PlannedWork, Prospect, Ranking, Sealable, Watch, Wish, Work, after,
    marked_planned, plan_of,
};
use super::spaces::ClosingEffect;
use super::uncertainty::{Trials, Uncertainty};
use super::wind_choices::WindChoices;
use super::winter::{Doubted, Laid, Throughout};
use super::{curves, drying, parking, spaces, wind_choices};
use crate::survey::{Gap, Survey, WorkState, leave};
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, TryLockError};

/// Compares the options of drying and heating for the set-up that the survey shows and, where gaps
/// are planned, once more with those sealed.
///
/// # Errors
/// [`NotKnown`](crate::assess::NotKnown) where nothing can be compared: the air change or the fabric is not known, a
/// target or a source is impossible, or there is no weather case.
pub fn compare(survey: &Survey) -> Answer<Comparison> {
    Study::of(survey).comparison().clone()
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

/// One survey and what is worked out about it.
pub struct Study {
    survey: Arc<Survey>,
    wish: Wish,
    kept: Kept,
}

/// What there is so far.
#[derive(Default)]
struct Kept {
    /// How often each part was worked out.
    counts: [AtomicU32; Part::ALL.len()],
    calibration: OnceLock<Arc<Calibration>>,
    prepared: OnceLock<Prepared>,
    model: OnceLock<Answer<Arc<Model>>>,
    assessment: OnceLock<Assessment>,
    comparison: OnceLock<Answer<Comparison>>,
    wind_curve: OnceLock<Answer<WindCurve>>,
    temperature_curves: OnceLock<Answer<Vec<TemperatureCurve>>>,
    wind_choices: OnceLock<WindChoices>,
    closing: OnceLock<Vec<ClosingEffect>>,
    parking: OnceLock<Answer<Parking>>,
    trials: OnceLock<Answer<Trials>>,
    uncertainty: OnceLock<Answer<Uncertainty>>,
    drawing: Mutex<()>,
    /// Thousandths of the draws that are done.
    drawn: AtomicU32,
    winter: OnceLock<Answer<Throughout>>,
    winter_bands: OnceLock<Answer<Doubted>>,
    winter_laid: OnceLock<Vec<Laid>>,
    prospect: OnceLock<Answer<Prospect>>,
    rankings: [OnceLock<Answer<Ranking>>; Aim::ALL.len()],
    orders: [OnceLock<Answer<Order>>; Aim::ALL.len()],
    best: Mutex<Vec<Arc<Best>>>,
    planned_work: OnceLock<PlannedWork>,
    as_planned: OnceLock<Answer<Box<Study>>>,
    work: OnceLock<Answer<Work>>,
    first: OnceLock<Answer<Option<First>>>,
    with_first: OnceLock<Option<Answer<Box<Study>>>>,
    measured: OnceLock<Measured>,
    loggers: OnceLock<Loggers>,
    tried: OnceLock<Tried>,
    ordered: OnceLock<Option<Box<Study>>>,
    as_surveyed: OnceLock<Option<Box<Study>>>,
    before_work: OnceLock<Option<Box<Study>>>,
    after_work: OnceLock<Option<Box<Study>>>,
}

impl Study {
    /// Nothing worked out yet.
    #[must_use]
    pub fn new(survey: Arc<Survey>) -> Self {
        Self::wishing(survey, Wish::default())
    }

    /// Nothing worked out yet; its work goes by a wish.
    #[must_use]
    pub fn wishing(survey: Arc<Survey>, wish: Wish) -> Self {
        Self {
            survey,
            wish,
            kept: Kept::default(),
        }
    }

    /// A study of a copy of the survey.
    #[must_use]
    pub fn of(survey: &Survey) -> Self {
        Self::new(Arc::new(survey.clone()))
    }

    /// The survey.
    #[must_use]
    pub fn survey(&self) -> &Arc<Survey> {
        &self.survey
    }

    /// How often a part was worked out for this survey: never, or once; the ranking and the order
    /// once for each aim, the best set once for each aim and sum.
    #[must_use]
    pub fn count(&self, part: Part) -> u32 {
        self.kept.counts[part as usize].load(Ordering::Relaxed)
    }

    fn counted(&self, part: Part) {
        self.kept.counts[part as usize].fetch_add(1, Ordering::Relaxed);
    }

    fn once<'a, T>(&self, cell: &'a OnceLock<T>, part: Part, work: impl FnOnce() -> T) -> &'a T {
        cell.get_or_init(|| {
            self.counted(part);
            work()
        })
    }

    pub(crate) fn prepared(&self) -> &Prepared {
        self.once(&self.kept.prepared, Part::Preparation, || {
            Prepared::new(&self.survey, self.calibration().factors())
        })
    }

    pub(crate) fn model(&self) -> Answer<Arc<Model>> {
        let model = || Model::new(&self.survey, self.prepared(), false).map(Arc::new);
        self.once(&self.kept.model, Part::Model, model).clone()
    }

    /// Leakage, air change, water, heat and safety, with the findings.
    pub fn assessment(&self) -> &Assessment {
        self.once(&self.kept.assessment, Part::Assessment, || {
            assessment(&self.survey, self.prepared())
        })
    }

    /// The options of drying and heating, as [`compare`](super::compare) gives them.
    pub fn comparison(&self) -> &Answer<Comparison> {
        self.once(&self.kept.comparison, Part::Comparison, || {
            let mut comparison =
                drying::as_it_stands(&self.survey, self.prepared(), &self.assessment().cases)?;
            comparison.after_plan = self.after_plan();
            Ok(comparison)
        })
    }

    /// The options as it stands, without what a plan would change.
    fn comparison_as_it_stands(&self) -> Answer<Comparison> {
        drying::as_it_stands(&self.survey, self.prepared(), &self.assessment().cases)
    }

    /// Air change against wind, with the air states of the first weather case; not known where
    /// the air change itself is not.
    pub fn wind_curve(&self) -> &Answer<WindCurve> {
        self.once(&self.kept.wind_curve, Part::WindCurve, || {
            curves::ach_against_wind(&self.survey, self.prepared())
        })
    }

    /// Air change against how much warmer it is inside, one curve for each weather case; not
    /// known where the air change itself is not.
    pub fn temperature_curves(&self) -> &Answer<Vec<TemperatureCurve>> {
        let part = Part::TemperatureCurves;
        self.once(&self.kept.temperature_curves, part, || {
            curves::ach_against_temperature(&self.survey, self.prepared())
        })
    }

    /// The sets of pressure coefficients, and how the space under the floor stands to the wind,
    /// side by side: how much hangs on the choice.
    pub fn wind_choices(&self) -> &WindChoices {
        self.once(&self.kept.wind_choices, Part::WindChoices, || {
            let factors = self.calibration().factors();
            wind_choices::wind_choices(&self.survey, factors, self.assessment())
        })
    }

    /// What closing each inner opening that closes does, with all else as it stands.
    pub fn closing_effects(&self) -> &Vec<ClosingEffect> {
        self.once(&self.kept.closing, Part::Closing, || {
            spaces::closing_effects(&self.survey, self.calibration().factors())
        })
    }

    /// How to park for the prevailing wind; not known where that or the air change is not.
    pub fn parking(&self) -> &Answer<Parking> {
        self.once(&self.kept.parking, Part::Parking, || {
            parking::parking(&self.survey, self.assessment())
        })
    }

    /// The survey made ready for the draws of what is in doubt.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the air change itself is not.
    pub fn trials(&self) -> Answer<&Trials> {
        let trials = self.kept.trials.get_or_init(|| self.made_ready_for_draws());
        trials.as_ref().map_err(Clone::clone)
    }

    /// How sure the results are, once somebody has made the draws.
    #[must_use]
    pub fn uncertainty(&self) -> Option<&Answer<Uncertainty>> {
        self.kept.uncertainty.get()
    }

    /// Leave to make the draws; `None` while somebody else is making them.
    #[must_use]
    pub fn begin_draws(&self) -> Option<Drawing<'_>> {
        let lock = match self.kept.drawing.try_lock() {
            Ok(lock) => lock,
            // Whoever fell while drawing left nothing half done.
            Err(TryLockError::Poisoned(lock)) => lock.into_inner(),
            Err(TryLockError::WouldBlock) => return None,
        };
        Some(Drawing {
            study: self,
            _lock: lock,
        })
    }

    /// The share of the draws that is done, 0…1, whoever makes them.
    #[must_use]
    pub fn drawn_share(&self) -> f64 {
        f64::from(self.kept.drawn.load(Ordering::Relaxed)) / THOUSAND
    }

    /// The survey made ready to be sealed.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the air change itself is not.
    pub fn prospect(&self) -> Answer<&Prospect> {
        let prospect = || Prospect::of(&self.survey, self.model()?);
        let prospect = self.kept.prospect.get_or_init(prospect);
        prospect.as_ref().map_err(Clone::clone)
    }

    /// What sealing each gap alone saves, the greatest saving first; not known where the aim's
    /// figure is not.
    pub fn ranking(&self, aim: Aim) -> &Answer<Ranking> {
        self.once(&self.kept.rankings[aim as usize], Part::Ranking, || {
            self.prospect()?.ranking(aim)
        })
    }

    /// The set of gaps that saves most of the aim for a sum, as a plan; `None` where `watch` gave
    /// it up.
    pub fn best(&self, aim: Aim, budget: f64, watch: Watch<'_>) -> Option<Arc<Best>> {
        let same = |best: &&Arc<Best>| best.aim == aim && best.budget.to_bits() == budget.to_bits();
        if let Some(found) = lock(&self.kept.best).iter().find(same) {
            return Some(Arc::clone(found));
        }
        let plan = unless_given_up(watch, |watch| {
            let chosen = self.prospect()?.best_within_watched(aim, budget, watch)?;
            self.plan(&chosen)
        })?;
        self.counted(Part::Best);
        let best = Arc::new(Best { aim, budget, plan });
        lock(&self.kept.best).push(Arc::clone(&best));
        Some(best)
    }

    /// Works out a plan of these gaps.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the air change itself is not, or as [`after`].
    pub fn plan(&self, sealables: &[Sealable]) -> Answer<Plan> {
        let done = self.with_survey(after(&self.survey, sealables)?);
        self.plan_with(&done, sealables)
    }

    /// The plan of the gaps that the surveyor marked.
    pub fn planned_work(&self) -> &PlannedWork {
        self.once(&self.kept.planned_work, Part::Planned, || {
            let (sealables, refused) = marked_planned(&self.survey);
            let plan = || self.plan_with(self.as_planned()?, &sealables);
            PlannedWork {
                plan: (!sealables.is_empty()).then(plan),
                refused,
            }
        })
    }

    fn plan_with(&self, done: &Self, sealables: &[Sealable]) -> Answer<Plan> {
        let both = (self.assessment(), done.assessment());
        plan_of(&self.survey, self.prospect()?, both, sealables)
    }

    /// What the options come to once the planned gaps are sealed; `None` while none is planned.
    fn after_plan(&self) -> Option<AfterPlan> {
        let (sealables, _) = marked_planned(&self.survey);
        let comparison = || self.as_planned()?.comparison().clone().map(Box::new);
        (!sealables.is_empty()).then(|| AfterPlan {
            gaps: sealables.iter().map(Sealable::gap).collect(),
            comparison: comparison(),
        })
    }

    /// The survey with the planned gaps sealed.
    ///
    /// # Errors
    /// As [`after`].
    pub(super) fn as_planned(&self) -> Answer<&Self> {
        let done = self.kept.as_planned.get_or_init(|| {
            let (sealables, _) = marked_planned(&self.survey);
            let done = after(&self.survey, &sealables)?;
            Ok(Box::new(self.with_survey(done)))
        });
        done.as_deref().map_err(Clone::clone)
    }

    /// The work that a sheet sets out: the planned gaps, or a proposal where none is planned; not
    /// known where the air change itself is not.
    pub fn work(&self) -> &Answer<Work> {
        self.once(&self.kept.work, Part::Work, || {
            let ranking = |aim| self.ranking(aim).as_ref().map_err(Clone::clone);
            let plan = |chosen, sealables: &[Sealable]| match (chosen, &self.planned_work().plan) {
                (Chosen::Planned, Some(plan)) => plan.clone(),
                _ => self.plan(sealables),
            };
            let prospect = self.prospect()?;
            let aim = self.work_aim()?;
            let best = self
                .best_wished(&mut |_| ControlFlow::Continue(()))
                .map(|best| {
                    let plan = best.plan.as_ref().map_err(Clone::clone);
                    let gaps =
                        |plan: &Plan| plan.gaps.iter().map(|gap| gap.sealable.clone()).collect();
                    plan.map(gaps)
                });
            Work::of(
                &self.survey,
                prospect,
                (aim, best.transpose()?),
                ranking,
                plan,
            )
        })
    }

    /// The survey as it was when the order was placed, so that its work can be told again once it is
    /// done; itself where nothing of an order is, or a sum is named: the best set for that is new work.
    pub fn ordered(&self) -> &Self {
        let ordered = self.kept.ordered.get_or_init(|| {
            let ordered = self
                .survey
                .as_ordered()
                .filter(|_| self.wish.budget.is_none())?;
            let mut ordered = self.with_survey(ordered);
            ordered.wish = self.wish;
            Some(Box::new(ordered))
        });
        ordered.as_deref().unwrap_or(self)
    }

    /// The survey as it was before anything was sealed.
    pub fn before_work(&self) -> &Self {
        self.opened(&self.kept.before_work, |_| true)
    }

    /// The survey as it is now. What must be opened again at once counts as open.
    pub fn after_work(&self) -> &Self {
        self.opened(&self.kept.after_work, |gap| leave::never(&self.survey, gap))
    }

    /// The survey with some of the sealed gaps open; itself where there are none of those.
    fn opened<'a>(
        &'a self,
        cell: &'a OnceLock<Option<Box<Self>>>,
        which: impl Fn(&Gap) -> bool,
    ) -> &'a Self {
        let opened = cell.get_or_init(|| {
            let opens = |gap: &Gap| gap.state == WorkState::Sealed && which(gap);
            if !self.survey.gaps.iter().any(opens) {
                return None;
            }
            let mut survey = Survey::clone(&self.survey);
            for gap in survey.gaps.iter_mut().filter(|gap| opens(gap)) {
                gap.state = WorkState::Open;
            }
            Some(Box::new(self.with_survey(survey)))
        });
        opened.as_deref().unwrap_or(self)
    }
}

const THOUSAND: f64 = 1000.0;

/// Leave to make the draws of a study. Dropped before the end, it leaves them to the next.
pub struct Drawing<'a> {
    study: &'a Study,
    _lock: MutexGuard<'a, ()>,
}

impl Drawing<'_> {
    /// Tells that so much is done, 0…1.
    pub fn reached(&self, share: f64) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held to 0 to 1000"
        )]
        let drawn = (share.clamp(0.0, 1.0) * THOUSAND) as u32;
        self.study.kept.drawn.store(drawn, Ordering::Relaxed);
    }

    /// Keeps what came of them.
    pub fn finish(self, uncertainty: Answer<Uncertainty>) {
        let study = self.study;
        study.counted(Part::Uncertainty);
        // Whoever has the leave is the only one.
        let _ = study.kept.uncertainty.set(uncertainty);
    }
}

/// A poisoned lock only means that somebody panicked; what is behind it is still whole.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
