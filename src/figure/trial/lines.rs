//! What is drawn of a trial over time: air inside and outside, and what cold surfaces allow.

use super::track::{Points, Track};
use crate::assess::measured::Odd;
use crate::figure::scene::{Dash, Role};
use crate::figure::styles::{Marker, Style};
use crate::physics::air::saturation_pressure;
use crate::physics::counts::{count, seconds_as_f64, whole};
use crate::physics::fabric::surface_temperature_c;
use crate::series::What;
use crate::survey::{SeriesId, Trial};
use std::sync::Arc;

/// Seconds for which a reading of the outside air stands for it.
const FOR_AN_HOUR: i64 = 3600;

/// Pairs of marks at least at a stretch of odd readings: a short one is marked reading by reading.
const LEAST_MARKS: usize = 8;

/// Marks at odd readings: the one look of a chart with a triangle, and no line.
pub const ODD: Style = Style {
    role: Role::Ink,
    dash: Dash::Solid,
    marker: Marker::Triangle,
    width: 0.0,
};
/// What these marks are called.
pub const ODD_NAME: &str = "odd, still counts";

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
    pub times_s: &'a Arc<Vec<i64>>,
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
        let times_of = |factor: f64, values: &[f64]| {
            let values = values.iter().map(|value| factor * value);
            Track::new(Arc::clone(rows.times_s), values)
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
        let allowed = 100.0 * (surface_rh * share).min(1.0);
        // A hundredth of a percent is finer than any line, and takes half the room.
        (100.0 * allowed).round() / 100.0
    });
    Track::new(Arc::clone(rows.times_s), allowed)
}

/// A stretch of readings that an instrument should not have made and that still count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// What was read.
    pub quantity: Quantity,
    /// Whether the logger hung inside.
    pub inside: bool,
    /// First and last of them, s.
    pub span: (i64, i64),
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
    /// What is odd among the readings.
    pub odd: Vec<Doubt>,
}

impl Lines {
    /// From the first to the last reading inside, s.
    #[must_use]
    pub fn span(&self) -> Option<(i64, i64)> {
        self.inside.temperature.span()
    }

    /// The same with what is odd among the readings of the loggers of a trial.
    #[must_use]
    pub fn with_odd(mut self, trial: &Trial, odd: &[(SeriesId, Vec<Odd>)]) -> Self {
        let mut found = Vec::new();
        for (id, inside) in [(trial.inside, true), (trial.outside, false)] {
            let of_logger = odd.iter().filter(|(of, _)| Some(*of) == id);
            for one in of_logger.flat_map(|(_, odd)| odd) {
                let quantity = match one.what {
                    What::Temperature => Quantity::Temperature,
                    What::RelativeHumidity => Quantity::Humidity,
                    What::DewPoint | What::AbsoluteHumidity => Quantity::Water,
                    _ => continue,
                };
                let span = (one.from.seconds(), one.to.seconds());
                found.push(Doubt {
                    quantity,
                    inside,
                    span,
                });
            }
        }
        self.odd = found;
        self
    }

    /// Points at odd readings that still count, within a span of seconds, for marks: fewer than a line
    /// of some `pairs` pairs has, so that marks stand apart.
    #[must_use]
    pub fn doubtful(&self, quantity: Quantity, shown: (i64, i64), pairs: usize) -> Points {
        let mut points = Points::new();
        for doubt in self.odd.iter().filter(|one| one.quantity == quantity) {
            let air = match doubt.inside {
                true => Some(&self.inside),
                false => self.outside.as_ref(),
            };
            let (from, to) = (doubt.span.0.max(shown.0), doubt.span.1.min(shown.1));
            let Some(air) = air.filter(|_| from <= to) else {
                continue;
            };
            let (part, all) = (seconds_as_f64(to - from), seconds_as_f64(shown.1 - shown.0));
            let few = whole(count(pairs) * part / all.max(1.0) / 8.0).max(LEAST_MARKS);
            let lines = air.track(quantity).lines((from, to), few);
            let within = seconds_as_f64(from)..=seconds_as_f64(to);
            let of_stretch = lines.into_iter().flatten();
            points.extend(of_stretch.filter(|[time, _]| within.contains(time)));
        }
        points
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
                tracks.push((&limit.name, &limit.humidity, style(Role::Third, dash, 0.35)));
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
        let times = Arc::new(vec![0]);
        let rows = |t_c: &'static [f64]| Rows {
            times_s: &times,
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
    fn odd_readings_are_marked_where_they_were_read_until_they_are_left_out() {
        let times: Arc<Vec<i64>> = Arc::new((0..48).map(|hour| hour * 3600).collect());
        let mut rh = vec![0.8; 48];
        rh[10..13].fill(1.05);
        let flat = vec![5.0; 48];
        let rows = |rh: &[f64]| {
            Air::of(Rows {
                times_s: &times,
                t_c: &flat,
                rh,
                ratio: &flat,
            })
        };
        let mut lines = Lines {
            inside: rows(&rh),
            odd: vec![Doubt {
                quantity: Quantity::Humidity,
                inside: true,
                span: (10 * 3600, 12 * 3600),
            }],
            ..Lines::default()
        };
        let shown = (0, 48 * 3600);
        let marks = lines.doubtful(Quantity::Humidity, shown, 400);
        assert_eq!(marks.len(), 3);
        assert!(marks.iter().all(|[_, value]| (value - 105.0).abs() < 1e-9));
        assert!(lines.doubtful(Quantity::Temperature, shown, 400).is_empty());
        assert!(
            lines
                .doubtful(Quantity::Humidity, (0, 3600), 400)
                .is_empty()
        );
        rh[10..13].fill(f64::NAN);
        lines.inside = rows(&rh);
        assert!(lines.doubtful(Quantity::Humidity, shown, 400).is_empty());
    }

    #[test]
    fn lines_of_a_plot_differ_in_more_than_colour() {
        let rows = Rows {
            times_s: &Arc::new(vec![0, 600]),
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
            odd: Vec::new(),
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
