//! The weather of every hour of a year, made from monthly means.
#![expect(
    clippy::indexing_slicing,
    reason = "days and hours are lists of the lengths of the calendar, built together"
)]

use super::calendar::{Day, days_in_month};
use super::hour::{Hour, Place, Weather};
use super::means::{MonthlyWeather, WinterMeans};
use crate::physics::air::{dew_point, pressure_at_altitude, saturation_pressure};
use crate::physics::counts::count;
use crate::physics::sky::{clear_sky_emissivity, infrared};
use crate::physics::sun::{Moment, Sun, sun};

/// The year that the days are numbered by; any without a leap day would do **\[A\]**.
const YEAR: i32 = 2023;
/// How much of a day's strayness stays to the next: weather lasts some five days **\[A\]**.
const DAY_TO_DAY: f64 = 0.8;
/// The same for wind and clouds from hour to hour **\[A\]**.
const HOUR_TO_HOUR: f64 = 0.94;
/// How far wind goes with warmth in the cold half of a year **\[A\]**.
const WARM_WIND: f64 = 0.4;
/// How much the logarithm of the wind's speed strays **\[A\]**.
const WIND_SPREAD: f64 = 0.5;
/// The wind comes from the south-west, and strays from there, degrees **\[A\]**.
const WIND_FROM: (f64, f64) = (235.0, 65.0);
/// Warmest hour of a day, hours after midnight **\[A\]**.
const WARMEST_AT: f64 = 14.5;
/// Points of humidity for each kelvin by which an hour is colder than its day **\[A\]**.
const DRIER_BY_DAY: f64 = 2.6;
/// How much the humidity strays besides, points **\[A\]**.
const RH_SPREAD: f64 = 7.0;
/// Least and most humidity that an hour has, % **\[A\]**.
const RH_SPAN: (f64, f64) = (12.0, 100.0);
/// The sun above the air, W/m² **\[M\]**.
const SOLAR: f64 = 1361.0;
/// Share of the clear sky's global light that an overcast one leaves **\[A\]**.
const OVERCAST: f64 = 0.28;
/// Rounds of setting a month right where hours are held at a limit.
const ROUNDS: u32 = 40;

/// Every hour of a year whose months have these means.
///
/// Nothing here is measured; what is made is *like* weather: it lasts, mild air comes with wind,
/// clear days are sunny and their nights cold. All constants are assumptions **\[A\]**.
///
/// - Each month's mean temperature, humidity, wind and sunshine are those given, exactly but for
///   the humidity, which is held between 12 and 100 %.
/// - Temperature: the month's mean, a day's straying (first-order autoregressive, 0.8 from day to
///   day) and a cosine over the day that is larger on clear days.
/// - Clouds: hours stray with a memory (0.94 from hour to hour); those beyond a threshold are clear.
///   The threshold is the one that gives the month its sunshine.
/// - Sun: Meinel's clear sky `B = 1361 [(1 − 0.14 z) 0.7^(m^0.678) + 0.14 z]` with z the altitude in
///   km and m the air mass `1/(sin h + 0.50572 (h + 6.07995°)^−1.6364)` **\[M\]**; diffuse by Liu
///   and Jordan, `τ_d = 0.271 − 0.294 τ_b` **\[M\]**; an overcast sky leaves 28 % of the clear global.
/// - Infrared: Berdahl and Martin's, with the clouds.
/// - Random numbers hang on the number of the day or hour and on `seed` alone: same means, same
///   weather.
#[must_use]
pub fn invent(means: &WinterMeans, name: &str, seed: u64) -> Weather {
    let days = days_of_year();
    let stray = Stray::new(seed, days.len());
    let place = Place {
        name: name.to_owned(),
        latitude_deg: means.latitude_deg,
        longitude_deg: 0.0,
        zone_h: 0.0,
        clock_assumed: false,
        altitude_m: means.altitude_m,
    };
    let mut hours = Vec::with_capacity(days.len() * 24);
    let mut from = 0;
    for (month, monthly) in (1u8..).zip(&means.months) {
        let length = usize::from(days_in_month(YEAR, month));
        let range = from..from + length;
        let days = days[range.clone()].iter().copied();
        hours.extend(Month::new(&place, means, monthly, &stray, range.clone()).hours(days));
        from = range.end;
    }
    Weather {
        place,
        hours,
        invented: true,
    }
}

