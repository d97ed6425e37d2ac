//! What a page gets to see.
//!
//! A page draws from a [`PageContext`] and never changes the survey: whatever the user does
//! becomes a request in the [`Queue`], and the queue runs at the start of the next frame.

use super::answers::{Answers, Results};
use super::marks::Marks;
use super::photos::Photos;
use super::request::Queue;
use super::typesetting::Typesetting;
use crate::report::Material;
use crate::survey::{GapId, Item, Place, Survey};

/// Everything a page draws from; `View` is what that page remembers between frames.
pub struct PageContext<'a, View> {
    /// The survey as it is now.
    pub survey: &'a Survey,
    /// The survey's revision: equal revisions are equal surveys.
    pub revision: u64,
    /// The newest results; possibly of an older revision while new ones are worked out.
    pub results: Option<&'a Results>,
    /// What takes longer: how sure the results are, and what to seal.
    pub answers: &'a Answers,
    /// Job sheets being set.
    pub sheets: &'a Typesetting,
    /// Where everything the user does goes.
    pub queue: &'a mut Queue,
    /// What the page remembers between frames.
    pub view: &'a mut View,
    /// The gap that is selected on the Gaps page.
    pub selected: Option<GapId>,
    /// A place to show and focus in this frame.
    pub wanted: Option<Place>,
    /// The photos of the survey, as pictures.
    pub photos: &'a mut Photos,
}

impl<'a, View> PageContext<'a, View> {
    /// Survey and answers, for the report to tell of; intervals only while they are those of the
    /// survey as it is.
    #[must_use]
    pub fn told(&self) -> Option<Material<'a>> {
        let results = self.results?;
        let uncertainty = self.answers.uncertainty(self.revision);
        Some(Material {
            study: results.study(),
            survey: self.survey,
            assessment: results.assessment(),
            comparison: results.comparison(),
            uncertainty: uncertainty.and_then(|found| found.as_ref().ok()),
            uncertainty_before: None,
        })
    }

    /// The findings about one item, for its fields to show.
    #[must_use]
    pub fn marks(&self, item: Item) -> Marks<'a> {
        Marks {
            findings: self
                .results
                .map_or(&[], |results| results.findings.as_slice()),
            item,
            wanted: self.wanted,
        }
    }
}
