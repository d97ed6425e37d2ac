//! The air of sleepers: how much each has, and what carbon dioxide settles at.

use super::answer::{MOST_PPM, NightAir};
use super::equipment;
use super::ground::Ground;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::sleepers::outside_air_m3_s;
use crate::physics::people::carbon_dioxide_ppm;
use crate::survey::{Item, SetUp};

/// Air for each sleeper in the calmest case, at that case's own inside temperature: with the heating
/// off at night less air comes in than at comfort.
///
/// ```text
/// q = Q/N,   C = 420 + 10⁶ N G/Q
/// ```
/// where Q is the outside air that reaches the sleepers, m³/s, N the berths, G the carbon dioxide of a
/// sleeper, 13.6 L/h (EN 16798-1 **\[M\]**), and C the steady carbon dioxide, ppm. It says nothing about
/// carbon monoxide.
///
/// # Errors
/// [`NotKnown`] while it is laid up, and where there are no berths, no weather, or no air flow.
pub(crate) fn night_air(ground: &Ground<'_>) -> Answer<NightAir> {
    if ground.survey.set_up == SetUp::LaidUp {
        return Err(NotKnown::because("nobody sleeps in it while it is laid up"));
    }
    let case = ground
        .survey
        .weather
        .get(ground.calmest)
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    equipment::first_error(ground.findings, Item::Weather(case.id))?;
    let sleepers = ground.survey.vehicle.berths;
    if sleepers == 0 {
        return Err(NotKnown::because("the vehicle has no berths"));
    }
    let answer = ground.answers.get(ground.calmest);
    let answer = answer.ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let flow = outside_air_m3_s(ground.survey, answer.air.as_ref().map_err(Clone::clone)?);
    let ppm = carbon_dioxide_ppm(sleepers, flow)
        .ok_or_else(|| NotKnown::because("no air flows through the vehicle"))?;
    Ok(NightAir {
        id: case.id,
        sleepers,
        per_sleeper_m3_s: flow / f64::from(sleepers),
        carbon_dioxide_ppm: (ppm <= MOST_PPM).then_some(ppm),
    })
}
