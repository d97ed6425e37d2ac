//! The vehicle made ready to be worked out many times: with other factors on its gaps for a
//! trial of the uncertainty, or with some of them sealed.
//!
//! The equations are those of [`super::envelope`] and [`super::weather`]; this module only keeps
//! what stays the same from one time to the next.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

mod beyond;
mod evaluate;
mod not_found;
mod one_by_one;

pub(crate) use evaluate::{Inflow, Varied, Want, Workbench};

use super::answer::{Answer, Fabric, NotKnown};
use super::envelope::{DIRECTIONS, Envelope};
use super::exposure::{Leak, WindSide};
use super::prepared::Prepared;
use super::weather::{air_states, source_kg_s};
use crate::physics::MoistAir;
use crate::physics::counts::count;
use crate::physics::ensemble::{Arranged, Ensemble, State};
use crate::physics::moisture::{dry_air_flow, required_removal, ventilation_conductance};
use crate::physics::pressure_coefficient::Underside;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::physics::wind::{LEAST_SPEED, dynamic_pressure, speed_at};
use crate::survey::{Survey, WeatherCase, WeatherId};

/// The vehicle with outside and inside air of given states.
struct ModelInAir {
    outside: MoistAir,
    inside: MoistAir,
    ensemble: Ensemble,
    /// Coefficients of walls and roof by direction, and under a skirted floor; zero for the rest.
    walls: Vec<Arranged>,
    /// Coefficients of an underfloor that has no skirts, and of cavities, by direction; zero for
    /// the rest.
    underfloor: Vec<Arranged>,
    /// One for the same, zero for the rest.
    unskirted: Arranged,
    /// Coefficients that the surveyor gave.
    fixed: Arranged,
}

/// The same in one case's wind.
struct InWind {
    /// Index among the model's airs.
    in_air: usize,
    /// Dynamic pressure of the case, Pa.
    dynamic_pressure: f64,
    /// The answers for the vehicle as surveyed to start from, direction by direction; empty until
    /// found.
    starts: Vec<State>,
}

/// One weather case.
pub(crate) struct Case {
    pub(crate) id: WeatherId,
    pub(crate) name: String,
    /// Part of all weights; equal parts where no case has a weight.
    pub(crate) share: f64,
    /// Wind at the weather station, m/s.
    pub(crate) wind_m_s: f64,
    /// Wind at the roof's height as computed, m/s.
    wind: f64,
    recorded: InWind,
    at_set_temperature: InWind,
    /// Density of the inside air as recorded, kg/m³.
    pub(crate) density_in: f64,
    outside_humidity_ratio: f64,
    target_humidity_ratio: f64,
    /// Kelvin from outside to the set temperature, not below zero.
    warmer_by: f64,
}

impl Case {
    /// Wind at the roof's height, m/s.
    pub(crate) fn wind(&self) -> f64 {
        self.wind
    }
}

/// The vehicle, ready.
pub(crate) struct Model {
    /// With leakage that nobody found, where it was asked for.
    envelope: Envelope,
    in_airs: Vec<ModelInAir>,
    pub(crate) cases: Vec<Case>,
    pub(crate) volume_m3: Answer<f64>,
    pub(crate) source_kg_s: Answer<f64>,
    pub(crate) fabric: Answer<Fabric>,
    /// How the space under the floor stands to the wind.
    pub(crate) underside: Underside,
}

impl Model {
    /// Makes the vehicle ready. With `not_found` there are further leaks, at first with factor
    /// zero, that stand for as much leakage again as was found, spread over the faces by area.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change itself is not.
    pub(crate) fn new(survey: &Survey, prepared: &Prepared, not_found: bool) -> Answer<Self> {
        if survey.weather.is_empty() {
            return Err(NotKnown::because("there is no weather case"));
        }
        for case in &survey.weather {
            prepared.vehicle(survey).first_error(case)?;
        }
        let mut envelope = prepared.envelope.clone()?;
        if not_found {
            let leaks = not_found::leaks(&envelope, &prepared.leakage)?;
            envelope.add(leaks);
        }
        let mut model = Self {
            envelope,
            in_airs: Vec::new(),
            cases: Vec::new(),
            volume_m3: prepared.volume_m3.clone(),
            source_kg_s: source_kg_s(survey),
            fabric: prepared.fabric.clone(),
            underside: survey.vehicle.underside,
        };
        let weights: f64 = survey.weather.iter().map(|case| case.weight).sum();
        for case in &survey.weather {
            let share = if weights > 0.0 {
                case.weight / weights
            } else {
                equal_share(survey.weather.len())
            };
            let case = model.case(survey, case, share)?;
            model.cases.push(case);
        }
        model.find_starts()?;
        Ok(model)
    }

    /// The gaps in the balance.
    pub(crate) fn leaks(&self) -> &[Leak] {
        self.envelope.leaks()
    }

