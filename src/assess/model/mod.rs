//! The vehicle made ready to be worked out many times: with other factors on its gaps for a
//! trial of the uncertainty, or with some of them sealed.
//!
//! The equations are those of [`super::envelope`] and [`super::weather`]; this module only keeps
//! what stays the same from one time to the next.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

mod evaluate;
mod joined;
mod not_found;

use joined::Joined;

use evaluate::Starts;

pub(crate) use evaluate::{Inflow, Varied, Want, Workbench};

use super::answer::{Answer, Fabric, NotKnown};
use super::envelope::{DIRECTIONS, Envelope};
use super::exposure::WindSide;
use super::law::{GapLaw, laws};
use super::rooms::Rooms;
use super::weather::{Vehicle, air_states, source_kg_s};
use super::{fabric, leakage};
use crate::physics::ensemble::{Arranged, Ensemble, Placed};
use crate::physics::flow_law::Gas;
use crate::physics::moisture::{dry_air_flow, required_removal, ventilation_conductance};
use crate::physics::pressure_coefficient::{Face, underfloor};
use crate::physics::wind::{LEAST_SPEED, dynamic_pressure, speed_at};
use crate::physics::{GapFlow, MoistAir};
use crate::survey::{Survey, WeatherCase, WeatherId, findings};

/// One leak of the model.
pub(crate) struct Leak {
    /// Its index in the ledger; none for leakage that nobody found.
    pub(crate) ledger: Option<usize>,
    pub(crate) flow: GapFlow,
    z_low: f64,
    z_high: f64,
    wind: WindSide,
    /// Coefficients of the sixteen directions.
    coefficients: [f64; DIRECTIONS],
    /// Area for the one-sided rule, m², and the face it counts to.
    area: f64,
    side: usize,
}

/// The body with outside and inside air of given states.
struct Standing {
    outside: MoistAir,
    inside: MoistAir,
    ensemble: Ensemble,
    /// Coefficients of walls and roof by direction; zero for the rest.
    walls: Vec<Arranged>,
    /// One for underfloor and cavities, zero for the rest.
    underfloor: Arranged,
    /// Coefficients that the surveyor gave.
    fixed: Arranged,
    /// Used in place of all this where the inside is more than one space.
    joined: Option<Joined>,
}

/// A standing in one case's wind, with the answers for the vehicle as surveyed to start from.
struct InWind {
    standing: usize,
    /// Dynamic pressure of the case, Pa.
    dynamic_pressure: f64,
    starts: Starts,
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

/// The vehicle, ready.
pub(crate) struct Model {
    pub(crate) leaks: Vec<Leak>,
    sides: usize,
    /// How many inner openings join the spaces, where the inside is more than one.
    pub(crate) inner_openings: usize,
    standings: Vec<Standing>,
    pub(crate) cases: Vec<Case>,
    pub(crate) volume_m3: Answer<f64>,
    pub(crate) source_kg_s: Answer<f64>,
    pub(crate) fabric: Answer<Fabric>,
    /// Coefficient of underfloor and cavities as taken.
    pub(crate) underfloor: f64,
}

impl Model {
    /// Makes the vehicle ready. With `not_found` there are further leaks, at first with factor
    /// zero, that stand for as much leakage again as was found, spread over the faces by area.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change itself is not.
    pub(crate) fn new(survey: &Survey, not_found: bool) -> Answer<Self> {
        let findings = findings::find(survey);
        let laws = laws(survey, &findings);
        Self::with_laws(survey, &findings, &laws, not_found)
    }

    fn with_laws(
        survey: &Survey,
        findings: &[findings::Finding],
        laws: &[GapLaw],
        not_found: bool,
    ) -> Answer<Self> {
        if survey.gaps.is_empty() {
            return Err(NotKnown::because("no gap has been written down yet"));
        }
        if survey.weather.is_empty() {
            return Err(NotKnown::because("there is no weather case"));
        }
        let envelope = Envelope::new(survey, laws);
        let volume_m3 = super::volume_m3(survey, findings);
        let fabric = fabric::fabric(survey, findings);
        let gaps = leakage::gaps(survey, laws);
        let leakage = leakage::leakage(survey, &gaps, &volume_m3);
        let checked = Vehicle {
            survey,
            findings,
            envelope: &envelope,
            volume_m3: &volume_m3,
            leakage: &leakage,
            fabric: &fabric,
        };
        for case in &survey.weather {
            checked.first_error(case)?;
        }
        let envelope = envelope.as_ref().map_err(Clone::clone)?;
        let mut leaks: Vec<Leak> = surveyed(envelope);
        if not_found {
            leaks.extend(not_found::leaks(survey, envelope, &leakage)?);
        }
        let sides = number_sides(&mut leaks);
        let mut model = Self {
            leaks,
            sides,
            inner_openings: envelope.rooms().map_or(0, Rooms::openings),
            standings: Vec::new(),
            cases: Vec::new(),
            volume_m3,
            source_kg_s: source_kg_s(survey),
            fabric,
            underfloor: underfloor(survey.site.shelter, survey.vehicle.skirted),
        };
        let weights: f64 = survey.weather.iter().map(|case| case.weight).sum();
        for case in &survey.weather {
            let share = if weights > 0.0 {
                case.weight / weights
            } else {
                equal_share(survey.weather.len())
            };
            let case = model.case(survey, envelope, case, share)?;
            model.cases.push(case);
        }
        model.find_starts()?;
        Ok(model)
    }

