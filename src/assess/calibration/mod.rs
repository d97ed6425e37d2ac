//! The survey brought down to earth: what was measured weighs what is expected.
//!
//! Every gap's flow is uncertain, and so is what nobody found. A measurement of the whole vehicle
//! says which of all that is likely. Two things come of it: a factor on the flow of every gap, in
//! closed form, with which all plain results are worked out ([`Factors`]); and a weight for every
//! draw of the uncertainty, in `assess/uncertainty`, from which the intervals follow.

mod closed_form;
mod target;
#[cfg(test)]
mod tests;

pub(crate) use target::{Target, What};

use super::answer::NotKnown;
use super::factors::Factors;
use super::measured::{FanOutcome, Verdict};
use super::prepared::Prepared;
use super::spread::sigma_of_size;
use crate::survey::{FanTestId, Survey, leave};
use closed_form::Sized;

/// A measurement of the whole vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MeasurementId {
    /// A fan test.
    FanTest(FanTestId),
}

/// A measurement that weighs.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// Which it is.
    pub of: MeasurementId,
    /// How it stands to the survey, before any of both is changed.
    pub verdict: Verdict,
    pub(crate) target: Target,
}

/// What measurements make of a survey.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Calibration {
    /// The measurements that weigh, in the survey's order; none where nothing was measured or it is
    /// turned off.
    pub by: Vec<Weighed>,
    /// Those that do not, and why.
    pub not_by: Vec<(MeasurementId, NotKnown)>,
    factors: Factors,
}

impl Calibration {
    /// What the measurements of a survey make of it.
    pub(crate) fn of(survey: &Survey) -> Self {
        if !survey.calibrated || survey.fan_tests.is_empty() {
            return Self::default();
        }
        let prepared = Prepared::new(survey, &Factors::default());
        let (mut by, mut not_by) = (Vec::new(), Vec::new());
        for test in &survey.fan_tests {
            let of = MeasurementId::FanTest(test.id);
            let weighed = FanOutcome::of(survey, &prepared, test).and_then(|outcome| {
                let verdict = outcome.verdict()?;
                let target = Target::of_fan_test(&outcome)?;
                Ok(Weighed {
                    of,
                    verdict,
                    target,
                })
            });
            match weighed {
                Ok(weighed) => by.push(weighed),
                Err(why) => not_by.push((of, why)),
            }
        }
        let factors = if by.is_empty() {
            Factors::default()
        } else {
            let gaps = survey.gaps.iter().map(|gap| Sized {
                gap: gap.id,
                sigma: sigma_of_size(gap.certainty),
                unintended: leave::counts_as_leak(survey, gap),
            });
            let gaps: Vec<Sized> = gaps.collect();
            let seen = by.iter().map(|one| &one.target);
            Factors::of(closed_form::factors(&gaps, &seen.collect::<Vec<_>>()))
        };
        Self {
            by,
            not_by,
            factors,
        }
    }

    /// Whether any measurement weighs.
    #[must_use]
    pub fn is_any(&self) -> bool {
        !self.by.is_empty()
    }

    /// Whether any that weighs contradicts the survey.
    #[must_use]
    pub fn is_contradicted(&self) -> bool {
        self.by.iter().any(|one| one.verdict != Verdict::Agrees)
    }

    /// What it makes of the flow of each gap.
    pub(crate) fn factors(&self) -> &Factors {
        &self.factors
    }
}
