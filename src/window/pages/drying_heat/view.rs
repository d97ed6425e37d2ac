//! What the Drying & heat page remembers between frames.

use super::shown::Shown;
use super::texts::{Dates, Texts, Whole};
use crate::assess::Comparison;
use crate::survey::Item;
use crate::window::context::PageContext;
use crate::window::widgets::Ways;
use std::sync::Arc;

/// What the page gets to see.
pub(super) type DryingHeatContext<'a> = PageContext<'a, DryingHeatView>;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct DryingHeatView {
    pub(super) ways: Ways<Part>,
    pub(super) shown: Shown,
    pub(super) texts: Texts,
}

impl DryingHeatView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if item == Item::SafetyVentilation {
            self.ways.ask(Part::Safety);
        }
    }
}

/// What the texts of the page are from.
pub(super) fn dates(context: &DryingHeatContext<'_>) -> Dates {
    let compared = context
        .results
        .map_or(0, |results| results.comparison_revision());
    (context.revision, compared)
}

/// What is told of the comparison.
pub(super) fn whole(context: &mut DryingHeatContext<'_>, comparison: &Comparison) -> Arc<Whole> {
    let dates = dates(context);
    context.view.texts.whole(dates, context.survey, comparison)
}

/// The parts of the page, from what the owner asks to what the engineer checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Options,
    Chart,
    WaterAndHeat,
    Sizes,
    Surfaces,
    Times,
    Safety,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 7] = [
        (Self::Options, "verdicts"),
        (Self::Chart, "chart"),
        (Self::WaterAndHeat, "water and heat"),
        (Self::Sizes, "sizes to look for"),
        (Self::Surfaces, "cold surfaces"),
        (Self::Times, "drying out, warming up, nights"),
        (Self::Safety, "safety"),
    ];
}
