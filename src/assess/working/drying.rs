//! Workings of the comparison of drying and heating.

use super::{Sheet, celsius, not_known, percent, with_unit};
use crate::assess::Mark;
use crate::assess::answer::{Answer, Working};
use crate::assess::drying::{
    Capacity, Comparison, HeaterSize, MOST_PPM, NightAir, Offer, OptionAnswer, OptionCase, Surface,
    WARMEST_C, WarmUp,
};
use crate::assess::quantity::Kind;
use crate::assess::topic::DryingTopic;
use crate::physics::coupled::Running;
use crate::physics::units::LITRES_PER_DAY;
use crate::survey::{MachineKind, Survey, WeatherId};

/// The working of a result of the comparison; `None` where it holds no such option or case.
#[must_use]
pub fn drying_working(
    survey: &Survey,
    comparison: &Comparison,
    topic: DryingTopic,
) -> Option<Working> {
    match topic {
        DryingTopic::Option(option, id) => state(survey, comparison, option, id),
        DryingTopic::AfterPlan(option, id) => after_plan(survey, comparison, option, id),
        DryingTopic::DryOut(option, id) => dry_out(survey, comparison, option, id),
        DryingTopic::Surface(option, id, surface) => {
            let (option, case) = found(comparison, option, id)?;
            let case = case.as_ref().ok()?;
            Some(cold_surface(option, case, case.surfaces.get(surface)?))
        }
        DryingTopic::Capacity(index) => Some(capacity(comparison.sizing.capacities.get(index)?)),
        DryingTopic::Heater(index) => Some(heater(comparison.sizing.heaters.get(index)?)),
        DryingTopic::WarmUp(index) => Some(warm_up(comparison.warm_up.get(index)?)),
        DryingTopic::NightAir => Some(night_air(&comparison.night_air)),
    }
}

/// An option and its state in a weather case.
fn found(
    comparison: &Comparison,
    option: usize,
    id: WeatherId,
) -> Option<(&OptionAnswer, &Answer<OptionCase>)> {
    let at = comparison.case_index(id)?;
    let option = comparison.options.get(option)?;
    Some((option, option.cases.get(at)?))
}

fn case_name(comparison: &Comparison, id: WeatherId) -> &str {
    let at = comparison.case_index(id);
    at.map_or("", |at| comparison.case_name(at))
}

fn state(
    survey: &Survey,
    comparison: &Comparison,
    option: usize,
    id: WeatherId,
) -> Option<Working> {
    let (option, case) = found(comparison, option, id)?;
    let mut sheet = Sheet::new(
        format!("{}, {}", option.name, case_name(comparison, id)),
        "m_da (Wₒ − Wᵢ) + S − D − Σ Cₛ − C = 0 and (Σ U A + m_da (1006 + 1860 Wₒ)) (Tᵢ − Tₒ) = heater + gains + P + (D + Σ fₛ Cₛ + C − S_liquid) h_fg, solved together",
    );
    sheet.input("set-up", survey.set_up.name());
    match case {
        Ok(case) => known_state(&mut sheet, comparison, case),
        Err(reason) => sheet.unknown(reason),
    }
    sheet
        .read("moist air: ASHRAE Fundamentals 2017, chapter 1")
        .assumed("steady balance of water and heat at the mean air flow over 16 wind directions; h_fg 2.5 MJ/kg")
        .assumed("cold surfaces take Cₛ = 2.1e-3 m/s × area × (vapour density inside − saturated at Tₛ), never below zero; the share fₛ = f_Rsi of its heat comes back to the room; Tₛ leaves out the heat of the water, which makes Cₛ some 20 to 45 % high",
        );
    machine_source(&mut sheet, option);
    Some(sheet.finish())
}

fn after_plan(
    survey: &Survey,
    comparison: &Comparison,
    option: usize,
    id: WeatherId,
) -> Option<Working> {
    let plan = comparison.after_plan.as_ref()?;
    let then = plan.comparison.as_ref().ok()?;
    let mut working = state(survey, then, option, id)?;
    working.title.push_str(", after the plan");
    let gaps: Vec<String> = plan.gaps.iter().map(ToString::to_string).collect();
    working.notes.push(format!(
        "planned gaps sealed to what their remedies leave: {}",
        gaps.join(", ")
    ));
    Some(working)
}

