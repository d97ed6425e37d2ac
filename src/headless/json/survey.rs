//! What was recorded about the vehicle, its place and what is wanted there; fabric and safety
//! ventilation.

use super::object::Object;
use crate::assess::{Answer, Assessment, Safety, SafetyVerdict};
use crate::physics::units::MM2_PER_M2;
use crate::survey::Survey;
use crate::survey::word::Word;

pub(super) fn header(survey: &Survey) -> Object {
    let header = &survey.header;
    Object::new()
        .with("title", header.title.as_str())
        .with("scene", header.scene.as_str())
        .with("surveyor", header.surveyor.as_str())
        .with("date", header.date.as_str())
        .with("reference", header.reference.as_str())
        .with("note", header.note.as_str())
}

pub(super) fn vehicle(survey: &Survey, assessment: &Assessment) -> Object {
    let vehicle = &survey.vehicle;
    Object::new()
        .with("kind", vehicle.kind.word())
        .recorded("length_m", vehicle.length_m)
        .recorded("width_m", vehicle.width_m)
        .recorded("height_m", vehicle.height_m)
        .recorded("floor_height_m", vehicle.floor_height_m)
        .recorded("inside_length_m", vehicle.inside_length_m)
        .recorded("inside_width_m", vehicle.inside_width_m)
        .recorded("inside_height_m", vehicle.inside_height_m)
        .or_null("volume_m3", vehicle.volume_m3)
        .answer("gross_volume_m3", assessment.volume_m3.clone())
        .with("underside", vehicle.underside.word())
        .recorded("skirt_free_area_mm2", vehicle.skirt_free_area_mm2)
        .with("underfloor_by_place", vehicle.underfloor_by_place)
        .with("berths", vehicle.berths)
}

pub(super) fn site(survey: &Survey) -> Object {
    let site = &survey.site;
    Object::new()
        .with("terrain", site.terrain.word())
        .with("shelter", site.shelter.word())
        .with("pressure_set", site.pressure_set.word())
        .recorded("heading_deg", site.heading_deg)
        .with("altitude_m", site.altitude_m)
        .recorded("prevailing_wind_deg", site.prevailing_wind_deg)
}

pub(super) fn targets(survey: &Survey) -> Object {
    let targets = &survey.targets;
    Object::new()
        .with("rh_percent", targets.rh_percent)
        .with("set_temperature_c", targets.set_temperature_c)
        .with("frost_guard_c", targets.frost_guard_c)
        .with("comfort_c", targets.comfort_c)
        .with("design_outside_c", targets.design_outside_c)
}

pub(super) fn tariffs(survey: &Survey) -> Object {
    let tariffs = &survey.tariffs;
    Object::new()
        .with("currency", tariffs.currency.as_str())
        .recorded("electricity_per_kwh", tariffs.electricity_per_kwh)
        .recorded("gas_per_kg", tariffs.gas_per_kg)
        .recorded("liquid_fuel_per_l", tariffs.liquid_fuel_per_l)
        .recorded("workshop_per_hour", tariffs.workshop_per_hour)
        .recorded("tax_percent", tariffs.tax_percent)
}

pub(super) fn drying(survey: &Survey) -> Object {
    let drying = &survey.drying;
    Object::new()
        .with("sun_w", drying.sun_w)
        .recorded("contents_kg", drying.contents_kg)
        .recorded(
            "contents_moisture_percent",
            drying.contents_moisture_percent,
        )
        .recorded("heat_capacity_kj_per_k", drying.heat_capacity_kj_per_k)
        .recorded("salt_kg", drying.salt_kg)
        .recorded("hookup_a", drying.hookup_a)
        .recorded("battery_wh", drying.battery_wh)
}

pub(super) fn fabric(survey: &Survey, assessment: &Assessment) -> Answer<Object> {
    let fabric = assessment.fabric.clone()?;
    let elements: Vec<Object> = survey
        .fabric
        .iter()
        .zip(&fabric.elements)
        .map(|(element, (u, ua))| {
            Object::new()
                .with("id", element.id.0)
                .with("name", element.name.as_str())
                .with("part", element.part.word())
                .recorded("area_m2", element.area_m2)
                .with("u_w_per_m2_k", *u)
                .with("ua_w_per_k", *ua)
        })
        .collect();
    Ok(Object::new()
        .with("ua_w_per_k", fabric.ua_w_per_k)
        .with("area_m2", fabric.area_m2)
        .with("elements", elements))
}

pub(super) fn safety(safety: &Safety) -> Object {
    let mm2 = |area: &Answer<f64>| area.clone().map(|area| area * MM2_PER_M2);
    let required = safety.required.clone().map(|required| {
        Object::new()
            .with("high_in_roof_mm2", required.high_in_roof * MM2_PER_M2)
            .with("high_elsewhere_mm2", required.high_elsewhere * MM2_PER_M2)
            .with("low_mm2", required.low * MM2_PER_M2)
            .with("open_flued", required.open_flued)
    });
    let object = Object::new()
        .answer("plan_area_m2", safety.plan_area_m2.clone())
        .answer("required", required)
        .answer("high_in_roof_mm2", mm2(&safety.high_in_roof))
        .answer("high_elsewhere_mm2", mm2(&safety.high_elsewhere))
        .answer("low_mm2", mm2(&safety.low));
    match &safety.verdict {
        SafetyVerdict::Meets => object.with("verdict", "meets"),
        SafetyVerdict::Below {
            high_share,
            low_share,
        } => object
            .with("verdict", "below")
            .with("high_share", *high_share)
            .with("low_share", *low_share),
        SafetyVerdict::NotKnown(unknown) => object.not_known("verdict", &unknown.reason),
    }
}
