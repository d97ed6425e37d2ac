//! The comparison of drying and heating.

use super::object::{Object, Value, list};
use crate::assess::drying::{
    Capacity, Comparison, DryOut, HeaterFor, HeaterSize, Offer, OptionAnswer, OptionCase,
    OptionKind, Proviso, Shortfall, SizedFor, Spot, Supply, Surface, Verdict, WarmUp,
};
use crate::assess::{Answer, NotKnown};
use crate::physics::coupled::Running;
use crate::physics::units::{GRAMS_PER_HOUR, LITRES_PER_DAY};
use crate::survey::word::Word;

pub(super) fn comparison(found: &Comparison) -> Object {
    let id = |index: usize| {
        found
            .cases
            .get(index)
            .map_or(Value::Null, |case| Value::from(case.id.0))
    };
    Object::new()
        .with("target_rh_percent", found.target_rh * 100.0)
        .with("inside_c", found.inside_c)
        .with("weights", found.weights)
        .with("calmest_case", id(found.calmest))
        .with("windiest_case", id(found.windiest))
        .with("findings", list(&found.findings, super::findings::finding))
        .with(
            "warmth_alone",
            list(&found.cases, |case| {
                Object::new()
                    .with("case", case.id.0)
                    .answer("inside_c", case.warmth_alone_c.clone())
            }),
        )
        .with("options", options(found))
        .with("after_plan", after_plan(found))
        .with("removal_against_rh", against_rh(found))
        .answer("removal_against_ach", against_ach(found))
        .with("capacities", list(&found.sizing.capacities, capacity))
        .with("heaters", list(&found.sizing.heaters, heater))
        .with("warm_up", list(&found.warm_up, warm_up))
        .answer(
            "night_air",
            found.night_air.as_ref().map_err(Clone::clone).map(|night| {
                Object::new()
                    .with("case", night.id.0)
                    .with("sleepers", night.sleepers)
                    .with("air_per_sleeper_m3_per_h", night.per_sleeper_m3_s * 3600.0)
                    .answer(
                        "carbon_dioxide_ppm",
                        night.carbon_dioxide_ppm.ok_or_else(|| {
                            NotKnown::because("it rises beyond 40 000 ppm: far too little air")
                        }),
                    )
            }),
        )
}

fn options(found: &Comparison) -> Vec<Object> {
    list(&found.options, |one| option(found, one))
}

/// The same once the planned gaps are sealed; null while none is planned.
fn after_plan(found: &Comparison) -> Value {
    let Some(plan) = &found.after_plan else {
        return Value::Null;
    };
    let gaps: Vec<Value> = plan.gaps.iter().map(|gap| Value::from(gap.0)).collect();
    let then = plan.comparison.as_ref().map_err(Clone::clone).map(|then| {
        Object::new()
            .with("options", options(then))
            .with("capacities", list(&then.sizing.capacities, capacity))
            .with("heaters", list(&then.sizing.heaters, heater))
    });
    Object::new()
        .with("gaps", gaps)
        .answer("comparison", then)
        .into()
}

