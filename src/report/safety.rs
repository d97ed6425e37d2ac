//! Safety ventilation, and what to beware of. Always printed.

use super::blocks::{Align, Block, Reasons, Section, Table};
use super::words::MM2;
use crate::assess::cautions::before_sealing;
use crate::assess::safety::words::{Line, TABLE, area_mm2, defer};
use crate::assess::words::{capital, figure};
use crate::assess::{Assessment, SafetyVerdict};
use crate::survey::{Field, Finding, Item, Severity, Survey};

/// Openings that protect people and are marked as sealed or planned. Comes first on every sheet.
pub(crate) fn closed(assessment: &Assessment) -> Section {
    let mut section = Section::new("Openings that must stay open");
    for finding in assessment.findings.iter().filter(|one| is_closed(one)) {
        section.push(danger(finding));
    }
    section
}

/// Whether a finding says that an opening which protects people is sealed, or is to be.
pub(crate) fn is_closed(finding: &Finding) -> bool {
    let place = &finding.place;
    finding.severity == Severity::Danger
        && place.is_at(Field::State)
        && matches!(place.item, Item::Gap(_))
}

/// A finding in a box.
pub(crate) fn danger(finding: &Finding) -> Block {
    Block::Caution {
        title: capital(finding.severity.name()),
        text: format!(
            "{}. {}.",
            capital(&finding.sentence),
            capital(&finding.advice)
        ),
    }
}

/// Safety ventilation against its table.
pub(crate) fn ventilation(assessment: &Assessment) -> Section {
    let mut section = Section::new("Safety ventilation: never to be sealed");
    let safety = &assessment.safety;
    let mut reasons = Reasons::default();
    let plan = reasons.or(&safety.plan_area_m2, |area| {
        format!("{}\u{a0}m²", figure(*area, 3))
    });
    let mut table = Table::default()
        .wide(format!("Free areas; plan area {plan}"), Align::Left, 1)
        .column("Surveyed, mm²", Align::Decimal)
        .column("Asked for, mm²", Align::Decimal);
    for line in Line::ALL {
        let words = match line {
            Line::HighInRoof => capital(line.words()),
            Line::HighElsewhere | Line::Low => line.words().to_owned(),
        };
        table.row([
            words,
            reasons.or(line.surveyed(safety), |area| area_mm2(*area)),
            reasons.or(&line.asked_for(safety), |area| figure(area * MM2, 4)),
        ]);
    }
    section.table(table, &reasons);
    section.push(verdict(&safety.verdict));
    section.note(TABLE);
    section
}

fn verdict(verdict: &SafetyVerdict) -> Block {
    if *verdict == SafetyVerdict::Meets {
        return Block::Paragraph {
            text: format!("{}.", capital(&verdict.sentence())),
        };
    }
    let grounds = capital(&verdict.grounds()).replace(" %", "\u{a0}%");
    Block::Caution {
        title: capital(verdict.head()),
        text: format!("{grounds}. {}", defer()),
    }
}

/// What to beware of. None is left out.
pub(crate) fn cautions(survey: &Survey) -> Section {
    let mut section = Section::new("Cautions");
    for caution in before_sealing(survey) {
        section.push(Block::Caution {
            title: caution.title.to_owned(),
            text: caution.text,
        });
    }
    section.note("Local codes and licensed trades decide; this sheet does not replace them.");
    section
}
