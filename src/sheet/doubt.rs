//! How sure the results are, worked out on all processors.

use crate::assess::uncertainty::{DRAWS, SEED, Trials, Uncertainty};
use crate::assess::{Answer, NotKnown};
use crate::survey::Survey;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// Draws of one piece.
const PIECE: u32 = 250;

/// The doubt about a survey's results; the same on any number of processors.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not, and where `cancel` was set before the end.
pub fn doubt(survey: &Survey, cancel: &AtomicBool) -> Answer<Uncertainty> {
    doubt_told(survey, cancel, &|_| {})
}

/// [`doubt`], with `tell` called from any thread whenever more is done, as a share of all.
///
/// # Errors
/// As [`doubt`].
pub fn doubt_told(
    survey: &Survey,
    cancel: &AtomicBool,
    tell: &(dyn Fn(f32) + Sync),
) -> Answer<Uncertainty> {
    let trials = Trials::new(survey)?;
    let pieces: Vec<Range<u32>> = (0..DRAWS.div_ceil(PIECE))
        .map(|piece| piece * PIECE..((piece + 1) * PIECE).min(DRAWS))
        .collect();
    let next = AtomicU32::new(0);
    let done = Mutex::new(Vec::with_capacity(pieces.len()));
    let work = || {
        while !cancel.load(Ordering::Relaxed) {
            let at = usize::try_from(next.fetch_add(1, Ordering::Relaxed));
            let Some(piece) = at.ok().and_then(|at| pieces.get(at)) else {
                return;
            };
            let chunk = trials.draw_chunk(SEED, piece.clone());
            let mut done = done.lock().unwrap_or_else(PoisonError::into_inner);
            done.push(chunk);
            #[expect(clippy::cast_precision_loss, reason = "some dozens of pieces")]
            tell(done.len() as f32 / pieces.len() as f32);
        }
    };
    let workers = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 1..workers.min(pieces.len()) {
            let _ = thread::Builder::new()
                .name("draws".to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    let chunks = done.into_inner().unwrap_or_else(PoisonError::into_inner);
    if chunks.len() < pieces.len() {
        return Err(NotKnown::because("it was cancelled"));
    }
    trials.combine(SEED, chunks)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file;

    #[test]
    fn a_cancelled_doubt_is_not_known() {
        let text = include_str!("../../sample-surveys/two-opening-check.ron");
        let survey = file::parse(text).expect("a sample");
        let unknown = doubt(&survey, &AtomicBool::new(true)).expect_err("cancelled");
        assert_eq!(unknown.reason, "it was cancelled");
    }
}