fn known_state(sheet: &mut Sheet, comparison: &Comparison, case: &OptionCase) {
    sheet.kg_per_h("dry air m_da", case.dry_air_kg_s);
    sheet.litres_per_day("water removed D", case.removal_kg_s);
    sheet.litres_per_day("condensation Σ Cₛ + C", case.condensation_kg_s);
    sheet.number("machine P", case.machine_w, 3, "W");
    sheet.percent("share of the time it runs", case.duty);
    sheet.number("heater", case.heater_w, 3, "W");
    sheet.litres_per_day(
        "water to remove for the target at this temperature",
        case.load_kg_s,
    );
    if case.running == Running::TooCold {
        sheet.note("the vehicle is too cold for the machine to start");
    }
    if let Some(margin) = case.start_margin_k {
        sheet.input(
            "warmer without it than it needs to start",
            Kind::Kelvin.text(margin),
        );
    }
    if let Some(leaves) = case.ice_leaves {
        sheet.input(
            "strength that ice leaves its coil",
            Kind::WholePercent.text(leaves),
        );
    }
    match case.fall {
        Some(fall) => {
            sheet.percent("RH with nothing done", fall.rh_without);
            sheet.note(format!(
                "of the fall {} is owed to warmth and {} to water removed: warmth first, with the same water given off",
                Kind::WholePercent.text(fall.warmth_share),
                Kind::WholePercent.text(fall.water_share)
            ));
        }
        None => {
            sheet.note("the RH falls by less than half a point against doing nothing, or not by warmth or water removed");
        }
    }
    let dew = case
        .dew_point_c
        .map_or_else(String::new, |dew| format!(", dew point {}", celsius(dew)));
    let target = percent(comparison.target_rh);
    let held = if case.holds { "is held" } else { "is not held" };
    sheet.result(format!(
        "{} and {} inside{dew}; the target of {target} {held}",
        celsius(case.inside.t_c),
        percent(case.rh)
    ));
}

fn machine_source(sheet: &mut Sheet, option: &OptionAnswer) {
    use crate::assess::drying::OptionKind;
    let kind = match option.kind {
        OptionKind::Machine(kind) => kind,
        OptionKind::HeatAndMachine => MachineKind::Compressor,
        _ => return,
    };
    sheet.assumed(match kind {
            MachineKind::Compressor => "compressor: D = D_rated × (W − W at saturation 15 K below the room) × frost, over the same at the rating; frost 1 at a coil of 3 °C, 0.3 at −10 °C; stops below its lowest room temperature",
            MachineKind::DesiccantRotor => "rotor: D = D_rated × √(W/W_rated) × clamp((RH − 0.15)/0.35, 0, 1), at most 1.2 D_rated and 1.44 kg per kWh",
            MachineKind::Thermoelectric => "thermoelectric: D = D_rated × (W − W at saturation 12 K below the room, never below 0 °C), over the same at the rating",
            MachineKind::SaltTub => "tub: D = 2.1e-3 m/s × surface × (vapour density of the room − over the saturated solution)",
        },
    );
    if kind == MachineKind::SaltTub {
        sheet.read("RH over calcium chloride: Conde, Int. J. Thermal Sciences 43 (2004) 367");
    }
    if option.generic {
        sheet.assumed("size from the generic library");
    }
}

fn dry_out(
    survey: &Survey,
    comparison: &Comparison,
    option: usize,
    id: WeatherId,
) -> Option<Working> {
    let (option, case) = found(comparison, option, id)?;
    let dry_out = case.as_ref().ok()?.dry_out?;
    let mut sheet = Sheet::new(
        format!(
            "Drying out with {}, {}",
            option.name,
            case_name(comparison, id)
        ),
        "litres = m (u − u_balance);  days = litres/(D + m_da (W* − Wₒ) − S) with the inside held at the target",
    );
    if let (Some(mass), Some(moisture)) = (
        survey.drying.contents_kg,
        survey.drying.contents_moisture_percent,
    ) {
        sheet.number("dry mass m", mass, 3, "kg");
        sheet.number("moisture u", moisture, 3, "%");
    }
    sheet.percent("balance u_balance", dry_out.balance_moisture);
    sheet.litres_per_day("spare removal", dry_out.spare_kg_s);
    let litres = Kind::Litres.text(dry_out.water_kg);
    sheet.result(match dry_out.days {
        Some(days) => format!("{litres}, out in {} at least", Kind::Days.text(days)),
        None => format!(
            "{litres}, which this option cannot take: nothing is left beside the steady load"
        ),
    });
    sheet
        .note("things dry ever more slowly towards the end, and from inside out")
        .memory(
            "moisture in balance: Hailwood and Horrobin's form with the Wood Handbook's constants",
        )
        .assumed("all contents behave like wood");
    Some(sheet.finish())
}

