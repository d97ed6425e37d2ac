//! What the survey leads one to expect of a fan test.

use crate::assess::answer::{Answer, NotKnown};
use crate::assess::law::{GapLaw, laws};
use crate::assess::spread::{
    DISCHARGE, NOT_FOUND, SURVEYOR, TWO_SIDED_95, sigma_of_size, sigma_within,
};
use crate::physics::GapFlow;
use crate::physics::flow_law::Gas;
use crate::physics::leakage::LeakageArea;
use crate::physics::measurement::Limits;
use crate::survey::{
    Behind, Certainty, Covered, FanTest, Gap, GapId, Survey, Tested, WorkState, date, findings,
    leave,
};
use std::collections::BTreeSet;

/// A gap of the ledger in the state of a test.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Expected {
    pub(crate) gap: GapId,
    pub(crate) flow: GapFlow,
    /// How its size was found.
    pub(crate) certainty: Certainty,
    /// Whether it is a leak, and nothing that is meant to be open.
    pub(crate) unintended: bool,
}

/// What the gaps of the ledger let through in the state of a test, at the reference air.
#[derive(Clone, Debug, PartialEq)]
pub struct Predicted {
    gaps: Vec<Expected>,
    /// Ledger lines that belong to it but have no size: it is at least so much.
    pub not_sized: usize,
}

impl Predicted {
    /// What the ledger lets through with the gaps as they stood for a test.
    ///
    /// # Errors
    /// [`NotKnown`] where no gap with a size is left.
    pub(super) fn for_test(survey: &Survey, test: &FanTest) -> Answer<Self> {
        let mut stood = in_state(survey, test.tested, &test.date);
        stood.set_up = test.set_up;
        Self::of(&stood, &shut(&stood, &test.covered))
    }

    fn of(survey: &Survey, shut: &BTreeSet<GapId>) -> Answer<Self> {
        let found = findings::find(survey);
        let laws = laws(survey, &found);
        let mut predicted = Self {
            gaps: Vec::new(),
            not_sized: 0,
        };
        for (gap, law) in survey.gaps.iter().zip(laws) {
            match law {
                _ if shut.contains(&gap.id) => {}
                GapLaw::Flows(flow) => predicted.gaps.push(Expected {
                    gap: gap.id,
                    flow,
                    certainty: gap.certainty,
                    unintended: leave::counts_as_leak(survey, gap),
                }),
                GapLaw::NotSized(_) | GapLaw::Impossible(_) => predicted.not_sized += 1,
                GapLaw::Compartment => {}
            }
        }
        if predicted.gaps.is_empty() {
            return Err(NotKnown::because(
                "no gap with a size is left open in the state that was tested",
            ));
        }
        Ok(predicted)
    }

    /// Flow at a pressure, Pa, m³/s at the reference air.
    #[must_use]
    pub fn flow_at(&self, pressure_pa: f64) -> f64 {
        self.each(pressure_pa).map(|(flow, _)| flow).sum()
    }

    /// The same with the limits that 95 % lie between, without any allowance for what nobody found.
    ///
    /// ```text
    /// s² = ln(1 + Σ Q²(e^(σ²) − 1)/(Σ Q)²) + σ_s² + σ_d²     Q e^(±1.96 s)
    /// ```
    /// where Q is the flow of each gap, σ = ln k/1.96 that of its logarithm (k 1.2 measured, 1.6
    /// estimated, 3 guessed), σ_s that of the surveyor (±15 %) and σ_d of sharp edges (±8 %), all
    /// **\[A\]**. The sum of lognormals is taken as lognormal with the same mean and variance
    /// (Fenton and Wilkinson **\[M\]**), and its middle as the plain result.
    #[must_use]
    pub fn limits_at(&self, pressure_pa: f64) -> Limits {
        let (flow, sigma) = (self.flow_at(pressure_pa), self.sigma_at(pressure_pa));
        within(flow, sigma)
    }

    /// Standard deviation of the logarithm of the flow at a pressure.
    #[must_use]
    pub fn sigma_at(&self, pressure_pa: f64) -> f64 {
        let whole = self.flow_at(pressure_pa);
        if whole <= 0.0 {
            return 0.0;
        }
        let own: f64 = self
            .each(pressure_pa)
            .map(|(flow, sigma)| (flow / whole).powi(2) * (sigma * sigma).exp_m1())
            .sum();
        let common = sigma_within(SURVEYOR).powi(2) + sigma_within(DISCHARGE).powi(2);
        (own.ln_1p() + common).sqrt()
    }

