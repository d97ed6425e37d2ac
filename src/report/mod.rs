//! What is said about a survey, in order, once.
//!
//! A [`Section`] is made of sentences, tables, facts and cautions; every number in it went through
//! [`Kind`](crate::assess::quantity::Kind) already. The text page prints sections, the paper sets
//! them, the window draws them: none of them words a result of its own. Nothing here knows a
//! toolkit or a typesetter.

pub(crate) mod bill;
pub mod blocks;
pub(crate) mod carried_out;
pub mod cases;
pub(crate) mod completion;
pub(crate) mod costs;
pub mod dependence;
pub mod direction;
pub(crate) mod drying;
pub(crate) mod findings;
pub mod flows;
pub mod guide;
pub mod headlines;
pub mod in_short;
pub mod key_results;
pub mod leakage;
pub(crate) mod ledger;
pub mod measured;
pub mod missing;
mod owners;
pub(crate) mod papers;
pub mod results;
pub(crate) mod safety;
pub(crate) mod sealing;
pub(crate) mod series;
pub mod shown;
pub(crate) mod summary;
pub(crate) mod tested;
pub mod uncertainty;
pub mod usual;
pub(crate) mod vehicle;
pub mod walk;
pub mod winter;
pub mod winter_short;
pub mod words;
pub mod workings;

pub use blocks::{Align, Block, Column, Fact, Photo, Reasons, Row, RowKind, Section, Table};

use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, Assessment, Comparison, Study};
use crate::survey::Survey;

/// What is told of: a survey and its answers.
#[derive(Clone, Copy)]
pub struct Material<'a> {
    /// The study that the rest comes from, for what takes longer: the work, before and after.
    pub study: &'a Study,
    /// The survey.
    pub survey: &'a Survey,
    /// Its answers.
    pub assessment: &'a Assessment,
    /// The options of drying and heating.
    pub comparison: &'a Answer<Comparison>,
    /// How sure the answers are, where it was worked out; once work is done, of
    /// [`Study::after_work`].
    pub uncertainty: Option<&'a Uncertainty>,
    /// The same for [`Study::before_work`].
    pub uncertainty_before: Option<&'a Uncertainty>,
}

impl<'a> Material<'a> {
    /// All of a study, worked out as far as it is not yet; the draws where somebody made them.
    #[must_use]
    pub fn of(study: &'a Study) -> Self {
        Self {
            study,
            survey: study.survey(),
            assessment: study.assessment(),
            comparison: study.comparison(),
            uncertainty: drawn(study),
            uncertainty_before: None,
        }
    }

    /// The same where the work is told that is done, before and after.
    #[must_use]
    pub fn of_done_work(study: &'a Study) -> Self {
        Self {
            uncertainty: drawn(study.after_work()),
            uncertainty_before: drawn(study.before_work()),
            ..Self::of(study)
        }
    }
}

fn drawn(study: &Study) -> Option<&Uncertainty> {
    study.uncertainty()?.as_ref().ok()
}
