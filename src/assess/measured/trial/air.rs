//! From a logger's readings to air: on the clock of the place, offsets taken off, without what does
//! not count; and its means by the hour.

use crate::assess::answer::{Answer, NotKnown};
use crate::climate::Weather;
use crate::physics::air::{
    MoistAir, humidity_ratio, saturation_pressure, saturation_pressure_over_water,
};
use crate::physics::measurement::logger::BelowFreezing;
use crate::series::{Channel, Series, What, Zone, moment_from};
use crate::survey::LoggerSeries;
use std::sync::Arc;

/// Gas constant of water vapour, J/(kg K): 8.314 462/0.018 015 **\[S\]**.
const VAPOUR_CONSTANT: f64 = 461.52;
/// 0 °C in kelvin.
const ZERO_C: f64 = 273.15;
/// Seconds of an hour.
pub(super) const HOUR_S: i64 = 3600;
const GRAMS: f64 = 1000.0;
const PERCENT: f64 = 100.0;

/// Air read over time, in order; NaN stands where nothing was read or a reading does not count.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rows {
    /// Seconds since the start of 1970 on the clock of the place.
    pub times_s: Arc<Vec<i64>>,
    /// Temperature, °C.
    pub t_c: Vec<f64>,
    /// Relative humidity as the instrument states it, 0 to 1.
    pub relative_humidity: Vec<f64>,
    /// Humidity ratio, kg/kg.
    pub humidity_ratio: Vec<f64>,
}

/// A logger's readings as air.
///
/// ```text
/// t = t_read − too warm      φ = φ_read − too damp      W = 0.621945 p_v/(p − p_v)
/// ```
/// with p_v = φ p_ws(t), or p_ws of a dew point, or ρ_v R_v T of water by volume; p the `pressure` of
/// the place, Pa. `clock_ahead_s` is by how much the clock of the place is ahead of universal time;
/// it is needed only where the file's times have a zone.
///
/// # Errors
/// Without temperature or humidity of the sensor named, or where the clock is needed and not known.
pub fn rows(
    of: &LoggerSeries,
    series: &Series,
    pressure: f64,
    clock_ahead_s: Option<i64>,
) -> Answer<Rows> {
    let shift = match (&of.mapping.zone, clock_ahead_s) {
        (Zone::Unnamed, _) => 0,
        (_, Some(ahead)) => ahead,
        (_, None) => {
            return Err(NotKnown::because(
                "the logger\u{2019}s times have a time zone, and by how much the clock of the trial is ahead \
                 of universal time is not said",
            ));
        }
    };
    let of_sensor = |channel: &&Channel| of.sensor.is_empty() || channel.sensor == of.sensor;
    let find = |what: What| {
        let mut channels = series.channels.iter().filter(of_sensor);
        channels.find(|channel| channel.what == what)
    };
    let missing = |what: &str| {
        NotKnown::because(match of.sensor.as_str() {
            "" => format!("the file has no {what}"),
            sensor => format!("the file has no {what} of the sensor \u{201c}{sensor}\u{201d}"),
        })
    };
    let temperature = find(What::Temperature).ok_or_else(|| missing("temperature"))?;
    let damp = [
        What::RelativeHumidity,
        What::DewPoint,
        What::AbsoluteHumidity,
    ]
    .into_iter()
    .find_map(find)
    .ok_or_else(|| missing("humidity"))?;
    let mut rows = Rows {
        times_s: if shift == 0 {
            Arc::clone(&series.times_s)
        } else {
            Arc::new(series.times_s.iter().map(|time| time + shift).collect())
        },
        t_c: temperature.values.iter().collect(),
        ..Rows::default()
    };
    let too_warm = of.too_warm_k.unwrap_or(0.0);
    for t_c in &mut rows.t_c {
        *t_c -= too_warm;
    }
    let mut damp_values: Vec<f64> = damp.values.iter().collect();
    leave_out(of, &rows.times_s, What::Temperature, &mut rows.t_c);
    leave_out(of, &rows.times_s, damp.what, &mut damp_values);
    let states = rows
        .t_c
        .iter()
        .zip(damp_values)
        .map(|(t_c, damp_value)| state(of, damp.what, *t_c, damp_value, pressure));
    (rows.relative_humidity, rows.humidity_ratio) = states.unzip();
    Ok(rows)
}

