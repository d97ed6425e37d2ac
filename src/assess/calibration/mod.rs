//! The survey brought down to earth: what was measured weighs what is expected.
//!
//! Every gap's flow is uncertain, and so is what nobody found. A measurement of the whole vehicle
//! says which of all that is likely. Two things come of it: a factor on the flow of every gap, in
//! closed form, with which all plain results are worked out (`Factors`); and a weight for every
//! draw of the uncertainty, in `assess/uncertainty`, from which the intervals follow.

mod closed_form;
mod target;
#[cfg(test)]
mod tests;

pub(crate) use target::{Target, What};

use super::answer::Answer;
use super::answer::NotKnown;
use super::factors::Factors;
use super::measured::{AirOutcome, FanOutcome, Verdict};
use super::prepared::Prepared;
use super::spread::sigma_of_size;
use crate::survey::{AirTestId, FanTestId, Survey, leave};
use closed_form::Sized;

/// A measurement of the whole vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MeasurementId {
    /// A fan test.
    FanTest(FanTestId),
    /// A test of the air change.
    AirTest(AirTestId),
}

/// A measurement that weighs.
#[derive(Clone, Debug)]
pub struct Weighed {
    /// Which it is.
    pub of: MeasurementId,
    /// How it stands to the survey, before any of both is changed.
    pub verdict: Verdict,
    pub(crate) target: Target,
}

/// Whether the whole vehicle was measured.
#[must_use]
pub fn is_measured(survey: &Survey) -> bool {
    !survey.fan_tests.is_empty() || !survey.air_tests.is_empty()
}

/// What measurements make of a survey.
#[derive(Clone, Debug, Default)]
pub struct Calibration {
    /// The measurements that weigh, in the survey's order; none where nothing was measured or it is
    /// turned off.
    pub by: Vec<Weighed>,
    /// Those that do not, and why.
    pub not_by: Vec<(MeasurementId, NotKnown)>,
    /// Pairs of those that weigh and contradict each other.
    pub against_each_other: Vec<(MeasurementId, MeasurementId)>,
    factors: Factors,
}

impl Calibration {
    /// What the measurements of a survey make of it.
    pub(crate) fn of(survey: &Survey) -> Self {
        if !survey.calibrated || !is_measured(survey) {
            return Self::default();
        }
        let prepared = Prepared::new(survey, &Factors::default());
        let (mut by, mut not_by) = (Vec::new(), Vec::new());
        let fan_tests = survey.fan_tests.iter().map(|test| {
            let weighed = FanOutcome::of(survey, &prepared, test)
                .and_then(|outcome| Ok((outcome.verdict()?, Target::of_fan_test(&outcome)?)));
            (MeasurementId::FanTest(test.id), weighed)
        });
        let air_tests = survey.air_tests.iter().map(|test| {
            let weighed = AirOutcome::of(survey, &prepared, test)
                .and_then(|outcome| Ok((outcome.verdict()?, Target::of_air_test(&outcome)?)));
            (MeasurementId::AirTest(test.id), weighed)
        });
        let all: Vec<(MeasurementId, Answer<(Verdict, Target)>)> =
            fan_tests.chain(air_tests).collect();
        for (of, weighed) in all {
            match weighed {
                Ok((verdict, target)) => by.push(Weighed {
                    of,
                    verdict,
                    target,
                }),
                Err(why) => not_by.push((of, why)),
            }
        }
        if by.is_empty() {
            return Self {
                not_by,
                ..Self::default()
            };
        }
        let gaps = survey.gaps.iter().map(|gap| Sized {
            gap: gap.id,
            sigma: sigma_of_size(gap.certainty),
            unintended: leave::counts_as_leak(survey, gap),
        });
        let gaps: Vec<Sized> = gaps.collect();
        let seen: Vec<&Target> = by.iter().map(|one| &one.target).collect();
        let pairs = closed_form::contradictions(&gaps, &seen).into_iter();
        let pairs = pairs.filter_map(|(one, other)| Some((by.get(one)?.of, by.get(other)?.of)));
        Self {
            against_each_other: pairs.collect(),
            factors: Factors::of(closed_form::factors(&gaps, &seen)),
            by,
            not_by,
        }
    }

    /// Whether any measurement weighs.
    #[must_use]
    pub fn is_any(&self) -> bool {
        !self.by.is_empty()
    }

    /// Those that weigh and contradict the survey.
    #[must_use]
    pub fn against_the_survey(&self) -> Vec<MeasurementId> {
        let against = self.by.iter().filter(|one| one.verdict != Verdict::Agrees);
        against.map(|one| one.of).collect()
    }

    /// What it makes of the flow of each gap.
    pub(crate) fn factors(&self) -> &Factors {
        &self.factors
    }
}
