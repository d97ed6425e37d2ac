//! Weather from rows of readings: a logger's outside, or the hourly table of a weather service.

use super::calendar::{Day, days_in_month};
use super::hour::{Hour, Place, Weather};
use super::words::number;
use crate::physics::air::{saturation_pressure, saturation_pressure_over_water};
use crate::physics::counts::count;
use crate::series::{Series, What, moment};

/// Seconds in an hour, and in a day.
const HOUR_S: i64 = 3600;
const DAY_S: i64 = 24 * HOUR_S;
/// Most days of a table: ten years.
const MOST_DAYS: i64 = 3660;
const PERCENT: f64 = 100.0;
/// Highest humidity that a sensor shows in air that is all but saturated, %.
const MOST_RH: f64 = 105.0;
/// Between what the values of weather lie, and what they are called.
const BOUNDS: [(What, f64, f64); 9] = [
    (What::Temperature, -60.0, 60.0),
    (What::DewPoint, -80.0, 60.0),
    (What::RelativeHumidity, 0.0, MOST_RH),
    (What::Pressure, 50_000.0, 110_000.0),
    (What::Wind, 0.0, 60.0),
    (What::WindDirection, 0.0, 360.0),
    (What::Global, -20.0, 1_500.0),
    (What::Direct, -20.0, 1_400.0),
    (What::Diffuse, -20.0, 1_000.0),
];

/// Why rows are no weather.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LoggedError {
    /// Nothing was read.
    #[error("there is no row of readings")]
    Empty,
    /// The first and the last row are too far apart.
    #[error("the rows reach over more than ten years: is a date wrong?")]
    TooLong,
    /// Several columns hold the same.
    #[error("{0} columns hold the {1}: leave one, that of the outside")]
    Several(usize, &'static str),
    /// A value that cannot be.
    #[error("at {at} the {name} is {}: it should lie between {} and {}", number(*.value), number(*.least), number(*.most))]
    Value {
        /// When.
        at: String,
        /// Of what.
        name: &'static str,
        /// What stands there.
        value: f64,
        /// The least that can be.
        least: f64,
        /// The most.
        most: f64,
    },
}

/// One thing by the hour: the mean of all readings in it, `None` where there is none.
type ByHour = Vec<Option<f64>>;

impl Weather {
    /// Rows of readings by the hour. A reading belongs to the hour that ends with it or next after it,
    /// and each hour has the mean of its readings; the wind's direction is the last of them. Short
    /// gaps are filled ([`Weather::fill`]). Sensors and weather services state the humidity of air
    /// below freezing over water **\[M\]**: here it becomes that over ice.
    ///
    /// # Errors
    /// No row, a value that cannot be, with its time, or several columns of one thing.
    pub fn of_series(series: &Series, place: Place) -> Result<Self, LoggedError> {
        let (Some(first), Some(last)) = (series.times_s.first(), series.times_s.last()) else {
            return Err(LoggedError::Empty);
        };
        // The hour that ends at midnight belongs to the day before.
        let first_day = (first - 1).div_euclid(DAY_S);
        let last_day = (last - 1).div_euclid(DAY_S);
        if last_day - first_day > MOST_DAYS {
            return Err(LoggedError::TooLong);
        }
        let days = usize::try_from(last_day - first_day + 1).unwrap_or_default();
        let by = |what: What| by_hour(series, what, (first_day * DAY_S, days * 24));
        let (t_c, rh, dew) = (
            by(What::Temperature)?,
            by(What::RelativeHumidity)?,
            by(What::DewPoint)?,
        );
        let (pressure, wind, from) = (
            by(What::Pressure)?,
            by(What::Wind)?,
            by(What::WindDirection)?,
        );
        let (global, direct, diffuse) = (by(What::Global)?, by(What::Direct)?, by(What::Diffuse)?);
        let cloud = by(What::CloudCover)?;
        let mut day = civil(first_day);
        let mut hours = Vec::with_capacity(days * 24);
        for at in 0..days * 24 {
            let of = |all: &ByHour| all.get(at).copied().flatten();
            let light = |all: &ByHour| of(all).map(|light| light.max(0.0));
            let t_c = of(&t_c);
            let of_rh = of(&rh)
                .zip(t_c)
                .map(|(rh, t_c)| over_ice(rh / PERCENT, t_c));
            let of_dew = || Some(Hour::rh_from_dew_point(t_c?, of(&dew)?));
            let number = u8::try_from(at % 24 + 1).unwrap_or_default();
            hours.push(Hour {
                t_c,
                rh: of_rh.or_else(of_dew),
                pressure: of(&pressure),
                wind: of(&wind),
                wind_from_deg: of(&from),
                global: light(&global),
                direct: light(&direct),
                diffuse: light(&diffuse),
                cloud: of(&cloud).map(|cloud| (cloud / PERCENT).clamp(0.0, 1.0)),
                ..Hour::blank(day, number)
            });
            if number == 24 {
                day = day.next();
            }
        }
        let mut weather = Self {
            place,
            hours,
            invented: false,
        };
        weather.fill();
        Ok(weather)
    }
}

