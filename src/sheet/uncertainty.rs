//! How sure the results are, worked out on several threads: for sheets, for the page that is
//! printed, and for the window.

use super::choices::Kind;
use crate::assess::uncertainty::{Chunk, DRAWS, SEED, Trials, Uncertainty};
use crate::assess::{Answer, NotKnown};
use crate::report::{after_the_work, before_the_work};
use crate::survey::Survey;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// Draws made in one piece: so long a thread may still be busy after it was stopped.
const PIECE: u32 = 100;

/// How sure the results on a sheet are, as far as that sheet tells.
#[derive(Clone, Debug, Default)]
pub struct Uncertainties {
    /// Of the survey as it is; on the completion sheet, of [`after_the_work`].
    pub now: Option<Uncertainty>,
    /// Of [`before_the_work`], on the completion sheet.
    pub before: Option<Uncertainty>,
}

impl Uncertainties {
    /// What a kind of sheet tells; empty where `cancel` was set before the end.
    #[must_use]
    pub fn of(kind: Kind, survey: &Survey, cancel: &AtomicBool) -> Self {
        Self::watched(kind, survey, &until(cancel))
    }

    /// The same; `watch` is told the share that is done, and says whether to go on.
    #[must_use]
    pub fn watched(
        kind: Kind,
        survey: &Survey,
        watch: &(impl Fn(f64) -> ControlFlow<()> + Sync),
    ) -> Self {
        let of = |survey: &Survey, begun: f64, share: f64| {
            let watch = |done: f64| watch(begun + share * done);
            uncertainty_watched(survey, DRAWS, processors(), &watch).ok()
        };
        match kind {
            Kind::Report => Self {
                now: of(survey, 0.0, 1.0),
                before: None,
            },
            Kind::Completion => Self {
                now: of(&after_the_work(survey), 0.0, 0.5),
                before: of(&before_the_work(survey), 0.5, 0.5),
            },
            Kind::WorkOrder => Self::default(),
        }
    }
}

/// Goes on until `cancel` is set.
fn until(cancel: &AtomicBool) -> impl Fn(f64) -> ControlFlow<()> + Sync {
    |_| {
        if cancel.load(Ordering::Relaxed) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }
}

/// The uncertainty about a survey's results, with as many draws as a sheet takes.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not, and where `cancel` was set before the end.
pub fn uncertainty(survey: &Survey, cancel: &AtomicBool) -> Answer<Uncertainty> {
    uncertainty_watched(survey, DRAWS, processors(), &until(cancel))
}

/// Threads that can work at once.
#[must_use]
pub fn processors() -> usize {
    thread::available_parallelism().map_or(1, usize::from)
}

/// The uncertainty with so many draws, in pieces on so many threads; the answer does not depend on how
/// many. Between pieces `watch` is told the share that is done, and says whether to go on.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not, where no draws are asked for, and where
/// `watch` broke off before the end.
pub fn uncertainty_watched(
    survey: &Survey,
    draws: u32,
    threads: usize,
    watch: &(impl Fn(f64) -> ControlFlow<()> + Sync),
) -> Answer<Uncertainty> {
    if draws == 0 {
        return Err(NotKnown::because("no draws were asked for"));
    }
    let trials = Trials::new(survey)?;
    let (next, done) = (AtomicU32::new(0), AtomicU32::new(0));
    let chunks: Mutex<Vec<Chunk>> = Mutex::default();
    let work = || {
        while watch(f64::from(done.load(Ordering::Relaxed)) / f64::from(draws)).is_continue() {
            let from = next.fetch_add(PIECE, Ordering::Relaxed);
            if from >= draws {
                return;
            }
            let to = draws.min(from.saturating_add(PIECE));
            let chunk = trials.draw_chunk(SEED, from..to);
            chunks
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .push(chunk);
            done.fetch_add(to - from, Ordering::Relaxed);
        }
    };
    thread::scope(|scope| {
        for _ in 1..threads {
            // Without a helper the work takes longer and comes to the same.
            let _ = thread::Builder::new()
                .name("draws".to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    if done.into_inner() < draws {
        return Err(NotKnown::because("it was cancelled"));
    }
    let chunks = chunks.into_inner().unwrap_or_else(PoisonError::into_inner);
    trials.combine(SEED, chunks)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file;

    fn sample() -> Survey {
        let text = include_str!("../../sample-surveys/two-opening-check.ron");
        file::parse(text).expect("a sample")
    }

    #[test]
    fn a_cancelled_uncertainty_is_not_known() {
        let unknown = uncertainty(&sample(), &AtomicBool::new(true)).expect_err("cancelled");
        assert_eq!(unknown.reason, "it was cancelled");
    }

    #[test]
    fn the_answer_does_not_depend_on_the_threads_and_the_last_word_is_that_all_is_done() {
        let told = Mutex::new(Vec::new());
        let watch = |share| {
            told.lock().expect("nobody fell").push(share);
            ControlFlow::Continue(())
        };
        let alone = uncertainty_watched(&sample(), 250, 1, &watch).expect("an answer");
        let shares = std::mem::take(&mut *told.lock().expect("nobody fell"));
        assert_eq!(shares, [0.0, 0.4, 0.8, 1.0]);
        let three = uncertainty_watched(&sample(), 250, 3, &watch).expect("an answer");
        assert_eq!(alone, three);
        let none = uncertainty_watched(&sample(), 0, 1, &watch).expect_err("nothing to go by");
        assert_eq!(none.reason, "no draws were asked for");
    }
}
