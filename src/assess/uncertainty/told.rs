//! What the draws tell.

use super::input::UncertainInput;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::interval::Interval;
use crate::survey::{Certainty, Item, WeatherId};

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

/// Fewest draws of which 95 % can be said.
pub(super) const FEWEST_DRAWS: usize = 100;

pub(super) fn too_few(draws: usize) -> NotKnown {
    NotKnown::because(format!(
        "{draws} draws are too few for an interval: at least {FEWEST_DRAWS} are needed"
    ))
}
