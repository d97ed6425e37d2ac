//! The planned work, and the order to do it in.

use super::{SUGGESTED, any_suggested, heed, how, left_open, material_alone, numbered, outcome};
use crate::assess::quantity::{Kind, price};
use crate::assess::sealing::{Chosen, Work, WorkStep, nothing_to_seal};
use crate::assess::{Answer, Assessment, NotKnown};
use crate::figure::Role;
use crate::figure::ranked::Amount;
use crate::report::ledger::{LEAST_DRAWN, purpose_before};
use crate::report::measured::by_test;
use crate::report::words::{duration, long_notes, minutes, name, note_in_table, place};
use crate::report::{Align, Reasons, Section, Table, findings};
use crate::survey::{Gap, Survey};

/// What is said of a plan that measurements weigh in.
const CALIBRATED: &str = "Savings are calibrated by what was measured: each gap lets through what its size and the \
                          measurements together make most likely.";

/// The plan as the owner reads it.
pub(crate) fn plan(survey: &Survey, assessment: &Assessment, work: &Answer<Work>) -> Section {
    let mut section = Section::new("Sealing plan");
    let work = match some(work) {
        Ok(work) => work,
        Err(unknown) => {
            return section.ending(format!("There is no sealing plan: {}.", unknown.reason));
        }
    };
    let chosen = match work.chosen {
        Chosen::Planned => "The gaps marked as planned",
        Chosen::Proposed => "No gap is marked as planned. These would save the most",
        Chosen::Within => "The best set of gaps for the money named",
    };
    section.paragraph(format!(
        "{chosen}, in the order of most saving for the money ({}).",
        work.aim.name()
    ));
    if !assessment.calibrated.is_empty() {
        section.note(CALIBRATED);
    }
    outcome::gaps(&mut section, survey, (&work.plan, Some(work)), work.aim);
    outcome(&mut section, survey, assessment, (&work.plan, work.aim));
    if !work.stays_open.is_empty() {
        section.append(left_open(survey, &work.stays_open));
    }
    section
}

/// What is left of what the plan is to save, before the work and after each step, as amounts to draw;
/// nothing where fewer than three are known.
pub(crate) fn step_by_step(survey: &Survey, work: &Answer<Work>) -> Vec<Amount> {
    let Ok(work) = work else { return Vec::new() };
    let (aim, currency) = (work.aim, &survey.tariffs.currency);
    let amount = |name: String, value: f64, role: Role| Amount {
        name,
        value: value.max(0.0),
        words: aim.text(value, currency),
        role,
    };
    let Ok(before) = work.plan.before.of(aim) else {
        return Vec::new();
    };
    let mut amounts = vec![amount("as it stands".to_owned(), before, Role::Faint)];
    for step in &work.steps {
        let Some(Ok(after)) = step.after.as_ref().map(|after| after.of(aim)) else {
            continue;
        };
        let name = numbered(survey, step.sealable.gap());
        amounts.push(amount(format!("then {name}"), after, Role::First));
    }
    if amounts.len() < LEAST_DRAWN {
        return Vec::new();
    }
    amounts
}

/// The work, if there is any.
fn some(work: &Answer<Work>) -> Answer<&Work> {
    let work = work.as_ref().map_err(Clone::clone)?;
    if work.steps.is_empty() && work.stays_open.is_empty() {
        return Err(nothing_to_seal());
    }
    Ok(work)
}

/// Why there is nothing to do, where no gap is in the work.
pub(crate) fn nothing_to_do(work: &Work) -> String {
    match work.chosen {
        Chosen::Planned => {
            "There is nothing to do: of the gaps marked as planned, none may be sealed.".to_owned()
        }
        Chosen::Proposed => format!("There is nothing to do: {}.", nothing_to_seal().reason),
        Chosen::Within => {
            "There is nothing to do: nothing that costs no more than the money named would save anything."
                .to_owned()
        }
    }
}