fn days_of_year() -> Vec<Day> {
    let first = Day {
        year: YEAR,
        month: 1,
        day: 1,
    };
    let all = std::iter::successors(Some(first), |day| Some(day.next()));
    all.take_while(|day| day.year == YEAR).collect()
}

/// A random number between 0 and 1 that hangs on its place alone.
///
/// Steele, Lea and Flood's mixing function (OOPSLA 2014 **\[M\]**).
fn uniform(seed: u64, stream: u64, at: u64) -> f64 {
    let mut z = seed
        .wrapping_mul(0x9e37_79b9_7f4a_7c15)
        .wrapping_add(stream.wrapping_mul(0xd1b5_4a32_d192_ed03))
        .wrapping_add(at.wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^= z >> 31;
    let high = u32::try_from(z >> 32).unwrap_or_default();
    (f64::from(high) + 0.5) / 4_294_967_296.0
}

/// A nearly normal number with mean 0 and standard deviation 1: the sum of twelve even ones.
fn normal(seed: u64, stream: u64, at: u64) -> f64 {
    let twelve = (0..12).map(|part| uniform(seed, stream, 12 * at + part));
    twelve.sum::<f64>() - 6.0
}

/// Numbers that stray with a memory, standard deviation 1.
fn with_memory(seed: u64, stream: u64, length: usize, memory: f64) -> Vec<f64> {
    let fresh = (1.0 - memory * memory).sqrt();
    let mut last = normal(seed, stream, 0);
    let mut all = Vec::with_capacity(length);
    for at in (0u64..).take(length) {
        if at > 0 {
            last = memory * last + fresh * normal(seed, stream, at);
        }
        all.push(last);
    }
    all
}

/// How the weather of a year strays.
struct Stray {
    /// By days.
    warmth: Vec<f64>,
    pressure: Vec<f64>,
    /// By hours.
    wind: Vec<f64>,
    direction: Vec<f64>,
    cloud: Vec<f64>,
    humidity: Vec<f64>,
}

impl Stray {
    fn new(seed: u64, days: usize) -> Self {
        let hours = days * 24;
        Self {
            warmth: with_memory(seed, 1, days, DAY_TO_DAY),
            pressure: with_memory(seed, 2, days, DAY_TO_DAY),
            wind: with_memory(seed, 3, hours, HOUR_TO_HOUR),
            direction: with_memory(seed, 4, hours, HOUR_TO_HOUR),
            cloud: with_memory(seed, 5, hours, HOUR_TO_HOUR),
            humidity: with_memory(seed, 6, hours, HOUR_TO_HOUR),
        }
    }
}

/// One month in the making.
struct Month<'a> {
    place: &'a Place,
    monthly: &'a MonthlyWeather,
    day_to_day_k: f64,
    stray: &'a Stray,
    days: std::ops::Range<usize>,
}

impl<'a> Month<'a> {
    fn new(
        place: &'a Place,
        means: &WinterMeans,
        monthly: &'a MonthlyWeather,
        stray: &'a Stray,
        days: std::ops::Range<usize>,
    ) -> Self {
        Self {
            place,
            monthly,
            day_to_day_k: means.day_to_day_k,
            stray,
            days,
        }
    }

