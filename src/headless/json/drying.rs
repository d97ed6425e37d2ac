//! The comparison of drying and heating.

use super::object::{Object, list};
use crate::assess::drying::{
    AchPoint, AfterPlan, Capacity, Comparison, DryOut, Fall, HeaterFor, HeaterSize, NightAir,
    Offer, OptionAnswer, OptionCase, OptionKind, Proviso, Shares, Shortfall, SizedFor, Spot,
    Supply, Surface, ToBuy, Verdict, WARMEST_C, WarmUp,
};
use crate::assess::quantity::Kind;
use crate::assess::{Answer, NotKnown};
use crate::physics::coupled::Running;
use crate::physics::units::LITRES_PER_DAY;
use crate::survey::word::Word;

pub(super) fn comparison(found: &Comparison) -> Object {
    let id = |index: usize| found.cases.get(index).map(|case| case.id.0);
    Object::new()
        .with("target_rh_percent", found.target_rh * 100.0)
        .with("inside_c", found.inside_c)
        .with("weights", found.weights)
        .with("shares_from", found.shares.word())
        .with("calmest_case", id(found.calmest))
        .with("windiest_case", id(found.windiest))
        .list("findings", &found.findings, super::findings::finding)
        .list("warmth_alone", &found.cases, |case| {
            Object::new()
                .with("case", case.id.0)
                .with("inside_c", &case.warmth_alone_c)
        })
        .with("options", options(found))
        .with("after_plan", found.after_plan.as_ref().map(after_plan))
        .list("removal_against_rh", &found.sizing.against_rh, |curve| {
            let case = Object::new().with("case", curve.id.0);
            case.found("points", &curve.points, |points| list(points, at_rh))
        })
        .found("removal_against_ach", &found.sizing.against_ach, |points| {
            list(points, at_ach)
        })
        .list("capacities", &found.sizing.capacities, capacity)
        .list("heaters", &found.sizing.heaters, heater)
        .list("warm_up", &found.warm_up, warm_up)
        .found("night_air", &found.night_air, |night| {
            Object::new()
                .with("case", night.id.0)
                .with("sleepers", night.sleepers)
                .with("air_per_sleeper_m3_per_h", night.per_sleeper_m3_s * 3600.0)
                .with("carbon_dioxide_ppm", settles_at(night))
        })
}

fn settles_at(night: &NightAir) -> Answer<f64> {
    let beyond = "it rises beyond 40 000 ppm: far too little air";
    night
        .carbon_dioxide_ppm
        .ok_or_else(|| NotKnown::because(beyond))
}

fn options(found: &Comparison) -> Vec<Object> {
    list(&found.options, |one| option(found, one))
}

/// The same once the planned gaps are sealed.
fn after_plan(plan: &AfterPlan) -> Object {
    let gaps = Object::new().list("gaps", &plan.gaps, |gap| gap.0);
    gaps.found("comparison", &plan.comparison, |then| {
        Object::new()
            .with("options", options(then))
            .list("capacities", &then.sizing.capacities, capacity)
            .list("heaters", &then.sizing.heaters, heater)
    })
}

fn option(comparison: &Comparison, option: &OptionAnswer) -> Object {
    let cases = comparison.cases.iter().zip(&option.cases);
    let no_fan = Err(NotKnown::because("it has no fan, or its flow is not given"));
    let no_supply = Err(NotKnown::because("it draws nothing from the supply"));
    let fan = option.room_volumes_per_h.as_ref().unwrap_or(&no_fan);
    let supply = option.supply.as_ref().unwrap_or(&no_supply);
    Object::new()
        .with("kind", option.kind.word())
        .with("name", &option.name)
        .with("machine", option.machine.map(|id| id.0))
        .with("heater", option.heater.map(|id| id.0))
        .with("generic", option.generic)
        .with("lowest_room_c", option.lowest_room_c)
        .found("verdict", &option.verdict, Word::word)
        .found("season_share_held", &option.verdict, Verdict::share)
        .list("provisos", &option.provisos, Word::word)
        .with("sentence", super::plain(&option.sentence))
        .with("electricity_kwh_per_month", &option.kwh_per_month)
        .with("cost_per_month", &option.costs.per_month)
        .with("cost_per_winter", &option.costs.per_winter)
        .with("to_buy", option.to_buy.word())
        .with("to_buy_cost", option.to_buy.money())
        .with("fan_room_volumes_per_h", fan)
        .found("supply", supply, supply_object)
        .list("cases", cases, |(case, answer)| {
            Object::new()
                .with("case", case.id.0)
                .found("state", answer, state)
        })
}

