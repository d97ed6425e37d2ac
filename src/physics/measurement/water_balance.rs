//! How much air passes, by the water that was collected.

use super::Limits;

/// A value with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The value.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
}

/// What a period of steady drying gave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Collected {
    /// Water taken out of the air, kg/s.
    pub removed: Measured,
    /// Water given off inside, kg/s.
    pub sources: Measured,
    /// Water given back by materials that dried, kg/s; negative where they took it up.
    pub from_store: Measured,
    /// Humidity ratio outside less that inside, kg/kg.
    pub difference: Measured,
}

/// Why no flow follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WaterBalanceError {
    /// The difference in humidity is not clear of the loggers' error.
    #[error(
        "the water in the air differs too little between inside and outside for what the loggers can \
         tell, so no air change follows"
    )]
    TooAlike,
    /// More water came from sources and materials than was collected.
    #[error(
        "sources and materials that dried account for all the water collected, so no air change \
         follows"
    )]
    NothingLeft,
    /// What the air carried does not go the way the difference in humidity drives it.
    #[error(
        "the water collected, less what was given off, does not go the way the humidities drive it: air \
         brings water in only where the outside holds more than the inside; so one of these numbers is \
         not right, and no air change follows"
    )]
    WrongWay,
}

/// Standard normal limit of 95 %.
const Z_95: f64 = 1.959_963_984_540_054;

/// Water that materials give back while the air dries, kg/s.
///
/// ```text
/// S_store = 0.1 Σ(MBV·A) (φ₀ − φ₁)/Δt
/// ```
/// where MBV is in g/(m² %RH), A in m², φ are relative humidities 0 to 1 at the start and the end, and
/// Δt is in s. The factor turns g per percent into kg per whole: 100/1000. This project
/// **\[A\]**.
///
/// ```
/// use gapledger::physics::measurement::water_balance::from_materials;
/// // 25 g/%RH of materials (some 13 m³ of living space): 80 to 60 % gives half a kilogram [A].
/// let kg = from_materials(25.0, 0.8, 0.6, 86_400.0) * 86_400.0;
/// assert!((kg - 0.5).abs() < 1e-12);
/// ```
#[must_use]
pub fn from_materials(g_per_percent: f64, before: f64, after: f64, seconds: f64) -> f64 {
    0.1 * g_per_percent * (before - after) / seconds
}

/// Flow of dry air through the body, kg/s, with its 95 % limits.
///
/// ```text
/// m_da = (D − S − S_store)/(W_o − W_i)
/// ```
/// The limits are Fieller's, exact for the quotient of two independent normal values **\[M\]**:
/// with a/b, the θ for which `(a − θ b)² = z² (σ_a² + θ² σ_b²)`. Both may be below zero: air that is
/// drier than the inside carries out what is given off and not collected. Water balance against tracer gas:
/// USDA Forest Service Research Note NE-301, 1980 **\[S, abstract\]**.
///
/// # Errors
/// Where the difference in humidity, or what is left for the air to carry, is not clear of its error,
/// or the two have opposite signs.
pub fn dry_air_flow(of: &Collected) -> Result<Limits, WaterBalanceError> {
    let carried = of.removed.value - of.sources.value - of.from_store.value;
    let carried_variance =
        of.removed.error.powi(2) + of.sources.error.powi(2) + of.from_store.error.powi(2);
    let difference = of.difference;
    let z2 = Z_95 * Z_95;
    let clear = difference.value.powi(2) - z2 * difference.error.powi(2);
    if clear <= 0.0 {
        return Err(WaterBalanceError::TooAlike);
    }
    if carried * carried <= z2 * carried_variance {
        return Err(WaterBalanceError::NothingLeft);
    }
    if carried * difference.value < 0.0 {
        return Err(WaterBalanceError::WrongWay);
    }
    let middle = carried * difference.value / clear;
    let product = (carried * carried - z2 * carried_variance) / clear;
    let half = (middle * middle - product).max(0.0).sqrt();
    Ok(Limits {
        low: middle - half,
        value: carried / difference.value,
        high: middle + half,
    })
}
