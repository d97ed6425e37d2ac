//! What trials say: one way of keeping dry after another, by loggers inside and outside.

mod air;
mod balance;
mod chances;
mod check;
mod compare;
mod ends;
mod ground;
mod outcome;
mod pairs;
mod predicted;
#[cfg(test)]
mod tests;

pub use air::{HourMean, Rows, hourly_means, rows, weather_rows};
pub use chances::{CHANCES, Chances};
pub use check::{OffBy, Offset, Salt, over_salt, side_by_side};
pub use compare::{Change, Day, Effect, days, days_needed, effect};
pub use ground::{Loggers, Means};
pub use outcome::{Foresight, Method, PeriodOutcome, TrialOutcome};
pub use pairs::Pair;
pub use predicted::{Expected, Span};

pub(in crate::assess::measured) use ground::clock_of;

use ground::Ground;

use crate::assess::answer::{Answer, NotKnown};
use crate::assess::drying::Comparison;
use crate::assess::prepared::Prepared;
use crate::survey::{SeriesId, Survey, Trial, TrialId};

/// What came of all trials of a survey.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// One for each trial, in the survey's order.
    pub trials: Vec<(TrialId, Answer<TrialOutcome>)>,
    /// By how much each logger is off that was checked.
    pub checks: Vec<(SeriesId, Answer<OffBy>)>,
}

impl Tried {
    /// Works out every trial. `compare` gives the options of drying and heating of a survey.
    pub(in crate::assess) fn of(
        survey: &Survey,
        prepared: &Prepared,
        loggers: &Loggers,
        compare: &dyn Fn(Survey) -> Answer<Comparison>,
    ) -> Self {
        let outcome = |trial: &Trial| {
            let ground = Ground {
                survey,
                prepared,
                loggers,
                compare,
            };
            (trial.id, outcome::outcome(&ground, trial))
        };
        Self {
            trials: survey.trials.iter().map(outcome).collect(),
            checks: check::checks(survey, loggers),
        }
    }

    /// What came of the check of a logger; `None` where it was not checked.
    #[must_use]
    pub fn check(&self, id: SeriesId) -> Option<&Answer<OffBy>> {
        let mut checks = self.checks.iter();
        checks.find(|(of, _)| *of == id).map(|(_, found)| found)
    }

    /// What came of this trial.
    ///
    /// # Errors
    /// [`NotKnown`] with the reason.
    pub fn trial(&self, id: TrialId) -> Answer<&TrialOutcome> {
        match self.trials.iter().find(|(of, _)| *of == id) {
            Some((_, outcome)) => outcome.as_ref().map_err(Clone::clone),
            None => Err(NotKnown::because("there is no such trial")),
        }
    }
}
