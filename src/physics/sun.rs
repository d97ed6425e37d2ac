//! Where the sun stands, and what of it falls on the planes of a body.

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, RefractionCorrection, SolarPositions};
use thiserror::Error;

/// Share of the light that the ground throws back **\[A\]**.
pub const GROUND_REFLECTANCE: f64 = 0.2;
/// Air temperature for the refraction near the horizon, °C **\[A\]**.
const REFRACTION_C: f64 = 12.0;
/// Terrestrial less universal time, s, in the years of the weather files (IERS; it hardly matters:
/// ten seconds are 0.04°) **\[M\]**.
const DELTA_T: f64 = 67.0;
/// Pascals in a hectopascal.
const PA_PER_HPA: f64 = 100.0;

/// A moment in universal time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Year.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// Hours after midnight of that day; may lie before or after it.
    pub hour: f64,
}

/// Why the sun's place is not known.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
#[error("the sun's place cannot be worked out: {0}")]
pub struct SunError(String);

/// Where the sun stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sun {
    /// Above the horizon as seen through the air, degrees.
    pub elevation_deg: f64,
    /// Clockwise from north, degrees.
    pub azimuth_deg: f64,
}

/// The sun seen from a place at a moment.
///
/// The algorithm is NREL's SPA (Reda and Andreas, Solar Energy 76, 2004 **\[R\]**), of a library,
/// with the refraction of air at 12 °C **\[A\]**.
///
/// # Errors
/// A place or a moment that cannot be.
///
/// ```
/// use gapledger::physics::sun::{Moment, sun};
/// // pvlib 0.16.1, solarposition.spa_python: 52° N, 1.5° E, 21 December 2023, 12:00 universal
/// // time: apparent elevation 14.6031°, azimuth 181.9112°.
/// let noon = Moment { year: 2023, month: 12, day: 21, hour: 12.0 };
/// let found = sun(noon, 52.0, 1.5, 101_325.0)?;
/// assert!((found.elevation_deg - 14.6031).abs() < 1e-3);
/// assert!((found.azimuth_deg - 181.9112).abs() < 1e-3);
/// # Ok::<(), gapledger::physics::sun::SunError>(())
/// ```
pub fn sun(
    moment: Moment,
    latitude_deg: f64,
    longitude_deg: f64,
    pressure: f64,
) -> Result<Sun, SunError> {
    let error = |error: solar_positioning::Error| SunError(error.to_string());
    // Midnight ends in .5, which the format of the library holds exactly.
    let midnight = JulianDate::from_utc(
        moment.year,
        u32::from(moment.month),
        u32::from(moment.day),
        0,
        0,
        0.0,
        DELTA_T,
    )
    .map_err(error)?;
    let at = midnight.julian_date() + moment.hour / 24.0;
    let time = JulianDate::new(at, DELTA_T).map_err(error)?;
    let place = Location {
        latitude: latitude_deg,
        longitude: longitude_deg,
    };
    let air = RefractionCorrection::new(pressure / PA_PER_HPA, REFRACTION_C).map_err(error)?;
    let found = SolarPositions::new()
        .at_from_julian(time, place, 0.0, Some(air))
        .map_err(error)?;
    Ok(Sun {
        elevation_deg: found.elevation_angle(),
        azimuth_deg: found.azimuth(),
    })
}

/// A plane of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Plane {
    /// Lies level and faces up.
    Level,
    /// Stands upright; its outside faces so many degrees clockwise from north.
    Upright {
        /// Degrees clockwise from north.
        facing_deg: f64,
    },
}

/// Light of one hour, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Light {
    /// Of the sun on a plane that faces it.
    pub direct: f64,
    /// Of the sky on the level.
    pub diffuse: f64,
    /// Of both on the level.
    pub global: f64,
}

/// Light on a plane, W/m².
///
/// ```text
/// level    I = B sin h + D
/// upright  I = B max(0, cos h cos(a − p)) + D/2 + ρ G/2
/// ```
/// where B is the direct light on a plane that faces the sun, D the diffuse and G the global light
/// on the level, W/m², h the sun's elevation, a its azimuth and p where the plane faces, and ρ
/// [`GROUND_REFLECTANCE`]. A sky alike all over (Liu and Jordan 1963 **\[M\]**). The sun below the
/// horizon gives no direct light.
///
/// ```
/// use gapledger::physics::sun::{Light, Plane, Sun, on_plane};
/// // 30° high due south: sin 30° = 0.5 on the level, cos 30° on a wall that faces south.
/// let sun = Sun { elevation_deg: 30.0, azimuth_deg: 180.0 };
/// let light = Light { direct: 400.0, diffuse: 100.0, global: 300.0 };
/// assert!((on_plane(&sun, &light, Plane::Level) - 300.0).abs() < 1e-9);
/// let south = on_plane(&sun, &light, Plane::Upright { facing_deg: 180.0 });
/// assert!((south - (346.410_162 + 50.0 + 30.0)).abs() < 1e-6);
/// let north = on_plane(&sun, &light, Plane::Upright { facing_deg: 0.0 });
/// assert!((north - 80.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn on_plane(sun: &Sun, light: &Light, plane: Plane) -> f64 {
    let up = sun.elevation_deg > 0.0;
    let (sine, cosine) = sun.elevation_deg.to_radians().sin_cos();
    match plane {
        Plane::Level => light.diffuse + if up { light.direct * sine } else { 0.0 },
        Plane::Upright { facing_deg } => {
            let towards = cosine * (sun.azimuth_deg - facing_deg).to_radians().cos();
            let direct = if up {
                light.direct * towards.max(0.0)
            } else {
                0.0
            };
            direct + 0.5 * light.diffuse + 0.5 * GROUND_REFLECTANCE * light.global
        }
    }
}
