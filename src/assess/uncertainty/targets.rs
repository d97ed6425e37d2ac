//! What each draw predicts of the measurements.

use super::input::{Spread, UncertainInput};
use super::round::Drawn;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::calibration::{Target, What};
use crate::assess::measured::InWeather;
use crate::assess::model::{Varied, Want, Workbench};
use crate::physics::flow_law::{FlowLaw, GapFlow, Gas};
use crate::physics::pressure_coefficient::Underside;
use std::sync::Arc;

/// Pressure at which a fan test is held against a draw, Pa.
const PRESSURE: f64 = 50.0;
/// Imbalance left in a draw, as a share of the through-flow.
const TOLERANCE: f64 = 1e-4;
/// The winds of tests have keys of their own, behind those of all inputs.
const WINDS: u64 = 1 << 40;

/// A measurement made ready.
pub(super) struct Ready {
    /// Logarithm of what was measured.
    pub(super) ln: f64,
    /// Standard deviation of that.
    pub(super) sigma: f64,
    what: Asked,
}

enum Asked {
    Flow50Pa(Vec<ReadyGap>),
    Inflow {
        state: Arc<InWeather>,
        /// The key of the wind of its test.
        wind: u64,
    },
}

struct ReadyGap {
    input: UncertainInput,
    spread: Spread,
    unintended: bool,
    flow: GapFlow,
    /// Its flow with sharp edges as they are, m³/s, where it hangs on nothing else.
    fixed: Option<f64>,
}

/// Memory to work a measurement out in; none where it takes none.
pub(super) type Room = Option<(Workbench, Varied)>;

impl Ready {
    /// The measurement at this place in their list.
    pub(super) fn of(at: u32, target: &Target) -> Self {
        let what = match &target.what {
            What::Flow50Pa(gaps) => Asked::Flow50Pa(
                gaps.iter()
                    .map(|one| {
                        let fixed = matches!(one.flow.law(), FlowLaw::Power { .. })
                            && one.flow.behind_area().is_none();
                        ReadyGap {
                            input: UncertainInput::Gap(one.gap),
                            spread: Spread::of_gap(one.certainty),
                            unintended: one.unintended,
                            flow: one.flow,
                            fixed: fixed.then(|| one.flow.at(&Gas::REFERENCE).flow(PRESSURE)),
                        }
                    })
                    .collect(),
            ),
            What::Inflow(state) => Asked::Inflow {
                state: Arc::clone(state),
                wind: WINDS + u64::from(at),
            },
        };
        Self {
            ln: target.ln,
            sigma: target.sigma,
            what,
        }
    }

    /// Memory for [`Ready::predicted`].
    pub(super) fn room(&self) -> Room {
        match &self.what {
            Asked::Flow50Pa(_) => None,
            Asked::Inflow { state, .. } => {
                Some((state.model.workbench(), state.model.as_surveyed(TOLERANCE)))
            }
        }
    }

    /// Logarithm of what a draw predicts.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(super) fn predicted(
        &self,
        drawn: &Drawn<'_>,
        common: &Common,
        room: &mut Room,
    ) -> Answer<f64> {
        match (&self.what, room) {
            (Asked::Flow50Pa(gaps), _) => Ok(at_50_pa(gaps, drawn, common)),
            (Asked::Inflow { state, wind }, Some((bench, varied))) => {
                vary(state, varied, drawn, common);
                let spread = Spread::of_common(UncertainInput::Wind, state.model.underside);
                varied.wind = spread.at(drawn.normal_of(*wind));
                state.model.evaluate(bench, varied, Want::Recorded)?;
                let inflow = bench.inflows.first().map(|inflow| inflow.recorded.ln());
                inflow.ok_or_else(|| NotKnown::because("there is no weather"))
            }
            (Asked::Inflow { .. }, None) => Err(NotKnown::because("there is no room to work in")),
        }
    }

    /// Logarithm of how likely the measurement is where that was predicted.
    pub(super) fn ln_likelihood(&self, predicted: f64) -> f64 {
        let apart = (self.ln - predicted) / self.sigma;
        -0.5 * apart * apart
    }
}

fn at_50_pa(gaps: &[ReadyGap], drawn: &Drawn<'_>, common: &Common) -> f64 {
    let gaps = gaps.iter().map(|gap| {
        let flow = gap.fixed.unwrap_or_else(|| {
            let curve = gap.flow.at_discharge(&Gas::REFERENCE, common.discharge);
            curve.flow(PRESSURE)
        });
        let found = if gap.unintended { common.found } else { 1.0 };
        flow * drawn.of(gap.input, gap.spread) * common.surveyor * found
    });
    gaps.sum::<f64>().ln()
}

/// The vehicle of a test with what was drawn.
fn vary(state: &InWeather, varied: &mut Varied, drawn: &Drawn<'_>, common: &Common) {
    for (factor, leak) in varied.factors.iter_mut().zip(&state.leaks) {
        let own = drawn.of(
            UncertainInput::Gap(leak.gap),
            Spread::of_gap(leak.certainty),
        );
        let found = if leak.unintended { common.found } else { 1.0 };
        *factor = own * common.surveyor * found;
    }
    for (factor, (id, certainty)) in varied.inner_factors.iter_mut().zip(&state.inner) {
        let own = drawn.of(
            UncertainInput::InnerOpening(*id),
            Spread::of_gap(*certainty),
        );
        *factor = own * common.surveyor;
    }
    let underside = state.model.underside;
    let of = |input| drawn.of(input, Spread::of_common(input, underside));
    varied.discharge = common.discharge;
    varied.walls = of(UncertainInput::WallPressure);
    varied.gusts = of(UncertainInput::Gusts);
    let underfloor = of(UncertainInput::UnderfloorPressure);
    match underside {
        Underside::ClosedOneSide => varied.underfloor_shift = underfloor,
        Underside::Open | Underside::SkirtedLeaking | Underside::SkirtedTight => {
            varied.underfloor = underfloor;
        }
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
