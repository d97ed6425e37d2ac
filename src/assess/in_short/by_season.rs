//! What an owner does first, by the winter where one was run, by the weather cases where none was: never
//! by both.

use super::{First, Pick, pick};
use crate::assess::answer::Answer;
use crate::assess::drying::{Comparison, OptionKind};
use crate::assess::study::Study;
use crate::assess::winter::{Throughout, compared};
use std::borrow::Cow;

/// The options and the gaps to seal first, by one and the same season.
pub struct BySeason<'a> {
    comparison: Cow<'a, Answer<Comparison>>,
    first: Cow<'a, Answer<Option<First>>>,
}

impl<'a> BySeason<'a> {
    /// Those of a study: by the weather cases too where the winter that was run is not known.
    #[must_use]
    pub fn of(study: &'a Study) -> Self {
        let by_cases = Self {
            comparison: Cow::Borrowed(study.comparison()),
            first: Cow::Borrowed(study.first()),
        };
        let run = study.winter().and_then(|run| run.as_ref().ok());
        let (Some(run), Ok(comparison)) = (run, study.comparison()) else {
            return by_cases;
        };
        Self {
            comparison: Cow::Owned(Ok(compared(comparison, run))),
            first: by_winter(study, study.first()),
        }
    }

    /// The options.
    pub fn comparison(&self) -> &Answer<Comparison> {
        &self.comparison
    }

    /// The gaps to seal first, with the options once they are sealed.
    pub fn first(&self) -> &Answer<Option<First>> {
        &self.first
    }
}

/// The gaps to seal first with the options of the winter that was run with those sealed.
fn by_winter<'a>(
    study: &'a Study,
    first: &'a Answer<Option<First>>,
) -> Cow<'a, Answer<Option<First>>> {
    let Ok(Some(known)) = first else {
        return Cow::Borrowed(first);
    };
    let then = study.with_first().and_then(Result::ok);
    let run = then.and_then(Study::winter);
    let comparison = match (run, &known.comparison) {
        (Some(run), Ok(comparison)) => run
            .as_ref()
            .map(|run| compared(comparison, run))
            .map_err(Clone::clone),
        (None, Ok(_)) => Err(crate::assess::NotKnown::because(
            "the winter was not run with those sealed",
        )),
        (_, Err(unknown)) => Err(unknown.clone()),
    };
    Cow::Owned(Ok(Some(First {
        comparison,
        ..known.clone()
    })))
}

/// The options, by their index, that have to be run through a winter once the first gaps are sealed:
/// to do nothing, and the one that is taken or comes nearest to it.
#[must_use]
pub fn told_sealed(comparison: &Comparison, run: &Throughout) -> Vec<usize> {
    let options = comparison.options.iter();
    let mut all: Vec<usize> = options
        .enumerate()
        .filter(|(_, option)| option.kind == OptionKind::Nothing)
        .map(|(at, _)| at)
        .collect();
    if let Pick::Take(at) | Pick::NoneSuffices(Some(at)) = pick(&compared(comparison, run)) {
        all.push(at);
    }
    all
}
