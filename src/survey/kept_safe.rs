//! What an edit may do to a gap, and what it leaves marked.

use super::Survey;
use super::gap::{Gap, WorkState};
use super::ids::GapId;
use super::leave::{Refusal, may_become};

/// Why a gap did not get into a state.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("gap {gap} cannot be marked {}: {why}", .state.name())]
pub struct NotToBeClosed {
    /// The gap.
    pub gap: GapId,
    /// The state.
    pub state: WorkState,
    /// Why not.
    pub why: Refusal,
}

/// The gap as it may be put: an opening that protected people stays marked as changed by hand, and
/// none gets into a state that it may not have.
pub(super) fn kept_safe(survey: &Survey, mut gap: Gap) -> Result<Gap, NotToBeClosed> {
    let old = survey.gap(gap.id);
    if let Some(old) = old {
        (gap.purpose_was, gap.purpose_confirmed) = match old.purpose {
            _ if gap.purpose.must_stay_open() => (None, gap.purpose_confirmed),
            was if was.must_stay_open() => (Some(was), false),
            _ => (old.purpose_was, gap.purpose_confirmed),
        };
    }
    if old.is_none_or(|old| old.state != gap.state)
        && let Err(why) = may_become(survey, &gap, gap.state)
    {
        return Err(NotToBeClosed {
            gap: gap.id,
            state: gap.state,
            why,
        });
    }
    Ok(gap)
}
