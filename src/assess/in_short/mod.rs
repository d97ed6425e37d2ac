//! What an owner does first: the few gaps to seal and the option to take, each worked out by doing
//! it and solving again.

mod by_season;
mod heat;
mod pick;
mod undone;

pub use by_season::{BySeason, told_sealed};
pub use heat::{ComfortHeat, comfort_heat};
pub use pick::{Pick, WINTERS, cheaper_in_time, free_and_enough, is_priced, no_reserve, pick};
pub use undone::undone;

use super::answer::Answer;
use super::drying::Comparison;
use super::sealing::{Aim, Chosen, Plan, Sealable, Work, WorkStep};

/// Gaps named to be sealed first, at least where so many save anything and at most.
const FIRST: (usize, usize) = (3, 5);
/// A gap beyond the least is named where it saves so much of what the whole work does, share
/// **\[A\]**.
const WORTH_NAMING: f64 = 0.05;

/// A part of an air change under this is as good as none: it would be told as 0 % **\[A\]**.
const NEXT_TO_NOTHING: f64 = 0.005;

/// The gaps to seal first, and the vehicle with those sealed and all else as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct First {
    /// How the gaps were chosen.
    pub chosen: Chosen,
    /// The gaps, the most saving for the money first.
    pub gaps: Vec<Sealable>,
    /// How many more the whole work holds.
    pub more: usize,
    /// What these alone cost and change.
    pub plan: Plan,
    /// The options of drying and heating with these sealed.
    pub comparison: Answer<Comparison>,
}

impl First {
    /// The part of an air change that these keep out, 0…1, of the one with most wind.
    ///
    /// # Errors
    /// [`NotKnown`](super::NotKnown) where either air change is not.
    pub fn kept_out(&self) -> Answer<f64> {
        let before = self.plan.before.ach_windy_per_h.clone()?;
        let after = self.plan.after.ach_windy_per_h.clone()?;
        Ok(kept_out(before, after))
    }

    /// Whether these keep out enough, in least or in most wind, that anybody is advised to seal them
    /// first.
    pub(crate) fn is_worth_it(&self) -> bool {
        let (before, after) = (&self.plan.before, &self.plan.after);
        let each = [
            (&before.ach_calm_per_h, &after.ach_calm_per_h),
            (&before.ach_windy_per_h, &after.ach_windy_per_h),
        ];
        each.into_iter().any(|each| match each {
            (Ok(before), Ok(after)) => kept_out(*before, *after) >= NEXT_TO_NOTHING,
            _ => true,
        })
    }
}

/// The part of an air change that is kept out, 0…1.
fn kept_out(before: f64, after: f64) -> f64 {
    if before > 0.0 {
        1.0 - after / before
    } else {
        0.0
    }
}

/// The first gaps of the work: those that were put in order because they are sized, cost something
/// known and save something.
pub(crate) fn first_gaps(work: &Work) -> Vec<Sealable> {
    let ordered = || work.steps.iter().filter(|step| step.after.is_some());
    let figure = |step: &WorkStep| {
        let after = step.after.as_ref()?;
        after.of(work.aim).ok()
    };
    let before = work.plan.before.of(work.aim).ok();
    let last = ordered().next_back().and_then(figure);
    let whole = before.zip(last).map(|(before, last)| before - last);
    let mut gaps = Vec::new();
    let mut left = before;
    for step in ordered().take(FIRST.1) {
        let saves = left.zip(figure(step)).map(|(left, after)| left - after);
        let small = saves
            .zip(whole)
            .is_some_and(|(saves, whole)| saves < WORTH_NAMING * whole);
        if gaps.len() >= FIRST.0 && small {
            break;
        }
        left = figure(step);
        gaps.push(step.sealable.clone());
    }
    gaps
}

/// What the gaps to seal first were put in order by.
#[must_use]
pub fn ordered_by(work: &Work) -> Aim {
    work.aim
}

#[cfg(test)]
mod tests;
