//! A logger's file while it is being looked at.

use crate::series::{Column, Given, Guess, Mapping, ReadError, Series, Zone, guess_with, preview};
use crate::survey::{Hung, SeriesId, Survey};
use std::path::PathBuf;
use std::sync::Arc;

/// Lines that are read to look at.
const LINES: usize = 40;

/// A file as it was opened.
#[derive(Debug, PartialEq, Eq)]
pub struct LoggerFile {
    /// Where it was chosen.
    pub path: PathBuf,
    /// What it is called there.
    pub name: String,
    /// All of it.
    pub bytes: Vec<u8>,
}

/// Where the sensor of a file hung, or that it is not used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// It hung there.
    Hung(Hung),
    /// Its readings are not wanted.
    NotUsed,
}

impl Place {
    /// All, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::Hung(Hung::Inside),
        Self::Hung(Hung::Outside),
        Self::Hung(Hung::Elsewhere),
        Self::NotUsed,
    ];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Hung(hung) => hung.name(),
            Self::NotUsed => "not used",
        }
    }
}

/// A file that is being looked at, with how it is to be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// The file.
    pub file: Arc<LoggerFile>,
    /// What was said of the file as a whole; the rest is guessed by it.
    pub given: Given,
    /// What was guessed.
    pub guess: Guess,
    /// How it is read.
    pub mapping: Mapping,
    /// The first rows read so, or why they cannot be.
    pub first: Result<Series, ReadError>,
    /// What kind of clock is chosen, while its name or offset is still being typed.
    pub zone: ZoneKind,
    /// Where the sensors hung, in the order of [`Chosen::sensors`]; `None` where nobody has said.
    pub places: Vec<(String, Option<Place>)>,
    /// The mapping is that of an earlier file of the same shape.
    pub is_as_before: bool,
    /// Why all of it could not be read.
    pub refused: String,
    /// The loggers in the survey whose readings these become; none where the file is new.
    pub taken: Vec<Taken>,
}

/// A logger of the survey whose file is looked at again, or gives way to another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// Its number.
    pub id: SeriesId,
    /// Its sensor.
    pub sensor: String,
    /// Where it hung.
    pub hung: Hung,
}

/// The loggers of a survey that stand on the file of one of them.
#[must_use]
pub fn taken(survey: &Survey, id: SeriesId) -> Vec<Taken> {
    let file = survey.logger(id).map(|logger| logger.file.as_str());
    let of_file = survey.series.iter();
    of_file
        .filter(|other| Some(other.file.as_str()) == file)
        .map(|other| Taken {
            id: other.id,
            sensor: other.sensor.clone(),
            hung: other.hung,
        })
        .collect()
}

/// Which clock the times are of, as it is chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ZoneKind {
    /// That of the place.
    #[default]
    Place,
    /// A fixed offset.
    Offset,
    /// A named zone.
    Named,
}

impl ZoneKind {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::Place, Self::Offset, Self::Named];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Place => "the clock of the place",
            Self::Offset => "hours from universal time",
            Self::Named => "a time zone by name",
        }
    }

    fn of(zone: &Zone) -> Self {
        match zone {
            Zone::Unnamed => Self::Place,
            Zone::Offset(_) => Self::Offset,
            Zone::Named(_) => Self::Named,
        }
    }
}

impl Chosen {
    /// A file with what is guessed of it, or read as the last one of its shape was.
    ///
    /// # Errors
    /// What has no readings at all.
    pub fn of(
        file: Arc<LoggerFile>,
        known: impl FnOnce(&Guess) -> Option<Mapping>,
    ) -> Result<Self, ReadError> {
        let given = Given::default();
        let guess = guess_with(&file.bytes, &given)?;
        let before = known(&guess);
        let is_as_before = before.is_some();
        let mapping = before.unwrap_or_else(|| guess.mapping.clone());
        let mut chosen = Self {
            zone: ZoneKind::of(&mapping.zone),
            first: Err(ReadError::NoReadings),
            places: Vec::new(),
            refused: String::new(),
            taken: Vec::new(),
            file,
            given,
            guess,
            mapping,
            is_as_before,
        };
        chosen.look();
        Ok(chosen)
    }

