//! What is to be looked at before a file is taken as it was guessed, told by column.

use std::fmt;

use super::mapping::{Unit, What};

/// Something about a column that its owner should look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The column, counted from 0.
    pub column: usize,
    /// Its heading, cut short.
    pub heading: String,
    /// What is to be told.
    pub about: About,
}

/// What is to be told of a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// Its unit is not read, and it is left out.
    StrangeUnit(String),
    /// Its heading is understood, and it has no reading anywhere.
    NoReadings(What),
    /// Only its unit says what it holds.
    ByUnitAlone(What),
    /// Its heading names two units; this one is taken.
    TwoUnits(Unit),
    /// Its heading says one unit and the cells another, which is taken.
    CellsSay(Unit),
    /// It holds 0 to 1 and no unit is said: it is taken as a share of one.
    TakenAsShare(What),
    /// It holds 0 to 1 and percent is said.
    PerhapsShare(What),
    /// Its heading names a time zone.
    Zone(String),
}

impl Remark {
    pub(super) fn new(column: usize, heading: &str, about: About) -> Self {
        const LONGEST: usize = 40;
        let mut short: String = heading.trim().chars().take(LONGEST).collect();
        if short.len() < heading.trim().len() {
            short.push('…');
        }
        Self {
            column,
            heading: short,
            about,
        }
    }

    /// The column with its heading.
    fn place(&self) -> String {
        match self.heading.as_str() {
            "" => format!("column {}", self.column + 1),
            heading => format!("column {}, \u{201c}{heading}\u{201d}", self.column + 1),
        }
    }
}

impl fmt::Display for Remark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place = self.place();
        match &self.about {
            About::StrangeUnit(unit) => write!(
                out,
                "{place}, is left out: its unit, {unit}, cannot be read. Export it in another unit"
            ),
            About::NoReadings(what) => {
                write!(out, "{place}, is left out: no {} stands in it", what.name())
            }
            About::ByUnitAlone(what) => write!(
                out,
                "{place}: only its unit says what it holds; {} is taken. Look whether that is right",
                what.name()
            ),
            About::TwoUnits(unit) => write!(
                out,
                "{place}: two units stand in the heading; {} is taken. Look whether the numbers fit",
                unit.sign()
            ),
            About::CellsSay(unit) => write!(
                out,
                "{place}: the numbers carry another unit than the heading; {}, as behind the numbers, \
                 is taken",
                unit.sign()
            ),
            About::TakenAsShare(what) => write!(
                out,
                "{place}: the file does not say in which unit the {} is; its numbers lie between 0 and \
                 1, so a share of one is taken",
                what.name()
            ),
            About::PerhapsShare(what) => write!(
                out,
                "{place}: the heading says %, and the {} lies between 0 and 1 all the time; if it is a \
                 share of one, say so",
                what.name()
            ),
            About::Zone(zone) => write!(
                out,
                "{place}: the heading names a time zone, {zone}; times are taken as they stand. Name the \
                 zone if they are to be set beside those of another clock"
            ),
        }
    }
}
