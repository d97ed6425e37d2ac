//! The owner's answer on one page, in words a neighbour understands: what is wrong, what to buy, what
//! to seal, what never to close, and how sure all of it is. Every result is one of the other
//! sections', told without the trade's units; each line says which page has more of it.

mod buy;
mod leak;
mod page;
mod pictures;
mod seal;
mod season;
mod stay_open;
mod sure;
mod tried;
mod winter;

#[cfg(test)]
mod tests;

use super::Material;
use super::measured::contradicted as contradicted_by;
use crate::assess::Mark;
use crate::assess::in_short::BySeason;
use crate::assess::words::sentence;
use crate::survey::{Finding, Item, Severity};

pub use page::{InShort, Leads, Line, Part, Picture, Room};
pub use pictures::scene;

/// What is said of a survey in short.
#[must_use]
pub fn in_short(material: &Material<'_>) -> InShort {
    in_short_within(material, Room::ENOUGH)
}

/// The same where there is only so much room.
#[must_use]
pub fn in_short_within(material: &Material<'_>, room: Room) -> InShort {
    let season = BySeason::of(material.study);
    let material = &by_season(material, &season);
    let first = season.first();
    let headline = [
        contradicted(material),
        Some(leak::headline(material)),
        leak::not_looked(material),
        leak::damp(material),
        leak::without_people(material),
        buy::headline(material),
        seal::headline(material, first),
    ];
    let parts = [
        dangers(material),
        Some(leak::part(material)),
        Some(buy::part(material, first, room)),
        Some(seal::part(material, first, room)),
        Some(stay_open::part(material, is_told_first(material), room)),
        Some(sure::part(material, room)),
    ];
    InShort {
        headline: headline.into_iter().flatten().collect(),
        parts: parts.into_iter().flatten().collect(),
    }
}

/// Measurements that contradict the survey or each other, before anything that rests on them.
fn contradicted(material: &Material<'_>) -> Option<Line> {
    let against = contradicted_by(material.study)?;
    Some(Line::new(format!("▲ {against}."), Leads::Measurements))
}

/// The same with the options by the season that is told.
fn by_season<'a>(material: &Material<'a>, season: &'a BySeason<'_>) -> Material<'a> {
    Material {
        comparison: season.comparison(),
        ..*material
    }
}

/// Dangers told one by one; of more the rest is counted.
const DANGERS: usize = 2;

/// Whether the fixed ventilation is among the dangers that are told one by one.
fn is_told_first(material: &Material<'_>) -> bool {
    let mut told = grave(material).into_iter().take(DANGERS);
    told.any(|finding| finding.place.item == Item::SafetyVentilation)
}

fn grave<'a>(material: &Material<'a>) -> Vec<&'a Finding> {
    let findings = material.assessment.findings.iter();
    findings
        .filter(|finding| finding.severity == Severity::Danger)
        .collect()
}

/// What could hurt somebody, before anything else.
fn dangers(material: &Material<'_>) -> Option<Part> {
    let all = grave(material);
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
        let stand = if more == 1 { "stands" } else { "stand" };
        part.grave(
            format!("{more} more {stand} in the list of findings."),
            Leads::Place(next.place),
        );
    }
    (!part.lines.is_empty()).then_some(part)
}
