//! What the heading of a column says it holds.
//!
//! The unit decides first: a column in °C is a temperature whatever its sensor is called. Words count
//! whole, so that no quantity is found within the name of a place.

mod folded;
mod lines;
mod parts;
mod units;
mod words;
mod zone;

pub(super) use lines::headings;
pub(super) use units::{Sign, behind};
pub(super) use zone::zone;

use parts::Part;
use words::Word;

use super::mapping::{Unit, What};

/// What a heading says.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Says {
    /// A quantity of ours.
    Readings(Said),
    /// A quantity of ours in a unit that is not read.
    StrangeUnit(String),
    /// Nothing of ours.
    Nothing,
}

/// A quantity of ours.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Said {
    pub(super) what: What,
    /// The unit, where it is said and one only.
    pub(super) unit: Option<Unit>,
    /// What is left of the heading: the name of the sensor.
    pub(super) sensor: String,
    /// What is unsure about it.
    pub(super) doubt: Option<Doubt>,
}

/// What is unsure about a heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Doubt {
    /// Two units stand in it.
    TwoUnits,
    /// Only its unit says what it holds.
    ByUnitAlone,
}

/// The quantity that a heading names in a unit that is read, or without one.
pub(super) fn said(heading: &str) -> Option<Said> {
    match says(heading) {
        Says::Readings(said) => Some(said),
        Says::StrangeUnit(_) | Says::Nothing => None,
    }
}

/// Reads a heading.
pub(super) fn says(heading: &str) -> Says {
    let heading = Heading {
        parts: parts::of(heading),
    };
    let mut units: Vec<Unit> = Vec::new();
    for unit in heading.parts.iter().filter_map(|part| part.unit.as_ref()) {
        if let Sign::Ours(unit) = unit
            && !units.contains(unit)
        {
            units.push(*unit);
        }
    }
    let strange = heading.parts.iter().find_map(|part| match &part.unit {
        Some(Sign::Strange(_)) => Some(heading.unit_as_written(part)),
        _ => None,
    });
    if units.is_empty()
        && let Some(strange) = strange
    {
        return match heading.by_words() {
            Some(_) => Says::StrangeUnit(strange),
            None => Says::Nothing,
        };
    }
    match heading.quantity(&units) {
        Some((what, by_unit_alone)) => {
            let fitting: Vec<Unit> = units
                .into_iter()
                .filter(|unit| what.units().contains(unit))
                .collect();
            let doubt = match (fitting.len() > 1, by_unit_alone) {
                (true, _) => Some(Doubt::TwoUnits),
                (_, true) => Some(Doubt::ByUnitAlone),
                _ => None,
            };
            Says::Readings(Said {
                what,
                unit: match fitting.as_slice() {
                    [only] => Some(*only),
                    _ => None,
                },
                sensor: heading.sensor(what),
                doubt,
            })
        }
        None => Says::Nothing,
    }
}

/// The name of a sensor beside `%` where nothing else is said, as in `Cab %`.
pub(super) fn only_in_percent(heading: &str) -> Option<String> {
    let heading = Heading {
        parts: parts::of(heading),
    };
    let is_percent = |part: &Part| part.unit == Some(Sign::Ours(Unit::Percent));
    let is_plain = |part: &Part| {
        is_percent(part)
            || (part.unit.is_none()
                && part
                    .told
                    .iter()
                    .all(|word| matches!(word, Word::Idle | Word::Sensor | Word::Statistic)))
    };
    let fits = heading.parts.iter().any(is_percent) && heading.parts.iter().all(is_plain);
    let sensor = heading.sensor(What::RelativeHumidity);
    (fits && !sensor.is_empty()).then_some(sensor)
}

/// The words of a heading.
struct Heading {
    parts: Vec<Part>,
}

impl Heading {
    fn has(&self, word: Word) -> bool {
        self.parts
            .iter()
            .any(|part| part.unit.is_none() && part.told.contains(&word))
    }

    fn has_word(&self, word: &str) -> bool {
        self.parts.iter().any(|part| part.low == word)
    }

    fn names(&self, what: What) -> bool {
        self.has(Word::Plain(what))
    }

    fn is_short_for(&self, what: What) -> bool {
        self.has(Word::Short(what))
    }

