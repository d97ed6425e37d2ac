//! What the Air change page remembers between frames.

use super::drawings::Drawings;
use crate::figure::RoseFrame;
use crate::survey::{Item, WeatherId};
use crate::window::context::PageContext;
use crate::window::widgets::Ways;

/// What the page gets to see.
pub(super) type AirChangeContext<'a> = PageContext<'a, AirChangeView>;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct AirChangeView {
    pub(super) case: Option<WeatherId>,
    pub(super) direction: usize,
    pub(super) ledger_order: bool,
    pub(super) by_compass: bool,
    pub(super) ways: Ways<Part>,
    pub(super) drawings: Drawings,
}

impl AirChangeView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if let Item::Weather(id) = item {
            self.case = Some(id);
        }
    }

    /// What is up on the rose.
    pub(super) fn frame(&self) -> RoseFrame {
        if self.by_compass {
            RoseFrame::Compass
        } else {
            RoseFrame::Vehicle
        }
    }

    /// How many drawings and tables were made since the survey was opened.
    #[must_use]
    pub fn times_drawn(&self) -> u64 {
        self.drawings.times_made()
    }

    /// Number of the wind direction whose flows are shown, clockwise from the front.
    #[must_use]
    pub fn direction(&self) -> usize {
        self.direction
    }
}

/// The parts of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Cases,
    Sure,
    Curves,
    Flows,
    Dependence,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 5] = [
        (Self::Cases, "weather cases"),
        (Self::Sure, "rose, how sure, what to measure next"),
        (Self::Curves, "against the wind"),
        (Self::Flows, "air through each gap"),
        (Self::Dependence, "warmth, parking, doors inside"),
    ];
}
