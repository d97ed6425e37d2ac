//! Readings of loggers that an instrument should not have made, as stretches that can be left out.

use super::trial::{Loggers, clock_of};
use crate::series::{Channel, Doubtful, Series, What, Why, Zone, against, doubtful};
use crate::survey::{Hung, LoggerSeries, Moment, SeriesId, Survey};
use std::sync::Arc;

/// Odd readings that lie no further apart than this are one stretch, s.
const TOGETHER_S: i64 = 6 * 3600;

/// Stretches told of one logger: whoever has more should look at the instrument.
pub const MOST_TOLD: usize = 40;

/// A stretch of odd readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Odd {
    /// What was read.
    pub what: What,
    /// What is odd about it.
    pub why: Why,
    /// First odd reading, on the clock of the place.
    pub from: Moment,
    /// Last odd reading.
    pub to: Moment,
    /// How many there are.
    pub readings: usize,
}

/// The odd readings of every logger that could be read. An outside logger is also held against every
/// other that hung outside. Where the times of a file have a zone and the clock of its trial is not
/// known, nothing is told: it could not be left out by that clock.
#[must_use]
pub fn odd(survey: &Survey, loggers: &Loggers) -> Vec<(SeriesId, Vec<Odd>)> {
    let of = |logger: &LoggerSeries| {
        let series = loggers.readings(logger.id).ok()?;
        let shift = shift_s(survey, logger)?;
        let mut found = doubtful(series);
        for other in &survey.series {
            if other.id != logger.id && (logger.hung, other.hung) == (Hung::Outside, Hung::Outside)
            {
                found.extend(dried_out((logger, series), other, loggers));
            }
        }
        found.retain(|one| is_of(logger, series.channels.get(one.channel)));
        let mut stretches = stretches(series, &found, shift);
        stretches.truncate(MOST_TOLD);
        Some((logger.id, stretches))
    };
    survey.series.iter().filter_map(of).collect()
}

/// Seconds from the times of a file to the clock of the place; `None` where it is not known.
fn shift_s(survey: &Survey, logger: &LoggerSeries) -> Option<i64> {
    if logger.mapping.zone == Zone::Unnamed {
        return Some(0);
    }
    clock_of(survey, logger.id)
}

fn is_of(logger: &LoggerSeries, channel: Option<&Channel>) -> bool {
    channel.is_some_and(|one| logger.sensor.is_empty() || one.sensor == logger.sensor)
}

/// Days on which one outside logger reads far drier than another.
fn dried_out(
    (logger, series): (&LoggerSeries, &Arc<Series>),
    other: &LoggerSeries,
    loggers: &Loggers,
) -> Vec<Doubtful> {
    let Ok(station) = loggers.readings(other.id) else {
        return Vec::new();
    };
    let humidity = |of: &LoggerSeries, series: &Series| {
        let channels = series.channels.iter();
        channels
            .clone()
            .position(|one| one.what == What::RelativeHumidity && is_of(of, Some(one)))
    };
    match (humidity(logger, series), humidity(other, station)) {
        (Some(own), Some(beside)) => against(series, own, station, beside),
        _ => Vec::new(),
    }
}

/// Runs put together, in the order of time.
fn stretches(series: &Series, found: &[Doubtful], shift: i64) -> Vec<Odd> {
    let mut sorted: Vec<&Doubtful> = found.iter().collect();
    sorted.sort_by_key(|one| (one.channel, one.why, one.from));
    let time = |row: usize| series.times_s.get(row).map(|time| time + shift);
    let mut told: Vec<(usize, Odd)> = Vec::new();
    for one in sorted {
        let (Some(channel), Some(from), Some(to)) = (
            series.channels.get(one.channel),
            time(one.from).and_then(Moment::from_seconds),
            time(one.to).and_then(Moment::from_seconds),
        ) else {
            continue;
        };
        let readings = one.to - one.from + 1;
        match told.last_mut() {
            Some((at, last))
                if *at == one.channel
                    && last.why == one.why
                    && from.seconds() - last.to.seconds() <= TOGETHER_S =>
            {
                last.to = last.to.max(to);
                last.readings += readings;
            }
            _ => told.push((
                one.channel,
                Odd {
                    what: channel.what,
                    why: one.why,
                    from,
                    to,
                    readings,
                },
            )),
        }
    }
    let mut stretches: Vec<Odd> = told.into_iter().map(|(_, odd)| odd).collect();
    stretches.sort_by_key(|odd| odd.from);
    stretches
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::{guess, read};
    use crate::survey::VehicleKind;
    use std::fmt::Write as _;

    fn logger(id: u32, hung: Hung, humidity: impl Fn(i64) -> f64) -> (LoggerSeries, Arc<Series>) {
        let mut text = String::from("Time,Temp °C,RH %\n");
        for hour in 0..20 * 24 {
            let (day, of_day) = (hour / 24 + 1, hour % 24);
            let rh = humidity(hour);
            let _ = writeln!(
                text,
                "2026-03-{day:02} {of_day:02}:00,{}.{},{rh:.1}",
                8 + of_day % 5,
                hour % 10
            );
        }
        let mapping = guess(text.as_bytes()).unwrap().mapping;
        let series = read(text.as_bytes(), &mapping).unwrap();
        let logger = LoggerSeries::new(SeriesId(id), hung, format!("{id}.csv"), mapping);
        (logger, Arc::new(series))
    }

    #[test]
    fn an_outside_sensor_that_dries_out_is_told_where_another_says_wet() {
        let wet = |hour: i64| 85.0 + f64::from(i32::try_from(hour % 9).unwrap());
        let failing = move |hour: i64| {
            if hour < 10 * 24 {
                wet(hour)
            } else {
                0.5 * wet(hour)
            }
        };
        let (failed, bad) = logger(1, Hung::Outside, failing);
        let (station, good) = logger(2, Hung::Outside, wet);
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.series = vec![failed, station];
        let loggers = Loggers {
            series: vec![(SeriesId(1), Ok(bad)), (SeriesId(2), Ok(good))],
            weather: None,
        };
        let found = odd(&survey, &loggers);
        let told = &found[0].1;
        assert_eq!(told.len(), 1, "{told:?}");
        assert_eq!(told[0].why, Why::DriedOut);
        assert_eq!(told[0].from.to_string(), "2026-03-11 00:00");
        assert!(found[1].1.is_empty(), "the station stands as it is");
        // Inside it may well be drier than outside.
        survey.series[0].hung = Hung::Inside;
        assert!(odd(&survey, &loggers)[0].1.is_empty());
    }

    #[test]
    fn readings_above_saturation_near_each_other_are_one_stretch() {
        let (one, series) = logger(1, Hung::Inside, |hour| match hour {
            30 | 32 | 33 => 101.5,
            200 => 102.0,
            _ => 70.0 + f64::from(i32::try_from(hour % 11).unwrap()),
        });
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.series = vec![one];
        let loggers = Loggers {
            series: vec![(SeriesId(1), Ok(series))],
            weather: None,
        };
        let told = &odd(&survey, &loggers)[0].1;
        let spans: Vec<_> = told
            .iter()
            .map(|odd| (odd.from.to_string(), odd.to.to_string(), odd.readings))
            .collect();
        assert_eq!(
            spans,
            [
                (
                    "2026-03-02 06:00".to_owned(),
                    "2026-03-02 09:00".to_owned(),
                    3
                ),
                (
                    "2026-03-09 08:00".to_owned(),
                    "2026-03-09 08:00".to_owned(),
                    1
                ),
            ]
        );
    }
}
