//! What the wish of a study asks for.

use super::{Best, Study};
use crate::assess::answer::Answer;
use crate::assess::sealing::{Aim, Watch, usual_aim};
use std::sync::Arc;

impl Study {
    /// What the work of the study saves most of.
    ///
    /// # Errors
    /// [`NotKnown`](crate::assess::NotKnown) where the air change itself is not.
    pub fn work_aim(&self) -> Answer<Aim> {
        let prospect = self.prospect()?;
        Ok(self.wish.aim.unwrap_or_else(|| usual_aim(prospect)))
    }

    /// The best set for the sum that was wished, as a plan; `None` where none was, the aim is not
    /// known, or `watch` gave it up.
    pub fn best_wished(&self, watch: Watch<'_>) -> Option<Arc<Best>> {
        let (budget, aim) = (self.wish.budget?, self.work_aim().ok()?);
        self.best(aim, budget, watch)
    }
}
