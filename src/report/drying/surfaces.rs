//! Cold surfaces: where mould, rust and water on the glass are to be expected, and what clears
//! them.

use crate::assess::drying::{Comparison, Spot, Surface};
use crate::assess::quantity::Kind;
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::LITRES_PER_DAY;
use crate::report::blocks::{Align, Reasons, Section, Table};

/// The cold surfaces with an option in a weather case, both by their index.
pub(crate) fn surfaces(comparison: &Comparison, option: usize, case: usize) -> Section {
    let mut section = Section::new("Cold surfaces");
    let name = comparison.options.get(option).map_or("", |one| &one.name);
    section.paragraph(format!("With {name} in “{}”:", comparison.case_name(case)));
    match comparison.state(option, case) {
        Err(unknown) => {
            section.paragraph(format!("{unknown}."));
        }
        Ok(state) if state.surfaces.is_empty() => {
            section.paragraph(
                "No fabric element with a known build-up: describe walls and windows first.",
            );
        }
        Ok(state) => {
            let mut table = Table::default()
                .wide("Surface", Align::Left, 1)
                .column("°C", Align::Decimal)
                .column("RH % there", Align::Decimal)
                .column("limit %", Align::Decimal)
                .column("state", Align::Left)
                .column("K warmer", Align::Decimal)
                .column("or RH % inside", Align::Decimal)
                .column("or L/day more", Align::Decimal);
            for (at, surface) in state.surfaces.iter().enumerate() {
                let row = table.row(cells(surface));
                if let Some(case) = comparison.cases.get(case) {
                    row.worked_out(Topic::Drying(DryingTopic::Surface(option, case.id, at)));
                }
            }
            section.table(table, &Reasons::default());
        }
    }
    section.note(
        "Each of the last three clears the surface by itself. Limits at the surface: 80\u{a0}% against \
         mould, 60\u{a0}% against rust on bare metal (ISO 13788 [M]), water on glass. On a clear night \
         roof and glass see air 3\u{a0}K colder [A].",
    );
    section
}

fn cells(surface: &Surface) -> [String; 8] {
    let rh = |rh: f64| Kind::RelativeHumidity.number(rh);
    let [kelvin, rh_inside, more] = if surface.exceeds {
        let kelvin = surface.kelvin_to_clear;
        [
            kelvin.map_or_else(
                || "out of reach".to_owned(),
                |kelvin| Kind::Kelvin.number(kelvin),
            ),
            rh(surface.rh_to_clear),
            Kind::LitresPerDay.number(surface.removal_to_clear_kg_s * LITRES_PER_DAY),
        ]
    } else {
        [const { String::new() }; 3]
    };
    [
        surface.words(),
        Kind::Celsius.number(surface.temperature_c),
        rh(surface.surface_rh),
        rh(surface.limit),
        state(surface).to_owned(),
        kelvin,
        rh_inside,
        more,
    ]
}

/// State in a sign and words.
fn state(surface: &Surface) -> &'static str {
    match surface.spot {
        _ if surface.condenses => "✖ water condenses",
        _ if !surface.exceeds => "✔ clear",
        Spot::Metal => "▲ may rust",
        Spot::Plain | Spot::Bridge | Spot::Glass => "▲ mould can grow",
    }
}
