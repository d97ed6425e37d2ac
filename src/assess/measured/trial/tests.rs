//! Trials against closed forms and numbers from outside.

use super::*;
use crate::physics::STANDARD_PRESSURE;
use crate::series::{Channel, Mapping, Series, What, guess};
use crate::survey::{
    Against, Hung, LeftOut, LoggerCheck, LoggerSeries, Moment, SeriesId, Survey, VehicleKind,
};
use std::sync::Arc;

const PRESSURE: f64 = STANDARD_PRESSURE;

fn mapping() -> Mapping {
    guess(b"time,t C,rh %\n2026-11-05 14:30,5.0,80\n2026-11-05 15:30,5.5,81\n")
        .unwrap()
        .mapping
}

fn series(readings: &[(i64, f64, f64)]) -> Series {
    let channel = |what, values: Vec<f64>| Channel {
        sensor: String::new(),
        what,
        values: values.into_iter().collect(),
    };
    Series {
        times_s: Arc::new(readings.iter().map(|(time, ..)| *time).collect()),
        channels: vec![
            channel(
                What::Temperature,
                readings.iter().map(|one| one.1).collect(),
            ),
            channel(
                What::RelativeHumidity,
                readings.iter().map(|one| one.2).collect(),
            ),
        ],
        notes: Vec::new(),
    }
}

fn logger() -> LoggerSeries {
    LoggerSeries::new(SeriesId(1), Hung::Inside, "a.csv".into(), mapping())
}

#[test]
fn offsets_are_taken_off_and_what_is_left_out_can_be_put_back() {
    let mut of = logger();
    (of.too_warm_k, of.too_damp_percent) = (Some(0.5), Some(2.0));
    let read = series(&[(0, 20.5, 52.0), (3600, 20.5, 52.0)]);
    let all = rows(&of, &read, PRESSURE, None).unwrap();
    // psychrolib, 20 °C 50 % at 101 325 Pa: 7.26174 g/kg [S].
    assert!((all.humidity_ratio[1] - 0.007_261_74).abs() < 2e-6);
    assert!((all.t_c[0] - 20.0).abs() < 1e-12);
    of.left_out = vec![LeftOut {
        from: Moment::from_seconds(3000).unwrap(),
        to: Moment::from_seconds(4000).unwrap(),
        what: None,
        why: "held in the hand".into(),
    }];
    let fewer = rows(&of, &read, PRESSURE, None).unwrap();
    assert!(fewer.t_c[1].is_nan() && fewer.humidity_ratio[1].is_nan());
    assert_eq!(fewer.t_c[0].to_bits(), all.t_c[0].to_bits());
    assert_eq!(hourly_means(&fewer, 0, 7200).len(), 1);
    of.left_out.clear();
    assert_eq!(rows(&of, &read, PRESSURE, None).unwrap(), all);
}

#[test]
fn an_hour_is_the_mean_of_its_readings_and_counts_from_the_start() {
    let read = series(&[(1800, 10.0, 50.0), (3000, 12.0, 50.0), (5400, 20.0, 50.0)]);
    let rows = rows(&logger(), &read, PRESSURE, None).unwrap();
    let hours = hourly_means(&rows, 1800, 9000);
    let means: Vec<(i64, f64)> = hours.iter().map(|hour| (hour.start_s, hour.t_c)).collect();
    assert_eq!(means, [(1800, 11.0), (5400, 20.0)]);
}

fn day(warmer: f64, damper_g: f64) -> Day {
    Day {
        t_in_c: 5.0 + warmer,
        w_in: 0.0045 + damper_g / 1000.0,
        t_out_c: 5.0,
        w_out: 0.0045,
    }
}

#[test]
fn a_change_has_the_limits_of_welch_and_none_below_four_days() {
    // scipy.stats.ttest_ind([3.1, 2.9, 3.2, 2.8], [1.0, 1.2, 0.9, 1.1], equal_var=False) for days
    // that swing against each other, so that each counts: 1.95, 95 % from 1.66889 to 2.23111.
    let off = [1.0, 1.2, 0.9, 1.1].map(|warmer| day(warmer, 0.0));
    let on = [3.1, 2.9, 3.2, 2.8].map(|warmer| day(warmer, 0.0));
    let found = effect(&[(&off, &on)], PRESSURE).unwrap();
    let limits = found.warmth_k.limits.unwrap();
    assert!((found.warmth_k.value - 1.95).abs() < 1e-9);
    assert!((limits.low - 1.668_887).abs() < 1e-5 && (limits.high - 2.231_113).abs() < 1e-5);
    assert!(found.warmth_k.shows());
    let short = effect(&[(&off[..3], &on)], PRESSURE).unwrap();
    assert_eq!(short.warmth_k.limits, None);
    assert!(!short.is_shown());
}

#[test]
fn warmth_alone_has_the_whole_fall_and_water_alone_has_none_of_it_as_warmth() {
    let wobble = [0.0, 0.02, -0.01, 0.01];
    let off = wobble.map(|more| day(1.0 + more, 0.0));
    let warm = wobble.map(|more| day(5.0 + more, 0.0));
    let dry = wobble.map(|more| day(1.0 + more, -1.0));
    let share = |on: &[Day]| {
        effect(&[(&off, on)], PRESSURE)
            .unwrap()
            .warmth_share
            .unwrap()
    };
    assert!((share(&warm) - 1.0).abs() < 0.01);
    assert!(share(&dry).abs() < 0.01);
}

