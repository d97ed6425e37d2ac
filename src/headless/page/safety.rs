//! The box about safety ventilation.

use super::Unknowns;
use super::layout::{Page, WIDTH, pad_right, width, wrap};
use super::table::{Set, Table};
use super::words::{figure, given};
use crate::assess::{Answer, Assessment, Safety, SafetyVerdict};

const MM2: f64 = 1e6;

/// One line: whether the table is met.
pub(super) fn verdict(safety: &Safety) -> String {
    match &safety.verdict {
        SafetyVerdict::Meets => {
            "MEETS THE TABLE, as far as free areas say; whether the openings are clear must be seen."
                .to_owned()
        }
        SafetyVerdict::Below { high_share, low_share } => format!(
            "BELOW THE TABLE: {} % of the high and {} % of the low area asked for.",
            given((high_share * 100.0).floor()),
            given((low_share * 100.0).floor())
        ),
        SafetyVerdict::NotKnown(unknown) => {
            format!("NOT KNOWN whether it suffices: {}.", unknown.reason)
        }
    }
}

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
    let required = &safety.required;
    let rows: [(&str, &Answer<f64>, Answer<f64>); 3] = [
        (
            "high, in the roof",
            &safety.high_in_roof,
            required.clone().map(|required| required.high_in_roof),
        ),
        (
            "or high, elsewhere",
            &safety.high_elsewhere,
            required.clone().map(|required| required.high_elsewhere),
        ),
        (
            "and low, within 100 mm of the floor",
            &safety.low,
            required.clone().map(|required| required.low),
        ),
    ];
    for (label, surveyed, asked) in rows {
        let surveyed = unknowns.or(surveyed, |area| {
            if *area > 0.0 {
                figure(area * MM2, 4)
            } else {
                "none found".to_owned()
            }
        });
        let asked = unknowns.or(&asked, |area| figure(area * MM2, 4));
        table.row([label.to_owned(), surveyed, asked]);
    }
    table.print(page);
    unknowns.print(page);
    page.blank();
    paragraph(page, &verdict(&assessment.safety));
    paragraph(
        page,
        "Roof and other high openings share pro rata. Areas after EN 721 as three guides to \
         conversion approval relay it, edition unstated; the current one is EN 721:2019 [R].",
    );
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
