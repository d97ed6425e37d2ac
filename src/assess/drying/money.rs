//! Energy, money and supply.

use super::answer::{Energy, Supply};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::flame::{FLUED_EFFICIENCY, PROPANE_NET_HEATING_VALUE};
use crate::survey::drying::Drying;
use crate::survey::{Finding, HeaterFuel, Item, Severity, Tariffs};

/// Days in a mean month.
pub(crate) const DAYS_PER_MONTH: f64 = 365.25 / 12.0;
/// Volts of the supply.
const VOLTS: f64 = 230.0;
const SECONDS_PER_DAY: f64 = 86_400.0;
const KWH: f64 = 3.6e6;

/// What a machine and a heater draw and burn.
pub(crate) fn energy(
    tariffs: &Tariffs,
    findings: &[Finding],
    machine_w: f64,
    heat: Option<(HeaterFuel, f64)>,
) -> Energy {
    let mut electric_w = machine_w;
    let mut gas_kg_per_day = 0.0;
    let mut liquid = false;
    if let Some((fuel, watts)) = heat {
        let per_day = watts * SECONDS_PER_DAY / PROPANE_NET_HEATING_VALUE;
        match fuel {
            HeaterFuel::Electricity => electric_w += watts,
            HeaterFuel::FluedGas => gas_kg_per_day = per_day / FLUED_EFFICIENCY,
            HeaterFuel::UnfluedGas => gas_kg_per_day = per_day,
            HeaterFuel::LiquidFuel => liquid = watts > 0.0,
        }
    }
    let kwh_per_day = electric_w * SECONDS_PER_DAY / KWH;
    let cost_per_day = cost(tariffs, findings, kwh_per_day, gas_kg_per_day, liquid);
    Energy {
        electric_w,
        kwh_per_day,
        gas_kg_per_day,
        cost_per_month: cost_per_day.clone().map(|cost| cost * DAYS_PER_MONTH),
        cost_per_day,
    }
}

fn cost(
    tariffs: &Tariffs,
    findings: &[Finding],
    kwh: f64,
    gas_kg: f64,
    liquid: bool,
) -> Answer<f64> {
    if liquid {
        return Err(NotKnown::because("the survey has no price for liquid fuel"));
    }
    let price = |amount: f64, field: &str, price: Option<f64>, what: &str| {
        if amount <= 0.0 {
            return Ok(0.0);
        }
        let error = findings.iter().find(|finding| {
            finding.severity == Severity::Error
                && finding.place.item == Item::Tariffs
                && finding.place.field == field
        });
        match (error, price) {
            (Some(error), _) => Err(NotKnown::because(error.sentence.clone())),
            (None, Some(price)) => Ok(amount * price),
            (None, None) => Err(NotKnown::because(format!(
                "the price of {what} is not given"
            ))),
        }
    };
    let electricity = price(
        kwh,
        "electricity_per_kwh",
        tariffs.electricity_per_kwh,
        "electricity",
    )?;
    Ok(electricity + price(gas_kg, "gas_per_kg", tariffs.gas_per_kg, "gas")?)
}

/// What an option with this peak power, W, asks of the supply.
pub(crate) fn supply(drying: &Drying, peak_w: f64, kwh_per_day: Option<f64>) -> Supply {
    let current_a = peak_w / VOLTS;
    let battery_days = match (drying.battery_wh, kwh_per_day) {
        (Some(battery), Some(kwh)) if kwh > 0.0 => Some(battery / 1000.0 / kwh),
        _ => None,
    };
    Supply {
        peak_w,
        current_a,
        within_10_a: current_a <= 10.0,
        within_16_a: current_a <= 16.0,
        within_own: drying.hookup_a.map(|most| current_a <= most),
        battery_days,
    }
}
