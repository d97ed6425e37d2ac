//! Work that follows other work.

use super::Answers;
use super::asked::{Revised, Wanted};
use crate::window::page::Page;
use std::sync::Arc;

impl Answers {
    /// The draws of a winter follow it on its own page; those of an older survey are given up.
    pub(super) fn follow_bands(
        &mut self,
        of: &Arc<Revised>,
        page: Page,
        any: Wanted,
        sentences: &mut Vec<String>,
    ) {
        let run = self.winter();
        let ready = run.is_some_and(|run| run.revision == of.revision && run.answer.is_ok());
        let job = &mut self.winter_bands_job;
        if !ready {
            if job.asked.take().is_some() {
                job.task.forget();
            }
        } else if page == Page::Winter {
            job.want(of, any, sentences);
        }
    }
}
