//! Units as they are written in headings and behind numbers.

use crate::series::mapping::Unit;

/// What a sign or word of a unit stands for.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::series) enum Sign {
    /// A unit that is read.
    Ours(Unit),
    /// A unit that is not read, as it is written.
    Strange(String),
}

/// Signs that stand for a unit wherever they stand as a word.
const ANYWHERE: [(Unit, &[&str]); 14] = [
    (
        Unit::Celsius,
        &["°c", "degc", "celsius", "centigrade", "*c"],
    ),
    (Unit::Fahrenheit, &["°f", "degf", "fahrenheit", "*f"]),
    (
        Unit::Percent,
        &["%", "pct", "percent", "prozent", "procent"],
    ),
    (
        Unit::GramsPerM3,
        &["g/m3", "g/m^3", "gm3", "gm-3", "g·m-3", "g/cbm"],
    ),
    (Unit::Ppm, &["ppm"]),
    (Unit::MmOfMercury, &["mmhg", "torr"]),
    (
        Unit::Hectopascal,
        &["hpa", "mbar", "millibar", "hectopascal"],
    ),
    (Unit::Pascal, &["pa", "pascal"]),
    (Unit::KilometresPerHour, &["km/h", "kmh", "kph"]),
    (Unit::MetresPerSecond, &["m/s", "mps", "ms-1", "m·s-1"]),
    (Unit::MilesPerHour, &["mph"]),
    (Unit::Knots, &["knot", "knots", "kn", "kt", "kts"]),
    (Unit::WattsPerM2, &["w/m2", "w/m^2", "wm-2", "w·m-2"]),
    (Unit::Share, &["0-1", "0..1", "0…1", "fraction", "frac"]),
];

/// Units that are not read, where they stand as a word.
const STRANGE: [&str; 36] = [
    "kelvin", "°k", "degk", "kpa", "inhg", "psi", "psia", "psig", "kwh", "wh", "mah", "mv", "lux",
    "lx", "rpm", "dbm", "g/kg", "kg/kg", "kj/kg", "ppb", "mg/m3", "µg/m3", "ug/m3", "kg/m3",
    "m/s2", "mm/h", "l/h", "l/min", "m3/h", "w/m", "m°c", "m°f", "hz", "khz", "mhz", "klx",
];

/// Units that are not read and so short that they are a unit only in brackets or behind a stroke.
const STRANGE_AND_SHORT: [&str; 32] = [
    "k", "bar", "v", "a", "ma", "w", "kw", "ah", "h", "hr", "hrs", "hour", "hours", "min",
    "minutes", "s", "sec", "seconds", "d", "days", "mm", "cm", "m", "km", "l", "g", "kg", "j",
    "kj", "db", "nm", "count",
];

/// The unit that a folded word stands for by itself.
pub(super) fn anywhere(word: &str) -> Option<Sign> {
    let word = word.trim_end_matches('.');
    let ours = ANYWHERE
        .iter()
        .find(|(_, signs)| signs.contains(&word))
        .map(|(unit, _)| Sign::Ours(*unit));
    ours.or_else(|| {
        STRANGE
            .contains(&word)
            .then(|| Sign::Strange(word.to_owned()))
    })
}

/// The unit that a folded word stands for alone in brackets, behind a stroke, or behind a number.
pub(super) fn alone(word: &str) -> Option<Sign> {
    match word.trim_end_matches('.') {
        "c" => Some(Sign::Ours(Unit::Celsius)),
        "f" => Some(Sign::Ours(Unit::Fahrenheit)),
        short if STRANGE_AND_SHORT.contains(&short) => Some(Sign::Strange(short.to_owned())),
        word => anywhere(word),
    }
}

/// The unit that a cell of a line of units is.
pub(super) fn of_cell(text: &str) -> Option<Sign> {
    let joined = joined(text);
    if joined.starts_with('%') {
        return Some(Sign::Ours(Unit::Percent));
    }
    if joined == "°" {
        return Some(Sign::Ours(Unit::Degrees));
    }
    alone(joined.trim_matches(['(', ')', '[', ']']))
}

/// The unit behind a number of a cell; `None` where what stands there is none that is known. Of the short
/// ones only those count that are no flags.
pub(in crate::series) fn behind(text: &str) -> Option<Sign> {
    let is_flag = |sign: &Sign| match sign {
        Sign::Strange(unit) => {
            STRANGE_AND_SHORT.contains(&unit.as_str()) && !matches!(unit.as_str(), "k" | "bar")
        }
        Sign::Ours(_) => false,
    };
    of_cell(text).filter(|sign| !is_flag(sign))
}

fn joined(text: &str) -> String {
    let low = super::folded::folded(text.trim());
    low.chars().filter(|sign| !sign.is_whitespace()).collect()
}
