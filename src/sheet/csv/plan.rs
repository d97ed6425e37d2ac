//! The sealing plan as CSV, one line for each gap in the order of work.

use super::cells::{Writer, flag, harmless, money, number};
use crate::assess::Answer;
use crate::assess::sealing::{Chosen, Work, WorkStep};
use crate::assess::sealing::{Cost, Figures};
use crate::survey::Survey;
use crate::survey::word::Word;

/// What a cell is made from.
struct Line<'a> {
    survey: &'a Survey,
    work: &'a Work,
    step: &'a WorkStep,
    order: usize,
    cost: Answer<Cost>,
}

type Cell = fn(&Line<'_>) -> String;

/// Every column: its header, and its cell for a gap.
const COLUMNS: [(&str, Cell); 23] = [
    ("order", |line| line.order.to_string()),
    ("gap", |line| line.step.sealable.gap().to_string()),
    ("name", |line| {
        let gap = line.survey.gap(line.step.sealable.gap());
        gap.map_or_else(String::new, |gap| harmless(&gap.name))
    }),
    ("zone", |line| {
        let gap = line.survey.gap(line.step.sealable.gap());
        let zone = gap.and_then(|gap| line.survey.zone(gap.zone));
        zone.map_or_else(String::new, |zone| harmless(&zone.name))
    }),
    ("chosen", |line| {
        match line.work.chosen {
            Chosen::Planned => "planned",
            Chosen::Proposed => "proposed",
            Chosen::Within => "within_budget",
        }
        .to_owned()
    }),
    ("remedy", |line| {
        line.step.sealable.remedy().kind.word().to_owned()
    }),
    ("remedy_words", |line| {
        harmless(&line.step.sealable.remedy().words)
    }),
    ("heed", |line| {
        harmless(line.step.sealable.heed().unwrap_or_default())
    }),
    ("leak_left_percent", |line| {
        number(line.step.sealable.remedy().leak_left_percent)
    }),
    ("remedy_assumed", |line| {
        flag(Some(line.step.sealable.is_assumed()))
    }),
    ("cost_basis", |line| {
        line.step.sealable.remedy().cost_basis.word().to_owned()
    }),
    ("quantity", |line| cost(line, |cost| Some(cost.quantity))),
    ("minutes", |line| cost(line, |cost| Some(cost.minutes))),
    ("material_cost", |line| {
        price(line, |cost| Some(cost.material))
    }),
    ("labour_cost", |line| price(line, |cost| cost.labour)),
    ("tax", |line| price(line, |cost| Some(cost.tax))),
    ("total_cost", |line| price(line, |cost| cost.whole().ok())),
    ("currency", |line| harmless(&line.survey.tariffs.currency)),
    ("cost_not_known", |line| {
        let reason = line.cost.as_ref().err();
        reason.map_or_else(String::new, |unknown| harmless(&unknown.reason))
    }),
    ("ach_windy_after_per_h", |line| {
        after(line, |after| after.ach_windy_per_h.clone().ok())
    }),
    ("ach_still_after_per_h", |line| {
        after(line, |after| after.ach_calm_per_h.clone().ok())
    }),
    ("removal_after_l_per_day", |line| {
        after(line, |after| after.removal_l_per_day.clone().ok())
    }),
    ("air_heat_after_w", |line| {
        after(line, |after| Some(after.air_heat_w))
    }),
];

pub(super) fn lines(writer: &mut Writer, survey: &Survey, work: &Work) -> Result<(), csv::Error> {
    writer.write_record(COLUMNS.map(|(header, _)| header))?;
    for (step, order) in work.steps.iter().zip(1..) {
        let line = Line {
            survey,
            work,
            step,
            order,
            cost: step.sealable.cost(),
        };
        writer.write_record(COLUMNS.map(|(_, cell)| cell(&line)))?;
    }
    Ok(())
}

fn cost(line: &Line<'_>, value: fn(&Cost) -> Option<f64>) -> String {
    number(line.cost.as_ref().ok().and_then(value))
}

fn price(line: &Line<'_>, value: fn(&Cost) -> Option<f64>) -> String {
    money(line.cost.as_ref().ok().and_then(value))
}

fn after(line: &Line<'_>, value: fn(&Figures) -> Option<f64>) -> String {
    number(line.step.after.as_ref().and_then(value))
}
