//! How sure the headlines are, and which size to measure better.

use super::Unknowns;
use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{self, figure};
use crate::assess::uncertainty::{Interval, Uncertainty};
use crate::assess::{Answer, Assessment};
use crate::headless::decisions::Decisions;

const CM2: f64 = 1e4;
/// Parts of the doubt listed.
const PARTS: usize = 6;

pub(super) fn print(page: &mut Page, assessment: &Assessment, decisions: &Decisions) {
    page.heading("How sure");
    match &decisions.uncertainty {
        Err(unknown) => page.hanging("not known: ", &unknown.reason),
        Ok(found) => {
            intervals(page, assessment, found);
            page.blank();
            parts(page, found);
            page.paragraph(&format!(
                "95 % of {} draws of everything in doubt lie between low and high (JCGM 101 [M]); the \
                 spreads of the inputs are assumptions [A]. The headline stays the plain result.",
                found.draws
            ));
        }
    }
}

fn intervals(page: &mut Page, assessment: &Assessment, found: &Uncertainty) {
    let mut unknowns = Unknowns::default();
    let mut table = Table::default()
        .column("95 % interval", Set::Words, 44)
        .column("result", Set::Numbers, 15)
        .column("low", Set::Numbers, 15)
        .column("high", Set::Numbers, 15);
    let mut row =
        |name: String, result: Answer<f64>, interval: Answer<Interval>, said: fn(f64) -> String| {
            let result = unknowns.or(&result, |value| said(*value));
            let low = unknowns.or(&interval, |found| figure(found.low, 2));
            let high = unknowns.or(&interval, |found| figure(found.high, 2));
            table.row([name, result, low, high]);
        };
    let scaled = |interval: &Interval| Interval {
        low: interval.low * CM2,
        high: interval.high * CM2,
        ..*interval
    };
    let unintended = assessment.leakage.unintended.clone();
    row(
        "EqLA, unintended gaps, cm²".to_owned(),
        unintended.map(|total| total.figures.eqla),
        Ok(scaled(&found.eqla_unintended)),
        words::leakage_cm2,
    );
    for (case, answer) in found.cases.iter().zip(&assessment.cases) {
        let air = answer.air.as_ref().map_err(Clone::clone);
        row(
            format!("{}: air changes an hour", case.name),
            air.and_then(|air| air.mean_ach_per_h.clone()),
            case.ach_per_h.clone(),
            words::air_changes,
        );
        let drying = answer.drying.as_ref().map_err(Clone::clone);
        row(
            format!("{}: water to remove, L/day", case.name),
            drying.map(|drying| drying.at_set_temperature.l_per_day()),
            case.removal_l_per_day.clone(),
            words::litres,
        );
        let heat = answer.heat.as_ref().map_err(Clone::clone);
        row(
            format!("{}: heat, W", case.name),
            heat.and_then(|heat| heat.set_temperature.total_w()),
            case.heat_w.clone(),
            words::watts,
        );
    }
    table.print(page);
    unknowns.print(page);
    if let Some(line) = &found.not_found {
        page.hanging(
            "  ",
            &format!(
                "Leakage not found, {} % of what was found: {} cm² more EqLA, a line of its own; it is in \
                 the intervals, not in the results.",
                figure(line.percent, 3),
                words::leakage_cm2(line.eqla)
            ),
        );
    }
}

fn parts(page: &mut Page, found: &Uncertainty) {
    if !found.measure_next.is_empty() {
        page.line("Measure next:");
        for next in &found.measure_next {
            page.hanging("  ", &next.sentence);
        }
    }
    let common: Vec<String> = found
        .air_change_shares
        .iter()
        .filter(|share| share.of.sized().is_none())
        .take(PARTS)
        .map(|share| format!("{} {:.0} %", share.of.name(), share.share * 100.0))
        .collect();
    if !common.is_empty() {
        page.hanging(
            "  ",
            &format!("Not single sizes' own: {}.", common.join(", ")),
        );
    }
}
