//! How long it takes to warm up, and the power that does it within an hour.

use super::answer::WarmUp;
use super::ground::Ground;
use super::situation::Situation;
use super::{equipment, library};
use crate::assess::answer::Answer;
use crate::physics::moisture::ventilation_conductance;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::physics::warm_up::{USUAL_HEAT_CAPACITY_PER_M3, power, time};
use crate::survey::{Heater, Item};

/// Warming up to comfort in the calmest and the windiest case.
///
/// ```text
/// t = (C/H) ln(P/(P − H ΔT)),   P_1h = H ΔT/(1 − exp(−H·3600/C))
/// ```
/// where C is the heat capacity of the inside, J/K (30 kJ/K for each m³ where none is recorded
/// **\[A\]**), H what fabric and air take, W/K, with the air flow at the comfort temperature, P a
/// heater's rating, W, and ΔT from outside to comfort, K. One node: [`crate::physics::warm_up`].
/// Heaters that are not recorded are replaced by the generic one.
pub(crate) fn warm_up(ground: &Ground<'_>, situations: &[Answer<Situation<'_>>]) -> Vec<WarmUp> {
    let mut at = vec![ground.calmest];
    if ground.windiest != ground.calmest {
        at.push(ground.windiest);
    }
    let one = |index: usize| {
        let case = ground.survey.weather.get(index)?;
        let situation = situations.get(index)?;
        Some(warm_up_in(ground, case.id, case.outside_c, situation))
    };
    at.into_iter().filter_map(one).collect()
}

/// The same in one weather case. What is not known says so at its own figure: a missing rating
/// leaves the other heaters.
fn warm_up_in(
    ground: &Ground<'_>,
    id: crate::survey::WeatherId,
    from_c: f64,
    situation: &Answer<Situation<'_>>,
) -> WarmUp {
    let to_c = ground.survey.targets.comfort_c;
    let rise = to_c - from_c;
    let heat_capacity = match ground.survey.drying.heat_capacity_kj_per_k {
        Some(capacity) => Ok((capacity * 1000.0, false)),
        None => ground
            .volume_m3
            .clone()
            .map(|volume| (volume * USUAL_HEAT_CAPACITY_PER_M3, true)),
    };
    let conductance = situation
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|situation| {
            let flow = situation.dry_air(to_c)?;
            let air = ventilation_conductance(flow, situation.outside.humidity_ratio);
            Ok(ground.fabric + air)
        });
    let both = heat_capacity.clone().and_then(|(capacity, _)| {
        conductance
            .clone()
            .map(|conductance| (capacity, conductance))
    });
    let heaters = if ground.survey.heaters.is_empty() {
        vec![library::heater(to_c)]
    } else {
        ground.survey.heaters.clone()
    };
    let takes = |heater: &Heater| {
        equipment::first_error(ground.findings, Item::Heater(heater.id))?;
        let rating = equipment::heater(heater)?.rating;
        let (capacity, conductance) = both.clone()?;
        Ok(time(capacity, conductance, rating, rise))
    };
    WarmUp {
        id,
        from_c,
        to_c,
        power_for_an_hour_w: both
            .clone()
            .map(|(capacity, conductance)| power(capacity, conductance, SECONDS_PER_HOUR, rise)),
        heaters: heaters
            .iter()
            .map(|heater| (heater.name.clone(), takes(heater)))
            .collect(),
        heat_capacity,
        conductance_w_per_k: conductance,
    }
}
