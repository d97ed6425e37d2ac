//! Wind pressure under the floor of a parked vehicle.
//!
#![doc = include_str!("simulation.md")]

use crate::physics::counts::whole;
use crate::physics::wind::Shelter;

/// How the space under the floor stands to the wind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Underside {
    /// Open all round.
    #[default]
    Open,
    /// Closed on one side: a kerb, a bank, snow, the skirt of an awning.
    ClosedOneSide,
    /// Skirted all round, but leaking.
    SkirtedLeaking,
    /// Skirted tightly: the space below is a cavity in series, with the skirt's own gaps in front
    /// of those of the floor.
    SkirtedTight,
}

impl Underside {
    /// All of them, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::Open,
        Self::ClosedOneSide,
        Self::SkirtedLeaking,
        Self::SkirtedTight,
    ];

    /// Whether skirts go all round, so that the pressure below follows the walls'.
    pub fn is_skirted(self) -> bool {
        matches!(self, Self::SkirtedLeaking | Self::SkirtedTight)
    }
}

/// Half the 95 % range of the common factor on the coefficient of an open underfloor **\[N\]**:
/// 0.5 to 1.5. The upper end is a flat floor without wheels on smooth ground, the lower a
/// judgement (chassis, tanks, steps, long grass).
pub const FACTOR_HALF_SPAN: f64 = 0.5;

/// Half the 95 % range of the coefficient where one side is closed **\[A\]**.
pub const CLOSED_HALF_SPAN: f64 = 0.2;

/// Mean coefficient under an open floor, 0.4 m above the ground, exposed, with wheels, at 0, 22.5,
/// 45, 67.5 and 90 degrees off the front **\[N\]**: mean of one axle and two, raised by 2 to 6 %
/// for what the grid still leaves.
const WHOLE_FLOOR: [f64; 5] = [-0.22, -0.26, -0.35, -0.44, -0.59];

/// The same by place, at the same angles **\[N\]**: the third of the length nearest the wind, the
/// middle, the farthest; in each the windward half of the width, then the leeward half. Means of
/// one axle and two, scaled to [`WHOLE_FLOOR`]; straight from the front and from the side, the
/// halves and the outer thirds are made alike, as they are by symmetry.
const BY_PLACE: [[[f64; 2]; 3]; 5] = [
    [[-0.436, -0.436], [-0.098, -0.098], [-0.126, -0.126]],
    [[-0.309, -0.409], [-0.212, -0.150], [-0.281, -0.199]],
    [[-0.320, -0.340], [-0.377, -0.260], [-0.486, -0.317]],
    [[-0.551, -0.343], [-0.502, -0.320], [-0.573, -0.351]],
    [[-0.791, -0.437], [-0.671, -0.412], [-0.791, -0.437]],
];

/// What is left of the coefficient by shelter **\[A\]**: the ratio of the walls' tables.
fn left_by_shelter(shelter: Shelter) -> f64 {
    match shelter {
        Shelter::Exposed => 1.0,
        Shelter::PartSheltered => 0.8,
        Shelter::Sheltered => 0.6,
    }
}

/// A value at an angle off the front, folded both ways so that 180 degrees are as 0 and 270 as
/// 90, linear between values every 22.5 degrees.
fn folded(from_front_deg: f64, value: impl Fn(usize) -> f64) -> f64 {
    let position = folded_deg(from_front_deg) / 22.5;
    let below = position.floor().min(3.0);
    let first = whole(below);
    value(first) + (position - below) * (value(first + 1) - value(first))
}

/// An angle off the front, 0 to 90 degrees: from either side and from either end alike.
pub(super) fn folded_deg(from_front_deg: f64) -> f64 {
    let turned = from_front_deg.rem_euclid(360.0);
    let from_one_side = turned.min(360.0 - turned);
    from_one_side.min(180.0 - from_one_side)
}

