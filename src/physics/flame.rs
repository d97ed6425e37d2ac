//! Fuels: the heat they give, and the water of flames without flue.

/// Water from burning a kg of propane, kg: stoichiometry, 4 × 18.015/44.096.
pub const WATER_PER_PROPANE: f64 = 1.63;
/// Net heating value of propane, J/kg **\[M\]**.
pub const PROPANE_NET_HEATING_VALUE: f64 = 46.35e6;
/// Net heating value of diesel, J/m³: 36 MJ/L, Directive (EU) 2018/2001, annex III **\[M\]**.
pub const DIESEL_NET_HEATING_VALUE: f64 = 36.0e9;
/// Share of the fuel's net heat that a heater with a flue gives to the room **\[A\]**.
pub const FLUED_EFFICIENCY: f64 = 0.8;

/// Heat of an unflued propane flame by the water it gives off, W: a flame counts at its net
/// heating value, because its water stays vapour.
///
/// ```text
/// Q = S 46.35e6/1.63
/// ```
/// where S is in kg/s.
///
/// ```
/// use gapledger::physics::flame::heat_from_water;
/// // 0.1 kg of propane an hour: 46.35e6 × 0.1/3600 = 1287.5 W and 0.163 kg of water.
/// assert!((heat_from_water(0.163 / 3600.0) - 1287.5).abs() < 1e-9);
/// ```
#[must_use]
pub fn heat_from_water(water: f64) -> f64 {
    water * PROPANE_NET_HEATING_VALUE / WATER_PER_PROPANE
}

/// Water that an unflued propane flame gives off with each joule, kg/J.
#[must_use]
pub fn water_per_joule() -> f64 {
    WATER_PER_PROPANE / PROPANE_NET_HEATING_VALUE
}
