//! Wind pressure on the faces of the vehicle.
//!
//! `Cp = (p − p_static)/(½ρU²)`. The wind direction is where the wind comes from, in degrees
//! clockwise from the front of the vehicle seen from above: 0 head-on, 90 from the offside
//! (right), 180 from behind, 270 from the nearside (left).

pub mod underfloor;
mod vehicle_body;

pub use underfloor::{FloorPlace, Underside};

use super::counts::whole;
use super::wind::Shelter;

/// A face of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Front.
    Front,
    /// Rear.
    Rear,
    /// Left, seen facing forward.
    Nearside,
    /// Right, seen facing forward.
    Offside,
    /// Roof.
    Roof,
    /// Underfloor; also the value for cavities such as an engine bay or a wheel arch **\[A\]**.
    Underfloor,
}

impl Face {
    /// All faces.
    pub const ALL: [Face; 6] = [
        Face::Front,
        Face::Rear,
        Face::Nearside,
        Face::Offside,
        Face::Roof,
        Face::Underfloor,
    ];

    /// Direction of a wall's outward normal, degrees clockwise from the front; `None` for roof
    /// and underfloor.
    pub fn normal_deg(self) -> Option<f64> {
        match self {
            Self::Front => Some(0.0),
            Self::Offside => Some(90.0),
            Self::Rear => Some(180.0),
            Self::Nearside => Some(270.0),
            Self::Roof | Self::Underfloor => None,
        }
    }
}

/// A set of coefficients of walls and roof.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum PressureSet {
    /// Low-rise building, length twice the width, three shelters: AIVC, Liddament 1986 **\[S\]**;
    /// all 72 numbers found the same in an open building-simulation database that names the guide.
    #[default]
    LowRise,
    /// Wall averages of Swami and Chandra, ASHRAE Trans. 94(1), 1988 **\[S\]**: exposed walls of
    /// any proportion; the roof from the first set. The formula knows no shelter.
    WallAverage,
    /// A vehicle's body, raised above the ground, computed by this project **\[N\]**: see
    /// [`underfloor`] for the method and what it was checked against.
    VehicleBody,
}

impl PressureSet {
    /// All sets, in the order offered.
    pub const ALL: [Self; 3] = [Self::LowRise, Self::WallAverage, Self::VehicleBody];
}

/// Cp of a wall or roof at 0, 45, … 315 degrees.
type Row = [f64; 8];

/// Rows for a long wall (angle from its own normal), a short wall (facing 90 degrees) and the
/// roof (angle from the normal of the long wall). AIVC, Liddament 1986, low-rise 2:1 **\[S\]**.
fn rows(shelter: Shelter) -> (Row, Row, Row) {
    match shelter {
        Shelter::Exposed => (
            [0.5, 0.25, -0.5, -0.8, -0.7, -0.8, -0.5, 0.25],
            [-0.9, 0.2, 0.6, 0.2, -0.9, -0.6, -0.35, -0.6],
            [-0.7, -0.7, -0.8, -0.7, -0.7, -0.7, -0.8, -0.7],
        ),
        Shelter::PartSheltered => (
            [0.25, 0.06, -0.35, -0.6, -0.5, -0.6, -0.35, 0.06],
            [-0.6, 0.2, 0.4, 0.2, -0.6, -0.5, -0.3, -0.5],
            [-0.6; 8],
        ),
        Shelter::Sheltered => (
            [0.06, -0.12, -0.2, -0.38, -0.3, -0.38, -0.2, -0.12],
            [-0.3, 0.15, 0.18, 0.15, -0.3, -0.32, -0.2, -0.32],
            [-0.49, -0.46, -0.41, -0.46, -0.49, -0.46, -0.41, -0.46],
        ),
    }
}

/// Cp at an angle, linear between the eight tabulated ones.
fn interpolate(row: &Row, angle_deg: f64) -> f64 {
    let position = angle_deg.rem_euclid(360.0) / 45.0;
    let below = position.floor();
    let share = position - below;
    let first = whole(below);
    // A remainder rounded up to 360 belongs to 0; hence the cycle.
    let mut values = row.iter().cycle().skip(first);
    match (values.next(), values.next()) {
        (Some(first), Some(second)) => first + share * (second - first),
        // A cycle over eight values never ends.
        _ => f64::NAN,
    }
}

/// Average Cp of a wall by Swami and Chandra, 1988 **\[S\]**.
///
/// ```text
/// Cp = 0.6 ln[1.248 − 0.703 sin(x/2) − 1.175 sin²x + 0.131 sin³(2xG)
///             + 0.769 cos(x/2) + 0.07 G² sin²(x/2) + 0.717 cos²(x/2)]
/// ```
/// where x is the angle between the wind and the wall's normal, 0 to 180 degrees, and
/// G = ln(width of this wall/width of the next).
///
/// ```
/// use gapledger::physics::pressure_coefficient::wall_average;
/// assert!((wall_average(0.0, 2.0) - 0.603).abs() < 5e-4);
/// assert!((wall_average(90.0, 2.0) + 0.340).abs() < 5e-4);
/// ```
pub fn wall_average(angle_deg: f64, side_ratio: f64) -> f64 {
    let turned = angle_deg.rem_euclid(360.0);
    let x = turned.min(360.0 - turned).to_radians();
    let g = side_ratio.ln();
    let (sin_half, cos_half) = (0.5 * x).sin_cos();
    let content = 1.248 - 0.703 * sin_half - 1.175 * x.sin().powi(2)
        + 0.131 * (2.0 * x * g).sin().powi(3)
        + 0.769 * cos_half
        + 0.07 * (g * sin_half).powi(2)
        + 0.717 * cos_half.powi(2);
    0.6 * content.ln()
}

