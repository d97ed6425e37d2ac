//! Leave to seal a gap.

use super::cost::{self, Cost};
use super::library::{starting_leak_left_percent, starting_remedy};
use crate::assess::answer::Answer;
use crate::survey::leave::{self, Manner, Refusal, leave};
use crate::survey::{Gap, GapId, Remedy, RemedyKind, Survey, WorkState};

/// A gap that may be sealed, and how. It can be made by [`Sealable::of`] alone, which refuses
/// every gap that [`leave()`] does not give free.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealable {
    gap: GapId,
    remedy: Remedy,
    heed: Option<String>,
    for_electrician: bool,
    leak_left: f64,
    assumed: bool,
    cost: Answer<Cost>,
}

/// Why a gap stays as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StaysOpen {
    /// Nothing may be planned for it.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// It is sealed already.
    #[error("it is sealed already")]
    SealedAlready,
    /// The surveyor put it off.
    #[error("it is deferred")]
    Deferred,
    /// It has no size, so that nothing can be said about it.
    #[error("it is not sized")]
    NotSized,
    /// The remedy is none for such a part.
    #[error("{} is no remedy for it: {}", .kind.name(), .manner.heed().unwrap_or("choose another"))]
    RemedyUnsuited {
        /// The remedy that the surveyor named.
        kind: RemedyKind,
        /// How it is to be closed.
        manner: Manner,
    },
    /// The remedy leaves everything.
    #[error("its remedy would leave all of the leak")]
    RemedyLeavesAll,
    /// There is no such gap.
    #[error("there is no such gap")]
    NoSuchGap,
}

impl StaysOpen {
    /// Whether it protects people, or may do so as far as anybody has said.
    #[must_use]
    pub fn protects(self) -> bool {
        matches!(self, Self::Refused(why) if why.protects())
    }

    /// Whether it is work for a licensed fitter.
    #[must_use]
    pub fn is_for_fitter(self) -> bool {
        self == Self::Refused(Refusal::GasFitter)
    }
}

impl Sealable {
    /// Leave to seal a gap of a survey.
    ///
    /// # Errors
    /// [`StaysOpen`] where nothing may be planned for it, it is sealed already, its remedy does not
    /// suit it or would not help, or it is not there.
    pub fn of(survey: &Survey, id: GapId) -> Result<Self, StaysOpen> {
        let gap = survey.gap(id).ok_or(StaysOpen::NoSuchGap)?;
        let manner = leave(survey, gap)?;
        if gap.state == WorkState::Sealed {
            return Err(StaysOpen::SealedAlready);
        }
        let (remedy, assumed) = remedy_of(gap, manner);
        if !manner.takes(remedy.kind) {
            let kind = remedy.kind;
            return Err(StaysOpen::RemedyUnsuited { kind, manner });
        }
        let left = remedy
            .leak_left_percent
            .unwrap_or_else(|| starting_leak_left_percent(remedy.kind));
        if left >= 100.0 {
            return Err(StaysOpen::RemedyLeavesAll);
        }
        Ok(Self {
            gap: id,
            cost: cost::of(survey, gap, &remedy),
            heed: leave::heed(survey, gap, manner),
            for_electrician: leave::is_for_electrician(survey, gap),
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

    /// What whoever does the work must heed, whatever the remedy.
    #[must_use]
    pub fn heed(&self) -> Option<&str> {
        self.heed.as_deref()
    }

    /// Whether only an electrician may do it.
    #[must_use]
    pub fn is_for_electrician(&self) -> bool {
        self.for_electrician
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

/// The surveyor's remedy, completed from the starting library, and whether anything was added
/// that decides the saving.
fn remedy_of(gap: &Gap, manner: Manner) -> (Remedy, bool) {
    match &gap.remedy {
        Some(own) => (own.clone(), own.leak_left_percent.is_none()),
        None => (starting_remedy(manner, &gap.form), true),
    }
}
