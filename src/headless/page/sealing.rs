//! What to seal first, what a plan comes to, and what stays open.

use super::Unknowns;
use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{self, figure};
use crate::assess::sealing::{Aim, AirPerSleeper, Figures, Plan, Ranked};
use crate::assess::{Answer, Safety};
use crate::headless::decisions::{Decisions, Sealing};
use crate::survey::{GapId, Survey};

/// Gaps of the ranking that are printed; all are in JSON.
const RANKED: usize = 15;

pub(super) fn print(page: &mut Page, survey: &Survey, decisions: &Decisions) {
    page.heading("Sealing plan");
    let section = Section { survey, decisions };
    match &decisions.sealing {
        Err(unknown) => page.hanging("not known: ", &unknown.reason),
        Ok(sealing) => {
            section.ranking(page, sealing);
            section.left_open(page, sealing);
        }
    }
    for (gap, why) in &decisions.refused {
        let words = format!("{} is ticked to be sealed, but {why}", section.name(*gap));
        page.hanging("! ", &words);
    }
    if let (Some(budget), Some(best)) = (decisions.asked.budget, &decisions.best) {
        let currency = &survey.tariffs.currency;
        section.plan(
            page,
            &format!("Best set for at most {} {currency}", figure(budget, 4)),
            best,
        );
    }
    if let Some(ticked) = &decisions.ticked {
        section.plan(page, "The plan as ticked", ticked);
    }
}

struct Section<'a> {
    survey: &'a Survey,
    decisions: &'a Decisions,
}

