//! The pages by name, the answer first, then in the order of the job.

use crate::survey::Item;

/// The pages, the answer first, then in the order of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Page {
    /// What is wrong, what to buy, what to seal, what never to close.
    InShort,
    /// Size, place, weather, fabric, equipment.
    #[default]
    Vehicle,
    /// The ledger.
    Gaps,
    /// Weather cases and air changes.
    AirChange,
    /// Water to remove and heat.
    DryingHeat,
    /// A winter hour by hour.
    Winter,
    /// What to seal first, for the money.
    SealingPlan,
    /// Fan tests, and what they say of the survey.
    Measurements,
    /// What is printed and handed over.
    JobSheet,
}

impl Page {
    /// Every page, in the order of the job.
    pub const ALL: [Self; 9] = [
        Self::InShort,
        Self::Vehicle,
        Self::Gaps,
        Self::AirChange,
        Self::DryingHeat,
        Self::Winter,
        Self::SealingPlan,
        Self::Measurements,
        Self::JobSheet,
    ];

    /// The page that a part of the survey is entered on.
    #[must_use]
    pub fn of(item: Item) -> Self {
        match item {
            Item::Zone(_) | Item::Gap(_) | Item::Ledger => Self::Gaps,
            Item::SafetyVentilation => Self::DryingHeat,
            Item::Job => Self::JobSheet,
            Item::FanTest(_) | Item::AirTest(_) | Item::Series(_) | Item::Trial(_) => {
                Self::Measurements
            }
            Item::Stay => Self::Winter,
            _ => Self::Vehicle,
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::InShort => "In short",
            Self::Vehicle => "Vehicle",
            Self::Gaps => "Gaps",
            Self::AirChange => "Air change",
            Self::DryingHeat => "Drying & heat",
            Self::Winter => "Winter",
            Self::SealingPlan => "Sealing plan",
            Self::Measurements => "Measurements",
            Self::JobSheet => "Job sheet",
        }
    }
}
