//! Drying and heating: what each option really does to this vehicle, over the whole season.
//!
//! [`compare`](super::compare) solves the coupled balance of heat and water for every option in every weather
//! case, with the vehicle's own air flow at the temperature each option brings about. It is a
//! pure function beside [`crate::assess::assess`], which it does not need and which does not wait
//! for it. Where gaps are marked as planned, it compares once more with those gaps sealed.
//!
//! Laid up, the weather case's own inside temperature plays no part here: what the inside comes to
//! is the answer. In use people keep it at comfort, so every option is judged there, whatever heats
//! it to that.

mod against;
pub mod answer;
pub(crate) mod equipment;
mod findings;
mod ground;
pub mod library;
pub(crate) mod listed;
pub(crate) mod money;
pub(crate) mod night_air;
mod options;
pub(crate) mod situation;
pub(crate) mod sizing;
mod state;
pub(crate) mod surfaces;
mod tightest;
mod verdict;
pub(crate) mod warm_up;

pub use against::flame;
pub use answer::{
    AchPoint, AfterPlan, Capacity, ComparedCase, Comparison, DryOut, Energy, Fall, Freshness,
    HeaterFor, HeaterSize, MOST_PPM, NEAR, NeedCurve, NightAir, Offer, OptionAnswer, OptionCase,
    OptionKind, Proviso, RunningCost, Shares, Shortfall, SizedFor, Sizing, Spot, Standing, Supply,
    Surface, ToBuy, Verdict, WarmUp,
};

pub(crate) use ground::opened_laws;
pub(crate) use listed::WARMEST_C;
pub(crate) use money::DAYS_PER_MONTH;
pub use money::WINTER_DAYS;
pub use tightest::{Tightest, tightest};

use super::answer::{Answer, CaseAnswer, NotKnown};
use super::assessment::calmest_and_windiest;
use super::prepared::Prepared;
use crate::survey::findings::is_left_out;
use crate::survey::{Field, Finding, Item, Survey};
use equipment::first_error;
use ground::Ground;

/// Compares the options for the set-up that the survey shows, with the vehicle as it stands; `cases`
/// are the answers of the assessment.
///
/// # Errors
/// [`NotKnown`] where nothing can be compared: the air change or the fabric is not known, a
/// target or a source is impossible, or there is no weather case.
pub(super) fn as_it_stands(
    survey: &Survey,
    prepared: &Prepared,
    cases: &[CaseAnswer],
) -> Answer<Comparison> {
    let findings = &prepared.findings;
    // Without weights the season is not known, each weather case is; a size of the vehicle that was
    // left out stops only what needs it.
    let stopping: Vec<Finding> = findings
        .iter()
        .filter(|finding| !finding.place.is_at(Field::Weight))
        .filter(|finding| !is_left_out(&survey.vehicle, &finding.place))
        .cloned()
        .collect();
    for item in [Item::Vehicle, Item::Site, Item::Targets] {
        first_error(&stopping, item)?;
    }
    let (calmest, windiest) = calmest_and_windiest(survey)
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
    let ground = Ground {
        survey,
        answers: cases,
        findings,
        factors: &prepared.factors,
        fabric: prepared.fabric.as_ref().map_err(Clone::clone)?.ua_w_per_k,
        sources: equipment::sources(survey, findings)?,
        listed: listed::listed(survey),
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
        inside_c: ground.inside_c(),
        cases: ground.cases(&situations),
        weights: ground.weights().unwrap_or_default(),
        shares: Shares::WeatherCases,
        calmest,
        windiest,
        findings: findings::find(&ground, &situations, &options),
        sizing: sizing::sizing(&ground, envelope, &situations),
        warm_up: warm_up::warm_up(&ground, &situations),
        night_air: night_air::night_air(&ground),
        options,
        after_plan: None,
    })
}

#[cfg(test)]
mod tests;
