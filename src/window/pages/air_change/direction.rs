//! Wind directions in words.

use crate::assess::DirectionAnswer;

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

const COMPASS: [&str; 16] = [
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW",
    "NNW",
];

/// Which of `count` equal sectors an angle falls into, the first one round zero.
fn sector(angle_deg: f64, count: u32) -> usize {
    let step = 360.0 / f64::from(count);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 0 to the count"
    )]
    let sector = (angle_deg.rem_euclid(360.0) / step).round() as usize;
    sector % usize::try_from(count).unwrap_or(1)
}

/// An angle without needless decimals: `22.5°`, `90°`.
#[must_use]
pub fn degrees(angle_deg: f64) -> String {
    let tenths = (angle_deg * 10.0).round() / 10.0;
    format!("{tenths}°")
}

/// The side of the vehicle that the wind meets: `front offside`.
#[must_use]
pub fn side(from_front_deg: f64) -> String {
    let eighth = sector(from_front_deg, 8);
    let on = SIDES.get(eighth).copied().unwrap_or_default();
    let whole = (from_front_deg / 45.0 - (from_front_deg / 45.0).round()).abs() < 1e-6;
    if whole {
        return on.to_owned();
    }
    // Halfway between two: named by both.
    let low = sector((from_front_deg / 45.0).floor() * 45.0, 8);
    let high = sector((from_front_deg / 45.0).ceil() * 45.0, 8);
    match (SIDES.get(low), SIDES.get(high)) {
        (Some(low), Some(high)) => format!("{low} to {high}"),
        _ => on.to_owned(),
    }
}

/// The point of the compass: `SSW`.
#[must_use]
pub fn compass(compass_deg: f64) -> &'static str {
    COMPASS
        .get(sector(compass_deg, 16))
        .copied()
        .unwrap_or_default()
}

/// Where the wind comes from: `90°, offside`, and by compass where the heading is known.
#[must_use]
pub fn words(direction: &DirectionAnswer) -> String {
    let from_front = direction.from_front_deg;
    let vehicle = format!("{}, {}", degrees(from_front), side(from_front));
    match direction.compass_deg {
        Some(compass_deg) => {
            format!("{vehicle} ({})", compass(compass_deg))
        }
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
            (22.5, "front to front offside"),
            (337.5, "front nearside to front"),
        ] {
            assert_eq!(side(angle), words, "{angle}");
        }
    }

    #[test]
    fn compass_points_stand_behind_where_the_heading_is_known() {
        let mut direction = DirectionAnswer {
            from_front_deg: 22.5,
            compass_deg: None,
            inside_pressure: 0.0,
            neutral_level: None,
            inflow_kg_s: 0.0,
            outflow_kg_s: 0.0,
            one_sided: false,
            ach_per_h: Ok(1.0),
            flows: Vec::new(),
            inner_flows: Vec::new(),
            space_pressures: Vec::new(),
        };
        assert_eq!(words(&direction), "22.5°, front to front offside");
        for (compass, point) in [(0.0, "N"), (359.0, "N"), (112.5, "ESE"), (200.0, "SSW")] {
            direction.compass_deg = Some(compass);
            assert!(
                words(&direction).ends_with(&format!("({point})")),
                "{compass}"
            );
        }
    }
}
