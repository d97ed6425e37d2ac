//! What is drawn of a trial over time: air inside and outside, and what cold surfaces allow.

use super::track::Track;
use crate::figure::scene::{Dash, Role};
use crate::figure::styles::{Marker, Style};
use crate::physics::air::saturation_pressure;
use crate::physics::fabric::surface_temperature_c;
use std::sync::Arc;

/// Seconds for which a reading of the outside air stands for it.
const FOR_AN_HOUR: i64 = 3600;

/// The quantities drawn below each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// °C.
    Temperature,
    /// Relative humidity, %.
    Humidity,
    /// Humidity ratio, g of water in each kg of dry air.
    Water,
}

impl Quantity {
    /// All, from the top.
    pub const ALL: [Self; 3] = [Self::Temperature, Self::Humidity, Self::Water];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Temperature => "Temperature",
            Self::Humidity => "Relative humidity",
            Self::Water => "Water in the air",
        }
    }

    /// Its metric unit.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Temperature => "°C",
            Self::Humidity => "%",
            Self::Water => "g/kg",
        }
    }
}

/// Rows of the air at one place: °C, relative humidity 0 to 1, and water, kg/kg; NaN where none is
/// known or it does not count.
#[derive(Clone, Copy, Debug)]
pub struct Rows<'a> {
    /// Seconds since the start of 1970 on the clock of the place, in order.
    pub times_s: &'a [i64],
    /// °C.
    pub t_c: &'a [f64],
    /// Relative humidity, 0 to 1.
    pub rh: &'a [f64],
    /// Humidity ratio, kg/kg.
    pub ratio: &'a [f64],
}

/// The air at one place over time.
#[derive(Clone, Debug, Default)]
pub struct Air {
    /// °C.
    pub temperature: Track,
    /// %.
    pub humidity: Track,
    /// g/kg.
    pub water: Track,
}

impl Air {
    /// Air ready to be drawn.
    #[must_use]
    pub fn of(rows: Rows<'_>) -> Self {
        let times = Arc::new(rows.times_s.to_vec());
        let times_of = |factor: f64, values: &[f64]| {
            let values = values.iter().map(|value| factor * value).collect();
            Track::new(Arc::clone(&times), values)
        };
        Self {
            temperature: times_of(1.0, rows.t_c),
            humidity: times_of(100.0, rows.rh),
            water: times_of(1000.0, rows.ratio),
        }
    }

    /// One quantity of it.
    #[must_use]
    pub fn track(&self, quantity: Quantity) -> &Track {
        match quantity {
            Quantity::Temperature => &self.temperature,
            Quantity::Humidity => &self.humidity,
            Quantity::Water => &self.water,
        }
    }
}

/// What a cold surface allows the air inside.
#[derive(Clone, Debug)]
pub struct Limit {
    /// What it is: `80 % on the window glass`.
    pub name: String,
    /// Relative humidity inside at which the surface has its own limit, %.
    pub humidity: Track,
}

/// The relative humidity of the inside air, %, at which a surface is as damp as it may be, row by row.
///
/// ```text
/// T_s = T_o + f_Rsi (T_i − T_o)      φ_i = φ_s p_ws(T_s)/p_ws(T_i), at most 1
/// ```
/// where f_Rsi is the temperature factor of the surface and φ_s what it may have: 0.8 for mould, 1 for
/// dew. ISO 13788 **\[M\]**. NaN where the outside was not read within the hour before.
#[must_use]
pub fn limit(rows: Rows<'_>, outside: &Air, factor: f64, surface_rh: f64) -> Track {
    let allowed = rows.times_s.iter().zip(rows.t_c).map(|(time, inside_c)| {
        let Some(outside_c) = outside.temperature.at(*time, FOR_AN_HOUR) else {
            return f64::NAN;
        };
        let surface = surface_temperature_c(factor, outside_c, *inside_c);
        let share = saturation_pressure(surface) / saturation_pressure(*inside_c);
        100.0 * (surface_rh * share).min(1.0)
    });
    Track::new(Arc::new(rows.times_s.to_vec()), allowed.collect())
}

