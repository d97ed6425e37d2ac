//! What a plan comes to: money, time, figures before and after, what shifts, what to heed.

use super::{Side, changes, cost, heed, how, in_currency, less, named, numbered, of_prices};
use crate::assess::quantity::{Kind, price};
use crate::assess::sealing::{
    Aim, AirPerSleeper, Figures, FlowShift, MOST_WINTERS, Payback, Plan, PlannedGap, Work, WorkStep,
};
use crate::assess::words::sentence;
use crate::assess::{Answer, Assessment, NotKnown};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::report::words::{duration, minutes};
use crate::report::{Align, Reasons, Section, Table, findings};
use crate::survey::{Item, Survey};

/// Gaps listed whose air changes most.
const SHIFTS: usize = 5;

/// The best set within a sum of money.
pub(crate) fn best(
    survey: &Survey,
    assessment: &Assessment,
    (aim, budget): (Aim, f64),
    plan: &Answer<Plan>,
) -> Section {
    let sum = price(budget, &survey.tariffs.currency);
    let mut section = Section::new(format!("The best set for at most {sum}"));
    match plan {
        Err(unknown) => section.paragraph(format!("{unknown}.")),
        Ok(plan) if plan.gaps.is_empty() => {
            section.paragraph("Nothing that costs no more would save anything.")
        }
        Ok(plan) => {
            section.paragraph(format!("It saves most of {}.", aim.name()));
            let planned = planned(survey, assessment, plan, aim);
            section.blocks.extend(planned.blocks);
            section.note(
                "Of up to twelve gaps every set is tried; of more, good sets are improved by exchange. Gaps \
                 whose cost is not known are never in it.",
            )
        }
    };
    section
}

/// The gaps of a plan, and what it comes to.
pub(crate) fn planned(survey: &Survey, assessment: &Assessment, plan: &Plan, aim: Aim) -> Section {
    let mut section = Section::new("The plan");
    gaps(&mut section, survey, (plan, None), aim);
    outcome(&mut section, survey, assessment, (plan, aim));
    section
}

/// The gaps of a plan; in the order of work where that is known.
pub(super) fn gaps(
    section: &mut Section,
    survey: &Survey,
    (plan, work): (&Plan, Option<&Work>),
    aim: Aim,
) {
    let currency = &survey.tariffs.currency;
    let saves = |which: &str| format!("Saves, {}\n{which}", aim.unit(currency));
    let mut table = Table::default();
    if work.is_some() {
        table = table.column("", Align::Right);
    }
    table = table
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("How", Align::Left, 3)
        .column("Minutes", Align::Decimal)
        .column(in_currency("Cost", currency), Align::Decimal);
    if work.is_some() {
        table = table.column(saves("in turn"), Align::Decimal);
    }
    table = table
        .column(saves("alone"), Align::Decimal)
        .column(saves("as last"), Align::Decimal);
    let mut reasons = Reasons::default();
    let mut before = plan.before.of(aim);
    for (number, (step, one)) in (1..).zip(in_order(plan, work)) {
        let id = one.sealable.gap();
        let money = one.sealable.cost();
        let mut cells = vec![
            id.to_string(),
            named(survey.gap(id)),
            how(&one.sealable),
            reasons.or(&money, |cost| minutes(cost.minutes)),
            reasons.or(&money, cost),
        ];
        let mut said = |saved: Answer<f64>| reasons.number(&aim.kind().of(sized(one, saved)));
        if let Some(step) = step {
            cells.insert(0, number.to_string());
            let after = step.after.as_ref().map(|after| after.of(aim));
            let saved = after.as_ref().map(|after| less(&before, after));
            before = after.unwrap_or(before);
            cells.push(match saved {
                Some(saved) => said(saved),
                None if one.not_sized => said(Ok(0.0)),
                None => String::new(),
            });
        }
        cells.push(said(one.saves_alone.of(aim)));
        cells.push(said(one.saves_last.of(aim)));
        table.row(cells).about(Item::Gap(id));
    }
    table.total(together(plan, work.is_some(), aim));
    section.table(table, &reasons);
    notes(section, survey, plan, work.is_some());
}

