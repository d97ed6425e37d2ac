//! The air of each space inside, where there is more than one.

use super::Material;
use super::blocks::{Align, Reasons, Section, Table};
use crate::assess::NotKnown;
use crate::assess::words::figure;

const PER_H: f64 = 3600.0;

/// Adds a table with a row for each space in each weather case.
pub(crate) fn add(section: &mut Section, material: &Material<'_>) {
    let survey = material.survey;
    if survey.spaces.len() < 2 {
        return;
    }
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Space", Align::Left, 1)
        .column("Outside air, /h", Align::Decimal)
        .column("kg/h", Align::Decimal)
        .column("From other spaces, /h", Align::Decimal)
        .column("kg/h", Align::Decimal);
    for case in &material.assessment.cases {
        table.group(case.name.clone());
        for (at, space) in survey.spaces.iter().enumerate() {
            let found = case.air.as_ref().map_err(Clone::clone).and_then(|air| {
                let unknown = || NotKnown::because("the spaces were not worked out");
                air.spaces.get(at).ok_or_else(unknown)
            });
            let changes = |ach: &f64| figure(*ach, 2);
            let flow = |flow: &f64| figure(flow * PER_H, 3);
            let own = found.clone();
            table.row([
                survey.space_name(space.id),
                reasons.or(&own.clone().and_then(|own| own.ach_per_h.clone()), changes),
                reasons.or(&own.clone().map(|own| own.mean_inflow_kg_s), flow),
                reasons.or(
                    &own.clone().and_then(|own| own.from_spaces_per_h.clone()),
                    changes,
                ),
                reasons.or(&own.map(|own| own.mean_from_spaces_kg_s), flow),
            ]);
        }
    }
    section.heading("Air of each space");
    section.table(table, &reasons);
    section.note(
        "Means over 16 wind directions, by the volume of the space itself. Air from other spaces \
         comes through the openings inside; it is no outside air.",
    );
}
