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
        .with("title", &header.title)
        .with("scene", &header.scene)
        .with("surveyor", &header.surveyor)
        .with("date", &header.date)
        .with("reference", &header.reference)
        .with("note", &header.note)
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
        .with("volume_m3", vehicle.volume_m3)
        .with("gross_volume_m3", &assessment.volume_m3)
        .with("underside", vehicle.underside.word())
        .with("skirt_free_area_mm2", vehicle.skirt_free_area_mm2)
        .with("underfloor_by_place", vehicle.underfloor_by_place)
        .with("berths", vehicle.berths)
        .with("code_of_practice", vehicle.code_of_practice.word())
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
        .with("currency", &tariffs.currency)
        .recorded("electricity_per_kwh", tariffs.electricity_per_kwh)
        .recorded("gas_per_kg", tariffs.gas_per_kg)
        .recorded("liquid_fuel_per_l", tariffs.liquid_fuel_per_l)
        .recorded("workshop_per_hour", tariffs.workshop_per_hour)
        .recorded("tax_percent", tariffs.tax_percent)
        .with("material_tax_percent", tariffs.material_tax_percent)
}

pub(super) fn job(survey: &Survey) -> Object {
    let job = &survey.job;
    Object::new()
        .with("customer", &job.customer)
        .with("address", &job.address)
        .with("registration", &job.registration)
        .with("quotation_number", &job.quotation_number)
        .with("quotation_date", &job.quotation_date)
        .with("valid_until", &job.valid_until)
        .with("order_number", &job.order_number)
        .with("order_date", &job.order_date)
        .with("invoice_number", &job.invoice_number)
        .with("invoice_date", &job.invoice_date)
        .with("pay_by", &job.pay_by)
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

pub(super) fn stay(survey: &Survey) -> Object {
    let stay = &survey.stay;
    Object::new()
        .with("winter", stay.winter.map(|winter| winter.word()))
        .list("months", &stay.months, |month| {
            Object::new()
                .with("mean_c", month.mean_c)
                .with("daily_range_k", month.daily_range_k)
                .with("rh_percent", month.rh_percent)
                .with("wind_m_s", month.wind_m_s)
                .with("sunshine_h_per_day", month.sunshine_h_per_day)
        })
        .with("weather_file", &stay.weather_file)
        .with("weather_original", &stay.weather_original)
        .with("latitude_deg", stay.latitude_deg)
        .with("season_first", &stay.season_first)
        .with("season_last", &stay.season_last)
        .with("colour", stay.colour.word())
        .with("blinds_drawn", stay.blinds_drawn)
        .with("covered", stay.covered)
        .with("present_from_h", stay.present_from_h)
        .with("present_to_h", stay.present_to_h)
        .with("stores_g_per_percent", stay.stores_g_per_percent)
}

pub(super) fn fabric(survey: &Survey, assessment: &Assessment) -> Answer<Object> {
    let fabric = assessment.fabric.clone()?;
    let elements = survey.fabric.iter().zip(&fabric.elements);
    Ok(Object::new()
        .with("ua_w_per_k", fabric.ua_w_per_k)
        .with("area_m2", fabric.area_m2)
        .list("elements", elements, |(element, (u, ua))| {
            super::records::element(element)
                .with("u_w_per_m2_k", *u)
                .with("ua_w_per_k", *ua)
        }))
}

pub(super) fn safety(safety: &Safety) -> Object {
    let mm2 = |area: &f64| area * MM2_PER_M2;
    let object = Object::new()
        .with("code_of_practice", safety.code.word())
        .with("plan_area_m2", &safety.plan_area_m2)
        .found("required", &safety.required, |required| {
            Object::new()
                .with("high_in_roof_mm2", mm2(&required.high_in_roof))
                .with("high_elsewhere_mm2", mm2(&required.high_elsewhere))
                .with("low_mm2", mm2(&required.low))
                .with("open_flued", required.open_flued)
                .with(
                    "heat_input_mj_per_h",
                    required.heat_input.map(|input| input.mj_per_h),
                )
        })
        .found("high_in_roof_mm2", &safety.high_in_roof, mm2)
        .found("high_elsewhere_mm2", &safety.high_elsewhere, mm2)
        .found("low_mm2", &safety.low, mm2);
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
