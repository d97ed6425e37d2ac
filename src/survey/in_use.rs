//! What keeps a record from being removed: what else in the survey depends on it.

use super::Survey;
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
