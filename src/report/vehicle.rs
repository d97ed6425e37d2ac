//! What was surveyed, and where it stands.

use super::Material;
use super::blocks::{Fact, Reasons, Section};
use crate::assess::Topic;
use crate::assess::quantity::Kind;
use crate::assess::words::{
    compass, given, given_or_query, pressure_set, shelter, terrain, underside,
};
use crate::physics::Underside;
use crate::survey::{Appliance, Vehicle};

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
    section.facts(facts(material, &mut reasons), &reasons);
    let note = material.survey.header.note.trim();
    if !note.is_empty() {
        section.heading("Notes");
        section.paragraph(note);
    }
    section
}

fn facts(material: &Material<'_>, reasons: &mut Reasons) -> Vec<Fact> {
    let (vehicle, site) = (&material.survey.vehicle, &material.survey.site);
    let metres = |lengths: &[Option<f64>], between: &str| {
        let lengths: Vec<String> = lengths.iter().map(|one| given_or_query(*one)).collect();
        Kind::Metres.with_unit(&lengths.join(between))
    };
    let direction = |degrees: Option<f64>| degrees.map_or_else(|| "not known".to_owned(), compass);
    let inside = [
        vehicle.inside_length_m,
        vehicle.inside_width_m,
        vehicle.inside_height_m,
    ];
    let volume = Kind::CubicMetres.of(material.assessment.volume_m3.clone());
    let mut facts = vec![
        Fact::new(
            "Outside, length × width",
            metres(&[vehicle.length_m, vehicle.width_m], " × "),
        ),
        Fact::new(
            "Floor and roof above ground",
            metres(&[vehicle.floor_height_m, vehicle.height_m], " and "),
        ),
        Fact::new("Inside, length × width × height", metres(&inside, " × ")),
        Fact::new(
            "Volume, furniture not deducted",
            reasons.or(&volume.text(), String::clone),
        )
        .worked_out(Topic::Volume),
        Fact::new("Berths", vehicle.berths.to_string()),
        Fact::new("Under the floor", under_the_floor(vehicle)),
        Fact::new(
            "Surroundings",
            format!(
                "{}; {}; {} above sea level",
                terrain(site.terrain),
                shelter(site.shelter),
                Kind::Metres.with_unit(&given(site.altitude_m))
            ),
        ),
        Fact::new("Pressure coefficients", pressure_set(site.pressure_set)),
        Fact::new("Front points to", direction(site.heading_deg)),
    ];
    if site.prevailing_wind_deg.is_some() {
        let wind = direction(site.prevailing_wind_deg);
        facts.push(Fact::new("Prevailing wind from", wind));
    }
    facts.extend(material.survey.appliances.iter().map(appliance));
    let whole = if material.survey.appliances_confirmed {
        "confirmed to be all"
    } else {
        "not confirmed to be all: what must stay open is not known"
    };
    facts.push(Fact::new("Appliances that burn something", whole));
    facts
}

fn under_the_floor(vehicle: &Vehicle) -> String {
    let stands = underside(vehicle.underside);
    match vehicle.underside {
        Underside::SkirtedTight => {
            let area = given_or_query(vehicle.skirt_free_area_mm2);
            let area = Kind::LeakageMm2.with_unit(&area);
            format!("{stands}; the skirt's gaps {area}")
        }
        Underside::Open if vehicle.underfloor_by_place => {
            format!("{stands}; wind by the place of each gap there")
        }
        Underside::Open | Underside::ClosedOneSide | Underside::SkirtedLeaking => stands.to_owned(),
    }
}

fn appliance(appliance: &Appliance) -> Fact {
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
    Fact::new(format!("Appliance: {}", appliance.kind.name()), words)
}
