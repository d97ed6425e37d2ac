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
mod trials;
mod weighing;

#[cfg(test)]
mod tests;

pub use super::interval::Interval;
pub use combine::{Correlations, ShareOut, one_by_one};
pub use input::{Spread, UncertainInput};
pub(crate) use random::normal;
pub use round::Round;
pub use trials::{Chunk, Trials};

use super::answer::{Answer, NotKnown};
use super::calibration::Calibration;
use super::factors::Factors;
use super::model::Model;
use super::prepared::Prepared;
use crate::survey::{Certainty, Item, Survey, WeatherId};
use std::sync::Arc;

/// Draws that the program makes.
pub const DRAWS: u32 = 10_000;

/// The seed that the program uses: the same file gives the same numbers.
pub const SEED: u64 = 20_240_301;

/// One input's part of the spread of a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// The input.
    pub of: UncertainInput,
    /// Its part, 0…1; all parts together are 1.
    pub share: f64,
}

/// The wind, where it carries more of the uncertainty than all sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Outweighed {
    /// The part of its pressure under the floor in all uncertainty about the air change, 0…1.
    pub under_floor: f64,
    /// Of its pressure under the floor, that on walls and roof, and its speed together.
    pub wind: f64,
    /// The part of all single sizes together.
    pub sizes: f64,
    /// The same in a sentence.
    pub sentence: String,
}

/// A gap or inner opening whose size carries much of the uncertainty.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureNext {
    /// The gap, or the inner opening.
    pub item: Item,
    /// How its size was found.
    pub certainty: Certainty,
    /// Its part of the uncertainty about the air change that sizes leave, 0…1: what measuring can take
    /// away.
    pub share: f64,
    /// Its part of all uncertainty about the air change, wind and pressure coefficients included.
    pub share_of_all: f64,
    /// What to do, with which tool; `None` where no gauge would help.
    pub act: Option<String>,
    /// The same in a sentence.
    pub sentence: String,
}

/// Intervals of one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseUncertainty {
    /// The weather case.
    pub id: WeatherId,
    /// Its name.
    pub name: String,
    /// Mean air change, per hour.
    pub ach_per_h: Answer<Interval>,
    /// Water to remove at the set temperature, L/day.
    pub removal_l_per_day: Answer<Interval>,
    /// Heat to hold the set temperature, air and fabric, W. The fabric has no doubt of its own.
    pub heat_w: Answer<Interval>,
}

/// What leakage that nobody found would add, on top of the headline.
#[derive(Clone, Debug, PartialEq)]
pub struct NotFound {
    /// Share of the found leakage, %.
    pub percent: f64,
    /// Equivalent leakage area it adds, m².
    pub eqla: f64,
    /// Air change it adds in each weather case, per hour.
    pub ach_per_h: Vec<Answer<f64>>,
}

/// How sure the results are.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertainty {
    /// Number of draws.
    pub draws: u32,
    /// Seed they were made from.
    pub seed: u64,
    /// Effective leakage area of all gaps, m².
    pub ela: Interval,
    /// Equivalent leakage area of all gaps, m².
    pub eqla: Interval,
    /// Equivalent leakage area of the unintended gaps, m².
    pub eqla_unintended: Interval,
    /// Air changes at 50 Pa, per hour.
    pub n50_per_h: Answer<Interval>,
    /// One for each weather case, in the survey's order.
    pub cases: Vec<CaseUncertainty>,
    /// Mean air change over the cases by their weights, per hour.
    pub season_ach_per_h: Answer<Interval>,
    /// Parts of the spread of the season's air change, greatest first.
    pub air_change_shares: Vec<Share>,
    /// Parts of the spread of the leakage area of all gaps, greatest first.
    pub leakage_shares: Vec<Share>,
    /// Told before all measuring: the wind, where it outweighs sizes.
    pub outweighed: Option<Outweighed>,
    /// Gaps and inner openings that carry much of the uncertainty: first those that measuring helps,
    /// the best first.
    pub measure_next: Vec<MeasureNext>,
    /// Leakage not found, where the surveyor asked for it.
    pub not_found: Option<NotFound>,
    /// What it was before the measurements weighed, and what they say of leakage not found; `None`
    /// where none does.
    pub calibrated: Option<Calibrated>,
}

/// What measurements did to the draws.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibrated {
    /// How sure the results would be without the measurements, with the same leakage not found.
    pub before: Box<Uncertainty>,
    /// Equivalent leakage area that nobody found, m²; below zero where less leaks than was found.
    pub not_found_eqla: Interval,
    /// How many draws of like weight would say as much.
    pub effective_draws: f64,
    /// Rounds of draws that it took.
    pub rounds: u32,
}

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

/// Fewest draws of which 95 % can be said.
const FEWEST_DRAWS: usize = 100;

fn too_few(draws: usize) -> NotKnown {
    NotKnown::because(format!(
        "{draws} draws are too few for an interval: at least {FEWEST_DRAWS} are needed"
    ))
}