    /// The same with what nobody found.
    #[must_use]
    pub fn sigma_with_not_found(&self, pressure_pa: f64) -> f64 {
        self.sigma_at(pressure_pa).hypot(NOT_FOUND)
    }

    /// Equivalent leakage area, m².
    #[must_use]
    pub fn eqla(&self) -> f64 {
        LeakageArea::Eqla10Pa.area(self.flow_at(LeakageArea::Eqla10Pa.reference_pressure()))
    }

    /// The gaps that leak in that state.
    pub(crate) fn gaps(&self) -> &[Expected] {
        &self.gaps
    }

    fn each(&self, pressure_pa: f64) -> impl Iterator<Item = (f64, f64)> {
        self.gaps.iter().map(move |one| {
            let flow = one.flow.at(&Gas::REFERENCE).flow(pressure_pa);
            (flow, sigma_of_size(one.certainty))
        })
    }
}

/// A value with the limits of a logarithm spread so.
pub(super) fn within(value: f64, sigma: f64) -> Limits {
    Limits {
        low: value * (-TWO_SIDED_95 * sigma).exp(),
        value,
        high: value * (TWO_SIDED_95 * sigma).exp(),
    }
}

/// The flow that a fan has to reach and to measure for a vehicle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowRange {
    /// The least flow that it has to measure, m³/s: at 10 Pa, were the vehicle as tight as it may be.
    pub least: f64,
    /// The most, m³/s: at 60 Pa, were it as leaky as it may be.
    pub most: f64,
    /// Ledger lines without a size: it may be more.
    pub not_sized: usize,
}

/// Lowest and highest pressure of a usual fan test, Pa **\[R\]**.
const PRESSURES: (f64, f64) = (10.0, 60.0);

/// The flow range for a survey as it stands in the set-up shown.
///
/// # Errors
/// [`NotKnown`] where no gap has a size.
pub(super) fn flow_range(survey: &Survey) -> Answer<FlowRange> {
    let predicted = Predicted::of(survey, &BTreeSet::new())
        .map_err(|_| NotKnown::because("no gap with a size is in the ledger yet"))?;
    let at = |pressure| {
        within(
            predicted.flow_at(pressure),
            predicted.sigma_with_not_found(pressure),
        )
    };
    Ok(FlowRange {
        least: at(PRESSURES.0).low,
        most: at(PRESSURES.1).high,
        not_sized: predicted.not_sized,
    })
}

/// The gaps that were covered for a test, and those behind them, which have lost their way out.
pub(crate) fn shut(stood: &Survey, covered: &[Covered]) -> BTreeSet<GapId> {
    let mut shut: BTreeSet<GapId> = covered.iter().filter_map(|one| one.gap).collect();
    loop {
        let behind = |id: GapId| {
            let gap = stood.gap(id).and_then(|gap| gap.behind);
            matches!(gap, Some(Behind::Gap(outer)) if shut.contains(&outer))
        };
        let more: Vec<GapId> = stood
            .gaps
            .iter()
            .map(|gap| gap.id)
            .filter(|id| !shut.contains(id) && behind(*id))
            .collect();
        if more.is_empty() {
            return shut;
        }
        shut.extend(more);
    }
}

/// The survey as it stood before anything was sealed, or after the work that was done by the day of a
/// test. What has no date is taken to have been done by then.
pub(crate) fn in_state(survey: &Survey, tested: Tested, day: &str) -> Survey {
    let day = date::parse(day);
    let later = |gap: &Gap| match (date::parse(&gap.state_date), day) {
        (Some(sealed), Some(day)) => sealed > day,
        _ => false,
    };
    let was_open = |gap: &Gap| tested == Tested::AsFound || later(gap) || leave::never(survey, gap);
    let mut stood = survey.clone();
    let opens = |gap: &Gap| gap.state == WorkState::Sealed && was_open(gap);
    for gap in stood.gaps.iter_mut().filter(|gap| opens(gap)) {
        gap.state = WorkState::Open;
    }
    stood
}
