//! What is worked out of the open survey, in the background, and what is there of it.
//!
//! Every revision of the survey has one [`Study`], which pages, job sheet and files share. Tasks
//! work out its parts, the most urgent first; the window shows the newest of each part and says
//! where that is of an older revision. Longer work is done for the page that shows it alone, and
//! can be stopped.
#![expect(
    clippy::indexing_slicing,
    reason = "every part has its place in a list of that length"
)]

mod asked;
mod effort;
mod follow;
mod work;

pub use asked::{Revised, Wanted};
pub use effort::Effort;

use super::background::{Line, Manner, Spawner, Status, Task, Wake};
use super::page::Page;
use crate::assess::sealing::{Aim, Order, PlannedWork, Ranking};
use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, Assessment, Best, Comparison, NotKnown, Part, Study, WindCurve};
use crate::survey::{Finding, Survey};
use asked::{Asked, Data};
use std::ops::ControlFlow;
use std::path::PathBuf;
use std::sync::Arc;

/// Longer work that a user can stop and ask for again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LongWork {
    /// How sure the results are.
    Uncertainty,
    /// The order in which to seal.
    Sealing,
    /// The best set within a budget.
    Budget,
    /// The winter hour by hour.
    Winter,
    /// How sure the winter is.
    WinterBands,
    /// What loggers read, and what trials say.
    Trials,
}

/// An answer and the survey's revision it is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dated<T> {
    /// Revision of the survey.
    pub revision: u64,
    /// The answer.
    pub answer: T,
}

/// The results of the newest survey that has any, and what has come to them.
pub struct Results {
    /// Revision of the survey.
    pub revision: u64,
    /// All findings: of the survey, of what sheets cannot print, and of what was noted elsewhere.
    pub findings: Vec<Finding>,
    of: Arc<Revised>,
    curve: Option<Arc<Revised>>,
    compared: Option<Arc<Revised>>,
    not_yet: (Answer<WindCurve>, Answer<Comparison>),
}

impl Results {
    /// The survey's answers.
    #[must_use]
    pub fn assessment(&self) -> &Assessment {
        self.of.study.assessment()
    }

    /// Air change against wind speed; it comes a moment later and may be of an older revision.
    pub fn wind_curve(&self) -> &Answer<WindCurve> {
        let curve = self.curve.as_ref();
        curve.map_or(&self.not_yet.0, |of| of.study.wind_curve())
    }

    /// Revision of the air change against wind speed; `None` until it is there.
    #[must_use]
    pub fn wind_curve_revision(&self) -> Option<u64> {
        self.curve.as_ref().map(|of| of.revision)
    }

    /// The options for drying and heating; they come last and may be of an older revision.
    pub fn comparison(&self) -> &Answer<Comparison> {
        let compared = self.compared.as_ref();
        compared.map_or(&self.not_yet.1, |of| of.study.comparison())
    }

    /// Revision of the comparison.
    #[must_use]
    pub fn comparison_revision(&self) -> u64 {
        self.compared.as_ref().map_or(0, |of| of.revision)
    }

    /// The study of these results, of which the assessment is there.
    #[must_use]
    pub fn study(&self) -> &Study {
        &self.of.study
    }
}

/// One kind of work on the study, and what was asked of it last.
struct Job {
    task: Task<Asked, (Asked, Part)>,
    asked: Option<(u64, Wanted)>,
}

impl Job {
    /// Asks for it unless just that was asked for.
    fn want(&mut self, of: &Arc<Revised>, wanted: Wanted, sentences: &mut Vec<String>) {
        let key = Some((of.revision, wanted));
        if self.asked != key {
            self.asked = key;
            let of = Arc::clone(of);
            sentences.extend(self.task.submit(Asked { of, wanted }).err());
        }
    }

    /// Gives it up where it is of an older survey.
    fn give_up_older(&mut self, revision: u64) {
        let older = self.asked.is_some_and(|(asked, _)| asked < revision);
        if older && matches!(self.task.status(), Status::Working(_)) {
            self.task.forget();
        }
    }
}

/// What is worked out of the open survey.
pub struct Answers {
    spawner: Spawner,
    wake: Wake,
    effort: Effort,
    newest: Option<Arc<Revised>>,
    results_job: Job,
    uncertainty_job: Job,
    dependence_job: Job,
    sealing_job: Job,
    first_job: Job,
    budget_job: Job,
    winter_job: Job,
    winter_bands_job: Job,
    trials_job: Job,
    data: Data,
    folder: Option<PathBuf>,
    results: Option<Results>,
    /// Findings from elsewhere, such as about photos.
    noted: Vec<Finding>,
    /// The newest of each part but the results.
    there: [Option<Asked>; Part::ALL.len()],
    best: Option<Dated<Arc<Best>>>,
}

