//! The box about safety ventilation.

use super::Unknowns;
use super::layout::{Page, WIDTH, pad_right, width, wrap};
use super::old_table::{Set, Table};
use super::words::figure;
use crate::assess::Assessment;
use crate::assess::safety::words::{Line, TABLE, area_mm2};

const MM2: f64 = 1e6;

pub(super) fn print(page: &mut Page, assessment: &Assessment) {
    let mut inside = Page::default();
    contents(&mut inside, assessment);
    page.blank();
    boxed(
        page,
        "SAFETY VENTILATION: NEVER A SEALING TARGET",
        &inside.finish(),
    );
}

fn contents(page: &mut Page, assessment: &Assessment) {
    let safety = &assessment.safety;
    let mut unknowns = Unknowns::default();
    let plan = unknowns.or(&safety.plan_area_m2, |area| {
        format!("{} m²", figure(*area, 3))
    });
    let mut table = Table::default()
        .column(format!("free areas; plan area {plan}"), Set::Words, 40)
        .column("surveyed, mm²", Set::Numbers, 15)
        .column("asked for, mm²", Set::Numbers, 15);
    for line in Line::ALL {
        let surveyed = unknowns.or(line.surveyed(safety), |area| area_mm2(*area));
        let asked = unknowns.or(&line.asked_for(safety), |area| figure(area * MM2, 4));
        table.row([line.words().to_owned(), surveyed, asked]);
    }
    table.print(page);
    unknowns.print(page);
    page.blank();
    let verdict = &assessment.safety.verdict;
    paragraph(page, &format!("{}.", verdict.sentence_in_capitals()));
    paragraph(page, TABLE);
    paragraph(
        page,
        "Fixed ventilators, gas drop-out openings, flues, combustion-air and refrigerator \
         ventilation stay open. Local codes and licensed fitters decide, not this page.",
    );
}

/// The widest text that fits between the sides of the box.
const INSIDE: usize = WIDTH - 4;

fn paragraph(page: &mut Page, text: &str) {
    for line in wrap(text, INSIDE) {
        page.line(line);
    }
}

fn boxed(page: &mut Page, title: &str, text: &str) {
    let rule = |used: usize| "─".repeat(WIDTH.saturating_sub(used));
    page.line(format!("┌─ {title} {}┐", rule(width(title) + 5)));
    for long in text.lines() {
        let lines = if width(long) > INSIDE {
            wrap(long, INSIDE)
        } else {
            vec![long.to_owned()]
        };
        for line in lines {
            page.line(format!("│ {} │", pad_right(&line, INSIDE)));
        }
    }
    page.line(format!("└{}┘", rule(2)));
}
