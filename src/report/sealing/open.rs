//! What stays open, and why.

use crate::assess::sealing::{StaysOpen, Work};
use crate::assess::{Answer, sealing::LeftOpen};
use crate::report::words::{name, place};
use crate::report::{Align, Block, Reasons, Section, Table, findings};
use crate::survey::findings::called;
use crate::survey::leave::{self, Refusal};
use crate::survey::{Field, Finding, Gap, GapId, Item, Place, Severity, Survey, WorkState};

/// The gaps that no plan may hold: what protects people first. The first column has no tick.
pub(crate) fn left_open(survey: &Survey, left: &[LeftOpen]) -> Section {
    let mut section = Section::new("What stays as it is, and why");
    if left.is_empty() {
        return section.ending("Every gap of the ledger may be sealed.");
    }
    let (protects, rest): (Vec<&LeftOpen>, Vec<&LeftOpen>) =
        left.iter().partition(|one| one.why.protects());
    if !protects.is_empty() {
        section.paragraph(
            "Openings that protect people are never sealed, whatever they save. Local codes apply; gas \
             work belongs to licensed fitters.",
        );
    }
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What", Align::Left, 2)
        .wide("Why", Align::Left, 3);
    for one in protects.into_iter().chain(rest) {
        let words = survey.gap(one.gap).map_or_else(String::new, name);
        let why = why(survey, one);
        table
            .row([one.gap.to_string(), words, why])
            .about(Item::Gap(one.gap));
    }
    section.table(table, &Reasons::default());
    section
}

/// Why a gap stays open; one that is sealed already although it must not be does not.
fn why(survey: &Survey, left: &LeftOpen) -> String {
    let gap = survey.gap(left.gap);
    let sealed = gap.is_some_and(|gap| gap.state == WorkState::Sealed);
    match left.why {
        why if why.protects() && sealed => {
            format!("{}. It is sealed: open it again at once", left.why)
        }
        why => why.to_string(),
    }
}

/// Gaps that are marked as planned and may not be sealed.
pub(crate) fn refused(survey: &Survey, refused: &[(GapId, StaysOpen)]) -> Vec<Block> {
    let blocks = refused.iter().map(|(id, why)| {
        findings::block(&Finding {
            severity: severity(*why),
            place: Place::at(Item::Gap(*id), Field::State),
            sentence: format!("{} is marked as planned, but {why}", subject(survey, *id)),
            advice: "it is not in the plan: do not seal it".to_owned(),
        })
    });
    blocks.collect()
}

/// How bad it is that a gap is marked planned which may not be sealed.
fn severity(why: StaysOpen) -> Severity {
    match why {
        StaysOpen::Refused(why) if why.protects() || why.may_protect() => Severity::Danger,
        _ => Severity::Warning,
    }
}

/// A gap at the head of a sentence: `gap 7 “door seal”`.
fn subject(survey: &Survey, id: GapId) -> String {
    let number = findings::about(Item::Gap(id));
    match survey.gap(id) {
        Some(gap) => called(&number, &name(gap)),
        None => number,
    }
}

/// What a protected opening is for, and the danger where it is sealed or is to be.
fn purpose(gap: &Gap, why: Refusal) -> String {
    let danger = match gap.state {
        WorkState::Sealed => "\nDanger: it is sealed. Open it again at once.",
        WorkState::Planned => "\nDanger: it is marked planned. Do not close it.",
        _ => "",
    };
    let what = match why {
        Refusal::ProtectsPeople(purpose) => purpose.name(),
        Refusal::NeverClosed(part) => part.name(),
        _ => "gas drop-out",
    };
    format!("{what}{danger}")
}

/// The openings that protect people, and why each stays open.
pub(crate) fn protecting(survey: &Survey) -> impl Iterator<Item = (&Gap, Refusal)> {
    let gaps = survey.gaps.iter();
    gaps.filter_map(|gap| Some((gap, leave::leave(survey, gap).err()?)))
        .filter(|(_, why)| why.protects())
}

/// The openings that protect people, each with what it is for.
pub(crate) fn protected(survey: &Survey) -> Vec<(&Gap, String)> {
    protecting(survey)
        .map(|(gap, why)| (gap, purpose(gap, why)))
        .collect()
}

/// What is said where no opening that protects people is written down.
pub(crate) const NONE_PROTECTS: &str = "No opening that protects people is in the survey. Whatever fixed ventilator, \
    gas drop-out hole, flue or combustion-air opening the work comes across stays open.";

/// What whoever works must leave clear, with boxes to tick.
pub(crate) fn must_stay_open(survey: &Survey, work: &Answer<Work>) -> Section {
    let mut section = Section::new("What must not be closed");
    let protected = protected(survey);
    if protected.is_empty() {
        section.paragraph(NONE_PROTECTS);
    } else {
        let mut table = Table::default()
            .column("Gap", Align::Right)
            .wide("What and where", Align::Left, 3)
            .wide("What it is for", Align::Left, 2)
            .column("Left clear", Align::Tick);
        for (gap, purpose) in protected {
            table.row([
                gap.id.to_string(),
                format!("{}\n{}", name(gap), place(gap)),
                purpose,
            ]);
        }
        section.table(table, &Reasons::default());
    }
    let others = work.iter().flat_map(|work| &work.stays_open);
    let others = others.filter(|left| !left.why.protects());
    let (fitters, others): (Vec<&LeftOpen>, Vec<&LeftOpen>) =
        others.partition(|left| left.why.is_for_fitter());
    points(
        &mut section,
        survey,
        "For a licensed gas fitter, not for the workshop",
        &fitters,
    );
    points(&mut section, survey, "Not part of this order", &others);
    section
}

/// Gaps that are not in the order, and why.
fn points(section: &mut Section, survey: &Survey, title: &str, left: &[&LeftOpen]) {
    let points: Vec<String> = left
        .iter()
        .filter_map(|left| Some((survey.gap(left.gap)?, left.why)))
        .map(|(gap, why)| format!("{} · {}: {why}.", gap.id, name(gap)))
        .collect();
    if !points.is_empty() {
        section.heading(title).points(points);
    }
}