    /// A file of loggers that are in the survey, read as they are; as it is guessed, where it cannot be
    /// read so.
    ///
    /// # Errors
    /// What has no readings at all.
    pub fn again(
        file: Arc<LoggerFile>,
        mapping: Mapping,
        taken: Vec<Taken>,
    ) -> Result<Self, ReadError> {
        let mut chosen = Self::of(file, |_| None)?;
        chosen.taken = taken;
        let guessed = std::mem::replace(&mut chosen.mapping, mapping);
        chosen.look();
        if chosen.first.is_err() {
            chosen.mapping = guessed;
            chosen.look();
        }
        chosen.zone = ZoneKind::of(&chosen.mapping.zone);
        // A mapping that names no sheet is one of the first, whether or not that has most readings.
        let first = chosen.guess.sheets.first().cloned().unwrap_or_default();
        let sheet = Some(chosen.mapping.sheet.clone()).filter(|sheet| !sheet.is_empty());
        let given = Given {
            encoding: Some(chosen.mapping.encoding),
            separator: Some(chosen.mapping.separator),
            decimal: Some(chosen.mapping.decimal),
            sheet: sheet.unwrap_or(first),
        };
        // Its headings and orders of dates are those of the file read so.
        if let Ok(guess) = guess_with(&chosen.file.bytes, &given) {
            chosen.guess = guess;
        }
        chosen.places = chosen
            .sensors()
            .into_iter()
            .map(|sensor| {
                let mut all = chosen.taken.iter();
                let known = all.find(|one| one.sensor == sensor || one.sensor.is_empty());
                let place = known.map_or(Place::NotUsed, |one| Place::Hung(one.hung));
                (sensor, Some(place))
            })
            .collect();
        Ok(chosen)
    }

    /// Reads the first rows by the mapping.
    fn look(&mut self) {
        self.first = preview(&self.file.bytes, &self.mapping, LINES);
        let before = std::mem::take(&mut self.places);
        let sensors = self.sensors();
        self.places = sensors
            .into_iter()
            .map(|sensor| {
                let known = before.iter().find(|(name, _)| *name == sensor);
                let place = known.map_or_else(|| placed(&sensor), |(_, place)| *place);
                (sensor, place)
            })
            .collect();
    }

    /// The same file looked at by a mapping that was changed, or guessed anew by what was said of
    /// it as a whole.
    #[must_use]
    pub fn looked_at(mut self, anew: bool) -> Self {
        self.refused.clear();
        if anew {
            match guess_with(&self.file.bytes, &self.given) {
                Ok(guess) => {
                    let (zone, ahead) = (self.mapping.zone.clone(), self.mapping.clock_ahead_s);
                    self.mapping = Mapping {
                        zone,
                        clock_ahead_s: ahead,
                        ..guess.mapping.clone()
                    };
                    self.guess = guess;
                    self.is_as_before = false;
                }
                Err(error) => {
                    // What was said stays said, so that it can be taken back.
                    let given = &self.given;
                    let mapping = &mut self.mapping;
                    mapping.encoding = given.encoding.unwrap_or(mapping.encoding);
                    mapping.separator = given.separator.unwrap_or(mapping.separator);
                    mapping.decimal = given.decimal.unwrap_or(mapping.decimal);
                    mapping.sheet.clone_from(&given.sheet);
                    self.first = Err(error);
                    return self;
                }
            }
        }
        self.look();
        self
    }

    /// The sensors whose readings the mapping takes, each once.
    #[must_use]
    pub fn sensors(&self) -> Vec<String> {
        let mut sensors: Vec<String> = Vec::new();
        for column in &self.mapping.columns {
            if let Column::Readings { sensor, .. } = column
                && !sensors.contains(sensor)
            {
                sensors.push(sensor.clone());
            }
        }
        sensors
    }

