//! One option in one weather case: the steady state, and what follows from it.

use super::answer::{DryOut, Energy, Fall, OptionCase, Shortfall};
use super::ground::Ground;
use super::situation::{Fitted, Situation};
use super::{money, surfaces};
use crate::assess::answer::{Answer, NotKnown};
use crate::physics::contents::{equilibrium_moisture, water_to_give_off};
use crate::physics::coupled::{Running, Steady};
use crate::physics::units::{SECONDS_PER_DAY, SECONDS_PER_HOUR};
use crate::survey::HeaterFuel;

/// Least fall of the humidity that is told: half a point. What is smaller is none **\[A\]**.
const LEAST_FALL: f64 = 0.005;
/// The target counts as held to a twentieth of a point: a machine that stops at it holds it.
const HELD: f64 = 5e-4;

/// Least fall below a set point that is told, K: less does not show in a tenth of a degree.
const LEAST_KELVIN: f64 = 0.05;

/// Works out one option in one weather case.
pub(crate) struct Judge<'a> {
    pub(crate) ground: &'a Ground<'a>,
    pub(crate) situation: &'a Situation<'a>,
    pub(crate) fuel: Option<HeaterFuel>,
    /// The same case with nothing done, unless this is it.
    pub(crate) before: Option<&'a Answer<OptionCase>>,
    /// The same case without the machine, where there is one.
    pub(crate) without: Option<&'a Answer<OptionCase>>,
    pub(crate) with_dry_out: bool,
}