impl Answers {
    /// Nothing asked yet. `wake` is called from workers whenever something is ready.
    #[must_use]
    pub fn new(spawner: Spawner, wake: Wake, effort: Effort) -> Self {
        let job = |manner, work: fn(&Asked, Effort, &Line<'_, (Asked, Part)>)| Job {
            task: Task::new(&spawner, &wake, manner, move |asked: Asked, line| {
                work(&asked, effort, line);
            }),
            asked: None,
        };
        Self {
            results_job: job(
                Manner::at_once("The results could not be worked out"),
                work::results,
            ),
            uncertainty_job: job(
                Manner::after(
                    effort.pause,
                    "How sure the results are could not be worked out",
                ),
                work::uncertainty,
            ),
            dependence_job: job(
                Manner::at_once("What hangs on warmth and parking could not be worked out"),
                work::dependence,
            ),
            sealing_job: job(
                Manner::at_once("What to seal could not be worked out"),
                work::sealing,
            ),
            first_job: job(
                Manner::at_once("What stands in short could not be worked out"),
                work::first,
            ),
            budget_job: job(
                Manner::after(
                    effort.pause,
                    "The best set within the budget could not be worked out",
                ),
                work::budget,
            ),
            winter_job: job(
                Manner::after(effort.pause, "The winter could not be worked out"),
                work::winter,
            ),
            winter_bands_job: job(
                Manner::at_once("How sure the winter is could not be worked out"),
                work::winter_bands,
            ),
            trials_job: job(
                Manner::at_once("What the trials say could not be worked out"),
                work::trials,
            ),
            data: Data::default(),
            folder: None,
            spawner,
            wake,
            effort,
            newest: None,
            results: None,
            noted: Vec::new(),
            there: std::array::from_fn(|_| None),
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
        let mut sentences = Vec::new();
        let of = self.of(revision, survey);
        let any = Wanted {
            aim: Aim::AchWindy,
            budget: None,
        };
        // Results that are nearly there are waited for: whoever types fast sees them move.
        self.collect(&mut sentences);
        if !self.assessing() {
            self.results_job.want(&of, any, &mut sentences);
        }
        self.uncertainty_job.want(&of, any, &mut sentences);
        if page == Page::AirChange {
            self.dependence_job.want(&of, any, &mut sentences);
        }
        if page == Page::InShort {
            self.first_job.want(&of, any, &mut sentences);
        }
        if matches!(page, Page::Winter | Page::InShort) {
            self.winter_job.want(&of, any, &mut sentences);
        }
        self.follow_bands(&of, page, any, &mut sentences);
        self.follow_trials(&of, page, any, &mut sentences);
        if page == Page::SealingPlan {
            let budget = None;
            let of_aim = Wanted { budget, ..wanted };
            self.sealing_job.want(&of, of_aim, &mut sentences);
            if wanted.budget.is_some() {
                self.budget_job.want(&of, wanted, &mut sentences);
            } else if self.budget_job.asked.take().is_some() {
                self.budget_job.task.stop();
                self.best = None;
            }
        }
        self.collect(&mut sentences);
        sentences
    }

    /// Says in which folder the survey's file stands, for studies from now on.
    pub fn stand_in(&mut self, folder: Option<PathBuf>) {
        self.folder = folder;
    }

    /// The study of the survey as it is now, whatever is there of it.
    pub fn of(&mut self, revision: u64, survey: &Arc<Survey>) -> Arc<Revised> {
        let newest = self.newest.take().filter(|of| of.revision == revision);
        let newest = newest.unwrap_or_else(|| {
            let folder = self.folder.clone();
            Arc::new(Revised::new(revision, survey, folder, self.data.clone()))
        });
        Arc::clone(self.newest.insert(newest))
    }

    /// Whether an older survey's assessment is still on its way.
    fn assessing(&self) -> bool {
        let there = self.results.as_ref().map(|results| results.revision);
        let asked = self.results_job.asked.map(|(revision, _)| revision);
        let working = matches!(self.results_job.task.status(), Status::Working(_));
        working && asked != there
    }

    /// Every kind of work, the results first.
    fn jobs(&mut self) -> [&mut Job; 9] {
        [
            &mut self.results_job,
            &mut self.uncertainty_job,
            &mut self.dependence_job,
            &mut self.sealing_job,
            &mut self.first_job,
            &mut self.budget_job,
            &mut self.winter_job,
            &mut self.winter_bands_job,
            &mut self.trials_job,
        ]
    }

    fn collect(&mut self, sentences: &mut Vec<String>) {
        let mut all = Vec::new();
        for job in self.jobs() {
            let (parts, sentence) = job.task.collect();
            all.extend(parts);
            sentences.extend(sentence);
        }
        for (asked, part) in all {
            self.take(asked, part);
        }
    }

    /// What was there before of curve and comparison stays until the new ones come.
    fn take(&mut self, asked: Asked, part: Part) {
        let of = Arc::clone(&asked.of);
        match (part, &mut self.results) {
            (Part::Assessment, Some(results)) => {
                (results.revision, results.of) = (of.revision, of);
                results.findings = findings(&results.of, &self.noted);
            }
            (Part::Assessment, none) => *none = Some(first_results(of, &self.noted)),
            (Part::WindCurve, Some(results)) => results.curve = Some(of),
            (Part::Comparison, Some(results)) => results.compared = Some(of),
            (Part::Best, _) => {
                // It is there: nothing is searched here.
                let budget = asked.wanted.budget.unwrap_or_default();
                let stop = &mut |_| ControlFlow::Break(());
                let best = of.study.best(asked.wanted.aim, budget, stop);
                self.best = best.map(|answer| Dated {
                    revision: of.revision,
                    answer,
                });
            }
            _ => self.there[part as usize] = Some(asked),
        }
    }

    /// Puts findings from elsewhere beside those of the results, in place of earlier ones.
    pub fn note(&mut self, noted: Vec<Finding>) {
        self.noted = noted;
        if let Some(results) = &mut self.results {
            results.findings = findings(&results.of, &self.noted);
        }
    }

    /// Stops a piece of work.
    pub fn stop(&mut self, work: LongWork) {
        self.job_mut(work).task.stop();
    }

    /// Asks for a piece of work once more.
    pub fn again(&mut self, work: LongWork) {
        self.job_mut(work).asked = None;
    }

    /// Where a piece of work stands.
    #[must_use]
    pub fn status(&self, work: LongWork) -> Status {
        match work {
            LongWork::Uncertainty => self.uncertainty_job.task.status(),
            LongWork::Sealing => self.sealing_job.task.status(),
            LongWork::Budget => self.budget_job.task.status(),
            LongWork::Winter => self.winter_job.task.status(),
            LongWork::WinterBands => self.winter_bands_job.task.status(),
            LongWork::Trials => self.trials_job.task.status(),
        }
    }

    fn job_mut(&mut self, work: LongWork) -> &mut Job {
        match work {
            LongWork::Uncertainty => &mut self.uncertainty_job,
            LongWork::Sealing => &mut self.sealing_job,
            LongWork::Budget => &mut self.budget_job,
            LongWork::Winter => &mut self.winter_job,
            LongWork::WinterBands => &mut self.winter_bands_job,
            LongWork::Trials => &mut self.trials_job,
        }
    }

    /// The newest results.
    #[must_use]
    pub fn results(&self) -> Option<&Results> {
        self.results.as_ref()
    }

    /// How sure the results of this revision are.
    #[must_use]
    pub fn uncertainty(&self, revision: u64) -> Option<&Answer<Uncertainty>> {
        let of = self.newest.as_ref()?;
        (of.revision == revision).then(|| of.study.uncertainty())?
    }

    /// The newest study with warmth, parking, pressure coefficients and doors inside, possibly of
    /// an older revision.
    #[must_use]
    pub fn dependence(&self) -> Option<&Study> {
        Some(&self.there(Part::Parking)?.of.study)
    }

    /// The newest ranking, possibly of an older revision.
    #[must_use]
    pub fn ranking(&self) -> Option<Dated<&Answer<Ranking>>> {
        self.dated(Part::Ranking, |study, aim| study.ranking(aim))
    }

    /// The newest study with the gaps to seal first and all else that the page In short tells, and its
    /// revision, possibly an older one.
    #[must_use]
    pub fn first_work(&self) -> Option<(u64, &Study)> {
        let asked = self.there(Part::First)?;
        Some((asked.of.revision, &asked.of.study))
    }

    /// The newest plan of the gaps marked, possibly of an older revision.
    #[must_use]
    pub fn planned_work(&self) -> Option<Dated<&PlannedWork>> {
        self.dated(Part::Planned, |study, _| study.planned_work())
    }

    /// The newest order in which to seal, possibly of an older revision.
    #[must_use]
    pub fn order(&self) -> Option<Dated<&Answer<Order>>> {
        self.dated(Part::Order, |study, aim| study.order(aim))
    }

    /// The newest set within a budget, possibly of an older revision.
    #[must_use]
    pub fn best(&self) -> Option<&Dated<Arc<Best>>> {
        self.best.as_ref()
    }

    fn there(&self, part: Part) -> Option<&Asked> {
        self.there[part as usize].as_ref()
    }

    fn dated<'a, T>(
        &'a self,
        part: Part,
        answer: impl Fn(&'a Study, Aim) -> T,
    ) -> Option<Dated<T>> {
        let asked = self.there(part)?;
        Some(Dated {
            revision: asked.of.revision,
            answer: answer(&asked.of.study, asked.wanted.aim),
        })
    }
}

fn first_results(of: Arc<Revised>, noted: &[Finding]) -> Results {
    let not_yet = NotKnown::because("it is being worked out");
    Results {
        revision: of.revision,
        findings: findings(&of, noted),
        of,
        curve: None,
        compared: None,
        not_yet: (Err(not_yet.clone()), Err(not_yet)),
    }
}

/// Everything found, the gravest first.
fn findings(of: &Revised, noted: &[Finding]) -> Vec<Finding> {
    let unprintable = of.unprintable.get().into_iter().flatten();
    let files = of.files.get().into_iter().flatten();
    let found = of.study.assessment().findings.iter();
    let mut all: Vec<Finding> = found
        .chain(unprintable)
        .chain(files)
        .chain(noted)
        .cloned()
        .collect();
    all.sort_by_key(|finding| finding.severity);
    all
}

#[cfg(test)]
mod tests;