/// What the wind pressure on a vehicle depends on, besides the wind's direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindBody {
    /// Which set to use for walls and roof.
    pub set: PressureSet,
    /// Immediate surroundings.
    pub shelter: Shelter,
    /// How the space under the floor stands to the wind.
    pub underside: Underside,
    /// Length of the body, m.
    pub length: f64,
    /// Width of the body, m.
    pub width: f64,
}

impl WindBody {
    /// A body of which nothing is known but that it is longer than wide, as every vehicle on a road
    /// is; `None` where the pressures hang on how much longer: wall averages take the ratio of the
    /// walls, and skirts the mean of the walls by their lengths.
    pub fn longer_than_wide(
        set: PressureSet,
        shelter: Shelter,
        underside: Underside,
    ) -> Option<Self> {
        let by_ratio = set == PressureSet::WallAverage
            || matches!(
                underside,
                Underside::SkirtedLeaking | Underside::SkirtedTight
            );
        (!by_ratio).then_some(Self {
            set,
            shelter,
            underside,
            // Only asked which of them is greater.
            length: 2.0,
            width: 1.0,
        })
    }

    /// Pressure coefficient of a face for wind from `wind_from_relative_deg` (clockwise from the
    /// front of the vehicle).
    ///
    /// ```
    /// use gapledger::physics::pressure_coefficient::{Face, PressureSet, Underside, WindBody};
    /// use gapledger::physics::wind::Shelter;
    /// let body = WindBody {
    ///     set: PressureSet::LowRise,
    ///     shelter: Shelter::Exposed,
    ///     underside: Underside::Open,
    ///     length: 6.0,
    ///     width: 2.2,
    /// };
    /// // Wind square onto the nearside: 0.5 there, −0.7 on the offside (Liddament 1986 [S]).
    /// assert!((body.coefficient(Face::Nearside, 270.0) - 0.5).abs() < 1e-12);
    /// assert!((body.coefficient(Face::Offside, 270.0) + 0.7).abs() < 1e-12);
    /// ```
    pub fn coefficient(&self, face: Face, wind_from_relative_deg: f64) -> f64 {
        match face {
            Face::Front | Face::Rear | Face::Nearside | Face::Offside => {
                self.wall(face, wind_from_relative_deg)
            }
            Face::Roof => self.roof(wind_from_relative_deg),
            Face::Underfloor => self.underfloor(FloorPlace::default(), wind_from_relative_deg),
        }
    }

    /// Pressure coefficient at a place under the floor.
    ///
    /// - Open: [`underfloor::open_at`], or [`underfloor::open`] where the place is not known;
    /// - closed on one side: 0 **\[A\]**, within ±[`underfloor::CLOSED_HALF_SPAN`];
    /// - skirted: the mean of the four walls', weighted by the length of skirt along each, for
    ///   every direction (the rule for crawl spaces **\[S\]**); tight skirts have the same outside,
    ///   and stand in front of the floor's gaps besides.
    pub fn underfloor(&self, place: FloorPlace, wind_from_relative_deg: f64) -> f64 {
        let from_end_deg = self.angle_off_end_deg(wind_from_relative_deg);
        match self.underside {
            Underside::Open if place == FloorPlace::default() || !self.sides_are_long() => {
                underfloor::open(self.shelter, from_end_deg)
            }
            Underside::Open => underfloor::open_at(self.shelter, place, wind_from_relative_deg),
            Underside::ClosedOneSide => 0.0,
            Underside::SkirtedLeaking | Underside::SkirtedTight => {
                self.mean_of_walls(wind_from_relative_deg)
            }
        }
    }

    /// Mean of the four walls' coefficients by their lengths.
    fn mean_of_walls(&self, wind_from_relative_deg: f64) -> f64 {
        let along = |face| self.wall(face, wind_from_relative_deg);
        let ends = along(Face::Front) + along(Face::Rear);
        let sides = along(Face::Nearside) + along(Face::Offside);
        0.5 * (self.width * ends + self.length * sides) / (self.width + self.length)
    }

    fn sides_are_long(&self) -> bool {
        self.length >= self.width
    }

    /// The wind's angle off an end of the body, the shorter face; which one is the same.
    fn angle_off_end_deg(&self, wind_from_relative_deg: f64) -> f64 {
        if self.sides_are_long() {
            wind_from_relative_deg
        } else {
            wind_from_relative_deg - 90.0
        }
    }

    fn roof(&self, wind_from_relative_deg: f64) -> f64 {
        let from_end_deg = self.angle_off_end_deg(wind_from_relative_deg);
        match self.set {
            PressureSet::VehicleBody => vehicle_body::roof(self.shelter, from_end_deg),
            // The roof's angles count from the normal of a long wall; which one is the same.
            PressureSet::LowRise | PressureSet::WallAverage => {
                let (_, _, roof) = rows(self.shelter);
                interpolate(&roof, from_end_deg - 90.0)
            }
        }
    }

    fn wall(&self, face: Face, wind_from_relative_deg: f64) -> f64 {
        let from_normal_deg = wind_from_relative_deg - face.normal_deg().unwrap_or_default();
        let is_side = matches!(face, Face::Nearside | Face::Offside);
        let is_long = is_side == self.sides_are_long();
        match self.set {
            PressureSet::LowRise => {
                let (long, short, _) = rows(self.shelter);
                if is_long {
                    interpolate(&long, from_normal_deg)
                } else {
                    interpolate(&short, from_normal_deg + 90.0)
                }
            }
            PressureSet::WallAverage => {
                let ratio = self.length / self.width;
                wall_average(from_normal_deg, if is_side { ratio } else { ratio.recip() })
            }
            PressureSet::VehicleBody => vehicle_body::wall(self.shelter, is_long, from_normal_deg),
        }
    }
}
