//! The comparison once more, with the planned gaps sealed.

use super::answer::AfterPlan;
use crate::assess::study::Study;

/// What the options come to once the planned gaps are sealed; `None` while none is planned.
pub(super) fn after_plan(study: &Study) -> Option<AfterPlan> {
    let gaps = study.ticked_gaps();
    (!gaps.is_empty()).then(|| AfterPlan {
        gaps,
        comparison: study
            .ticked_done()
            .and_then(|done| done.comparison().clone().map(Box::new)),
    })
}
