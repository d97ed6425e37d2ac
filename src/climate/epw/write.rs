//! Weather written as a file that any program of building simulation reads.

use super::columns::COLUMNS;
use crate::climate::hour::{Hour, Weather};
use crate::physics::air::{dew_point, saturation_pressure};
use std::fmt::Write;

/// The text of a weather file. Numbers are written so that they read back as the same.
#[must_use]
pub fn write(weather: &Weather) -> String {
    let place = &weather.place;
    let name = place.name.replace([',', '\n', '\r'], " ");
    let (first, last) = (weather.hours.first(), weather.hours.last());
    let date = |hour: Option<&Hour>| {
        hour.map_or_else(
            || "1/1".to_owned(),
            |hour| format!("{}/{}", hour.day.month, hour.day.day),
        )
    };
    let mut text = format!(
        "LOCATION,{name},-,-,invented,000000,{},{},{},{}\n\
         DESIGN CONDITIONS,0\n\
         TYPICAL/EXTREME PERIODS,0\n\
         GROUND TEMPERATURES,0\n\
         HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n\
         COMMENTS 1,\n\
         COMMENTS 2,\n\
         DATA PERIODS,1,1,Data,Monday,{},{}\n",
        place.latitude_deg,
        place.longitude_deg,
        place.zone_h,
        place.altitude_m,
        date(first),
        date(last)
    );
    for hour in &weather.hours {
        row(&mut text, hour);
    }
    text
}

fn row(text: &mut String, hour: &Hour) {
    let day = hour.day;
    // Writing to a string does not fail.
    let _ = write!(
        text,
        "{},{},{},{},60,?9",
        day.year, day.month, day.day, hour.hour
    );
    for column in &COLUMNS {
        let value = match column.number {
            7 => hour.t_c,
            8 => dew_point_c(hour),
            9 => hour.rh.map(|rh| rh * 100.0),
            10 => hour.pressure,
            13 => hour.infrared,
            14 => hour.global,
            15 => hour.direct,
            16 => hour.diffuse,
            21 => hour.wind_from_deg,
            22 => hour.wind,
            23 | 24 => hour.cloud.map(|share| share * 10.0),
            _ => None,
        };
        let missing = if column.number == 28 {
            999_999_999.0
        } else {
            column.missing
        };
        let _ = write!(text, ",{}", value.unwrap_or(missing));
    }
    text.push('\n');
}

fn dew_point_c(hour: &Hour) -> Option<f64> {
    dew_point(hour.rh? * saturation_pressure(hour.t_c?))
}
