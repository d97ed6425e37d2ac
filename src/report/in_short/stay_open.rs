//! What must never be closed.

use super::page::{Leads, Part, Picture};
use crate::assess::cautions;
use crate::assess::safety::words::defer;
use crate::assess::words::capital;
use crate::assess::{Mark, SafetyVerdict};
use crate::report::Material;
use crate::report::sealing::{NONE_PROTECTS, protecting};
use crate::survey::leave::{self, Refusal};
use crate::survey::{Gap, GapPart, Item, Place, Purpose, number};

/// What an opening is for, and what would happen to whoever closes it.
fn why(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::ProtectsPeople(Purpose::SafetyVentilation) => {
            "fresh air for the people inside comes and goes there"
        }
        Refusal::ProtectsPeople(Purpose::ApplianceAir) => {
            "a flame or the refrigerator breathes there; closed, it makes carbon monoxide"
        }
        Refusal::ProtectsPeople(Purpose::GasDropOut) | Refusal::DropOut => {
            "gas that leaks must be able to fall out there"
        }
        Refusal::NeverClosed(GapPart::Flue) => "exhaust gas goes out there",
        Refusal::NeverClosed(GapPart::BatteryVent) => "gas from the battery must get out there",
        _ => "what smells or burns must get out there",
    }
}

/// The openings by what they are for, those that may be such, and how the fixed ventilation stands.
pub(super) fn part(material: &Material<'_>) -> Part {
    let survey = material.survey;
    let mut part = Part::new("Never close these");
    let mut groups: Vec<(&'static str, Vec<&Gap>)> = Vec::new();
    for (gap, refusal) in protecting(survey) {
        let words = why(refusal);
        match groups.iter_mut().find(|(other, _)| *other == words) {
            Some((_, gaps)) => gaps.push(gap),
            None => groups.push((words, vec![gap])),
        }
    }
    if groups.is_empty() {
        part.line(NONE_PROTECTS, Leads::Gaps);
    } else {
        part.picture = Some(Picture::StayOpen);
    }
    for (words, gaps) in groups {
        part.line(
            format!("✖ {}: {words}.", capital(&numbered(&gaps))),
            lead(&gaps),
        );
    }
    let unsure: Vec<&Gap> = survey
        .gaps
        .iter()
        .filter(|gap| {
            let why = leave::leave(survey, gap).err();
            why.is_some_and(|why| why.may_protect())
        })
        .collect();
    if !unsure.is_empty() {
        part.line(
            format!(
                "▲ Look before anybody closes {}: what is there may protect people.",
                numbered(&unsure)
            ),
            lead(&unsure),
        );
    }
    ventilation(&mut part, &material.assessment.safety.verdict);
    part.line(cautions::TRADES, Leads::Place(SAFETY));
    part
}

const SAFETY: Place = Place {
    item: Item::SafetyVentilation,
    field: None,
};

fn numbered(gaps: &[&Gap]) -> String {
    let ids: Vec<String> = gaps.iter().map(|gap| gap.id.to_string()).collect();
    number::gaps(&ids)
}

fn lead(gaps: &[&Gap]) -> Leads {
    gaps.first().map_or(Leads::Gaps, |gap| {
        Leads::Place(Place::whole(Item::Gap(gap.id)))
    })
}

/// How the fixed ventilation stands against its minimum.
fn ventilation(part: &mut Part, verdict: &SafetyVerdict) {
    let words = format!("Fixed ventilation: {}.", verdict.sentence());
    let words = Mark::without(&words);
    match verdict {
        SafetyVerdict::Meets => part.line(words, Leads::Place(SAFETY)),
        // What to do about it stands first on the page, among what could hurt.
        SafetyVerdict::Below { .. } => part.line(format!("▲ {words}"), Leads::Place(SAFETY)),
        SafetyVerdict::NotKnown(_) => {
            part.line(format!("▲ {words} {}", defer()), Leads::Place(SAFETY));
        }
    }
}
