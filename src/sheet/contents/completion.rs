//! Before and after the work.

use super::ledger::remedy;
use super::plan::before_and_after;
use super::words::{name, place};
use crate::assess::sealing::{Plan, Sealable, plan};
use crate::assess::{Answer, NotKnown};
use crate::sheet::blocks::{Align, Block, Reasons, Section, Table};
use crate::survey::{Gap, GapId, Survey, WorkState};

/// The gaps that are sealed and may be.
pub(super) fn sealed(survey: &Survey) -> Vec<GapId> {
    done(survey).map(|gap| gap.id).collect()
}

fn done(survey: &Survey) -> impl Iterator<Item = &Gap> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && !gap.purpose.must_stay_open())
}

/// Openings that protect people and were sealed nevertheless.
fn wrongly_sealed(survey: &Survey) -> Vec<String> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && gap.purpose.must_stay_open())
        .map(|gap| format!("gap {} “{}”", gap.id, name(gap)))
        .collect()
}

/// The survey as it was before anything was sealed. What must be opened again at once counts as
/// open before and after.
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

pub(super) fn section(survey: &Survey) -> Section {
    let mut section = Section::new("What was done");
    let wrong = wrongly_sealed(survey);
    if survey.gaps.is_empty() {
        section.paragraph("No gaps are written down yet.");
        return section;
    }
    if done(survey).next().is_none() {
        section.paragraph(if wrong.is_empty() {
            "No gap is marked as sealed yet: there is nothing to compare."
        } else {
            "No gap that may be sealed is marked as sealed yet: there is nothing to compare."
        });
        return section;
    }
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("How it was sealed", Align::Left, 3)
        .column("Date", Align::Left);
    for gap in done(survey) {
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
            if !wrong.is_empty() {
                section.note(format!(
                    "Counted as open before and after, because it must be opened again at once: {}.",
                    wrong.join(", ")
                ));
            }
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
