//! The season made ready, and each option marched through it.

use super::air::air_table;
use super::count::{Frost, Season, frost_of, humidity};
use super::elements::elements;
use super::hours::{Outdoors, Sources, outdoors};
use super::mould::{MouldSpot, grown, spots};
use super::of_stay::{season_of, winters_of};
use super::options::{Fitted, WinterOption, options};
use super::{COLDEST_CORNER_K, Humidity, USUAL_BUFFER, USUAL_BUFFER_AREA_PER_M3};
use crate::assess::answer::Answer;
use crate::assess::drying::{DAYS_PER_MONTH, OptionKind, equipment, listed, money};
use crate::assess::envelope::Envelope;
use crate::assess::fabric::element_u;
use crate::assess::not_known::NotKnown;
use crate::assess::study::Study;
use crate::climate::{Day, Hour, Weather, is_of_one_year, is_of_several_years};
use crate::physics::counts::count;
use crate::physics::units::{JOULES_PER_KWH, SECONDS_PER_HOUR};
use crate::physics::warm_up::USUAL_HEAT_CAPACITY_PER_M3;
use crate::physics::winter::{
    AirTable, Body, Forcing, HourInside, Marched, STEPS_PER_HOUR, Surface, march, march_from,
};
use crate::survey::{MachineKind, SetUp, Stay, Survey};
use std::ops::ControlFlow;
use std::sync::{Arc, OnceLock};

/// Points of humidity in the whole.
const POINTS: f64 = 100.0;
/// Grams in a kilogram.
const GRAMS: f64 = 1000.0;
/// Hours in a day.
const DAY_H: f64 = 24.0;

/// The weather of the season, told.
#[derive(Clone, Debug, PartialEq)]
pub struct Weathered {
    /// Name of the place.
    pub place: String,
    /// Hours of the season.
    pub hours: usize,
    /// Hours in which something was not recorded.
    pub not_known: usize,
    /// Mean outside temperature, °C.
    pub mean_c: f64,
    /// Humidity outside.
    pub humidity: Humidity,
    /// Frost outside: that of a tank under the floor.
    pub frost: Frost,
    /// Known hours of which something was missing, and was taken from the hours beside them.
    pub filled: usize,
    /// Known hours in which nothing says where the wind comes from.
    pub without_wind_direction: usize,
    /// The heading is not known: sun and wind are means over all.
    pub any_heading: bool,
    /// The clock of the weather counts as the sun's, as nothing says otherwise.
    pub clock_assumed: bool,
    /// Its months are from several years, put together as a typical year is.
    pub several_years: bool,
    /// The last months of the file's year stand before its own first: halves of two winters.
    pub one_year: bool,
    /// Winters that the weather holds whole: the first of them is told. None where it was put together.
    pub winters: usize,
    /// The first day and the last.
    pub days: (Day, Day),
    /// It was made from monthly means: its year is no year.
    pub invented: bool,
}

/// What is otherwise than surveyed.
pub(super) struct Given {
    pub(super) body: Body,
    pub(super) forcing: Vec<Forcing>,
    /// How many times as much air flows through, by hour.
    pub(super) air: Vec<f64>,
}

/// A season made ready.
pub struct Winter {
    survey: Arc<Survey>,
    findings: Vec<crate::survey::Finding>,
    pub(super) body: Body,
    pub(super) outdoors: Vec<Outdoors>,
    pub(super) forcing: Vec<Forcing>,
    air: AirTable<NotKnown>,
    /// With ventilators and lockers open; `None` where nothing can be opened.
    opened: Option<Answer<AirTable<NotKnown>>>,
    options: Vec<WinterOption>,
    spots: Vec<MouldSpot>,
    weathered: Weathered,
    /// Temperature and vapour pressure inside at the first hour, where they were measured: °C, Pa.
    pub(super) from: Option<(f64, f64)>,
    /// Mean power of the large machine alone over the season, W, once it is known.
    large: OnceLock<f64>,
}

impl Winter {
    /// Makes weather and vehicle ready.
    ///
    /// # Errors
    /// [`NotKnown`] where the options cannot be compared, the weather holds no whole winter or lacks
    /// what is needed, or a size that sun or contents need is not given.
    pub fn new(study: &Study, weather: &Weather, stay: &Stay) -> Answer<Self> {
        let hours = season_of(weather, stay)?;
        let mut winter = Self::over(study, weather, &hours, stay)?;
        winter.weathered.winters = winters_of(weather, stay);
        Ok(winter)
    }