    /// Whether two words follow each other.
    fn has_both(&self, first: &[&str], second: &[&str]) -> bool {
        self.parts.windows(2).any(|pair| match pair {
            [one, next] => first.contains(&one.low.as_str()) && second.contains(&next.low.as_str()),
            _ => false,
        })
    }

    /// Whether nothing but units stands in it, and numbers and words for a sensor.
    fn is_unit_alone(&self) -> bool {
        self.parts.iter().all(|part| {
            part.unit.is_some()
                || part.told.contains(&Word::Sensor)
                || part.is_first_of_two
                || matches!(part.low.as_str(), "rel" | "relative" | "relativ")
                || part.low.bytes().all(|byte| byte.is_ascii_digit())
        })
    }

    /// Whether it tells what is reckoned from readings, or set.
    fn is_no_reading(&self) -> bool {
        self.has(Word::NoReading)
            || self.has_both(&["wet"], &["bulb"])
            || self.has_both(&["bulbo", "bulbe"], &["umido", "humedo", "humide", "umida"])
            || self.has_both(&["wind"], &["chill"])
            || self.has_both(&["set"], &["temp", "temperature", "point"])
    }

    /// The quantity, and whether only the unit says it.
    fn quantity(&self, units: &[Unit]) -> Option<(What, bool)> {
        if self.is_no_reading() {
            return None;
        }
        let sure = |what: What| Some((what, false));
        let is = |unit: Unit| units.contains(&unit);
        let alone = self.is_unit_alone();
        if is(Unit::Celsius) || is(Unit::Fahrenheit) {
            return sure(if self.says_dew_point() {
                What::DewPoint
            } else {
                What::Temperature
            });
        }
        if is(Unit::Percent) || is(Unit::Share) {
            return self.in_percent(alone);
        }
        if is(Unit::GramsPerM3) {
            return sure(What::AbsoluteHumidity).filter(|_| !self.has(Word::OtherGas));
        }
        if is(Unit::Ppm) {
            let what = What::CarbonDioxide;
            return (alone || self.says_carbon_dioxide()).then_some((what, alone));
        }
        if is(Unit::Hectopascal) || is(Unit::MmOfMercury) || is(Unit::Pascal) {
            let said = self.names(What::Pressure);
            let fits = said || alone || !is(Unit::Pascal);
            let other = self.has(Word::OtherPressure);
            return (fits && !other).then_some((What::Pressure, alone));
        }
        let of_wind = [
            Unit::KilometresPerHour,
            Unit::MetresPerSecond,
            Unit::MilesPerHour,
            Unit::Knots,
        ];
        if of_wind.iter().any(|unit| is(*unit)) {
            let said = self.names(What::Wind) || self.is_short_for(What::Wind);
            return (said || alone).then_some((What::Wind, alone && !said));
        }
        if is(Unit::WattsPerM2) {
            let any = ["solar", "radiation", "irradiance", "sun"];
            let global = any.iter().any(|word| self.has_word(word));
            return self.sun().or(global.then_some(What::Global)).and_then(sure);
        }
        if is(Unit::Degrees) && self.says_wind_direction() {
            return sure(What::WindDirection);
        }
        self.by_words().and_then(sure)
    }

    /// Whether it ends in a word of the instrument, which then is what it tells: of `humidity battery` the
    /// battery, of `battery box humidity` the humidity.
    fn ends_in_instrument(&self) -> bool {
        let is_of_it = |part: &Part| part.told.contains(&Word::OfInstrument);
        let mut words = self
            .parts
            .iter()
            .rev()
            .filter(|part| part.unit.is_none() && !part.told.contains(&Word::Statistic));
        match words.next() {
            Some(part) if part.low == "level" => words.any(is_of_it),
            last => last.is_some_and(is_of_it),
        }
    }

    fn in_percent(&self, alone: bool) -> Option<(What, bool)> {
        if self.ends_in_instrument() {
            return None;
        }
        let of_instrument = self.has(Word::OfInstrument);
        let short = self.is_short_for(What::RelativeHumidity) && !of_instrument;
        if self.names(What::RelativeHumidity) || short {
            return Some((What::RelativeHumidity, false));
        }
        if self.names(What::CloudCover) {
            return Some((What::CloudCover, false));
        }
        let damp = self.has(Word::Damp) && !self.has(Word::Material);
        // What a moisture meter finds in timber is also given in percent.
        let moisture = self.has_word("moisture");
        (damp || alone).then_some((What::RelativeHumidity, alone || moisture))
    }

