//! The sealing plan, and the order of work.

use super::blocks::{Align, Block, Reasons, Section, Table};
use super::ledger::remedy;
use super::measured::by_test;
use super::words::{duration, long_notes, minutes, name, note_in_table, place, price};
use crate::assess::sealing::{Chosen, Work, WorkStep, nothing_to_seal};
use crate::assess::sealing::{Figures, Plan, StaysOpen};
use crate::assess::words::{air_changes, leakage_cm2, litres, watts};
use crate::assess::{Answer, NotKnown};
use crate::survey::{Gap, GapId, Survey, WorkState};

/// The plan as the owner reads it.
pub(crate) fn report(survey: &Survey, work: &Answer<Work>) -> Section {
    let mut section = Section::new("Sealing plan");
    let work = match some(work) {
        Ok(work) => work,
        Err(unknown) => {
            section.paragraph(format!("There is no sealing plan: {}.", unknown.reason));
            return section;
        }
    };
    section.paragraph(match work.chosen {
        Chosen::Planned => {
            "The gaps marked as planned, in the order of most saving for the money. What a gap saves \
             was found by striking the balance anew with it sealed, not by its area."
        }
        Chosen::Proposed => {
            "No gap is marked as planned. These would save the most, in the order of most saving for \
             the money. What a gap saves was found by striking the balance anew with it sealed, not \
             by its area."
        }
    });
    let mut reasons = Reasons::default();
    let table = steps(survey, work, &mut reasons);
    section.table(table, &reasons);
    notes(&mut section, survey, work);
    section.heading("Before and after");
    let mut reasons = Reasons::default();
    let table = before_and_after(survey, &work.plan, &mut reasons);
    section.table(table, &reasons);
    for finding in &work.plan.findings {
        section.push(super::safety::danger(finding));
    }
    stays_open_table(&mut section, survey, work);
    section
}

/// The work, if there is any.
fn some(work: &Answer<Work>) -> Answer<&Work> {
    let work = work.as_ref().map_err(Clone::clone)?;
    if work.steps.is_empty() && work.stays_open.is_empty() {
        return Err(nothing_to_seal());
    }
    Ok(work)
}

fn gap_words(survey: &Survey, step: &WorkStep) -> String {
    let gap = survey.gap(step.sealable.gap());
    gap.map_or_else(String::new, |gap| format!("{}\n{}", name(gap), place(gap)))
}

pub(crate) fn star(step: &WorkStep) -> &'static str {
    let assumed = step.sealable.cost().is_ok_and(|cost| cost.assumed);
    if assumed || step.sealable.is_assumed() {
        "*"
    } else {
        ""
    }
}

fn steps(survey: &Survey, work: &Work, reasons: &mut Reasons) -> Table {
    let currency = survey.tariffs.currency.trim();
    let mut table = Table::default()
        .column("", Align::Right)
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("How", Align::Left, 3)
        .column("Minutes", Align::Decimal)
        .column(format!("Cost, {currency}"), Align::Decimal)
        .column("Less air with\nmost wind, /h", Align::Decimal);
    let mut before = &work.plan.before.ach_windy_per_h;
    for (step, order) in work.steps.iter().zip(1..) {
        let cost = step.sealable.cost();
        let after = step.after.as_ref().map(|after| &after.ach_windy_per_h);
        let saves = after.map(|after| less(before, after));
        before = after.unwrap_or(before);
        table.row([
            order.to_string(),
            step.sealable.gap().to_string(),
            gap_words(survey, step),
            format!("{}{}", remedy(step.sealable.remedy()), star(step)),
            reasons.or(&cost, |cost| minutes(cost.minutes)),
            reasons.or(&cost, |cost| {
                format!("{}{}", cost.at_least(), super::words::money(cost.priced))
            }),
            match saves {
                Some(saves) => reasons.or(&saves, |ach| air_changes(*ach)),
                None if step.not_sized => reasons.or(&not_sized(step), f64::to_string),
                None => String::new(),
            },
        ]);
    }
    table.total([
        String::new(),
        String::new(),
        "Together".to_owned(),
        duration(work.plan.minutes),
        minutes(work.plan.minutes),
        super::words::money(work.plan.cost),
        less(
            &work.plan.before.ach_windy_per_h,
            &work.plan.after.ach_windy_per_h,
        )
        .map_or_else(|_| String::new(), air_changes),
    ]);
    table
}

/// What is saved between two figures.
fn less(before: &Answer<f64>, after: &Answer<f64>) -> Answer<f64> {
    let before = before.clone()?;
    after.clone().map(|after| before - after)
}

fn not_sized(step: &WorkStep) -> Answer<f64> {
    Err(NotKnown::because(format!(
        "gap {} is not sized, so what sealing it saves is in no figure",
        step.sealable.gap()
    )))
}