    /// The same over any hours of the weather, one after another.
    ///
    /// # Errors
    /// As [`Winter::new`], but for a winter that is not whole.
    pub fn over(study: &Study, weather: &Weather, hours: &[Hour], stay: &Stay) -> Answer<Self> {
        let survey = study.survey();
        let prepared = study.prepared();
        let comparison = study.comparison().as_ref().map_err(Clone::clone)?;
        let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
        let outdoors = outdoors((survey, stay), weather, hours, envelope.roof())?;
        let elements = elements(survey, stay)?;
        let volume = prepared.volume_m3.clone()?;
        let fabric = prepared.fabric.as_ref().map_err(Clone::clone)?.ua_w_per_k;
        let mut surfaces = Vec::with_capacity(elements.len());
        for (own, element) in survey.fabric.iter().zip(&elements) {
            surfaces.push(Surface {
                area: element.film_area(),
                temperature_factor: listed::plain_factor(own, element_u(own)?),
            });
        }
        let body = Body {
            heat_capacity: survey
                .drying
                .heat_capacity_kj_per_k
                .map_or(USUAL_HEAT_CAPACITY_PER_M3 * volume, |capacity| {
                    capacity * 1000.0
                }),
            fabric,
            volume,
            buffer: stay
                .stores_g_per_percent
                .unwrap_or(USUAL_BUFFER * USUAL_BUFFER_AREA_PER_M3 * volume)
                * POINTS
                / GRAMS,
            surfaces,
        };
        let steady = equipment::sources(survey, &prepared.findings)?;
        let sources = Sources {
            vapour: steady.vapour,
            liquid: steady.liquid,
            // The sun comes by the hour here.
            gains: steady.gains - survey.drying.sun_w,
        };
        let in_use = survey.set_up == SetUp::InUse;
        let forcing = outdoors
            .iter()
            .map(|hour| hour.forcing(&elements, stay, &sources, in_use))
            .collect();
        let opened = opened(study, &outdoors);
        Ok(Self {
            weathered: weathered(survey, weather, &outdoors)?,
            options: options(survey, &prepared.findings, comparison),
            spots: spots(survey),
            air: air_table(envelope.clone(), &outdoors),
            findings: prepared.findings.clone(),
            survey: Arc::clone(survey),
            body,
            outdoors,
            forcing,
            opened,
            from: None,
            large: OnceLock::new(),
        })
    }

    /// The weather.
    #[must_use]
    pub fn weathered(&self) -> &Weathered {
        &self.weathered
    }

    /// The options, in the order of Drying & heat.
    #[must_use]
    pub fn options(&self) -> &[WinterOption] {
        &self.options
    }

    /// Day and number of each hour, and the air outside.
    pub fn outside(&self) -> impl Iterator<Item = (&Hour, &crate::physics::MoistAir)> {
        self.outdoors.iter().map(|hour| (&hour.hour, &hour.air))
    }

    /// One option through the season, by its index; `None` where `progress`, asked for every day,
    /// gave it up.
    pub fn season(
        &self,
        option: usize,
        progress: &impl Fn() -> ControlFlow<()>,
    ) -> Option<Answer<Season>> {
        self.season_in_steps(option, STEPS_PER_HOUR, progress)
    }

    /// The same with so many steps an hour.
    pub fn season_in_steps(
        &self,
        option: usize,
        steps: u32,
        progress: &impl Fn() -> ControlFlow<()>,
    ) -> Option<Answer<Season>> {
        self.season_given(option, None, steps, progress)
    }

    /// The same where something of the vehicle is otherwise than surveyed.
    pub(super) fn season_given(
        &self,
        option: usize,
        given: Option<&Given>,
        steps: u32,
        progress: &impl Fn() -> ControlFlow<()>,
    ) -> Option<Answer<Season>> {
        let Some(own) = self.options.get(option) else {
            return Some(Err(NotKnown::because("there is no such option")));
        };
        let mut fitted = match &own.fitted {
            Ok(fitted) => fitted.clone(),
            Err(unknown) => return Some(Err(unknown.clone())),
        };
        let air = match (own.kind, &self.opened) {
            (OptionKind::LockersOpen, Some(Ok(opened))) => opened,
            (OptionKind::LockersOpen, Some(Err(unknown))) => return Some(Err(unknown.clone())),
            _ => &self.air,
        };
        if own.kind == OptionKind::SameHeat {
            match self.same_heat(progress)? {
                Ok(watts) => {
                    fitted.heating = Some(crate::physics::winter::Heating {
                        rating: watts,
                        set_c: None,
                        set_present_c: None,
                        only_present: false,
                        water_per_joule: 0.0,
                    });
                    fitted.fuel = Some(crate::survey::HeaterFuel::Electricity);
                }
                Err(unknown) => return Some(Err(unknown)),
            }
        }
        let marched = match self.marched(&fitted, (air, given), steps, progress) {
            Ok(marched) => marched?,
            Err(unknown) => return Some(Err(unknown)),
        };
        let is_large = || {
            let unpaid = Fitted {
                upkeep_per_month: None,
                ..fitted.clone()
            };
            self.large_alone().is_ok_and(|large| large == unpaid)
        };
        let plain = steps == STEPS_PER_HOUR && given.is_none();
        if plain && own.kind != OptionKind::LockersOpen && is_large() {
            // The same whoever comes to it first.
            let _ = self.large.set(mean_power(&marched));
        }
        Some(self.counted(&fitted, own.kind, marched))
    }