fn cold_surface(option: &OptionAnswer, case: &OptionCase, surface: &Surface) -> Working {
    let mut sheet = Sheet::new(
        format!("Surface of {}, {}", surface.words(), option.name),
        "Tₛ = Tₒ + f_Rsi (Tᵢ − Tₒ);  f_Rsi = 1 − Rsi/(Rsi + R_layers + Rse);  surface RH = p_v/p_ws(Tₛ);  Cₛ = 2.1e-3 m/s × A (ρ_v(Tᵢ) − ρ_v,sat(Tₛ))",
    );
    match surface.area_m2 {
        Some(area) => sheet.number("area A", area, 3, "m²"),
        None => sheet.input(
            "area A",
            "not given: nothing condenses on it in the balance",
        ),
    };
    sheet.number("f_Rsi", surface.temperature_factor, 3, "");
    sheet.input("outside seen Tₒ", celsius(surface.outside_seen_c));
    sheet.input("inside Tᵢ", celsius(case.inside.t_c));
    sheet.number(
        "vapour pressure p_v",
        case.inside.vapour_pressure(),
        3,
        "Pa",
    );
    sheet.percent("limit", surface.limit);
    let verdict = if surface.condenses {
        "water condenses"
    } else if surface.exceeds {
        "above the limit"
    } else {
        "within the limit"
    };
    sheet.result(format!(
        "{} and {}: {verdict}",
        celsius(surface.temperature_c),
        percent(surface.surface_rh)
    ));
    if surface.condenses {
        sheet.litres_per_day("condenses Cₛ", surface.condensed_kg_s);
    }
    if surface.exceeds {
        clears(&mut sheet, case, surface);
    }
    sheet
        .memory("ISO 13788: 0.8 against mould, 0.6 against corrosion of metal; Rsi 0.25 opaque, 0.13 glass",
        )
        .read("clear night: the roof sees 9.5 K less at 0.5 m/s of wind at the body, 6 K at 2 m/s, 4 K at 4 m/s, windows 5, 3 and 2 K; this project's own calculation from Berdahl–Martin and McAdams")
        .assumed("a thermal bridge takes a tenth of the area",
        )
        .finish()
}

/// What clears a surface: balances solved anew with the surface at its limit.
fn clears(sheet: &mut Sheet, case: &OptionCase, surface: &Surface) {
    match &surface.kelvin_to_clear {
        Ok(Some(kelvin)) => sheet.note(format!(
            "cleared by {} inside, the heater raised by {}, with the air flow and the water that come of it",
            celsius(case.inside.t_c + kelvin),
            with_unit(*kelvin, 2, "K")
        )),
        Ok(None) => sheet.note(format!("never cleared by warmth: {} inside do not", celsius(WARMEST_C))),
        Err(reason) => sheet.note(format!("warmth that clears it: {reason}")),
    };
    match &surface.removal_to_clear_kg_s {
        Ok(kg_s) => sheet.note(format!(
            "or by removing {} in all at this temperature: D = S + m_da (Wₒ − W_limit) − Σ Cₛ of colder surfaces, no heat of a machine",
            Kind::LitresPerDay.text(kg_s * LITRES_PER_DAY)
        )),
        Err(reason) => sheet.note(format!("removal that clears it: {reason}")),
    };
    sheet.note(format!(
        "or by {} inside at this temperature",
        with_unit(surface.rh_to_clear * 100.0, 2, "% RH")
    ));
}

fn capacity(capacity: &Capacity) -> Working {
    let mut sheet = Sheet::new(
        format!("Rated capacity of a {}", capacity.kind.name()),
        "rated = 1.25 × needed × x_rated/x(Tᵢ, target), x the kind's driving quantity",
    );
    sheet.input("inside Tᵢ", celsius(capacity.inside_c));
    sheet.input(
        "rating state",
        format!(
            "{}, {}",
            celsius(capacity.rated_c),
            percent(capacity.rated_rh)
        ),
    );
    match (&capacity.needed_kg_s, &capacity.rated_kg_s) {
        (Ok(needed), Ok(rated)) => {
            sheet.litres_per_day("needed", *needed);
            sheet.result(format!(
                "{} at the rating state",
                Kind::LitresPerDay.text(rated * LITRES_PER_DAY)
            ));
        }
        (Err(reason), _) | (_, Err(reason)) => sheet.unknown(reason),
    }
    if let Ok(Offer::LessAir {
        largest_kg_s,
        now_per_h,
        at_most_per_h,
        least_per_h,
    }) = capacity.offer
    {
        sheet.note(format!(
            "no such machine: the largest is {} [A]; it holds the target at {} instead of {}, from ACH = 3600 (D/1.25 − S) (1 + Wₒ)/((Wₒ − W*) ρᵢ V); with every gap sealed that may be {} are left",
            Kind::LitresPerDay.text(largest_kg_s * LITRES_PER_DAY),
            Kind::AirChanges.text(at_most_per_h),
            Kind::AirChanges.text(now_per_h),
            Kind::AirChanges.text(least_per_h)
        ));
    }
    sheet
        .assumed("generic behaviour of the kind; margin of a quarter")
        .source(
            Mark::CommonPractice,
            "the state that makers rate the kind at",
        )
        .finish()
}