fn notes(section: &mut Section, survey: &Survey, work: &Work) {
    let tax: f64 = work.costs().map(|cost| cost.tax).sum();
    if tax > 0.0 {
        section.note(format!("The costs hold {} of tax.", price(survey, tax)));
    }
    if work.steps.iter().any(|step| !star(step).is_empty()) {
        section.note(
            "* Remedy, what it leaves, or its price is a suggestion of this program, an assumption: \
             put in the workshop's own.",
        );
    }
}

/// One line of figures: name with unit, what it is, and how it is written.
type Line = (&'static str, fn(&Figures) -> Answer<f64>, fn(f64) -> String);

const LINES: [Line; 5] = [
    (
        "Air changes, least wind, /h",
        |figures| figures.ach_calm_per_h.clone(),
        air_changes,
    ),
    (
        "Air changes, most wind, /h",
        |figures| figures.ach_windy_per_h.clone(),
        air_changes,
    ),
    (
        "Air changes, season, /h",
        |figures| figures.ach_season_per_h.clone(),
        air_changes,
    ),
    (
        "Water to remove, season, L/day",
        |figures| figures.removal_l_per_day.clone(),
        litres,
    ),
    (
        "Heat with the air, season, W",
        |figures| Ok(figures.air_heat_w),
        watts,
    ),
];

/// The headlines side by side, with what changed.
fn before_and_after(survey: &Survey, plan: &Plan, reasons: &mut Reasons) -> Table {
    let mut table = Table::default()
        .wide("", Align::Left, 1)
        .column("Now", Align::Decimal)
        .column("Planned", Align::Decimal)
        .column("Change, %", Align::Decimal);
    let (before, after) = plan.eqla_unintended.clone();
    let words = "Leakage area of unintended gaps (EqLA), cm²".to_owned();
    let mut rows = vec![(words, before, after, leakage_cm2 as fn(f64) -> String)];
    for (words, of, said) in LINES {
        rows.push((words.to_owned(), of(&plan.before), of(&plan.after), said));
    }
    if plan.before.winter_cost.is_ok() {
        rows.push((
            format!(
                "Heat of that air, a winter by electricity, {}",
                survey.tariffs.currency.trim()
            ),
            plan.before.winter_cost.clone(),
            plan.after.winter_cost.clone(),
            super::words::money,
        ));
    }
    for (words, before, after, said) in rows {
        table.row([
            words,
            reasons.or(&before, |value| said(*value)),
            reasons.or(&after, |value| said(*value)),
            change(&before, &after),
        ]);
    }
    table
}

pub(crate) fn change(before: &Answer<f64>, after: &Answer<f64>) -> String {
    match (before, after) {
        (Ok(before), Ok(after)) if *before > 0.0 => {
            let percent = (after - before) / before * 100.0;
            format!("{:.0}", percent + 0.0).replace('-', "−")
        }
        _ => String::new(),
    }
}

fn stays_open_table(section: &mut Section, survey: &Survey, work: &Work) {
    let rows: Vec<(GapId, String)> = work
        .stays_open
        .iter()
        .map(|(gap, why)| (*gap, why_open(survey, *gap, *why)))
        .collect();
    if rows.is_empty() {
        return;
    }
    section.heading("What stays as it is, and why");
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What", Align::Left, 2)
        .wide("Why", Align::Left, 3);
    for (gap, why) in rows {
        let words = survey.gap(gap).map_or_else(String::new, name);
        table.row([gap.to_string(), words, why]);
    }
    section.table(table, &Reasons::default());
}

/// Why a gap stays open; one that is sealed already although it must not be does not.
fn why_open(survey: &Survey, id: GapId, why: StaysOpen) -> String {
    let sealed = survey
        .gap(id)
        .is_some_and(|gap| gap.state == WorkState::Sealed);
    match why {
        StaysOpen::ProtectsPeople(_) if sealed => {
            format!("{why}. It is sealed: open it again at once")
        }
        _ => why.to_string(),
    }
}

/// What a protected opening is for, and the danger where it is sealed or is to be.
fn purpose(gap: &Gap) -> String {
    let danger = match gap.state {
        WorkState::Sealed => "\nDanger: it is sealed. Open it again at once.",
        WorkState::Planned => "\nDanger: it is marked planned. Do not close it.",
        _ => "",
    };
    format!("{}{danger}", gap.purpose.name())
}

/// The same as a section of its own, for the work order.
pub(crate) fn stays_open(survey: &Survey, work: &Answer<Work>) -> Section {
    let mut section = Section::new("What must not be closed");
    let protected: Vec<&Gap> = survey
        .gaps
        .iter()
        .filter(|gap| gap.purpose.must_stay_open())
        .collect();
    if protected.is_empty() {
        section.paragraph(
            "No opening that protects people is in the survey. Whatever fixed ventilator, gas drop-out \
             hole, flue or combustion-air opening the work comes upon stays open.",
        );
    } else {
        let mut table = Table::default()
            .column("Gap", Align::Right)
            .wide("What and where", Align::Left, 3)
            .wide("What it is for", Align::Left, 2)
            .column("Left clear", Align::Tick);
        for gap in protected {
            table.row([
                gap.id.to_string(),
                format!("{}\n{}", name(gap), place(gap)),
                purpose(gap),
            ]);
        }
        section.table(table, &Reasons::default());
    }
    if let Ok(work) = work {
        let others: Vec<String> = work
            .stays_open
            .iter()
            .filter_map(|(id, why)| Some((survey.gap(*id)?, why)))
            .filter(|(gap, _)| !gap.purpose.must_stay_open())
            .map(|(gap, why)| format!("{} · {}: {why}.", gap.id, name(gap)))
            .collect();
        if !others.is_empty() {
            section.heading("Not part of this order");
            section.push(Block::Points { points: others });
        }
    }
    section
}

fn nothing_to_do(work: &Work) -> String {
    match work.chosen {
        Chosen::Planned => {
            "There is nothing to do: of the gaps marked as planned, none may be sealed.".to_owned()
        }
        Chosen::Proposed => format!("There is nothing to do: {}.", nothing_to_seal().reason),
    }
}

/// The order of work with boxes to tick.
pub(crate) fn order(survey: &Survey, work: &Answer<Work>, prices: bool) -> Section {
    let mut section = Section::new("Work to do, in this order");
    let work = match some(work) {
        Ok(work) if !work.steps.is_empty() => work,
        Ok(work) => {
            section.paragraph(nothing_to_do(work));
            return section;
        }
        Err(NotKnown { reason }) => {
            section.paragraph(format!("There is no order of work: {reason}."));
            return section;
        }
    };
    if work.chosen == Chosen::Proposed {
        section.paragraph(
            "No gap is marked as planned in the survey: this is a proposal, the gaps that save most. \
             Agree it with the owner first.",
        );
    }
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .column("Done", Align::Tick)
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("Form and sizes", Align::Left, 3)
        .wide("How", Align::Left, 3)
        .column("Minutes", Align::Decimal);
    for step in &work.steps {
        let gap = survey.gap(step.sealable.gap());
        table.row([
            String::new(),
            step.sealable.gap().to_string(),
            order_words(survey, step),
            gap.map_or_else(String::new, crate::assess::words::form),
            format!("{}{}", remedy(step.sealable.remedy()), star(step)),
            reasons.or(&step.sealable.cost(), |cost| minutes(cost.minutes)),
        ]);
    }
    table.total([
        String::new(),
        String::new(),
        "Working time".to_owned(),
        String::new(),
        duration(work.plan.minutes),
        minutes(work.plan.minutes),
    ]);
    section.table(table, &reasons);
    let gaps = work.steps.iter();
    if let Some(words) = by_test(gaps.filter_map(|step| survey.gap(step.sealable.gap()))) {
        section.note(words);
    }
    if work.steps.iter().any(|step| !star(step).is_empty()) {
        section
            .note("* Suggested by the program, an assumption: the workshop's own way goes first.");
    }
    for step in work.steps.iter().filter(|step| step.not_sized) {
        section.note(format!(
            "Gap {} is not sized: what sealing it saves is not known.",
            step.sealable.gap()
        ));
    }
    for finding in &work.plan.findings {
        section.push(super::safety::danger(finding));
    }
    let cost = if prices {
        let alone = material_alone(&work.plan);
        format!(", at a cost of {}{alone}", price(survey, work.plan.cost))
    } else {
        String::new()
    };
    section.note(format!(
        "Expected of it: air changes with most wind from {} to {} an hour{cost}.",
        known(&work.plan.before.ach_windy_per_h),
        known(&work.plan.after.ach_windy_per_h),
    ));
    let gaps = work.steps.iter();
    let gaps = gaps.filter_map(|step| survey.gap(step.sealable.gap()));
    long_notes(&mut section, gaps);
    section
}

/// Words behind a cost that lacks the work.
pub(crate) fn material_alone(plan: &Plan) -> &'static str {
    if plan.minutes_not_priced > 0.0 {
        " for the material alone"
    } else {
        ""
    }
}

fn known(answer: &Answer<f64>) -> String {
    answer
        .as_ref()
        .map_or_else(|_| "(not known)".to_owned(), |value| air_changes(*value))
}

/// What and where, with damp and notes that whoever works there must know.
fn order_words(survey: &Survey, step: &WorkStep) -> String {
    let Some(gap) = survey.gap(step.sealable.gap()) else {
        return String::new();
    };
    let mut lines = vec![name(gap), place(gap)];
    if !gap.damp.trim().is_empty() {
        lines.push(format!("damp reading: {}", gap.damp.trim()));
    }
    if !gap.note.trim().is_empty() {
        lines.push(note_in_table(&gap.note));
    }
    lines.join("\n")
}
