//! What must never be closed.

use super::page::{Leads, Part, Picture, Room};
use crate::assess::cautions;
use crate::assess::safety::words::defer;
use crate::assess::words::{facing, listed};
use crate::assess::{Mark, SafetyVerdict};
use crate::report::Material;
use crate::report::sealing::{NONE_PROTECTS, protecting};
use crate::report::words::name;
use crate::survey::leave::{self, Refusal};
use crate::survey::{Facing, Gap, GapPart, Item, Place, Purpose, Survey};

/// What goes through an opening, and what would happen to whoever closes it: the words before its name
/// and those behind.
type Why = (&'static str, &'static str);

fn why(refusal: Refusal) -> Why {
    match refusal {
        Refusal::ProtectsPeople(Purpose::SafetyVentilation) => {
            ("Fresh air for the people inside", "")
        }
        Refusal::ProtectsPeople(Purpose::ApplianceAir) => (
            "Air for a flame or the refrigerator",
            "; closed, the flame can make carbon monoxide",
        ),
        Refusal::ProtectsPeople(Purpose::GasDropOut) | Refusal::DropOut => {
            ("Leaking gas drains out here", "")
        }
        Refusal::NeverClosed(GapPart::Flue) => ("Exhaust gas goes out here", ""),
        Refusal::NeverClosed(GapPart::BatteryVent) => ("Gas of the battery gets out here", ""),
        _ => ("What smells or burns gets out here", ""),
    }
}

/// The openings by what they are for, those that may be such, and how the fixed ventilation stands.
///
/// What is amiss with that is not said again where it stands `first` on the page.
pub(super) fn part(material: &Material<'_>, first: bool, room: Room) -> Part {
    let survey = material.survey;
    let mut part = Part::new("Never close these");
    let mut groups: Vec<(Why, Vec<&Gap>)> = Vec::new();
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
    for ((goes, closed), gaps) in groups {
        part.line(
            format!("✖ {goes}: {}{closed}.", called(survey, &gaps, room)),
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
                called(survey, &unsure, room)
            ),
            lead(&unsure),
        );
    }
    ventilation(&mut part, &material.assessment.safety.verdict, first);
    part.line(cautions::TRADES, Leads::Place(SAFETY));
    part
}

const SAFETY: Place = Place {
    item: Item::SafetyVentilation,
    field: None,
};

/// Openings told by name and place; of more the rest stands by number.
const NAMED: usize = 6;

/// Openings with their names and, where there is room for it, where they are.
fn called(survey: &Survey, gaps: &[&Gap], room: Room) -> String {
    let one = |gap: &&Gap| {
        if room.tight {
            return format!("{} \u{201c}{}\u{201d}", gap.id, name(gap));
        }
        format!(
            "{} \u{201c}{}\u{201d} ({})",
            gap.id,
            name(gap),
            whereabouts(survey, gap)
        )
    };
    let rest = gaps.iter().skip(NAMED);
    let rest: Vec<String> = rest.map(|gap| gap.id.to_string()).collect();
    let word = if gaps.len() == 1 { "gap" } else { "gaps" };
    let named = gaps.iter().take(NAMED).map(one);
    format!("{word} {}", listed(named.chain(rest)))
}

/// Part of the width that counts as its middle, from and to: no side is named there.
const MIDDLE: (f64, f64) = (0.4, 0.6);

/// The face that an opening is in, and on which side of it.
fn whereabouts(survey: &Survey, gap: &Gap) -> String {
    let face = facing(gap.facing);
    if matches!(
        gap.facing,
        Facing::Nearside | Facing::Offside | Facing::Cavity(_)
    ) {
        return face.to_owned();
    }
    let across = gap.position.across_m.zip(survey.vehicle.width_m);
    let share = across.map(|(across, width)| across / width);
    let side = match share {
        Some(share) if share < MIDDLE.0 => ", nearside",
        Some(share) if share > MIDDLE.1 => ", offside",
        _ => "",
    };
    format!("{face}{side}")
}

fn lead(gaps: &[&Gap]) -> Leads {
    gaps.first().map_or(Leads::Gaps, |gap| {
        Leads::Place(Place::whole(Item::Gap(gap.id)))
    })
}

/// How the fixed ventilation stands against its minimum.
fn ventilation(part: &mut Part, verdict: &SafetyVerdict, first: bool) {
    let words = format!("Fixed ventilation: {}.", verdict.sentence());
    let words = Mark::without(&words);
    match verdict {
        SafetyVerdict::Meets => part.line(
            "There is enough fixed ventilation by its free areas, if nothing blocks it: look.",
            Leads::Place(SAFETY),
        ),
        SafetyVerdict::Below { .. } | SafetyVerdict::NotKnown(_) if first => {}
        SafetyVerdict::Below { .. } => part.line(format!("▲ {words}"), Leads::Place(SAFETY)),
        SafetyVerdict::NotKnown(_) => {
            part.line(format!("▲ {words} {}", defer()), Leads::Place(SAFETY));
        }
    }
}
