//! Findings as JSON.

use super::object::{Object, plain};
use crate::survey::{Finding, Item, Severity};

pub(super) fn finding_counts(findings: &[Finding]) -> Object {
    let count = |severity| {
        findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    };
    Object::new()
        .with("danger", count(Severity::Danger))
        .with("error", count(Severity::Error))
        .with("warning", count(Severity::Warning))
        .with("note", count(Severity::Note))
}

pub(super) fn finding(finding: &Finding) -> Object {
    let (item, id) = item(finding.place.item);
    Object::new()
        .with("severity", finding.severity.name())
        .with("item", item)
        .with("id", id)
        .with("field", finding.place.field_key())
        .with("sentence", plain(&finding.sentence))
        .with("advice", plain(&finding.advice))
}

/// Word for the part of the survey, and the record's id if it is one.
fn item(item: Item) -> (&'static str, Option<u32>) {
    match item {
        Item::Header => ("header", None),
        Item::Vehicle => ("vehicle", None),
        Item::Site => ("site", None),
        Item::Targets => ("targets", None),
        Item::Tariffs => ("tariffs", None),
        Item::Job => ("job", None),
        Item::Drying => ("drying", None),
        Item::Stay => ("stay", None),
        Item::Zone(id) => ("zone", Some(id.0)),
        Item::Gap(id) => ("gap", Some(id.0)),
        Item::Weather(id) => ("weather", Some(id.0)),
        Item::Fabric(id) => ("fabric", Some(id.0)),
        Item::Appliance(id) => ("appliance", Some(id.0)),
        Item::Machine(id) => ("machine", Some(id.0)),
        Item::Heater(id) => ("heater", Some(id.0)),
        Item::Fan(id) => ("fan", Some(id.0)),
        Item::Source(id) => ("source", Some(id.0)),
        Item::Space(id) => ("space", Some(id.0)),
        Item::InnerOpening(id) => ("inner_opening", Some(id.0)),
        Item::FanTest(id) => ("fan_test", Some(id.0)),
        Item::AirTest(id) => ("air_test", Some(id.0)),
        Item::Series(id) => ("series", Some(id.0)),
        Item::Trial(id) => ("trial", Some(id.0)),
        Item::Ledger => ("ledger", None),
        Item::SafetyVentilation => ("safety_ventilation", None),
    }
}
