//! Energy, money and supply. What an option costs to buy and to run is worked out here alone.

use super::answer::{Energy, RunningCost, Supply, ToBuy};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::flame::{
    DIESEL_NET_HEATING_VALUE, FLUED_EFFICIENCY, PROPANE_NET_HEATING_VALUE,
};
use crate::physics::units::{JOULES_PER_KWH, SECONDS_PER_DAY};
use crate::survey::drying::Drying;
use crate::survey::{
    Field, Finding, Heater, HeaterFuel, Item, Machine, MachineKind, Severity, Tariffs,
};

/// Days of the season that a winter's costs count, November to March \[A\].
pub const WINTER_DAYS: f64 = 151.0;
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

/// What running an option costs, from the cost of its power and fuel in a day of the season.
///
/// ```text
/// month = Σ w c · 365.25/12 + u,   winter = month · 151 · 12/365.25
/// ```
/// where w are the shares of the season, c the cost of a day in each weather, of which `per_day` is
/// Σ w c, and u what a month costs besides power and fuel.
pub(crate) fn running(per_day: Answer<f64>, appliances: &[Bought<'_>]) -> RunningCost {
    let upkeep: Answer<f64> = appliances.iter().map(Bought::upkeep_per_month).sum();
    let per_month = per_day.and_then(|per_day| Ok(per_day * DAYS_PER_MONTH + upkeep.clone()?));
    RunningCost {
        upkeep_per_month: upkeep,
        per_winter: per_month
            .clone()
            .map(|month| month * WINTER_DAYS / DAYS_PER_MONTH),
        per_month,
    }
}

/// A machine or a heater as something that is bought.
pub(crate) struct Bought<'a> {
    name: &'a str,
    price: Option<f64>,
    upkeep_per_month: Option<f64>,
    owned: bool,
    /// Whether it uses up something that is no power and no fuel.
    uses_salt: bool,
}

impl<'a> From<&'a Machine> for Bought<'a> {
    fn from(machine: &'a Machine) -> Self {
        Self {
            name: &machine.name,
            price: machine.price,
            upkeep_per_month: machine.upkeep_per_month,
            owned: machine.owned,
            uses_salt: machine.kind == MachineKind::SaltTub,
        }
    }
}

impl<'a> From<&'a Heater> for Bought<'a> {
    fn from(heater: &'a Heater) -> Self {
        Self {
            name: &heater.name,
            price: heater.price,
            upkeep_per_month: heater.upkeep_per_month,
            owned: heater.owned,
            uses_salt: false,
        }
    }
}

impl Bought<'_> {
    /// What a month of it costs besides power and fuel: nothing where nothing is given, but for salt.
    fn upkeep_per_month(&self) -> Answer<f64> {
        match self.upkeep_per_month {
            Some(upkeep) => Ok(upkeep),
            None if self.uses_salt => Err(NotKnown::because(format!(
                "what a month of new salt for \u{201c}{}\u{201d} costs is not given",
                self.name
            ))),
            None => Ok(0.0),
        }
    }

    fn price(&self) -> Answer<f64> {
        if self.owned {
            return Ok(0.0);
        }
        self.price.ok_or_else(|| {
            NotKnown::because(format!(
                "the price of \u{201c}{}\u{201d} is not given",
                self.name
            ))
        })
    }
}

/// What has to be bought for an option.
pub(crate) fn to_buy(appliances: &[Bought<'_>]) -> ToBuy {
    if appliances.is_empty() {
        return ToBuy::Nothing;
    }
    if appliances.iter().all(|one| one.owned) {
        return ToBuy::Owned;
    }
    ToBuy::Costs(appliances.iter().map(Bought::price).sum())
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
