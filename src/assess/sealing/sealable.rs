//! Leave to seal a gap.

use super::cost::{self, Cost};
use super::library::{starting_leak_left_percent, starting_remedy};
use crate::assess::answer::Answer;
use crate::survey::{Gap, GapId, LeadsTo, Purpose, Remedy, Survey, WorkState};

/// A gap that may be sealed, and how. It can be made by [`Sealable::of`] alone, which refuses
/// every opening that protects people.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealable {
    gap: GapId,
    remedy: Remedy,
    leak_left: f64,
    assumed: bool,
    cost: Answer<Cost>,
}

/// Why a gap stays as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StaysOpen {
    /// It protects people.
    #[error("{} must stay open: it protects the people inside", .0.name())]
    ProtectsPeople(Purpose),
    /// It leads into a compartment and leaks only through the gaps behind it.
    #[error("it leaks only through the gaps behind it: seal those")]
    Compartment,
    /// It is sealed already.
    #[error("it is sealed already")]
    SealedAlready,
    /// The surveyor put it off.
    #[error("it is deferred")]
    Deferred,
    /// It has no size, so that nothing can be said about it.
    #[error("it is not sized")]
    NotSized,
    /// The remedy leaves everything.
    #[error("its remedy would leave all of the leak")]
    RemedyLeavesAll,
    /// There is no such gap.
    #[error("there is no such gap")]
    NoSuchGap,
}

impl Sealable {
    /// Leave to seal a gap of a survey.
    ///
    /// # Errors
    /// [`StaysOpen`] where it protects people, is an outer opening of a compartment, is sealed
    /// already, would not be helped by its remedy, or is not there.
    pub fn of(survey: &Survey, id: GapId) -> Result<Self, StaysOpen> {
        let gap = survey.gap(id).ok_or(StaysOpen::NoSuchGap)?;
        may_be_sealed(gap)?;
        if gap.state == WorkState::Sealed {
            return Err(StaysOpen::SealedAlready);
        }
        let (remedy, assumed) = remedy_of(gap);
        let left = remedy
            .leak_left_percent
            .unwrap_or_else(|| starting_leak_left_percent(remedy.kind));
        if left >= 100.0 {
            return Err(StaysOpen::RemedyLeavesAll);
        }
        Ok(Self {
            gap: id,
            cost: cost::of(survey, gap, &remedy),
            leak_left: left / 100.0,
            remedy: Remedy {
                leak_left_percent: Some(left),
                ..remedy
            },
            assumed,
        })
    }

    /// The gap.
    #[must_use]
    pub fn gap(&self) -> GapId {
        self.gap
    }

    /// How it would be sealed, with what it leaves.
    #[must_use]
    pub fn remedy(&self) -> &Remedy {
        &self.remedy
    }

    /// Share of the leak that remains, 0…1.
    #[must_use]
    pub fn leak_left(&self) -> f64 {
        self.leak_left
    }

    /// Whether the remedy, or what it leaves, is this program's suggestion \[A\] rather than the
    /// surveyor's word.
    #[must_use]
    pub fn is_assumed(&self) -> bool {
        self.assumed
    }

    /// What it costs.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where a price or a size it needs is not.
    pub fn cost(&self) -> Answer<Cost> {
        self.cost.clone()
    }
}

/// Whether the kind of opening may be sealed at all.
pub(super) fn may_be_sealed(gap: &Gap) -> Result<(), StaysOpen> {
    if gap.purpose.must_stay_open() {
        Err(StaysOpen::ProtectsPeople(gap.purpose))
    } else if gap.leads_to == LeadsTo::Compartment {
        Err(StaysOpen::Compartment)
    } else {
        Ok(())
    }
}

/// The surveyor's remedy, completed from the starting library, and whether anything was added
/// that decides the saving.
fn remedy_of(gap: &Gap) -> (Remedy, bool) {
    match &gap.remedy {
        Some(own) => (own.clone(), own.leak_left_percent.is_none()),
        None => (starting_remedy(&gap.form), true),
    }
}
