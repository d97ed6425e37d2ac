//! The comparison once more, with the planned gaps sealed.

use super::answer::{AfterPlan, Comparison};
use super::compare_with;
use crate::assess::answer::Answer;
use crate::assess::law::laws;
use crate::assess::sealing::{Sealable, after, ticked};
use crate::survey::Survey;
use crate::survey::findings::find;

/// What the options come to once the planned gaps are sealed; `None` while none is planned.
pub(super) fn after_plan(survey: &Survey) -> Option<AfterPlan> {
    let (sealables, _) = ticked(survey);
    if sealables.is_empty() {
        return None;
    }
    Some(AfterPlan {
        gaps: sealables.iter().map(Sealable::gap).collect(),
        comparison: comparison(survey, &sealables).map(Box::new),
    })
}

fn comparison(survey: &Survey, sealables: &[Sealable]) -> Answer<Comparison> {
    let done = after(survey, sealables)?;
    let findings = find(&done);
    compare_with(&done, &findings, &laws(&done, &findings))
}