    /// The quantity by words alone.
    fn by_words(&self) -> Option<What> {
        if self.is_no_reading() {
            return None;
        }
        if self.says_dew_point() {
            return Some(What::DewPoint);
        }
        if self.names(What::Temperature) {
            return Some(What::Temperature);
        }
        if self.ends_in_instrument() {
            return None;
        }
        // `RF level`, `battery Ah` and `elapsed h` are of the instrument.
        let short = |what: What| self.is_short_for(what) && !self.has(Word::OfInstrument);
        let damp = self.has(Word::Damp) && !self.has(Word::Material);
        let absolute = self.has(Word::Absolute) && (damp || short(What::RelativeHumidity));
        if absolute || self.names(What::AbsoluteHumidity) || short(What::AbsoluteHumidity) {
            return Some(What::AbsoluteHumidity);
        }
        let relative = short(What::RelativeHumidity) && !self.has_word("h");
        if damp || relative || self.names(What::RelativeHumidity) {
            return Some(What::RelativeHumidity);
        }
        if self.says_carbon_dioxide() {
            return Some(What::CarbonDioxide);
        }
        if self.says_wind_direction() {
            return Some(What::WindDirection);
        }
        if self.names(What::Wind) {
            return Some(What::Wind);
        }
        if self.names(What::Pressure) && !self.has(Word::OtherPressure) {
            return Some(What::Pressure);
        }
        let sky = self.names(What::CloudCover).then_some(What::CloudCover);
        let letter = self
            .is_short_for(What::Temperature)
            .then_some(What::Temperature);
        self.sun().or(sky).or(letter)
    }

    /// Short words for the dew point are also names of sensors: a word for temperature beside them
    /// says that they are that here.
    fn says_dew_point(&self) -> bool {
        self.names(What::DewPoint)
            || self.has_both(&["frost"], &["point", "punkt", "pt"])
            || (self.is_short_for(What::DewPoint) && !self.names(What::Temperature))
    }

    fn says_carbon_dioxide(&self) -> bool {
        self.names(What::CarbonDioxide) || self.has_both(&["carbon"], &["dioxide"])
    }

    fn says_wind_direction(&self) -> bool {
        self.names(What::WindDirection)
            || self.has_both(
                &["wind", "gust", "viento", "vento"],
                &["dir", "direction", "from", "richtung", "bearing"],
            )
            || (self.has_both(&["direction"], &["du", "of"]) && self.is_short_for(What::Wind))
    }

    fn sun(&self) -> Option<What> {
        if self.names(What::Direct) || self.has_both(&["direct"], &["normal", "radiation", "sun"]) {
            return Some(What::Direct);
        }
        [What::Diffuse, What::Global]
            .into_iter()
            .find(|what| self.names(*what))
    }

    /// A unit that is not read, with the word before it where it is part of it.
    fn unit_as_written(&self, part: &Part) -> String {
        match &part.unit {
            Some(Sign::Strange(sign)) if sign.contains(' ') => sign.clone(),
            _ => part.text.clone(),
        }
    }

    /// The heading without the words of its quantity and unit.
    fn sensor(&self, what: What) -> String {
        let is_of_it = |word: &Word| match word {
            Word::Plain(one) | Word::Short(one) => *one == what,
            Word::Damp | Word::Absolute => {
                matches!(what, What::RelativeHumidity | What::AbsoluteHumidity)
            }
            Word::Idle => true,
            _ => false,
        };
        let mut kept: Vec<&str> = Vec::new();
        for part in &self.parts {
            if part.told.iter().any(is_of_it) {
                kept.extend(part.name.as_deref());
            } else if part.unit.is_none() {
                kept.extend(
                    part.text
                        .split(|sign: char| !(sign.is_alphanumeric() || matches!(sign, '#' | '\'')))
                        .filter(|word| !word.is_empty()),
                );
            }
        }
        kept.join(" ")
    }
}

#[cfg(test)]
mod tests;
