//! Ranking, order and plans of sealing.

use super::object::{Object, list};
use super::survey::safety;
use crate::assess::Study;
use crate::assess::answer::{Answer, LeakageTotal, NotKnown};
use crate::assess::quantity::Kind;
use crate::assess::sealing::{
    AirPerSleeper, Bill, Cost, Figures, FlowShift, MOST_WINTERS, Payback, Plan, Ranked, Sealable,
    Step,
};
use crate::headless::asked::Asked;
use crate::physics::units::MM2_PER_M2;
use crate::survey::GapId;
use crate::survey::word::Word;
use std::fmt::Display;

pub(super) fn sealing(study: &Study, asked: Asked) -> Object {
    let offered = |found: &Answer<Plan>| Object::new().found("plan", found, plan);
    let (ranking, order) = (study.ranking(asked.aim), study.order(asked.aim));
    let planned = study.planned_work();
    let best = asked.found_best(study);
    Object::new()
        .with("aim", asked.aim.word())
        .found("before", ranking, |found| figures(&found.before))
        .found("ranking", ranking, |found| list(&found.ranked, ranked))
        .found("order", order, |order| list(&order.steps, step))
        .found("left_open", ranking, |found| {
            list(&found.left_open, |left| why_not(left.gap, left.why))
        })
        .with("budget", asked.budget)
        .with("best", best.as_ref().map(|best| offered(&best.plan)))
        .with("ticked", planned.plan.as_ref().map(offered))
        .list("ticked_refused", &planned.refused, |(gap, why)| {
            why_not(*gap, why)
        })
}

/// What a quotation of the planned gaps, or of those proposed, and an invoice of those sealed come to.
pub(super) fn papers(study: &Study) -> Object {
    let work = study.ordered().work();
    let invoice = Bill::of_done_work(study.survey());
    Object::new()
        .found("quotation", work, |work| bill(work.bill()))
        .found("invoice", &invoice, bill)
}

fn bill(bill: &Bill) -> Object {
    Object::new()
        .list("lines", &bill.lines, |line| {
            Object::new()
                .with("gap", line.gap.0)
                .with("quantity", line.quantity)
                .with("unit_price", line.unit_price)
                .with("material", line.material)
                .with("minutes", line.minutes)
                .with("labour", line.labour)
                .with("price", line.price)
        })
        .with("net", bill.net)
        .list("taxes", &bill.taxes, |tax| {
            Object::new()
                .with("percent", tax.percent)
                .with("net", tax.net)
                .with("tax", tax.amount)
        })
        .with("tax", bill.tax)
        .with("gross", bill.gross)
}

/// A gap that is not to be sealed, and the reason.
fn why_not(gap: GapId, why: impl Display) -> Object {
    Object::new()
        .with("gap", gap.0)
        .with("why", why.to_string())
}

fn ranked(one: &Ranked) -> Object {
    remedy(&one.sealable)
        .with("saves", figures(&one.saves))
        .with("saving_by_cost", one.saving_per_cost)
        .with("payback_winters", payback_winters(&one.payback))
}

/// Winters until it has paid for itself; never by heat alone is no number but a reason.
fn payback_winters(payback: &Answer<Payback>) -> Answer<f64> {
    match payback.clone()? {
        Payback::Winters(winters) => Ok(winters),
        Payback::NeverByHeatAlone => Err(NotKnown::because(format!(
            "never by heat alone: it would take more than {}",
            Kind::Winters.typed(MOST_WINTERS)
        ))),
    }
}

fn remedy(sealable: &Sealable) -> Object {
    let remedy = sealable.remedy();
    Object::new()
        .with("gap", sealable.gap().0)
        .with("remedy", remedy.kind.word())
        .with("words", &remedy.words)
        .with("leak_left_percent", sealable.leak_left() * 100.0)
        .with("assumed", sealable.is_assumed())
        .with("heed", sealable.heed())
        .with("cost", sealable.cost().map(cost))
}

fn cost(cost: Cost) -> Object {
    Object::new()
        .with("whole", cost.whole())
        .with("priced", cost.priced)
        .with("material", cost.material)
        .with("labour", cost.labour)
        .with("tax", cost.tax)
        .with("minutes", cost.minutes)
        .with("assumed", cost.assumed)
}

fn step(step: &Step) -> Object {
    Object::new()
        .with("gap", step.sealable.gap().0)
        .with("spent", step.spent)
        .with("after", figures(&step.after))
}

fn figures(figures: &Figures) -> Object {
    Object::new()
        .with("ach_calmest_per_h", &figures.ach_calm_per_h)
        .with("ach_windiest_per_h", &figures.ach_windy_per_h)
        .with("ach_season_per_h", &figures.ach_season_per_h)
        .with("removal_l_per_day", &figures.removal_l_per_day)
        .with("air_heat_w", figures.air_heat_w)
        .with("winter_cost", &figures.winter_cost)
}

fn plan(plan: &Plan) -> Object {
    let (leakage_before, leakage_after) = &plan.leakage_unintended;
    let (sleeper_before, sleeper_after) = &plan.air_per_sleeper;
    let area = |total: &LeakageTotal| total.figures.eqla * MM2_PER_M2;
    Object::new()
        .list("gaps", &plan.gaps, |gap| {
            remedy(&gap.sealable)
                .with("saves_alone", figures(&gap.saves_alone))
                .with("saves_last", figures(&gap.saves_last))
        })
        .with("cost", plan.cost)
        .list("cost_not_known_gaps", &plan.cost_not_known, |gap| gap.0)
        .with("minutes", plan.minutes)
        .with("minutes_not_priced", plan.minutes_not_priced)
        .with("before", figures(&plan.before))
        .with("after", figures(&plan.after))
        .found("unintended_eqla_10pa_before_mm2", leakage_before, area)
        .found("unintended_eqla_10pa_after_mm2", leakage_after, area)
        .list("together", &plan.together, |one| {
            Object::new()
                .with("aim", one.aim.word())
                .with("sum_alone", one.sum_alone)
                .with("together", one.together)
        })
        .list("flow_shifts", &plan.shifts, shift)
        .with("payback_winters", payback_winters(&plan.payback))
        .with("safety_before", safety(&plan.safety.0))
        .with("safety_after", safety(&plan.safety.1))
        .found("air_per_sleeper_before", sleeper_before, sleeper)
        .found("air_per_sleeper_after", sleeper_after, sleeper)
        .list("findings", &plan.findings, super::findings::finding)
}

fn shift(shift: &FlowShift) -> Object {
    Object::new()
        .with("gap", shift.gap.0)
        .with("sealed", shift.sealed)
        .with("mass_flow_in_before_kg_s", shift.before_kg_s.0)
        .with("mass_flow_out_before_kg_s", shift.before_kg_s.1)
        .with("mass_flow_in_after_kg_s", shift.after_kg_s.0)
        .with("mass_flow_out_after_kg_s", shift.after_kg_s.1)
}

fn sleeper(air: &AirPerSleeper) -> Object {
    Object::new()
        .with("calmest_m3_per_h", air.calm_m3_per_h)
        .with("windiest_m3_per_h", air.windy_m3_per_h)
}
