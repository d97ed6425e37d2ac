//! Work that is done on one page alone, follows other work or makes room for the drawing; and what is
//! there of it.

use super::asked::{Revised, Wanted};
use super::{Answers, Dated};
use crate::assess::measured::Odd;
use crate::assess::winter::Throughout;
use crate::assess::{Answer, Part, Study};
use crate::figure::trial::Lines;
use crate::survey::{SeriesId, TrialId};
use crate::window::page::Page;
use std::path::PathBuf;
use std::sync::Arc;

impl Answers {
    /// Takes in what has come back and asks for nothing, while surveys follow each other with every
    /// frame. What is still worked out of an older one is given up, since it would take its time from
    /// the drawing; only results that are nearly there are waited for, as ever. The sentences say
    /// what went wrong.
    pub fn take_in(&mut self, revision: u64) -> Vec<String> {
        let mut sentences = Vec::new();
        self.collect(&mut sentences);
        let waited_for = self.assessing();
        let [results, longer @ ..] = self.jobs();
        for job in longer {
            job.give_up_older(revision);
        }
        if !waited_for {
            results.give_up_older(revision);
        }
        sentences
    }

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

    /// Loggers are read and trials worked out on their own page, of a survey that has any.
    pub(super) fn follow_trials(
        &mut self,
        of: &Arc<Revised>,
        page: Page,
        any: Wanted,
        sentences: &mut Vec<String>,
    ) {
        let survey = of.study.survey();
        let any_there = !(survey.trials.is_empty() && survey.series.is_empty());
        if page == Page::Measurements && any_there {
            self.trials_job.want(of, any, sentences);
        }
    }

    /// Says where loggers' files are looked for, for studies from now on.
    pub fn look_in(&mut self, folders: Vec<PathBuf>) {
        self.data.folders = folders;
    }

    /// The newest lines of a trial with their revision, possibly an older one.
    #[must_use]
    pub fn trial_lines(&self, id: TrialId) -> Option<Dated<&Answer<Arc<Lines>>>> {
        let of = &self.there(Part::Trials)?.of;
        let mut lines = of.lines.get()?.iter();
        let (_, answer) = lines.find(|(trial, _)| *trial == id)?;
        Some(Dated {
            revision: of.revision,
            answer,
        })
    }

    /// Odd readings of a logger; `None` where they were not looked for yet, or it could not be read.
    #[must_use]
    pub fn odd(&self, id: SeriesId) -> Option<&[Odd]> {
        let odd = self.there(Part::Trials)?.of.odd.get()?;
        let (_, odd) = odd.iter().find(|(of, _)| *of == id)?;
        Some(odd)
    }

    /// The newest study of which the lines of the trials are there, with its revision; what the trials
    /// say comes a moment later.
    #[must_use]
    pub fn tried(&self) -> Option<Dated<&Study>> {
        let of = &self.there(Part::Trials)?.of;
        Some(Dated {
            revision: of.revision,
            answer: &of.study,
        })
    }

    /// The newest winter that was run, and the revision of its survey, possibly an older one.
    #[must_use]
    pub fn winter(&self) -> Option<Dated<&Answer<Throughout>>> {
        let asked = self.there(Part::Winter)?;
        Some(Dated {
            revision: asked.of.revision,
            answer: asked.of.study.winter()?,
        })
    }

    /// The study that the newest winter was run on.
    #[must_use]
    pub fn winter_study(&self) -> Option<&Study> {
        Some(&self.there(Part::Winter)?.of.study)
    }
}