/// Humidity over ice below freezing, from that over water, at most 1.
fn over_ice(rh: f64, t_c: f64) -> f64 {
    let over_water = saturation_pressure_over_water(t_c).max(saturation_pressure(t_c));
    (rh * over_water / saturation_pressure(t_c)).min(1.0)
}

fn by_hour(
    series: &Series,
    what: What,
    (start_s, hours): (i64, usize),
) -> Result<ByHour, LoggedError> {
    let channels = series.channels.iter().filter(|own| own.what == what);
    let channels: Vec<_> = channels.collect();
    let channel = match channels.as_slice() {
        [] => return Ok(Vec::new()),
        [only] => only,
        several => return Err(LoggedError::Several(several.len(), what.name())),
    };
    let mut sums = vec![(0.0, 0_usize); hours];
    for (time, value) in series.times_s.iter().zip(channel.values.iter()) {
        if value.is_nan() {
            continue;
        }
        let bounds = BOUNDS.iter().find(|(own, _, _)| *own == what);
        if let Some((_, least, most)) =
            bounds.filter(|(_, least, most)| !(*least..=*most).contains(&value))
        {
            return Err(LoggedError::Value {
                at: moment(*time),
                name: what.name(),
                value,
                least: *least,
                most: *most,
            });
        }
        let at = usize::try_from((time - start_s - 1).div_euclid(HOUR_S)).ok();
        if let Some(sum) = at.and_then(|at| sums.get_mut(at)) {
            *sum = if what == What::WindDirection {
                (value, 1)
            } else {
                (sum.0 + value, sum.1 + 1)
            };
        }
    }
    let means = sums.into_iter();
    Ok(means
        .map(|(sum, readings)| (readings > 0).then(|| sum / count(readings)))
        .collect())
}