fn heater(size: &HeaterSize) -> Working {
    let mut sheet = Sheet::new(
        format!("Heater to hold {}", celsius(size.inside_c)),
        "rating = 1.25 (Σ U A + m_da (1006 + 1860 Wₒ)) (Tᵢ − Tₒ) at the design outside temperature in the windiest wind",
    );
    sheet.number("through the fabric", size.fabric_w, 3, "W");
    match (&size.air_w, &size.rating_w) {
        (Ok(air), Ok(rating)) => {
            sheet.number("with the air", *air, 3, "W");
            sheet.result(Kind::Watts.text(*rating));
        }
        (Err(reason), _) | (_, Err(reason)) => sheet.unknown(reason),
    }
    if let Ok(kwh) = &size.kwh_per_month {
        sheet.note(format!(
            "{} of heat a month in the weather cases by their shares",
            Kind::KilowattHours.text(*kwh)
        ));
    }
    sheet
        .memory("U-values: ISO 6946")
        .assumed("margin of a quarter; no sun, people or machines")
        .finish()
}

fn warm_up(warm_up: &WarmUp) -> Working {
    let mut sheet = Sheet::new(
        format!(
            "Warming up from {} to {}",
            celsius(warm_up.from_c),
            celsius(warm_up.to_c)
        ),
        "t = (C/H) ln(P/(P − H ΔT));  P for an hour = H ΔT/(1 − exp(−H t/C))",
    );
    let mut assumed = false;
    match &warm_up.heat_capacity {
        Ok((capacity, is_assumed)) => {
            assumed = *is_assumed;
            sheet.number("heat capacity C", capacity / 1000.0, 3, "kJ/K");
        }
        Err(reason) => {
            sheet.input("heat capacity C", not_known(reason));
        }
    }
    if let Ok(conductance) = &warm_up.conductance_w_per_k {
        sheet.number("fabric and air H", *conductance, 3, "W/K");
    }
    let mut results = vec![match &warm_up.power_for_an_hour_w {
        Ok(watts) => format!("{} for an hour", Kind::Watts.text(*watts)),
        Err(reason) => not_known(reason),
    }];
    for (name, takes) in &warm_up.heaters {
        results.push(match takes {
            Ok(Some(seconds)) => format!("{name}: {}", with_unit(seconds / 60.0, 2, "min")),
            Ok(None) => format!("{name}: never gets there"),
            Err(reason) => format!("{name}: {}", not_known(reason)),
        });
    }
    sheet.result(results.join("; "));
    sheet.assumed("one heat capacity, one conductance");
    if assumed {
        sheet.assumed("heat capacity 30 kJ/K for each m³");
    }
    sheet.finish()
}

fn night_air(air: &Answer<NightAir>) -> Working {
    let mut sheet = Sheet::new(
        "Air for each sleeper, carbon dioxide at night",
        "CO₂ = 420 ppm + N × 13.6 L/h/air flow",
    );
    match air {
        Ok(air) => {
            sheet.input("sleepers N", air.sleepers.to_string());
            sheet.number("air for each", air.per_sleeper_m3_s * 3600.0, 3, "m³/h");
            sheet.result(air.carbon_dioxide_ppm.map_or_else(
                || format!("beyond {}", Kind::PartsPerMillion.text(MOST_PPM)),
                |ppm| Kind::PartsPerMillion.text(ppm),
            ));
        }
        Err(reason) => sheet.unknown(reason),
    }
    sheet
        .memory("13.6 L/h of a sleeper: EN 16798-1")
        .note("a steady state in the calmest weather; it says nothing about carbon monoxide: fixed ventilators stay open, and a CO alarm is fitted")
        .finish()
}