#[test]
fn a_logger_that_reads_two_points_more_than_salt_says_so() {
    let hours: Vec<(i64, f64, f64)> = (0..24).map(|hour| (hour * 3600, 22.0, 77.3)).collect();
    let air = rows(&logger(), &series(&hours), PRESSURE, None).unwrap();
    let found = over_salt(&air, Salt::SodiumChloride, 0, 86_400, PRESSURE).unwrap();
    assert_eq!(found.hours, 12);
    assert!((found.too_damp.value - 0.02).abs() < 1e-3);
    let cold: Vec<(i64, f64, f64)> = (0..24).map(|hour| (hour * 3600, 5.0, 75.0)).collect();
    let cold = rows(&logger(), &series(&cold), PRESSURE, None).unwrap();
    assert!(over_salt(&cold, Salt::SodiumChloride, 0, 86_400, PRESSURE).is_err());
}

#[test]
fn two_loggers_side_by_side_tell_their_difference() {
    let read = |t: f64, rh: f64| {
        let hours: Vec<(i64, f64, f64)> = (0..8).map(|hour| (hour * 3600, t, rh)).collect();
        rows(&logger(), &series(&hours), PRESSURE, None).unwrap()
    };
    let found = side_by_side(&read(12.4, 63.0), &read(12.0, 60.0), 0, 8 * 3600, PRESSURE).unwrap();
    assert!((found.too_warm_k.unwrap().value - 0.4).abs() < 1e-9);
    assert!((found.too_damp.value - 0.03).abs() < 1e-6);
    assert!(side_by_side(&read(12.4, 63.0), &read(12.0, 60.0), 0, 3 * 3600, PRESSURE).is_err());
}

/// A survey with two loggers of the same eight hours, the first checked beside the second.
fn checked(second_too_warm: Option<f64>) -> (Survey, Loggers) {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    survey.site.altitude_m = 0.0;
    let (mut one, mut other) = (logger(), logger());
    other.id = SeriesId(2);
    other.too_warm_k = second_too_warm;
    // What was taken off before does not count: the check begins with what the file says.
    one.too_warm_k = Some(3.0);
    one.check = Some(LoggerCheck {
        against: Against::Logger,
        beside: Some(SeriesId(2)),
        from: Moment::from_seconds(0),
        to: Moment::from_seconds(8 * 3600),
    });
    survey.series = vec![one, other];
    let read = |t: f64, rh: f64| {
        let hours: Vec<(i64, f64, f64)> = (0..8).map(|hour| (hour * 3600, t, rh)).collect();
        Ok(Arc::new(series(&hours)))
    };
    let loggers = Loggers {
        series: vec![
            (SeriesId(1), read(12.4, 63.0)),
            (SeriesId(2), read(12.0, 60.0)),
        ],
        weather: None,
    };
    (survey, loggers)
}

#[test]
fn a_check_is_of_what_the_file_says_against_the_other_as_it_was_put_right() {
    let (survey, loggers) = checked(None);
    let found = super::check::checks(&survey, &loggers);
    let off_by = found[0].1.as_ref().unwrap();
    assert!((off_by.too_warm_k.unwrap().value - 0.4).abs() < 1e-9);
    let offset = off_by.offset().unwrap();
    assert_eq!(
        (offset.too_warm_k, offset.too_damp_percent),
        (Some(0.4), 3.0)
    );
    // The other is known to read 0.5 K too warm: the first is then off by 0.9 K.
    let (survey, loggers) = checked(Some(0.5));
    let found = super::check::checks(&survey, &loggers);
    let warm = found[0].1.as_ref().unwrap().too_warm_k.unwrap();
    assert!((warm.value - 0.9).abs() < 1e-9);
}

#[test]
fn a_check_that_lacks_its_other_or_its_hours_says_so() {
    let (mut survey, loggers) = checked(None);
    let reason = |survey: &Survey| {
        let found = super::check::checks(survey, &loggers);
        found[0].1.as_ref().unwrap_err().reason.clone()
    };
    let check = survey.series[0].check.as_mut().unwrap();
    check.beside = Some(SeriesId(1));
    assert!(reason(&survey).contains("not chosen"));
    let check = survey.series[0].check.as_mut().unwrap();
    check.to = None;
    assert!(reason(&survey).contains("from when to when"));
    // A salt holds its humidity in a warm room alone: at 12 °C nothing is said.
    let check = survey.series[0].check.as_mut().unwrap();
    (check.against, check.to) = (Against::SodiumChloride, Moment::from_seconds(30 * 3600));
    assert!(reason(&survey).contains("fewer than 4 hours"));
    // Beside another that read nothing then: it is that one which is named.
    survey.series[1].original = "shed.csv".to_owned();
    let check = survey.series[0].check.as_mut().unwrap();
    (check.against, check.beside) = (Against::Logger, Some(SeriesId(2)));
    check.to = Moment::from_seconds(8 * 3600);
    let mut loggers = loggers.clone();
    let later: Vec<(i64, f64, f64)> = (100..140).map(|hour| (hour * 3600, 8.0, 70.0)).collect();
    loggers.series[1].1 = Ok(Arc::new(series(&later)));
    let found = super::check::checks(&survey, &loggers);
    let reason = &found[0].1.as_ref().unwrap_err().reason;
    assert!(
        reason.contains("\u{201c}shed.csv\u{201d} has no readings"),
        "{reason}"
    );
}

#[test]
fn a_logger_too_far_off_is_not_corrected() {
    let (survey, mut loggers) = checked(None);
    let hot: Vec<(i64, f64, f64)> = (0..8).map(|hour| (hour * 3600, 31.0, 60.0)).collect();
    loggers.series[0].1 = Ok(Arc::new(series(&hot)));
    let found = super::check::checks(&survey, &loggers);
    let off_by = found[0].1.as_ref().unwrap();
    assert!(off_by.offset().unwrap_err().reason.contains("broken"));
}