/// Pressure coefficient under an open floor, mean of the whole floor **\[N\]**, by the wind's
/// angle off the front in degrees.
///
/// ```text
/// Cp = s Cp(folded angle),  s = 1 exposed, 0.8 part sheltered, 0.6 sheltered
/// ```
///
/// ```
/// use gapledger::physics::pressure_coefficient::underfloor::open;
/// use gapledger::physics::wind::Shelter;
/// assert!((open(Shelter::Exposed, 90.0) + 0.59).abs() < 1e-12);
/// assert!((open(Shelter::Sheltered, 180.0) + 0.6 * 0.22).abs() < 1e-12);
/// ```
pub fn open(shelter: Shelter, from_front_deg: f64) -> f64 {
    left_by_shelter(shelter) * folded(from_front_deg, |at| at_step(&WHOLE_FLOOR, at))
}

fn at_step<T: Copy + Default>(row: &[T; 5], at: usize) -> T {
    // The steps asked for are 0 to 4.
    row.get(at).copied().unwrap_or_default()
}

/// A third of the floor's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Third {
    /// Nearest the front.
    Front,
    /// The middle.
    Middle,
    /// Nearest the rear.
    Rear,
}

/// A half of the floor's width.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Half {
    /// The left.
    Nearside,
    /// The right.
    Offside,
}

/// Where under the floor a gap is, as far as it was written down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct FloorPlace {
    /// Along the body.
    pub third: Option<Third>,
    /// Across it.
    pub half: Option<Half>,
}

impl FloorPlace {
    /// The place at so much of the length from the front and of the width from the nearside, both
    /// 0…1; `None` where it was not taken.
    pub fn at(along: Option<f64>, across: Option<f64>) -> Self {
        let third = |share: f64| {
            if share < 1.0 / 3.0 {
                Third::Front
            } else if share <= 2.0 / 3.0 {
                Third::Middle
            } else {
                Third::Rear
            }
        };
        let half = |share: f64| {
            if share <= 0.5 {
                Half::Nearside
            } else {
                Half::Offside
            }
        };
        Self {
            third: along.map(third),
            half: across.map(half),
        }
    }
}

/// Pressure coefficient under an open floor at a place **\[N\]**: that of its sixth of the floor;
/// where the place is known in one direction only, the mean over the other.
///
/// ```
/// use gapledger::physics::pressure_coefficient::underfloor::{FloorPlace, Half, open_at};
/// use gapledger::physics::wind::Shelter;
/// // Wind square onto the nearside: −0.7 to −0.8 under that half, −0.4 under the other.
/// let at = |half| {
///     let place = FloorPlace { third: None, half: Some(half) };
///     open_at(Shelter::Exposed, place, 270.0)
/// };
/// assert!((at(Half::Nearside) + 0.75).abs() < 0.01);
/// assert!((at(Half::Offside) + 0.43).abs() < 0.01);
/// ```
pub fn open_at(shelter: Shelter, place: FloorPlace, from_front_deg: f64) -> f64 {
    let turned = from_front_deg.rem_euclid(360.0);
    let onto_nearside = turned > 180.0;
    let onto_rear = turned > 90.0 && turned < 270.0;
    let thirds = match (place.third, onto_rear) {
        (None, _) => 0..3,
        (Some(Third::Front), false) | (Some(Third::Rear), true) => 0..1,
        (Some(Third::Middle), _) => 1..2,
        (Some(Third::Rear), false) | (Some(Third::Front), true) => 2..3,
    };
    let halves = match (place.half, onto_nearside) {
        (None, _) => 0..2,
        (Some(Half::Nearside), true) | (Some(Half::Offside), false) => 0..1,
        (Some(Half::Nearside), false) | (Some(Half::Offside), true) => 1..2,
    };
    let mean = |at: usize| {
        let step = at_step(&BY_PLACE, at);
        let sixths = step
            .iter()
            .enumerate()
            .filter(|(at, _)| thirds.contains(at));
        let values = sixths.flat_map(|(_, row)| {
            let row = row.iter().enumerate();
            row.filter(|(at, _)| halves.contains(at)).map(|(_, cp)| *cp)
        });
        let (sum, count) = values.fold((0.0, 0.0), |(sum, count), cp| (sum + cp, count + 1.0));
        sum / count
    };
    left_by_shelter(shelter) * folded(from_front_deg, mean)
}
