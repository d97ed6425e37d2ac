//! What each draw predicts of the measurements.

use super::input::{Spread, UncertainInput};
use super::round::Drawn;
use crate::assess::calibration::{Target, What};
use crate::physics::flow_law::{FlowLaw, GapFlow, Gas};

/// Pressure at which a fan test is held against a draw, Pa.
const PRESSURE: f64 = 50.0;

/// A measurement made ready.
pub(super) struct Ready {
    /// Logarithm of what was measured.
    pub(super) ln: f64,
    /// Standard deviation of that.
    pub(super) sigma: f64,
    gaps: Vec<ReadyGap>,
}

struct ReadyGap {
    input: UncertainInput,
    spread: Spread,
    unintended: bool,
    flow: GapFlow,
    /// Its flow with sharp edges as they are, m³/s, where it hangs on nothing else.
    fixed: Option<f64>,
}

impl Ready {
    pub(super) fn of(target: &Target) -> Self {
        let What::Flow50Pa(gaps) = &target.what;
        let gap = |one: &crate::assess::measured::Expected| {
            let fixed =
                matches!(one.flow.law(), FlowLaw::Power { .. }) && one.flow.behind_area().is_none();
            ReadyGap {
                input: UncertainInput::Gap(one.gap),
                spread: Spread::of_gap(one.certainty),
                unintended: one.unintended,
                flow: one.flow,
                fixed: fixed.then(|| one.flow.at(&Gas::REFERENCE).flow(PRESSURE)),
            }
        };
        Self {
            ln: target.ln,
            sigma: target.sigma,
            gaps: gaps.iter().map(gap).collect(),
        }
    }

    /// Logarithm of what a draw predicts, with the factors common to all gaps and to the unintended
    /// ones, and the one on sharp edges.
    pub(super) fn predicted(&self, drawn: &Drawn<'_>, common: &Common) -> f64 {
        let gaps = self.gaps.iter().map(|gap| {
            let flow = gap.fixed.unwrap_or_else(|| {
                let curve = gap.flow.at_discharge(&Gas::REFERENCE, common.discharge);
                curve.flow(PRESSURE)
            });
            let found = if gap.unintended { common.found } else { 1.0 };
            flow * drawn.of(gap.input, gap.spread) * common.surveyor * found
        });
        gaps.sum::<f64>().ln()
    }

    /// Logarithm of how likely the measurement is where that was predicted.
    pub(super) fn ln_likelihood(&self, predicted: f64) -> f64 {
        let apart = (self.ln - predicted) / self.sigma;
        -0.5 * apart * apart
    }
}

/// What a draw has in common for all gaps.
#[derive(Clone, Copy, Debug)]
pub(super) struct Common {
    /// The surveyor's factor.
    pub(super) surveyor: f64,
    /// The factor on all unintended leakage.
    pub(super) found: f64,
    /// The factor on the discharge of sharp edges.
    pub(super) discharge: f64,
}
