//! What is asked of the workers.

use crate::assess::measured::Odd;
use crate::assess::sealing::Aim;
use crate::assess::{Answer, Study};
use crate::figure::trial::Lines;
use crate::survey::{Finding, SeriesId, Survey, TrialId};
use crate::tasks::{self, Shelf, Watch};
use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

/// What the Sealing plan page asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// What to save most of.
    pub aim: Aim,
    /// Money to spend at most, where a budget is named.
    pub budget: Option<f64>,
}

/// Where loggers' files are looked for, and what was read of them already.
#[derive(Clone, Debug, Default)]
pub(super) struct Data {
    pub(super) folders: Vec<PathBuf>,
    pub(super) shelf: Arc<Shelf>,
}

/// The lines of each trial, or why there are none.
pub(super) type TrialLines = Vec<(TrialId, Answer<Arc<Lines>>)>;

/// The study of one revision of the survey.
pub struct Revised {
    /// Revision of the survey.
    pub revision: u64,
    /// The study of it.
    pub study: Study,
    /// The folder of the survey's file, where its weather file stands.
    pub folder: Option<PathBuf>,
    /// Where loggers' files are, and what was read of them.
    pub(super) data: Data,
    /// The lines of its trials, once they were made.
    pub(super) lines: OnceLock<TrialLines>,
    /// Odd readings of its loggers, once they were looked for.
    pub(super) odd: OnceLock<Vec<(SeriesId, Vec<Odd>)>>,
    /// What is the matter with its loggers' files, once that was looked for.
    pub(super) files: OnceLock<Vec<Finding>>,
    /// What sheets cannot print of it, once that was looked for.
    pub(super) unprintable: OnceLock<Vec<Finding>>,
}

impl Revised {
    /// Has the trials worked out in the study, from the loggers' files; `watch` may give it up.
    pub fn try_trials(&self, watch: &impl Watch) {
        let data = &self.data;
        tasks::tried(
            &self.study,
            &data.folders,
            self.folder.as_deref(),
            &data.shelf,
            watch,
        );
    }

    /// The lines of a trial, or why there are none; `None` where its files were not read yet.
    pub fn trial_lines(&self, id: TrialId) -> Option<Answer<Arc<Lines>>> {
        let mut lines = self.lines.get()?.iter();
        let (_, answer) = lines.find(|(trial, _)| *trial == id)?;
        Some(answer.clone())
    }

    /// Where the weather file of its survey is looked for.
    pub fn weather_places(&self) -> Vec<PathBuf> {
        tasks::weather_places(&self.data.folders, self.folder.as_deref())
    }

    pub(super) fn new(
        revision: u64,
        survey: &Arc<Survey>,
        folder: Option<PathBuf>,
        data: Data,
    ) -> Self {
        Self {
            data,
            lines: OnceLock::new(),
            odd: OnceLock::new(),
            files: OnceLock::new(),
            revision,
            study: Study::new(Arc::clone(survey)),
            folder,
            unprintable: OnceLock::new(),
        }
    }
}

/// What a task is given, and what it says is there.
#[derive(Clone)]
pub(super) struct Asked {
    pub(super) of: Arc<Revised>,
    pub(super) wanted: Wanted,
}
