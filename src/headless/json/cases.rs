//! The weather cases: air in every direction and through every gap, water, heat.

use super::object::Object;
use crate::assess::{
    Assessment, CaseAir, CaseAnswer, CaseDrying, CaseHeat, CrossCheck, DirectionAnswer, HeatNeed,
    NotKnown, RequiredRemoval,
};
use crate::physics::MoistAir;
use crate::physics::units::GRAMS_PER_HOUR;
use crate::survey::{InsideAir, Survey, WeatherCase};

pub(super) fn case(survey: &Survey, assessment: &Assessment, case: &CaseAnswer) -> Object {
    let recorded = survey.weather_case(case.id);
    Object::new()
        .with("id", case.id.0)
        .with("name", &case.name)
        .recorded("weight", recorded.map(|case| case.weight))
        .with("weight_share", case.share)
        .recorded("wind_10m_m_s", recorded.map(|case| case.wind_m_s))
        .recorded("outside_c", recorded.map(|case| case.outside_c))
        .recorded(
            "outside_rh_percent",
            recorded.map(|case| case.outside_rh_percent),
        )
        .recorded("inside_c", recorded.map(WeatherCase::inside_c))
        .recorded("inside", recorded.map(|case| inside(case.inside)))
        .with(
            "inside_rh_percent",
            recorded.and_then(|case| case.inside_rh_percent),
        )
        .found("air", &case.air, |found| air(assessment, found))
        .found("drying", &case.drying, drying)
        .found("heat", &case.heat, heat)
        .list("heaters", &case.heaters, |heater| {
            Object::new()
                .with("heater", heater.id.0)
                .with("inside_c", heater.inside_c)
                .with("lowest_outside_c", &heater.lowest_outside_c)
                .with("needed_at_design_w", &heater.needed_w)
        })
}

/// Whether the inside follows the outside or is held at a temperature.
fn inside(inside: InsideAir) -> Object {
    match inside {
        InsideAir::WarmerBy { kelvin } => {
            Object::new().with("is", "warmer_by").with("kelvin", kelvin)
        }
        InsideAir::HeldAt { temperature_c } => Object::new()
            .with("is", "held_at")
            .with("temperature_c", temperature_c),
    }
}

fn air(assessment: &Assessment, air: &CaseAir) -> Object {
    let none = || NotKnown::because("no wind direction was worked out");
    let direction_of = |index: usize| air.directions.get(index).ok_or_else(none);
    let ach = |index| direction_of(index).and_then(|found| found.ach_per_h.clone());
    let from = |index| direction_of(index).map(|found| found.from_front_deg);
    Object::new()
        .with("outside", state(&air.outside))
        .with("inside", state(&air.inside))
        .with("wind_at_body_m_s", air.wind_at_body)
        .with("wind_used_m_s", air.wind_used)
        .with("mass_flow_in_mean_kg_s", air.mean_inflow_kg_s)
        .with("ach_mean_per_h", &air.mean_ach_per_h)
        .with("ach_lowest_per_h", ach(air.lowest))
        .with("ach_lowest_from_front_deg", from(air.lowest))
        .with("ach_highest_per_h", ach(air.highest))
        .with("ach_highest_from_front_deg", from(air.highest))
        .found("cross_check", &air.cross_check, cross_check)
        .list("spaces", &air.spaces, |space| {
            Object::new()
                .with("space", space.id.0)
                .with("mass_flow_in_mean_kg_s", space.mean_inflow_kg_s)
                .with("ach_mean_per_h", &space.ach_per_h)
                .with(
                    "mass_flow_in_from_spaces_mean_kg_s",
                    space.mean_from_spaces_kg_s,
                )
                .with("ach_from_spaces_mean_per_h", &space.from_spaces_per_h)
        })
        .list("directions", &air.directions, |found| {
            direction(assessment, found)
        })
}

