//! What is uncertain, and by how much.

use crate::assess::spread::{
    DISCHARGE, NOT_FOUND, SURVEYOR, TWO_SIDED_95, sigma_of_size, sigma_within,
};
use crate::physics::pressure_coefficient::Underside;
use crate::physics::pressure_coefficient::underfloor::{CLOSED_HALF_SPAN, FACTOR_HALF_SPAN};
use crate::physics::wind::{ONE_SIDED, ONE_SIDED_RANGE};
use crate::survey::{Certainty, GapId, InnerOpeningId, Item};

/// An input that is uncertain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum UncertainInput {
    /// The size of one gap.
    Gap(GapId),
    /// The size of one opening between two spaces.
    InnerOpening(InnerOpeningId),
    /// The surveyor, who sees all gaps and inner openings too large or too small.
    Surveyor,
    /// Leakage that nobody found.
    NotFound,
    /// Discharge coefficient of sharp edges.
    Discharge,
    /// Pressure coefficients of walls and roof.
    WallPressure,
    /// Pressure coefficient of an underfloor without skirts and of cavities.
    UnderfloorPressure,
    /// Air that gusts exchange where all openings lie on one side.
    Gusts,
    /// Wind at the body.
    Wind,
}

impl UncertainInput {
    /// Words for it.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::Gap(id) => format!("size of gap {id}"),
            Self::InnerOpening(id) => format!("size of inner opening {id}"),
            Self::Surveyor => "the surveyor".to_owned(),
            Self::NotFound => "leakage not found".to_owned(),
            Self::Discharge => "discharge of sharp edges".to_owned(),
            Self::WallPressure => "wind pressure on walls and roof".to_owned(),
            Self::UnderfloorPressure => "wind pressure under the floor".to_owned(),
            Self::Gusts => "air exchanged by gusts".to_owned(),
            Self::Wind => "wind at the body".to_owned(),
        }
    }

    /// What could be measured better to lessen it; none where measuring sizes does not help.
    #[must_use]
    pub fn sized(self) -> Option<Item> {
        match self {
            Self::Gap(id) => Some(Item::Gap(id)),
            Self::InnerOpening(id) => Some(Item::InnerOpening(id)),
            Self::Surveyor
            | Self::NotFound
            | Self::Discharge
            | Self::WallPressure
            | Self::UnderfloorPressure
            | Self::Gusts
            | Self::Wind => None,
        }
    }

    /// What its random numbers are told apart by.
    pub(super) fn key(self) -> u64 {
        match self {
            Self::Surveyor => 1,
            Self::NotFound => 2,
            Self::Discharge => 3,
            Self::WallPressure => 4,
            Self::UnderfloorPressure => 5,
            Self::Wind => 6,
            Self::Gusts => 7,
            Self::Gap(id) => 1000 + u64::from(id.0),
            // Beyond the last gap that a number of 32 bits can have.
            Self::InnerOpening(id) => (1 << 33) + u64::from(id.0),
        }
    }
}

/// How an input is spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// A factor, lognormal with mean 1; σ of its logarithm.
    Factor {
        /// Standard deviation of the logarithm.
        sigma: f64,
    },
    /// A factor whose logarithm is normal on either side of its middle, 1, with σ of its own there.
    Skewed {
        /// σ below the middle.
        below: f64,
        /// σ above it.
        above: f64,
    },
    /// Normal, and nothing below a least value.
    Normal {
        /// Its middle.
        middle: f64,
        /// Standard deviation before the cut.
        sigma: f64,
        /// What lies below becomes this.
        least: f64,
    },
}

/// Factor within which 95 % lie.
fn within(factor: f64) -> Spread {
    Spread::Factor {
        sigma: sigma_within(factor),
    }
}

impl Spread {
    /// Spread of the flow of a gap or inner opening by how its size was found \[A\].
    #[must_use]
    pub fn of_gap(certainty: Certainty) -> Self {
        Self::Factor {
            sigma: sigma_of_size(certainty),
        }
    }

    /// Spread of the coefficient under a floor that stands so to the wind: of a factor where it is
    /// open \[N\], of what is added where one side is closed \[A\]. Under skirts the pressure
    /// follows the walls', and the factor stays one.
    fn of_underfloor(underside: Underside) -> Self {
        let (middle, half_span, least) = match underside {
            Underside::Open => (1.0, FACTOR_HALF_SPAN, 0.0),
            Underside::ClosedOneSide => (0.0, CLOSED_HALF_SPAN, f64::NEG_INFINITY),
            Underside::SkirtedLeaking | Underside::SkirtedTight => (1.0, 0.0, 0.0),
        };
        Self::Normal {
            middle,
            sigma: half_span / TWO_SIDED_95,
            least,
        }
    }

    /// Spread of the factor common to all unintended leakage, where measurements say what nobody
    /// found \[A\].
    pub(super) const COMMON: Self = Self::Factor { sigma: NOT_FOUND };

    /// Whether it spreads at all.
    pub(super) fn varies(self) -> bool {
        match self {
            Self::Factor { sigma } | Self::Normal { sigma, .. } => sigma > 0.0,
            Self::Skewed { below, above } => below > 0.0 || above > 0.0,
        }
    }

    /// Whether a greater normal number always gives a greater value.
    pub(super) fn rises_throughout(self) -> bool {
        match self {
            Self::Factor { sigma } => sigma > 0.0,
            Self::Skewed { below, above } => below > 0.0 && above > 0.0,
            Self::Normal { sigma, least, .. } => sigma > 0.0 && least.is_infinite(),
        }
    }

    /// Spread of any input but a size \[A\], for a floor that stands so to the wind.
    pub(crate) fn of_common(uncertainty: UncertainInput, underside: Underside) -> Self {
        match uncertainty {
            UncertainInput::Surveyor => within(SURVEYOR),
            UncertainInput::Discharge => within(DISCHARGE),
            UncertainInput::WallPressure => within(1.25),
            UncertainInput::Wind => within(1.2),
            UncertainInput::Gusts => Self::Skewed {
                below: (ONE_SIDED / ONE_SIDED_RANGE.0).ln() / TWO_SIDED_95,
                above: (ONE_SIDED_RANGE.1 / ONE_SIDED).ln() / TWO_SIDED_95,
            },
            UncertainInput::UnderfloorPressure => Self::of_underfloor(underside),
            // What nobody found, nobody measured either.
            UncertainInput::NotFound | UncertainInput::Gap(_) | UncertainInput::InnerOpening(_) => {
                Self::of_gap(Certainty::Guessed)
            }
        }
    }

    /// The value that belongs to a normal number.
    ///
    /// ```text
    /// exp(σ z − σ²/2)  or  exp(σ z), σ by the side  or  max(least, middle + σ z)
    /// ```
    pub(crate) fn at(self, z: f64) -> f64 {
        match self {
            Self::Factor { sigma } => (sigma * z - 0.5 * sigma * sigma).exp(),
            Self::Skewed { below, above } => (z * if z < 0.0 { below } else { above }).exp(),
            Self::Normal {
                middle,
                sigma,
                least,
            } => (middle + sigma * z).max(least),
        }
    }
}