fn option(comparison: &Comparison, option: &OptionAnswer) -> Object {
    let cases: Vec<Object> = comparison
        .cases
        .iter()
        .zip(&option.cases)
        .map(|(case, state)| {
            Object::new().with("case", case.id.0).answer(
                "state",
                state.as_ref().map_err(Clone::clone).map(self::state),
            )
        })
        .collect();
    let none = |why: &str| Err(NotKnown::because(why));
    let provisos = option.provisos.iter();
    let provisos: Vec<Value> = provisos.map(|proviso| proviso.word().into()).collect();
    let fan = option.room_volumes_per_h.clone();
    let supply = option
        .supply
        .clone()
        .map(|answer| answer.map(|found| supply_object(&found)));
    Object::new()
        .with("kind", option.kind.word())
        .with("name", option.name.as_str())
        .with(
            "machine",
            option.machine.map_or(Value::Null, |id| id.0.into()),
        )
        .with(
            "heater",
            option.heater.map_or(Value::Null, |id| id.0.into()),
        )
        .with("generic", option.generic)
        .with(
            "lowest_room_c",
            option.lowest_room_c.map_or(Value::Null, Value::from),
        )
        .answer(
            "verdict",
            option.verdict.clone().map(|verdict| verdict.word()),
        )
        .answer("season_share_held", option.verdict.clone().map(held_share))
        .with("provisos", provisos)
        .with("sentence", super::plain(&option.sentence))
        .answer("electricity_kwh_per_month", option.kwh_per_month.clone())
        .answer("cost_per_month", option.cost_per_month.clone())
        .answer(
            "fan_room_volumes_per_h",
            fan.unwrap_or_else(|| none("it has no fan, or its flow is not given")),
        )
        .answer(
            "supply",
            supply.unwrap_or_else(|| Err(NotKnown::because("it draws nothing from the supply"))),
        )
        .with("cases", cases)
}

/// Share of the season over which the target is held.
fn held_share(verdict: Verdict) -> f64 {
    match verdict {
        Verdict::Always => 1.0,
        Verdict::Partly(share) => share,
        Verdict::Never | Verdict::NothingToOpen => 0.0,
    }
}

fn supply_object(supply: &Supply) -> Object {
    let flag = |flag: Option<bool>| flag.map_or(Value::Null, Value::from);
    Object::new()
        .with("peak_w", supply.peak_w)
        .with("current_230v_a", supply.current_a)
        .with("within_10_a", supply.within_10_a)
        .with("within_16_a", supply.within_16_a)
        .with("within_own", flag(supply.within_own))
        .with(
            "battery_days",
            supply.battery_days.map_or(Value::Null, Value::from),
        )
}

fn state(state: &OptionCase) -> Object {
    let dew = state
        .dew_point_c
        .ok_or_else(|| NotKnown::because("dry air has no dew point"));
    Object::new()
        .with("inside_c", state.inside.t_c)
        .with("rh_percent", state.rh * 100.0)
        .with("humidity_ratio_kg_kg", state.inside.humidity_ratio)
        .answer("dew_point_c", dew)
        .with("dry_air_kg_s", state.dry_air_kg_s)
        .answer("ach_per_h", state.ach_per_h.clone())
        .with("removal_l_per_day", state.removal_kg_s * LITRES_PER_DAY)
        .with("load_l_per_day", state.load_kg_s * LITRES_PER_DAY)
        .with(
            "condensation_g_per_h",
            state.condensation_kg_s * GRAMS_PER_HOUR,
        )
        .with("running", state.running.word())
        .with("duty_share", state.duty)
        .with("machine_w", state.machine_w)
        .with("heater_w", state.heater_w)
        .with("electricity_kwh_per_day", state.energy.kwh_per_day)
        .with("gas_kg_per_day", state.energy.gas_kg_per_day)
        .with("liquid_fuel_l_per_day", state.energy.liquid_fuel_l_per_day)
        .answer("cost_per_day", state.energy.cost_per_day.clone())
        .answer("cost_per_month", state.energy.cost_per_month.clone())
        .with("holds_target", state.holds)
        .with(
            "why_not",
            state.shortfall.map_or(Value::Null, |why| why.word().into()),
        )
        .with("start_margin_k", number(state.start_margin_k))
        .with("ice_leaves_share", number(state.ice_leaves))
        .with("below_set_point_k", number(state.below_set_point_k))
        .with(
            "fall",
            state.fall.map_or(Value::Null, |fall| {
                Object::new()
                    .with("rh_without_percent", fall.rh_without * 100.0)
                    .with("warmth_share", fall.warmth_share)
                    .with("water_share", fall.water_share)
                    .into()
            }),
        )
        .with(
            "dry_out",
            state
                .dry_out
                .map_or(Value::Null, |found| dry_out(&found).into()),
        )
        .with("surfaces", list(&state.surfaces, surface))
}

