//! Why an edit is refused, in plain sentences.

use super::record::RecordId;
use crate::survey::ids::{GapId, SpaceId, ZoneId};
use crate::survey::kept_safe::NotToBeClosed;

/// Why an edit was not made. The survey is unchanged.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditRefused {
    /// Removing a zone that still holds gaps.
    #[error(
        "zone \u{201c}{name}\u{201d} still holds {gaps} gap(s): move them to another zone first, then remove it"
    )]
    ZoneHoldsGaps {
        /// Name of the zone.
        name: String,
        /// How many gaps it holds.
        gaps: usize,
    },
    /// Removing a gap that others lie behind.
    #[error(
        "gap {gap} cannot be removed while gap {behind} lies behind it: change what gap {behind} lies behind first"
    )]
    GapInFront {
        /// The outer gap.
        gap: GapId,
        /// The first gap behind it.
        behind: GapId,
    },
    /// A gap put into a zone that does not exist.
    #[error("gap {gap} names zone {zone}, which does not exist: choose one of the zones listed")]
    NoSuchZone {
        /// The gap.
        gap: GapId,
        /// The zone it names.
        zone: ZoneId,
    },
    /// Bringing a gap into a state that would close what must stay open, or what nobody has said
    /// or looked at.
    #[error(transparent)]
    NotToBeClosed(#[from] NotToBeClosed),
    /// Removing a space that something still names.
    #[error("space {space} cannot be removed while {what} names it: give that another space first")]
    SpaceInUse {
        /// The space.
        space: SpaceId,
        /// What names it.
        what: String,
    },
    /// A list longer than any file holds.
    #[error("a survey holds at most {most} {what}: take some out first, or begin another survey")]
    TooMany {
        /// What the list is of.
        what: &'static str,
        /// How many it may hold.
        most: usize,
    },
    /// Moving a gap that does not exist, or in front of one.
    #[error("gap {gap} is not in the survey")]
    NoSuchGap {
        /// The gap.
        gap: GapId,
    },
    /// Saying that a place has no gap, or was not reached, while the ledger holds one of it.
    #[error("gap {gap} was found there: delete it first, if it is none")]
    GapFoundThere {
        /// The gap.
        gap: GapId,
    },
    /// Removing a fan test, and with it the word that something is still covered.
    #[error(
        "the fan test cannot be removed while {what} is still covered for it: uncover it and tick that first"
    )]
    StillCovered {
        /// The first opening that is.
        what: String,
    },
    /// Removing a logger's readings that a trial stands on.
    #[error(
        "these readings cannot be removed while {trial} stands on them: choose others there first"
    )]
    SeriesInUse {
        /// The trial, in words.
        trial: String,
    },
    /// Taking an opening from the list of what was covered, while it is covered.
    #[error(
        "{what} cannot be taken from the list while it is still covered: uncover it and tick that first"
    )]
    CoverForgotten {
        /// The first opening that is.
        what: String,
    },
    /// Removing what is not there.
    #[error("there is nothing to remove: {0:?} is not in the survey")]
    NothingToRemove(RecordId),
}
