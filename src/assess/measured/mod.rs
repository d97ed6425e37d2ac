//! What measurements say of the vehicle, and of the survey.

mod air;
#[cfg(test)]
mod air_checks;
mod fan;
mod in_weather;
mod odd;
mod predicted;
#[cfg(test)]
mod tests;
pub mod trial;
mod verdict;

pub use air::AirOutcome;
pub use fan::{FanOutcome, Fitted, way};
pub use in_weather::ExpectedAir;
pub(crate) use in_weather::InWeather;
pub use odd::{MOST_TOLD, Odd, odd};
pub(crate) use predicted::Expected;
pub use predicted::{FlowRange, Predicted};
pub(crate) use verdict::CONFLICT;
pub use verdict::Verdict;

use super::answer::{Answer, NotKnown};
use super::prepared::Prepared;
use crate::survey::{AirTestId, FanTestId, Survey};

/// What came of the measurements.
#[derive(Clone, Debug)]
pub struct Measured {
    /// One for each fan test, in the survey's order.
    pub fan_tests: Vec<(FanTestId, Answer<FanOutcome>)>,
    /// One for each test of the air change, in the survey's order.
    pub air_tests: Vec<(AirTestId, Answer<AirOutcome>)>,
    /// The flow that a fan for this vehicle has to measure.
    pub flow_range: Answer<FlowRange>,
}

impl Measured {
    /// Works out every measurement of a survey.
    pub(super) fn of(survey: &Survey, prepared: &Prepared) -> Self {
        let outcome = |test| FanOutcome::of(survey, prepared, test);
        Self {
            fan_tests: survey
                .fan_tests
                .iter()
                .map(|test| (test.id, outcome(test)))
                .collect(),
            air_tests: survey
                .air_tests
                .iter()
                .map(|test| (test.id, AirOutcome::of(survey, prepared, test)))
                .collect(),
            flow_range: predicted::flow_range(survey),
        }
    }

    /// What came of this fan test.
    ///
    /// # Errors
    /// [`NotKnown`] with the reason.
    pub fn fan_test(&self, id: FanTestId) -> Answer<&FanOutcome> {
        let found = self.fan_tests.iter().find(|(of, _)| *of == id);
        match found {
            Some((_, outcome)) => outcome.as_ref().map_err(Clone::clone),
            None => Err(NotKnown::because("there is no such test")),
        }
    }

    /// What came of this test of the air change.
    ///
    /// # Errors
    /// [`NotKnown`] with the reason.
    pub fn air_test(&self, id: AirTestId) -> Answer<&AirOutcome> {
        let found = self.air_tests.iter().find(|(of, _)| *of == id);
        match found {
            Some((_, outcome)) => outcome.as_ref().map_err(Clone::clone),
            None => Err(NotKnown::because("there is no such test")),
        }
    }
}

/// Why no completion sheet is made: something that was covered for a test is covered still, as far
/// as anybody has said.
#[must_use]
pub fn not_to_be_handed_over(survey: &Survey) -> Option<String> {
    let covered = survey
        .fan_tests
        .iter()
        .flat_map(|test| test.still_covered());
    let covered: Vec<String> = covered.map(|one| survey.covered_in_words(one)).collect();
    (!covered.is_empty()).then(|| {
        format!(
            "no completion sheet is made before everything that was covered for a fan test is uncovered \
             again and marked so on the page Measurements: {}",
            covered.join(", ")
        )
    })
}