impl Judge<'_> {
    /// The state with these appliances, and all that follows from it.
    ///
    /// ```text
    /// ACH = 3600 m_da (1 + W_o)/(ρ_i V)
    /// ```
    /// where m_da is the dry air that flows through, kg/s, W_o the humidity ratio outside, ρ_i the
    /// density of the inside air, kg/m³, and V the gross volume, m³. The load is what holding the
    /// target at this state's temperature takes ([`Situation::load`]), whoever takes it.
    ///
    /// # Errors
    /// [`NotKnown`] where there is no steady state.
    pub(crate) fn case(&self, fitted: &Fitted<'_>) -> Answer<OptionCase> {
        let ground = self.ground;
        let steady = self
            .situation
            .steady(ground.fabric, &ground.sources, fitted)?;
        let rh = steady.relative_humidity().min(1.0);
        let inflow = steady.dry_air_flow * (1.0 + self.situation.outside.humidity_ratio);
        let ach_per_h = ground
            .volume_m3
            .clone()
            .map(|volume| inflow * SECONDS_PER_HOUR / (steady.inside.density() * volume));
        let load_kg_s = self
            .situation
            .load(steady.inside.t_c, ground.target_rh, steady.source)?;
        let holds = rh <= ground.target_rh + HELD;
        Ok(OptionCase {
            inside: steady.inside,
            rh,
            dew_point_c: steady.dew_point_c(),
            dry_air_kg_s: steady.dry_air_flow,
            ach_per_h,
            removal_kg_s: steady.removal,
            load_kg_s,
            duty: steady.duty,
            machine_w: steady.machine_power,
            heater_w: steady.heater_power,
            running: steady.running,
            condensation_kg_s: steady.condensation + steady.on_surfaces,
            energy: self.energy(&steady),
            fall: self.fall(&steady)?,
            holds,
            shortfall: (!holds).then(|| shortfall(fitted, &steady)),
            start_margin_k: self.start_margin(fitted),
            ice_leaves: fitted
                .machine
                .filter(|_| steady.running == Running::Runs)
                .and_then(|machine| machine.ice_leaves(steady.inside.t_c)),
            below_set_point_k: below_set_point(fitted, &steady),
            surfaces: surfaces::surfaces(ground, self.situation, fitted, &steady),
            dry_out: self.dry_out(fitted)?,
        })
    }

    /// What is drawn and burnt. Where nobody wrote down what heats the vehicle, what that costs is not
    /// known.
    fn energy(&self, steady: &Steady) -> Energy {
        let (survey, heat) = (self.ground.survey, steady.heater_power);
        let mut energy = money::energy(
            &survey.tariffs,
            self.ground.findings,
            steady.machine_power,
            self.fuel.map(|fuel| (fuel, heat)),
        );
        if self.fuel.is_none() && heat > 0.0 {
            let unknown =
                NotKnown::because("no heater is written down, so what heating costs is not known");
            energy.cost_per_day = Err(unknown.clone());
            energy.cost_per_month = Err(unknown);
        }
        energy
    }

    /// How much warmer it is without the machine than the machine needs, K.
    ///
    /// ```text
    /// T_i(without the machine) − T_lowest
    /// ```
    fn start_margin(&self, fitted: &Fitted<'_>) -> Option<f64> {
        let lowest = fitted.machine?.lowest_room_c();
        let without = self.without?.as_ref().ok()?;
        lowest.is_finite().then_some(without.inside.t_c - lowest)
    }

    /// The fall against doing nothing: warmth first, with the same water given off, the option's
    /// temperature and air flow; the rest is owed to the water removed.
    ///
    /// ```text
    /// m_da (W_o − W_w) + S − Σ C_s = 0,   s_warmth = (φ₀ − φ(T_i, W_w))/(φ₀ − φ)
    /// ```
    /// where φ₀ is the humidity with nothing done, φ and T_i the option's, S the water given off,
    /// kg/s, m_da the option's dry air, kg/s, C_s what cold surfaces take, and W_w at most saturated.
    /// The other share is that of the water. The order is a choice **\[A\]**; s_warmth is above 1 where the option adds water.
    ///
    /// # Errors
    /// [`NotKnown`] where doing nothing has no state.
    fn fall(&self, steady: &Steady) -> Answer<Option<Fall>> {
        let Some(before) = self.before else {
            return Ok(None);
        };
        let without = before.as_ref().map_err(Clone::clone)?.rh;
        let fall = without - steady.relative_humidity().min(1.0);
        if fall < LEAST_FALL {
            return Ok(None);
        }
        let (t_c, flow) = (steady.inside.t_c, steady.dry_air_flow);
        let warm = self.situation.alone(&self.ground.sources, t_c, flow)?;
        let warmth_share = (without - warm.relative_humidity().min(1.0)) / fall;
        Ok(Some(Fall {
            rh_without: without,
            warmth_share,
            water_share: 1.0 - warmth_share,
        }))
    }

    /// Litres and days to dry out the contents recorded.
    ///
    /// ```text
    /// m_w = M (u − u_e(T, φ)),   t = m_w/D_c
    /// ```
    /// where M is the dry mass of the contents, kg, u their moisture, share of it, u_e that in
    /// balance with the target ([`equilibrium_moisture`] **\[M\]**), and D_c what can be taken from
    /// them with the target held, kg/s. How fast they give it off is not known: t is a least time
    /// **\[A\]**.
    ///
    /// `None` where no contents are recorded, or the target cannot be held.
    fn dry_out(&self, fitted: &Fitted<'_>) -> Answer<Option<DryOut>> {
        let drying = &self.ground.survey.drying;
        let (true, Some(mass), Some(percent)) = (
            self.with_dry_out,
            drying.contents_kg,
            drying.contents_moisture_percent,
        ) else {
            return Ok(None);
        };
        let (ground, target) = (self.ground, self.ground.target_rh);
        let found = self
            .situation
            .dry_out(ground.fabric, &ground.sources, fitted, target);
        let Ok(found) = found else {
            // Held at the target there may be no steady state although there is one without: a
            // heater without thermostat beside a machine that never stops.
            return Ok(None);
        };
        let balance_moisture = equilibrium_moisture(found.steady.inside.t_c, target);
        let water_kg = water_to_give_off(mass, percent / 100.0, balance_moisture);
        let spare_kg_s = found.from_contents;
        let days = (spare_kg_s > 0.0).then(|| water_kg / spare_kg_s / SECONDS_PER_DAY);
        Ok(Some(DryOut {
            balance_moisture,
            water_kg,
            spare_kg_s,
            days,
        }))
    }
}

/// Why a target is not held.
fn shortfall(fitted: &Fitted<'_>, steady: &Steady) -> Shortfall {
    match steady.running {
        Running::TooCold => return Shortfall::TooCold,
        Running::Runs => return Shortfall::MachineTooSmall,
        Running::NoMachine => {}
    }
    match fitted.heater {
        None => Shortfall::NothingRemoves,
        Some(_) if below_set_point(fitted, steady).is_some() => Shortfall::HeaterTooSmall,
        Some(_) => Shortfall::NotWarmEnough,
    }
}

/// How much colder it is than the heater's set point, K.
fn below_set_point(fitted: &Fitted<'_>, steady: &Steady) -> Option<f64> {
    let below = fitted.heater?.set_point_c? - steady.inside.t_c;
    (below > LEAST_KELVIN).then_some(below)
}
