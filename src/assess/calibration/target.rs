//! What a measurement asks of a draw: the number measured, how sure it is, and what the gaps have to
//! do with it.

use crate::assess::answer::{Answer, NotKnown};
use crate::assess::measured::{AirOutcome, Expected, FanOutcome, InWeather};
use crate::assess::spread::{DISCHARGE, sigma_within};
use crate::assess::uncertainty::UncertainInput;
use crate::physics::flow_law::Gas;
use crate::survey::GapId;
use std::sync::Arc;

/// Pressure at which a fan test is held against the survey, Pa.
pub(crate) const PRESSURE: f64 = 50.0;

/// What is predicted of a draw.
#[derive(Clone, Debug)]
pub(crate) enum What {
    /// The flow of these gaps at 50 Pa, m³/s.
    Flow50Pa(Vec<Expected>),
    /// The outside air that comes in in the weather of a test, kg/s.
    Inflow(Arc<InWeather>),
}

/// A number measured.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    /// Its logarithm.
    pub(crate) ln: f64,
    /// Standard deviation of that.
    pub(crate) sigma: f64,
    /// Logarithm of what the survey leads one to expect.
    pub(crate) ln_expected: f64,
    /// By how much the logarithm of what is expected changes with that of the flow of each gap.
    pub(crate) parts: Vec<(GapId, f64)>,
    /// By how much it changes with one standard deviation of each input that is no gap's size.
    pub(crate) besides: Vec<(UncertainInput, f64)>,
    pub(crate) what: What,
}

impl Target {
    /// What a fan test asks: the flow at 50 Pa in the state that was tested.
    ///
    /// # Errors
    /// [`NotKnown`] where the test is not valid by the standard, its limits hold zero, or nothing is
    /// expected of the state.
    pub(super) fn of_fan_test(outcome: &FanOutcome) -> Answer<Self> {
        if !outcome.is_valid() {
            return Err(NotKnown::because("it is not valid by the standard"));
        }
        let predicted = outcome.predicted.as_ref().map_err(Clone::clone)?;
        let flow_at = |one: &Expected, discharge: f64| {
            let curve = one.flow.at_discharge(&Gas::REFERENCE, discharge);
            curve.flow(PRESSURE)
        };
        let gaps = predicted.gaps();
        let whole: f64 = gaps.iter().map(|one| flow_at(one, 1.0)).sum();
        if whole <= 0.0 {
            return Err(NotKnown::because("nothing leaks by the survey"));
        }
        let one_sigma = sigma_within(DISCHARGE).exp();
        let eased: f64 = gaps.iter().map(|one| flow_at(one, one_sigma)).sum();
        Ok(Self {
            ln: outcome.flow_50pa.value.ln(),
            sigma: outcome.sigma()?,
            ln_expected: whole.ln(),
            parts: gaps
                .iter()
                .map(|one| (one.gap, flow_at(one, 1.0) / whole))
                .collect(),
            besides: vec![(UncertainInput::Discharge, (eased / whole).ln())],
            what: What::Flow50Pa(gaps.to_vec()),
        })
    }

    /// What a test of the air change asks: the outside air in its state and its weather.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change, or what is expected of it, is not.
    pub(super) fn of_air_test(outcome: &AirOutcome) -> Answer<Self> {
        let expected = outcome.expected.as_ref().map_err(Clone::clone)?;
        Ok(Self {
            ln: outcome.inflow_kg_s.clone()?.value.ln(),
            sigma: outcome.sigma()?,
            ln_expected: expected.inflow_kg_s.ln(),
            parts: expected.parts.clone(),
            besides: expected.besides.clone(),
            what: What::Inflow(Arc::clone(&expected.state)),
        })
    }
}
