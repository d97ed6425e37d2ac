//! Findings about the vehicle, its site, weather, targets, prices and fabric.

use super::finding::{Finder, Finding, Item, Place, Severity, called};
use crate::physics::Underside;
use crate::physics::pressure_coefficient::WindBody;
use crate::survey::fabric::{BuildUp, FabricElement, Layer};
use crate::survey::number::{figure, given};
use crate::survey::{Facing, Field, InsideAir, Survey, Vehicle, WeatherCase};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    header(survey, findings);
    size(survey, findings);
    site(survey, findings);
    if survey.weather.is_empty() {
        Finder::new(findings, Item::Site, "").error(
            None,
            "there is no weather case, so there is no air change to work out",
            "add at least one weather case, such as still: 0 m/s",
        );
    }
    for case in &survey.weather {
        weather(case, findings);
    }
    weights(survey, findings);
    for element in &survey.fabric {
        fabric(element, findings);
    }
}

fn header(survey: &Survey, findings: &mut Vec<Finding>) {
    let mut finder = Finder::new(findings, Item::Header, "");
    finder.check_date(Field::Date, "survey date", &survey.header.date);
}

fn size(survey: &Survey, findings: &mut Vec<Finding>) {
    let vehicle = &survey.vehicle;
    let mut finder = Finder::new(findings, Item::Vehicle, "vehicle");
    finder.check(Field::Length, vehicle.length_m);
    finder.check(Field::Width, vehicle.width_m);
    finder.check(Field::RoofHeight, vehicle.height_m);
    finder.check(Field::FloorHeight, vehicle.floor_height_m);
    finder.check(Field::InsideLength, vehicle.inside_length_m);
    finder.check(Field::InsideWidth, vehicle.inside_width_m);
    finder.check(Field::InsideHeight, vehicle.inside_height_m);
    finder.check(Field::Volume, vehicle.volume_m3);
    finder.check(Field::Berths, f64::from(vehicle.berths));
    left_out(survey, &mut finder);
    if let (Some(height), Some(floor)) = (vehicle.height_m, vehicle.floor_height_m)
        && height <= floor
    {
        finder.error(
            Field::RoofHeight,
            format!(
                "the roof ({} m above ground) is not above the floor ({} m)",
                given(height),
                given(floor)
            ),
            "measure both from the ground",
        );
    }
    if vehicle.has_starting_sizes() {
        finder.remark(
            Field::Length,
            format!(
                "the sizes are usual ones of a {}, not measured",
                vehicle.kind.name()
            ),
            "measure the vehicle and replace them by its own sizes",
        );
    }
    underside(survey, findings);
    outside_volume(survey, findings);
}

/// The space under the floor: the gaps of a tight skirt, and places that count but are missing.
fn underside(survey: &Survey, findings: &mut Vec<Finding>) {
    let vehicle = &survey.vehicle;
    let mut finder = Finder::new(findings, Item::Vehicle, "vehicle");
    finder.check(Field::SkirtFreeArea, vehicle.skirt_free_area_mm2);
    if vehicle.underside == Underside::SkirtedTight {
        finder.need_as(
            Severity::Error,
            Field::SkirtFreeArea,
            vehicle.skirt_free_area_mm2,
            "so what passes a tight skirt cannot be worked out",
        );
    }
    if vehicle.underfloor_by_place && vehicle.underside == Underside::Open {
        let under = survey
            .gaps
            .iter()
            .filter(|gap| gap.facing == Facing::Underfloor);
        let without = under
            .filter(|gap| gap.position.along_m.is_none() || gap.position.across_m.is_none())
            .count();
        if without > 0 {
            finder.remark(Field::UnderfloorByPlace,
                format!(
                    "the wind under the floor is to go by place, but gaps without their whole place there: {without}"
                ),
                "measure them from the front and from the nearside; until then they take a mean of the floor",
            );
        }
    }
}

/// Whether a place in the survey is a size of the vehicle that nobody took.
#[must_use]
pub fn is_left_out(vehicle: &Vehicle, place: &Place) -> bool {
    let sizes = [
        (Field::Length, vehicle.length_m),
        (Field::Width, vehicle.width_m),
        (Field::RoofHeight, vehicle.height_m),
        (Field::FloorHeight, vehicle.floor_height_m),
        (Field::Volume, vehicle.gross_volume_m3()),
    ];
    let mut left_out = sizes.into_iter().filter(|(_, size)| size.is_none());
    place.item == Item::Vehicle && left_out.any(|(field, _)| place.is_at(field))
}

