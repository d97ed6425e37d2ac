//! People: their heat, and the carbon dioxide they leave in the air.

use super::moisture::HEAT_OF_VAPORISATION;
use super::units::SECONDS_PER_HOUR;

/// Metabolic rate of a person awake and sitting, W: 1 met of 58.2 W/m² over 1.8 m² **\[M\]**.
pub const AWAKE_METABOLIC_RATE: f64 = 58.2 * 1.8;
/// Metabolic rate of a sleeper, W: 0.7 met **\[M\]**.
pub const ASLEEP_METABOLIC_RATE: f64 = 0.7 * 58.2 * 1.8;
/// Carbon dioxide of a sleeper, m³/s: 13.6 L/h (EN 16798-1's figure for bedrooms **\[M\]**).
pub const ASLEEP_CARBON_DIOXIDE: f64 = 13.6e-3 / SECONDS_PER_HOUR;
/// Carbon dioxide outside, ppm **\[M\]**.
pub const OUTSIDE_CARBON_DIOXIDE_PPM: f64 = 420.0;

/// The sensible part of a person's heat, W: the rest leaves with the water they give off.
///
/// ```text
/// Q = max(0, M − S h_fg)
/// ```
/// where M is the metabolic rate in W, S the water in kg/s and h_fg 2.5 MJ/kg.
///
/// ```
/// use gapledger::physics::people::{AWAKE_METABOLIC_RATE, sensible_heat};
/// // 55 g/h (BS 5250 [M]) take 38 of 105 W.
/// let heat = sensible_heat(AWAKE_METABOLIC_RATE, 0.055 / 3600.0);
/// assert!((heat - 66.6).abs() < 0.1);
/// ```
#[must_use]
pub fn sensible_heat(metabolic_rate: f64, water: f64) -> f64 {
    (metabolic_rate - water * HEAT_OF_VAPORISATION).max(0.0)
}

/// Steady carbon dioxide among sleepers, ppm; `None` where no air flows.
///
/// ```text
/// C = 420 + 1e6 N G/Q
/// ```
/// where N is the number of sleepers, G 13.6 L/h each in m³/s and Q the air flow in m³/s. Steady
/// balance of the gas.
///
/// ```
/// use gapledger::physics::people::carbon_dioxide_ppm;
/// // 25 m³/h for each sleeper: 420 + 1e6 × 0.0136/25 = 964 ppm.
/// let ppm = carbon_dioxide_ppm(2, 50.0 / 3600.0).expect("air flows");
/// assert!((ppm - 964.0).abs() < 0.01);
/// ```
#[must_use]
pub fn carbon_dioxide_ppm(sleepers: u32, air_flow: f64) -> Option<f64> {
    (air_flow > 0.0).then(|| {
        OUTSIDE_CARBON_DIOXIDE_PPM + 1e6 * f64::from(sleepers) * ASLEEP_CARBON_DIOXIDE / air_flow
    })
}
