//! What the Drying & heat page remembers between frames.

use super::shown::Shown;
use crate::survey::Item;
use crate::window::context::PageContext;
use crate::window::widgets::Ways;

/// What the page gets to see.
pub(super) type DryingHeatContext<'a> = PageContext<'a, DryingHeatView>;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct DryingHeatView {
    pub(super) ways: Ways<Part>,
    pub(super) shown: Shown,
}

impl DryingHeatView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if item == Item::SafetyVentilation {
            self.ways.ask(Part::Safety);
        }
    }
}

/// The parts of the page, from what the owner asks to what the engineer checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Options,
    Chart,
    WaterAndHeat,
    Sizes,
    Surfaces,
    Beyond,
    Safety,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 7] = [
        (Self::Options, "verdicts"),
        (Self::Chart, "chart"),
        (Self::WaterAndHeat, "water and heat"),
        (Self::Sizes, "sizes to look for"),
        (Self::Surfaces, "cold surfaces"),
        (Self::Beyond, "drying out, warming up, nights"),
        (Self::Safety, "safety"),
    ];
}