/// All that is drawn of a trial.
#[derive(Clone, Debug, Default)]
pub struct Lines {
    /// Air inside.
    pub inside: Air,
    /// Readings inside that are left out.
    pub left_out: Air,
    /// Air outside, where it is known by the hour.
    pub outside: Option<Air>,
    /// What cold surfaces allow.
    pub limits: Vec<Limit>,
}

impl Lines {
    /// From the first to the last reading inside, s.
    #[must_use]
    pub fn span(&self) -> Option<(i64, i64)> {
        self.inside.temperature.span()
    }

    /// The tracks of a quantity with their names and looks, in the order they are drawn. They differ
    /// in dash and width wherever they differ in colour.
    #[must_use]
    pub fn tracks(&self, quantity: Quantity) -> Vec<(&str, &Track, Style)> {
        let style = |role, dash, width| Style {
            role,
            dash,
            marker: Marker::Circle,
            width,
        };
        let mut tracks: Vec<(&str, &Track, Style)> = Vec::new();
        if let Some(outside) = &self.outside {
            let look = style(Role::Second, Dash::Dashed, 0.4);
            tracks.push(("outside", outside.track(quantity), look));
        }
        let look = style(Role::First, Dash::Solid, 0.6);
        tracks.push(("inside", self.inside.track(quantity), look));
        let left_out = self.left_out.track(quantity);
        if !left_out.is_empty() {
            let look = style(Role::Faint, Dash::Dotted, 0.4);
            tracks.push(("inside, left out", left_out, look));
        }
        if quantity == Quantity::Humidity {
            for (at, limit) in self.limits.iter().enumerate() {
                let dash = [Dash::Dashed, Dash::Dotted];
                let dash = dash.get(at % 2).copied().unwrap_or(Dash::Dotted);
                tracks.push((&limit.name, &limit.humidity, style(Role::Leak, dash, 0.35)));
            }
        }
        tracks.retain(|(_, track, _)| !track.is_empty());
        tracks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_surface_allows_what_its_own_saturation_says() {
        // Saturation at 20, 5 and 12.5 °C, 2339.2, 872.6 and 1450 Pa (ASHRAE Fundamentals 2017, table 3
        // [S]; 12.5 °C between 12 and 13): at f 0.5 between 5 and 20 °C the surface has 12.5 °C.
        let rows = |t_c: &'static [f64]| Rows {
            times_s: &[0],
            t_c,
            rh: &[0.5],
            ratio: &[0.007],
        };
        let outside = Air::of(rows(&[5.0]));
        let mould = limit(rows(&[20.0]), &outside, 0.5, 0.8);
        let allowed = mould.at(0, 1).unwrap();
        assert!((allowed - 80.0 * 1450.0 / 2339.2).abs() < 0.1, "{allowed}");
        // A surface as warm as the air allows all that it may have itself.
        let warm = limit(rows(&[20.0]), &outside, 1.0, 0.8).at(0, 1).unwrap();
        assert!((warm - 80.0).abs() < 1e-9);
        // Colder inside than outside, it is never more than saturation.
        let outside = Air::of(rows(&[30.0]));
        let dew = limit(rows(&[20.0]), &outside, 0.2, 1.0).at(0, 1).unwrap();
        assert!((dew - 100.0).abs() < 1e-9);
    }

    #[test]
    fn lines_of_a_plot_differ_in_more_than_colour() {
        let rows = Rows {
            times_s: &[0, 600],
            t_c: &[5.0, 6.0],
            rh: &[0.8, 0.8],
            ratio: &[0.004, 0.004],
        };
        let air = Air::of(rows);
        let limit = |name: &str| Limit {
            name: name.to_owned(),
            humidity: air.humidity.clone(),
        };
        let lines = Lines {
            inside: air.clone(),
            left_out: air.clone(),
            outside: Some(air.clone()),
            limits: vec![limit("mould"), limit("dew")],
        };
        let tracks = lines.tracks(Quantity::Humidity);
        assert_eq!(tracks.len(), 5);
        for (at, (name, _, look)) in tracks.iter().enumerate() {
            for (other, _, beside) in &tracks[..at] {
                let apart =
                    (look.dash, look.width.to_bits()) != (beside.dash, beside.width.to_bits());
                assert!(apart, "{name} and {other}");
            }
        }
        assert_eq!(lines.tracks(Quantity::Water).len(), 3);
    }
}
