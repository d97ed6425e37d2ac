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
            let Some(done) = self.with_first() else {
                return Ok(None);
            };
            let done = done?;
            let plan = self.plan_with(done, &gaps)?;
            let first = First {
                chosen: work.chosen,
                more: work.steps.len().saturating_sub(gaps.len()),
                comparison: drying::as_it_stands(
                    &done.survey,
                    done.prepared(),
                    &done.assessment().cases,
                ),
                plan,
                gaps,
            };
            Ok(Some(first).filter(First::is_worth_it))
        })
    }

    /// A study of the survey with the gaps sealed that come first; `None` where nothing is to be
    /// sealed.
    pub fn with_first(&self) -> Option<Answer<&Self>> {
        let done = self.kept.with_first.get_or_init(|| {
            let gaps = first_gaps(self.work().as_ref().ok()?);
            let done = || Ok(Box::new(self.with_survey(after(&self.survey, &gaps)?)));
            (!gaps.is_empty()).then(done)
        });
        let done = done.as_ref()?;
        Some(done.as_deref().map_err(Clone::clone))
    }
}
