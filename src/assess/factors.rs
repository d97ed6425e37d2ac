//! What measurements make of the flow of each gap.

use super::law::GapLaw;
use crate::physics::flow_law::GapFlow;
use crate::survey::{GapId, Survey};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A factor on the flow of each gap of the ledger; one for those it does not name.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Factors(Arc<BTreeMap<GapId, f64>>);

impl Factors {
    /// These, each by its gap.
    pub(crate) fn of(factors: impl IntoIterator<Item = (GapId, f64)>) -> Self {
        Self(Arc::new(factors.into_iter().collect()))
    }

    /// The factor of a gap.
    pub(crate) fn of_gap(&self, gap: GapId) -> f64 {
        self.0.get(&gap).copied().unwrap_or(1.0)
    }

    /// All of them.
    pub(crate) fn each(&self) -> Vec<(GapId, f64)> {
        self.0.iter().map(|(gap, factor)| (*gap, *factor)).collect()
    }

    /// Whether no flow is changed.
    pub(crate) fn are_none(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether any gap passes more than by its size.
    pub(crate) fn any_above_one(&self) -> bool {
        self.0.values().any(|factor| *factor > 1.0)
    }

    /// None above one: whoever may be hurt by too little air is not told that there is more of it
    /// than the openings seen let in.
    pub(crate) fn at_most_one(&self) -> Self {
        Self::of(self.0.iter().map(|(gap, factor)| (*gap, factor.min(1.0))))
    }

    /// The laws of a survey's gaps with them.
    pub(crate) fn on(&self, survey: &Survey, laws: Vec<GapLaw>) -> Vec<GapLaw> {
        if self.are_none() {
            return laws;
        }
        let gaps = survey.gaps.iter().zip(laws);
        gaps.map(|(gap, law)| match law {
            GapLaw::Flows(flow) => times(&flow, self.of_gap(gap.id)),
            other => other,
        })
        .collect()
    }
}

fn times(flow: &GapFlow, factor: f64) -> GapLaw {
    match flow.times(factor) {
        Ok(flow) => GapLaw::Flows(flow),
        Err(error) => GapLaw::Impossible(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn safety_is_given_no_more_than_what_was_seen() {
        let factors = Factors::of([(GapId(1), 1.5), (GapId(2), 0.5)]);
        assert!(factors.any_above_one());
        let careful = factors.at_most_one();
        let of = |gap| careful.of_gap(GapId(gap)).to_bits();
        assert_eq!([of(1), of(2), of(3)], [1.0, 0.5, 1.0].map(f64::to_bits));
        assert!(!careful.any_above_one());
    }
}
