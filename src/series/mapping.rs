//! How a file is read: all of it told, all of it to be changed.

use super::date::DateOrder;
use super::decode::Encoding;
use super::number::Decimal;

/// The sign between columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Separator {
    /// `,`
    #[default]
    Comma,
    /// `;`
    Semicolon,
    /// A tabulator.
    Tab,
}

impl Separator {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::Comma, Self::Semicolon, Self::Tab];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Comma => "comma",
            Self::Semicolon => "semicolon",
            Self::Tab => "tab",
        }
    }

    /// The byte it is.
    #[must_use]
    pub fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }
}

/// What a column of readings is. Values are held in the unit named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum What {
    /// Air temperature, °C.
    Temperature,
    /// Relative humidity, 0 to 100 %.
    RelativeHumidity,
    /// Dew point, °C.
    DewPoint,
    /// Water in the air, g/m³.
    AbsoluteHumidity,
    /// Carbon dioxide, ppm.
    CarbonDioxide,
    /// Air pressure, Pa.
    Pressure,
    /// Wind speed, m/s.
    Wind,
    /// Direction the wind comes from, degrees.
    WindDirection,
    /// Sun and sky on the level, W/m².
    Global,
    /// Sun on a plane that faces it, W/m².
    Direct,
    /// Light of the sky on the level, W/m².
    Diffuse,
    /// Share of the sky that clouds cover, 0 to 100 %.
    CloudCover,
}

impl What {
    /// All, in the order offered.
    pub const ALL: [Self; 12] = [
        Self::Temperature,
        Self::RelativeHumidity,
        Self::DewPoint,
        Self::AbsoluteHumidity,
        Self::CarbonDioxide,
        Self::Pressure,
        Self::Wind,
        Self::WindDirection,
        Self::Global,
        Self::Direct,
        Self::Diffuse,
        Self::CloudCover,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::RelativeHumidity => "relative humidity",
            Self::DewPoint => "dew point",
            Self::AbsoluteHumidity => "water in the air",
            Self::CarbonDioxide => "carbon dioxide",
            Self::Pressure => "air pressure",
            Self::Wind => "wind speed",
            Self::WindDirection => "wind direction",
            Self::Global => "sun and sky on the level",
            Self::Direct => "direct sun",
            Self::Diffuse => "light of the sky",
            Self::CloudCover => "cloud cover",
        }
    }

    /// The unit it is held in.
    #[must_use]
    pub fn held_in(self) -> Unit {
        self.units().first().copied().unwrap_or(Unit::Celsius)
    }

    /// The units it may be written in, the one it is held in first.
    #[must_use]
    pub fn units(self) -> &'static [Unit] {
        match self {
            Self::Temperature | Self::DewPoint => &[Unit::Celsius, Unit::Fahrenheit],
            Self::RelativeHumidity | Self::CloudCover => &[Unit::Percent, Unit::Share],
            Self::AbsoluteHumidity => &[Unit::GramsPerM3],
            Self::CarbonDioxide => &[Unit::Ppm],
            Self::Pressure => &[Unit::Pascal, Unit::Hectopascal, Unit::MmOfMercury],
            Self::Wind => &[
                Unit::MetresPerSecond,
                Unit::KilometresPerHour,
                Unit::MilesPerHour,
                Unit::Knots,
            ],
            Self::WindDirection => &[Unit::Degrees],
            Self::Global | Self::Direct | Self::Diffuse => &[Unit::WattsPerM2],
        }
    }
}

/// A unit of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// °C
    Celsius,
    /// °F
    Fahrenheit,
    /// Percent.
    Percent,
    /// A share of one.
    Share,
    /// g/m³
    GramsPerM3,
    /// Parts per million.
    Ppm,
    /// Pa
    Pascal,
    /// hPa, the same as mbar.
    Hectopascal,
    /// Millimetres of mercury.
    MmOfMercury,
    /// m/s
    MetresPerSecond,
    /// km/h
    KilometresPerHour,
    /// mph
    MilesPerHour,
    /// kn
    Knots,
    /// °
    Degrees,
    /// W/m²
    WattsPerM2,
}

impl Unit {
    /// Its sign.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
            Self::Percent => "%",
            Self::Share => "0 to 1",
            Self::GramsPerM3 => "g/m³",
            Self::Ppm => "ppm",
            Self::Pascal => "Pa",
            Self::Hectopascal => "hPa",
            Self::MmOfMercury => "mmHg",
            Self::MetresPerSecond => "m/s",
            Self::KilometresPerHour => "km/h",
            Self::MilesPerHour => "mph",
            Self::Knots => "kn",
            Self::Degrees => "°",
            Self::WattsPerM2 => "W/m²",
        }
    }

    /// Whether a value in another unit is of the same quantity.
    #[must_use]
    pub(super) fn fits(self, other: Self) -> bool {
        What::ALL
            .into_iter()
            .any(|what| what.units().contains(&self) && what.units().contains(&other))
    }

    /// A value of this unit in the one it is held in.
    ///
    /// Factors: NIST SP 811 **\[S\]**: 1 mmHg 133.322 4 Pa, 1 mile an hour 0.447 04 m/s, 1 knot
    /// 0.514 444 m/s, t/°C = (t/°F − 32)/1.8.
    #[must_use]
    pub fn held(self, value: f64) -> f64 {
        match self {
            Self::Fahrenheit => (value - 32.0) / 1.8,
            Self::Share => 100.0 * value,
            Self::Hectopascal => 100.0 * value,
            Self::MmOfMercury => 133.322_387_415 * value,
            Self::KilometresPerHour => value / 3.6,
            Self::MilesPerHour => 0.447_04 * value,
            Self::Knots => 1852.0 / 3600.0 * value,
            _ => value,
        }
    }
}

/// What a column of the file is used for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Column {
    /// Not at all.
    LeftOut,
    /// Date and time of day together.
    Moment,
    /// The date; the time of day stands in another column.
    Date,
    /// The time of day.
    TimeOfDay,
    /// Readings.
    Readings {
        /// Of what.
        what: What,
        /// In which unit.
        unit: Unit,
        /// By which sensor; empty where the file has one only.
        sensor: String,
    },
}

/// Which clock the times are of.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub enum Zone {
    /// That of the place, which nobody has named: times stand as they are.
    #[default]
    Unnamed,
    /// A fixed offset ahead of universal time, s.
    Offset(i64),
    /// A zone of the time-zone database, such as `Europe/London`, with its summer time.
    Named(String),
}

/// How a file is read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mapping {
    /// How its text is encoded. A spreadsheet's is UTF-8.
    pub encoding: Encoding,
    /// The sign between its columns.
    pub separator: Separator,
    /// The sign before decimals.
    pub decimal: Decimal,
    /// Lines before the first row of readings: preamble and headings.
    pub lines_before: usize,
    /// The order of its dates. `None` where two are possible and nobody has said which.
    pub order: Option<DateOrder>,
    /// Which clock.
    pub zone: Zone,
    /// Seconds by which the logger's clock was ahead of the true time.
    pub clock_ahead_s: i64,
    /// What each column is.
    pub columns: Vec<Column>,
    /// Sheet of a spreadsheet, empty for the first or for text.
    pub sheet: String,
}
