//! The pages by name, in the order of the job.

/// The pages, in the order of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Page {
    /// Size, place, weather, fabric, equipment.
    #[default]
    Vehicle,
    /// The ledger.
    Gaps,
    /// Weather cases and air changes.
    AirChange,
    /// Water to remove and heat.
    DryingHeat,
    /// What to seal first, for the money.
    SealingPlan,
    /// What is printed and handed over.
    JobSheet,
}

impl Page {
    /// Every page, in the order of the job.
    pub const ALL: [Self; 6] = [
        Self::Vehicle,
        Self::Gaps,
        Self::AirChange,
        Self::DryingHeat,
        Self::SealingPlan,
        Self::JobSheet,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Vehicle => "Vehicle",
            Self::Gaps => "Gaps",
            Self::AirChange => "Air change",
            Self::DryingHeat => "Drying & heat",
            Self::SealingPlan => "Sealing plan",
            Self::JobSheet => "Job sheet",
        }
    }
}
