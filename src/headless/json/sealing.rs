//! Ranking, order and plans of sealing.

use super::object::{Object, Value, list};
use super::survey::safety;
use crate::assess::Study;
use crate::assess::answer::{Answer, LeakageTotal};
use crate::assess::sealing::{AirPerSleeper, Cost, Figures, Order, Plan, Ranking, Sealable};
use crate::headless::asked::Asked;
use crate::physics::units::MM2_PER_M2;
use crate::survey::word::Word;

pub(super) fn sealing(study: &Study, asked: Asked) -> Object {
    let offered = |found: Option<&Answer<Plan>>| match found {
        None => Value::Null,
        Some(answer) => Object::new()
            .answer("plan", answer.as_ref().map(plan).map_err(Clone::clone))
            .into(),
    };
    let (ranking, order_of_work) = (study.ranking(asked.aim), study.order(asked.aim));
    let ranking = ranking.as_ref().map_err(Clone::clone);
    let ticked = study.ticked();
    let best = asked.best(study);
    Object::new()
        .with("aim", asked.aim.word())
        .answer(
            "before",
            ranking.clone().map(|found| figures(&found.before)),
        )
        .answer("ranking", ranking.clone().map(ranked))
        .answer(
            "order",
            order_of_work.as_ref().map(order).map_err(Clone::clone),
        )
        .answer("left_open", ranking.map(left_open))
        .with("budget", asked.budget.map_or(Value::Null, Value::from))
        .with("best", offered(best.as_ref().map(|best| &best.plan)))
        .with("ticked", offered(ticked.plan.as_ref()))
        .with(
            "ticked_refused",
            list(&ticked.refused, |(gap, why)| {
                Object::new()
                    .with("gap", gap.0)
                    .with("why", why.to_string())
            }),
        )
}

fn ranked(ranking: &Ranking) -> Vec<Object> {
    list(&ranking.ranked, |one| {
        let per_cost = one.saving_per_cost.map_or(Value::Null, Value::from);
        remedy(&one.sealable)
            .with("saves", figures(&one.saves))
            .with("saving_by_cost", per_cost)
            .answer("payback_winters", one.payback_winters.clone())
    })
}

fn remedy(sealable: &Sealable) -> Object {
    let remedy = sealable.remedy();
    Object::new()
        .with("gap", sealable.gap().0)
        .with("remedy", remedy.kind.word())
        .with("words", remedy.words.as_str())
        .with("leak_left_percent", sealable.leak_left() * 100.0)
        .with("assumed", sealable.is_assumed())
        .or_null("heed", sealable.heed())
        .answer("cost", sealable.cost().map(cost))
}

fn cost(cost: Cost) -> Object {
    Object::new()
        .answer("whole", cost.whole())
        .with("priced", cost.priced)
        .with("material", cost.material)
        .with("labour", cost.labour.map_or(Value::Null, Value::from))
        .with("tax", cost.tax)
        .with("minutes", cost.minutes)
        .with("assumed", cost.assumed)
}

fn order(order: &Order) -> Vec<Object> {
    list(&order.steps, |step| {
        Object::new()
            .with("gap", step.sealable.gap().0)
            .with("spent", step.spent)
            .with("after", figures(&step.after))
    })
}

fn left_open(ranking: &Ranking) -> Vec<Object> {
    list(&ranking.left_open, |left| {
        Object::new()
            .with("gap", left.gap.0)
            .with("why", left.why.to_string())
    })
}

fn figures(figures: &Figures) -> Object {
    Object::new()
        .answer("ach_calmest_per_h", figures.ach_calm_per_h.clone())
        .answer("ach_windiest_per_h", figures.ach_windy_per_h.clone())
        .answer("ach_season_per_h", figures.ach_season_per_h.clone())
        .answer("removal_l_per_day", figures.removal_l_per_day.clone())
        .with("air_heat_w", figures.air_heat_w)
        .answer("winter_cost", figures.winter_cost.clone())
}

fn plan(plan: &Plan) -> Object {
    let (leakage_before, leakage_after) = &plan.leakage_unintended;
    let (sleeper_before, sleeper_after) = &plan.air_per_sleeper;
    let area =
        |total: &Answer<LeakageTotal>| total.clone().map(|all| all.figures.eqla * MM2_PER_M2);
    Object::new()
        .with(
            "gaps",
            list(&plan.gaps, |gap| {
                remedy(&gap.sealable)
                    .with("saves_alone", figures(&gap.saves_alone))
                    .with("saves_last", figures(&gap.saves_last))
            }),
        )
        .with("cost", plan.cost)
        .with(
            "cost_not_known_gaps",
            plan.cost_not_known
                .iter()
                .map(|gap| gap.0)
                .collect::<Vec<u32>>(),
        )
        .with("minutes", plan.minutes)
        .with("minutes_not_priced", plan.minutes_not_priced)
        .with("before", figures(&plan.before))
        .with("after", figures(&plan.after))
        .answer("unintended_eqla_10pa_before_mm2", area(leakage_before))
        .answer("unintended_eqla_10pa_after_mm2", area(leakage_after))
        .with(
            "together",
            list(&plan.together, |one| {
                Object::new()
                    .with("aim", one.aim.word())
                    .with("sum_alone", one.sum_alone)
                    .with("together", one.together)
            }),
        )
        .with("flow_shifts", shifts(plan))
        .answer("payback_winters", plan.payback_winters.clone())
        .with("safety_before", safety(&plan.safety.0))
        .with("safety_after", safety(&plan.safety.1))
        .answer(
            "air_per_sleeper_before",
            sleeper_before.clone().map(sleeper),
        )
        .answer("air_per_sleeper_after", sleeper_after.clone().map(sleeper))
        .with("findings", list(&plan.findings, super::findings::finding))
}

fn shifts(plan: &Plan) -> Vec<Object> {
    list(&plan.shifts, |shift| {
        Object::new()
            .with("gap", shift.gap.0)
            .with("sealed", shift.sealed)
            .with("mass_flow_in_before_kg_s", shift.before_kg_s.0)
            .with("mass_flow_out_before_kg_s", shift.before_kg_s.1)
            .with("mass_flow_in_after_kg_s", shift.after_kg_s.0)
            .with("mass_flow_out_after_kg_s", shift.after_kg_s.1)
    })
}

fn sleeper(air: AirPerSleeper) -> Object {
    Object::new()
        .with("calmest_m3_per_h", air.calm_m3_per_h)
        .with("windiest_m3_per_h", air.windy_m3_per_h)
}
