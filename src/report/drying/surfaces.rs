//! Cold surfaces: where mould, rust and water on the glass are to be expected, and what clears
//! them.

use crate::assess::drying::{Comparison, OptionCase, Spot, Surface, WARMEST_C};
use crate::assess::quantity::Kind;
use crate::assess::words::figure;
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::LITRES_PER_DAY;
use crate::report::blocks::{Align, Reasons, Section, Table};

/// The cold surfaces with an option in a weather case, both by their index.
pub(crate) fn surfaces(comparison: &Comparison, option: usize, case: usize) -> Section {
    let mut section = Section::new("Cold surfaces");
    let name = comparison.options.get(option).map_or("", |one| &one.name);
    section.paragraph(format!("In “{}”, with {name}:", comparison.case_name(case)));
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
                .column("condenses L/day", Align::Decimal)
                .column("K warmer", Align::Decimal)
                .column("or L/day removed", Align::Decimal)
                .column("or RH % inside", Align::Decimal);
            let mut reasons = Reasons::default();
            for (at, surface) in state.surfaces.iter().enumerate() {
                let row = table.row(cells(surface, &mut reasons));
                if let Some(case) = comparison.cases.get(case) {
                    row.worked_out(Topic::Drying(DryingTopic::Surface(option, case.id, at)));
                }
            }
            section.table(table, &reasons);
            for sentence in notes(state) {
                section.note(sentence);
            }
        }
    }
    section.note(
        "Each of the last three clears the surface by itself: the heater raised by so much, with \
         the air and the water that come of it; a machine that takes so much in all at this \
         temperature; or the air held at that humidity. Limits at the surface: 80\u{a0}% against \
         mould, 60\u{a0}% against rust on bare metal (ISO 13788 [M]), water on glass. The night is \
         clear: roof and rooflights see air 9.5 to 4\u{a0}K colder, windows 5 to 2\u{a0}K, the less the \
         more wind [S]; under cloud none.",
    );
    section
}

/// Least water that is told to condense, L a day: a film too thin to see **\[A\]**.
pub(super) const LEAST_TOLD_L: f64 = 0.01;
/// Least warmth that is told, K.
const LEAST_TOLD_K: f64 = 0.1;

/// What condenses in all, and what the table's words mean.
fn notes(state: &OptionCase) -> Vec<String> {
    let litres = |kg_s: f64| Kind::LitresPerDay.text(kg_s * LITRES_PER_DAY);
    let mut notes = Vec::new();
    let all = state.condensation_kg_s;
    if all * LITRES_PER_DAY >= LEAST_TOLD_L {
        let on_surfaces: f64 = state.surfaces.iter().map(|one| one.condensed_kg_s).sum();
        let beside = all - on_surfaces;
        let beside = if beside * LITRES_PER_DAY >= LEAST_TOLD_L {
            format!(
                ", {} of it beside these surfaces, because the air can hold no more",
                litres(beside)
            )
        } else {
            String::new()
        };
        notes.push(format!(
            "In all {} condense{beside}: wipe it up, or the warmth of the day gives it back to the air.",
            litres(all)
        ));
    }
    if state.surfaces.iter().any(|one| one.area_m2.is_none()) {
        notes.push("Without an area nothing condenses on a surface in this reckoning.".to_owned());
    }
    if state
        .surfaces
        .iter()
        .any(|one| one.kelvin_to_clear == Ok(None))
    {
        notes.push(format!(
            "never: not even {} inside clears it.",
            Kind::Celsius.typed(WARMEST_C)
        ));
    }
    notes
}

/// A number, or under the least that is told.
fn at_least(kind: Kind, least: f64, value: f64) -> String {
    if value < least {
        format!("under {}", figure(least, 1))
    } else {
        kind.number(value)
    }
}

