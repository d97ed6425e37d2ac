//! One weather case: its air change, the water to remove, and the heat.
#![expect(
    clippy::indexing_slicing,
    reason = "sixteen directions built together; a missing number must never turn into a silent default"
)]

use super::answer::{
    Answer, CaseAir, CaseAnswer, CaseDrying, CaseHeat, CrossCheck, DirectionAnswer, Fabric,
    GapAirFlow, HeatNeed, InnerAirFlow, Leakage, NotKnown, RequiredRemoval, SpaceAir,
};
use super::envelope::{DIRECTIONS, Envelope, direction_deg, mean};
use super::in_air::VehicleInAir;
use super::possible::{possible, site_pressure};
use super::sound::sound;
use crate::physics::basic_model::{self, ShelterClass};
use crate::physics::counts::count;
use crate::physics::moisture::{dry_air_flow, required_removal, ventilation_conductance};
use crate::physics::units::{GRAMS_PER_KG, SECONDS_PER_DAY, SECONDS_PER_HOUR};
use crate::physics::wind::{LEAST_SPEED, Shelter, speed_at};
use crate::physics::{MoistAir, OpeningFlow};
use crate::survey::findings::{is_left_out, named_or};
use crate::survey::{Field, Finding, InsideAir, Item, MoistureSource, Place, Survey, WeatherCase};

/// All that the cases need to know of the vehicle.
pub(crate) struct Vehicle<'a> {
    pub(crate) survey: &'a Survey,
    pub(crate) findings: &'a [Finding],
    pub(crate) envelope: &'a Answer<Envelope>,
    pub(crate) volume_m3: &'a Answer<f64>,
    pub(crate) leakage: &'a Leakage,
    pub(crate) fabric: &'a Answer<Fabric>,
}

/// Outside and inside air of a weather case.
///
/// # Errors
/// [`NotKnown`] where a state, or a number that it is made of, cannot be.
pub(crate) fn air_states(survey: &Survey, case: &WeatherCase) -> Answer<(MoistAir, MoistAir)> {
    let inside = match case.inside {
        InsideAir::WarmerBy { kelvin } => (Field::WarmerBy, Some(kelvin)),
        InsideAir::HeldAt { temperature_c } => (Field::HeldAt, Some(temperature_c)),
    };
    for (field, value) in [
        (Field::Outside, Some(case.outside_c)),
        (Field::OutsideRh, Some(case.outside_rh_percent)),
        (Field::InsideRh, case.inside_rh_percent),
        inside,
    ] {
        possible(field, value)?;
    }
    let pressure = site_pressure(survey)?;
    let state = |t_c: f64, rh_percent: f64| {
        MoistAir::from_relative_humidity(t_c, rh_percent / 100.0, pressure)
    };
    let outside = state(case.outside_c, case.outside_rh_percent)?;
    let inside = match case.inside_rh_percent {
        Some(rh_percent) => state(case.inside_c(), rh_percent)?,
        None => same_water(&outside, case.inside_c())?,
    };
    Ok((outside, inside))
}

/// Inside air with the water of the outside air, or saturated where it is too cold to hold it.
pub(crate) fn same_water(outside: &MoistAir, inside_c: f64) -> Answer<MoistAir> {
    let most = MoistAir::from_relative_humidity(inside_c, 1.0, outside.pressure)?.humidity_ratio;
    let humidity_ratio = outside.humidity_ratio.min(most);
    Ok(MoistAir::new(inside_c, humidity_ratio, outside.pressure)?)
}

