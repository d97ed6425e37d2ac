//! The ledger of gaps, by zone.

use super::Material;
use super::blocks::{Align, Reasons, Section, Table};
use super::measured::{by_test, is_by_test};
use super::words::{CM2, long_notes, name, note_in_table, place};
use crate::assess::words::{OUTER_OPENING, form, given, leakage_cm2, remarks, total_figure};
use crate::assess::{Answer, GapLeakage, NotKnown};
use crate::survey::{Gap, Remedy, ZoneId};

pub(crate) fn section(material: &Material<'_>) -> Section {
    let survey = material.survey;
    let mut section = Section::new("Ledger of gaps");
    if survey.gaps.is_empty() {
        section.paragraph("No gap has been written down yet.");
        return section;
    }
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .column("No.", Align::Right)
        .wide("What and where", Align::Left, 4)
        .wide("Form and sizes", Align::Left, 4)
        .column("How sure", Align::Left)
        .column("EqLA, cm²", Align::Decimal)
        .column("Share, %", Align::Decimal)
        .wide("Remedy, state, notes", Align::Left, 4);
    for zone in &survey.zones {
        let gaps: Vec<&Gap> = survey
            .gaps
            .iter()
            .filter(|gap| gap.zone == zone.id)
            .collect();
        if gaps.is_empty() {
            continue;
        }
        table.group(zone.name.clone());
        for gap in gaps {
            table.row(row(material, gap, &mut reasons));
        }
        table.total([
            String::new(),
            format!("{}, together", zone.name),
            String::new(),
            String::new(),
            reasons.or(&zone_total(material, zone.id), String::clone),
        ]);
    }
    let all = material
        .assessment
        .leakage
        .all
        .as_ref()
        .map_err(Clone::clone);
    let all = all.and_then(|total| total_figure(total, total.figures.eqla * CM2, 3));
    table.total([
        String::new(),
        "All gaps".to_owned(),
        String::new(),
        String::new(),
        reasons.or(&all, String::clone),
    ]);
    section.table(table, &reasons);
    if let Some(words) = by_test(survey.gaps.iter()) {
        section.note(words);
    }
    section.note(
        "EqLA: equivalent leakage area at 10 Pa, as the gap stands in this set-up. Share: of all \
         gaps together. Numbers are those on the drawing; heights are above the ground. A query (?) stands for a size that was \
         not taken.",
    );
    long_notes(&mut section, survey.gaps.iter());
    section
}

fn zone_total(material: &Material<'_>, zone: ZoneId) -> Answer<String> {
    let totals = &material.assessment.leakage.by_zone;
    let (_, total) = totals
        .iter()
        .find(|(id, _)| *id == zone)
        .ok_or_else(|| NotKnown::because("the zone has no total"))?;
    let total = total.as_ref().map_err(Clone::clone)?;
    total_figure(total, total.figures.eqla * CM2, 3)
}

fn eqla(material: &Material<'_>, gap: &Gap) -> Answer<f64> {
    let answer = material.assessment.gaps.iter().find(|one| one.id == gap.id);
    match answer.map(|answer| &answer.leakage) {
        Some(GapLeakage::Known(figures)) => Ok(figures.eqla),
        Some(GapLeakage::NotSized { reason } | GapLeakage::Impossible { reason }) => {
            Err(NotKnown::because(reason.clone()))
        }
        Some(GapLeakage::Compartment) => Err(NotKnown::because(OUTER_OPENING)),
        None => Err(NotKnown::because(crate::assess::words::NOT_ASSESSED)),
    }
}

fn row(material: &Material<'_>, gap: &Gap, reasons: &mut Reasons) -> [String; 7] {
    let eqla = eqla(material, gap);
    let share = match (&eqla, &material.assessment.leakage.all) {
        (Ok(eqla), Ok(all)) if all.figures.eqla > 0.0 => {
            format!("{:.1}", eqla / all.figures.eqla * 100.0)
        }
        _ => String::new(),
    };
    [
        gap.id.to_string(),
        format!("{}\n{}", name(gap), place(gap)),
        form(gap),
        if is_by_test(gap) {
            format!("{},\nby test", gap.certainty.name())
        } else {
            gap.certainty.name().to_owned()
        },
        reasons.or(&eqla, |area| leakage_cm2(*area)),
        share,
        notes(material, gap),
    ]
}

fn notes(material: &Material<'_>, gap: &Gap) -> String {
    let mut lines = remarks(gap, material.assessment.set_up);
    if gap.purpose.must_stay_open() {
        lines.push("must stay open".to_owned());
    }
    if !gap.state_date.trim().is_empty() {
        lines.push(gap.state_date.trim().to_owned());
    }
    let mut all = vec![lines.join(", ")];
    if let Some(own) = &gap.remedy {
        all.push(remedy(own));
    }
    if !gap.damp.trim().is_empty() {
        all.push(format!("damp reading: {}", gap.damp.trim()));
    }
    all.push(note_in_table(&gap.note));
    all.retain(|line| !line.is_empty());
    all.join("\n")
}

/// A remedy in words: `strip: compressible strip, leaves 15 %`.
pub(crate) fn remedy(remedy: &Remedy) -> String {
    let words = match remedy.words.trim() {
        "" => String::new(),
        words => format!(": {words}"),
    };
    let left = remedy.leak_left_percent.map_or_else(String::new, |left| {
        format!(", leaves {}\u{a0}%", given(left))
    });
    format!("{}{words}{left}", remedy.kind.name())
}
