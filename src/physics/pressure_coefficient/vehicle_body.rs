//! Pressure coefficients of a vehicle's body, computed by this project; how, and how far they were
//! checked, stands with [`underfloor`](super::underfloor).

use super::underfloor::folded_deg;
use crate::physics::wind::Shelter;

/// Area mean of a side wall at 0, 22.5, … 180 degrees from its normal **\[N\]**: a sharp-edged box
/// 6.5 by 2.3 m, roof at 2.6 m, raised 0.4 m, exposed.
const LONG_SIDE: [f64; 9] = [0.67, 0.62, 0.42, 0.13, -0.23, -0.46, -0.50, -0.41, -0.35];
/// The same of an end wall **\[N\]**.
const END_WALL: [f64; 9] = [0.64, 0.58, 0.23, -0.30, -0.78, -0.60, -0.38, -0.28, -0.18];
/// The roof at 0, 22.5, … 90 degrees off the front, mirrored **\[N\]**.
const ROOF: [f64; 5] = [-0.25, -0.40, -0.66, -0.81, -0.87];

/// What is left of them by shelter **\[A\]**.
fn left_by_shelter(shelter: Shelter) -> f64 {
    match shelter {
        Shelter::Exposed => 1.0,
        Shelter::PartSheltered => 0.7,
        Shelter::Sheltered => 0.45,
    }
}

/// A wall's coefficient, the wind so many degrees from its normal; a long side or an end.
pub(super) fn wall(shelter: Shelter, is_long: bool, from_normal_deg: f64) -> f64 {
    let turned = from_normal_deg.rem_euclid(360.0);
    let row: &[f64] = if is_long { &LONG_SIDE } else { &END_WALL };
    left_by_shelter(shelter) * between(row, turned.min(360.0 - turned))
}

/// The roof's, the wind so many degrees off the front.
pub(super) fn roof(shelter: Shelter, from_front_deg: f64) -> f64 {
    left_by_shelter(shelter) * between(&ROOF, folded_deg(from_front_deg))
}

/// Linear between values every 22.5 degrees from 0.
fn between(row: &[f64], deg: f64) -> f64 {
    let position = deg / 22.5;
    let mut pairs = row.windows(2).zip(0_u32..).map(|(pair, at)| {
        let share = position - f64::from(at);
        (share, pair)
    });
    let found = pairs.find(|(share, _)| *share <= 1.0);
    match found {
        Some((share, [low, high])) => low + share * (high - low),
        // No angle is beyond the last value.
        _ => f64::NAN,
    }
}
