//! What is worked out of the open survey, in the background, and what is there of it.
//!
//! Every revision of the survey has one [`Study`], which pages, job sheet and files share. Tasks
//! work out its parts, the most urgent first; the window shows the newest of each part and says
//! where that is of an older revision. Longer work is done for the page that shows it alone, and
//! can be stopped.

use super::background::{Line, Manner, Spawner, Status, Task, Wake};
use super::page::Page;
use crate::assess::sealing::{Aim, Order, Ranking, Ticked};
use crate::assess::uncertainty::{DRAWS, Uncertainty};
use crate::assess::{Answer, Assessment, Best, Comparison, NotKnown, Part, Study, WindCurve};
use crate::sheet::unprintable;
use crate::survey::{Finding, Survey};
use crate::tasks::{self, processors};
use std::ops::ControlFlow;
use std::sync::{Arc, OnceLock};
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

/// The study of one revision of the survey.
pub struct Revised {
    /// Revision of the survey.
    pub revision: u64,
    /// The study of it.
    pub study: Study,
    unprintable: OnceLock<Vec<Finding>>,
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
    #[must_use]
    pub fn wind_curve(&self) -> &Answer<WindCurve> {
        let curve = self.curve.as_ref();
        curve.map_or(&self.not_yet.0, |of| of.study.wind_curve())
    }

    /// The options for drying and heating; they come last and may be of an older revision.
    #[must_use]
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

/// What a task is given, and what it says is there.
#[derive(Clone)]
struct Asked {
    of: Arc<Revised>,
    wanted: Wanted,
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
    budget_job: Job,
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
                results,
            ),
            uncertainty_job: job(
                Manner::after(
                    effort.pause,
                    "How sure the results are could not be worked out",
                ),
                uncertainty,
            ),
            dependence_job: job(
                Manner::at_once("What hangs on warmth and parking could not be worked out"),
                dependence,
            ),
            sealing_job: job(
                Manner::at_once("What to seal could not be worked out"),
                sealing,
            ),
            budget_job: job(
                Manner::after(
                    effort.pause,
                    "The best set within the budget could not be worked out",
                ),
                budget,
            ),
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

    /// The study of the survey as it is now, whatever is there of it.
    pub fn of(&mut self, revision: u64, survey: &Arc<Survey>) -> Arc<Revised> {
        let newest = self.newest.take().filter(|of| of.revision == revision);
        let newest = newest.unwrap_or_else(|| {
            Arc::new(Revised {
                revision,
                study: Study::new(Arc::clone(survey)),
                unprintable: OnceLock::new(),
            })
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

    fn collect(&mut self, sentences: &mut Vec<String>) {
        let jobs = [
            &mut self.results_job,
            &mut self.uncertainty_job,
            &mut self.dependence_job,
            &mut self.sealing_job,
            &mut self.budget_job,
        ];
        let mut all = Vec::new();
        for job in jobs {
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
        }
    }

    fn job_mut(&mut self, work: LongWork) -> &mut Job {
        match work {
            LongWork::Uncertainty => &mut self.uncertainty_job,
            LongWork::Sealing => &mut self.sealing_job,
            LongWork::Budget => &mut self.budget_job,
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

    /// The newest plan as ticked, possibly of an older revision.
    #[must_use]
    pub fn ticked(&self) -> Option<Dated<&Ticked>> {
        self.dated(Part::Ticked, |study, _| study.ticked())
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
    let found = of.study.assessment().findings.iter();
    let mut all: Vec<Finding> = found.chain(unprintable).chain(noted).cloned().collect();
    all.sort_by_key(|finding| finding.severity);
    all
}

/// The most urgent answers first.
fn results(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let study = &asked.of.study;
    study.assessment();
    asked
        .of
        .unprintable
        .get_or_init(|| unprintable(study.survey()));
    line.send((asked.clone(), Part::Assessment));
    if line.stopped() {
        return;
    }
    study.wind_curve();
    line.send((asked.clone(), Part::WindCurve));
    if line.stopped() {
        return;
    }
    study.comparison();
    line.send((asked.clone(), Part::Comparison));
}

fn uncertainty(asked: &Asked, effort: Effort, line: &Line<'_, (Asked, Part)>) {
    let watch = |share| line.progress(share);
    let (study, Effort { draws, threads, .. }) = (&asked.of.study, effort);
    if tasks::uncertainty(study, draws, threads, &watch).is_some() {
        line.send((asked.clone(), Part::Uncertainty));
    }
}

/// The ranking and the plan as ticked first, the order after them.
fn sealing(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let (study, aim) = (&asked.of.study, asked.wanted.aim);
    study.ranking(aim);
    line.send((asked.clone(), Part::Ranking));
    if line.stopped() {
        return;
    }
    study.ticked();
    line.send((asked.clone(), Part::Ticked));
    let watch = &mut |share| line.progress(share);
    if study.order_watched(aim, watch).is_some() {
        line.send((asked.clone(), Part::Order));
    }
}

fn dependence(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let study = &asked.of.study;
    study.temperature_curves();
    study.pressure_sets();
    study.closing_effects();
    study.parking();
    line.send((asked.clone(), Part::Parking));
}

fn budget(asked: &Asked, _: Effort, line: &Line<'_, (Asked, Part)>) {
    let Wanted { aim, budget } = asked.wanted;
    let watch = &mut |share| line.progress(share);
    let found = budget.and_then(|budget| asked.of.study.best(aim, budget, watch));
    if found.is_some() {
        line.send((asked.clone(), Part::Best));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;
    use crate::window::background::{Held, held, inline};

    fn follow(answers: &mut Answers, revision: u64) -> Vec<String> {
        let survey = Arc::new(Survey::new(VehicleKind::Other));
        let wanted = Wanted {
            aim: Aim::AchWindy,
            budget: None,
        };
        answers.follow(revision, &survey, Page::Vehicle, wanted)
    }

    fn answers(spawner: Spawner) -> Answers {
        Answers::new(spawner, Arc::new(|| {}), Effort::test())
    }

    #[test]
    fn the_newest_survey_is_worked_out_and_no_other_waits() {
        let (held, spawner) = held();
        let mut answers = answers(spawner);
        for revision in 1..=5 {
            assert!(follow(&mut answers, revision).is_empty());
        }
        // The first is waited for, and then the newest of all is taken.
        for expected in [1, 5] {
            Held::run_all(&held);
            assert!(follow(&mut answers, 5).is_empty());
            assert_eq!(answers.results().unwrap().revision, expected);
        }
        assert_eq!(answers.results().unwrap().comparison_revision(), 5);
    }

    #[test]
    fn a_later_survey_starts_a_worker_again() {
        let mut answers = answers(inline());
        for revision in 1..=3 {
            assert!(follow(&mut answers, revision).is_empty());
            assert_eq!(answers.results().unwrap().revision, revision);
        }
    }

    #[test]
    fn a_worker_that_cannot_start_is_told_and_tried_again() {
        let refusing: Spawner = Arc::new(|_| Err(std::io::Error::other("no threads left")));
        let mut answers = answers(refusing);
        for revision in 1..=2 {
            let refused = follow(&mut answers, revision);
            assert!(refused[0].contains("no threads left"), "{refused:?}");
        }
    }
}
