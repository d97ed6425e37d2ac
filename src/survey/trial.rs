//! A trial: one way of keeping dry after another, while loggers read inside and outside.

use super::ids::{HeaterId, MachineId, PeriodId, SeriesId, TrialId};
use super::moment::Moment;

/// Where the outside air of a trial is from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum OutsideFrom {
    /// A logger that hung outside.
    #[default]
    Logger,
    /// The weather file of the survey.
    WeatherFile,
    /// The weather cases of the survey, which are the same every day.
    Cases,
}

impl OutsideFrom {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::Logger, Self::WeatherFile, Self::Cases];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Logger => "a logger outside",
            Self::WeatherFile => "the weather file",
            Self::Cases => "the weather cases",
        }
    }
}

/// What kind of thing ran through a period.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Ran {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// Nothing.
    Nothing,
    /// The drying machine, the heater, or both, that the period names.
    Equipment,
    /// What the words of the period say.
    Other,
}

impl Ran {
    /// All, in the order offered.
    pub const ALL: [Self; 4] = [Self::NotSaid, Self::Nothing, Self::Equipment, Self::Other];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotSaid => "not said",
            Self::Nothing => "nothing",
            Self::Equipment => "equipment of the survey",
            Self::Other => "something else",
        }
    }
}

/// How the vents that close stood through a period.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Vents {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// Open.
    Open,
    /// Closed.
    Closed,
}

impl Vents {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::NotSaid, Self::Open, Self::Closed];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotSaid => "not said",
            Self::Open => "open",
            Self::Closed => "closed",
        }
    }
}

/// A stretch of a trial through which one thing ran.
#[derive(Clone, Debug, PartialEq)]
pub struct Period {
    /// Its number within the trial.
    pub id: PeriodId,
    /// From.
    pub from: Option<Moment>,
    /// To.
    pub to: Option<Moment>,
    /// What ran.
    pub ran: Ran,
    /// The machine that ran.
    pub machine: Option<MachineId>,
    /// The heater that ran.
    pub heater: Option<HeaterId>,
    /// What ran, in words.
    pub words: String,
    /// Water collected, kg.
    pub water_kg: Option<f64>,
    /// Electricity by the meter, kWh.
    pub used_kwh: Option<f64>,
    /// How the vents that close stood.
    pub vents: Vents,
    /// People inside, on average.
    pub people: Option<f64>,
    /// Free words.
    pub note: String,
}

impl Period {
    /// A period of which nothing is known but when it was.
    #[must_use]
    pub fn new(id: PeriodId, from: Option<Moment>, to: Option<Moment>) -> Self {
        Self {
            id,
            from,
            to,
            ran: Ran::NotSaid,
            machine: None,
            heater: None,
            words: String::new(),
            water_kg: None,
            used_kwh: None,
            vents: Vents::NotSaid,
            people: None,
            note: String::new(),
        }
    }

    /// From and to, where both are known and in order, s on the clock of the place.
    #[must_use]
    pub fn span_s(&self) -> Option<(i64, i64)> {
        let (from, to) = (self.from?.seconds(), self.to?.seconds());
        (from < to).then_some((from, to))
    }

    /// Whether the same ran in both.
    #[must_use]
    pub fn ran_the_same(&self, other: &Self) -> bool {
        self.ran == other.ran
            && match self.ran {
                Ran::NotSaid => false,
                Ran::Nothing => true,
                Ran::Equipment => (self.machine, self.heater) == (other.machine, other.heater),
                Ran::Other => self.words.trim() == other.words.trim(),
            }
    }
}

/// A trial.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// Its number.
    pub id: TrialId,
    /// The user's name for it.
    pub name: String,
    /// The logger inside.
    pub inside: Option<SeriesId>,
    /// Where the outside air is from.
    pub outside_from: OutsideFrom,
    /// The logger outside, where it is from one.
    pub outside: Option<SeriesId>,
    /// Hours by which the clock of the periods is ahead of universal time; needed only where a
    /// logger's times have a zone.
    pub clock_ahead_h: Option<f64>,
    /// The period that the others are held against; `None`: the first in which nothing ran.
    pub reference: Option<PeriodId>,
    /// The periods.
    pub periods: Vec<Period>,
    /// Free words.
    pub note: String,
}

impl Trial {
    /// A trial of which nothing is known yet.
    #[must_use]
    pub fn new(id: TrialId) -> Self {
        Self {
            id,
            name: String::new(),
            inside: None,
            outside_from: OutsideFrom::Logger,
            outside: None,
            clock_ahead_h: None,
            reference: None,
            periods: Vec::new(),
            note: String::new(),
        }
    }

    /// The period that the others are held against.
    #[must_use]
    pub fn reference_period(&self) -> Option<&Period> {
        let mut periods = self.periods.iter();
        match self.reference {
            Some(id) => periods.find(|period| period.id == id),
            None => periods.find(|period| period.ran == Ran::Nothing),
        }
    }

    /// An id no period has yet.
    #[must_use]
    pub fn free_period_id(&self) -> PeriodId {
        let highest = self.periods.iter().map(|period| period.id.0).max();
        PeriodId(highest.map_or(1, |highest| highest.saturating_add(1)))
    }
}
