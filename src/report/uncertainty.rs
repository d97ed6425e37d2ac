//! How sure the results are, and what to measure next.

use super::Material;
use super::blocks::{Align, Block, Fact, Reasons, Section, Table};
use super::leakage::unintended;
use super::measured::calibrated_sentence;
use super::results::season;
use super::usual;
use crate::assess::quantity::Kind;
use crate::assess::uncertainty::{NotFound, Uncertainty};
use crate::assess::words::capital;
use crate::assess::{Answer, Topic};

/// Inputs that are listed besides the sizes.
const PARTS: usize = 6;
/// What carries less than this is not listed: it may as well be the draws' own scatter.
const LEAST_PART: f64 = 0.005;

/// How sure the results are; those of each weather case stand with the case.
#[must_use]
pub fn section(told: &Material<'_>, found: &Answer<Uncertainty>) -> Section {
    let mut section = Section::new("How sure");
    let found = match found {
        Ok(found) => found,
        Err(unknown) => {
            return section.ending(capital(&format!("{unknown}.")));
        }
    };
    section.facts(
        vec![
            Fact::new("EqLA, unintended gaps", unintended(told).sentence()),
            Fact::new("Mean air change over the season", season(told).sentence())
                .worked_out(Topic::Uncertainty),
        ],
        &Reasons::default(),
    );
    section.notes(calibrated_sentence(told.study).map(|one| format!("{one}.")));
    if let Some(line) = &found.not_found {
        section.paragraph(not_found(found, line));
    }
    measure_next(&mut section, found);
    usual::tell(&mut section, told.survey);
    section.notes(parts(found));
    section.note(format!(
        "{} How far each input may be off is assumed [A]; the result itself stays as it is.",
        very_likely(found)
    ));
    section
}

/// What *very likely* means.
pub(crate) fn very_likely(found: &Uncertainty) -> String {
    format!(
        "Very likely: the middle 95 % of {} draws of all that is uncertain: sizes as measured, \
         estimated or guessed, pressure coefficients, wind (JCGM 101 [M]){}.",
        found.draws,
        match found.calibrated {
            Some(_) => ", weighed by what was measured",
            None => "",
        }
    )
}

fn measure_next(section: &mut Section, found: &Uncertainty) {
    if let Some(outweighed) = &found.outweighed {
        section.paragraph(capital(&format!("{}.", outweighed.sentence)));
    }
    if found.measure_next.is_empty() {
        section.paragraph(
            "Measure next: no single size adds enough uncertainty to be worth measuring again.",
        );
        return;
    }
    let mut table = Table::default().wide("Measure next", Align::Left, 1);
    for next in &found.measure_next {
        let words = format!("{}.", capital(&next.sentence));
        table.row([words]).about(next.item);
    }
    section.push(Block::Table { table });
}

/// The inputs whose uncertainty measuring no size can take away.
fn parts(found: &Uncertainty) -> Option<String> {
    let common: Vec<String> = found
        .air_change_shares
        .iter()
        .filter(|share| share.of.sized().is_none() && share.share >= LEAST_PART)
        .take(PARTS)
        .map(|share| format!("{} {}", share.of.name(), Kind::Share.text(share.share)))
        .collect();
    (!common.is_empty()).then(|| {
        format!(
            "Uncertainty of the air change that comes from no single size: {}.",
            common.join(", ")
        )
    })
}

/// What leakage that nobody found would add.
fn not_found(found: &Uncertainty, line: &NotFound) -> String {
    let more: Vec<String> = found
        .cases
        .iter()
        .zip(&line.ach_per_h)
        .map(|(case, more)| match more {
            Ok(more) => format!("{} +{}", case.name, Kind::AirChanges.text(*more)),
            Err(_) => format!("{} not known", case.name),
        })
        .collect();
    format!(
        "Leakage not found, {} of what was found, would be {} more EqLA; air changes: {}. It is in \
         the intervals, not in the results.",
        Kind::Share.text(line.percent / 100.0),
        Kind::LeakageCm2.text(line.eqla),
        more.join(", ")
    )
}
