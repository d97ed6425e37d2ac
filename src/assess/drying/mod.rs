//! Drying and heating: what each option really does to this vehicle, still and windy.
//!
//! [`compare`](super::compare) solves the coupled balance of heat and water for every option in every weather
//! case, with the vehicle's own air flow at the temperature each option brings about. It is a
//! pure function beside [`crate::assess::assess`], which it does not need and which does not wait
//! for it. Where gaps are marked as planned, it compares once more with those gaps sealed.
//!
//! The weather case's own inside temperature plays no part here: what the inside comes to is the
//! answer.

pub mod answer;
pub(crate) mod equipment;
mod findings;
pub mod library;
mod money;
pub(crate) mod night_air;
mod options;
pub(crate) mod situation;
pub(crate) mod sizing;
mod state;
pub(crate) mod surfaces;
mod verdict;
pub(crate) mod warm_up;

pub use answer::{
    AchPoint, AfterPlan, Capacity, ComparedCase, Comparison, DryOut, Energy, Fall, Freshness,
    HeaterFor, HeaterSize, NeedCurve, NightAir, OptionAnswer, OptionCase, OptionKind, SizedFor,
    Sizing, Spot, Supply, Surface, Verdict, WarmUp,
};

use super::answer::{Answer, NotKnown};
use super::assessment::calmest_and_windiest;
use super::envelope::Envelope;
use super::law::{GapLaw, laws};
use super::prepared::Prepared;
use crate::physics::MoistAir;
use crate::physics::moisture::warmth_alone_c;
use crate::physics::wind::speed_at_body;
use crate::survey::{Finding, Item, Purpose, Survey, WeatherCase};
use equipment::{Sources, first_error};
use situation::Situation;

/// Compares the options for the set-up that the survey shows, with the vehicle as it stands.
///
/// # Errors
/// [`NotKnown`] where nothing can be compared: the air change or the fabric is not known, a
/// target or a source is impossible, or there is no weather case.
pub(super) fn as_it_stands(survey: &Survey, prepared: &Prepared) -> Answer<Comparison> {
    if survey.gaps.is_empty() {
        return Err(NotKnown::because("no gap has been written down yet"));
    }
    let findings = &prepared.findings;
    for item in [Item::Vehicle, Item::Site, Item::Targets] {
        first_error(findings, item)?;
    }
    for fan in &survey.fans {
        first_error(findings, Item::Fan(fan.id))?;
    }
    let (calmest, windiest) = calmest_and_windiest(survey)
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
    let ground = Ground {
        survey,
        findings,
        fabric: prepared.fabric.as_ref().map_err(Clone::clone)?.ua_w_per_k,
        sources: equipment::sources(survey, findings)?,
        volume_m3: prepared.volume_m3.clone(),
        target_rh: survey.targets.rh_percent / 100.0,
        calmest,
        windiest,
    };
    let situations = ground.situations(envelope);
    let options = options::all(&ground, &situations);
    Ok(Comparison {
        set_up: survey.set_up,
        target_rh: ground.target_rh,
        cases: ground.cases(&situations),
        calmest,
        windiest,
        findings: findings::find(&ground, &situations, &options),
        sizing: sizing::sizing(&ground, envelope, &situations),
        warm_up: warm_up::warm_up(&ground, &situations),
        night_air: night_air::night_air(&ground, envelope),
        options,
        after_plan: None,
    })
}

/// What every option stands on.
pub(crate) struct Ground<'a> {
    pub(crate) survey: &'a Survey,
    pub(crate) findings: &'a [Finding],
    /// Σ U A, W/K.
    pub(crate) fabric: f64,
    pub(crate) sources: Sources,
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
                Ok(Situation::new(envelope, outside, self.wind(envelope, case)))
            })
            .collect()
    }

    /// Outside air of a weather case.
    fn outside(&self, case: &WeatherCase) -> Answer<MoistAir> {
        first_error(self.findings, Item::Weather(case.id))?;
        Ok(super::weather::air_states(self.survey, case)?.0)
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

    fn cases(&self, situations: &[Answer<Situation<'_>>]) -> Vec<ComparedCase> {
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
                || gap.facing == crate::survey::Facing::Cavity(crate::survey::Cavity::Locker);
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

#[cfg(test)]
mod tests;