fn supply_object(supply: &Supply) -> Object {
    Object::new()
        .with("peak_w", supply.peak_w)
        .with("current_230v_a", supply.current_a)
        .with("within_10_a", supply.within_10_a)
        .with("within_16_a", supply.within_16_a)
        .with("within_own", supply.within_own)
        .with("battery_days", supply.battery_days)
}

fn state(state: &OptionCase) -> Object {
    let dew = state
        .dew_point_c
        .ok_or_else(|| NotKnown::because("dry air has no dew point"));
    Object::new()
        .with("inside_c", state.inside.t_c)
        .with("rh_percent", state.rh * 100.0)
        .with("humidity_ratio_kg_kg", state.inside.humidity_ratio)
        .with("dew_point_c", dew)
        .with("dry_air_kg_s", state.dry_air_kg_s)
        .with("ach_per_h", &state.ach_per_h)
        .with("removal_l_per_day", state.removal_kg_s * LITRES_PER_DAY)
        .with("load_l_per_day", state.load_kg_s * LITRES_PER_DAY)
        .with(
            "condensation_l_per_day",
            state.condensation_kg_s * LITRES_PER_DAY,
        )
        .with("running", state.running.word())
        .with("duty_share", state.duty)
        .with("machine_w", state.machine_w)
        .with("heater_w", state.heater_w)
        .with("electricity_kwh_per_day", state.energy.kwh_per_day)
        .with("gas_kg_per_day", state.energy.gas_kg_per_day)
        .with("liquid_fuel_l_per_day", state.energy.liquid_fuel_l_per_day)
        .with("cost_per_day", &state.energy.cost_per_day)
        .with("cost_per_month", &state.energy.cost_per_month)
        .with("holds_target", state.holds)
        .with("why_not", state.shortfall.map(|why| why.word()))
        .with("start_margin_k", state.start_margin_k)
        .with("ice_leaves_share", state.ice_leaves)
        .with("below_set_point_k", state.below_set_point_k)
        .with("fall", state.fall.map(fall))
        .with("dry_out", state.dry_out.as_ref().map(dry_out))
        .list("surfaces", &state.surfaces, surface)
}

fn fall(fall: Fall) -> Object {
    Object::new()
        .with("rh_without_percent", fall.rh_without * 100.0)
        .with("warmth_share", fall.warmth_share)
        .with("water_share", fall.water_share)
}

fn dry_out(dry_out: &DryOut) -> Object {
    let days = dry_out
        .days
        .ok_or_else(|| NotKnown::because("nothing is left beside the steady load"));
    Object::new()
        .with("balance_moisture_percent", dry_out.balance_moisture * 100.0)
        .with("water_l", dry_out.water_kg)
        .with("spare_l_per_day", dry_out.spare_kg_s * LITRES_PER_DAY)
        .with("days", days)
}

fn surface(surface: &Surface) -> Object {
    let never = || {
        let warmest = Kind::Celsius.typed(WARMEST_C);
        NotKnown::because(format!("never: not even {warmest} inside clears it"))
    };
    let kelvin = surface.kelvin_to_clear.clone();
    let kelvin = kelvin.and_then(|kelvin| kelvin.ok_or_else(never));
    Object::new()
        .with("element", surface.element.0)
        .with("name", &surface.name)
        .with("spot", surface.spot.word())
        .recorded("area_m2", surface.area_m2)
        .with("temperature_factor", surface.temperature_factor)
        .with("outside_seen_c", surface.outside_seen_c)
        .with("temperature_c", surface.temperature_c)
        .with("surface_rh_percent", surface.surface_rh * 100.0)
        .with("limit_percent", surface.limit * 100.0)
        .with("condenses", surface.condenses)
        .with(
            "condensation_l_per_day",
            surface.condensed_kg_s * LITRES_PER_DAY,
        )
        .with("exceeds", surface.exceeds)
        .with("kelvin_to_clear", kelvin)
        .with("rh_to_clear_percent", surface.rh_to_clear * 100.0)
        .found(
            "removal_to_clear_l_per_day",
            &surface.removal_to_clear_kg_s,
            |kg_s| kg_s * LITRES_PER_DAY,
        )
}

