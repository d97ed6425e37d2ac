//! Safety ventilation, and what to beware of. Always printed.

use super::summary::capital;
use super::words::MM2;
use crate::assess::words::{figure, given};
use crate::assess::{Answer, Assessment, SafetyVerdict};
use crate::sheet::blocks::{Align, Block, Reasons, Section, Table};
use crate::survey::{ApplianceKind, Finding, Item, Severity, Survey};

/// Openings that protect people and are marked as sealed or planned. Comes first on every sheet.
pub(super) fn closed(assessment: &Assessment) -> Section {
    let mut section = Section::new("Openings that must stay open");
    for finding in assessment.findings.iter().filter(|one| is_closed(one)) {
        section.push(danger(finding));
    }
    section
}

/// Whether a finding says that an opening which protects people is sealed, or is to be.
pub(super) fn is_closed(finding: &Finding) -> bool {
    let place = &finding.place;
    finding.severity == Severity::Danger
        && place.field == "state"
        && matches!(place.item, Item::Gap(_))
}

/// A finding in a box.
pub(super) fn danger(finding: &Finding) -> Block {
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
pub(super) fn ventilation(assessment: &Assessment) -> Section {
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
    let required = &safety.required;
    let rows: [(&str, &Answer<f64>, Answer<f64>); 3] = [
        (
            "High, in the roof",
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
        table.row([
            label.to_owned(),
            reasons.or(surveyed, |area| {
                if *area > 0.0 {
                    figure(area * MM2, 4)
                } else {
                    "none found".to_owned()
                }
            }),
            reasons.or(&asked, |area| figure(area * MM2, 4)),
        ]);
    }
    section.table(table, &reasons);
    section.push(verdict(&safety.verdict));
    section.note(
        "Roof and other high openings share pro rata. Areas after EN 721 as three guides to conversion \
         approval relay it, edition unstated; the current one is EN 721:2019 [R].",
    );
    section
}

fn verdict(verdict: &SafetyVerdict) -> Block {
    match verdict {
        SafetyVerdict::Meets => Block::Paragraph {
            text: "Meets the table, as far as free areas say; whether the openings are clear must be seen."
                .to_owned(),
        },
        SafetyVerdict::Below {
            high_share,
            low_share,
        } => Block::Caution {
            title: "Below the table".to_owned(),
            text: format!(
                "{}\u{a0}% of the high and {}\u{a0}% of the low free area asked for. {DEFER}",
                given((high_share * 100.0).floor()),
                given((low_share * 100.0).floor())
            ),
        },
        SafetyVerdict::NotKnown(unknown) => Block::Caution {
            title: "Not known whether it suffices".to_owned(),
            text: format!("{}. {DEFER}", capital(&unknown.reason)),
        },
    }
}

const DEFER: &str = "Follow the local code, and have a licensed fitter check ventilation and gas before \
                     anybody sleeps in it or lights an appliance.";

/// What to beware of: what the vehicle holds decides which of them are printed first, none is
/// left out.
pub(super) fn cautions(survey: &Survey) -> Section {
    let mut section = Section::new("Cautions");
    let burns = survey
        .appliances
        .iter()
        .any(|appliance| !appliance.room_sealed);
    let stove = survey
        .appliances
        .iter()
        .any(|appliance| appliance.kind == ApplianceKind::Stove);
    let flue = if stove {
        "The flues of stove and heaters run hot"
    } else {
        "Flues run hot"
    };
    let monoxide = if burns {
        "An appliance in this vehicle takes its air from the room. Sealing gaps takes away air that may \
         have made up for missing ventilation: check fixed ventilation first, and fit a carbon monoxide \
         alarm (EN 50291-2 is the variant for caravans, motor caravans and boats [S])."
    } else {
        "Anything that burns inside with too little air makes carbon monoxide, which cannot be smelt. \
         Fit a carbon monoxide alarm (EN 50291-2 is the variant for caravans, motor caravans and boats [S])."
    };
    let cautions = [
        (
            "Ventilation and gas",
            "Never close, cover or narrow fixed ventilators, gas drop-out holes, flues, combustion-air or \
             refrigerator openings. Gas heavier than air must be able to fall out. Work on gas belongs to \
             licensed fitters.".to_owned(),
        ),
        ("Carbon monoxide", monoxide.to_owned()),
        (
            "Hot flues",
            format!(
                "{flue}: keep sealant, strip and foam away from them, and use only what their makers allow \
                 there."
            ),
        ),
        (
            "230 V and batteries",
            "Cut off the supply and disconnect the battery before sealing round cables; do not bury cables in \
             foam. Dryers and heaters on one supply must not exceed it. Work on 230 V belongs to \
             electricians. Batteries that give off gas need their own ventilation left open.".to_owned(),
        ),
        (
            "Work at height",
            "Roofs are slippery and many do not bear a person: work from a platform or a secured ladder, and \
             not alone.".to_owned(),
        ),
        (
            "Damp",
            "Find and mend a water leak before sealing beside it; what is sealed in wet, rots.".to_owned(),
        ),
    ];
    for (title, text) in cautions {
        section.push(Block::Caution {
            title: title.to_owned(),
            text,
        });
    }
    section.note("Local codes and licensed trades decide; this sheet does not replace them.");
    section
}
