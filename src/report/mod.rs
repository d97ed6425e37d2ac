//! What is said about a survey, in order, once.
//!
//! A [`Section`] is made of sentences, tables, facts and cautions; every number in it went through
//! [`Kind`](crate::assess::quantity::Kind) already. The text page prints sections, the paper sets
//! them, the window draws them: none of them words a result of its own. Nothing here knows a
//! toolkit or a typesetter.

pub mod blocks;
pub mod cases;
pub(crate) mod completion;
pub(crate) mod costs;
pub mod dependence;
pub mod direction;
pub(crate) mod drying;
pub(crate) mod findings;
pub mod flows;
pub mod headlines;
pub mod key_results;
pub mod leakage;
pub(crate) mod ledger;
pub(crate) mod measured;
pub(crate) mod safety;
pub(crate) mod sealing;
pub(crate) mod summary;
pub mod uncertainty;
pub(crate) mod vehicle;
pub mod words;
pub mod workings;

pub use blocks::{Align, Block, Column, Fact, Photo, Reasons, Row, RowKind, Section, Table};

use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, Assessment, Comparison};
use crate::survey::Survey;

/// What is told of: a survey and its answers.
#[derive(Clone, Copy)]
pub struct Material<'a> {
    /// The survey.
    pub survey: &'a Survey,
    /// Its answers.
    pub assessment: &'a Assessment,
    /// The options of drying and heating.
    pub comparison: &'a Answer<Comparison>,
    /// How sure the answers are, where it was worked out; once work is done, of
    /// [`after_the_work`].
    pub uncertainty: Option<&'a Uncertainty>,
    /// The same for [`before_the_work`].
    pub uncertainty_before: Option<&'a Uncertainty>,
}

pub use completion::{after_the_work, before_the_work};
