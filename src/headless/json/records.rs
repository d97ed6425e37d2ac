//! The lists of the survey as they were recorded: zones, spaces, fabric and equipment.

use super::gaps::{closing, form_sizes};
use super::object::Object;
use crate::survey::word::Word;
use crate::survey::{
    Appliance, BuildUp, FabricElement, Fan, Field as F, Fitting, Heater, InnerOpening, Layer,
    Machine, MachinePoint, MoistureSource, Outline, Space, Survey, Usual, Zone,
};

/// Adds every list to the object.
pub(super) fn with_records(object: Object, survey: &Survey) -> Object {
    object
        .list("zones", &survey.zones, zone)
        .list("spaces", &survey.spaces, space)
        .list("inner_openings", &survey.inner_openings, inner_opening)
        .list("fabric_elements", &survey.fabric, fabric_element)
        .with(F::AppliancesConfirmed, survey.appliances_confirmed)
        .list("appliances", &survey.appliances, appliance)
        .list("machines", &survey.machines, machine)
        .list("heaters", &survey.heaters, heater)
        .list("fans", &survey.fans, |one| fan(survey, one))
        .list("sources", &survey.sources, source)
        .with("fittings", survey.fittings.as_deref().map(fittings))
        .list("fan_tests", &survey.fan_tests, super::measured::fan_test)
        .list("air_tests", &survey.air_tests, super::air_tests::air_test)
        .list("series", &survey.series, super::trials::logger)
        .list("trials", &survey.trials, super::trials::trial)
        .with("usual", usual(&survey.usual))
}

/// What is usual for such a vehicle, and not measured.
fn usual(usual: &Usual) -> Object {
    let fabric: Vec<u32> = usual.fabric.iter().map(|id| id.0).collect();
    let appliances: Vec<u32> = usual.appliances.iter().map(|id| id.0).collect();
    let weather: Vec<u32> = usual.weather.iter().map(|id| id.0).collect();
    Object::new()
        .with("winter", usual.winter.map(|winter| winter.word()))
        .with("fabric", fabric)
        .with("appliances", appliances)
        .with("weather", weather)
        .with("design_outside", usual.design_outside)
        .with("altitude", usual.altitude)
}

/// What is drawn on the outside of the vehicle.
fn fittings(fittings: &[Fitting]) -> Vec<Object> {
    let fitting = |fitting: &Fitting| {
        Object::new()
            .with("id", fitting.id.0)
            .with("kind", fitting.kind.word())
            .with("outline", outline(&fitting.outline))
    };
    fittings.iter().map(fitting).collect()
}

fn zone(zone: &Zone) -> Object {
    Object::new().with("id", zone.id.0).with("name", &zone.name)
}

fn space(space: &Space) -> Object {
    Object::new()
        .with("id", space.id.0)
        .with("name", &space.name)
        .recorded("volume_m3", space.volume_m3)
        .with("warmer_by_k", space.warmer_by_k)
}

fn inner_opening(opening: &InnerOpening) -> Object {
    Object::new()
        .with("id", opening.id.0)
        .with("name", &opening.name)
        .with("from", opening.from.0)
        .with("to", opening.to.0)
        .with("form", opening.form.word())
        .with("sizes", form_sizes(&opening.form))
        .with("count", opening.count)
        .recorded("height_m", opening.height_m)
        .recorded("rise_m", opening.rise_m)
        .with("closing", opening.closing.map(closing))
        .with("certainty", opening.certainty.word())
}

/// What an element of the fabric is.
pub(super) fn element(element: &FabricElement) -> Object {
    Object::new()
        .with("id", element.id.0)
        .with("name", &element.name)
        .with("part", element.part.word())
        .recorded("area_m2", element.area_m2)
}