impl Vehicle<'_> {
    /// Works out one weather case; `share` is its part of all weights.
    pub(crate) fn case(&self, case: &WeatherCase, share: f64) -> CaseAnswer {
        let states = self
            .first_error(case)
            .and_then(|()| air_states(self.survey, case));
        let air = states.clone().and_then(|states| self.air(case, states));
        let drying = states
            .clone()
            .and_then(|(outside, _)| self.drying(case, &outside));
        let heat = states.and_then(|(outside, _)| self.heat(case, &outside));
        CaseAnswer {
            id: case.id,
            name: case.name.clone(),
            share,
            air,
            drying,
            heat,
            heaters: self.heaters(case),
        }
    }

    /// The air change of a weather case alone.
    ///
    /// # Errors
    /// [`NotKnown`] where it is not.
    pub(super) fn air_change(&self, case: &WeatherCase) -> Answer<CaseAir> {
        self.first_error(case)?;
        self.air(case, air_states(self.survey, case)?)
    }

    /// What of the vehicle, the site, the spaces and this case is impossible stops its air change
    /// and all that hangs on it. What it does not need, such as the direction the front points to,
    /// does not; nor does a size of the vehicle that was left out stop more than what needs it.
    pub(crate) fn first_error(&self, case: &WeatherCase) -> Answer<()> {
        self.no_error(|place| match place.item {
            Item::Vehicle => {
                const NEEDED: [Field; 5] = [
                    Field::Length,
                    Field::Width,
                    Field::RoofHeight,
                    Field::FloorHeight,
                    Field::SkirtFreeArea,
                ];
                NEEDED.iter().any(|field| place.is_at(*field))
            }
            Item::Site => !place.is_at(Field::Heading) && !place.is_at(Field::PrevailingWind),
            Item::Space(_) => !place.is_at(Field::SpaceVolume),
            Item::InnerOpening(_) => true,
            item => item == Item::Weather(case.id),
        })
    }

    /// An impossible target stops what is worked out for it.
    fn no_wrong_target(&self, needed: &[Field]) -> Answer<()> {
        self.no_error(|place| {
            place.item == Item::Targets && needed.iter().any(|field| place.is_at(*field))
        })
    }

    pub(super) fn no_error(&self, concerns: impl Fn(&Place) -> bool) -> Answer<()> {
        let vehicle = &self.survey.vehicle;
        sound(self.findings, |place| {
            !is_left_out(vehicle, place) && concerns(place)
        })
    }

    fn envelope(&self) -> Answer<&Envelope> {
        self.envelope.as_ref().map_err(Clone::clone)
    }

    /// Wind speed at the roof's height: as computed, and as used.
    fn wind(&self, envelope: &Envelope, case: &WeatherCase) -> (f64, f64) {
        let at_body = speed_at(self.survey.site.terrain, case.wind_m_s, envelope.roof());
        (at_body, at_body.max(LEAST_SPEED))
    }

    fn air(&self, case: &WeatherCase, (outside, inside): (MoistAir, MoistAir)) -> Answer<CaseAir> {
        let envelope = self.envelope()?;
        let (wind_at_body, wind_used) = self.wind(envelope, case);
        let in_air = envelope.at(&outside, &inside);
        let heading = self.survey.site.front_points_to();
        let mut directions = Vec::with_capacity(DIRECTIONS);
        let mut inflows = [0.0; DIRECTIONS];
        let mut into_spaces = vec![[0.0; 2]; in_air.spaces().len()];
        in_air.directions(wind_used, |index, solved| {
            inflows[index] = solved.inflow;
            let from_front_deg = direction_deg(index);
            let listed = self.survey.spaces.iter().zip(solved.pressures());
            directions.push(DirectionAnswer {
                from_front_deg,
                compass_deg: heading.map(|heading| (heading + from_front_deg).rem_euclid(360.0)),
                inside_pressure: solved.inside_pressure(),
                neutral_level: solved.neutral_level(),
                inflow_kg_s: solved.inflow,
                outflow_kg_s: solved.outflow,
                one_sided: solved.one_sided,
                ach_per_h: self.ach(solved.inflow, in_air.density_in()),
                flows: solved
                    .flows()
                    .iter()
                    .map(|flow| flow.map(gap_flow))
                    .collect(),
                inner_flows: solved.inner_flows().iter().map(inner_flow).collect(),
                space_pressures: listed.map(|(_, pressure)| *pressure).collect(),
            });
            for (sums, [outside, others]) in into_spaces.iter_mut().zip(solved.air_into_spaces()) {
                sums[0] += outside;
                sums[1] += others;
            }
        })?;
        let mean_inflow_kg_s = mean(&inflows);
        Ok(CaseAir {
            outside,
            inside,
            wind_at_body,
            wind_used,
            mean_inflow_kg_s,
            mean_ach_per_h: self.ach(mean_inflow_kg_s, in_air.density_in()),
            lowest: first_where(&inflows, |inflow, best| inflow < best),
            highest: first_where(&inflows, |inflow, best| inflow > best),
            cross_check: self.cross_check(case, &outside, &inside),
            spaces: self.spaces(&in_air, &into_spaces),
            directions,
        })
    }

    /// Air into each space that the survey lists; `sums` over all directions of what comes from
    /// outside and of what comes from other spaces.
    fn spaces(&self, in_air: &VehicleInAir<'_>, sums: &[[f64; 2]]) -> Vec<SpaceAir> {
        let spaces = self.survey.spaces.iter().zip(in_air.spaces()).zip(sums);
        spaces
            .map(|((space, found), sums)| {
                let [mean_inflow_kg_s, mean_from_spaces_kg_s] =
                    sums.map(|sum| sum / count(DIRECTIONS));
                let volume = space.volume_m3.ok_or_else(|| {
                    NotKnown::because(format!("the volume of space {} is not given", space.id))
                });
                let per_kg_s = volume.map(|volume| SECONDS_PER_HOUR / (found.gas.density * volume));
                let changes = |flow: f64| per_kg_s.clone().map(|per| per * flow);
                SpaceAir {
                    id: space.id,
                    mean_inflow_kg_s,
                    ach_per_h: changes(mean_inflow_kg_s),
                    mean_from_spaces_kg_s,
                    from_spaces_per_h: changes(mean_from_spaces_kg_s),
                }
            })
            .collect()
    }

    /// Air changes per hour at inside-air density.
    fn ach(&self, inflow_kg_s: f64, density_in: f64) -> Answer<f64> {
        self.volume_m3
            .clone()
            .map(|volume| inflow_kg_s * SECONDS_PER_HOUR / (density_in * volume))
    }

    fn cross_check(
        &self,
        case: &WeatherCase,
        outside: &MoistAir,
        inside: &MoistAir,
    ) -> Answer<CrossCheck> {
        let ela = self.leakage.all.clone()?.figures.ela;
        let volume = self.volume_m3.clone()?;
        let height = (|| {
            let vehicle = &self.survey.vehicle;
            Some(vehicle.height_m? - vehicle.floor_height_m?)
        })();
        let height = height.ok_or_else(|| NotKnown::because("the height is not given"))?;
        let stack = basic_model::stack_coefficient(height);
        let wind = shelter_class(self.survey.site.shelter).wind_coefficient();
        let difference = inside.t_c - outside.t_c;
        let flow = basic_model::flow(ela, stack, wind, difference, case.wind_m_s);
        Ok(CrossCheck {
            stack_coefficient: stack,
            wind_coefficient: wind,
            flow,
            ach_per_h: flow * SECONDS_PER_HOUR / volume,
        })
    }

    /// Mean inflow of outside air with the inside held at a temperature, kg/s, and its density.
    fn inflow_at(
        &self,
        case: &WeatherCase,
        outside: &MoistAir,
        inside_c: f64,
    ) -> Answer<(f64, f64)> {
        let envelope = self.envelope()?;
        let inside = same_water(outside, inside_c)?;
        let (_, wind) = self.wind(envelope, case);
        envelope.mean_inflow((outside, &inside), wind)
    }

    fn drying(&self, case: &WeatherCase, outside: &MoistAir) -> Answer<CaseDrying> {
        self.no_wrong_target(&[Field::TargetRh, Field::SetTemperature])?;
        let source = source_kg_s(self.survey)?;
        Ok(CaseDrying {
            source_kg_s: source,
            at_outside_temperature: self.removal(case, outside, outside.t_c, source)?,
            at_set_temperature: self.removal(
                case,
                outside,
                self.survey.targets.set_temperature_c,
                source,
            )?,
        })
    }

    fn removal(
        &self,
        case: &WeatherCase,
        outside: &MoistAir,
        inside_c: f64,
        source: f64,
    ) -> Answer<RequiredRemoval> {
        let (inflow, _) = self.inflow_at(case, outside, inside_c)?;
        let dry_air = dry_air_flow(inflow, outside.humidity_ratio);
        let at_rh = |rh| MoistAir::from_relative_humidity(inside_c, rh, outside.pressure);
        let target = at_rh(self.survey.targets.rh_percent / 100.0)?.humidity_ratio;
        let most = at_rh(1.0)?.humidity_ratio;
        let left = if source > 0.0 {
            outside.humidity_ratio + source / dry_air
        } else {
            outside.humidity_ratio
        };
        let left = MoistAir::new(inside_c, left.min(most), outside.pressure)?;
        Ok(RequiredRemoval {
            inside_c,
            dry_air_kg_s: dry_air,
            outside_humidity_ratio: outside.humidity_ratio,
            target_humidity_ratio: target,
            removal_kg_s: required_removal(source, dry_air, outside.humidity_ratio, target),
            rh_without_removal: left.relative_humidity().min(1.0),
        })
    }

    fn heat(&self, case: &WeatherCase, outside: &MoistAir) -> Answer<CaseHeat> {
        self.no_wrong_target(&[
            Field::SetTemperature,
            Field::FrostGuard,
            Field::Comfort,
            Field::DesignOutside,
        ])?;
        let targets = &self.survey.targets;
        let design = MoistAir::from_relative_humidity(
            targets.design_outside_c,
            case.outside_rh_percent / 100.0,
            outside.pressure,
        )?;
        Ok(CaseHeat {
            set_temperature: self.heat_need(case, outside, targets.set_temperature_c)?,
            frost_guard: self.heat_need(case, &design, targets.frost_guard_c)?,
            comfort: self.heat_need(case, &design, targets.comfort_c)?,
        })
    }

    /// Heat to hold `inside_c`; none where it is warmer outside.
    pub(super) fn heat_need(
        &self,
        case: &WeatherCase,
        outside: &MoistAir,
        inside_c: f64,
    ) -> Answer<HeatNeed> {
        let (inflow, density_in) = self.inflow_at(case, outside, inside_c)?;
        let dry_air_kg_s = dry_air_flow(inflow, outside.humidity_ratio);
        let difference = (inside_c - outside.t_c).max(0.0);
        let conductance = ventilation_conductance(dry_air_kg_s, outside.humidity_ratio);
        let fabric = self.fabric.as_ref().map_err(Clone::clone);
        Ok(HeatNeed {
            inside_c,
            outside_c: outside.t_c,
            ach_per_h: self.ach(inflow, density_in),
            dry_air_kg_s,
            air_w: conductance * difference,
            fabric_w: fabric.map(|fabric| fabric.ua_w_per_k * difference),
        })
    }
}

