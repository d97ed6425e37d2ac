//! Energy, money and supply.

use super::answer::{Energy, Supply};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::flame::{
    DIESEL_NET_HEATING_VALUE, FLUED_EFFICIENCY, PROPANE_NET_HEATING_VALUE,
};
use crate::physics::units::{JOULES_PER_KWH, SECONDS_PER_DAY};
use crate::survey::drying::Drying;
use crate::survey::{Field, Finding, HeaterFuel, Item, Severity, Tariffs};

/// Days in a mean month.
pub(crate) const DAYS_PER_MONTH: f64 = 365.25 / 12.0;
/// Volts of the supply.
const VOLTS: f64 = 230.0;
const LITRES_PER_M3: f64 = 1000.0;

/// What a machine and a heater draw and burn, and what it costs.
///
/// ```text
/// gas = P t/(H_g η),   fuel = P t/(H_d η),   E = P_el t/3.6e6
/// ```
/// where E is in kWh, P_el the electric power of machine and heater, W, P the heat given to the
/// room, W, t a day, s, H_g the net heating value of propane,
/// J/kg, H_d that of diesel, J/m³, and η the share of it that a flued heater gives to the room
/// (all of it without a flue); values and marks in [`crate::physics::flame`]. `machine_w` is the
/// mean electric power of the machine, `heat` the fuel and the mean heat of the heater, W.
pub(crate) fn energy(
    tariffs: &Tariffs,
    findings: &[Finding],
    machine_w: f64,
    heat: Option<(HeaterFuel, f64)>,
) -> Energy {
    let mut electric_w = machine_w;
    let mut gas_kg_per_day = 0.0;
    let mut liquid_fuel_l_per_day = 0.0;
    if let Some((fuel, watts)) = heat {
        let joules_per_day = watts * SECONDS_PER_DAY;
        let gas = joules_per_day / PROPANE_NET_HEATING_VALUE;
        match fuel {
            HeaterFuel::Electricity => electric_w += watts,
            HeaterFuel::FluedGas => gas_kg_per_day = gas / FLUED_EFFICIENCY,
            HeaterFuel::UnfluedGas => gas_kg_per_day = gas,
            HeaterFuel::LiquidFuel => {
                let cubic_metres = joules_per_day / DIESEL_NET_HEATING_VALUE / FLUED_EFFICIENCY;
                liquid_fuel_l_per_day = cubic_metres * LITRES_PER_M3;
            }
        }
    }
    let kwh_per_day = electric_w * SECONDS_PER_DAY / JOULES_PER_KWH;
    let prices = Prices { tariffs, findings };
    let cost_per_day = prices.cost(kwh_per_day, gas_kg_per_day, liquid_fuel_l_per_day);
    Energy {
        electric_w,
        kwh_per_day,
        gas_kg_per_day,
        liquid_fuel_l_per_day,
        cost_per_month: cost_per_day.clone().map(|cost| cost * DAYS_PER_MONTH),
        cost_per_day,
    }
}

/// The user's prices, and what is wrong with them.
struct Prices<'a> {
    tariffs: &'a Tariffs,
    findings: &'a [Finding],
}

impl Prices<'_> {
    /// What a day's amounts cost together, in the survey's currency.
    ///
    /// # Errors
    /// [`NotKnown`] where something is used whose price is missing or impossible.
    fn cost(&self, kwh: f64, gas_kg: f64, liquid_fuel_l: f64) -> Answer<f64> {
        let tariffs = self.tariffs;
        Ok(self.of(
            kwh,
            Field::Electricity,
            tariffs.electricity_per_kwh,
            "electricity",
        )? + self.of(gas_kg, Field::Gas, tariffs.gas_per_kg, "gas")?
            + self.of(
                liquid_fuel_l,
                Field::LiquidFuel,
                tariffs.liquid_fuel_per_l,
                "liquid fuel",
            )?)
    }

    /// What an amount of one kind costs; none of it costs nothing, whatever its price.
    ///
    /// # Errors
    /// [`NotKnown`] where the price is missing or impossible.
    fn of(&self, amount: f64, field: Field, price: Option<f64>, what: &str) -> Answer<f64> {
        if amount <= 0.0 {
            return Ok(0.0);
        }
        let error = self.findings.iter().find(|finding| {
            finding.severity == Severity::Error
                && finding.place.item == Item::Tariffs
                && finding.place.is_at(field)
        });
        match (error, price) {
            (Some(error), _) => Err(NotKnown::because(error.sentence.clone())),
            (None, Some(price)) => Ok(amount * price),
            (None, None) => Err(NotKnown::because(format!(
                "the price of {what} is not given"
            ))),
        }
    }
}

/// What an option with this peak power, W, asks of the supply.
///
/// ```text
/// I = P/230 V,   days = E_b/E_d
/// ```
/// where E_b is what the batteries may give, Wh, and E_d what the option draws in a day, kWh. A
/// power factor of 1 **\[A\]**; inverter losses are not counted.
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