/// The order of work with boxes to tick.
pub(crate) fn work(survey: &Survey, work: &Answer<Work>, prices: bool) -> Section {
    let mut section = Section::new("Work to do, in this order");
    let work = match some(work) {
        Ok(work) if !work.steps.is_empty() => work,
        Ok(work) => {
            return section.ending(nothing_to_do(work));
        }
        Err(NotKnown { reason }) => {
            return section.ending(format!("There is no order of work: {reason}."));
        }
    };
    let agree = match work.chosen {
        Chosen::Planned => None,
        Chosen::Proposed => Some(
            "No gap is marked as planned in the survey: this is a proposal, the gaps that save most. \
             Agree it with the owner first.",
        ),
        Chosen::Within => Some(
            "This is the best set for the money named, whatever is marked as planned in the survey. Agree it \
             with the owner first.",
        ),
    };
    if let Some(text) = agree {
        section.paragraph(text);
    }
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .column("Done", Align::Tick)
        .column("Step", Align::Right)
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("Form and sizes", Align::Left, 3)
        .wide("How", Align::Left, 3)
        .column("Minutes", Align::Decimal);
    for (number, step) in (1..).zip(&work.steps) {
        let gap = survey.gap(step.sealable.gap());
        table.row([
            String::new(),
            number.to_string(),
            step.sealable.gap().to_string(),
            order_words(survey, step),
            gap.map_or_else(String::new, crate::assess::words::form),
            how(&step.sealable),
            reasons.or(&step.sealable.cost(), |cost| minutes(cost.minutes)),
        ]);
    }
    table.total([
        String::new(),
        String::new(),
        String::new(),
        "Working time".to_owned(),
        String::new(),
        duration(work.plan.minutes),
        minutes(work.plan.minutes),
    ]);
    section.table(table, &reasons);
    heed(&mut section, work.steps.iter().map(|step| &step.sealable));
    let gaps = work.steps.iter();
    section.notes(by_test(
        gaps.filter_map(|step| survey.gap(step.sealable.gap())),
    ));
    if any_suggested(work.steps.iter().map(|step| &step.sealable)) {
        section.note(SUGGESTED);
    }
    for step in work.steps.iter().filter(|step| step.not_sized) {
        section.note(format!(
            "Gap {} is not sized: what sealing it saves is not known.",
            step.sealable.gap()
        ));
    }
    for finding in &work.plan.findings {
        section.push(findings::block(finding));
    }
    section.note(expected(survey, work, prices));
    let gaps = work.steps.iter();
    let gaps = gaps.filter_map(|step| survey.gap(step.sealable.gap()));
    long_notes(&mut section, gaps);
    section
}

/// What is expected of the work, with what it costs where `prices` says so.
pub(crate) fn expected(survey: &Survey, work: &Work, prices: bool) -> String {
    let cost = if prices {
        let alone = material_alone(&work.plan);
        format!(
            ", at a cost of {}{alone}",
            price(work.plan.cost, &survey.tariffs.currency)
        )
    } else {
        String::new()
    };
    format!(
        "Expected of it: air changes with most wind from {} to {} an hour{cost}.",
        known(&work.plan.before.ach_windy_per_h),
        known(&work.plan.after.ach_windy_per_h),
    )
}

fn known(answer: &Answer<f64>) -> String {
    answer.as_ref().map_or_else(
        |_| "(not known)".to_owned(),
        |ach| Kind::AirChanges.number(*ach),
    )
}

/// What and where, with damp and notes that whoever works there must know.
fn order_words(survey: &Survey, step: &WorkStep) -> String {
    let Some(gap) = survey.gap(step.sealable.gap()) else {
        return String::new();
    };
    let mut lines = vec![name(gap), place(gap)];
    lines.extend(purpose_before(gap));
    if !gap.damp.trim().is_empty() {
        lines.push(format!("damp reading: {}", gap.damp.trim()));
    }
    if !gap.note.trim().is_empty() {
        lines.push(note_in_table(&gap.note));
    }
    lines.extend(stays_open_beside(survey, gap));
    lines.join("\n")
}

/// How near an opening lies that whoever works at a gap could take for part of it, m.
const BESIDE_M: f64 = 1.0;

/// The openings that protect people near a gap: on the same face, within reach of whoever works there
/// as far as both places are known.
fn stays_open_beside(survey: &Survey, gap: &Gap) -> Option<String> {
    let near = |other: &Gap| {
        let known = [
            (gap.position.along_m, other.position.along_m),
            (gap.position.across_m, other.position.across_m),
            (gap.position.height_m, other.position.height_m),
        ];
        let apart = known.into_iter().filter_map(|(a, b)| Some(a? - b?));
        apart.map(|one| one * one).sum::<f64>().sqrt() <= BESIDE_M
    };
    let protected = super::protected(survey).into_iter();
    let beside: Vec<String> = protected
        .filter(|(other, _)| other.facing == gap.facing && near(other))
        .map(|(other, _)| format!("{} {}", other.id, name(other)))
        .collect();
    (!beside.is_empty()).then(|| format!("stays open beside it: {}", beside.join("; ")))
}
