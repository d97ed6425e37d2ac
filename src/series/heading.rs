//! What the heading of a column says it holds.

use super::mapping::{Unit, What};

/// Words by which a quantity is known in a heading, in English and in the languages whose headings are
/// met most; the first that fits counts, so what is longer stands first. Common practice, no source.
const WORDS: [(What, &[&str]); 12] = [
    (
        What::Direct,
        &["direct normal", "direct_normal", "beam normal", "dni"],
    ),
    (What::Diffuse, &["diffus", "dhi"]),
    (What::Global, &["shortwave", "global", "ghi", "solar rad"]),
    (What::CloudCover, &["cloud", "bewölkung", "nuages"]),
    (
        What::DewPoint,
        &[
            "dew", "taupunkt", "rosée", "rosee", "rugiada", "rocío", "td",
        ],
    ),
    (
        What::AbsoluteHumidity,
        &[
            "g/m³",
            "g/m3",
            "absolute hum",
            "abs. hum",
            "absolute feuchte",
            "ah",
        ],
    ),
    (
        What::RelativeHumidity,
        &[
            "humid", "feucht", "humedad", "umidit", "vocht", "%rh", "% rh", "rh", "hr", "rf", "r.h",
        ],
    ),
    (
        What::CarbonDioxide,
        &["co2", "co₂", "carbon dioxide", "ppm"],
    ),
    (
        What::WindDirection,
        &[
            "wind dir",
            "winddir",
            "wind_dir",
            "windrichtung",
            "wind from",
            "gust dir",
        ],
    ),
    (
        What::Wind,
        &["wind", "vent", "viento", "m/s", "km/h", "mph", "knots"],
    ),
    (
        What::Pressure,
        &["press", "druck", "pression", "baro", "hpa", "mbar", "mmhg"],
    ),
    (
        What::Temperature,
        &[
            "temp",
            "°c",
            "ºc",
            "°f",
            "ºf",
            "deg c",
            "deg f",
            "celsius",
            "fahrenheit",
            "t_c",
            "t_f",
            "(c)",
            "(f)",
            "[c]",
            "[f]",
            "t",
        ],
    ),
];

/// Signs of units, what is longer first.
const UNITS: [(Unit, &[&str]); 15] = [
    (
        Unit::Fahrenheit,
        &[
            "°f",
            "ºf",
            "deg f",
            "deg. f",
            "fahrenheit",
            "(f)",
            "[f]",
            "t_f",
            "_f",
        ],
    ),
    (
        Unit::Celsius,
        &[
            "°c", "ºc", "deg c", "deg. c", "celsius", "(c)", "[c]", "t_c", "_c",
        ],
    ),
    (Unit::Percent, &["%", "percent", "pct"]),
    (Unit::GramsPerM3, &["g/m³", "g/m3"]),
    (Unit::Ppm, &["ppm"]),
    (Unit::MmOfMercury, &["mmhg", "mm hg"]),
    (Unit::Hectopascal, &["hpa", "mbar", "millibar"]),
    (Unit::Pascal, &["(pa)", "[pa]", "_pa", " pa"]),
    (Unit::KilometresPerHour, &["km/h", "kmh", "kph"]),
    (Unit::MetresPerSecond, &["m/s", "m_s", "mps"]),
    (Unit::MilesPerHour, &["mph"]),
    (Unit::Knots, &["knot", "(kn)", "[kn]", "(kt)"]),
    (Unit::Degrees, &["°", "deg"]),
    (Unit::WattsPerM2, &["w/m²", "w/m2", "w/m^2"]),
    (Unit::Share, &["0-1", "0..1"]),
];

/// What a heading says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Said {
    pub(super) what: What,
    /// The unit, where it is said and fits.
    pub(super) unit: Option<Unit>,
    /// What is left of the heading: the name of the sensor.
    pub(super) sensor: String,
}

/// Reads a heading; `None` where no quantity is named in it.
pub(super) fn said(heading: &str) -> Option<Said> {
    let low = heading.trim().to_lowercase();
    let (what, word) = WORDS.iter().find_map(|(what, words)| {
        words
            .iter()
            .find(|word| stands_in(&low, word))
            .map(|word| (*what, *word))
    })?;
    let unit = UNITS
        .iter()
        .find(|(unit, signs)| {
            what.units().contains(unit) && signs.iter().any(|sign| stands_in(&low, sign))
        })
        .map(|(unit, _)| *unit);
    Some(Said {
        what,
        unit,
        sensor: sensor(heading.trim(), word),
    })
}

/// Whether a word stands in a text: one of letters alone only as a word of its own where it is as
/// short as two letters, so that `rh` is not found in `overheard` nor `t` in `note`.
fn stands_in(text: &str, word: &str) -> bool {
    let short = word.chars().count() <= 2 && word.chars().all(char::is_alphabetic);
    text.match_indices(word).any(|(at, _)| {
        let alone = |sign: Option<char>| !sign.is_some_and(char::is_alphanumeric);
        let before = text.get(..at).and_then(|start| start.chars().next_back());
        let after = text
            .get(at + word.len()..)
            .and_then(|rest| rest.chars().next());
        !short || (alone(before) && alone(after))
    })
}

/// Words that say nothing of which sensor it is.
const IDLE: [&str; 23] = [
    "temperature",
    "temp",
    "relative",
    "humidity",
    "air",
    "of",
    "the",
    "deg",
    "degc",
    "degf",
    "celsius",
    "fahrenheit",
    "value",
    "reading",
    "c",
    "f",
    "t",
    "rh",
    "m",
    "s",
    "pa",
    "hpa",
    "mmhg",
];

/// Letters of a word that is looked for within others.
const LONG: usize = 3;

/// The heading without the words of quantity and unit. A sign as short as `°C` or `T` is one only by
/// itself: the cab, the attic and what hung outside keep their names.
fn sensor(heading: &str, word: &str) -> String {
    let letters = word.trim_matches(|sign: char| !sign.is_alphanumeric());
    let is_long = letters.chars().count() >= LONG;
    let kept: Vec<&str> = heading
        .split(|sign: char| !(sign.is_alphanumeric() || matches!(sign, '#' | '\'')))
        .filter(|part| {
            let low = part.to_lowercase();
            let is_of_the_word = low == word || (is_long && low.contains(letters));
            let is_idle = low.is_empty() || IDLE.contains(&low.as_str());
            !is_of_the_word && !is_idle
        })
        .collect();
    kept.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_a_sensor_is_not_taken_for_a_sign_that_stands_within_it() {
        for (temperature, humidity, sensor) in [
            ("T out", "RH out", "out"),
            ("Cab °C", "Cab % RH", "Cab"),
            ("Attic (C)", "Attic RH (%)", "Attic"),
            ("front locker °F", "front locker humidity %", "front locker"),
            ("Temperature shed", "Relative humidity shed", "shed"),
            ("T", "RH", ""),
        ] {
            for heading in [temperature, humidity] {
                let found = said(heading).map(|said| said.sensor);
                assert_eq!(found.as_deref(), Some(sensor), "{heading}");
            }
        }
    }
}