fn number(value: Option<f64>) -> Value {
    value.map_or(Value::Null, Value::from)
}

fn dry_out(dry_out: &DryOut) -> Object {
    let days = dry_out
        .days
        .ok_or_else(|| NotKnown::because("nothing is left beside the steady load"));
    Object::new()
        .with("balance_moisture_percent", dry_out.balance_moisture * 100.0)
        .with("water_l", dry_out.water_kg)
        .with("spare_l_per_day", dry_out.spare_kg_s * LITRES_PER_DAY)
        .answer("days", days)
}

fn surface(surface: &Surface) -> Object {
    let kelvin = surface
        .kelvin_to_clear
        .ok_or_else(|| NotKnown::because("no warmth in reach clears it"));
    Object::new()
        .with("element", surface.element.0)
        .with("name", surface.name.as_str())
        .with("spot", surface.spot.word())
        .with("temperature_factor", surface.temperature_factor)
        .with("outside_seen_c", surface.outside_seen_c)
        .with("temperature_c", surface.temperature_c)
        .with("surface_rh_percent", surface.surface_rh * 100.0)
        .with("limit_percent", surface.limit * 100.0)
        .with("condenses", surface.condenses)
        .with("exceeds", surface.exceeds)
        .answer("kelvin_to_clear", kelvin)
        .with("rh_to_clear_percent", surface.rh_to_clear * 100.0)
        .with(
            "removal_to_clear_l_per_day",
            surface.removal_to_clear_kg_s * LITRES_PER_DAY,
        )
}

fn against_rh(comparison: &Comparison) -> Vec<Object> {
    list(&comparison.sizing.against_rh, |curve| {
        let points = curve.points.as_ref().map_err(Clone::clone).map(|points| {
            list(points, |(rh, removal)| {
                Object::new()
                    .with("rh_percent", rh * 100.0)
                    .with("removal_l_per_day", removal * LITRES_PER_DAY)
            })
        });
        Object::new()
            .with("case", curve.id.0)
            .answer("points", points)
    })
}

fn against_ach(comparison: &Comparison) -> Answer<Vec<Object>> {
    let points = comparison
        .sizing
        .against_ach
        .as_ref()
        .map_err(Clone::clone)?;
    Ok(list(points, |point| {
        Object::new()
            .with("ach_per_h", point.ach_per_h)
            .with(
                "at_outside_temperature_l_per_day",
                point.at_outside_temperature_kg_s * LITRES_PER_DAY,
            )
            .with(
                "at_set_temperature_l_per_day",
                point.at_set_temperature_kg_s * LITRES_PER_DAY,
            )
    }))
}

fn capacity(capacity: &Capacity) -> Object {
    let litres = |answer: &Answer<f64>| answer.clone().map(|kg_s| kg_s * LITRES_PER_DAY);
    let (now, most) = match capacity.offer {
        Ok(Offer::LessAir {
            now_per_h,
            at_most_per_h,
            ..
        }) => (Some(now_per_h), Some(at_most_per_h)),
        _ => (None, None),
    };
    let case = match capacity.sized_for {
        SizedFor::Case(id) => Value::from(id.0),
        SizedFor::Design => Value::Null,
    };
    Object::new()
        .with("kind", capacity.kind.word())
        .with("sized_for", capacity.sized_for.word())
        .with("case", case)
        .with("inside_c", capacity.inside_c)
        .with("rating_c", capacity.rated_c)
        .with("rating_rh_percent", capacity.rated_rh * 100.0)
        .answer("needed_l_per_day", litres(&capacity.needed_kg_s))
        .answer("rated_l_per_day", litres(&capacity.rated_kg_s))
        .answer("offer", capacity.offer.clone().map(|offer| offer.word()))
        .with("ach_now_per_h", number(now))
        .with("ach_at_most_per_h", number(most))
}