fn fabric_element(element: &FabricElement) -> Object {
    let object = self::element(element);
    match &element.build_up {
        BuildUp::Layers(layers) => object
            .with("build_up", "layers")
            .list("layers", layers, layer),
        BuildUp::Stated { u_w_per_m2_k } => object
            .with("build_up", "stated")
            .recorded("u_w_per_m2_k", *u_w_per_m2_k),
    }
    .with("bridge_percent", element.bridge_percent)
    .with("outline", element.outline.as_ref().map(outline))
}

fn layer(layer: &Layer) -> Object {
    Object::new()
        .with("material", &layer.material)
        .recorded("thickness_mm", layer.thickness_mm)
        .recorded("conductivity_w_per_m_k", layer.conductivity_w_per_m_k)
        .recorded("resistance_m2_k_per_w", layer.resistance_m2_k_per_w)
}

fn outline(outline: &Outline) -> Object {
    Object::new()
        .with("facing", outline.facing.word())
        .with("along_m", outline.along_m)
        .with("up_m", outline.up_m)
        .with("width_m", outline.width_m)
        .with("height_m", outline.height_m)
}

fn appliance(appliance: &Appliance) -> Object {
    Object::new()
        .with("id", appliance.id.0)
        .with("kind", appliance.kind.word())
        .with("name", &appliance.name)
        .with("room_sealed", appliance.room_sealed)
        .recorded("input_mj_per_h", appliance.input_mj_per_h)
}

fn machine(machine: &Machine) -> Object {
    Object::new()
        .with("id", machine.id.0)
        .with("name", &machine.name)
        .with("kind", machine.kind.word())
        .recorded("rated_removal_l_per_day", machine.rated_removal_l_per_day)
        .recorded("rated_temperature_c", machine.rated_temperature_c)
        .recorded("rated_rh_percent", machine.rated_rh_percent)
        .recorded("power_w", machine.power_w)
        .recorded("airflow_m3_per_h", machine.airflow_m3_per_h)
        .recorded("lowest_room_c", machine.lowest_room_c)
        .recorded("tub_area_m2", machine.tub_area_m2)
        .recorded("tub_l", machine.tub_l)
        .with("hygrostat", machine.hygrostat)
        .list("points", &machine.points, point)
        .recorded("price", machine.price)
        .recorded("upkeep_per_month", machine.upkeep_per_month)
        .with("owned", machine.owned)
}

fn point(point: &MachinePoint) -> Object {
    Object::new()
        .with("temperature_c", point.temperature_c)
        .with("rh_percent", point.rh_percent)
        .with("removal_l_per_day", point.removal_l_per_day)
        .with("power_w", point.power_w)
}

fn heater(heater: &Heater) -> Object {
    Object::new()
        .with("id", heater.id.0)
        .with("name", &heater.name)
        .with("fuel", heater.fuel.word())
        .recorded("rating_w", heater.rating_w)
        .with("set_point_c", heater.set_point_c)
        .recorded("price", heater.price)
        .recorded("upkeep_per_month", heater.upkeep_per_month)
        .with("owned", heater.owned)
}

fn fan(survey: &Survey, fan: &Fan) -> Object {
    let space = survey.space_or_first(fan.space);
    Object::new()
        .with("id", fan.id.0)
        .with("name", &fan.name)
        .with("direction", fan.direction.word())
        .recorded("flow_m3_per_h", fan.flow_m3_per_h)
        .recorded("most_pressure_pa", fan.most_pressure_pa)
        .with("on_laid_up", fan.on_laid_up)
        .with("on_in_use", fan.on_in_use)
        .with("space", space.map(|id| id.0))
}

fn source(source: &MoistureSource) -> Object {
    Object::new()
        .with("id", source.id.0)
        .with("name", &source.name)
        .with("kind", source.kind.word())
        .with("count", source.count)
        .recorded("rate_g_per_h", source.rate_g_per_h)
        .with("hours_per_day", source.hours_per_day)
        .with("laid_up", source.laid_up)
        .with("in_use", source.in_use)
}
