//! The walk round: what came of looking at each usual place.
//!
//! Which places are usual says [`super::stations`]. A visit names its place by words that never
//! change, so that a survey may be read by a program that knows other places: a visit of a place
//! that is not among the usual ones is kept and counts nowhere.

use super::ids::GapId;

/// What came of looking at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// There is a gap, and the ledger has it.
    Found,
    /// Somebody looked, and there is none.
    Nothing,
    /// Nobody could get at it.
    NotReached,
}

impl Outcome {
    /// Every outcome, in the order offered.
    pub const ALL: [Self; 3] = [Self::Found, Self::Nothing, Self::NotReached];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::Nothing => "looked, nothing",
            Self::NotReached => "not reached",
        }
    }
}

/// What came of one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Visit {
    /// Word of the station.
    pub station: String,
    /// Word of the place.
    pub place: String,
    /// What came of it.
    pub outcome: Outcome,
    /// The gaps that were found there.
    pub gaps: Vec<GapId>,
}

impl Visit {
    /// Whether it is of this place.
    #[must_use]
    pub fn is_of(&self, station: &str, place: &str) -> bool {
        self.station == station && self.place == place
    }
}

/// How far the walk round has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Usual places.
    pub places: usize,
    /// Those where a gap was found.
    pub found: usize,
    /// Those where somebody looked and there was none.
    pub nothing: usize,
    /// Those that nobody could get at.
    pub not_reached: usize,
}

impl Progress {
    /// Places that somebody has looked at.
    #[must_use]
    pub fn looked(&self) -> usize {
        self.found + self.nothing
    }

    /// Places of which nothing was said yet.
    #[must_use]
    pub fn open(&self) -> usize {
        self.places - self.looked() - self.not_reached
    }

    /// Counts one more place.
    pub(super) fn count(&mut self, outcome: Option<Outcome>) {
        self.places += 1;
        match outcome {
            Some(Outcome::Found) => self.found += 1,
            Some(Outcome::Nothing) => self.nothing += 1,
            Some(Outcome::NotReached) => self.not_reached += 1,
            None => {}
        }
    }
}
