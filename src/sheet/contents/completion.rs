//! Before and after the work.

use super::Material;
use super::ledger::remedy;
use super::plan::before_and_after;
use super::words::{name, place};
use crate::assess::sealing::{Plan, Sealable, plan};
use crate::assess::{Answer, NotKnown};
use crate::sheet::blocks::{Align, Block, Reasons, Section, Table};
use crate::survey::{Gap, GapId, Survey, WorkState};

/// The gaps that are sealed.
pub(super) fn sealed(survey: &Survey) -> Vec<GapId> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed)
        .map(|gap| gap.id)
        .collect()
}

/// The survey as it was before anything was sealed.
fn before(survey: &Survey) -> Survey {
    let mut before = survey.clone();
    for gap in &mut before.gaps {
        if gap.state == WorkState::Sealed {
            gap.state = WorkState::Open;
        }
    }
    before
}

/// What the work came to: the survey before it, with all that is sealed now as its plan.
fn work(survey: &Survey) -> Answer<Plan> {
    let before = before(survey);
    let sealables: Result<Vec<Sealable>, NotKnown> = sealed(survey)
        .into_iter()
        .map(|id| {
            Sealable::of(&before, id).map_err(|why| NotKnown::because(format!("gap {id}: {why}")))
        })
        .collect();
    plan(&before, &sealables?)
}

pub(super) fn section(material: &Material<'_>) -> Section {
    let survey = material.survey;
    let mut section = Section::new("What was done");
    let done: Vec<&Gap> = survey
        .gaps
        .iter()
        .filter(|gap| gap.state == WorkState::Sealed)
        .collect();
    if done.is_empty() {
        section.paragraph("No gap is marked as sealed yet: there is nothing to compare.");
        return section;
    }
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("How it was sealed", Align::Left, 3)
        .column("Date", Align::Left);
    for gap in &done {
        let how = gap.remedy.as_ref().map_or_else(String::new, remedy);
        table.row([
            gap.id.to_string(),
            format!("{}\n{}", name(gap), place(gap)),
            how,
            gap.state_date.trim().to_owned(),
        ]);
    }
    section.table(table, &Reasons::default());
    section.heading("Before and after");
    match work(survey) {
        Ok(plan) => {
            let mut reasons = Reasons::default();
            let table = before_and_after(survey, &plan, ["Before", "After"], &mut reasons);
            section.table(table, &reasons);
            section.note(
                "Worked out from the gaps as surveyed and from what their remedies leave; nothing here was \
                 measured after the work. Measure again to be sure.",
            );
        }
        Err(unknown) => {
            section.paragraph(format!("What it brought is not known: {}.", unknown.reason));
        }
    }
    remaining(&mut section, survey);
    section
}

/// What is still open.
fn remaining(section: &mut Section, survey: &Survey) {
    let open = survey
        .gaps
        .iter()
        .filter(|gap| gap.state != WorkState::Sealed && !gap.purpose.must_stay_open());
    let points: Vec<String> = open
        .map(|gap| format!("{} · {}: {}", gap.id, name(gap), gap.state.name()))
        .collect();
    if !points.is_empty() {
        section.heading("Gaps that are not sealed");
        section.push(Block::Points { points });
    }
}