/// The gaps of a plan with their steps, in the order of work where that is known.
fn in_order<'a>(
    plan: &'a Plan,
    work: Option<&'a Work>,
) -> Vec<(Option<&'a WorkStep>, &'a PlannedGap)> {
    let Some(work) = work else {
        return plan.gaps.iter().map(|one| (None, one)).collect();
    };
    let of = |step: &WorkStep| {
        let mut gaps = plan.gaps.iter();
        gaps.find(|one| one.sealable.gap() == step.sealable.gap())
    };
    let steps = work.steps.iter();
    steps
        .filter_map(|step| Some((Some(step), of(step)?)))
        .collect()
}

/// A saving, unless the gap has no size and so is in no figure.
fn sized(one: &PlannedGap, saved: Answer<f64>) -> Answer<f64> {
    if one.not_sized {
        return Err(NotKnown::because(format!(
            "gap {} is not sized, so what sealing it saves is in no figure",
            one.sealable.gap()
        )));
    }
    saved
}

fn together(plan: &Plan, in_turn: bool, aim: Aim) -> Vec<String> {
    let saved = less(&plan.before.of(aim), &plan.after.of(aim));
    let number = |saved: &f64| aim.kind().number(*saved);
    let saved = saved.as_ref().map_or_else(|_| String::new(), number);
    let mut cells = vec![
        String::new(),
        "Together".to_owned(),
        duration(plan.minutes),
        minutes(plan.minutes),
        Kind::Money.number(plan.cost),
    ];
    if in_turn {
        cells.insert(0, String::new());
        cells.push(saved);
    }
    cells
}

fn notes(section: &mut Section, survey: &Survey, plan: &Plan, in_turn: bool) {
    if let Some(tax) = plan.bill.tax.filter(|tax| *tax > 0.0) {
        let tax = price(tax, &survey.tariffs.currency);
        section.note(format!("The costs include {tax} of tax."));
    }
    let turn = if in_turn {
        "In turn: with the gaps above it sealed. "
    } else {
        ""
    };
    section.note(format!(
        "{turn}Alone: with no other gap sealed. As last: with all others of the plan sealed. All found by \
         working out the air again, not by area."
    ));
    let sealables = || plan.gaps.iter().map(|one| &one.sealable);
    heed(section, sealables());
    of_prices(section, sealables());
}

/// What a plan costs and changes, and what to heed.
pub(crate) fn outcome(
    section: &mut Section,
    survey: &Survey,
    assessment: &Assessment,
    (plan, aim): (&Plan, Aim),
) {
    section.paragraph(costs(survey, plan));
    section.paragraph(what_for(plan));
    section.note(when_paid_back(plan));
    for id in &plan.cost_not_known {
        let mut gaps = plan.gaps.iter();
        let gap = gaps.find(|one| one.sealable.gap() == *id);
        let why = gap.and_then(|one| one.sealable.cost().err());
        let reason = why.map_or_else(String::new, |why| format!(": {}", why.reason));
        section.paragraph(format!(
            "The cost of gap {id} is not known{reason}; it is not in the sum."
        ));
    }
    if let Some(words) = one_by_one(survey, plan, aim) {
        section.paragraph(words);
    }
    if let Some(words) = shifts(survey, plan) {
        section.paragraph(words);
    }
    section.heading("Before and after");
    let sleepers = &plan.air_per_sleeper;
    let side = |leakage, figures, sleepers: &Answer<AirPerSleeper>| Side {
        leakage,
        figures: Ok(figures),
        sleepers: sleepers.clone(),
        assessment: None,
        uncertainty: None,
    };
    changes(
        section,
        (
            &side(&plan.leakage_unintended.0, &plan.before, &sleepers.0),
            &side(&plan.leakage_unintended.1, &plan.after, &sleepers.1),
        ),
        (assessment, &survey.tariffs.currency),
    );
    section.paragraph(safety(plan));
    for finding in &plan.findings {
        section.push(findings::block(finding));
    }
}

/// Safety ventilation before and after: a plan never touches it.
fn safety(plan: &Plan) -> String {
    let (before, after) = (&plan.safety.0.verdict, &plan.safety.1.verdict);
    if before == after {
        return format!(
            "Safety ventilation stays as it is: {}.",
            before.sentence_in_capitals()
        );
    }
    format!(
        "Safety ventilation before: {}. After: {}.",
        before.sentence_in_capitals(),
        after.sentence_in_capitals()
    )
}

