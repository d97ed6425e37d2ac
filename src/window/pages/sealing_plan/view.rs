//! What the Sealing plan page remembers between frames.

use crate::assess::sealing::Aim;
use crate::survey::Item;
use crate::survey::date::DateWay;
use crate::window::answers::Wanted;
use crate::window::context::PageContext;
use crate::window::today::today;
use crate::window::widgets::Ways;

/// What the page gets to see.
pub(super) type SealingPlanContext<'a> = PageContext<'a, SealingPlanView>;

/// What the page remembers between frames.
#[derive(Clone, Debug)]
pub struct SealingPlanView {
    pub(super) ways: Ways<Part>,
    pub(super) aim: Aim,
    pub(super) budget: Option<f64>,
    pub(super) curve: Shown,
    pub(super) all_rows: bool,
    /// Date written beside states that are changed here; today's where it is left empty.
    pub(super) date: String,
    /// How dates are written.
    pub(super) dates: DateWay,
}

impl Default for SealingPlanView {
    fn default() -> Self {
        Self {
            ways: Ways::default(),
            aim: Aim::AchWindy,
            budget: None,
            curve: Shown::default(),
            all_rows: false,
            date: String::new(),
            dates: DateWay::default(),
        }
    }
}

impl SealingPlanView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if item == Item::SafetyVentilation {
            self.ways.ask(Part::LeftOpen);
        }
    }

    /// The date of what is changed here.
    pub(super) fn date_of_change(&self) -> String {
        if self.date.trim().is_empty() {
            today()
        } else {
            let read = self.dates.read(&self.date);
            read.unwrap_or_else(|| self.date.clone())
        }
    }

    /// What the page asks the workers for.
    #[must_use]
    pub fn wanted(&self) -> Wanted {
        Wanted {
            aim: self.aim,
            budget: self.budget,
        }
    }
}

/// The parts of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Ranking,
    Planned,
    Budget,
    Curve,
    LeftOpen,
    Prices,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 6] = [
        (Self::Ranking, "what to seal"),
        (Self::Planned, "the plan"),
        (Self::Budget, "within a budget"),
        (Self::Curve, "what money buys"),
        (Self::LeftOpen, "what stays open"),
        (Self::Prices, "remedies and prices"),
    ];

    /// The heading of its card.
    pub(super) fn title(self) -> &'static str {
        match self {
            Self::Ranking => "What sealing each gap saves",
            Self::Planned => "The plan",
            Self::Budget => "The best set within a budget",
            Self::Curve => "What the money buys",
            Self::LeftOpen => "What stays open, and why",
            Self::Prices => "Remedies and prices",
        }
    }
}

/// The figure that the plot shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Shown {
    #[default]
    AirChanges,
    Water,
    Heat,
}
