//! Workings of the comparison of drying and heating options.

use super::{Sheet, not_known, with_unit};
use crate::assess::answer::{Answer, Mark, Working};
use crate::assess::drying::{Comparison, OptionAnswer, OptionCase, OptionKind};
use crate::assess::number::significant;
use crate::assess::topic::DryingTopic;
use crate::survey::Survey;

const KG_PER_H: f64 = 3600.0;
const LITRES_PER_DAY: f64 = 86_400.0;

/// The working of a result of the comparison; `None` where it holds no such option.
#[must_use]
pub fn drying_working(
    survey: &Survey,
    comparison: &Comparison,
    topic: DryingTopic,
) -> Option<Working> {
    match topic {
        DryingTopic::Option(kind, machine, heater) => {
            let is = |option: &&OptionAnswer| {
                (option.kind, option.machine, option.heater) == (kind, machine, heater)
            };
            let option = comparison.options.iter().find(is)?;
            Some(option_sheet(survey, comparison, option))
        }
        DryingTopic::Capacity => Some(capacity(survey, comparison)),
        DryingTopic::HeaterSize => Some(heater_size(survey, comparison)),
        DryingTopic::Surfaces => Some(surfaces(comparison)),
        DryingTopic::DryOut => Some(dry_out(survey, comparison)),
        DryingTopic::WarmUp => Some(warm_up(comparison)),
        DryingTopic::NightAir => Some(night_air(comparison)),
    }
}

