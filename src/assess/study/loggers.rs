//! The trials, worked out once from what was read of their files.

use super::{Part, Study};
use crate::assess::measured::trial::{Loggers, Tried};

impl Study {
    /// What came of the trials, once somebody has read their files.
    #[must_use]
    pub fn tried(&self) -> Option<&Tried> {
        self.kept.tried.get()
    }

    /// What was read of the trials’ files, once somebody has.
    #[must_use]
    pub fn loggers(&self) -> Option<&Loggers> {
        self.kept.loggers.get()
    }

    /// Works out the trials from what was read, and keeps both; the first that is kept stays.
    pub fn keep_loggers(&self, loggers: &Loggers) -> &Tried {
        let loggers = self.kept.loggers.get_or_init(|| loggers.clone());
        self.once(&self.kept.tried, Part::Trials, || {
            let compare = |survey| self.with_survey(survey).comparison_as_it_stands();
            Tried::of(&self.survey, self.prepared(), loggers, &compare)
        })
    }
}
