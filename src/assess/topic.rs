//! The results that have a working.

use crate::survey::{FabricId, GapId, WeatherId};

/// A result whose working can be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Topic {
    /// Gross internal volume.
    Volume,
    /// Leakage of one gap.
    Gap(GapId),
    /// EqLA of the unintended gaps and the square hole it equals.
    LeakageArea,
    /// Fitted exponent, q50 and n50.
    Exponent,
    /// Air changes per hour in a weather case.
    AirChange(WeatherId),
    /// The simplified model beside it.
    CrossCheck(WeatherId),
    /// Water to remove in a weather case.
    Removal(WeatherId),
    /// Heat to hold the set temperature in a weather case.
    Heat(WeatherId),
    /// Heat for frost guard in a weather case's wind.
    FrostGuard(WeatherId),
    /// U-value and loss of one fabric element.
    FabricElement(FabricId),
    /// Safety ventilation against its table.
    SafetyVentilation,
    /// How sure the results are.
    Uncertainty,
    /// What sealing each gap saves.
    Ranking,
    /// A result of the comparison of drying and heating.
    Drying(DryingTopic),
}

/// A result of the comparison of drying and heating whose working can be opened. Options,
/// surfaces and sizes go by their index in [`crate::assess::drying::Comparison`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DryingTopic {
    /// An option in a weather case.
    Option(usize, WeatherId),
    /// An option in a weather case once the planned gaps are sealed.
    AfterPlan(usize, WeatherId),
    /// Drying out damp contents with an option in a weather case.
    DryOut(usize, WeatherId),
    /// A cold surface with an option in a weather case.
    Surface(usize, WeatherId, usize),
    /// A rated capacity.
    Capacity(usize),
    /// A heater's size.
    Heater(usize),
    /// Warming up.
    WarmUp(usize),
    /// Air for each sleeper.
    NightAir,
}
