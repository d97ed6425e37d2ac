//! What one row of the ledger says.

use super::words;
use crate::assess::GapLeakage;
use crate::survey::{Finding, Gap, Item, Survey};
use crate::window::format::{digits, percent};
use crate::window::jobs::Results;

/// A column: its heading, its width, and whether it takes what is left over.
pub(super) struct Column {
    pub(super) heading: &'static str,
    pub(super) width: f32,
    pub(super) grows: bool,
    pub(super) right: bool,
}

const fn column(heading: &'static str, width: f32) -> Column {
    Column {
        heading,
        width,
        grows: false,
        right: false,
    }
}

const fn number(heading: &'static str, width: f32) -> Column {
    Column {
        heading,
        width,
        grows: false,
        right: true,
    }
}

const fn growing(heading: &'static str, width: f32) -> Column {
    Column {
        heading,
        width,
        grows: true,
        right: false,
    }
}

/// The columns, from left to right.
pub(super) const COLUMNS: [Column; 12] = [
    number("no.", 32.0),
    growing("name", 130.0),
    growing("zone", 74.0),
    column("facing", 104.0),
    growing("form & sizes", 158.0),
    number("count", 44.0),
    number("EqLA cm²", 72.0),
    number("share", 48.0),
    column("certainty", 72.0),
    column("purpose", 114.0),
    column("state", 58.0),
    column("", 22.0),
];

/// What a gap's row says, in the order of the columns, and its worst finding.
pub(super) struct Row<'a> {
    pub(super) cells: [String; 11],
    pub(super) finding: Option<&'a Finding>,
}

pub(super) fn row<'a>(
    survey: &Survey,
    results: Option<&'a Results>,
    at: usize,
    gap: &Gap,
) -> Row<'a> {
    let zone = survey
        .zone(gap.zone)
        .map_or_else(String::new, |zone| zone.name.clone());
    let (area, share) = leakage(results, at, gap);
    let finding = results.and_then(|results| {
        let findings = &results.assessment.findings;
        findings
            .iter()
            .filter(|finding| finding.place.item == Item::Gap(gap.id))
            .min_by_key(|finding| finding.severity)
    });
    Row {
        cells: [
            gap.id.to_string(),
            words::name(gap).to_owned(),
            zone,
            gap.facing.name().to_owned(),
            words::form(&gap.form),
            gap.count.to_string(),
            area,
            share,
            gap.certainty.name().to_owned(),
            gap.purpose.name().to_owned(),
            gap.state.name().to_owned(),
        ],
        finding,
    }
}

/// EqLA in cm² and share of all gaps' flow at 10 Pa, in words where there is no figure.
fn leakage(results: Option<&Results>, at: usize, gap: &Gap) -> (String, String) {
    let none = || "–".to_owned();
    let Some(results) = results else {
        return (none(), none());
    };
    let answers = &results.assessment.gaps;
    // Results may be one revision old: the row then stands elsewhere or is not there yet.
    let answer = answers
        .get(at)
        .filter(|answer| answer.id == gap.id)
        .or_else(|| answers.iter().find(|answer| answer.id == gap.id));
    match answer.map(|answer| &answer.leakage) {
        Some(GapLeakage::Known(figures)) => {
            let share = match &results.assessment.leakage.all {
                Ok(all) if all.figures.flow_10pa > 0.0 => {
                    percent(figures.flow_10pa / all.figures.flow_10pa)
                }
                _ => none(),
            };
            (digits(figures.eqla * 1e4), share)
        }
        Some(GapLeakage::NotSized { .. }) => ("not sized".to_owned(), none()),
        Some(GapLeakage::Impossible { .. }) => ("not known".to_owned(), none()),
        Some(GapLeakage::Compartment) => ("outer".to_owned(), none()),
        None => (none(), none()),
    }
}