    fn of_hours<'b>(&self, all: &'b [f64]) -> &'b [f64] {
        &all[self.days.start * 24..self.days.end * 24]
    }

    fn hours(&self, days: impl Iterator<Item = Day>) -> Vec<Hour> {
        let stamps: Vec<(Day, u8)> = days
            .flat_map(|day| (1..=24).map(move |hour| (day, hour)))
            .collect();
        let suns: Vec<Sun> = stamps.iter().map(|stamp| self.sun(*stamp)).collect();
        let clear = self.clear_shares(&suns);
        let wind = self.wind();
        let t_c = self.temperatures(&clear, &wind);
        let rh = self.humidities(&t_c);
        let mut hours = Vec::with_capacity(stamps.len());
        for (at, ((day, hour), sun)) in stamps.into_iter().zip(&suns).enumerate() {
            let pressure = pressure_at_altitude(self.place.altitude_m)
                + 900.0 * self.stray.pressure[self.days.start + at / 24];
            let cloud = 1.0 - clear[at];
            let (direct, diffuse, global) = self.light(sun, clear[at]);
            let middle = f64::from(hour) - 0.5;
            let dew = dew_point(rh[at] * saturation_pressure(t_c[at]));
            let clear_emissivity = dew.map(|dew| clear_sky_emissivity(dew, middle, pressure));
            let turned = WIND_FROM.0 + WIND_FROM.1 * self.of_hours(&self.stray.direction)[at];
            hours.push(Hour {
                day,
                hour,
                t_c: Some(t_c[at]),
                rh: Some(rh[at]),
                pressure: Some(pressure),
                wind: Some(wind[at]),
                wind_from_deg: Some(turned.rem_euclid(360.0)),
                direct: Some(direct),
                diffuse: Some(diffuse),
                global: Some(global),
                infrared: clear_emissivity.map(|clear| infrared(t_c[at], clear, cloud)),
                cloud: Some(cloud),
                filled: false,
            });
        }
        hours
    }

    fn sun(&self, (day, hour): (Day, u8)) -> Sun {
        let moment = Moment {
            year: day.year,
            month: day.month,
            day: day.day,
            hour: f64::from(hour) - 0.5 - self.place.zone_h,
        };
        let pressure = pressure_at_altitude(self.place.altitude_m);
        let place = self.place;
        // A latitude that cannot be leaves the sun below the horizon; the survey's findings name it.
        sun(moment, place.latitude_deg, place.longitude_deg, pressure).unwrap_or(Sun {
            elevation_deg: -90.0,
            azimuth_deg: 0.0,
        })
    }

    /// Share of each hour with a clear sky, so that the sun shines as long as it should.
    fn clear_shares(&self, suns: &[Sun]) -> Vec<f64> {
        let stray = self.of_hours(&self.stray.cloud);
        let share =
            |at: usize, threshold: f64| (0.5 + 1.2 * (stray[at] - threshold)).clamp(0.0, 1.0);
        let days = count(self.days.len());
        let wanted = self.monthly.sunshine_h_per_day * days;
        let shines = |threshold: f64| {
            let up = suns
                .iter()
                .enumerate()
                .filter(|(_, sun)| sun.elevation_deg > 0.0);
            up.map(|(at, _)| share(at, threshold)).sum::<f64>()
        };
        let (mut clear, mut dull) = (-8.0, 8.0);
        for _ in 0..60 {
            let middle = f64::midpoint(clear, dull);
            if shines(middle) > wanted {
                clear = middle;
            } else {
                dull = middle;
            }
        }
        let threshold = f64::midpoint(clear, dull);
        (0..stray.len()).map(|at| share(at, threshold)).collect()
    }

    fn wind(&self) -> Vec<f64> {
        let stray = self.of_hours(&self.stray.wind);
        let raw: Vec<f64> = stray.iter().map(|x| (WIND_SPREAD * x).exp()).collect();
        let scale = self.monthly.wind_m_s / mean(&raw);
        raw.into_iter().map(|wind| wind * scale).collect()
    }

    fn temperatures(&self, clear: &[f64], wind: &[f64]) -> Vec<f64> {
        let days = self.days.len();
        let of_day = |values: &[f64], day: usize| mean(&values[day * 24..(day + 1) * 24]);
        let clearness: Vec<f64> = (0..days).map(|day| of_day(clear, day)).collect();
        // In a month without wind no day has more of it than another.
        let windy = |day: usize| {
            let share = of_day(wind, day) / self.monthly.wind_m_s;
            if share > 0.0 {
                share.ln() / WIND_SPREAD
            } else {
                0.0
            }
        };
        let windy: Vec<f64> = (0..days).map(windy).collect();
        // Clear days swing more, so that the mean day swings as it should.
        let swing: Vec<f64> = clearness.iter().map(|clear| 0.5 + clear).collect();
        let swing_mean = mean(&swing);
        let own = (1.0 - WARM_WIND * WARM_WIND).sqrt();
        let stray: Vec<f64> = (0..days)
            .map(|day| {
                let warmth = self.stray.warmth[self.days.start + day];
                self.day_to_day_k * (own * warmth + WARM_WIND * windy[day])
            })
            .collect();
        let stray_mean = mean(&stray);
        let mut all = Vec::with_capacity(days * 24);
        for at in 0..days * 24 {
            let hour = count(at % 24) + 0.5;
            // From one day's straying to the next by straight lines through their noons.
            let between = smooth(&stray, at);
            let day = at / 24;
            let range = self.monthly.daily_range_k * swing[day] / swing_mean;
            let turn = std::f64::consts::TAU * (hour - WARMEST_AT) / 24.0;
            all.push(between - stray_mean + 0.5 * range * turn.cos());
        }
        let off = self.monthly.mean_c - mean(&all);
        all.into_iter().map(|t_c| t_c + off).collect()
    }

    fn humidities(&self, t_c: &[f64]) -> Vec<f64> {
        let stray = self.of_hours(&self.stray.humidity);
        let of_day: Vec<f64> = t_c.chunks(24).map(mean).collect();
        let raw: Vec<f64> = (0..t_c.len())
            .map(|at| DRIER_BY_DAY * (of_day[at / 24] - t_c[at]) + RH_SPREAD * stray[at])
            .collect();
        let mut shift = self.monthly.rh_percent - mean(&raw);
        let held = |shift: f64| -> Vec<f64> {
            let (least, most) = RH_SPAN;
            raw.iter().map(|x| (x + shift).clamp(least, most)).collect()
        };
        for _ in 0..ROUNDS {
            shift += self.monthly.rh_percent - mean(&held(shift));
        }
        held(shift)
            .into_iter()
            .map(|percent| percent / 100.0)
            .collect()
    }

    /// Direct, diffuse and global light, W/m², with a share of the sky clear.
    fn light(&self, sun: &Sun, clear: f64) -> (f64, f64, f64) {
        let height = sun.elevation_deg;
        if height <= 0.0 {
            return (0.0, 0.0, 0.0);
        }
        let sine = height.to_radians().sin();
        let mass = 1.0 / (sine + 0.505_72 * (height + 6.079_95).powf(-1.6364));
        let altitude = 0.14 * (self.place.altitude_m / 1000.0).clamp(0.0, 5.0);
        let through = (1.0 - altitude) * 0.7_f64.powf(mass.powf(0.678)) + altitude;
        let direct = SOLAR * through;
        let diffuse = SOLAR * sine * (0.271 - 0.294 * through).max(0.05);
        let overcast = OVERCAST * (direct * sine + diffuse);
        let direct = direct * clear;
        let diffuse = diffuse * clear + overcast * (1.0 - clear);
        (direct, diffuse, direct * sine + diffuse)
    }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / count(values.len())
}

