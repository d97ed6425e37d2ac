//! Laws of flow for the kinds of gap a survey meets, and what stands before or behind them.

use thiserror::Error;

use super::air::MoistAir;
use super::curve::Curve;

/// Discharge coefficient of a sharp-edged opening: BS 5925 form **\[R\]**; measured 0.60–0.66
/// **\[S\]**.
pub const SHARP_DISCHARGE: f64 = 0.61;

/// Span of gap width behind the crack law's measurements, m **\[M\]**.
pub const CRACK_WIDTH_SPAN: (f64, f64) = (0.4e-3, 4.0e-3);
/// Span of gap depth behind the crack law's measurements, m **\[M\]**.
pub const CRACK_DEPTH_SPAN: (f64, f64) = (10.0e-3, 70.0e-3);

/// Whether a crack of this width and depth, m, lies within the measurements behind the law.
pub fn crack_was_measured(width: f64, depth: f64) -> bool {
    // A rounding of 1e-9 m must not put a gap of exactly 4 mm outside.
    let inside = |value: f64, span: (f64, f64)| value >= span.0 - 1e-9 && value <= span.1 + 1e-9;
    inside(width, CRACK_WIDTH_SPAN) && inside(depth, CRACK_DEPTH_SPAN)
}

/// What of the air the flow laws depend on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Density ρ, kg/m³.
    pub density: f64,
    /// Dynamic viscosity μ, Pa s.
    pub viscosity: f64,
}

impl Gas {
    /// Reference air: dry, 20 °C, 101 325 Pa; leakage areas and tested components are stated at it.
    pub const REFERENCE: Gas = Gas {
        density: 1.2041,
        viscosity: 1.813_322_120_356_043e-5,
    };
}

impl From<&MoistAir> for Gas {
    fn from(air: &MoistAir) -> Self {
        Self {
            density: air.density(),
            viscosity: air.viscosity(),
        }
    }
}

/// Why a gap's flow law could not be made.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum OpeningError {
    /// A size that must be a positive number is not.
    #[error("The {what} must be a positive number, not {value}.")]
    NotPositive {
        /// What was given.
        what: &'static str,
        /// The value given, SI.
        value: f64,
    },
    /// Flow exponent outside 0.5 to 1.
    #[error("The flow exponent must lie between 0.5 and 1, not {0}.")]
    Exponent(f64),
    /// Discharge coefficient outside 0 to 1.
    #[error("The discharge coefficient must lie above 0 and at most at 1, not {0}.")]
    Discharge(f64),
    /// Factor on the flow negative or not a number.
    #[error("The number of gaps and the share left open must be zero or more, not {0}.")]
    Multiplier(f64),
}

/// The law of flow of one gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FlowLaw {
    /// Sharp-edged opening: `Q = Cd A √(2 Δp/ρ)`. BS 5925 form **\[R\]**.
    Opening {
        /// Free area A, m².
        area: f64,
        /// Discharge coefficient Cd, see [`SHARP_DISCHARGE`].
        discharge: f64,
    },
    /// Narrow gap: Baker, Sharples & Ward, *Air flow through cracks*, Building and Environment
    /// 22(4), 1987, 293–304 **\[R\]**; that each bend adds 1 is **\[M\]**; never passing more than a sharp opening (Cd 0.61) of the
    /// same area.
    ///
    /// ```text
    /// Δp = a Q + b Q²,  a = 12 μ z/(L d³),  b = ρ C/(2 d² L²),  C = 1.5 + bends
    /// Q = 2 Δp/(a + √(a² + 4 b Δp))
    /// ```
    Crack {
        /// Length L, m.
        length: f64,
        /// Gap width d, m.
        width: f64,
        /// Depth z through the material, m.
        depth: f64,
        /// Number of right-angled bends on the way.
        bends: u32,
    },
    /// Power law of a component with a known test result: `Q = C Δpⁿ` at reference air.
    ///
    /// At another state of the air the flow is multiplied by `(ρ₀/ρ)^(1−n) (μ₀/μ)^(2n−1)`, the
    /// inverse of the normalisation of ASTM E779 **\[R\]**: for n = 0.5 that is `√(ρ₀/ρ)` of an
    /// opening, for n = 1 the `μ₀/μ` of laminar flow.
    Power {
        /// Flow coefficient C, m³/(s Paⁿ) at [`Gas::REFERENCE`].
        coefficient: f64,
        /// Flow exponent n, 0.5 to 1.
        exponent: f64,
    },
}