fn state(air: &MoistAir) -> Object {
    Object::new()
        .with("temperature_c", air.t_c)
        .with("rh_percent", air.relative_humidity() * 100.0)
        .with("humidity_ratio_kg_kg", air.humidity_ratio)
        .with("density_kg_m3", air.density())
        .with("pressure_pa", air.pressure)
}

fn cross_check(check: &CrossCheck) -> Object {
    Object::new()
        .with("ach_per_h", check.ach_per_h)
        .with("flow_m3_s", check.flow)
        .with("stack_coefficient_l2_per_s2_cm4_k", check.stack_coefficient)
        .with("wind_coefficient_l2_per_m2_cm4", check.wind_coefficient)
}

fn direction(assessment: &Assessment, direction: &DirectionAnswer) -> Object {
    let compass = direction
        .compass_deg
        .ok_or_else(|| NotKnown::because("the heading of the vehicle is not given"));
    let neutral = direction.neutral_level.ok_or_else(|| {
        NotKnown::because("inside and outside air weigh so nearly the same that there is none")
    });
    let flows = assessment.gaps.iter().zip(&direction.flows);
    Object::new()
        .with("from_front_deg", direction.from_front_deg)
        .with("compass_deg", compass)
        .with("ach_per_h", &direction.ach_per_h)
        .with("mass_flow_in_kg_s", direction.inflow_kg_s)
        .with("mass_flow_out_kg_s", direction.outflow_kg_s)
        .with("inside_pressure_pa", direction.inside_pressure)
        .with("neutral_level_m", neutral)
        .with("one_sided", direction.one_sided)
        .list("flows", flows, |(gap, flow)| {
            let flow = flow.ok_or_else(|| {
                // A gap with figures that is yet in no balance has no reason of its own.
                assessment
                    .leakage_of(gap.id)
                    .err()
                    .unwrap_or_else(|| NotKnown::because("it is in no balance"))
            });
            Object::new()
                .with("gap", gap.id.0)
                .with("mass_flow_in_kg_s", flow.clone().map(|flow| flow.in_kg_s))
                .with("mass_flow_out_kg_s", flow.map(|flow| flow.out_kg_s))
        })
        .with("space_pressures_pa", direction.space_pressures.clone())
        .list("inner_flows", &direction.inner_flows, |flow| {
            Object::new()
                .with("mass_flow_forward_kg_s", flow.forward_kg_s)
                .with("mass_flow_back_kg_s", flow.back_kg_s)
        })
}

fn drying(drying: &CaseDrying) -> Object {
    Object::new()
        .with("source_g_per_h", drying.source_kg_s * GRAMS_PER_HOUR)
        .with(
            "at_outside_temperature",
            removal(&drying.at_outside_temperature),
        )
        .with("at_set_temperature", removal(&drying.at_set_temperature))
}

fn removal(removal: &RequiredRemoval) -> Object {
    Object::new()
        .with("inside_c", removal.inside_c)
        .with("dry_air_kg_s", removal.dry_air_kg_s)
        .with(
            "outside_humidity_ratio_kg_kg",
            removal.outside_humidity_ratio,
        )
        .with("target_humidity_ratio_kg_kg", removal.target_humidity_ratio)
        .with("removal_g_per_h", removal.g_per_h())
        .with("removal_l_per_day", removal.l_per_day())
        .with(
            "rh_without_removal_percent",
            removal.rh_without_removal * 100.0,
        )
}

fn heat(heat: &CaseHeat) -> Object {
    Object::new()
        .with("set_temperature", need(&heat.set_temperature))
        .with("frost_guard", need(&heat.frost_guard))
        .with("comfort", need(&heat.comfort))
}

fn need(need: &HeatNeed) -> Object {
    Object::new()
        .with("inside_c", need.inside_c)
        .with("outside_c", need.outside_c)
        .with("ach_per_h", &need.ach_per_h)
        .with("dry_air_kg_s", need.dry_air_kg_s)
        .with("air_w", need.air_w)
        .with("fabric_w", &need.fabric_w)
        .with("heat_w", need.total_w())
}
