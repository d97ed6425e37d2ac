//! What every option stands on: the survey with what follows from it for all of them.

use super::answer::ComparedCase;
use super::equipment::{Sources, first_error};
use super::listed::{self, Listed};
use super::situation::Situation;
use crate::assess::answer::{Answer, CaseAnswer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::assess::factors::Factors;
use crate::assess::law::{GapLaw, laws};
use crate::assess::possible;
use crate::assess::weather::air_states;
use crate::physics::MoistAir;
use crate::physics::coupled;
use crate::physics::moisture::warmth_alone_c;
use crate::physics::wind::speed_at_body;
use crate::survey::leave::leave;
use crate::survey::{
    Cavity, Facing, Finding, Heater, HeaterFuel, HeaterId, Item, Purpose, SetUp, Survey,
    WeatherCase,
};

/// Heat that no vehicle needs, W: what keeps it at comfort is never short of it.
const COMFORT_HEAT_MOST: f64 = 1e6;

/// What every option stands on.
pub(crate) struct Ground<'a> {
    pub(crate) survey: &'a Survey,
    /// What the assessment says of each weather case.
    pub(crate) answers: &'a [CaseAnswer],
    pub(crate) findings: &'a [Finding],
    /// What measurements make of the flow of each gap.
    pub(crate) factors: &'a Factors,
    /// Σ U A, W/K.
    pub(crate) fabric: f64,
    pub(crate) sources: Sources,
    /// The surfaces that can get cold.
    pub(crate) listed: Vec<Listed>,
    pub(crate) volume_m3: Answer<f64>,
    pub(crate) target_rh: f64,
    pub(crate) calmest: usize,
    pub(crate) windiest: usize,
}