/// The day so many days after the first of 1970.
fn civil(days: i64) -> Day {
    let mut day = Day {
        year: 1970,
        month: 1,
        day: 1,
    };
    let length = |year: i32| {
        (1..=12)
            .map(|month| i64::from(days_in_month(year, month)))
            .sum::<i64>()
    };
    let mut left = days;
    while left < 0 {
        day.year -= 1;
        left += length(day.year);
    }
    while left >= length(day.year) {
        left -= length(day.year);
        day.year += 1;
    }
    for _ in 0..left {
        day = day.next();
    }
    day
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::{guess, read};

    fn place() -> Place {
        Place {
            name: "a hill".to_owned(),
            latitude_deg: 51.0,
            longitude_deg: 0.0,
            zone_h: 0.0,
            clock_assumed: false,
            altitude_m: 80.0,
        }
    }

    fn taken(text: &str) -> Result<Weather, LoggedError> {
        let guessed = guess(text.as_bytes()).expect("guessed");
        Weather::of_series(
            &read(text.as_bytes(), &guessed.mapping).expect("read"),
            place(),
        )
    }

    #[test]
    fn the_table_of_a_service_is_read_by_its_headings_and_units() {
        let text = "time,temperature (°C),relative humidity (%),wind speed (km/h),wind direction (°),\
                    surface pressure (hPa),global radiation (W/m²),diffuse radiation (W/m²),\
                    direct normal irradiance (W/m²),cloud cover (%)\n\
                    2024-02-28T23:00,4.0,80,18,225,1000,0,0,0,50\n\
                    2024-02-29T00:00,-5.0,80,36,270,1001,10,5,20,100\n\
                    2024-02-29T01:00,6.0,100,9,280,1002,30,10,40,0\n";
        let weather = taken(text).expect("weather");
        assert_eq!(weather.hours.len(), 48);
        let [first, second, third] = [22, 23, 24].map(|at| weather.hours[at]);
        let leap_day = Day::new(2024, 2, 29).expect("a day");
        assert_eq!(
            (first.hour, second.hour, third.hour, third.day),
            (23, 24, 1, leap_day)
        );
        assert_eq!(weather.hours[21].t_c, None);
        let near = |found: Option<f64>, value: f64| {
            assert!(
                (found.expect("known") - value).abs() < 1e-9,
                "{found:?} {value}"
            );
        };
        near(first.t_c, 4.0);
        near(first.wind, 5.0);
        near(second.wind_from_deg, 270.0);
        near(second.pressure, 100_100.0);
        near(third.global, 30.0);
        near(third.diffuse, 10.0);
        near(third.direct, 40.0);
        near(first.cloud, 0.5);
        near(first.rh, 0.8);
        // ASHRAE 2017 [S]: at −5 °C 401.74 Pa over ice; over water 421.8 Pa (psychrolib's formula).
        assert!((second.rh.expect("known") - 0.8 * 421.8 / 401.74).abs() < 1e-3);
    }

    #[test]
    fn readings_of_ten_minutes_become_means_of_the_hour_that_ends_with_them() {
        let mut text = "time,T (°C),RH (%)\n".to_owned();
        for minute in ["10", "20", "30", "40", "50"] {
            text += &format!("2024-01-05 06:{minute},1.0,70\n");
        }
        text += "2024-01-05 07:00,7.0,70\n2024-01-05 07:10,9.0,70\n";
        let weather = taken(&text).expect("weather");
        assert_eq!(weather.hours.len(), 24);
        assert!((weather.hours[6].t_c.expect("known") - 2.0).abs() < 1e-9);
        assert!((weather.hours[7].t_c.expect("known") - 9.0).abs() < 1e-9);
        assert!(weather.hours.iter().all(|hour| hour.wind.is_none()));
    }

    #[test]
    fn what_cannot_be_is_told_with_its_time() {
        let with = |rh: &str, wind: &str| {
            taken(&format!(
                "time,T (°C),RH (%),wind (m/s)\n2024-01-05 06:00,1.0,70,2\n2024-01-05 07:00,1.0,{rh},{wind}\n"
            ))
        };
        assert!(with("104", "3").is_ok());
        let damp = with("140", "3").expect_err("not possible").to_string();
        assert!(
            damp.contains("2024-01-05 07:00") && damp.contains("140"),
            "{damp}"
        );
        let wind = with("70", "99").expect_err("not possible").to_string();
        assert!(wind.contains("wind speed is 99"), "{wind}");
        let two = taken(
            "time,T inside (°C),T outside (°C)\n2024-01-05 06:00,1.0,70\n2024-01-05 07:00,1.0,7\n",
        );
        assert_eq!(two, Err(LoggedError::Several(2, "temperature")));
    }

    #[test]
    fn days_are_counted_from_1970_on_both_sides() {
        let day = |year, month, day| Day { year, month, day };
        assert_eq!(civil(0), day(1970, 1, 1));
        assert_eq!(civil(-1), day(1969, 12, 31));
        // Python: date.fromordinal(date(1970, 1, 1).toordinal() + 19782) = 2024-02-29.
        assert_eq!(civil(19_782), day(2024, 2, 29));
    }
}
