//! Wind at the height of the body, from the speed a weather station reports.

/// Least wind speed at body height that any case uses, m/s: air is never quite still **\[A\]**.
pub const LEAST_SPEED: f64 = 0.5;

/// Height above ground below which [`speed_at`] extrapolates, m.
pub const EXTRAPOLATED_BELOW: f64 = 3.0;

/// The district the vehicle stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Terrain {
    /// Open flat country.
    OpenFlat,
    /// Country with scattered windbreaks.
    ScatteredWindbreaks,
    /// Urban.
    Urban,
    /// City.
    City,
}

impl Terrain {
    /// All terrains, from the windiest.
    pub const ALL: [Terrain; 4] = [
        Terrain::OpenFlat,
        Terrain::ScatteredWindbreaks,
        Terrain::Urban,
        Terrain::City,
    ];

    /// Factor k and exponent a of `U = U₁₀ k z^a`. BS 5925:1991 **\[R\]**.
    pub fn profile(self) -> (f64, f64) {
        match self {
            Self::OpenFlat => (0.68, 0.17),
            Self::ScatteredWindbreaks => (0.52, 0.20),
            Self::Urban => (0.35, 0.25),
            Self::City => (0.21, 0.33),
        }
    }
}

/// The immediate surroundings of the vehicle, which change the pressures on its faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shelter {
    /// Nothing near.
    Exposed,
    /// Things of about half its height round it **\[M\]**.
    PartSheltered,
    /// Surrounded by things of its own height **\[M\]**.
    Sheltered,
}

impl Shelter {
    /// All shelters, from the most exposed.
    pub const ALL: [Shelter; 3] = [Shelter::Exposed, Shelter::PartSheltered, Shelter::Sheltered];
}

/// Wind speed at a height, m/s.
///
/// ```text
/// U = U₁₀ k z^a
/// ```
/// where U₁₀ is the open-country speed at 10 m in m/s, z the height of the roof above the ground
/// in m, k and a the [`Terrain::profile`]. BS 5925:1991 **\[R\]**. Below about 3 m this
/// extrapolates.
///
/// ```
/// use gapledger::physics::wind::{Terrain, speed_at};
/// // At 10 m in open flat country the profile gives the weather station's speed back:
/// // 0.68 × 10^0.17 = 1.006.
/// assert!((speed_at(Terrain::OpenFlat, 8.0, 10.0) / 8.0 - 1.006).abs() < 1e-3);
/// ```
pub fn speed_at(terrain: Terrain, speed_at_10_m: f64, height: f64) -> f64 {
    let (factor, exponent) = terrain.profile();
    speed_at_10_m * factor * height.powf(exponent)
}

/// Wind speed at body height that a case uses: [`speed_at`], at least [`LEAST_SPEED`].
pub fn speed_at_body(terrain: Terrain, speed_at_10_m: f64, height: f64) -> f64 {
    speed_at(terrain, speed_at_10_m, height).max(LEAST_SPEED)
}

/// Dynamic pressure of the wind, Pa: `½ ρ U²` with ρ of the outside air in kg/m³.
pub fn dynamic_pressure(density: f64, speed: f64) -> f64 {
    0.5 * density * speed * speed
}

/// Air exchanged by gusts where all openings lie on one face, m³/s.
///
/// ```text
/// Q = 0.025 A U
/// ```
/// where A is the open area in m² and U the wind speed at body height in m/s.
/// BS 5925 **\[R\]**. The result of a case is the larger of this and the balance. What was measured
/// lies within [`ONE_SIDED_RANGE`].
pub fn one_sided_flow(area: f64, speed: f64) -> f64 {
    ONE_SIDED * area * speed
}

/// Factor of [`one_sided_flow`] **\[R\]**.
pub const ONE_SIDED: f64 = 0.025;

/// Least and greatest that the factor may be (EN 16798-7, airing and its zone without cross
/// ventilation **\[R\]**).
pub const ONE_SIDED_RANGE: (f64, f64) = (0.016, 0.07);
