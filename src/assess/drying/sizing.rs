//! What to look for when buying: removal needed, rated capacities, heaters.

use super::answer::{
    AchPoint, Capacity, HeaterFor, HeaterSize, NeedCurve, Offer, SizedFor, Sizing,
};
use super::ground::Ground;
use super::library::{self, rating_state};
use super::money::DAYS_PER_MONTH;
use super::situation::{Situation, state};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::physics::MoistAir;
use crate::physics::machine::{Machine, MakerPoint};
use crate::physics::moisture::{dry_air_flow, required_removal, ventilation_conductance};
use crate::physics::units::{LITRES_PER_DAY, SECONDS_PER_HOUR};
use crate::survey::MachineKind;
use std::cell::OnceCell;

/// What is added to a size worked out, share **\[A\]**.
pub(crate) const MARGIN: f64 = 0.25;
/// Humidities of the curve: from, to, step, %.
const CURVE_RH: (u32, u32, usize) = (40, 80, 2);
/// Air changes that the curve reaches at least, per hour.
const CURVE_ACH_LEAST: f64 = 6.0;
/// Points of the curve besides the first; quarters of an air change where it goes no further.
const CURVE_STEPS: u32 = 24;
/// A power so large that it limits no rotor: the size asked for is the removal.
const NO_LIMIT_W: f64 = 1e9;

/// All sizes, at the target humidity of the survey and the temperature it is held at.
pub(crate) fn sizing(
    ground: &Ground<'_>,
    envelope: &Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Sizing {
    Sizing {
        against_rh: against_rh(ground, situations),
        against_ach: against_ach(ground, envelope, situations),
        capacities: capacities(ground, envelope, situations),
        heaters: heaters(ground, envelope, situations),
    }
}

/// Water to remove against the humidity held, 40 to 80 %, one curve for each weather case: `W` of
/// the target varies, temperature and air flow do not.
fn against_rh(ground: &Ground<'_>, situations: &[Answer<Situation<'_>>]) -> Vec<NeedCurve> {
    let set = ground.inside_c();
    let curve = |situation: &Answer<Situation<'_>>| {
        let situation = situation.as_ref().map_err(Clone::clone)?;
        (CURVE_RH.0..=CURVE_RH.1)
            .step_by(CURVE_RH.2)
            .map(|percent| {
                let rh = f64::from(percent) / 100.0;
                Ok((rh, situation.load(set, rh, ground.sources.water())?))
            })
            .collect()
    };
    ground
        .survey
        .weather
        .iter()
        .zip(situations)
        .map(|(case, situation)| NeedCurve {
            id: case.id,
            points: curve(situation),
        })
        .collect()
}

/// The weather case at a place.
///
/// # Errors
/// [`NotKnown`] where there is none, or as it says itself.
fn at<'a, 'e>(situations: &'a [Answer<Situation<'e>>], index: usize) -> Answer<&'a Situation<'e>> {
    situations
        .get(index)
        .ok_or_else(|| NotKnown::because("there is no such weather case"))?
        .as_ref()
        .map_err(Clone::clone)
}