fn known(answer: &Answer<f64>, digits: i32, unit: &str) -> String {
    match answer {
        Ok(value) => with_unit(*value, digits, unit),
        Err(reason) => not_known(reason),
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

/// The calmest case and the windiest, each once.
fn calmest_and_windiest(comparison: &Comparison) -> Vec<usize> {
    let mut both = vec![comparison.calmest, comparison.windiest];
    both.dedup();
    both
}

fn option_sheet(survey: &Survey, comparison: &Comparison, option: &OptionAnswer) -> Working {
    let mut sheet = Sheet::new(
        format!("What this does: {}", option.name),
        "water: m_da (Wₒ − Wᵢ) + S − D − condensation = 0;  heat: (Σ U A + H_v)(Tᵢ − Tₒ) = heater + gains + P + (D + condensation) h_fg − S_liquid h_fg;  H_v = m_da (1006 + 1860 Wₒ)",
    );
    sheet.input("set-up", survey.set_up.name());
    sheet.number("target RH", comparison.target_rh * 100.0, 3, "%");
    for at in calmest_and_windiest(comparison) {
        let Some(case) = comparison.cases.get(at) else {
            continue;
        };
        if let Ok(outside) = &case.outside {
            sheet.input(
                &format!("outside, {}", case.name),
                format!(
                    "{}, {}, {} g/kg",
                    with_unit(outside.t_c, 3, "°C"),
                    percent(outside.relative_humidity()),
                    significant(outside.humidity_ratio * 1e3, 3)
                ),
            );
        }
        match option.cases.get(at) {
            Some(Ok(state)) => state_inputs(&mut sheet, &case.name, state),
            Some(Err(reason)) => {
                sheet.input(&format!("inside, {}", case.name), not_known(reason));
            }
            None => {}
        }
    }
    sheet
        .result(option.sentence.clone())
        .source(Mark::Read, "moist air: ASHRAE Fundamentals 2017, chapter 1")
        .source(
            Mark::Assumption,
            "steady balances of water and heat, solved together with the air flow at the inside temperature, mean over 16 wind directions",
        );
    behaviour(&mut sheet, option);
    sheet
        .note("warmth is counted first: the same water at the option's temperature and air flow; the rest of the fall is owed to the water removed")
        .note("steady state: a damp vehicle gives off water for weeks besides")
        .finish()
}

fn state_inputs(sheet: &mut Sheet, case: &str, state: &OptionCase) {
    sheet.input(
        &format!("inside, {case}"),
        format!(
            "{}, {}, {} g/kg",
            with_unit(state.inside.t_c, 3, "°C"),
            percent(state.rh),
            significant(state.inside.humidity_ratio * 1e3, 3)
        ),
    );
    sheet.input(
        &format!("air through, {case}"),
        format!(
            "{} of dry air, {}",
            with_unit(state.dry_air_kg_s * KG_PER_H, 3, "kg/h"),
            known(&state.ach_per_h, 2, "/h")
        ),
    );
    sheet.input(
        &format!("water, {case}"),
        format!(
            "{} removed of {} L/day to remove",
            significant(state.removal_kg_s * LITRES_PER_DAY, 2),
            significant(state.load_kg_s * LITRES_PER_DAY, 2)
        ),
    );
    sheet.input(
        &format!("power, {case}"),
        format!(
            "machine {} at a duty of {}, heater {}",
            with_unit(state.machine_w, 3, "W"),
            percent(state.duty),
            with_unit(state.heater_w, 3, "W")
        ),
    );
    if let Some(fall) = &state.fall {
        sheet.input(
            &format!("fall of RH, {case}"),
            format!(
                "from {}; {} of it warmth, {} water removed",
                percent(fall.rh_without),
                percent(fall.warmth_share),
                percent(fall.water_share)
            ),
        );
    }
}

/// What is taken for granted about the appliance.
fn behaviour(sheet: &mut Sheet, option: &OptionAnswer) {
    if option.generic {
        sheet.note("a generic size, not one of the survey's: enter your own on the Vehicle page");
        sheet.source(Mark::Assumption, "figures of the generic machine or heater");
    }
    if matches!(
        option.kind,
        OptionKind::Machine(_) | OptionKind::HeatAndMachine
    ) {
        sheet.source(
            Mark::Assumption,
            "how the kind of machine gathers water away from its rating state",
        );
    }
    if let Some(Ok(supply)) = &option.supply {
        sheet.number(
            "current with everything running",
            supply.current_a,
            2,
            "A at 230 V",
        );
    }
}

fn capacity(survey: &Survey, comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new(
        "Rated capacity to look for",
        "needed = max(0, S + m_da (Wₒ − W*));  rated = needed D(rating state)/D(target state) × 1.25",
    );
    sheet.number("target RH", comparison.target_rh * 100.0, 3, "%");
    sheet.number("held at", survey.targets.set_temperature_c, 3, "°C");
    sheet.number(
        "design outside temperature",
        survey.targets.design_outside_c,
        3,
        "°C",
    );
    for size in &comparison.sizing.capacities {
        let litres = |answer: &Answer<f64>| {
            let litres = answer.clone().map(|kg_s| kg_s * LITRES_PER_DAY);
            known(&litres, 2, "L/day")
        };
        sheet.input(
            &format!("{}, {}", size.kind.name(), size.sized_for.name()),
            format!(
                "{} needed; rated {} at {} °C {}",
                litres(&size.needed_kg_s),
                litres(&size.rated_kg_s),
                significant(size.rated_c, 2),
                percent(size.rated_rh)
            ),
        );
    }
    sheet
        .result("the smallest rated capacity that holds the target at the set temperature, a quarter added")
        .source(Mark::Read, "moist air: ASHRAE Fundamentals 2017, chapter 1")
        .source(Mark::Assumption, "behaviour of each kind away from its rating state; margin of 25 %")
        .source(Mark::CommonPractice, "rating states: 30 °C 80 % with a cold coil, 20 °C 60 % with a rotor")
        .note("a capacity stated without its state says nothing: ask the maker for it")
        .finish()
}

fn heater_size(survey: &Survey, comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new(
        "Heater to look for",
        "rating = (Σ U A + m_da (1006 + 1860 Wₒ)) (Tᵢ − T_design) × 1.25;  kWh a month = heat of each weather case by its share × 730.5 h",
    );
    sheet.number(
        "design outside temperature",
        survey.targets.design_outside_c,
        3,
        "°C",
    );
    for size in &comparison.sizing.heaters {
        sheet.input(
            &format!("to hold {}", with_unit(size.inside_c, 3, "°C")),
            format!(
                "{} with the air, {} through the fabric; rating {}; {} a month",
                known(&size.air_w, 2, "W"),
                with_unit(size.fabric_w, 2, "W"),
                known(&size.rating_w, 2, "W"),
                known(&size.kwh_per_month, 2, "kWh")
            ),
        );
    }
    sheet
        .result(
            "heat at the design outside temperature in the windiest case's wind, a quarter added",
        )
        .source(Mark::Memory, "ISO 6946, U-values from layers")
        .source(
            Mark::Assumption,
            "margin of 25 %; no sun, people or machines",
        )
        .note("draining the water system is the first protection against frost")
        .finish()
}

fn surfaces(comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new(
        "Cold surfaces",
        "T_s = Tₒ + f (Tᵢ − Tₒ);  f = 1 − Rsi/(Rsi + R + Rse);  surface RH = p_v/p_ws(T_s)",
    );
    sheet
        .input("Rsi, glass", "0.13 m² K/W")
        .input("Rsi, everything else", "0.25 m² K/W")
        .input("limit against mould", "80 % at the surface")
        .input("limit against corrosion of bare metal", "60 % at the surface")
        .result("at each surface its temperature, the relative humidity of the inside air cooled to it, and what clears it")
        .source(Mark::Memory, "ISO 13788: temperature factor, surface resistances, limits of surface RH")
        .source(Mark::Assumption, "on a clear night roof and glass see air 3 K colder")
        .source(Mark::Assumption, "thermal bridges take a tenth of an element's area");
    sheet.number("target RH", comparison.target_rh * 100.0, 3, "%");
    sheet.finish()
}

fn dry_out(survey: &Survey, comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new(
        "Drying out damp contents",
        "water = m (u − u*);  days = water/(what the option removes at the target beyond the steady load)",
    );
    let drying = &survey.drying;
    for (name, value, unit) in [
        ("dry mass of the contents m", drying.contents_kg, "kg"),
        ("their moisture u", drying.contents_moisture_percent, "%"),
    ] {
        match value {
            Some(value) => sheet.number(name, value, 3, unit),
            None => sheet.input(name, "not given"),
        };
    }
    sheet.number("target RH", comparison.target_rh * 100.0, 3, "%");
    let found = comparison.options.iter().find_map(|option| {
        let case = option.cases.get(comparison.calmest)?.as_ref().ok()?;
        case.dry_out
    });
    match found {
        Some(found) => {
            let balance = found.balance_moisture * 100.0;
            sheet
                .number("moisture in balance with the target u*", balance, 3, "%")
                .result(format!("{} to give off", with_unit(found.water_kg, 2, "L")))
        }
        None => sheet.result("not known: mass and moisture of the contents are not both given"),
    };
    sheet
        .source(
            Mark::Memory,
            "moisture of wood in balance with air: Wood Handbook, US Forest Products Laboratory",
        )
        .source(
            Mark::Assumption,
            "contents take up water as wood does, and give it off as fast as it is removed",
        )
        .note("at least so long: the last water comes out of boards and cushions slowly")
        .finish()
}

fn warm_up(comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new(
        "Warming up",
        "t = (C/H) ln(P/(P − H ΔT));  P in one hour = H ΔT/(1 − exp(−H · 1 h/C))",
    );
    for one in &comparison.warm_up {
        let name = case_name(comparison, one.id);
        sheet.input(
            &format!("from and to, {name}"),
            format!(
                "{} to {}",
                with_unit(one.from_c, 3, "°C"),
                with_unit(one.to_c, 3, "°C")
            ),
        );
        let capacity = match &one.heat_capacity {
            Ok((capacity, assumed)) => format!(
                "{}{}",
                with_unit(capacity / 1000.0, 3, "kJ/K"),
                if *assumed {
                    ", 30 kJ/K for each m³"
                } else {
                    ""
                }
            ),
            Err(reason) => not_known(reason),
        };
        sheet.input(&format!("heat capacity C, {name}"), capacity);
        sheet.input(
            &format!("fabric and air H, {name}"),
            known(&one.conductance_w_per_k, 3, "W/K"),
        );
    }
    let words: Vec<String> = comparison
        .warm_up
        .iter()
        .map(|one| {
            let name = case_name(comparison, one.id);
            format!("{name} {}", known(&one.power_for_an_hour_w, 2, "W"))
        })
        .collect();
    sheet
        .result(format!("to warm up within an hour: {}", words.join("; ")))
        .source(
            Mark::Assumption,
            "one heat capacity and one conductance; heat capacity from the volume where none is given",
        )
        .finish()
}

fn case_name(comparison: &Comparison, id: crate::survey::WeatherId) -> String {
    let case = comparison.cases.iter().find(|case| case.id == id);
    case.map_or_else(String::new, |case| case.name.clone())
}

fn night_air(comparison: &Comparison) -> Working {
    let mut sheet = Sheet::new("Air of sleepers", "C = 420 ppm + N G/Q");
    match &comparison.night_air {
        Ok(air) => {
            let hourly = air.per_sleeper_m3_s * 3600.0;
            sheet
                .input("weather", case_name(comparison, air.id))
                .input("sleepers N, one for each berth", air.sleepers.to_string())
                .input("carbon dioxide of a sleeper G", "13.6 L/h")
                .number("air for each sleeper", hourly, 2, "m³/h")
                .result(format!(
                    "{} of carbon dioxide",
                    with_unit(air.carbon_dioxide_ppm, 2, "ppm")
                ))
        }
        Err(reason) => sheet.result(not_known(reason)),
    };
    sheet
        .source(
            Mark::Memory,
            "EN 16798-1: carbon dioxide given off by a sleeper",
        )
        .source(Mark::Memory, "420 ppm outside")
        .note("the steady value, reached after some hours with everything shut as surveyed")
        .note("carbon dioxide tells of stale air; it says nothing about carbon monoxide")
        .finish()
}
