//! What keeps a record from being removed: what else in the survey depends on it.

use super::Survey;
use super::fan_test::{Covered, FanTest};
use super::ids::{FanTestId, SeriesId, SpaceId};

impl Survey {
    /// The first gap, fan or opening that names a space.
    pub(super) fn uses_of(&self, space: SpaceId) -> Option<String> {
        let gap = self.gaps.iter().find(|gap| gap.space == Some(space));
        let fan = self.fans.iter().find(|fan| fan.space == Some(space));
        let mut openings = self.inner_openings.iter();
        let opening = openings.find(|opening| opening.from == space || opening.to == space);
        gap.map(|gap| format!("gap {}", gap.id))
            .or_else(|| fan.map(|fan| format!("fan {}", fan.id)))
            .or_else(|| opening.map(|opening| format!("inner opening {}", opening.id)))
    }

    /// The first opening, in words, that is still covered for a test and that its new state would
    /// forget. An opening may be named anew while it stays covered, and ticked while it keeps its name.
    pub(super) fn would_forget(&self, new: &FanTest) -> Option<String> {
        let old = self.fan_test(new.id)?;
        let is_shorter = new.covered.len() < old.covered.len();
        let kept = |at: usize, one: &Covered| {
            let mut all = new.covered.iter();
            let named = all.any(|other| other.gap == one.gap && other.what == one.what);
            let named_anew = new.covered.get(at).filter(|_| !is_shorter);
            named || named_anew.is_some_and(|other| !other.uncovered)
        };
        let covered = old.covered.iter().enumerate();
        let mut gone = covered.filter(|(at, one)| !one.uncovered && !kept(*at, one));
        gone.next().map(|(_, one)| self.covered_in_words(one))
    }

    /// The first opening that is still covered for a test, in words.
    pub(super) fn covers_still(&self, id: FanTestId) -> Option<String> {
        let covered = self.fan_test(id)?.still_covered().next()?;
        Some(self.covered_in_words(covered))
    }

    /// The first trial that stands on a logger's readings, in words.
    pub(super) fn trial_with(&self, id: SeriesId) -> Option<String> {
        let mut trials = self.trials.iter();
        let trial = trials.find(|one| [one.inside, one.outside].contains(&Some(id)))?;
        Some(super::findings::numbered("trial", trial.id, &trial.name))
    }
}
