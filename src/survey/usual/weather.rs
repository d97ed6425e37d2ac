//! Weather cases from the monthly means of a typical winter.

use crate::physics::air::saturation_pressure;
use crate::survey::typical_winters::{MonthlyWeather, TypicalWinter};
use crate::survey::{InsideAir, WeatherCase, WeatherId};
use std::f64::consts::PI;

/// October to March.
const SEASON: [usize; 6] = [9, 10, 11, 0, 1, 2];
/// Wind up to which the air is called still, m/s: the end of Beaufort 1 \[M\].
const STILL_TO: f64 = 1.6;
/// Wind from which it is called windy, m/s: the beginning of Beaufort 4 \[M\].
const WINDY_FROM: f64 = 5.5;
/// Strongest wind reckoned with, as a multiple of the mean; what lies above is less than a
/// hundred-thousandth.
const STRONGEST: f64 = 4.0;
/// Steps of the integral over wind speed.
const STEPS: u32 = 4000;
/// Least share of each case: every winter has a windy day.
const LEAST_SHARE: f64 = 0.01;
/// Dampest outside air, %.
const DAMPEST: f64 = 98.0;
/// An unheated inside is so much warmer, K, as in a new survey.
const WARMER_BY: f64 = 2.0;

/// Means of the season.
#[derive(Clone, Copy, Debug)]
struct Season {
    mean_c: f64,
    range_k: f64,
    rh_percent: f64,
    wind_m_s: f64,
}

fn season(winter: TypicalWinter) -> Season {
    let months = winter.means().months;
    let mean = |of: fn(&MonthlyWeather) -> f64| {
        let some = SEASON.iter().filter_map(|month| months.get(*month));
        some.map(of).sum::<f64>() / 6.0
    };
    Season {
        mean_c: mean(|month| month.mean_c),
        range_k: mean(|month| month.daily_range_k),
        rh_percent: mean(|month| month.rh_percent),
        wind_m_s: mean(|month| month.wind_m_s),
    }
}

/// Share of the time with wind in a span of speeds, and the mean speed then, m/s.
///
/// ```text
/// f(v) = (π v / 2 m²) exp(−π v² / 4 m²)
/// ```
/// where f is the density of wind speeds v about their mean m, after Rayleigh, common practice for
/// wind over months \[C\].
fn wind_within(mean: f64, from: f64, to: f64) -> (f64, f64) {
    let step = (to - from) / f64::from(STEPS);
    let (mut share, mut speed) = (0.0, 0.0);
    for at in 0..STEPS {
        let v = from + (f64::from(at) + 0.5) * step;
        let part = PI * v / (2.0 * mean * mean) * (-PI * v * v / (4.0 * mean * mean)).exp() * step;
        share += part;
        speed += part * v;
    }
    (share, if share > 0.0 { speed / share } else { from })
}

/// Still, breezy and windy weather of a winter **\[A\]**.
///
/// Shares and mean winds are those of a Rayleigh distribution about the season's mean wind; still air
/// is reckoned as 0 m/s, the worst for damp. Air is still mostly at night: half the daily range colder
/// than the mean. Wind comes with milder air, windy weather twice as far above the mean as breezy, so
/// far that the season keeps its mean. All three hold the water of the season's mean air, as far as they
/// can hold it.
///
/// ```text
/// a = s D / (b + 2 w)
/// ```
/// where D is half the daily range, K; s, b, w the shares of still, breezy and windy weather; a how much
/// warmer breezy air is than the mean, K.
pub(super) fn of(winter: TypicalWinter) -> Vec<WeatherCase> {
    let season = season(winter);
    let strongest = (STRONGEST * season.wind_m_s).max(2.0 * WINDY_FROM);
    let (still, _) = wind_within(season.wind_m_s, 0.0, STILL_TO);
    let (_, breeze) = wind_within(season.wind_m_s, STILL_TO, WINDY_FROM);
    let (windy, wind) = wind_within(season.wind_m_s, WINDY_FROM, strongest);
    let rounded = |share: f64| ((share * 100.0).round() / 100.0).max(LEAST_SHARE);
    let (still, windy) = (rounded(still), rounded(windy));
    let breezy = rounded(1.0 - still - windy);
    let colder = season.range_k / 2.0;
    let milder = still * colder / (breezy + 2.0 * windy);
    let vapour = season.rh_percent * saturation_pressure(season.mean_c);
    [
        ("still", 0.0, -colder, still),
        ("breezy", breeze, milder, breezy),
        ("windy", wind, 2.0 * milder, windy),
    ]
    .into_iter()
    .zip(1..)
    .map(|((name, wind_m_s, warmer, weight), id)| {
        let outside_c = tenth(season.mean_c + warmer);
        let rh = vapour / saturation_pressure(outside_c);
        WeatherCase {
            id: WeatherId(id),
            name: name.to_owned(),
            wind_m_s: tenth(wind_m_s),
            outside_c,
            outside_rh_percent: rh.round().min(DAMPEST),
            inside: InsideAir::WarmerBy { kelvin: WARMER_BY },
            inside_rh_percent: None,
            weight,
        }
    })
    .collect()
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `scipy.stats.rayleigh(scale=m*sqrt(2/pi))`: `cdf` differences and `expect` over the span,
    /// scipy, to six digits.
    #[test]
    fn shares_and_mean_winds_are_those_of_a_rayleigh_distribution() {
        for (mean, from, to, share, speed) in [
            (1.95, 0.0, 1.6, 0.410666, 1.009808),
            (1.95, 1.6, 5.5, 0.587400, 2.594269),
            (1.95, 5.5, 11.0, 0.001934, 5.911128),
            (3.6, 0.0, 1.6, 0.143705, 1.050064),
            (3.6, 1.6, 5.5, 0.696394, 3.402922),
            (3.6, 5.5, 30.0, 0.159901, 6.749972),
            (4.8, 0.0, 1.6, 0.083567, 1.057340),
            (4.8, 1.6, 5.5, 0.559845, 3.618357),
            (4.8, 5.5, 30.0, 0.356587, 7.532292),
        ] {
            let found = wind_within(mean, from, to);
            assert!((found.0 - share).abs() < 1e-5, "{mean} {from}: {found:?}");
            assert!((found.1 - speed).abs() < 1e-4, "{mean} {from}: {found:?}");
        }
    }

    #[test]
    fn the_cases_of_a_winter_keep_its_mean_temperature_and_sum_to_one() {
        for winter in TypicalWinter::ALL {
            let cases = of(winter);
            let season = season(winter);
            let all: f64 = cases.iter().map(|case| case.weight).sum();
            assert!((all - 1.0).abs() < 1e-9, "{winter:?}: {all}");
            let mean: f64 = cases.iter().map(|case| case.weight * case.outside_c).sum();
            // Written to a tenth of a kelvin each.
            assert!((mean - season.mean_c).abs() < 0.06, "{winter:?}: {mean}");
            let [still, breezy, windy] = &cases[..] else {
                panic!("three cases");
            };
            assert!(still.outside_c < breezy.outside_c && breezy.outside_c < windy.outside_c);
            assert!(breezy.wind_m_s > STILL_TO && windy.wind_m_s > WINDY_FROM);
            assert!(cases.iter().all(|case| case.outside_rh_percent <= DAMPEST));
            assert!(still.outside_c > winter.means().design_outside_c);
        }
    }
}