fn cells(surface: &Surface, reasons: &mut Reasons) -> [String; 9] {
    let rh = |rh: f64| Kind::RelativeHumidity.number(rh);
    let litres = |kg_s: f64| at_least(Kind::LitresPerDay, LEAST_TOLD_L, kg_s * LITRES_PER_DAY);
    let condensed = match surface.area_m2 {
        None => "no area".to_owned(),
        Some(_) if surface.condenses => litres(surface.condensed_kg_s),
        Some(_) => String::new(),
    };
    let [kelvin, removal, rh_inside] = if surface.exceeds {
        let warmer = |kelvin: &Option<f64>| {
            kelvin.map_or_else(
                || "never".to_owned(),
                |kelvin| at_least(Kind::Kelvin, LEAST_TOLD_K, kelvin),
            )
        };
        [
            reasons.or(&surface.kelvin_to_clear, warmer),
            reasons.or(&surface.removal_to_clear_kg_s, |kg_s| litres(*kg_s)),
            rh(surface.rh_to_clear),
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
        condensed,
        kelvin,
        removal,
        rh_inside,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::compare;
    use crate::report::blocks::Block;
    use crate::survey::{MoistureSource, SourceId, SourceKind, Survey, file};

    /// The caravan sample in damp weather, with a source of so many grams an hour.
    fn damp(grams_per_hour: f64) -> Survey {
        let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
        let mut survey = file::parse(text).expect("a sample");
        for case in &mut survey.weather {
            case.outside_rh_percent = 98.0;
        }
        survey.sources = vec![MoistureSource {
            id: SourceId(1),
            name: "wet things".to_owned(),
            kind: SourceKind::Other,
            count: 1,
            rate_g_per_h: Some(grams_per_hour),
            hours_per_day: 24.0,
            laid_up: true,
            in_use: true,
        }];
        survey
    }

    #[test]
    fn each_surface_says_what_condenses_and_what_truly_clears_it_and_all_of_them_how_much() {
        let comparison = compare(&damp(400.0)).expect("a comparison");
        let at = comparison.calmest;
        let state = comparison.state(0, at).expect("a state");
        let section = surfaces(&comparison, 0, at);
        let table = section.blocks.iter().find_map(|block| match block {
            Block::Table { table } => Some(table),
            _ => None,
        });
        let rows = &table.expect("a table").rows;
        assert_eq!(rows.len(), state.surfaces.len());
        let mut told = 0;
        for (row, surface) in rows.iter().zip(&state.surfaces) {
            let litres = surface.condensed_kg_s * LITRES_PER_DAY;
            if surface.condenses && litres >= LEAST_TOLD_L {
                assert_eq!(row.cells[5], Kind::LitresPerDay.number(litres));
            }
            if surface.exceeds {
                let kelvin = surface.kelvin_to_clear.clone().expect("known");
                let warmth = kelvin.map_or("never".to_owned(), |kelvin| match kelvin {
                    0.0..0.1 => "under 0.1".to_owned(),
                    kelvin => Kind::Kelvin.number(kelvin),
                });
                assert_eq!(row.cells[6], warmth);
                let removal = surface.removal_to_clear_kg_s.clone().expect("known");
                let removal = match removal * LITRES_PER_DAY {
                    0.0..0.01 => "under 0.01".to_owned(),
                    litres => Kind::LitresPerDay.number(litres),
                };
                assert_eq!(row.cells[7], removal);
                told += 1;
            }
        }
        assert!(told >= 2, "{told}");
        let all = Kind::LitresPerDay.text(state.condensation_kg_s * LITRES_PER_DAY);
        let notes = section.blocks.iter().filter_map(|block| match block {
            Block::Note { text } => Some(text.as_str()),
            _ => None,
        });
        let notes: Vec<&str> = notes.collect();
        assert!(
            notes
                .iter()
                .any(|note| note.starts_with(&format!("In all {all} condense"))),
            "{notes:?}"
        );
        let never = state
            .surfaces
            .iter()
            .any(|one| one.kelvin_to_clear == Ok(None));
        assert_eq!(notes.iter().any(|note| note.starts_with("never:")), never);
    }
}
