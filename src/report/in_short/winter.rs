//! Frost and mould through the winter, where one was run: what the weather cases cannot tell. What an
//! option holds and costs is then the winter's too, so that no share is told twice.

use super::page::{Leads, Part};
use crate::assess::Answer;
use crate::assess::winter::Throughout;
use crate::report::winter_short;
use crate::survey::Survey;

/// Frost and mould, or why they are not known.
pub(super) fn lines(part: &mut Part, run: &Answer<Throughout>, survey: &Survey) {
    match run {
        Ok(run) => {
            for sentence in winter_short::without_options(run, survey) {
                part.line(sentence, Leads::Winter);
            }
        }
        Err(unknown) => part.line(
            format!(
                "Frost and mould through the winter are not known: {}.",
                unknown.reason.trim_end_matches('.')
            ),
            Leads::Winter,
        ),
    }
}
