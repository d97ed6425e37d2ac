//! Water the air brings and takes, and the heat that air costs.

use super::air::{AirError, dew_point, saturation_pressure};

/// Heat of vaporisation of water used throughout, J/kg.
pub const HEAT_OF_VAPORISATION: f64 = 2.5e6;

/// Mass flow of dry air in an inflow of moist outside air, kg/s: `m_da = m/(1 + W_o)`.
pub fn dry_air_flow(inflow: f64, outside_humidity_ratio: f64) -> f64 {
    inflow / (1.0 + outside_humidity_ratio)
}

/// Water to remove to hold a target, kg/s.
///
/// ```text
/// D = max(0, S + m_da (W_o − W*))
/// ```
/// where S is the water given off inside in kg/s, m_da the dry-air flow in kg/s, W_o and W* the
/// humidity ratios outside and aimed at. Steady balance of water.
pub fn required_removal(
    source: f64,
    dry_air_flow: f64,
    outside_humidity_ratio: f64,
    target_humidity_ratio: f64,
) -> f64 {
    (source + dry_air_flow * (outside_humidity_ratio - target_humidity_ratio)).max(0.0)
}

/// Heat the exchanged air takes per kelvin, W/K.
///
/// ```text
/// H_v = m_da (1006 + 1860 W_o)
/// ```
/// where m_da is the dry-air flow in kg/s. Rule of thumb 0.33 n V **\[S\]** with n per hour and V
/// in m³.
///
/// ```
/// use gapledger::physics::moisture::ventilation_conductance;
/// // 12.5 m³/h (25 m³, 0.5 /h) of air of 1.2 kg/m³: about 0.335 × 12.5 = 4.19 W/K [S].
/// assert!((ventilation_conductance(1.2 * 12.5 / 3600.0, 0.0) - 4.19).abs() < 0.01);
/// ```
pub fn ventilation_conductance(dry_air_flow: f64, outside_humidity_ratio: f64) -> f64 {
    dry_air_flow * (1006.0 + 1860.0 * outside_humidity_ratio)
}

/// Inside temperature at which outside air is brought to a relative humidity by warmth alone,
/// with no water added or removed, °C.
///
/// ```text
/// p_ws(T_i) = RH_o p_ws(T_o)/RH*
/// ```
/// where RH_o and RH* are the relative humidities outside and aimed at, 0 to 1.
///
/// # Errors
/// A relative humidity outside 0 to 1, a target of 0, or dry outside air, for which no
/// temperature is right.
///
/// ```
/// use gapledger::physics::moisture::warmth_alone_c;
/// // Outside 5 °C 87 %, target 60 %: 10.45 °C.
/// assert!((warmth_alone_c(5.0, 0.87, 0.60)? - 10.45).abs() < 0.005);
/// # Ok::<(), gapledger::physics::AirError>(())
/// ```
pub fn warmth_alone_c(outside_c: f64, outside_rh: f64, target_rh: f64) -> Result<f64, AirError> {
    if !(0.0..=1.0).contains(&outside_rh) {
        return Err(AirError::RelativeHumidity(outside_rh));
    }
    if !(target_rh > 0.0 && target_rh <= 1.0) {
        return Err(AirError::RelativeHumidity(target_rh));
    }
    dew_point(outside_rh * saturation_pressure(outside_c) / target_rh)
        .ok_or(AirError::RelativeHumidity(outside_rh))
}
