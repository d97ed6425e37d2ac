//! What is asked of the workers.

use crate::assess::Study;
use crate::assess::sealing::Aim;
use crate::survey::{Finding, Survey};
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

/// The study of one revision of the survey.
pub struct Revised {
    /// Revision of the survey.
    pub revision: u64,
    /// The study of it.
    pub study: Study,
    /// The folder of the survey's file, where its weather file stands.
    pub folder: Option<PathBuf>,
    /// What sheets cannot print of it, once that was looked for.
    pub(super) unprintable: OnceLock<Vec<Finding>>,
}

impl Revised {
    pub(super) fn new(revision: u64, survey: &Arc<Survey>, folder: Option<PathBuf>) -> Self {
        Self {
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