    fn case(
        &mut self,
        survey: &Survey,
        envelope: &Envelope,
        case: &WeatherCase,
        share: f64,
    ) -> Answer<Case> {
        let (outside, inside) = air_states(survey, case)?;
        let set_c = survey.targets.set_temperature_c;
        let warm = super::weather::same_water(&outside, set_c)?;
        let target = MoistAir::from_relative_humidity(
            set_c,
            survey.targets.rh_percent / 100.0,
            outside.pressure,
        )
        .map_err(|error| NotKnown::because(error.to_string()))?;
        let wind = speed_at(survey.site.terrain, case.wind_m_s, envelope.roof());
        let in_wind = |standing| InWind {
            standing,
            dynamic_pressure: dynamic_pressure(outside.density(), wind.max(LEAST_SPEED)),
            starts: Starts::default(),
        };
        Ok(Case {
            id: case.id,
            name: case.name.clone(),
            share,
            wind_m_s: case.wind_m_s,
            wind,
            recorded: in_wind(self.standing(envelope, &outside, &inside)),
            at_set_temperature: in_wind(self.standing(envelope, &outside, &warm)),
            density_in: inside.density(),
            outside_humidity_ratio: outside.humidity_ratio,
            target_humidity_ratio: target.humidity_ratio,
            warmer_by: (set_c - outside.t_c).max(0.0),
        })
    }

    /// The standing with these airs; cases often share one.
    fn standing(&mut self, envelope: &Envelope, outside: &MoistAir, inside: &MoistAir) -> usize {
        let known = self
            .standings
            .iter()
            .position(|standing| standing.outside == *outside && standing.inside == *inside);
        known.unwrap_or_else(|| {
            let standing = Standing::new(&self.leaks, envelope, outside, inside);
            self.standings.push(standing);
            self.standings.len() - 1
        })
    }

    /// Air changes per hour for each kg/s of inflow in a case.
    ///
    /// # Errors
    /// [`NotKnown`] where the volume is not.
    pub(crate) fn ach_per_kg_s(&self, case: &Case) -> Answer<f64> {
        let volume = self.volume_m3.clone()?;
        Ok(3600.0 / (case.density_in * volume))
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

impl Standing {
    fn new(leaks: &[Leak], envelope: &Envelope, outside: &MoistAir, inside: &MoistAir) -> Self {
        let placed = leaks
            .iter()
            .map(|leak| Placed {
                flow: leak.flow,
                z_low: leak.z_low,
                z_high: leak.z_high,
            })
            .collect();
        let (gas_out, gas_in) = (Gas::from(outside), Gas::from(inside));
        let (supply, extract) = envelope.fans();
        let ensemble = Ensemble::new(
            placed,
            gas_out,
            gas_in,
            envelope.middle(),
            supply * gas_out.density,
            extract * gas_in.density,
        );
        let list = |of: &dyn Fn(&Leak) -> f64| {
            ensemble.arrange(&leaks.iter().map(of).collect::<Vec<f64>>())
        };
        let is_wall =
            |leak: &Leak| matches!(leak.wind, WindSide::Face(face) if face != Face::Underfloor);
        let walls = (0..DIRECTIONS)
            .map(|direction| {
                list(&|leak| {
                    if is_wall(leak) {
                        leak.coefficients[direction]
                    } else {
                        0.0
                    }
                })
            })
            .collect();
        let underfloor = list(&|leak| match leak.wind {
            WindSide::Cavity | WindSide::Face(Face::Underfloor) => 1.0,
            WindSide::Face(_) | WindSide::Fixed(_) => 0.0,
        });
        let fixed = list(&|leak| match leak.wind {
            WindSide::Fixed(coefficient) => coefficient,
            WindSide::Cavity | WindSide::Face(_) => 0.0,
        });
        Self {
            outside: *outside,
            inside: *inside,
            ensemble,
            walls,
            underfloor,
            fixed,
            joined: Joined::new(leaks, envelope, outside, inside),
        }
    }
}

fn surveyed(envelope: &Envelope) -> Vec<Leak> {
    let leaks = envelope.leaks().iter().enumerate();
    leaks
        .map(|(at, leak)| Leak {
            ledger: Some(leak.ledger),
            flow: leak.flow,
            z_low: leak.z_low,
            z_high: leak.z_high,
            wind: leak.wind,
            coefficients: std::array::from_fn(|direction| envelope.coefficients(direction)[at]),
            area: leak.area,
            side: 0,
        })
        .collect()
}

/// Numbers the faces that the one-sided rule adds up, and says how many there are.
fn number_sides(leaks: &mut [Leak]) -> usize {
    let mut known: Vec<WindSide> = Vec::new();
    for leak in leaks {
        leak.side = known
            .iter()
            .position(|side| *side == leak.wind)
            .unwrap_or_else(|| {
                known.push(leak.wind);
                known.len() - 1
            });
    }
    known.len()
}

fn equal_share(count: usize) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let count = count as f64;
    1.0 / count
}
