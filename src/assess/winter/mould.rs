//! Mould on the surfaces of the fabric, in the open and in closed lockers.

use super::elements::can_mould;
use super::hours::Outdoors;
use crate::assess::drying::{Spot, listed};
use crate::assess::fabric::element_u;
use crate::physics::air::saturation_pressure;
use crate::physics::fabric::surface_temperature_c;
use crate::physics::mould::{MouldIndex, Sensitivity};
use crate::physics::winter::{Forcing, HourInside};
use crate::survey::{FabricId, FabricPart, Survey};

/// How fast the index falls: as on wood.
const DECLINE: f64 = 1.0;
/// Surface resistance behind cushions and in a closed locker, m²K/W **\[A\]**: twice that of an
/// open corner.
const LOCKER_RESISTANCE: f64 = 0.5;
/// Hours in which the water of a closed locker follows the room's **\[A\]**: boards and a few
/// chinks change its air a few times a day and its contents hold it back.
const LOCKER_H: f64 = 24.0;

/// Where mould may grow.
#[derive(Clone, Debug, PartialEq)]
pub struct MouldSpot {
    /// The element.
    pub element: FabricId,
    /// Its name.
    pub name: String,
    /// Which surface of it.
    pub spot: Spot,
    /// In a closed locker or behind cushions on it.
    pub in_locker: bool,
    /// Temperature factor, 0 to 1.
    pub temperature_factor: f64,
    /// Place of the element in the survey.
    at: usize,
}

/// What grows at a spot, for each class of material in [`Sensitivity::ALL`].
#[derive(Clone, Debug, PartialEq)]
pub struct MouldAt {
    /// Where.
    pub spot: MouldSpot,
    /// The index at the end.
    pub end: [f64; 4],
    /// The highest.
    pub highest: [f64; 4],
    /// Hour of the season in which it first reached 1, where it did.
    pub begins_at: [Option<usize>; 4],
}

impl MouldAt {
    /// The highest index on boards and furniture.
    #[must_use]
    pub fn highest_on_boards(&self) -> f64 {
        let [_, boards, _, _] = self.highest;
        boards
    }
}

/// Every spot: opaque surfaces with their bridges, and the coldest plain wall once more in a locker.
pub(super) fn spots(survey: &Survey) -> Vec<MouldSpot> {
    let listed = listed::listed(survey);
    let known = listed.iter().filter(|one| can_mould(one.spot));
    let mut spots: Vec<MouldSpot> = known
        .filter_map(|one| {
            let at = survey.fabric.iter().position(|own| own.id == one.element)?;
            Some(MouldSpot {
                element: one.element,
                name: one.name.clone(),
                spot: one.spot,
                in_locker: false,
                temperature_factor: one.factor,
                at,
            })
        })
        .collect();
    let walls = spots.iter().filter(|spot| {
        let part = survey.fabric.get(spot.at).map(|own| own.part);
        spot.spot == Spot::Plain && part == Some(FabricPart::Wall)
    });
    let coldest =
        walls.min_by(|one, other| one.temperature_factor.total_cmp(&other.temperature_factor));
    if let Some(coldest) = coldest.cloned()
        && let Some(own) = survey.fabric.get(coldest.at)
        && let Ok(u) = element_u(own)
    {
        spots.push(MouldSpot {
            in_locker: true,
            temperature_factor: listed::factor_behind(own, u, LOCKER_RESISTANCE),
            ..coldest
        });
    }
    spots
}

/// The index at every spot through a season.
///
/// ```text
/// T_s = T_sa + f (T_i − T_sa),   φ_s = p/p_ws(T_s)
/// locker  dp_l/dt = (p − p_l)/τ
/// ```
/// where T_sa is the sol-air temperature of the element, T_i and p are the hour's means inside, f is
/// the factor of the spot and τ 24 h **\[A\]**. Hours that are not known stand still.
pub(super) fn grown(
    spots: &[MouldSpot],
    outdoors: &[Outdoors],
    forcing: &[Forcing],
    inside: &[HourInside],
) -> Vec<MouldAt> {
    spots
        .iter()
        .map(|spot| {
            let mut classes = Sensitivity::ALL.map(|class| MouldIndex::new(class, DECLINE));
            let mut begins_at = [None; 4];
            let mut locker = inside.first().map_or(0.0, |hour| hour.vapour);
            let hours = outdoors.iter().zip(forcing).zip(inside).enumerate();
            for (at, ((outdoors, forcing), inside)) in hours {
                locker += (inside.vapour - locker) / LOCKER_H;
                let vapour = if spot.in_locker {
                    locker
                } else {
                    inside.vapour
                };
                let Some(seen_c) = forcing.seen_c.get(spot.at).filter(|_| !outdoors.not_known)
                else {
                    continue;
                };
                let t_c = surface_temperature_c(spot.temperature_factor, *seen_c, inside.t_c);
                let rh = vapour / saturation_pressure(t_c);
                for (class, begins) in classes.iter_mut().zip(&mut begins_at) {
                    class.hour(t_c, rh);
                    if class.index() >= 1.0 && begins.is_none() {
                        *begins = Some(at);
                    }
                }
            }
            MouldAt {
                spot: spot.clone(),
                end: classes.map(|class| class.index()),
                highest: classes.map(|class| class.highest()),
                begins_at,
            }
        })
        .collect()
}
