//! Results on a worker thread: the window never waits.
//!
//! A snapshot of the survey goes in, answers come out. Only the newest snapshot is worked out;
//! older ones that are still waiting are dropped. A panic in the work becomes a message.

use crate::assess::{self, Answer, Assessment, Comparison, NotKnown, Study, WindCurve};
use crate::sheet::unprintable;
use crate::survey::{Finding, Survey};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};

/// Answers and the revision of the survey they are for.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    /// Revision of the survey.
    pub revision: u64,
    /// The answers.
    pub assessment: Assessment,
    /// ACH against wind speed; it comes a moment later and may be of an older revision.
    pub wind_curve: Answer<WindCurve>,
    /// Revision of the wind curve.
    pub wind_curve_revision: u64,
    /// The options for drying and heating; they come last and may be of an older revision.
    pub comparison: Answer<Comparison>,
    /// Revision of the comparison.
    pub comparison_revision: u64,
}

/// Runs a piece of work, on a thread of its own or, in tests, at once.
pub type Spawner = Arc<dyn Fn(Box<dyn FnOnce() + Send>) -> std::io::Result<()> + Send + Sync>;

/// Runs each piece of work on a named thread.
#[must_use]
pub fn on_a_thread() -> Spawner {
    on_a_thread_named("results")
}

/// Runs each piece of work on a thread of this name.
#[must_use]
pub fn on_a_thread_named(name: &'static str) -> Spawner {
    Arc::new(move |work| {
        std::thread::Builder::new()
            .name(name.to_owned())
            .spawn(work)
            .map(|_| ())
    })
}

/// Runs each piece of work at once, for tests.
#[must_use]
pub fn inline() -> Spawner {
    Arc::new(|work| {
        work();
        Ok(())
    })
}

/// What the worker sends back.
enum Message {
    Assessed(u64, Box<Assessment>),
    Curve(u64, Answer<WindCurve>),
    Compared(u64, Box<Answer<Comparison>>),
    Failed(String),
}

#[derive(Default)]
struct Waiting {
    newest: Option<(u64, Arc<Survey>)>,
    working: bool,
}

/// Hands snapshots to the worker and collects its answers.
pub struct Jobs {
    spawner: Spawner,
    waiting: Arc<Mutex<Waiting>>,
    sender: SyncSender<Message>,
    receiver: Receiver<Message>,
    wake: Arc<dyn Fn() + Send + Sync>,
    results: Option<Results>,
    /// Findings from elsewhere, such as about photos, that stand beside those of the results.
    noted: Vec<Finding>,
}

/// Messages that may wait for the window; the worker then waits too.
const MESSAGES_WAITING: usize = 8;

impl Jobs {
    /// No results yet. `wake` is called from the worker whenever something is ready.
    #[must_use]
    pub fn new(spawner: Spawner, wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        let (sender, receiver) = sync_channel(MESSAGES_WAITING);
        Self {
            spawner,
            waiting: Arc::default(),
            sender,
            receiver,
            wake,
            results: None,
            noted: Vec::new(),
        }
    }

    /// The newest results.
    #[must_use]
    pub fn results(&self) -> Option<&Results> {
        self.results.as_ref()
    }

    /// Forgets results, for a survey of another file. Answers still on their way are dropped.
    pub fn forget(&mut self) {
        let fresh = Self::new(Arc::clone(&self.spawner), Arc::clone(&self.wake));
        *self = fresh;
    }

    /// Puts findings from elsewhere beside those of the results, in place of earlier ones.
    pub fn note(&mut self, findings: Vec<Finding>) {
        let before = std::mem::replace(&mut self.noted, findings);
        if let Some(results) = &mut self.results {
            let findings = &mut results.assessment.findings;
            findings.retain(|finding| !before.contains(finding));
            put_beside(findings, &self.noted);
        }
    }

    /// Asks for the results of a survey.
    ///
    /// # Errors
    /// A sentence, when no worker could be started.
    pub fn submit(&mut self, revision: u64, survey: Arc<Survey>) -> Result<(), String> {
        let start = {
            let mut waiting = lock(&self.waiting);
            waiting.newest = Some((revision, survey));
            !std::mem::replace(&mut waiting.working, true)
        };
        if !start {
            return Ok(());
        }
        let waiting = Arc::clone(&self.waiting);
        let sender = self.sender.clone();
        let wake = Arc::clone(&self.wake);
        let started = (self.spawner)(Box::new(move || work(&waiting, &sender, &*wake)));
        started.map_err(|error| {
            lock(&self.waiting).working = false;
            format!("The results could not be worked out, because no worker started: {error}.")
        })
    }

    /// Takes in what has come back. The sentences say what went wrong.
    pub fn collect(&mut self) -> Vec<String> {
        let mut sentences = Vec::new();
        while let Ok(message) = self.receiver.try_recv() {
            match message {
                Message::Assessed(revision, assessment) => self.take(revision, *assessment),
                Message::Curve(revision, curve) => {
                    if let Some(results) = &mut self.results {
                        results.wind_curve = curve;
                        results.wind_curve_revision = revision;
                    }
                }
                Message::Compared(revision, comparison) => {
                    if let Some(results) = &mut self.results {
                        results.comparison = *comparison;
                        results.comparison_revision = revision;
                    }
                }
                Message::Failed(sentence) => sentences.push(sentence),
            }
        }
        sentences
    }