fn leave_out(of: &LoggerSeries, times_s: &[i64], what: What, values: &mut [f64]) {
    for one in &of.left_out {
        if one.what.is_some_and(|other| other != what) {
            continue;
        }
        let from = times_s.partition_point(|time| *time < one.from.seconds());
        let to = times_s.partition_point(|time| *time <= one.to.seconds());
        for value in values.get_mut(from..to).unwrap_or_default() {
            *value = f64::NAN;
        }
    }
}

/// Relative humidity by the instrument's convention and humidity ratio of one reading.
fn state(of: &LoggerSeries, what: What, t_c: f64, damp: f64, pressure: f64) -> (f64, f64) {
    if t_c.is_nan() || damp.is_nan() {
        return (f64::NAN, f64::NAN);
    }
    let saturated = |t_c| match of.below_freezing {
        BelowFreezing::OverWater => saturation_pressure_over_water(t_c),
        BelowFreezing::OverIce => saturation_pressure(t_c),
    };
    let relative_humidity = match what {
        What::DewPoint => saturated(damp) / saturated(t_c),
        What::AbsoluteHumidity => damp / GRAMS * VAPOUR_CONSTANT * (t_c + ZERO_C) / saturated(t_c),
        _ => (damp - of.too_damp_percent.unwrap_or(0.0)) / PERCENT,
    };
    let vapour = relative_humidity * saturated(t_c);
    let ratio = humidity_ratio(vapour, pressure);
    match MoistAir::new(t_c, ratio, pressure) {
        Ok(_) => (relative_humidity, ratio),
        Err(_) => (f64::NAN, f64::NAN),
    }
}

/// The air of a weather file hour by hour, on its standard time.
#[must_use]
pub fn weather_rows(weather: &Weather) -> Rows {
    let (mut rows, mut times_s) = (Rows::default(), Vec::new());
    for hour in &weather.hours {
        let day = hour.day;
        let midnight = moment_from(&format!("{:04}-{:02}-{:02}", day.year, day.month, day.day));
        let (Some(midnight), Some(t_c), Some(rh)) = (midnight, hour.t_c, hour.rh) else {
            continue;
        };
        let pressure = weather.pressure(hour);
        let Ok(air) = MoistAir::from_relative_humidity(t_c, rh, pressure) else {
            continue;
        };
        // The hour named by its end; what is read stands for its middle.
        times_s.push(midnight + (i64::from(hour.hour) - 1) * HOUR_S + HOUR_S / 2);
        rows.t_c.push(t_c);
        rows.relative_humidity.push(rh);
        rows.humidity_ratio.push(air.humidity_ratio);
    }
    rows.times_s = Arc::new(times_s);
    rows
}

/// The mean air of one hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourMean {
    /// Its start: seconds since the start of 1970 on the clock of the place.
    pub start_s: i64,
    /// Temperature, °C.
    pub t_c: f64,
    /// Humidity ratio, kg/kg.
    pub humidity_ratio: f64,
}

/// Means of the hours, counted from `from_s`, that have readings of both, up to `to_s`.
#[must_use]
pub fn hourly_means(rows: &Rows, from_s: i64, to_s: i64) -> Vec<HourMean> {
    let first = rows.times_s.partition_point(|time| *time < from_s);
    let mut means: Vec<HourMean> = Vec::new();
    let mut readings = 0.0;
    let all = rows
        .times_s
        .iter()
        .zip(rows.t_c.iter().zip(&rows.humidity_ratio));
    for (time, (t_c, ratio)) in all.skip(first) {
        if *time >= to_s {
            break;
        }
        if t_c.is_nan() || ratio.is_nan() {
            continue;
        }
        let start_s = time - (time - from_s).rem_euclid(HOUR_S);
        match means.last_mut().filter(|last| last.start_s == start_s) {
            Some(last) => {
                readings += 1.0;
                last.t_c += (t_c - last.t_c) / readings;
                last.humidity_ratio += (ratio - last.humidity_ratio) / readings;
            }
            None => {
                readings = 1.0;
                means.push(HourMean {
                    start_s,
                    t_c: *t_c,
                    humidity_ratio: *ratio,
                });
            }
        }
    }
    means
}
