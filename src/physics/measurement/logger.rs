//! Readings of a logger as water in the air.

use crate::physics::air::{
    AirError, MoistAir, saturation_pressure, saturation_pressure_over_water,
};

/// What an instrument means by relative humidity below 0 °C.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum BelowFreezing {
    /// Share of what the air holds over liquid water, as most hygrometers and weather stations
    /// state it (WMO practice **\[M\]**).
    #[default]
    OverWater,
    /// Share of what it holds over ice.
    OverIce,
}

/// Air from what a logger reads.
///
/// ```text
/// p_v = φ p_ws(t)      W = 0.621945 p_v/(p − p_v)
/// ```
/// where φ is the relative humidity 0 to 1, t in °C, p the site's pressure in Pa; below 0 °C p_ws by
/// the instrument's convention. ASHRAE Fundamentals 2017 ch. 1 **\[S\]**. Air that would hold more than
/// it can over ice is taken as it was read: fog of ice is rare, an instrument's error is not.
///
/// # Errors
/// A state that is no air.
pub fn air(
    t_c: f64,
    relative_humidity: f64,
    pressure: f64,
    below_freezing: BelowFreezing,
) -> Result<MoistAir, AirError> {
    let saturated = match below_freezing {
        BelowFreezing::OverWater => saturation_pressure_over_water(t_c),
        BelowFreezing::OverIce => saturation_pressure(t_c),
    };
    let vapour = relative_humidity * saturated;
    MoistAir::new(
        t_c,
        crate::physics::air::humidity_ratio(vapour, pressure),
        pressure,
    )
}

/// The relative humidity that air of one humidity ratio would have at another temperature, 0 to 1:
/// over ice below 0 °C, as everywhere in the program. `None` for what is no air.
#[must_use]
pub fn restated(humidity_ratio: f64, t_c: f64, pressure: f64) -> Option<f64> {
    MoistAir::new(t_c, humidity_ratio, pressure)
        .ok()
        .map(|air| air.relative_humidity())
}
