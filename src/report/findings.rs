//! What the program noticed: worst first, how much of each kind, where each is.

use super::{Block, Section};
use crate::assess::words::{capital, counted};
use crate::survey::{Finding, Item, Severity};

/// What could hurt a person stands before what only spoils a result.
pub(crate) const ORDER: [Severity; 4] = [
    Severity::Danger,
    Severity::Error,
    Severity::Warning,
    Severity::Note,
];

/// Warnings told before the rest is only counted.
const MOST_WARNINGS: usize = 12;

fn of(findings: &[Finding], severity: Severity) -> impl Iterator<Item = &Finding> {
    let all = findings.iter();
    all.filter(move |finding| finding.severity == severity)
}

/// All findings, the worst first.
pub(crate) fn worst_first(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    ORDER
        .into_iter()
        .flat_map(move |severity| of(findings, severity))
}

/// `1 danger, 2 errors, no warnings, 3 notes`.
pub(crate) fn counts(findings: &[Finding]) -> String {
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

/// A finding as a block.
pub(crate) fn block(finding: &Finding) -> Block {
    Block::Finding {
        title: capital(finding.severity.name()),
        text: format!(
            "{}. {}.",
            capital(&finding.sentence),
            capital(&finding.advice)
        ),
        grave: matches!(finding.severity, Severity::Danger | Severity::Error),
        finding: finding.clone(),
    }
}

/// All dangers and errors, the first warnings, and how many more there are. Those that `told` names
/// stand elsewhere.
pub(crate) fn section(findings: &[Finding], told: impl Fn(&Finding) -> bool) -> Section {
    let mut section = Section::new("What to keep in mind");
    if findings.is_empty() {
        return section.ending("Nothing is missing, doubtful or dangerous as far as was recorded.");
    }
    section.paragraph(format!("Findings: {}.", counts(findings)));
    let mut left_out = Vec::new();
    for severity in ORDER {
        let most = match severity {
            Severity::Danger | Severity::Error => usize::MAX,
            Severity::Warning => MOST_WARNINGS,
            Severity::Note => 0,
        };
        let of_it = of(findings, severity).filter(|one| !told(one));
        of_it.take(most).for_each(|one| {
            section.push(block(one));
        });
        let name = severity.name();
        let more = of(findings, severity).count().saturating_sub(most);
        if more > 0 {
            left_out.push(counted(more, name, &format!("{name}s")));
        }
    }
    if !left_out.is_empty() {
        let all = "`gapledger check` list all of them.";
        if section.blocks.len() == 1 {
            // None stands here: the counts and where they are, in one line.
            let words = format!("Findings: {}. The window and {all}", counts(findings));
            return Section::new(section.title).ending(words);
        }
        section.note(format!(
            "And {} more: the window and {all}",
            left_out.join(" and ")
        ));
    }
    section
}

/// What a finding is about, in words.
pub(crate) fn about(item: Item) -> String {
    match item {
        Item::Header => "the survey's title".to_owned(),
        Item::Vehicle => "the vehicle".to_owned(),
        Item::Site => "the site and its weather".to_owned(),
        Item::Targets => "the targets".to_owned(),
        Item::Tariffs => "the prices".to_owned(),
        Item::Job => "customer and papers".to_owned(),
        Item::Drying => "contents, sun and supply".to_owned(),
        Item::Stay => "winter".to_owned(),
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
        Item::FanTest(id) => format!("fan test {id}"),
        Item::AirTest(id) => format!("air test {id}"),
        Item::Series(id) => format!("logger {id}"),
        Item::Trial(id) => format!("trial {id}"),
        Item::Ledger => "the ledger".to_owned(),
        Item::SafetyVentilation => "safety ventilation".to_owned(),
    }
}
