//! Safety ventilation, and what to beware of. Always printed.

use super::blocks::{Align, Block, Reasons, Section, Table};
use super::findings;
use crate::assess::cautions::{self, Caution};
use crate::assess::quantity::Kind;
use crate::assess::safety::words::{Line, STAY_OPEN, area_mm2, defer, source};
use crate::assess::words::{capital, counted, given};
use crate::assess::{Assessment, Safety, SafetyVerdict, Topic};
use crate::survey::{CodeOfPractice, Field, Finding, Item, Place, Severity, Survey};

/// Openings that protect people and are marked as sealed or planned, and whatever was covered for a
/// test and is covered still. Comes first on every sheet.
pub(crate) fn closed(assessment: &Assessment) -> Section {
    let mut section = Section::new("Openings that must stay open");
    for finding in assessment.findings.iter().filter(|one| is_closed(one)) {
        section.push(findings::block(finding));
    }
    section
}

/// Whether a finding says that an opening which protects people is sealed or is to be, or that
/// something is still covered for a test.
pub(crate) fn is_closed(finding: &Finding) -> bool {
    finding.severity == Severity::Danger && is_of_what_is_closed(finding.place)
}

/// Whether a place is that of an opening's state, or of a cover.
pub(crate) fn is_of_what_is_closed(place: Place) -> bool {
    match place.item {
        Item::Gap(_) => place.is_at(Field::State),
        Item::FanTest(_) => place.is_at(Field::Uncovered),
        _ => false,
    }
}

/// Safety ventilation against the minimum; beside it, what a plan leaves of it.
pub(crate) fn ventilation(safety: &Safety, with_plan: Option<&Safety>) -> Section {
    let mut section = Section::new("Safety ventilation: never to be sealed");
    section.topic = Some(Topic::SafetyVentilation);
    section.push(verdict(&safety.verdict));
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Free areas", Align::Left, 1)
        .column("Asked for, mm²,\nif all is there", Align::Decimal)
        .column("Surveyed, mm²", Align::Decimal);
    if with_plan.is_some() {
        table = table.column("With the plan, mm²", Align::Decimal);
    }
    for line in Line::ALL {
        let words = match line {
            Line::HighInRoof => capital(line.words()),
            Line::HighElsewhere | Line::Low => line.words().to_owned(),
        };
        let asked = reasons.or(&line.asked_for(safety), |area| area_mm2(*area));
        let mut cells = vec![words, asked];
        for side in [Some(safety), with_plan].into_iter().flatten() {
            cells.push(reasons.or(line.surveyed(side), |area| area_mm2(*area)));
        }
        table.row(cells);
    }
    section.table(table, &reasons);
    section.note(goes_by(safety));
    if with_plan.is_some() {
        section.push(under_a_plan(&safety.verdict));
    }
    section.note(source(safety.code));
    section.note(STAY_OPEN);
    section
}

/// What the minimum goes by.
fn goes_by(safety: &Safety) -> String {
    if safety.code == CodeOfPractice::AsNzs5601 {
        return match safety.required.as_ref().map(|required| required.heat_input) {
            Ok(Some(input)) => format!(
                "Asked for: 610 mm² for each 1 MJ/h of the heat input of the appliances that are not \
                 room-sealed, here {} MJ/h, and 650 mm² for each of {}, at least 4000 mm², high and as \
                 much low.",
                given(input.mj_per_h),
                counted(input.berths as usize, "berth", "berths"),
            ),
            _ => "Asked for: 610 mm² for each 1 MJ/h of the heat input of the appliances that are not \
                  room-sealed, and 650 mm² for each berth, at least 4000 mm², high and as much low."
                .to_owned(),
        };
    }
    let area = Kind::SquareMetres
        .of(safety.plan_area_m2.clone())
        .sentence();
    match &safety.required {
        Ok(required) => {
            let with = if required.open_flued {
                "with an appliance that is not room-sealed"
            } else {
                "with room-sealed appliances only, or none"
            };
            format!("The table's row for a plan area of {area}, {with}.")
        }
        Err(_) => format!("Plan area: {area}."),
    }
}

/// What sealing by a plan means for the air that people need.
fn under_a_plan(verdict: &SafetyVerdict) -> Block {
    let caution = |title: &str, text: &str| Block::Caution {
        title: title.to_owned(),
        text: text.to_owned(),
    };
    match verdict {
        SafetyVerdict::Below { .. } => caution(
            "Put the fixed ventilation right first, then seal",
            "The plan takes away leaks that now make up for missing safety ventilation.",
        ),
        SafetyVerdict::NotKnown(_) => caution(
            "Measure it before sealing anything",
            "Whether safety ventilation suffices once this is sealed is not known.",
        ),
        SafetyVerdict::Meets => Block::Note {
            text: "The plan leaves all of it open: the areas stay as they are.".to_owned(),
        },
    }
}

fn verdict(verdict: &SafetyVerdict) -> Block {
    if *verdict == SafetyVerdict::Meets {
        return Block::Paragraph {
            text: format!("{}.", capital(&verdict.sentence())),
        };
    }
    let grounds = capital(&verdict.grounds()).replace(" %", "\u{a0}%");
    Block::Caution {
        title: capital(verdict.head()),
        text: format!("{grounds}. {}", defer()),
    }
}

/// What to beware of when sealing. None is left out.
pub(crate) fn before_sealing(survey: &Survey) -> Section {
    let mut section = listed("Cautions", cautions::before_sealing(survey));
    section.note("Local codes and licensed trades decide; nothing here replaces them.");
    section
}

/// What the owner has to know of sealing, whoever does the work.
pub(crate) fn for_the_owner(survey: &Survey) -> Section {
    let mut section = listed("Cautions", cautions::for_the_owner(survey));
    section.note("Local codes and licensed trades decide; nothing here replaces them.");
    section
}

/// What to beware of when drying or heating. None is left out.
pub(crate) fn before_drying(survey: &Survey) -> Section {
    let mut section = listed("Before drying or heating", cautions::before_drying(survey));
    section.note(cautions::LOCAL);
    section
}

fn listed(title: &str, cautions: Vec<Caution>) -> Section {
    let mut section = Section::new(title);
    for Caution { title, text } in cautions {
        section.push(Block::Caution {
            title: title.to_owned(),
            text,
        });
    }
    section
}