fn heater(size: &HeaterSize) -> Object {
    Object::new()
        .with("heater_for", size.heater_for.word())
        .with("inside_c", size.inside_c)
        .answer("air_w", size.air_w.clone())
        .with("fabric_w", size.fabric_w)
        .answer("rating_w", size.rating_w.clone())
        .answer("heat_kwh_per_month", size.kwh_per_month.clone())
}

fn warm_up(warm_up: &WarmUp) -> Object {
    let never = || NotKnown::because("it never gets there");
    let heaters: Vec<Object> = warm_up
        .heaters
        .iter()
        .map(|(name, takes)| {
            let minutes = takes
                .clone()
                .and_then(|seconds| seconds.ok_or_else(never))
                .map(|seconds| seconds / 60.0);
            Object::new()
                .with("name", name.as_str())
                .answer("minutes", minutes)
        })
        .collect();
    let capacity = |which: fn(&(f64, bool)) -> Value| warm_up.heat_capacity.as_ref().map(which);
    Object::new()
        .with("case", warm_up.id.0)
        .with("from_c", warm_up.from_c)
        .with("to_c", warm_up.to_c)
        .answer(
            "heat_capacity_kj_per_k",
            capacity(|found| Value::from(found.0 / 1000.0)).map_err(Clone::clone),
        )
        .answer(
            "heat_capacity_assumed",
            capacity(|found| Value::from(found.1)).map_err(Clone::clone),
        )
        .answer("conductance_w_per_k", warm_up.conductance_w_per_k.clone())
        .answer("power_for_an_hour_w", warm_up.power_for_an_hour_w.clone())
        .with("heaters", heaters)
}

impl Word for OptionKind {
    fn word(&self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::LockersOpen => "lockers_open",
            Self::Machine(kind) => kind.word(),
            Self::BackgroundHeat => "background_heat",
            Self::SameHeat => "same_heat",
            Self::HeatAndMachine => "heat_and_machine",
        }
    }
}

impl Word for Verdict {
    fn word(&self) -> &'static str {
        match self {
            Self::Always => "always",
            Self::Partly(_) => "partly",
            Self::Never => "never",
            Self::NothingToOpen => "nothing_to_open",
        }
    }
}

impl Word for Running {
    fn word(&self) -> &'static str {
        match self {
            Self::NoMachine => "no_machine",
            Self::Runs => "runs",
            Self::TooCold => "too_cold",
        }
    }
}

impl Word for Spot {
    fn word(&self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Bridge => "thermal_bridge",
            Self::Glass => "glass",
            Self::Metal => "metal",
        }
    }
}

impl Word for SizedFor {
    fn word(&self) -> &'static str {
        match self {
            Self::Case(_) => "case",
            Self::Design => "design",
        }
    }
}

impl Word for Offer {
    fn word(&self) -> &'static str {
        match self {
            Self::NoneNeeded => "none_needed",
            Self::Offered => "offered",
            Self::LessAir { .. } => "less_air_first",
            Self::LessWater { .. } => "less_water_first",
        }
    }
}

impl Word for Proviso {
    fn word(&self) -> &'static str {
        match self {
            Self::Unattended => "flame_unattended",
            Self::ShortOfHeat => "short_of_heat",
        }
    }
}

impl Word for Shortfall {
    fn word(&self) -> &'static str {
        match self {
            Self::TooCold => "too_cold_for_machine",
            Self::MachineTooSmall => "machine_too_small",
            Self::HeaterTooSmall => "heater_too_small",
            Self::NotWarmEnough => "not_warm_enough",
            Self::NothingRemoves => "nothing_removes",
        }
    }
}

impl Word for HeaterFor {
    fn word(&self) -> &'static str {
        match self {
            Self::FrostGuard => "frost_guard",
            Self::SetTemperature => "set_temperature",
            Self::Comfort => "comfort",
        }
    }
}
