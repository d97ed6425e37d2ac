//! Readings of a logger: whose file it is, where it hung, how the file is read, and what of it does
//! not count.

use super::ids::SeriesId;
use super::moment::Moment;
pub use crate::physics::measurement::logger::BelowFreezing;
use crate::series::{Mapping, What};

/// Where a logger hung.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Hung {
    /// In the free air of the living space.
    #[default]
    Inside,
    /// Outside in the shade.
    Outside,
    /// Somewhere else, such as in a locker.
    Elsewhere,
}

impl Hung {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::Inside, Self::Outside, Self::Elsewhere];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Inside => "inside, in free air",
            Self::Outside => "outside, in the shade",
            Self::Elsewhere => "somewhere else",
        }
    }
}

/// How it is known by how much a logger is off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum OffsetFrom {
    /// Nobody has checked.
    #[default]
    NotChecked,
    /// It hung beside another for some hours.
    SideBySide,
    /// It was kept over saturated salt.
    Salt,
    /// By a certificate, or another way told in the note.
    Certificate,
}

impl OffsetFrom {
    /// All, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::NotChecked,
        Self::SideBySide,
        Self::Salt,
        Self::Certificate,
    ];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotChecked => "nobody has checked",
            Self::SideBySide => "side by side with another",
            Self::Salt => "over saturated salt",
            Self::Certificate => "by a certificate",
        }
    }
}

/// What a logger was held against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Against {
    /// Another logger that lay beside it.
    #[default]
    Logger,
    /// The air over wet kitchen salt in a closed box.
    SodiumChloride,
    /// The air over wet magnesium chloride in a closed box.
    MagnesiumChloride,
}

impl Against {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::Logger, Self::SodiumChloride, Self::MagnesiumChloride];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Logger => "another logger beside it",
            Self::SodiumChloride => "wet kitchen salt",
            Self::MagnesiumChloride => "wet magnesium chloride",
        }
    }

    /// How an offset is known that was found so.
    #[must_use]
    pub fn offset_from(self) -> OffsetFrom {
        match self {
            Self::Logger => OffsetFrom::SideBySide,
            Self::SodiumChloride | Self::MagnesiumChloride => OffsetFrom::Salt,
        }
    }
}

/// Some hours in which it was looked at by how much a logger is off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LoggerCheck {
    /// What it was held against.
    pub against: Against,
    /// The logger that lay beside it.
    pub beside: Option<SeriesId>,
    /// When they had been brought together.
    pub from: Option<Moment>,
    /// When they were parted.
    pub to: Option<Moment>,
}

/// Readings that do not count, by the user's word. Taken off the list they count again.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOut {
    /// First moment that does not count.
    pub from: Moment,
    /// Last moment that does not.
    pub to: Moment,
    /// What was read; `None`: all of the logger.
    pub what: Option<What>,
    /// Why.
    pub why: String,
}

/// Readings of a logger.
#[derive(Clone, Debug, PartialEq)]
pub struct LoggerSeries {
    /// Its number.
    pub id: SeriesId,
    /// The user's name for it.
    pub name: String,
    /// Where it hung.
    pub hung: Hung,
    /// The place in words.
    pub place: String,
    /// Name of the file in the survey's data folder.
    pub file: String,
    /// Name that the file had when it was chosen.
    pub original: String,
    /// How the file is read.
    pub mapping: Mapping,
    /// Which sensor of the file; empty where it has one only.
    pub sensor: String,
    /// What humidity below 0 °C means on this instrument.
    pub below_freezing: BelowFreezing,
    /// By how much it reads too warm, K.
    pub too_warm_k: Option<f64>,
    /// By how many points of relative humidity it reads too damp.
    pub too_damp_percent: Option<f64>,
    /// How that is known.
    pub offset_from: OffsetFrom,
    /// The hours in which that was looked at.
    pub check: Option<LoggerCheck>,
    /// What does not count.
    pub left_out: Vec<LeftOut>,
    /// Free words.
    pub note: String,
}

impl LoggerSeries {
    /// Readings of a file of the data folder, read this way.
    #[must_use]
    pub fn new(id: SeriesId, hung: Hung, file: String, mapping: Mapping) -> Self {
        Self {
            id,
            name: String::new(),
            hung,
            place: String::new(),
            file,
            original: String::new(),
            mapping,
            sensor: String::new(),
            below_freezing: BelowFreezing::OverWater,
            too_warm_k: None,
            too_damp_percent: None,
            offset_from: OffsetFrom::NotChecked,
            check: None,
            left_out: Vec::new(),
            note: String::new(),
        }
    }

    /// What it is called: its name, its sensor, or the file it came from; `None` where it has none of
    /// them.
    #[must_use]
    pub fn called(&self) -> Option<&str> {
        let names = [&self.name, &self.sensor, &self.original];
        let mut names = names.into_iter().map(|name| name.trim());
        names.find(|name| !name.is_empty())
    }

    /// The same within a sentence.
    #[must_use]
    pub fn in_words(&self) -> String {
        match self.called() {
            None => format!("logger {}", self.id),
            Some(name) if name == self.name.trim() => name.to_owned(),
            Some(name) => format!("logger \u{201c}{name}\u{201d}"),
        }
    }
}

/// Words of what humidity below 0 °C means on an instrument.
#[must_use]
pub fn below_freezing_name(of: BelowFreezing) -> &'static str {
    match of {
        BelowFreezing::OverWater => "of what air holds over water, as most loggers",
        BelowFreezing::OverIce => "of what air holds over ice",
    }
}