impl Section<'_> {
    fn name(&self, id: GapId) -> String {
        match self.survey.gap(id) {
            Some(gap) if !gap.name.trim().is_empty() => format!("{id} {}", gap.name.trim()),
            _ => format!("gap {id}"),
        }
    }

    fn ranking(&self, page: &mut Page, sealing: &Sealing) {
        let aim = self.decisions.asked.aim;
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column("sealed alone, it saves", Set::Words, 34)
            .column("ACH windy", Set::Numbers, 12)
            .column("L/day", Set::Numbers, 12)
            .column("W", Set::Numbers, 12)
            .column(
                format!("cost {}", self.survey.tariffs.currency),
                Set::Numbers,
                12,
            )
            .column("by", Set::Words, 14);
        for one in sealing.ranked.iter().take(RANKED) {
            let cost = one.sealable.cost();
            table.row([
                self.name(one.sealable.gap()),
                unknowns.or(&one.saves.ach_windy_per_h, |ach| words::air_changes(*ach)),
                unknowns.or(&one.saves.removal_l_per_day, |litres| {
                    words::litres(*litres)
                }),
                words::watts(one.saves.air_heat_w),
                unknowns.or(&cost, |cost| {
                    let mark = if cost.labour.is_none() { " †" } else { "" };
                    format!("{}{mark}", words::money(cost.priced))
                }),
                format!(
                    "{}{}",
                    one.sealable.remedy().kind.name(),
                    if one.sealable.is_assumed() { " *" } else { "" }
                ),
            ]);
        }
        if sealing.ranked.is_empty() {
            page.line("No gap may be sealed.");
            return;
        }
        table.print(page);
        unknowns.print(page);
        if sealing.ranked.len() > RANKED {
            let more = sealing.ranked.len() - RANKED;
            page.line(format!("  … and {more} more, in `--json`"));
        }
        page.hanging(
            "  ",
            &format!(
                "Ranked by {}; the balance struck again with each gap sealed. * this program's suggestion \
                 [A]: own remedies, prices and times go into the survey.",
                aim.name()
            ),
        );
        let unpriced = |one: &Ranked| one.sealable.cost().is_ok_and(|cost| cost.labour.is_none());
        if sealing.ranked.iter().any(unpriced) {
            page.hanging(
                "  ",
                "† the material alone: no hourly rate is given, so the work has no price and nothing \
                 has a payback. Give the workshop's rate, or 0 if the work is to count nothing.",
            );
        }
        self.curve(page, sealing, aim);
    }

    /// What the money buys, in the greedy order.
    fn curve(&self, page: &mut Page, sealing: &Sealing, aim: Aim) {
        let steps = &sealing.order.steps;
        let Some(last) = steps.last() else { return };
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!("spent, {}", self.survey.tariffs.currency),
                Set::Numbers,
                12,
            )
            .column("gaps", Set::Numbers, 8)
            .column("ACH still", Set::Numbers, 12)
            .column("ACH windy", Set::Numbers, 12)
            .column("L/day", Set::Numbers, 12)
            .column("W", Set::Numbers, 12);
        let mut row = |spent: f64, gaps: usize, figures: &Figures| {
            table.row([
                words::money(spent),
                gaps.to_string(),
                unknowns.or(&figures.ach_calm_per_h, |ach| words::air_changes(*ach)),
                unknowns.or(&figures.ach_windy_per_h, |ach| words::air_changes(*ach)),
                unknowns.or(&figures.removal_l_per_day, |litres| words::litres(*litres)),
                words::watts(figures.air_heat_w),
            ]);
        };
        row(0.0, 0, &sealing.order.before);
        // Some five points on the way show the curve.
        let every = steps.len().div_ceil(5);
        for (at, step) in (1..).zip(steps) {
            if at % every == 0 || step == last {
                row(step.spent, at, &step.after);
            }
        }
        page.blank();
        page.line(format!(
            "In the order of most saving for the money ({}):",
            aim.name()
        ));
        table.print(page);
        unknowns.print(page);
    }

    fn left_open(&self, page: &mut Page, sealing: &Sealing) {
        if sealing.left_open.is_empty() {
            return;
        }
        page.blank();
        page.line("Stays as it is:");
        for left in &sealing.left_open {
            page.hanging("  ", &format!("{}: {}", self.name(left.gap), left.why));
        }
    }

    fn plan(&self, page: &mut Page, title: &str, plan: &Answer<Plan>) {
        page.blank();
        page.line(title);
        match plan {
            Err(unknown) => page.hanging("  not known: ", &unknown.reason),
            Ok(plan) if plan.gaps.is_empty() => page.line("  nothing that would save anything"),
            Ok(plan) => self.worked_out(page, plan),
        }
    }

    fn worked_out(&self, page: &mut Page, plan: &Plan) {
        let names: Vec<String> = plan
            .gaps
            .iter()
            .map(|gap| self.name(gap.sealable.gap()))
            .collect();
        page.hanging("  seal ", &names.join("; "));
        let currency = &self.survey.tariffs.currency;
        let payback = match &plan.payback_winters {
            Ok(winters) => format!("pays back in {} winters", figure(*winters, 2)),
            Err(unknown) => format!("payback not known: {}", unknown.reason),
        };
        page.hanging(
            "  ",
            &format!(
                "costs {} {currency}{}, {} minutes of work; {payback}",
                words::money(plan.cost),
                if plan.minutes_not_priced > 0.0 {
                    " without the work"
                } else {
                    ""
                },
                figure(plan.minutes, 3)
            ),
        );
        self.before_and_after(page, plan);
        safety(page, plan);
        for one in &plan.together {
            if one.aim == self.decisions.asked.aim {
                page.hanging(
                    "  ",
                    &format!(
                        "{}: one by one they save {} {unit}, together {} {unit}: sealing one gap shifts \
                         air to others",
                        one.aim.name(),
                        figure(one.sum_alone, 3),
                        figure(one.together, 3),
                        unit = one.aim.unit()
                    ),
                );
            }
        }
        for finding in &plan.findings {
            let words = format!("{}: {}", finding.severity.name(), finding.sentence);
            page.hanging("! ", &words);
            page.hanging("  → ", &finding.advice);
        }
    }

    fn before_and_after(&self, page: &mut Page, plan: &Plan) {
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column("", Set::Words, 44)
            .column("before", Set::Numbers, 15)
            .column("after", Set::Numbers, 15);
        let (before, after) = (&plan.before, &plan.after);
        let (eqla_before, eqla_after) = &plan.eqla_unintended;
        let (sleeper_before, sleeper_after) = &plan.air_per_sleeper;
        let sleeper = |of: fn(&AirPerSleeper) -> f64| {
            [sleeper_before, sleeper_after].map(|air| air.as_ref().map(of).map_err(Clone::clone))
        };
        let [still_before, still_after] = sleeper(|air| air.calm_m3_per_h);
        let [windy_before, windy_after] = sleeper(|air| air.windy_m3_per_h);
        let winter = format!(
            "cost of a winter by electricity, {}",
            self.survey.tariffs.currency
        );
        let rows: [Line<'_>; 9] = [
            (
                "EqLA, unintended gaps, cm²",
                eqla_before.clone(),
                eqla_after.clone(),
                words::leakage_cm2,
            ),
            (
                "ACH still",
                before.ach_calm_per_h.clone(),
                after.ach_calm_per_h.clone(),
                words::air_changes,
            ),
            (
                "ACH windy",
                before.ach_windy_per_h.clone(),
                after.ach_windy_per_h.clone(),
                words::air_changes,
            ),
            (
                "ACH over the season",
                before.ach_season_per_h.clone(),
                after.ach_season_per_h.clone(),
                words::air_changes,
            ),
            (
                "water to remove, L/day",
                before.removal_l_per_day.clone(),
                after.removal_l_per_day.clone(),
                words::litres,
            ),
            (
                "heat with the air, W",
                Ok(before.air_heat_w),
                Ok(after.air_heat_w),
                words::watts,
            ),
            (
                &winter,
                before.winter_cost.clone(),
                after.winter_cost.clone(),
                words::money,
            ),
            (
                "outside air for each sleeper, still, m³/h",
                still_before,
                still_after,
                |flow| figure(flow, 2),
            ),
            (
                "outside air for each sleeper, windy, m³/h",
                windy_before,
                windy_after,
                |flow| figure(flow, 2),
            ),
        ];
        for (name, before, after, said) in rows {
            let before = unknowns.or(&before, |value| said(*value));
            let after = unknowns.or(&after, |value| said(*value));
            table.row([name.to_owned(), before, after]);
        }
        table.print(page);
        unknowns.print(page);
    }
}

/// A figure of a plan: its name, before, after, and how it is written.
type Line<'a> = (&'a str, Answer<f64>, Answer<f64>, fn(f64) -> String);

/// Safety ventilation before and after: a plan never touches it.
fn safety(page: &mut Page, plan: &Plan) {
    let (before, after) = &plan.safety;
    let words = |safety: &Safety| format!("{}.", safety.verdict.sentence_in_capitals());
    page.hanging("  safety ventilation before: ", &words(before));
    page.hanging("  safety ventilation after: ", &words(after));
}
