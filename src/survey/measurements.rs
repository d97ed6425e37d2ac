//! What was measured in a survey, by its numbers.

use super::Survey;
use super::air_test::AirTest;
use super::ids::{AirTestId, SeriesId, TrialId};
use super::logger::LoggerSeries;
use super::trial::{Period, Ran, Trial};

impl Survey {
    /// The test of the air change with this id.
    #[must_use]
    pub fn air_test(&self, id: AirTestId) -> Option<&AirTest> {
        self.air_tests.iter().find(|test| test.id == id)
    }

    /// The logger's readings with this id.
    #[must_use]
    pub fn logger(&self, id: SeriesId) -> Option<&LoggerSeries> {
        self.series.iter().find(|series| series.id == id)
    }

    /// The trial with this id.
    #[must_use]
    pub fn trial(&self, id: TrialId) -> Option<&Trial> {
        self.trials.iter().find(|trial| trial.id == id)
    }

    /// Whether a trial, or the check of a logger, stands on readings of loggers.
    #[must_use]
    pub fn asks_for_readings(&self) -> bool {
        !self.trials.is_empty() || self.series.iter().any(|series| series.check.is_some())
    }

    /// What ran through a period, in a few words.
    #[must_use]
    pub fn ran_in_words(&self, period: &Period) -> String {
        let machine = period
            .machine
            .and_then(|id| self.machines.iter().find(|machine| machine.id == id));
        let heater = period
            .heater
            .and_then(|id| self.heaters.iter().find(|heater| heater.id == id));
        let words = match period.ran {
            Ran::Nothing => return Ran::Nothing.name().to_owned(),
            Ran::NotSaid => return Ran::NotSaid.name().to_owned(),
            Ran::Other => period.words.trim().to_owned(),
            Ran::Equipment => [
                heater.map(|heater| heater.name.trim()),
                machine.map(|machine| machine.name.trim()),
            ]
            .into_iter()
            .flatten()
            .filter(|name| !name.is_empty())
            .collect::<Vec<_>>()
            .join(" + "),
        };
        if words.is_empty() {
            format!("period {}", period.id)
        } else {
            words
        }
    }
}