    /// What has to be said before all of it can be read; `None` where nothing has.
    #[must_use]
    pub fn asks(&self) -> Option<String> {
        if self.mapping.order.is_none() {
            return Some("Say which of the two ways the dates are written in.".to_owned());
        }
        if let Err(error) = &self.first {
            let words = error.to_string();
            let mut letters = words.chars();
            let first = letters.next().map(|first| first.to_uppercase().to_string());
            return Some(format!(
                "{}{}.",
                first.unwrap_or_default(),
                letters.as_str()
            ));
        }
        if self.places.iter().any(|(_, place)| place.is_none()) {
            return Some("Say where each sensor hung.".to_owned());
        }
        let used = |(_, place): &(String, Option<Place>)| matches!(place, Some(Place::Hung(_)));
        if !self.places.iter().any(used) {
            return Some("No sensor is used: there is nothing to read.".to_owned());
        }
        None
    }
}

/// Where a sensor hung by its name, where that says it.
#[must_use]
pub fn placed(sensor: &str) -> Option<Place> {
    let low = sensor.to_lowercase();
    let words: Vec<&str> = low
        .split(|sign: char| !sign.is_alphabetic())
        .filter(|word| !word.is_empty())
        .collect();
    let is_one_of = |names: &[&str]| words.iter().any(|word| names.contains(word));
    let outside = is_one_of(&["outside", "outdoor", "out", "außen", "aussen", "extérieur"]);
    let inside = is_one_of(&["inside", "indoor", "in", "innen", "intérieur"]);
    match (inside, outside) {
        (true, false) => Some(Place::Hung(Hung::Inside)),
        (false, true) => Some(Place::Hung(Hung::Outside)),
        _ => None,
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::series::{DateOrder, Separator};

    /// A file with two sensors whose dates could be either way round.
    pub(in crate::window) fn either() -> Arc<LoggerFile> {
        let mut text = String::from("Date;Inside °C;Inside % RH;Shed °C;Shed % RH\n");
        for row in 0..30 {
            text.push_str(&format!("03/04/2026 {:02}:00;12,5;61;4,5;88\n", row % 24));
        }
        Arc::new(LoggerFile {
            path: "/tmp/cellar.csv".into(),
            name: "cellar.csv".to_owned(),
            bytes: text.into_bytes(),
        })
    }

    #[test]
    fn what_cannot_be_known_from_a_file_is_asked_before_it_is_read() {
        let mut chosen = Chosen::of(either(), |_| None).unwrap();
        assert_eq!(chosen.sensors(), ["Inside", "Shed"]);
        assert!(chosen.asks().unwrap().contains("dates"));
        chosen.mapping.order = Some(DateOrder::DayMonthYear);
        let mut chosen = chosen.looked_at(false);
        assert!(chosen.first.is_ok());
        // The name of one sensor says where it hung; that of the other does not.
        assert_eq!(chosen.places[0].1, Some(Place::Hung(Hung::Inside)));
        assert_eq!(chosen.places[1].1, None);
        assert!(chosen.asks().unwrap().contains("hung"));
        chosen.places[1].1 = Some(Place::NotUsed);
        assert_eq!(chosen.asks(), None);
        chosen.places[0].1 = Some(Place::NotUsed);
        assert!(chosen.asks().unwrap().contains("nothing to read"));
    }

    #[test]
    fn a_wrong_separator_is_told_and_can_be_taken_back() {
        let mut chosen = Chosen::of(either(), |_| None).unwrap();
        chosen.mapping.order = Some(DateOrder::DayMonthYear);
        chosen.given.separator = Some(Separator::Tab);
        let mut chosen = chosen.looked_at(true);
        assert_eq!(chosen.mapping.separator, Separator::Tab);
        assert!(chosen.first.is_err());
        chosen.given.separator = Some(Separator::Semicolon);
        let chosen = chosen.looked_at(true);
        assert_eq!(chosen.mapping.separator, Separator::Semicolon);
        assert_eq!(chosen.mapping.columns.len(), 5);
    }
}
