//! Whether what was recorded is sound enough to work with.

use super::answer::{Answer, NotKnown};
use crate::survey::{Finding, Place, Severity};

/// Nothing, unless a finding about a place that matters is an error.
///
/// # Errors
/// [`NotKnown`] with the sentence of the first error.
pub(crate) fn sound(findings: &[Finding], matters: impl Fn(&Place) -> bool) -> Answer<()> {
    let mut errors = findings
        .iter()
        .filter(|one| one.severity == Severity::Error);
    match errors.find(|error| matters(&error.place)) {
        Some(error) => Err(NotKnown::because(error.sentence.clone())),
        None => Ok(()),
    }
}
