//! Water that furniture, boards and cloth take up and give back.

use crate::physics::measurement::water_balance::{Measured, from_materials};
use crate::survey::Survey;

/// What furniture and cloth hold for each point of relative humidity, g/(m² %RH) **\[A\]**.
pub const USUAL_BUFFER: f64 = 0.6;
/// Area of it for each cubic metre of room, m² **\[A\]**.
pub const USUAL_BUFFER_AREA_PER_M3: f64 = 2.0;
/// Standard error of what furniture stores, as a share of it: nobody knows it within a factor of two
/// **\[A\]**.
const STORED: f64 = 0.35;

/// What all of it holds for each point of relative humidity, g: as entered for the winter, else by the
/// volume, m³.
pub(crate) fn stores_g_per_percent(survey: &Survey, volume: f64) -> f64 {
    let usual = USUAL_BUFFER * USUAL_BUFFER_AREA_PER_M3 * volume;
    survey.stay.stores_g_per_percent.unwrap_or(usual)
}

/// Water that all of it gives back while the air inside goes from one relative humidity, 0 to 1, to
/// another, kg/s; negative where it takes water up.
///
/// ```text
/// S = 0.1 Σ(MBV·A) (φ₀ − φ₁)/Δt      σ² = (0.35 S)² + (0.1 Σ(MBV·A)/Δt)² (σ₀² + σ₁²)
/// ```
pub(crate) fn given_back(
    survey: &Survey,
    volume: f64,
    (before, after): (Measured, Measured),
    seconds: f64,
) -> Measured {
    let stores = stores_g_per_percent(survey, volume);
    let value = from_materials(stores, before.value, after.value, seconds);
    let by_ends = from_materials(stores, before.error.hypot(after.error), 0.0, seconds);
    Measured {
        value,
        error: (STORED * value).hypot(by_ends),
    }
}