    fn marched(
        &self,
        fitted: &Fitted,
        (air, given): (&AirTable<NotKnown>, Option<&Given>),
        steps: u32,
        progress: &impl Fn() -> ControlFlow<()>,
    ) -> Answer<Option<Marched>> {
        let strategy = fitted.strategy();
        let Some(given) = given else {
            let flow = |hour: usize, inside_c: f64| air.flow(hour, inside_c);
            let (body, forcing) = (&self.body, &self.forcing);
            return march_from(
                self.from,
                body,
                forcing,
                (&strategy, &flow),
                (steps, progress),
            );
        };
        let flow = |hour: usize, inside_c: f64| -> Answer<f64> {
            let times = given.air.get(hour).copied().unwrap_or(f64::NAN);
            Ok(times * air.flow(hour, inside_c)?)
        };
        let steps = (steps, progress);
        march(&given.body, &given.forcing, &strategy, &flow, steps)
    }

    /// The large machine, with nothing beside it.
    fn large_alone(&self) -> Answer<Fitted> {
        let first = |of: OptionKind| self.options.iter().find(|own| own.kind == of);
        // Heat and machine has the large one of several.
        let large = first(OptionKind::HeatAndMachine)
            .or_else(|| first(OptionKind::Machine(MachineKind::Compressor)));
        match large.map(|own| &own.fitted) {
            Some(Ok(fitted)) => Ok(Fitted {
                heating: None,
                fuel: None,
                upkeep_per_month: None,
                ..fitted.clone()
            }),
            Some(Err(unknown)) => Err(unknown.clone()),
            None => Err(NotKnown::because("there is no large machine")),
        }
    }

    /// The mean power of the large machine over the season, W, all the time: what it draws as heat
    /// alone. Where it never runs, what it would draw.
    fn same_heat(&self, progress: &impl Fn() -> ControlFlow<()>) -> Option<Answer<f64>> {
        let fitted = match self.large_alone() {
            Ok(fitted) => fitted,
            Err(unknown) => return Some(Err(unknown)),
        };
        let mean = match self.large.get() {
            Some(mean) => *mean,
            None => match self.marched(&fitted, (&self.air, None), STEPS_PER_HOUR, progress) {
                Ok(marched) => *self.large.get_or_init({
                    let mean = mean_power(&marched?);
                    move || mean
                }),
                Err(unknown) => return Some(Err(unknown)),
            },
        };
        if mean > 0.0 {
            return Some(Ok(mean));
        }
        let most = fitted.machine.as_ref().map(|machine| {
            let warm = crate::physics::MoistAir::from_relative_humidity(20.0, 0.8, 101_325.0);
            warm.map_or(0.0, |air| machine.power(&air))
        });
        Some(most.ok_or_else(|| NotKnown::because("there is no large machine")))
    }

