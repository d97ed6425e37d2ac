//! The columns of a row: what each is, what it may be, and what means *missing*.

use crate::climate::calendar::Day;

/// A column of numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Its number in the row, from 1.
    pub number: usize,
    /// What it is.
    pub name: &'static str,
    /// Its unit, with a space before it; empty where it has none.
    pub unit: &'static str,
    /// Least that it can be.
    pub least: f64,
    /// Most that it can be.
    pub most: f64,
    /// From here on up it means that nothing was recorded.
    pub missing: f64,
}

const fn column(
    number: usize,
    (name, unit): (&'static str, &'static str),
    (least, most): (f64, f64),
    missing: f64,
) -> Column {
    Column {
        number,
        name,
        unit,
        least,
        most,
        missing,
    }
}

/// Number of columns of a row that hold numbers of the weather.
pub(super) const VALUES: usize = 29;

/// The columns of numbers, from the seventh of a row on, as the format's description has them
/// **\[M\]**; what they may be at most is narrower than there where nature is.
pub const COLUMNS: [Column; VALUES] = [
    column(7, ("temperature", " °C"), (-70.0, 60.0), 99.9),
    column(8, ("dew point", " °C"), (-90.0, 70.0), 99.9),
    column(9, ("relative humidity", " %"), (0.0, 110.0), 999.0),
    column(
        10,
        ("air pressure", " Pa"),
        (31_000.0, 120_000.0),
        999_999.0,
    ),
    column(
        11,
        ("sun above the air on the level", " Wh/m²"),
        (0.0, 1_500.0),
        9_999.0,
    ),
    column(12, ("sun above the air", " Wh/m²"), (0.0, 1_500.0), 9_999.0),
    column(13, ("infrared of the sky", " Wh/m²"), (0.0, 700.0), 9_999.0),
    column(
        14,
        ("global sun on the level", " Wh/m²"),
        (0.0, 1_500.0),
        9_999.0,
    ),
    column(15, ("direct sun", " Wh/m²"), (0.0, 1_500.0), 9_999.0),
    column(
        16,
        ("diffuse light on the level", " Wh/m²"),
        (0.0, 1_500.0),
        9_999.0,
    ),
    column(
        17,
        ("global brightness", " lux"),
        (0.0, 200_000.0),
        999_900.0,
    ),
    column(
        18,
        ("direct brightness", " lux"),
        (0.0, 200_000.0),
        999_900.0,
    ),
    column(
        19,
        ("diffuse brightness", " lux"),
        (0.0, 200_000.0),
        999_900.0,
    ),
    column(
        20,
        ("brightness of the zenith", " cd/m²"),
        (0.0, 100_000.0),
        9_999.0,
    ),
    column(21, ("direction of the wind", "°"), (0.0, 360.0), 999.0),
    column(22, ("wind", " m/s"), (0.0, 60.0), 999.0),
    column(23, ("sky covered", " tenths"), (0.0, 10.0), 99.0),
    column(
        24,
        ("sky covered by dense clouds", " tenths"),
        (0.0, 10.0),
        99.0,
    ),
    column(25, ("visibility", " km"), (0.0, 9_998.0), 9_999.0),
    column(
        26,
        ("height of the clouds", " m"),
        (0.0, 99_998.0),
        99_999.0,
    ),
    column(27, ("mark of the observation", ""), (0.0, 9.0), 99.0),
    column(
        28,
        ("codes of the observation", ""),
        (0.0, 999_999_999.0),
        1e10,
    ),
    column(29, ("water in the air", " mm"), (0.0, 998.0), 999.0),
    column(30, ("haze", ""), (0.0, 0.998), 0.999),
    column(31, ("snow", " cm"), (0.0, 998.0), 999.0),
    column(32, ("days since the last snow", ""), (0.0, 98.0), 99.0),
    column(33, ("share of light thrown back", ""), (0.0, 1.0), 999.0),
    column(34, ("rain", " mm"), (0.0, 998.0), 999.0),
    column(35, ("hours of rain", ""), (0.0, 98.0), 99.0),
];

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The day, as written; its year may differ from month to month where typical months were put
    /// together.
    pub day: Day,
    /// Number of the hour, 1 to 24.
    pub hour: u8,
    /// Where each value is from, as written.
    pub sources: String,
    /// The values of [`COLUMNS`]; `None` where nothing was recorded.
    pub values: [Option<f64>; VALUES],
}

impl Row {
    /// The value of a column by its number, from 7 to 35.
    #[must_use]
    pub fn value(&self, number: usize) -> Option<f64> {
        number.checked_sub(7).and_then(|at| *self.values.get(at)?)
    }
}