/// Whether wind pressures hang on how much longer than wide the body is.
fn needs_plan_for_wind(survey: &Survey) -> bool {
    let (site, underside) = (&survey.site, survey.vehicle.underside);
    WindBody::longer_than_wide(site.pressure_set, site.shelter, underside).is_none()
}

/// Sizes that nobody took. One that the air change needs is an error as soon as there is a gap.
fn left_out(survey: &Survey, finder: &mut Finder<'_>) {
    let vehicle = &survey.vehicle;
    let needed = if survey.gaps.is_empty() {
        Severity::Warning
    } else {
        Severity::Error
    };
    let (severity, consequence) = if needs_plan_for_wind(survey) {
        (
            needed,
            "the air change cannot be worked out with these wind pressures or skirts",
        )
    } else {
        (
            Severity::Warning,
            "the area of the body, and what goes by it, is not known: EN 721's ventilation, the \
             leakage for each m², leakage not found",
        )
    };
    for (field, value) in [
        (Field::Length, vehicle.length_m),
        (Field::Width, vehicle.width_m),
    ] {
        finder.need_as(severity, field, value, consequence);
    }
    for (field, value) in [
        (Field::RoofHeight, vehicle.height_m),
        (Field::FloorHeight, vehicle.floor_height_m),
    ] {
        finder.need_as(needed, field, value, "the air change cannot be worked out");
    }
    finder.need_as(
        needed,
        Field::Volume,
        vehicle.gross_volume_m3(),
        "nor are all three inside sizes, so air changes per hour are not known",
    );
}

fn outside_volume(survey: &Survey, findings: &mut Vec<Finding>) {
    let vehicle = &survey.vehicle;
    let mut finder = Finder::new(findings, Item::Vehicle, "vehicle");
    let outside = (|| {
        let height = vehicle.height_m? - vehicle.floor_height_m?;
        Some(vehicle.length_m? * vehicle.width_m? * height)
    })();
    if let (Some(volume), Some(outside)) = (vehicle.gross_volume_m3(), outside)
        && volume > outside
        && outside > 0.0
    {
        finder.warn(
            Field::Volume,
            format!(
                "the inside volume, {} m³, is more than the outside sizes hold, {} m³",
                figure(volume, 3),
                figure(outside, 3)
            ),
            "check the inside and outside sizes",
        );
    }
}

fn site(survey: &Survey, findings: &mut Vec<Finding>) {
    let mut finder = Finder::new(findings, Item::Site, "site");
    finder.check(Field::Heading, survey.site.heading_deg);
    finder.check(Field::Altitude, survey.site.altitude_m);
    finder.check(Field::PrevailingWind, survey.site.prevailing_wind_deg);
    let targets = &survey.targets;
    let mut finder = Finder::new(findings, Item::Targets, "targets");
    finder.check(Field::TargetRh, targets.rh_percent);
    finder.check(Field::SetTemperature, targets.set_temperature_c);
    finder.check(Field::FrostGuard, targets.frost_guard_c);
    finder.check(Field::Comfort, targets.comfort_c);
    finder.check(Field::DesignOutside, targets.design_outside_c);
    let tariffs = &survey.tariffs;
    let mut finder = Finder::new(findings, Item::Tariffs, "prices");
    finder.check(Field::Electricity, tariffs.electricity_per_kwh);
    finder.check(Field::Gas, tariffs.gas_per_kg);
    finder.check(Field::LiquidFuel, tariffs.liquid_fuel_per_l);
    finder.check(Field::Workshop, tariffs.workshop_per_hour);
    finder.check(Field::Tax, tariffs.tax_percent);
    finder.check(Field::MaterialTax, tariffs.material_tax_percent);
    drying(survey, findings);
}

fn drying(survey: &Survey, findings: &mut Vec<Finding>) {
    let drying = &survey.drying;
    let mut finder = Finder::new(findings, Item::Drying, "drying");
    finder.check(Field::Sun, drying.sun_w);
    finder.check(Field::ContentsMass, drying.contents_kg);
    finder.check(Field::ContentsMoisture, drying.contents_moisture_percent);
    finder.check(Field::HeatCapacity, drying.heat_capacity_kj_per_k);
    finder.check(Field::Salt, drying.salt_kg);
    finder.check(Field::HookUp, drying.hookup_a);
    finder.check(Field::Battery, drying.battery_wh);
    let missing = match (drying.contents_kg, drying.contents_moisture_percent) {
        (Some(_), None) => Field::ContentsMoisture,
        (None, Some(_)) => Field::ContentsMass,
        _ => return,
    };
    let both = "the time to dry out needs the mass of the contents and their moisture";
    finder.need_as(Severity::Note, missing, None, both);
}