impl FlowLaw {
    fn check(&self) -> Result<(), OpeningError> {
        match *self {
            FlowLaw::Opening { area, discharge } => {
                positive("area", area)?;
                if !(discharge > 0.0 && discharge <= 1.0) {
                    return Err(OpeningError::Discharge(discharge));
                }
            }
            FlowLaw::Crack {
                length,
                width,
                depth,
                ..
            } => {
                positive("length", length)?;
                positive("gap width", width)?;
                positive("depth", depth)?;
            }
            FlowLaw::Power {
                coefficient,
                exponent,
            } => {
                positive("flow coefficient", coefficient)?;
                if !(0.5..=1.0).contains(&exponent) {
                    return Err(OpeningError::Exponent(exponent));
                }
            }
        }
        Ok(())
    }
}

fn positive(what: &'static str, value: f64) -> Result<(), OpeningError> {
    if value.is_finite() && value > 0.0 {
        Ok(())
    } else {
        Err(OpeningError::NotPositive { what, value })
    }
}

/// One line of the ledger as the flow sees it: a law, perhaps behind another opening, several
/// times over or partly sealed.
///
/// ```
/// use gapledger::physics::{FlowLaw, GapFlow, Gas};
/// // 1 m × 1 mm × 20 mm, no bend, at 4 Pa: 0.7911 L/s (worked by hand from the law).
/// let seal = GapFlow::new(FlowLaw::Crack { length: 1.0, width: 1e-3, depth: 20e-3, bends: 0 })?;
/// let air = Gas { density: 1.2, viscosity: 1.81e-5 };
/// assert!((seal.at(&air).flow(4.0) - 0.7911e-3).abs() < 5e-8);
/// // Two of them pass twice as much.
/// assert!((seal.times(2.0)?.at(&air).flow(4.0) - 2.0 * 0.7911e-3).abs() < 1e-7);
/// # Ok::<(), gapledger::physics::OpeningError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapFlow {
    law: FlowLaw,
    behind_area: Option<f64>,
    multiplier: f64,
}

impl GapFlow {
    /// A single gap with nothing before or behind it.
    ///
    /// # Errors
    /// A size that is not a positive number, an exponent outside 0.5 to 1, a discharge
    /// coefficient outside 0 to 1.
    pub fn new(law: FlowLaw) -> Result<Self, OpeningError> {
        law.check()?;
        Ok(Self {
            law,
            behind_area: None,
            multiplier: 1.0,
        })
    }

    /// The same gap behind another, sharp-edged opening: same flow, pressures add. `area` is
    /// this one gap's share of the outer opening's free area, m²: several gaps behind one grille
    /// share its area in proportion to their own.
    ///
    /// ```text
    /// two openings     1/A² = 1/A₁² + 1/A₂²
    /// crack            b_s = ρ/(2 Cd² A_s²) is added to both of its laws, then the smaller is taken
    /// power law        (Q/C)^(1/n) + b_s Q² = Δp
    /// ```
    ///
    /// # Errors
    /// The area is not a positive number.
    pub fn behind(self, area: f64) -> Result<Self, OpeningError> {
        positive("area of the outer opening", area)?;
        Ok(Self {
            behind_area: Some(area),
            ..self
        })
    }

