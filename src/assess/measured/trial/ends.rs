//! How damp it was inside when a period began and when it ended.

use super::air::{HOUR_S, HourMean, Rows, hourly_means};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::counts::count;
use crate::physics::measurement::logger::restated;
use crate::physics::measurement::water_balance::Measured;

/// Hours that stand for a moment: a machine brings the air from 85 to 60 % within two, so a day says
/// nothing of how it began **\[A\]**.
const HOURS: usize = 3;
/// The same, s.
const BEFORE_S: i64 = 3 * HOUR_S;
/// How far from its moment an hour of the period itself may lie and still stand for it, s **\[A\]**.
const NEAR_S: i64 = 24 * HOUR_S;
/// Least standard error, points of 0 to 1: it is not as damp in every corner as at the logger, whose own
/// offset falls out of the difference of the two **\[A\]**.
const LEAST_ERROR: f64 = 0.02;

/// Relative humidity inside, 0 to 1, when a period began and when it ended.
///
/// ```text
/// φ = mean of the three hours before      σ = max(0.02, max |φ_hour − φ|)
/// ```
/// Where nothing was read before it began, the first hour within stands for that, and σ is by the hours
/// that follow it **\[A\]**.
///
/// # Errors
/// Where nothing was read within a day of the one moment or the other.
pub(super) fn ends(
    inside: &Rows,
    from_s: i64,
    to_s: i64,
    pressure: f64,
) -> Answer<(Measured, Measured)> {
    let humid = |hours: &[HourMean]| -> Vec<f64> {
        let each = hours
            .iter()
            .map(|hour| restated(hour.humidity_ratio, hour.t_c, pressure));
        each.flatten().collect()
    };
    let before = hourly_means(inside, from_s - BEFORE_S, from_s);
    let began = mean(&humid(&before)).or_else(|| {
        let within = hourly_means(inside, from_s, to_s.min(from_s + NEAR_S));
        let first = within.get(..HOURS.min(within.len())).unwrap_or_default();
        let first = humid(first);
        Some(around(*first.first()?, &first))
    });
    let within = hourly_means(inside, from_s.max(to_s - NEAR_S), to_s);
    let last = within.len().saturating_sub(HOURS);
    let ended = mean(&humid(within.get(last..).unwrap_or_default()));
    let unread = |when: &str| {
        NotKnown::because(format!(
            "how damp it was inside when the period {when} was not read, so what furniture gave back is \
             not known"
        ))
    };
    Ok((
        began.ok_or_else(|| unread("began"))?,
        ended.ok_or_else(|| unread("ended"))?,
    ))
}

fn mean(hours: &[f64]) -> Option<Measured> {
    let mean = hours.iter().sum::<f64>() / count(hours.len());
    (!hours.is_empty()).then(|| around(mean, hours))
}

/// A humidity from which hours stray so far.
fn around(value: f64, hours: &[f64]) -> Measured {
    let strays = hours.iter().map(|hour| (hour - value).abs());
    Measured {
        value,
        error: strays.fold(LEAST_ERROR, f64::max),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::STANDARD_PRESSURE;
    use crate::physics::air::MoistAir;
    use std::sync::Arc;

    /// Half-hourly readings of 10 °C from one hour to another, as damp as `rh` says of the hour.
    fn read(hours: std::ops::Range<i32>, rh: impl Fn(f64) -> f64) -> Rows {
        let mut rows = Rows::default();
        let mut times_s = Vec::new();
        for half in hours.start * 2..hours.end * 2 {
            times_s.push(i64::from(half) * HOUR_S / 2);
            let rh = rh(f64::from(half) / 2.0);
            let air = MoistAir::from_relative_humidity(10.0, rh, STANDARD_PRESSURE).unwrap();
            rows.t_c.push(10.0);
            rows.relative_humidity.push(rh);
            rows.humidity_ratio.push(air.humidity_ratio);
        }
        rows.times_s = Arc::new(times_s);
        rows
    }

    /// A machine switched on at hour 0 brings 86 % down within two hours.
    fn dried(hour: f64) -> f64 {
        0.60 + 0.26 * (1.0 - hour / 2.0).clamp(0.0, 1.0)
    }

    fn found(rows: &Rows, hours: i64) -> Answer<(Measured, Measured)> {
        ends(rows, 0, hours * HOUR_S, STANDARD_PRESSURE)
    }

    #[test]
    fn a_period_begins_as_damp_as_it_was_before_the_machine_ran() {
        let (began, ended) = found(&read(-24..96, dried), 96).unwrap();
        assert!((began.value - 0.86).abs() < 1e-9, "{began:?}");
        assert!((ended.value - 0.60).abs() < 1e-9, "{ended:?}");
        assert!((began.error - LEAST_ERROR).abs() < 1e-12, "{began:?}");
    }

    #[test]
    fn where_nothing_was_read_before_the_first_hour_stands_for_it_and_says_how_unsure_that_is() {
        let (began, _) = found(&read(0..96, dried), 96).unwrap();
        // 86 and 79.5 % were read in the first hour, and 60 % two hours later.
        assert!((began.value - 0.8275).abs() < 1e-4, "{began:?}");
        assert!((began.error - 0.2275).abs() < 1e-4, "{began:?}");
    }

    #[test]
    fn an_end_that_was_not_read_within_a_day_is_not_known() {
        let why = |rows: &Rows| found(rows, 96).unwrap_err().reason;
        assert!(why(&read(30..96, dried)).contains("when the period began"));
        assert!(why(&read(-3..60, dried)).contains("when the period ended"));
        // Taken out some hours too early, what was read last stands for the end.
        assert!(found(&read(-3..90, dried), 96).is_ok());
    }
}