fn weather(case: &WeatherCase, findings: &mut Vec<Finding>) {
    let subject = called("weather case", &case.name);
    let mut finder = Finder::new(findings, Item::Weather(case.id), subject);
    finder.check(Field::Wind, case.wind_m_s);
    finder.check(Field::Outside, case.outside_c);
    finder.check(Field::OutsideRh, case.outside_rh_percent);
    finder.check(Field::InsideRh, case.inside_rh_percent);
    finder.check(Field::Weight, case.weight);
    match case.inside {
        InsideAir::WarmerBy { kelvin } => finder.check(Field::WarmerBy, kelvin),
        InsideAir::HeldAt { temperature_c } => finder.check(Field::HeldAt, temperature_c),
    }
}

fn weights(survey: &Survey, findings: &mut Vec<Finding>) {
    let total: f64 = survey.weather.iter().map(|case| case.weight).sum();
    if !survey.weather.is_empty() && total <= 0.0 {
        let mut finder = Finder::new(findings, Item::Site, "weather");
        finder.error(
            Field::Weight,
            "the weights of all weather cases together are zero",
            "give at least one case a weight above zero",
        );
    }
}

fn fabric(element: &FabricElement, findings: &mut Vec<Finding>) {
    let subject = called(element.part.name(), &element.name);
    let mut finder = Finder::new(findings, Item::Fabric(element.id), subject);
    finder.check(Field::Area, element.area_m2);
    finder.check(Field::Bridges, element.bridge_percent);
    finder.need(
        Field::Area,
        element.area_m2,
        "the heat through the fabric is not known",
    );
    match &element.build_up {
        BuildUp::Stated { u_w_per_m2_k } => {
            finder.check(Field::UValue, *u_w_per_m2_k);
            finder.need(
                Field::UValue,
                *u_w_per_m2_k,
                "the heat through the fabric is not known",
            );
        }
        BuildUp::Layers(layers) => {
            if layers.is_empty() {
                finder.warn(
                    None,
                    "it has no layers, so the heat through it is not known",
                    "add its layers from outside to inside, or state a U-value",
                );
            }
            for layer in layers {
                check_layer(&mut finder, layer);
            }
        }
    }
    if let Some(outline) = &element.outline {
        finder.check(Field::OutlineAlong, outline.along_m);
        finder.check(Field::OutlineUp, outline.up_m);
        finder.check(Field::OutlineWidth, outline.width_m);
        finder.check(Field::OutlineHeight, outline.height_m);
    }
}

fn check_layer(finder: &mut Finder<'_>, layer: &Layer) {
    finder.check(Field::Thickness, layer.thickness_mm);
    finder.check(Field::Conductivity, layer.conductivity_w_per_m_k);
    finder.check(Field::Resistance, layer.resistance_m2_k_per_w);
    let by_thickness = layer.thickness_mm.is_some() && layer.conductivity_w_per_m_k.is_some();
    match (by_thickness, layer.resistance_m2_k_per_w.is_some()) {
        (false, false) => finder.warn(Field::Resistance,
            format!(
                "{} has neither thickness and conductivity nor a resistance",
                called("layer", &layer.material)
            ),
            "enter thickness in mm and conductivity in W/(m K), or a resistance for an air gap",
        ),
        (true, true) => finder.remark(Field::Resistance,
            format!(
                "{} states a resistance besides its thickness and conductivity; the resistance is used",
                called("layer", &layer.material)
            ),
            "clear the one that is not meant",
        ),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use crate::survey::fabric::{BuildUp, FabricElement, FabricPart};
    use crate::survey::findings::find;
    use crate::survey::{FabricId, Field, Survey, VehicleKind};

    #[test]
    fn an_element_without_a_name_is_called_so() {
        let mut survey = Survey::new(VehicleKind::Other);
        survey.fabric.push(FabricElement {
            id: FabricId(1),
            name: " ".to_owned(),
            part: FabricPart::Wall,
            area_m2: None,
            build_up: BuildUp::Layers(Vec::new()),
            bridge_percent: 0.0,
            outline: None,
        });
        let sentence = |survey: &Survey| {
            let found = find(survey);
            let of_area = found.iter().find(|one| one.place.is_at(Field::Area));
            of_area.map(|one| one.sentence.clone()).unwrap_or_default()
        };
        let unnamed = sentence(&survey);
        assert!(unnamed.starts_with("wall without a name: "), "{unnamed}");
        survey.fabric[0].name = "front".to_owned();
        let named = sentence(&survey);
        assert!(named.starts_with("wall \u{201c}front\u{201d}: "), "{named}");
    }
}
