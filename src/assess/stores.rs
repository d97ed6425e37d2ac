//! Water that furniture, boards and cloth take up and give back.

use crate::survey::Survey;

/// What furniture and cloth hold for each point of relative humidity, g/(m² %RH) **\[A\]**.
pub const USUAL_BUFFER: f64 = 0.6;
/// Area of it for each cubic metre of room, m² **\[A\]**.
pub const USUAL_BUFFER_AREA_PER_M3: f64 = 2.0;

/// What all of it holds for each point of relative humidity, g: as entered for the winter, else by the
/// volume, m³.
pub(crate) fn stores_g_per_percent(survey: &Survey, volume: f64) -> f64 {
    let usual = USUAL_BUFFER * USUAL_BUFFER_AREA_PER_M3 * volume;
    survey.stay.stores_g_per_percent.unwrap_or(usual)
}
