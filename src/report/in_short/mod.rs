//! The owner's answer on one page, in words a neighbour understands: what is wrong, what to buy, what
//! to seal, what never to close, and how sure all of it is. Every result is one of the other
//! sections', told without the trade's units; each line says which page has more of it.

mod buy;
mod leak;
mod page;
mod pictures;
mod seal;
mod stay_open;
mod sure;
mod winter;

use super::Material;
use crate::assess::Mark;
use crate::assess::words::sentence;
use crate::survey::{Finding, Severity};

pub use page::{InShort, Leads, Line, Part, Picture};
pub use pictures::scene;

/// What is said of a survey in short.
#[must_use]
pub fn in_short(material: &Material<'_>) -> InShort {
    let first = material.study.first();
    let headline = [
        Some(leak::headline(material)),
        buy::headline(material),
        seal::headline(first),
    ];
    let parts = [
        dangers(material),
        Some(leak::part(material)),
        Some(buy::part(material, first)),
        winter::part(material),
        Some(seal::part(material, first)),
        Some(stay_open::part(material)),
        Some(sure::part(material)),
    ];
    InShort {
        headline: headline.into_iter().flatten().collect(),
        parts: parts.into_iter().flatten().collect(),
    }
}

/// Dangers told one by one; of more the rest is counted.
const DANGERS: usize = 2;

/// What could hurt somebody, before anything else.
fn dangers(material: &Material<'_>) -> Option<Part> {
    let findings = &material.assessment.findings;
    let all: Vec<&Finding> = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Danger)
        .collect();
    let mut part = Part::new(String::new());
    for finding in all.iter().take(DANGERS) {
        let words = format!(
            "{} {}",
            sentence(&finding.sentence),
            sentence(&finding.advice)
        );
        part.grave(Mark::without(words.trim()), Leads::Place(finding.place));
    }
    let more = all.len().saturating_sub(DANGERS);
    if let Some(next) = all.get(DANGERS) {
        part.grave(
            format!("{more} more stand in the list of findings."),
            Leads::Place(next.place),
        );
    }
    (!part.lines.is_empty()).then_some(part)
}
