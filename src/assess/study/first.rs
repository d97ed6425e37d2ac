//! The gaps to seal first, worked out by sealing them.

use super::{Part, Study};
use crate::assess::answer::Answer;
use crate::assess::drying;
use crate::assess::in_short::{First, first_gaps};
use crate::assess::sealing::after;

impl Study {
    /// The gaps to seal first, worked out with those sealed; `None` where nothing is to be sealed,
    /// not known where the air change itself is not.
    pub fn first(&self) -> &Answer<Option<First>> {
        self.once(&self.kept.first, Part::First, || {
            let work = self.work().as_ref().map_err(Clone::clone)?;
            let gaps = first_gaps(work);
            if gaps.is_empty() {
                return Ok(None);
            }
            let done = self.with_survey(after(&self.survey, &gaps)?);
            let plan = self.plan_with(&done, &gaps)?;
            let (survey, prepared) = (&done.survey, done.prepared());
            Ok(Some(First {
                chosen: work.chosen,
                more: work.steps.len().saturating_sub(gaps.len()),
                comparison: drying::as_it_stands(survey, prepared, &done.assessment().cases),
                plan,
                gaps,
            }))
        })
    }
}