    /// The flow of the whole arrangement multiplied: number of gaps × share left open.
    ///
    /// # Errors
    /// The factor is negative or not finite.
    pub fn times(self, factor: f64) -> Result<Self, OpeningError> {
        let multiplier = self.multiplier * factor;
        if !(multiplier.is_finite() && multiplier >= 0.0) {
            return Err(OpeningError::Multiplier(factor));
        }
        Ok(Self { multiplier, ..self })
    }

    /// The law of one gap.
    pub fn law(&self) -> FlowLaw {
        self.law
    }

    /// Free area of the outer opening this gap lies behind, m².
    pub fn behind_area(&self) -> Option<f64> {
        self.behind_area
    }

    /// Number of gaps × share left open.
    #[inline]
    pub fn multiplier(&self) -> f64 {
        self.multiplier
    }

    /// Flow against pressure for air of one state, worked out ready for use.
    pub fn at(&self, gas: &Gas) -> Curve {
        self.at_discharge(gas, 1.0)
    }

    /// The same with every sharp edge passing `factor` times as much: its discharge coefficient
    /// multiplied, that of an opening in front included. A component's tested flow stays.
    pub fn at_discharge(&self, gas: &Gas, factor: f64) -> Curve {
        let eased = 1.0 / (factor * factor);
        let parts = self.resistances(gas);
        let in_front = self.behind_area.map(|_| parts.in_front * eased);
        match self.law {
            FlowLaw::Opening { .. } => Curve::sharp(
                parts.sharp * eased + in_front.unwrap_or(0.0),
                self.multiplier,
            ),
            FlowLaw::Crack { .. } => Curve::crack(
                parts.linear,
                parts.square,
                parts.sharp * eased,
                in_front.unwrap_or(0.0),
                self.multiplier,
            ),
            FlowLaw::Power {
                coefficient,
                exponent,
            } => {
                let here = coefficient * from_reference(gas, exponent);
                Curve::power(here, exponent, in_front, self.multiplier)
            }
        }
    }

    /// What opening and crack laws are made of; all zero but `in_front` for a power law.
    pub(super) fn resistances(&self, gas: &Gas) -> Resistances {
        let in_front = self
            .behind_area
            .map_or(0.0, |area| sharp_resistance(gas, area, SHARP_DISCHARGE));
        match self.law {
            FlowLaw::Opening { area, discharge } => Resistances {
                sharp: sharp_resistance(gas, area, discharge),
                in_front,
                ..Resistances::default()
            },
            FlowLaw::Crack {
                length,
                width,
                depth,
                bends,
            } => {
                let area = length * width;
                Resistances {
                    linear: 12.0 * gas.viscosity * depth / (area * width * width),
                    square: gas.density * (1.5 + f64::from(bends)) / (2.0 * area * area),
                    sharp: sharp_resistance(gas, area, SHARP_DISCHARGE),
                    in_front,
                }
            }
            FlowLaw::Power { .. } => Resistances {
                in_front,
                ..Resistances::default()
            },
        }
    }
}

/// Resistances of one gap in air of one state: `Δp = linear Q + square Q²` of the crack itself,
/// `Δp = sharp Q²` of the sharp opening that bounds it, `Δp = in_front Q²` of what it lies behind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Resistances {
    pub(super) linear: f64,
    pub(super) square: f64,
    pub(super) sharp: f64,
    pub(super) in_front: f64,
}

/// `b = ρ/(2 Cd² A²)` of a sharp-edged opening in `Δp = b Q²`.
fn sharp_resistance(gas: &Gas, area: f64, discharge: f64) -> f64 {
    let effective = discharge * area;
    gas.density / (2.0 * effective * effective)
}

/// Factor that takes a power law's coefficient from reference air to air of another state:
/// `(ρ₀/ρ)^(1−n) (μ₀/μ)^(2n−1)`, inverse of the normalisation of ASTM E779 **\[R\]**.
pub fn from_reference(gas: &Gas, exponent: f64) -> f64 {
    let reference = Gas::REFERENCE;
    (reference.density / gas.density).powf(1.0 - exponent)
        * (reference.viscosity / gas.viscosity).powf(2.0 * exponent - 1.0)
}