/// Water to remove against the air change, outside as in the windiest case.
///
/// ```text
/// m = ACH/3600 V ρ_i,   D = S + m_da (W_o − W_t)
/// ```
/// where V is the gross volume, m³, ρ_i the density of the inside air in the target state, kg/m³,
/// S the water given off inside, kg/s, m_da the dry air in m, and W_o and W_t the humidity ratios
/// outside and in the target state.
///
/// # Errors
/// [`NotKnown`] where the volume or the windiest case is not known.
fn against_ach(
    ground: &Ground<'_>,
    envelope: &Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Answer<Vec<AchPoint>> {
    let volume = ground.volume_m3.clone()?;
    let outside = at(situations, ground.windiest)?.outside;
    let set = ground.inside_c();
    let need = |ach_per_h: f64, inside_c: f64| {
        let target = state(inside_c, ground.target_rh, outside.pressure)?;
        let inflow = ach_per_h / SECONDS_PER_HOUR * volume * target.density();
        Answer::Ok(required_removal(
            ground.sources.water(),
            dry_air_flow(inflow, outside.humidity_ratio),
            outside.humidity_ratio,
            target.humidity_ratio,
        ))
    };
    let step = curve_end(ground, envelope, situations)? / f64::from(CURVE_STEPS);
    (0..=CURVE_STEPS)
        .map(|steps| {
            let ach_per_h = f64::from(steps) * step;
            Ok(AchPoint {
                ach_per_h,
                at_outside_temperature_kg_s: need(ach_per_h, outside.t_c)?,
                at_set_temperature_kg_s: need(ach_per_h, set)?,
            })
        })
        .collect()
}

/// Where the curve of air changes ends: beyond the vehicle's own in every weather case and in the
/// design weather, at the set temperature, on a multiple of six so that the steps are round.
fn curve_end(
    ground: &Ground<'_>,
    envelope: &Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Answer<f64> {
    let inside_c = ground.inside_c();
    let volume = ground.volume_m3.clone()?;
    let design = design(ground, envelope, situations);
    let all = situations.iter().chain([&design]).flatten();
    let mut most: f64 = 0.0;
    for situation in all {
        let outside = &situation.outside;
        for inside_c in [inside_c, outside.t_c] {
            let inside = state(inside_c, ground.target_rh, outside.pressure)?;
            let flow = situation.dry_air(inside_c)?;
            most = most.max(air_changes(flow, outside, &inside, volume));
        }
    }
    Ok((most * 1.05 / CURVE_ACH_LEAST).ceil().max(1.0) * CURVE_ACH_LEAST)
}

/// Air changes at inside-air density, per hour.
///
/// ```text
/// ACH = 3600 m_da (1 + W_o)/(ρ_i V)
/// ```
/// where m_da is the dry air that flows through, kg/s, W_o the humidity ratio outside, ρ_i the density
/// inside, kg/m³, and V the gross volume, m³.
fn air_changes(dry_air: f64, outside: &MoistAir, inside: &MoistAir, volume: f64) -> f64 {
    let inflow = dry_air * (1.0 + outside.humidity_ratio);
    inflow * SECONDS_PER_HOUR / (inside.density() * volume)
}

/// The design weather **\[A\]**: the windiest case's wind with the design outside temperature, at
/// that case's humidity.
///
/// # Errors
/// [`NotKnown`] where there is no such case or no such air.
fn design<'e>(
    ground: &Ground<'_>,
    envelope: &'e Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Answer<Situation<'e>> {
    let windy = at(situations, ground.windiest)?;
    let case = ground
        .survey
        .weather
        .get(ground.windiest)
        .ok_or_else(|| NotKnown::because("there is no such weather case"))?;
    let outside = state(
        ground.survey.targets.design_outside_c,
        case.outside_rh_percent / 100.0,
        windy.outside.pressure,
    )?;
    Ok(Situation::new(
        envelope,
        outside,
        ground.wind(envelope, case),
    ))
}

/// Rated capacities of three kinds of machine in every weather case and in the design weather: what
/// has to be removed, over what a machine of the kind removes of its rating there, with [`MARGIN`] on
/// top.
fn capacities(
    ground: &Ground<'_>,
    envelope: &Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Vec<Capacity> {
    let design = design(ground, envelope, situations);
    let cases = ground.survey.weather.iter().zip(situations);
    let cases = cases.map(|(case, situation)| (SizedFor::Case(case.id), situation));
    let sealed = OnceCell::new();
    let weathers: Vec<Weather<'_, '_>> = cases
        .chain([(SizedFor::Design, &design)])
        .map(|(sized_for, situation)| Weather {
            sized_for,
            situation,
            sealed: &sealed,
            least: OnceCell::new(),
        })
        .collect();
    let kinds = [
        MachineKind::Compressor,
        MachineKind::DesiccantRotor,
        MachineKind::Thermoelectric,
    ];
    let of_kind = |kind| {
        let weathers = weathers.iter();
        weathers.map(move |weather| capacity(ground, kind, weather))
    };
    kinds.into_iter().flat_map(of_kind).collect()
}

/// A weather that sizes are for.
struct Weather<'a, 'e> {
    sized_for: SizedFor,
    situation: &'a Answer<Situation<'e>>,
    /// The vehicle with every gap closed that may be, once it is asked for.
    sealed: &'a OnceCell<Option<Envelope>>,
    /// The dry air that still flows through it, kg/s, once it is asked for.
    least: OnceCell<Answer<f64>>,
}

impl Weather<'_, '_> {
    /// Dry air that flows through with every gap sealed that may be, kg/s.
    fn least(&self, ground: &Ground<'_>, situation: &Situation<'_>) -> Answer<f64> {
        let least = || {
            let sealed = self.sealed.get_or_init(|| ground.sealed_envelope());
            sealed.as_ref().map_or(Ok(0.0), |envelope| {
                situation.dry_air_through(envelope, ground.inside_c())
            })
        };
        self.least.get_or_init(least).clone()
    }
}

/// The rated capacity of one kind in one weather.
fn capacity(ground: &Ground<'_>, kind: MachineKind, weather: &Weather<'_, '_>) -> Capacity {
    let inside_c = ground.inside_c();
    let (rated_c, rated_rh) = rating_state(kind);
    let situation = weather.situation.as_ref().map_err(Clone::clone);
    let needed = situation
        .clone()
        .and_then(|situation| situation.load(inside_c, ground.target_rh, ground.sources.water()));
    let share = situation.clone().and_then(|situation| {
        let inside = state(inside_c, ground.target_rh, situation.outside.pressure)?;
        share_of_rating(kind, &inside)
    });
    let rated = needed.clone().and_then(|needed| {
        if needed <= 0.0 {
            return Ok(0.0);
        }
        Ok(needed / share.clone()? * (1.0 + MARGIN))
    });
    let offer = rated.clone().and_then(|rated| {
        let largest = library::largest_l_per_day(kind).map(|most| most / LITRES_PER_DAY);
        match largest {
            _ if rated <= 0.0 => Ok(Offer::NoneNeeded),
            Some(largest) if rated > largest => {
                let most = largest * share? / (1.0 + MARGIN);
                lessened(ground, (weather, situation?), largest, most)
            }
            _ => Ok(Offer::Offered),
        }
    });
    Capacity {
        kind,
        sized_for: weather.sized_for,
        inside_c,
        rated_c,
        rated_rh,
        needed_kg_s: needed,
        rated_kg_s: rated,
        offer,
    }
}

/// What the air would have to come down to for the largest size that makers offer.
///
/// ```text
/// m_most = (D_most − S)/(W_o − W_t),   ACH = 3600 m_most (1 + W_o)/(ρ_i V)
/// ```
/// where D_most is what the largest size removes there less its margin, kg/s, S the water given off
/// inside, kg/s, and W_o and W_t the humidity ratios outside and of the state to hold. Where S alone is
/// more than D_most, no sealing is enough.
///
/// # Errors
/// [`NotKnown`] where the air flow or the volume is not.
fn lessened(
    ground: &Ground<'_>,
    (weather, situation): (&Weather<'_, '_>, &Situation<'_>),
    largest_kg_s: f64,
    most: f64,
) -> Answer<Offer> {
    let volume = ground.volume_m3.clone()?;
    let outside = &situation.outside;
    let inside = state(ground.inside_c(), ground.target_rh, outside.pressure)?;
    let carried = outside.humidity_ratio - inside.humidity_ratio;
    let left = most - ground.sources.water();
    if left <= 0.0 || carried <= 0.0 {
        return Ok(Offer::LessWater {
            largest_kg_s,
            air_dries: carried < 0.0,
        });
    }
    let now = situation.dry_air(inside.t_c)?;
    Ok(Offer::LessAir {
        largest_kg_s,
        now_per_h: air_changes(now, outside, &inside, volume),
        at_most_per_h: air_changes(left / carried, outside, &inside, volume),
        least_per_h: air_changes(weather.least(ground, situation)?, outside, &inside, volume),
    })
}

/// What a machine of a kind rated at 1 kg/s removes from this air, kg/s: every kind's removal is
/// proportional to its rating **\[A\]**.
///
/// # Errors
/// [`NotKnown`] where a machine of the kind gathers nothing in such air.
fn share_of_rating(kind: MachineKind, inside: &MoistAir) -> Answer<f64> {
    let (t_c, rh) = rating_state(kind);
    let one = MakerPoint {
        t_c,
        rh,
        removal: 1.0,
        power: NO_LIMIT_W,
    };
    let share = Machine::new(kind.behaviour(), &[one], None)?.removal(inside);
    if share > 0.0 {
        Ok(share)
    } else {
        Err(NotKnown::because(format!(
            "a {} gathers nothing in such air",
            kind.name()
        )))
    }
}

/// Heaters for the frost guard, the set temperature and comfort.
///
/// ```text
/// P = (1 + r) (H_v + ΣUA) (T − T_design)
/// E = Σ w (H_v + ΣUA) max(0, T − T_o) · 24 h · 365.25/12
/// ```
/// where r is [`MARGIN`], H_v what the air takes for each kelvin in the design weather, W/K, ΣUA
/// what the fabric takes, and E the energy of a mean month over the weather cases by their weights
/// w. A case that is warmer than T takes nothing.
fn heaters(
    ground: &Ground<'_>,
    envelope: &Envelope,
    situations: &[Answer<Situation<'_>>],
) -> Vec<HeaterSize> {
    let targets = &ground.survey.targets;
    let design = design(ground, envelope, situations);
    [
        (HeaterFor::FrostGuard, targets.frost_guard_c),
        (HeaterFor::SetTemperature, targets.set_temperature_c),
        (HeaterFor::Comfort, targets.comfort_c),
    ]
    .into_iter()
    .map(|(heater_for, inside_c)| {
        let air_w = design
            .as_ref()
            .map_err(Clone::clone)
            .and_then(|design| air_heat(design, inside_c));
        let fabric_w = ground.fabric * (inside_c - targets.design_outside_c).max(0.0);
        let rating_w = air_w
            .clone()
            .map(|air_w| (air_w + fabric_w) * (1.0 + MARGIN));
        let kwh_per_month = ground
            .season(|index| {
                let situation = at(situations, index)?;
                let through = (inside_c - situation.outside.t_c).max(0.0) * ground.fabric;
                Ok(air_heat(situation, inside_c)? + through)
            })
            .map(|watts| watts * 24.0 * DAYS_PER_MONTH / 1000.0);
        HeaterSize {
            heater_for,
            inside_c,
            air_w,
            fabric_w,
            rating_w,
            kwh_per_month,
        }
    })
    .collect()
}

/// Heat that the air takes with the inside held at a temperature, W; none where it is warmer
/// outside.
///
/// # Errors
/// [`NotKnown`] where the air flow is not.
fn air_heat(situation: &Situation<'_>, inside_c: f64) -> Answer<f64> {
    let difference = inside_c - situation.outside.t_c;
    if difference <= 0.0 {
        return Ok(0.0);
    }
    let flow = situation.dry_air(inside_c)?;
    Ok(ventilation_conductance(flow, situation.outside.humidity_ratio) * difference)
}
