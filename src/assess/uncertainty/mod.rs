//! How sure the results are, and what to measure next.
//!
//! JCGM 101:2008, propagation of distributions by Monte Carlo \[M\]: every uncertain input is drawn
//! from its distribution, the vehicle is worked out again with what was drawn, and the middle
//! 95 % of the answers is the interval. The headline stays the plain result.
//!
//! | what | distribution | source |
//! |---|---|---|
//! | flow of each gap | lognormal, mean 1, 95 % factor 1.2 measured, 1.6 estimated, 3 guessed | \[A\] |
//! | flow of each inner opening | the same by how its size was found | \[A\] |
//! | the surveyor, common to all gaps and inner openings | lognormal, mean 1, ±15 % | \[A\] |
//! | leakage not found | lognormal round the stated share, 95 % factor 3 | \[A\] |
//! | the same where measurements weigh: a factor on all unintended gaps | lognormal, mean 1, σ 0.4 | \[A\] |
//! | discharge of sharp edges | lognormal, ±8 % | \[A\] |
//! | pressure coefficients of walls and roof | lognormal, ±25 % | \[A\] |
//! | coefficient of an open underfloor and of cavities | one factor, normal, 95 % 0.5…1.5, at least 0 | \[N\] |
//! | the same, closed on one side | normal, ±0.2 round 0 | \[A\] |
//! | the same, skirted | as the walls, whose mean it is | \[A\] |
//! | wind at the body | lognormal, ±20 % | \[A\] |
//! | air exchanged by gusts, all openings on one side | 0.016…0.07 round 0.025 | \[R\] |
//!
//! Where the whole vehicle was measured, every draw also predicts what was measured and weighs as it
//! agrees with it (METHOD section *Calibration*):
//!
//! ```text
//! ln w = −½ Σ_a ((ln y_a − ln ŷ_a)/σ_a)²      N_eff = (Σ w)²/Σ w²
//! ```
//! where y_a was measured, ŷ_a is what the draw predicts, and σ_a the spread of the measurement. With
//! fewer than 400 effective draws they are made again round what the measurements point to, and their
//! weights are multiplied by how much likelier each is than its round makes it.
//!
//! The work comes in pieces: [`Trials::draw_chunk`] for any range of draws, anywhere, and
//! [`Trials::combine`] once all are there. The answer is the same to the last bit however the
//! draws were shared out.

mod combine;
mod input;
mod measure;
mod random;
mod round;
mod targets;
mod told;
mod trials;
mod weighing;

#[cfg(test)]
mod tests;

pub use super::interval::Interval;
pub use combine::{Correlations, ShareOut, one_by_one};
pub use input::{Spread, UncertainInput};
pub(crate) use random::normal;
pub use round::Round;
pub use told::{
    Calibrated, CaseUncertainty, MeasureNext, NotFound, Outweighed, Share, Uncertainty,
};
pub use trials::{Chunk, Trials};

use super::answer::{Answer, NotKnown};
use super::calibration::Calibration;
use super::factors::Factors;
use super::model::Model;
use super::prepared::Prepared;
use crate::survey::Survey;
use std::sync::Arc;

/// Draws that the program makes.
pub const DRAWS: u32 = 10_000;

/// The seed that the program uses: the same file gives the same numbers.
pub const SEED: u64 = 20_240_301;

/// All of it in one go, on the caller's thread.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not.
pub fn uncertainty(survey: &Survey, seed: u64, draws: u32) -> Answer<Uncertainty> {
    let calibration = Calibration::of(survey);
    let prepared = Prepared::new(survey, &Factors::default());
    let model = || Model::new(survey, &prepared, false).map(Arc::new);
    let trials = Trials::new(survey, &prepared, &calibration, model)?;
    let chunk = |round: &Round| Some(vec![trials.draw_in_round(seed, 0..draws, round)]);
    let found = trials.in_rounds(seed, chunk, &one_by_one);
    found.unwrap_or_else(|| Err(NotKnown::because("no draws were made")))
}