    /// Curve and comparison stay until the new ones come.
    fn take(&mut self, revision: u64, mut assessment: Assessment) {
        put_beside(&mut assessment.findings, &self.noted);
        match &mut self.results {
            Some(results) => {
                results.revision = revision;
                results.assessment = assessment;
            }
            None => {
                let not_yet = NotKnown::because("it is being worked out");
                self.results = Some(Results {
                    revision,
                    assessment,
                    wind_curve: Err(not_yet.clone()),
                    wind_curve_revision: 0,
                    comparison: Err(not_yet),
                    comparison_revision: 0,
                });
            }
        }
    }
}

fn put_beside(findings: &mut Vec<Finding>, noted: &[Finding]) {
    if !noted.is_empty() {
        findings.extend_from_slice(noted);
        findings.sort_by_key(|finding| finding.severity);
    }
}

/// A poisoned lock only means that a worker panicked; what waits behind it is still whole.
fn lock(waiting: &Mutex<Waiting>) -> std::sync::MutexGuard<'_, Waiting> {
    waiting.lock().unwrap_or_else(PoisonError::into_inner)
}

fn newest(waiting: &Mutex<Waiting>) -> Option<(u64, Arc<Survey>)> {
    let mut waiting = lock(waiting);
    let newest = waiting.newest.take();
    waiting.working = newest.is_some();
    newest
}

/// Works out the newest survey, the most urgent answers first, and gives up on what is left of it
/// as soon as a newer one waits.
fn work(waiting: &Mutex<Waiting>, sender: &SyncSender<Message>, wake: &(dyn Fn() + Send + Sync)) {
    const PARTS: [fn(u64, &Survey) -> Message; 3] = [
        |revision, survey| Message::Assessed(revision, Box::new(assessed(survey))),
        |revision, survey| Message::Curve(revision, Study::of(survey).wind_curve().clone()),
        |revision, survey| Message::Compared(revision, Box::new(assess::compare(survey))),
    ];
    while let Some((revision, survey)) = newest(waiting) {
        for part in PARTS {
            let message = catch_unwind(AssertUnwindSafe(|| part(revision, &survey)));
            let failed = message.is_err();
            let message = message.unwrap_or_else(|_| Message::Failed(panicked()));
            let sent = send(sender, wake, message);
            if failed || !sent || lock(waiting).newest.is_some() {
                break;
            }
        }
    }
}

/// The answers, with what sheets cannot print among the findings.
fn assessed(survey: &Survey) -> Assessment {
    let mut assessment = assess::assess(survey);
    put_beside(&mut assessment.findings, &unprintable(survey));
    assessment
}

fn panicked() -> String {
    "Working out the results failed inside the program. The survey is safe: save it, and report \
     what you did last."
        .to_owned()
}

fn send(sender: &SyncSender<Message>, wake: &(dyn Fn() + Send + Sync), message: Message) -> bool {
    let sent = sender.send(message).is_ok();
    wake();
    sent
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;
    use std::sync::atomic::{AtomicUsize, Ordering};

    type Held = Arc<Mutex<Vec<Box<dyn FnOnce() + Send>>>>;

    fn held() -> (Held, Spawner) {
        let held: Held = Arc::default();
        let kept = Arc::clone(&held);
        let spawner: Spawner = Arc::new(move |work| {
            kept.lock().unwrap().push(work);
            Ok(())
        });
        (held, spawner)
    }

    #[test]
    fn only_the_newest_waiting_survey_is_worked_out() {
        let (held, spawner) = held();
        let woken = Arc::new(AtomicUsize::new(0));
        let count = Arc::clone(&woken);
        let wake = Arc::new(move || {
            count.fetch_add(1, Ordering::Relaxed);
        });
        let mut jobs = Jobs::new(spawner, wake);
        for revision in 1..=5 {
            let survey = Arc::new(Survey::new(VehicleKind::Other));
            jobs.submit(revision, survey).unwrap();
        }
        let work = std::mem::take(&mut *held.lock().unwrap());
        assert_eq!(work.len(), 1);
        for piece in work {
            piece();
        }
        assert!(jobs.collect().is_empty());
        let results = jobs.results().unwrap();
        assert_eq!((results.revision, results.wind_curve_revision), (5, 5));
        assert_eq!(results.comparison_revision, 5);
        assert_eq!(woken.load(Ordering::Relaxed), 3);
    }

    #[test]
    fn a_later_survey_starts_a_worker_again() {
        let mut jobs = Jobs::new(inline(), Arc::new(|| {}));
        for revision in 1..=3 {
            let survey = Arc::new(Survey::new(VehicleKind::Other));
            jobs.submit(revision, survey).unwrap();
            jobs.collect();
            assert_eq!(jobs.results().unwrap().revision, revision);
        }
    }

    #[test]
    fn a_worker_that_cannot_start_is_told_and_tried_again() {
        let refusing: Spawner = Arc::new(|_| Err(std::io::Error::other("no threads left")));
        let mut jobs = Jobs::new(refusing, Arc::new(|| {}));
        for revision in 1..=2 {
            let survey = Arc::new(Survey::new(VehicleKind::Other));
            let refused = jobs.submit(revision, survey).unwrap_err();
            assert!(refused.contains("no threads left"));
        }
    }
}
