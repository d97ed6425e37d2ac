//! Infrared of the sky, and what it takes from a body.

use super::air::ZERO_CELSIUS;

/// Stefan and Boltzmann's constant, W/(m² K⁴) **\[S\]**.
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Emissivity of paint, plastic and glass **\[A\]**.
pub const SURFACE_EMISSIVITY: f64 = 0.9;
/// Clouds that no height is known of warm the sky by the factor of 3 km, `e^(−3/8.2)` \[S\].
const CLOUD_HEIGHT_KM: f64 = 3.0;
/// Height over which the clouds' share falls to 1/e, km \[S\].
const CLOUD_SCALE_KM: f64 = 8.2;
/// Pascals in a hectopascal.
const PA_PER_HPA: f64 = 100.0;

/// What a black body at an air temperature gives off, W/m²: `σ T⁴`.
#[must_use]
pub fn black_body(t_c: f64) -> f64 {
    STEFAN_BOLTZMANN * (t_c + ZERO_CELSIUS).powi(4)
}

/// Emissivity of a clear sky.
///
/// ```text
/// ε = 0.711 + 0.56 t_d/100 + 0.73 (t_d/100)² + 0.013 cos(2π h/24) + 12e-5 (p − 1000)
/// ```
/// where t_d is the dew point, °C, h the hours after midnight and p the air pressure, hPa.
/// Berdahl and Martin, Solar Energy 32 (1984) **\[S\]**.
///
/// ```
/// use gapledger::physics::sky::clear_sky_emissivity;
/// // 5 °C with a dew point of 2.9 °C at midnight and 1013 hPa: 0.742 [S].
/// assert!((clear_sky_emissivity(2.9, 0.0, 101_300.0) - 0.742).abs() < 5e-4);
/// ```
#[must_use]
pub fn clear_sky_emissivity(dew_point_c: f64, hour: f64, pressure: f64) -> f64 {
    let hundredth = dew_point_c / 100.0;
    0.711
        + 0.56 * hundredth
        + 0.73 * hundredth * hundredth
        + 0.013 * (std::f64::consts::TAU * hour / 24.0).cos()
        + 12e-5 * (pressure / PA_PER_HPA - 1000.0)
}

/// Infrared of the sky where it was not recorded, W/m².
///
/// ```text
/// IR = [ε + (1 − ε) c e^(−3/8.2)] σ T⁴
/// ```
/// where ε is that of the clear sky ([`clear_sky_emissivity`]), c the share of the sky that clouds
/// cover, 0 to 1, and T the temperature of the air, K. Berdahl and Martin 1984 **\[S\]**.
#[must_use]
pub fn infrared(t_c: f64, clear_emissivity: f64, cloud: f64) -> f64 {
    let clouds = cloud * (-CLOUD_HEIGHT_KM / CLOUD_SCALE_KM).exp();
    (clear_emissivity + (1.0 - clear_emissivity) * clouds) * black_body(t_c)
}

/// What a plane that sees the whole sky gives off beyond what it gets back, W/m².
///
/// ```text
/// ΔR = ε (σ T_o⁴ − IR)
/// ```
/// where ε is [`SURFACE_EMISSIVITY`], T_o the outside temperature, K, and IR the sky's, W/m².
#[must_use]
pub fn net_loss(outside_c: f64, infrared: f64) -> f64 {
    SURFACE_EMISSIVITY * (black_body(outside_c) - infrared)
}

/// Heat from an outside surface to its surroundings, W/(m² K).
///
/// ```text
/// h_e = 2.8 + 3.0 U + 4.5
/// ```
/// where U is the wind at the body, m/s: McAdams **\[S\]** and the radiation.
#[must_use]
pub fn outside_coefficient(wind: f64) -> f64 {
    2.8 + 3.0 * wind + 4.5
}
