//! One hour of weather, and a run of them.

use super::calendar::Day;
use crate::physics::air::{pressure_at_altitude, saturation_pressure};

/// Where the weather was recorded.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Its name; empty where it has none.
    pub name: String,
    /// Degrees north.
    pub latitude_deg: f64,
    /// Degrees east.
    pub longitude_deg: f64,
    /// Local standard time is so many hours ahead of universal time.
    pub zone_h: f64,
    /// Nothing says how its clock stands to the sun: it counts as the sun's **\[A\]**.
    pub clock_assumed: bool,
    /// Height above sea level, m.
    pub altitude_m: f64,
}

/// One hour. What was not recorded is `None`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    /// The day it belongs to, in local standard time.
    pub day: Day,
    /// Number of the hour, 1 to 24: it ends at so many o'clock.
    pub hour: u8,
    /// Temperature, °C.
    pub t_c: Option<f64>,
    /// Relative humidity, 0 to 1, over ice below freezing.
    pub rh: Option<f64>,
    /// Air pressure, Pa.
    pub pressure: Option<f64>,
    /// Wind at 10 m over open country, m/s.
    pub wind: Option<f64>,
    /// Where it comes from, degrees clockwise from north.
    pub wind_from_deg: Option<f64>,
    /// Sun on a plane that faces it, W/m².
    pub direct: Option<f64>,
    /// Light of the sky on the level, W/m².
    pub diffuse: Option<f64>,
    /// Both on the level, W/m².
    pub global: Option<f64>,
    /// Infrared of the sky on the level, W/m².
    pub infrared: Option<f64>,
    /// Share of the sky that clouds cover, 0 to 1.
    pub cloud: Option<f64>,
    /// Something of it was missing, and was taken from the hours beside it.
    pub filled: bool,
}

impl Hour {
    /// The same with what another hour has in place of what was not recorded.
    #[must_use]
    pub fn filled_by(&self, other: &Self) -> Self {
        Self {
            day: self.day,
            hour: self.hour,
            t_c: self.t_c.or(other.t_c),
            rh: self.rh.or(other.rh),
            pressure: self.pressure.or(other.pressure),
            wind: self.wind.or(other.wind),
            wind_from_deg: self.wind_from_deg.or(other.wind_from_deg),
            direct: self.direct.or(other.direct),
            diffuse: self.diffuse.or(other.diffuse),
            global: self.global.or(other.global),
            infrared: self.infrared.or(other.infrared),
            cloud: self.cloud.or(other.cloud),
            filled: self.filled,
        }
    }

    /// An hour of which nothing was recorded.
    #[must_use]
    pub fn blank(day: Day, hour: u8) -> Self {
        Self {
            day,
            hour,
            t_c: None,
            rh: None,
            pressure: None,
            wind: None,
            wind_from_deg: None,
            direct: None,
            diffuse: None,
            global: None,
            infrared: None,
            cloud: None,
            filled: false,
        }
    }

    /// Middle of the hour, hours after midnight of its day.
    #[must_use]
    pub fn middle_h(&self) -> f64 {
        f64::from(self.hour) - 0.5
    }

    /// Relative humidity from a dew point, 0 to 1: `p_ws(t_d)/p_ws(t)`, both over ice below
    /// freezing; at most 1.
    #[must_use]
    pub fn rh_from_dew_point(t_c: f64, dew_point_c: f64) -> f64 {
        (saturation_pressure(dew_point_c) / saturation_pressure(t_c)).min(1.0)
    }
}

/// Hours on end, at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Weather {
    /// Where.
    pub place: Place,
    /// One after another, none left out.
    pub hours: Vec<Hour>,
    /// Made from monthly means: its year is no year.
    pub invented: bool,
}

impl Weather {
    /// Air pressure of an hour, Pa: the recorded one, otherwise that of the place's altitude.
    #[must_use]
    pub fn pressure(&self, hour: &Hour) -> f64 {
        hour.pressure
            .unwrap_or_else(|| pressure_at_altitude(self.place.altitude_m))
    }
}