    fn counted(&self, fitted: &Fitted, kind: OptionKind, marched: Marched) -> Answer<Season> {
        // Where lockers stand open there is no closed one; theirs come last.
        let open = self.spots.iter().take_while(|spot| !spot.in_locker).count();
        let spots = match kind {
            OptionKind::LockersOpen => self.spots.get(..open).unwrap_or_default(),
            _ => &self.spots,
        };
        let known = |hours: &[HourInside]| -> Vec<HourInside> {
            let pairs = self.outdoors.iter().zip(hours);
            pairs
                .filter(|(outdoors, _)| !outdoors.not_known)
                .map(|(_, hour)| *hour)
                .collect()
        };
        let known = known(&marched.hours);
        let humidity = humidity(known.iter().map(|hour| hour.rh))
            .ok_or_else(|| NotKnown::because("no hour of the winter is known"))?;
        let sum = |of: fn(&HourInside) -> f64| known.iter().map(of).sum::<f64>();
        let kwh = |watt_hours: f64| watt_hours * SECONDS_PER_HOUR / JOULES_PER_KWH;
        let hours = count(known.len());
        let (machine, heater) = (sum(|hour| hour.machine), sum(|hour| hour.heater));
        let t_c = |at: usize| marched.hours.get(at).map_or(f64::NAN, |hour| hour.t_c);
        let per_day = money::energy(
            &self.survey.tariffs,
            &self.findings,
            machine / hours,
            fitted.fuel.map(|fuel| (fuel, heater / hours)),
        );
        let cost = if fitted.fuel.is_none() && heater > 0.0 {
            Err(NotKnown::because(
                "no heater is written down, so what heating costs is not known",
            ))
        } else {
            let upkeep = fitted.upkeep_per_month.clone().unwrap_or(Ok(0.0));
            per_day.cost_per_day.and_then(|cost| {
                let upkeep = upkeep? / DAYS_PER_MONTH;
                Ok((cost + upkeep) * hours / DAY_H)
            })
        };
        Ok(Season {
            humidity,
            mean_c: sum(|hour| hour.t_c) / hours,
            frost: frost_of(&self.outdoors, t_c),
            frost_in_corner: frost_of(&self.outdoors, |at| t_c(at) - COLDEST_CORNER_K),
            condensation_hours: known.iter().filter(|hour| hour.condensed > 0.0).count(),
            run_off_l: sum(|hour| hour.run_off),
            removed_l: sum(|hour| hour.removed),
            machine_kwh: kwh(machine),
            heater_kwh: kwh(heater),
            machine_hours: sum(|hour| hour.duty),
            too_cold_hours: sum(|hour| hour.too_cold),
            cost,
            tub_full_days: marched.tub_full_at.map(|at| count(at) / DAY_H),
            mould: grown(spots, &self.outdoors, &self.forcing, &marched.hours),
            books: marched.books,
            hours: marched.hours,
        })
    }

    /// The table of the air, for tests.
    #[cfg(test)]
    pub(super) fn air(&self) -> &AirTable<NotKnown> {
        &self.air
    }

    /// Air outside, wind and where it comes from in an hour, for tests.
    #[cfg(test)]
    pub(super) fn wind_of(&self, hour: usize) -> (crate::physics::MoistAir, (f64, Option<f64>)) {
        let own = &self.outdoors[hour];
        (own.air, (own.wind, own.from_front_deg))
    }
}

/// Mean power of the machine over all hours, W.
fn mean_power(marched: &Marched) -> f64 {
    let sum = marched.hours.iter().map(|hour| hour.machine).sum::<f64>();
    sum / count(marched.hours.len())
}

/// The air with ventilators and lockers open, where any stands closed.
fn opened(study: &Study, outdoors: &[Outdoors]) -> Option<Answer<AirTable<NotKnown>>> {
    let survey = study.survey();
    let prepared = study.prepared();
    let (findings, factors) = (&prepared.findings, &prepared.factors);
    let laws = crate::assess::drying::opened_laws(survey, findings, factors)?;
    let envelope = Envelope::new(survey, findings, &laws);
    Some(envelope.map(|envelope| air_table(envelope, outdoors)))
}

fn weathered(survey: &Survey, weather: &Weather, outdoors: &[Outdoors]) -> Answer<Weathered> {
    let known: Vec<&Outdoors> = outdoors.iter().filter(|hour| !hour.not_known).collect();
    let humidity = humidity(known.iter().map(|hour| hour.air.relative_humidity()))
        .ok_or_else(|| NotKnown::because("no hour of the winter is known"))?;
    let hours: Vec<Hour> = outdoors.iter().map(|own| own.hour).collect();
    let several_years = is_of_several_years(&hours);
    let ends = hours.first().zip(hours.last());
    let (first, last) = ends.ok_or_else(|| NotKnown::because("no hour of the winter is known"))?;
    Ok(Weathered {
        place: weather.place.name.clone(),
        hours: outdoors.len(),
        not_known: outdoors.len() - known.len(),
        mean_c: known.iter().map(|hour| hour.air.t_c).sum::<f64>() / count(known.len()),
        humidity,
        filled: known.iter().filter(|own| own.hour.filled).count(),
        without_wind_direction: known
            .iter()
            .filter(|own| own.hour.wind_from_deg.is_none())
            .count(),
        frost: frost_of(outdoors, |at| {
            outdoors.get(at).map_or(f64::NAN, |hour| hour.air.t_c)
        }),
        any_heading: survey.site.front_points_to().is_none(),
        clock_assumed: weather.place.clock_assumed,
        several_years,
        one_year: !weather.invented && is_of_one_year(&hours),
        winters: 0,
        days: (first.day, last.day),
        invented: weather.invented,
    })
}