    fn case(&mut self, survey: &Survey, case: &WeatherCase, share: f64) -> Answer<Case> {
        let (outside, inside) = air_states(survey, case)?;
        let set_c = survey.targets.set_temperature_c;
        let warm = super::weather::same_water(&outside, set_c)?;
        let target = MoistAir::from_relative_humidity(
            set_c,
            survey.targets.rh_percent / 100.0,
            outside.pressure,
        )?;
        let wind = speed_at(survey.site.terrain, case.wind_m_s, self.envelope.roof());
        let in_wind = |in_air| InWind {
            in_air,
            dynamic_pressure: dynamic_pressure(outside.density(), wind.max(LEAST_SPEED)),
            starts: Vec::new(),
        };
        Ok(Case {
            id: case.id,
            name: case.name.clone(),
            share,
            wind_m_s: case.wind_m_s,
            wind,
            recorded: in_wind(self.in_air(&outside, &inside)),
            at_set_temperature: in_wind(self.in_air(&outside, &warm)),
            density_in: inside.density(),
            outside_humidity_ratio: outside.humidity_ratio,
            target_humidity_ratio: target.humidity_ratio,
            warmer_by: (set_c - outside.t_c).max(0.0),
        })
    }

    /// Index of the vehicle with these airs; cases often share one.
    fn in_air(&mut self, outside: &MoistAir, inside: &MoistAir) -> usize {
        let known = self
            .in_airs
            .iter()
            .position(|known| known.outside == *outside && known.inside == *inside);
        known.unwrap_or_else(|| {
            let new = ModelInAir::new(&self.envelope, outside, inside);
            self.in_airs.push(new);
            self.in_airs.len() - 1
        })
    }

    /// Air changes per hour for each kg/s of inflow in a case.
    ///
    /// # Errors
    /// [`NotKnown`] where the volume is not.
    pub(crate) fn ach_per_kg_s(&self, case: &Case) -> Answer<f64> {
        let volume = self.volume_m3.clone()?;
        Ok(SECONDS_PER_HOUR / (case.density_in * volume))
    }

    /// Water to remove at the set temperature, kg/s.
    ///
    /// # Errors
    /// [`NotKnown`] where the water given off inside is not.
    pub(crate) fn removal_kg_s(&self, case: &Case, inflow: f64) -> Answer<f64> {
        let source = self.source_kg_s.clone()?;
        let outside = case.outside_humidity_ratio;
        let dry = dry_air_flow(inflow, outside);
        Ok(required_removal(
            source,
            dry,
            outside,
            case.target_humidity_ratio,
        ))
    }

    /// Heat that the air takes along at the set temperature, W.
    pub(crate) fn air_heat_w(&self, case: &Case, inflow: f64) -> f64 {
        let outside = case.outside_humidity_ratio;
        ventilation_conductance(dry_air_flow(inflow, outside), outside) * case.warmer_by
    }

    /// Heat through the fabric at the set temperature, W.
    ///
    /// # Errors
    /// [`NotKnown`] where the fabric's loss is not.
    pub(crate) fn fabric_heat_w(&self, case: &Case) -> Answer<f64> {
        self.fabric
            .as_ref()
            .map(|fabric| fabric.ua_w_per_k * case.warmer_by)
            .map_err(Clone::clone)
    }

    /// The case with the least wind and the one with the most, the first of equals.
    pub(crate) fn calmest_and_windiest(&self) -> (usize, usize) {
        let by_wind = |wanted: fn(f64, f64) -> bool| {
            (1..self.cases.len()).fold(0, |best, at| {
                if wanted(self.cases[at].wind_m_s, self.cases[best].wind_m_s) {
                    at
                } else {
                    best
                }
            })
        };
        (by_wind(|a, b| a < b), by_wind(|a, b| a > b))
    }
}

impl ModelInAir {
    fn new(envelope: &Envelope, outside: &MoistAir, inside: &MoistAir) -> Self {
        let ensemble = Ensemble::new(envelope.body(outside, inside));
        let list = |of: &dyn Fn(WindSide, usize) -> f64| {
            let leaks = envelope.leaks().iter().enumerate();
            ensemble.arrange(leaks.map(|(at, leak)| of(leak.wind, at)))
        };
        // Under skirts the pressure follows the walls', and so does its uncertainty.
        let skirted = envelope.underside().is_skirted();
        let is_floor = |side: WindSide| side.is_underfloor() && !skirted;
        let by_direction = |wanted: &dyn Fn(WindSide) -> bool| {
            let directions = (0..DIRECTIONS).map(|direction| {
                let coefficients = envelope.coefficients(direction);
                list(&|side, at| if wanted(side) { coefficients[at] } else { 0.0 })
            });
            directions.collect()
        };
        let is_fixed = |side| matches!(side, WindSide::Fixed(_));
        Self {
            outside: *outside,
            inside: *inside,
            walls: by_direction(&|side| !is_floor(side) && !is_fixed(side)),
            underfloor: by_direction(&is_floor),
            unskirted: list(&|side, _| if is_floor(side) { 1.0 } else { 0.0 }),
            fixed: list(&|side, _| match side {
                WindSide::Fixed(coefficient) => coefficient,
                WindSide::Cavity | WindSide::Face(_) => 0.0,
            }),
            ensemble,
        }
    }
}

fn equal_share(among: usize) -> f64 {
    1.0 / count(among)
}