fn at_rh((rh, removal_kg_s): &(f64, f64)) -> Object {
    Object::new()
        .with("rh_percent", rh * 100.0)
        .with("removal_l_per_day", removal_kg_s * LITRES_PER_DAY)
}

fn at_ach(point: &AchPoint) -> Object {
    let at_outside = point.at_outside_temperature_kg_s * LITRES_PER_DAY;
    let at_set = point.at_set_temperature_kg_s * LITRES_PER_DAY;
    Object::new()
        .with("ach_per_h", point.ach_per_h)
        .with("at_outside_temperature_l_per_day", at_outside)
        .with("at_set_temperature_l_per_day", at_set)
}

fn capacity(capacity: &Capacity) -> Object {
    let litres = |kg_s: &f64| kg_s * LITRES_PER_DAY;
    let (now, most, least) = match capacity.offer {
        Ok(Offer::LessAir {
            now_per_h,
            at_most_per_h,
            least_per_h,
            ..
        }) => (Some(now_per_h), Some(at_most_per_h), Some(least_per_h)),
        _ => (None, None, None),
    };
    let case = match capacity.sized_for {
        SizedFor::Case(id) => Some(id.0),
        SizedFor::Design => None,
    };
    Object::new()
        .with("kind", capacity.kind.word())
        .with("sized_for", capacity.sized_for.word())
        .with("case", case)
        .with("inside_c", capacity.inside_c)
        .with("rating_c", capacity.rated_c)
        .with("rating_rh_percent", capacity.rated_rh * 100.0)
        .found("needed_l_per_day", &capacity.needed_kg_s, litres)
        .found("rated_l_per_day", &capacity.rated_kg_s, litres)
        .found("offer", &capacity.offer, Word::word)
        .with("ach_now_per_h", now)
        .with("ach_at_most_per_h", most)
        .with("ach_sealed_per_h", least)
}

fn heater(size: &HeaterSize) -> Object {
    Object::new()
        .with("heater_for", size.heater_for.word())
        .with("inside_c", size.inside_c)
        .with("air_w", &size.air_w)
        .with("fabric_w", size.fabric_w)
        .with("rating_w", &size.rating_w)
        .with("heat_kwh_per_month", &size.kwh_per_month)
}

fn warm_up(warm_up: &WarmUp) -> Object {
    let never = || NotKnown::because("it never gets there");
    let capacity = &warm_up.heat_capacity;
    Object::new()
        .with("case", warm_up.id.0)
        .with("from_c", warm_up.from_c)
        .with("to_c", warm_up.to_c)
        .found("heat_capacity_kj_per_k", capacity, |found| found.0 / 1000.0)
        .found("heat_capacity_assumed", capacity, |found| found.1)
        .with("conductance_w_per_k", &warm_up.conductance_w_per_k)
        .with("power_for_an_hour_w", &warm_up.power_for_an_hour_w)
        .list("heaters", &warm_up.heaters, |(name, takes)| {
            let seconds = takes.clone().and_then(|takes| takes.ok_or_else(never));
            Object::new()
                .with("name", name)
                .found("minutes", &seconds, |seconds| seconds / 60.0)
        })
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

impl Word for ToBuy {
    fn word(&self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Owned => "owned",
            Self::Costs(_) => "costs",
        }
    }
}

impl Word for Shares {
    fn word(&self) -> &'static str {
        match self {
            Self::WeatherCases => "weather_cases",
            Self::Winter => "winter",
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
            Self::Unflued => "flame_without_flue",
            Self::ShortOfHeat => "short_of_heat",
            Self::OverSupply => "over_supply",
            Self::NotNeeded => "not_needed",
            Self::WetSurfaces => "wet_surfaces",
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