/// What the work is for, before any money: damp, cold, and what comes by the same gaps.
pub(crate) fn what_for(plan: &Plan) -> String {
    let change = |kind: Kind, of: fn(&Figures) -> Answer<f64>| {
        let (before, after) = (of(&plan.before).ok()?, of(&plan.after).ok()?);
        let words = format!("{} instead of {}", kind.text(after), kind.text(before));
        (kind.text(before) != kind.text(after)).then_some((words, after < before))
    };
    let water = change(Kind::LitresPerDay, |of| of.removal_l_per_day.clone());
    let water = water.map(|(words, less)| (format!("{words} to dry out of the air"), less));
    let heat = change(Kind::Watts, |of| Ok(of.air_heat_w));
    let (damp, damper) = match water {
        Some((words, true)) => (Some(format!("damp: {words}")), None),
        Some((words, false)) => (None, Some(words)),
        None => (None, None),
    };
    let cold = heat.filter(|(_, less)| *less);
    let cold = cold.map(|(words, _)| format!("cold: {words} of heat gone with the air"));
    let all = [
        damp,
        cold,
        Some("draught and noise, which come by the same gaps [C]".to_owned()),
    ];
    let all: Vec<String> = all.into_iter().flatten().collect();
    // Where people or wet things give off water, less air takes less of it away.
    let damper = damper.map_or_else(String::new, |words| {
        format!(" Less air also takes less water away: {words}.")
    });
    format!("It is done against {}.{damper}", all.join("; "))
}

/// When the heat it saves has paid for it, as small print.
pub(crate) fn when_paid_back(plan: &Plan) -> String {
    let words = match &plan.payback {
        Ok(payback) => paid_back(*payback),
        Err(why) => format!("when it pays for itself is not known: {}", why.reason),
    };
    sentence(&words)
}

/// Cost and time in a sentence.
fn costs(survey: &Survey, plan: &Plan) -> String {
    let at_least = if plan.cost_not_known.is_empty() {
        ""
    } else {
        "at least "
    };
    format!(
        "Costs {at_least}{}{}, takes {at_least}{}.",
        price(plan.cost, &survey.tariffs.currency),
        material_alone(plan),
        duration(plan.minutes)
    )
}

/// When it has paid for itself, in a sentence that begins small and has no full stop.
fn paid_back(payback: Payback) -> String {
    match payback {
        Payback::Winters(winters) => format!(
            "by the heat it saves, priced as electricity, it pays for itself in {}",
            Kind::Winters.text(winters)
        ),
        Payback::NeverByHeatAlone => format!(
            "by heat alone it would take more than {} to pay for itself",
            Kind::Winters.typed(MOST_WINTERS)
        ),
    }
}

/// Words behind a cost that lacks the work.
pub(crate) fn material_alone(plan: &Plan) -> &'static str {
    if plan.minutes_not_priced > 0.0 {
        " for the material alone"
    } else {
        ""
    }
}

/// Savings one by one and together.
fn one_by_one(survey: &Survey, plan: &Plan, aim: Aim) -> Option<String> {
    let both = plan.together.iter().find(|one| one.aim == aim)?;
    if plan.gaps.len() < 2 {
        return None;
    }
    let words = |saved| aim.text(saved, &survey.tariffs.currency);
    let more = if both.together > both.sum_alone {
        "more, because air that one gap lets in must find another to leave by"
    } else {
        "less, because air that is kept out of one gap comes in by others"
    };
    Some(format!(
        "One by one these gaps save {} of {}; together {}: {more}.",
        words(both.sum_alone),
        aim.name(),
        words(both.together)
    ))
}

/// The gaps left open through which most more comes in afterwards.
fn shifts(survey: &Survey, plan: &Plan) -> Option<String> {
    let more = |shift: &FlowShift| shift.after_kg_s.0 - shift.before_kg_s.0;
    let mut shifts: Vec<&FlowShift> = plan
        .shifts
        .iter()
        .filter(|shift| !shift.sealed && more(shift) * SECONDS_PER_HOUR > 0.01)
        .collect();
    shifts.sort_by(|a, b| more(b).total_cmp(&more(a)));
    let listed: Vec<String> = shifts
        .into_iter()
        .take(SHIFTS)
        .map(|shift| {
            let [was, will_be] = [shift.before_kg_s.0, shift.after_kg_s.0]
                .map(|flow| Kind::KilogramsPerHour.number(flow * SECONDS_PER_HOUR));
            let will_be = Kind::KilogramsPerHour.with_unit(&will_be);
            format!("{} {was} → {will_be}", numbered(survey, shift.gap))
        })
        .collect();
    (!listed.is_empty()).then(|| {
        format!(
            "More air then comes in through other gaps with most wind: {}.",
            listed.join("; ")
        )
    })
}
