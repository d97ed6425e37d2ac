//! Wind directions in words.

use crate::assess::DirectionAnswer;
use crate::assess::words::{compass_point, degrees};

/// The sides of the vehicle clockwise from the front, 45° apart.
const SIDES: [&str; 8] = [
    "front",
    "front offside",
    "offside",
    "rear offside",
    "rear",
    "rear nearside",
    "nearside",
    "front nearside",
];

/// The side of the vehicle that the wind meets: `front offside`; halfway between two it is named
/// by both.
#[must_use]
pub fn side(from_front_deg: f64) -> String {
    let eighths = from_front_deg / 45.0;
    if (eighths - eighths.round()).abs() < 1e-6 {
        return named(eighths.round()).to_owned();
    }
    format!("{} to {}", named(eighths.floor()), named(eighths.ceil()))
}

fn named(eighth: f64) -> &'static str {
    let wanted = eighth.rem_euclid(8.0);
    let mut sides = (0_u8..).zip(SIDES);
    let found = sides.find(|(at, _)| (f64::from(*at) - wanted).abs() < 0.5);
    found.map_or(SIDES[0], |(_, side)| side)
}

/// Where the wind comes from, off the front: `90°, offside`.
#[must_use]
pub fn off_the_front(from_front_deg: f64) -> String {
    format!("{}, {}", degrees(from_front_deg), side(from_front_deg))
}

/// The same, and by compass where the heading is known: `90°, offside (ESE)`.
#[must_use]
pub fn words(direction: &DirectionAnswer) -> String {
    let vehicle = off_the_front(direction.from_front_deg);
    match direction.compass_deg {
        Some(compass_deg) => format!("{vehicle} ({})", compass_point(compass_deg)),
        None => vehicle,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_follow_the_clock_from_the_front() {
        for (angle, words) in [
            (0.0, "front"),
            (90.0, "offside"),
            (135.0, "rear offside"),
            (270.0, "nearside"),
            (360.0, "front"),
            (22.5, "front to front offside"),
            (337.5, "front nearside to front"),
        ] {
            assert_eq!(side(angle), words, "{angle}");
        }
        assert_eq!(off_the_front(22.5), "22.5°, front to front offside");
    }
}
