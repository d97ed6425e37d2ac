//! Format 2: the weather of a file that lists none.

use super::super::stored::{Number, Text};
use super::super::v1::ids::WeatherId;
use super::super::v1::site::{InsideAir, WeatherCase};

/// Still, breezy and windy; wind comes with mild air.
pub(super) fn usual_weather() -> Vec<WeatherCase> {
    [
        (1, "still", 0.0, (2.0, 90.0), 0.3),
        (2, "breezy", 4.0, (6.0, 85.0), 0.5),
        (3, "windy", 8.0, (8.0, 82.0), 0.2),
    ]
    .into_iter()
    .map(|(id, name, wind_m_s, outside, weight)| WeatherCase {
        id: WeatherId(id),
        name: Text(name.to_owned()),
        wind_m_s: Number(wind_m_s),
        outside_c: Number(outside.0),
        outside_rh_percent: Number(outside.1),
        inside: InsideAir::two_kelvin_warmer(),
        inside_rh_percent: None,
        weight: Number(weight),
    })
    .collect()
}