impl Ground<'_> {
    /// The coldest outside air in which a heater holds its set point in the wind of the case at a
    /// place, °C, where that is known.
    pub(crate) fn holds_down_to(&self, heater: HeaterId, at: usize) -> Option<f64> {
        let mut heaters = self.answers.get(at)?.heaters.iter();
        let own = heaters.find(|own| own.id == heater)?;
        own.lowest_outside_c.as_ref().ok().copied()
    }

    /// The vehicle in every weather case.
    pub(crate) fn situations<'e>(&self, envelope: &'e Envelope) -> Vec<Answer<Situation<'e>>> {
        self.survey
            .weather
            .iter()
            .map(|case| {
                let outside = self.outside(case)?;
                let wind = self.wind(envelope, case);
                let cold = listed::cold(&self.listed, outside.t_c, wind);
                Ok(Situation::new(envelope, outside, wind).with_surfaces(cold))
            })
            .collect()
    }

    /// Outside air of a weather case.
    fn outside(&self, case: &WeatherCase) -> Answer<MoistAir> {
        first_error(self.findings, Item::Weather(case.id))?;
        Ok(air_states(self.survey, case)?.0)
    }

    /// Wind used at the roof's height, m/s.
    pub(crate) fn wind(&self, envelope: &Envelope, case: &WeatherCase) -> f64 {
        speed_at_body(self.survey.site.terrain, case.wind_m_s, envelope.roof())
    }

    /// All weights together.
    ///
    /// # Errors
    /// [`NotKnown`] where one is not possible, or there are none.
    pub(crate) fn weights(&self) -> Answer<f64> {
        possible::weights(self.survey)
    }

    /// Share of a case in all weights.
    pub(crate) fn share(&self, case: &WeatherCase) -> f64 {
        possible::share(case, &self.weights())
    }

    /// Temperature at which people keep it, °C; `None` while it is laid up.
    pub(crate) fn comfort_c(&self) -> Option<f64> {
        (self.survey.set_up == SetUp::InUse).then_some(self.survey.targets.comfort_c)
    }

    /// Temperature that sizes are for, °C: comfort in use, else the set temperature for drying.
    pub(crate) fn inside_c(&self) -> f64 {
        let set = self.survey.targets.set_temperature_c;
        self.comfort_c().unwrap_or(set)
    }

    /// What keeps the vehicle at comfort in use where an option has no heater of its own: as much
    /// dry heat as that takes.
    pub(crate) fn comfort_heat(&self) -> Option<coupled::Heater> {
        self.comfort_c().map(|comfort_c| coupled::Heater {
            rating: COMFORT_HEAT_MOST,
            set_point_c: Some(comfort_c),
            water_per_joule: 0.0,
        })
    }

    /// The heater that keeps the vehicle at comfort in use: the survey's strongest, or its only one;
    /// `None` where none is written down, or of several not one is rated.
    pub(crate) fn comfort_heater(&self) -> Option<&Heater> {
        self.strongest_heater()
            .filter(|_| self.comfort_c().is_some())
    }

    /// What the heat of comfort burns.
    pub(crate) fn comfort_fuel(&self) -> Option<HeaterFuel> {
        self.strongest_heater().map(|heater| heater.fuel)
    }

    fn strongest_heater(&self) -> Option<&Heater> {
        if let [only] = self.survey.heaters.as_slice() {
            return Some(only);
        }
        let heaters = self.survey.heaters.iter();
        let rated = heaters.filter_map(|heater| Some((heater.rating_w?, heater)));
        let strongest = rated.max_by(|a, b| a.0.total_cmp(&b.0));
        strongest.map(|(_, heater)| heater)
    }

    /// Mean over the cases by their shares; cases without a share need not be known.
    pub(crate) fn season(&self, each: impl Fn(usize) -> Answer<f64>) -> Answer<f64> {
        self.weights()?;
        let mut sum = 0.0;
        for (at, case) in self.survey.weather.iter().enumerate() {
            let share = self.share(case);
            if share > 0.0 {
                sum += share * each(at)?;
            }
        }
        Ok(sum)
    }

    /// What a weather case is called: its name, or its number where it has none.
    pub(crate) fn case_name(&self, at: usize) -> String {
        let name = self
            .survey
            .weather
            .get(at)
            .map_or("", |case| case.name.trim());
        if name.is_empty() {
            format!("weather case {}", at + 1)
        } else {
            name.to_owned()
        }
    }

    /// The weather cases as they are compared.
    pub(crate) fn cases(&self, situations: &[Answer<Situation<'_>>]) -> Vec<ComparedCase> {
        self.survey
            .weather
            .iter()
            .zip(situations)
            .enumerate()
            .map(|(at, (case, situation))| {
                let outside = situation
                    .as_ref()
                    .map(|situation| situation.outside)
                    .map_err(Clone::clone);
                let warmth_alone_c = outside.clone().and_then(|outside| {
                    warmth_alone_c(
                        outside.t_c,
                        outside.relative_humidity().min(1.0),
                        self.target_rh,
                    )
                    .map_err(NotKnown::from)
                });
                ComparedCase {
                    id: case.id,
                    name: self.case_name(at),
                    wind_m_s: case.wind_m_s,
                    share: self.share(case),
                    outside,
                    warmth_alone_c,
                }
            })
            .collect()
    }

    /// The vehicle with every gap closed that may be planned at all ([`leave`]); `None` where nothing
    /// leaks then.
    pub(crate) fn sealed_envelope(&self) -> Option<Envelope> {
        let gaps = self.survey.gaps.iter();
        let laws = gaps
            .zip(
                self.factors
                    .on(self.survey, laws(self.survey, self.findings)),
            )
            .map(|(gap, law)| {
                if leave(self.survey, gap).is_ok() {
                    GapLaw::NotSized(String::new())
                } else {
                    law
                }
            });
        let laws: Vec<GapLaw> = laws.collect();
        Envelope::new(self.survey, self.findings, &laws).ok()
    }

    /// The laws with every closable ventilator and locker opening standing open; `None` where none
    /// that can be opened stands closed.
    pub(crate) fn opened_laws(&self) -> Option<Vec<GapLaw>> {
        opened_laws(self.survey, self.findings, self.factors)
    }
}

/// The laws of the gaps with every closable ventilator and locker opening standing open; `None`
/// where none that can be opened stands closed.
pub(crate) fn opened_laws(
    survey: &Survey,
    findings: &[Finding],
    factors: &Factors,
) -> Option<Vec<GapLaw>> {
    let mut opened = survey.clone();
    let mut any = false;
    for gap in &mut opened.gaps {
        let meant =
            gap.purpose == Purpose::UserVentilation || gap.facing == Facing::Cavity(Cavity::Locker);
        if let (true, Some(closing)) = (meant, gap.closing.as_mut()) {
            let (laid_up, in_use) = (&mut closing.open_laid_up, &mut closing.open_in_use);
            let open = opened.set_up.choose(laid_up, in_use);
            any |= !*open;
            *open = true;
        }
    }
    any.then(|| factors.on(&opened, laws(&opened, findings)))
}