/// The value of a day at an hour of the month, straight from noon to noon.
fn smooth(daily: &[f64], at: usize) -> f64 {
    let noon = (count(at) - 11.5) / 24.0;
    let low = crate::physics::counts::whole(noon.max(0.0)).min(daily.len() - 1);
    let high = (low + 1).min(daily.len() - 1);
    let share = (noon - count(low)).clamp(0.0, 1.0);
    daily[low] + share * (daily[high] - daily[low])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::climate::epw;

    const MILD: MonthlyWeather = MonthlyWeather {
        mean_c: 5.0,
        daily_range_k: 6.0,
        rh_percent: 86.0,
        wind_m_s: 4.5,
        sunshine_h_per_day: 1.9,
    };

    fn means() -> WinterMeans {
        WinterMeans {
            latitude_deg: 52.0,
            altitude_m: 60.0,
            design_outside_c: -4.0,
            day_to_day_k: 3.0,
            months: [MILD; 12],
        }
    }

    fn of_january(weather: &Weather, of: impl Fn(&Hour) -> Option<f64>) -> Vec<f64> {
        weather.hours[..744]
            .iter()
            .map(|hour| of(hour).expect("made"))
            .collect()
    }

    #[test]
    fn a_month_may_be_without_wind() {
        let mut still = means();
        still.months[0].wind_m_s = 0.0;
        let weather = invent(&still, "still", 1);
        let t_c = of_january(&weather, |hour| hour.t_c);
        assert!((mean(&t_c) - 5.0).abs() < 1e-9, "{}", mean(&t_c));
        assert!(
            of_january(&weather, |hour| hour.wind)
                .iter()
                .all(|wind| *wind == 0.0)
        );
    }

    #[test]
    fn each_month_has_the_means_it_was_made_from() {
        let weather = invent(&means(), "mild", 1);
        assert_eq!(weather.hours.len(), 8760);
        let near = |found: f64, wanted: f64, by: f64| {
            assert!((found - wanted).abs() < by, "{found} {wanted}");
        };
        near(mean(&of_january(&weather, |hour| hour.t_c)), 5.0, 1e-9);
        near(mean(&of_january(&weather, |hour| hour.wind)), 4.5, 1e-9);
        near(mean(&of_january(&weather, |hour| hour.rh)), 0.86, 2e-3);
        let clear = of_january(&weather, |hour| Some(1.0 - hour.cloud?));
        let up = of_january(&weather, |hour| hour.global);
        let shone: f64 = clear
            .iter()
            .zip(&up)
            .filter(|(_, up)| **up > 0.0)
            .map(|(clear, _)| clear)
            .sum();
        near(shone / 31.0, 1.9, 0.01);
        let t_c = of_january(&weather, |hour| hour.t_c);
        let by_hour: Vec<f64> = (0..24)
            .map(|hour| {
                mean(
                    &t_c.iter()
                        .copied()
                        .skip(hour)
                        .step_by(24)
                        .collect::<Vec<_>>(),
                )
            })
            .collect();
        let (low, high) = by_hour
            .iter()
            .fold((f64::MAX, f64::MIN), |(low, high), t_c| {
                (low.min(*t_c), high.max(*t_c))
            });
        near(high - low, 6.0, 0.3);
    }

    #[test]
    fn the_same_means_make_the_same_weather_and_another_seed_another() {
        let one = invent(&means(), "mild", 1);
        assert_eq!(one, invent(&means(), "mild", 1));
        assert_ne!(one.hours[100], invent(&means(), "mild", 2).hours[100]);
    }

    #[test]
    fn no_hour_is_what_weather_cannot_be_and_the_light_adds_up() {
        let weather = invent(&means(), "mild", 3);
        for hour in &weather.hours {
            let rh = hour.rh.expect("made");
            assert!((0.12..=1.0).contains(&rh));
            let (direct, diffuse) = (hour.direct.expect("made"), hour.diffuse.expect("made"));
            let global = hour.global.expect("made");
            assert!(
                direct >= 0.0 && diffuse >= 0.0 && direct < 1100.0,
                "{direct} {diffuse}"
            );
            assert!(global + 1e-9 >= diffuse);
            let sky = hour.infrared.expect("made");
            assert!((120.0..480.0).contains(&sky), "{sky}");
        }
    }

    #[test]
    fn what_is_made_reads_back_from_a_weather_file() {
        let weather = invent(&means(), "mild, and damp", 1);
        let text = epw::write(&weather);
        let read = epw::read(text.as_bytes())
            .expect("a weather file")
            .weather();
        assert_eq!(read.place.name, "mild  and damp");
        assert_eq!(read.hours.len(), 8760);
        for (one, other) in weather.hours.iter().zip(&read.hours) {
            assert_eq!(
                (one.day, one.hour, one.t_c),
                (other.day, other.hour, other.t_c)
            );
            let (rh, back) = (one.rh.expect("made"), other.rh.expect("read"));
            assert!((rh - back).abs() < 1e-12);
            assert_eq!(one.wind, other.wind);
        }
    }
}
