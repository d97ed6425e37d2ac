//! The ledger, the leakiest gap first.

use super::layout::Page;
use super::leakage::share;
use super::old_table::{Set, Table};
use super::words::{facing, figure, form, remarks};
use crate::assess::{Assessment, GapAnswer, GapLeakage};
use crate::survey::{Gap, Survey};

const CM2: f64 = 1e4;

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading("Gaps, the leakiest first");
    if survey.gaps.is_empty() {
        page.line("No gap has been written down.");
        return;
    }
    let mut lines: Vec<(&Gap, &GapAnswer)> = survey
        .gaps
        .iter()
        .filter_map(|gap| {
            let answer = assessment.gaps.iter().find(|answer| answer.id == gap.id)?;
            Some((gap, answer))
        })
        .collect();
    let eqla = |answer: &GapAnswer| answer.leakage.figures().map(|figures| figures.eqla);
    // Gaps without a figure come last; among equals the ledger's order stays.
    lines.sort_by(|(_, a), (_, b)| match (eqla(a), eqla(b)) {
        (Some(a), Some(b)) => b.total_cmp(&a),
        (a, b) => b.is_some().cmp(&a.is_some()),
    });
    let whole = assessment
        .leakage
        .all
        .as_ref()
        .ok()
        .map(|total| total.figures.eqla);
    let mut table = Table::default()
        .column("no.", Set::Numbers, 5)
        .column("gap", Set::Words, 21)
        .column("zone, facing", Set::Words, 16)
        .column("form and sizes", Set::Words, 25)
        .column("EqLA cm²", Set::Numbers, 10)
        .column("%", Set::Numbers, 3)
        .column("size is", Set::Words, 9);
    for (gap, answer) in &lines {
        let (area, part) = area(answer, whole);
        table.row([
            gap.id.to_string(),
            name(gap, assessment),
            place(survey, gap),
            form(gap),
            area,
            part,
            gap.certainty.name().to_owned(),
        ]);
    }
    table.print(page);
    reasons(page, &lines);
}

fn name(gap: &Gap, assessment: &Assessment) -> String {
    let name = if gap.name.trim().is_empty() {
        "(no name)"
    } else {
        gap.name.trim()
    };
    let remarks = remarks(gap, assessment.set_up);
    if remarks.is_empty() {
        name.to_owned()
    } else {
        format!("{name} [{}]", remarks.join("; "))
    }
}

fn place(survey: &Survey, gap: &Gap) -> String {
    let zone = survey
        .zone(gap.zone)
        .map_or_else(|| format!("zone {}", gap.zone), |zone| zone.name.clone());
    format!("{zone}, {}", facing(gap.facing))
}

fn area(answer: &GapAnswer, whole: Option<f64>) -> (String, String) {
    let dash = || "–".to_owned();
    match &answer.leakage {
        GapLeakage::Known(figures) => (
            figure(figures.eqla * CM2, 3),
            match whole {
                Some(whole) if whole > 0.0 => share(figures.eqla / whole),
                _ => dash(),
            },
        ),
        GapLeakage::NotSized { .. } => ("not sized".to_owned(), dash()),
        GapLeakage::Impossible { .. } => ("impossible".to_owned(), dash()),
        GapLeakage::Compartment => ("outer".to_owned(), dash()),
    }
}

/// Under the table: why a gap has no figure.
fn reasons(page: &mut Page, lines: &[(&Gap, &GapAnswer)]) {
    let mut any = false;
    let mut outer = false;
    for (gap, answer) in lines {
        let (head, reason) = match &answer.leakage {
            GapLeakage::NotSized { reason } => ("not sized, in no total", reason),
            GapLeakage::Impossible { reason } => ("impossible", reason),
            GapLeakage::Compartment => {
                outer = true;
                continue;
            }
            GapLeakage::Known(_) => continue,
        };
        if !any {
            page.blank();
            any = true;
        }
        page.hanging(&format!("{head}, gap {}: ", gap.id), reason);
    }
    if outer {
        if !any {
            page.blank();
        }
        page.hanging(
            "outer: ",
            "the outer opening of a compartment; it counts only through the gaps behind it",
        );
    }
}
