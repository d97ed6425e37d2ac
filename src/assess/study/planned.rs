//! The study of what is planned.

use super::Study;
use crate::assess::answer::Answer;
use crate::assess::sealing::marked_planned;

impl Study {
    /// A study of the survey with the planned gaps sealed; `None` while none is planned.
    pub fn planned(&self) -> Option<Answer<&Self>> {
        let (sealables, _) = marked_planned(&self.survey);
        (!sealables.is_empty()).then(|| self.as_planned())
    }
}
