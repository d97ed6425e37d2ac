//! The simplified model of the ASHRAE handbook, shown beside the balance as a cross-check.

use super::units::CM2_PER_M2;

/// Shelter class of the model, 1 (none) to 5 (heavy). Descriptions **\[M\]**.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ShelterClass {
    /// No obstructions or local shielding.
    One,
    /// An isolated building in the country.
    Two,
    /// Other buildings across the street.
    Three,
    /// Urban, obstacles more than one building height away.
    Four,
    /// Buildings or trees immediately adjacent.
    Five,
}

impl ShelterClass {
    /// Wind coefficient Cw for one storey, (L/s)²/(cm⁴ (m/s)²). ASHRAE Fundamentals **\[S\]**.
    pub fn wind_coefficient(self) -> f64 {
        match self {
            Self::One => 0.000_319,
            Self::Two => 0.000_246,
            Self::Three => 0.000_174,
            Self::Four => 0.000_104,
            Self::Five => 0.000_032,
        }
    }
}

/// Stack coefficient Cs for a height of the air space in m, (L/s)²/(cm⁴ K): 0.000145 per 2.5 m.
/// ASHRAE Fundamentals **\[S\]**.
pub fn stack_coefficient(height: f64) -> f64 {
    0.000_145 * height / 2.5
}

/// Air flow by the basic model, m³/s.
///
/// ```text
/// Q = A_L √(Cs ΔT + Cw U²)
/// ```
/// in the handbook's units (L/s, cm²), where A_L is the effective leakage area (given here in
/// m²), ΔT the temperature difference in K (its size counts), U the weather station's wind speed
/// in m/s. ASHRAE Fundamentals, basic model **\[S\]**.
///
/// ```
/// use gapledger::physics::basic_model::{ShelterClass, flow, stack_coefficient};
/// // Handbook example [M]: 690 cm², one storey, 16.7 K, 2.7 m/s, class 4: 38.9 L/s.
/// let cw = ShelterClass::Four.wind_coefficient();
/// let q = flow(0.0690, stack_coefficient(2.5), cw, 16.7, 2.7);
/// assert!((q - 0.0389).abs() < 5e-5);
/// ```
pub fn flow(ela: f64, stack: f64, wind: f64, temperature_difference: f64, speed: f64) -> f64 {
    const M3_PER_L: f64 = 1e-3;
    let root = (stack * temperature_difference.abs() + wind * speed * speed).sqrt();
    ela * CM2_PER_M2 * root * M3_PER_L
}
