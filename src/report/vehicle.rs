//! Vehicle, place and weather.

use super::Material;
use super::blocks::{Align, Block, Fact, Reasons, Section, Table};
use crate::assess::words::{compass, figure, given, given_or_query, shelter, terrain};

/// Lines under the title.
pub(crate) fn facts_at_head(material: &Material<'_>) -> Vec<(String, String)> {
    let header = &material.survey.header;
    let set_up = material.assessment.set_up.name();
    let facts = [
        ("Vehicle", material.survey.vehicle.kind.name()),
        ("Reference", header.reference.trim()),
        ("Date", header.date.trim()),
        ("Surveyed by", header.surveyor.trim()),
        ("Results for", set_up),
        ("Where it stands", header.scene.trim()),
    ];
    facts
        .into_iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

pub(crate) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Vehicle and place");
    let mut reasons = Reasons::default();
    section.push(Block::Facts {
        rows: rows(material, &mut reasons)
            .into_iter()
            .map(|(name, value)| Fact::new(name, value))
            .collect(),
    });
    for note in reasons.notes() {
        section.note(note);
    }
    weather(&mut section, material);
    let note = material.survey.header.note.trim();
    if !note.is_empty() {
        section.heading("Notes");
        section.paragraph(note);
    }
    section
}

fn rows(material: &Material<'_>, reasons: &mut Reasons) -> Vec<(String, String)> {
    let (vehicle, site) = (&material.survey.vehicle, &material.survey.site);
    let q = given_or_query;
    let mut rows = vec![
        (
            "Outside, length × width".to_owned(),
            format!("{} × {}\u{a0}m", q(vehicle.length_m), q(vehicle.width_m)),
        ),
        (
            "Floor and roof above ground".to_owned(),
            format!(
                "{} and {}\u{a0}m",
                q(vehicle.floor_height_m),
                q(vehicle.height_m)
            ),
        ),
        (
            "Inside, length × width × height".to_owned(),
            format!(
                "{} × {} × {}\u{a0}m",
                q(vehicle.inside_length_m),
                q(vehicle.inside_width_m),
                q(vehicle.inside_height_m)
            ),
        ),
        (
            "Volume, furniture not deducted".to_owned(),
            reasons.or(&material.assessment.volume_m3, |volume| {
                format!("{}\u{a0}m³", figure(*volume, 3))
            }),
        ),
        (
            "Berths".to_owned(),
            format!(
                "{}{}",
                vehicle.berths,
                if vehicle.skirted {
                    "; skirted under the floor"
                } else {
                    ""
                }
            ),
        ),
        (
            "Surroundings".to_owned(),
            format!("{}; {}", terrain(site.terrain), shelter(site.shelter)),
        ),
    ];
    if let Some(heading) = site.heading_deg {
        rows.push(("Front points to".to_owned(), compass(heading)));
    }
    if let Some(wind) = site.prevailing_wind_deg {
        rows.push(("Prevailing wind from".to_owned(), compass(wind)));
    }
    for appliance in &material.survey.appliances {
        let sealed = if appliance.room_sealed {
            "room-sealed"
        } else {
            "takes its air from the room"
        };
        let name = appliance.name.trim();
        let words = if name.is_empty() {
            sealed.to_owned()
        } else {
            format!("{name}; {sealed}")
        };
        rows.push((format!("Appliance: {}", appliance.kind.name()), words));
    }
    rows
}

fn weather(section: &mut Section, material: &Material<'_>) {
    if material.survey.weather.is_empty() {
        return;
    }
    let mut table = Table::default()
        .wide("Weather case", Align::Left, 1)
        .column("Wind, m/s", Align::Decimal)
        .column("Outside, °C", Align::Decimal)
        .column("Outside RH, %", Align::Decimal)
        .column("Inside, °C", Align::Decimal)
        .column("Share of the season, %", Align::Decimal);
    let weights: f64 = material.survey.weather.iter().map(|case| case.weight).sum();
    for case in &material.survey.weather {
        let share = if weights > 0.0 {
            figure(case.weight / weights * 100.0, 2)
        } else {
            String::new()
        };
        table.row([
            case.name.clone(),
            given(case.wind_m_s),
            given(case.outside_c),
            given(case.outside_rh_percent),
            given(case.inside_c()),
            share,
        ]);
    }
    section.heading("Weather");
    section.table(table, &Reasons::default());
    section.note("Wind as at a weather station, 10 m above open country.");
}
