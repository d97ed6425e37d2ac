//! Findings: at the head of the page, and one by one for `check`.

use super::layout::{Page, pad_right};
use super::words::counted;
use crate::assess::{Assessment, Mark};
use crate::survey::{Finding, Item, Severity};

/// Worst first: what could hurt a person stands before what only spoils a result.
const ORDER: [Severity; 4] = [
    Severity::Danger,
    Severity::Error,
    Severity::Warning,
    Severity::Note,
];

/// Warnings printed at the head of the page before the rest is left to `check`.
const MOST_WARNINGS: usize = 10;

fn of(findings: &[Finding], severity: Severity) -> impl Iterator<Item = &Finding> {
    findings
        .iter()
        .filter(move |finding| finding.severity == severity)
}

/// `1 danger, 2 errors, no warnings, 3 notes`.
fn counts(findings: &[Finding]) -> String {
    ORDER
        .map(|severity| {
            let name = severity.name();
            match of(findings, severity).count() {
                0 => format!("no {name}s"),
                count => counted(count, name, &format!("{name}s")),
            }
        })
        .join(", ")
}

pub(super) fn print(page: &mut Page, assessment: &Assessment) {
    let findings = &assessment.findings;
    if findings.is_empty() {
        page.line("No findings: nothing is missing, doubtful or dangerous as far as was recorded.");
        return;
    }
    page.line(format!("Findings: {}", counts(findings)));
    for severity in ORDER {
        let most = match severity {
            Severity::Danger | Severity::Error => usize::MAX,
            Severity::Warning => MOST_WARNINGS,
            Severity::Note => 0,
        };
        for finding in of(findings, severity).take(most) {
            page.blank();
            block(page, finding, None);
        }
        let left_out = of(findings, severity).count().saturating_sub(most);
        if left_out > 0 {
            page.blank();
            let name = severity.name();
            let more = if most == 0 { "" } else { "more " };
            page.line(format!(
                "{}: `gapledger check` prints {}.",
                counted(
                    left_out,
                    &format!("{more}{name}"),
                    &format!("{more}{name}s")
                ),
                if left_out == 1 { "it" } else { "them" }
            ));
        }
    }
}

/// All findings, one to a block, for `check`.
pub(in crate::headless) fn blocks(findings: &[Finding]) -> String {
    let mut page = Page::default();
    for severity in ORDER {
        for finding in of(findings, severity) {
            block(&mut page, finding, Some(place(finding)));
            page.blank();
        }
    }
    let all = findings
        .iter()
        .map(|one| [&*one.sentence, &*one.advice].concat());
    if let Some(legend) = Mark::legend_of(&all.collect::<String>()) {
        page.paragraph(&format!("{legend}."));
        page.blank();
    }
    page.line(format!("{}.", counts(findings)));
    page.finish()
}

/// Severity word, place if asked for, sentence, and what to do under it.
fn block(page: &mut Page, finding: &Finding, place: Option<String>) {
    let head = pad_right(&finding.severity.name().to_uppercase(), 9);
    match place {
        None => page.hanging(&head, &finding.sentence),
        Some(place) => {
            page.hanging(&head, &place);
            page.hanging("         ", &finding.sentence);
        }
    }
    if !finding.advice.is_empty() {
        page.hanging("       → ", &finding.advice);
    }
}

/// Where a finding is, in words, with the name of the field as in the survey file.
fn place(finding: &Finding) -> String {
    let item = match finding.place.item {
        Item::Header => "header".to_owned(),
        Item::Vehicle => "vehicle".to_owned(),
        Item::Site => "site and weather".to_owned(),
        Item::Targets => "targets".to_owned(),
        Item::Tariffs => "prices".to_owned(),
        Item::Drying => "drying".to_owned(),
        Item::Zone(id) => format!("zone {id}"),
        Item::Gap(id) => format!("gap {id}"),
        Item::Weather(id) => format!("weather case {id}"),
        Item::Fabric(id) => format!("fabric element {id}"),
        Item::Appliance(id) => format!("appliance {id}"),
        Item::Machine(id) => format!("drying machine {id}"),
        Item::Heater(id) => format!("heater {id}"),
        Item::Fan(id) => format!("fan {id}"),
        Item::Source(id) => format!("moisture source {id}"),
        Item::Space(id) => format!("space {id}"),
        Item::InnerOpening(id) => format!("inner opening {id}"),
        Item::Ledger => "ledger".to_owned(),
        Item::SafetyVentilation => "safety ventilation".to_owned(),
    };
    match finding.place.field {
        None => item,
        Some(field) => format!("{item}, {}", field.key()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Field, GapId, Place};

    fn finding(severity: Severity, sentence: &str) -> Finding {
        Finding {
            severity,
            place: Place::at(Item::Gap(GapId(7)), Field::GapWidth),
            sentence: sentence.to_owned(),
            advice: "measure it".to_owned(),
        }
    }

    #[test]
    fn blocks_start_with_danger_and_end_with_counts() {
        let findings = [
            finding(Severity::Error, "first recorded"),
            finding(Severity::Note, "last"),
            finding(Severity::Danger, "could hurt"),
        ];
        let expected = "\
DANGER   gap 7, gap_width_mm
         could hurt
       → measure it

ERROR    gap 7, gap_width_mm
         first recorded
       → measure it

NOTE     gap 7, gap_width_mm
         last
       → measure it

1 danger, 1 error, no warnings, 1 note.
";
        assert_eq!(blocks(&findings), expected);
    }

    #[test]
    fn marks_in_findings_are_explained_before_the_counts() {
        let findings = [finding(Severity::Danger, "below its table, as relayed [R]")];
        let text = blocks(&findings);
        let end = "\
Marks behind a source: [R] read in a text that relays the source.

1 danger, no errors, no warnings, no notes.
";
        assert!(text.ends_with(end), "{text}");
    }
}
