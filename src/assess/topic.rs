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
}