/// Index of the first value that beats all before it and is beaten by none after it.
fn first_where(values: &[f64; DIRECTIONS], beats: impl Fn(f64, f64) -> bool) -> usize {
    (1..DIRECTIONS).fold(0, |best, at| {
        if beats(values[at], values[best]) {
            at
        } else {
            best
        }
    })
}

fn inner_flow(flow: &OpeningFlow) -> InnerAirFlow {
    InnerAirFlow {
        forward_kg_s: flow.forward,
        back_kg_s: flow.back,
    }
}

fn gap_flow(flow: OpeningFlow) -> GapAirFlow {
    GapAirFlow {
        in_kg_s: flow.forward,
        out_kg_s: flow.back,
    }
}

/// The handbook's five classes held against our three: an assumption of this project \[A\].
fn shelter_class(shelter: Shelter) -> ShelterClass {
    match shelter {
        Shelter::Exposed => ShelterClass::One,
        Shelter::PartSheltered => ShelterClass::Three,
        Shelter::Sheltered => ShelterClass::Five,
    }
}

/// Water that one source gives off while it lasts, g/h.
///
/// # Errors
/// [`NotKnown`] where it is not given.
pub(crate) fn rate_g_per_h(source: &MoistureSource) -> Answer<f64> {
    source.rate_g_per_h.ok_or_else(|| {
        NotKnown::because(format!(
            "the water given off by {} is not given",
            named_or(&source.name, "a source")
        ))
    })
}

/// Water given off inside in the set-up shown, mean over the day, kg/s.
///
/// # Errors
/// [`NotKnown`] where the rate of a source is missing or impossible.
pub(crate) fn source_kg_s(survey: &Survey) -> Answer<f64> {
    let mut grams_per_day = 0.0;
    for source in &survey.sources {
        let present = survey.set_up.choose(source.laid_up, source.in_use);
        if present {
            let rate = rate_g_per_h(source)?;
            let hours = source.hours_per_day;
            for (field, value) in [(Field::SourceRate, rate), (Field::SourceHours, hours)] {
                if !field.allows(value) {
                    let source = named_or(&source.name, "a source");
                    let words = field.words();
                    return Err(NotKnown::because(format!(
                        "the {words} of {source} is not possible"
                    )));
                }
            }
            grams_per_day += rate * f64::from(source.count) * hours;
        }
    }
    Ok(grams_per_day / SECONDS_PER_DAY / GRAMS_PER_KG)
}
