//! What every option stands on: the survey with what follows from it for all of them.

use super::answer::ComparedCase;
use super::equipment::{Sources, first_error};
use super::situation::Situation;
use super::surfaces::{self, Listed};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::assess::law::{GapLaw, laws};
use crate::assess::weather::air_states;
use crate::physics::MoistAir;
use crate::physics::moisture::warmth_alone_c;
use crate::physics::wind::speed_at_body;
use crate::survey::{Cavity, Facing, Finding, Item, Purpose, Survey, WeatherCase};

/// What every option stands on.
pub(crate) struct Ground<'a> {
    pub(crate) survey: &'a Survey,
    pub(crate) findings: &'a [Finding],
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
    /// The vehicle in every weather case.
    pub(crate) fn situations<'e>(&self, envelope: &'e Envelope) -> Vec<Answer<Situation<'e>>> {
        self.survey
            .weather
            .iter()
            .map(|case| {
                let outside = self.outside(case)?;
                let wind = self.wind(envelope, case);
                let cold = surfaces::cold(&self.listed, outside.t_c, wind);
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

    /// Share of a case in all weights.
    pub(crate) fn share(&self, case: &WeatherCase) -> f64 {
        let all: f64 = self.survey.weather.iter().map(|case| case.weight).sum();
        if all > 0.0 { case.weight / all } else { 0.0 }
    }

    /// Mean over the cases by their shares; cases without a share need not be known.
    pub(crate) fn season(&self, each: impl Fn(usize) -> Answer<f64>) -> Answer<f64> {
        let mut sum = 0.0;
        let mut shares = 0.0;
        for (at, case) in self.survey.weather.iter().enumerate() {
            let share = self.share(case);
            if share > 0.0 {
                sum += share * each(at)?;
                shares += share;
            }
        }
        if shares > 0.0 {
            Ok(sum)
        } else {
            Err(NotKnown::because("no weather case has a weight"))
        }
    }

    /// The weather cases as they are compared.
    pub(crate) fn cases(&self, situations: &[Answer<Situation<'_>>]) -> Vec<ComparedCase> {
        self.survey
            .weather
            .iter()
            .zip(situations)
            .map(|(case, situation)| {
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
                    name: case.name.clone(),
                    wind_m_s: case.wind_m_s,
                    share: self.share(case),
                    outside,
                    warmth_alone_c,
                }
            })
            .collect()
    }

    /// The laws with every closable ventilator and locker opening standing open.
    ///
    /// # Errors
    /// [`NotKnown`] where none is closed.
    pub(crate) fn opened_laws(&self) -> Answer<Vec<GapLaw>> {
        let mut opened = self.survey.clone();
        let mut any = false;
        for gap in &mut opened.gaps {
            let meant = gap.purpose == Purpose::UserVentilation
                || gap.facing == Facing::Cavity(Cavity::Locker);
            if let (true, Some(closing)) = (meant, gap.closing.as_mut()) {
                let (laid_up, in_use) = (&mut closing.open_laid_up, &mut closing.open_in_use);
                let open = opened.set_up.choose(laid_up, in_use);
                any |= !*open;
                *open = true;
            }
        }
        if any {
            Ok(laws(&opened, self.findings))
        } else {
            Err(NotKnown::because(
                "no ventilator or locker opening that can be opened stands closed",
            ))
        }
    }
}
