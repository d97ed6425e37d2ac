//! What clears a cold surface: water removed, or warmth. Both are balances solved anew with the
//! inside at the surface's limit; neither is read off with the vapour as it is.

use super::cold::ColdSurface;
use super::settle::Settler;
use super::water::{Aim, AtTemperature};
use super::{CoupledError, Heater, Inside, Running, Steady};
use crate::physics::air::{AirError, MoistAir, humidity_ratio, saturation_pressure};
use crate::physics::root::{Guess, NoRoot, Probe, falling_root};

/// A rating that limits no heater, W.
const NO_LIMIT: f64 = 1e7;
/// Share of the limit to which the humidity at a surface counts as being at it.
const AT_LIMIT: f64 = 1e-10;
/// Temperatures nearer than this are the same, K.
const FINEST_KELVIN: f64 = 1e-10;
/// How fast the humidity at a surface falls with its temperature, the vapour the same: share for
/// each kelvin. A guess to begin with.
const USUAL_FALL: f64 = 0.068;

/// Rounds of looking with an air flow that is nearly known before every look works it out.
const ROUNDS: u32 = 6;
/// An air flow read off between two known ones is good enough where these are no further apart than
/// this share of the kelvin between inside and outside: a flow that goes with their root is then
/// known to 3e-4, and the humidity to a hundredth of a point.
const NEAR_SHARE: f64 = 0.1;
/// So is what it finds, where the flow worked out there leaves the surface so near its limit.
const NEARLY_AT_LIMIT: f64 = 5e-5;

/// The dry air that flows through by the inside temperature, °C: worked out, which takes long, and
/// as it reads off from what was worked out before.
pub struct AirFlow<Exact, Near> {
    /// The flow at a temperature, kg/s.
    pub exact: Exact,
    /// The flow between two known ones, kg/s, and how far apart these are, K; `None` where the
    /// temperature does not lie between two.
    pub near: Near,
}

/// What clears a surface, each by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearing {
    /// Water to remove in all with the temperature kept, kg/s.
    pub removal: f64,
    /// Set point at which it is clear with a heater that reaches it, °C; `None` where the warmest
    /// in reach does not clear it. A machine that the warmth lets start may make it warmer still.
    pub warm_c: Option<f64>,
}

/// What clears a surface whose humidity is above `limit` (0 to 1) in a steady state.
///
/// ```text
/// D = max(0, S + m_da (W_o − W_lim) − Σ C_s),   W_lim the water at p_v = φ_lim p_ws(T_s)
/// T: p_v(T) = φ_lim p_ws(T_o' + f_Rsi (T − T_o'))
/// ```
/// where D is the removal with T_i, m_da and S as they are and no heat of a machine, Σ C_s what
/// still condenses on colder surfaces at that water, and p_v(T) the vapour pressure of the steady
/// state with the heater raised until the inside is at T, with the air flow and the sources that
/// belong to it and the machine that is there. T is the first found between the state's own and
/// `warmest_c`.
///
/// # Errors
/// As [`super::solve`].
pub fn clearing<E>(
    inside: &Inside<'_>,
    steady: &Steady,
    (surface, limit): (&ColdSurface, f64),
    warmest_c: f64,
    flow: &AirFlow<impl Fn(f64) -> Result<f64, E>, impl Fn(f64) -> Option<(f64, f64)>>,
) -> Result<Clearing, CoupledError<E>> {
    super::check(inside)?;
    if !(limit > 0.0 && limit <= 1.0) {
        return Err(CoupledError::Number("the surface's limit"));
    }
    let search = Search {
        inside,
        steady,
        surface,
        limit,
        warmest_c,
    };
    Ok(Clearing {
        removal: search.removal(),
        warm_c: search.warmth(flow)?,
    })
}

/// What is looked for: a surface at its limit.
struct Search<'a> {
    inside: &'a Inside<'a>,
    steady: &'a Steady,
    surface: &'a ColdSurface,
    limit: f64,
    warmest_c: f64,
}

impl Search<'_> {
    /// Vapour pressure that brings the surface to its limit, Pa.
    fn most(&self, inside_c: f64) -> f64 {
        self.limit * saturation_pressure(self.surface.temperature_c(inside_c))
    }

    fn removal(&self) -> f64 {
        let (inside, steady) = (self.inside, self.steady);
        let t_c = steady.inside.t_c;
        let ratio = humidity_ratio(self.most(t_c), inside.outside.pressure);
        AtTemperature::new(inside, None, t_c, steady.dry_air_flow, steady.source)
            .surplus(ratio)
            .max(0.0)
    }

    fn warmth<E>(
        &self,
        flow: &AirFlow<impl Fn(f64) -> Result<f64, E>, impl Fn(f64) -> Option<(f64, f64)>>,
    ) -> Result<Option<f64>, CoupledError<E>> {
        if self.steady.inside.t_c >= self.warmest_c {
            return Ok(None);
        }
        // Both ends are known then, and every temperature lies between two.
        for end_c in [self.steady.inside.t_c, self.warmest_c] {
            (flow.exact)(end_c).map_err(CoupledError::Flow)?;
        }
        let nearly = |t_c: f64| match (flow.near)(t_c) {
            Some((read_off, _)) => Ok(read_off),
            None => (flow.exact)(t_c),
        };
        for _ in 0..ROUNDS {
            let Some(t_c) = self.crossing(&nearly)? else {
                return Ok(None);
            };
            let most = NEAR_SHARE * (t_c - self.inside.outside.t_c).abs();
            let near = (flow.near)(t_c).is_some_and(|(_, apart)| apart <= most);
            if near || self.over(t_c, &flow.exact)?.abs() <= NEARLY_AT_LIMIT {
                return Ok(Some(t_c));
            }
        }
        self.crossing(&flow.exact)
    }

    /// How far the surface is above its limit with the heater raised to a temperature, as the
    /// logarithm: nearly a straight line.
    fn over<E>(
        &self,
        t_c: f64,
        flow: &impl Fn(f64) -> Result<f64, E>,
    ) -> Result<f64, CoupledError<E>> {
        let air = if t_c.total_cmp(&self.steady.inside.t_c).is_eq() {
            self.steady.inside
        } else {
            warmed(self.inside, self.steady.running, t_c, flow)?
        };
        let share = air.vapour_pressure() / self.most(air.t_c);
        Ok(share.max(f64::MIN_POSITIVE).ln())
    }

    /// The first temperature found at which the surface is at its limit, or below it at once.
    fn crossing<E>(
        &self,
        flow: &impl Fn(f64) -> Result<f64, E>,
    ) -> Result<Option<f64>, CoupledError<E>> {
        let own_c = self.steady.inside.t_c;
        let guess = Guess {
            start: own_c,
            slope: USUAL_FALL * self.surface.temperature_factor,
            finest: FINEST_KELVIN,
        };
        let found = falling_root(
            |t_c| {
                let value = self.over(t_c, flow)?;
                Ok(Probe {
                    value,
                    close: value.abs() <= AT_LIMIT,
                })
            },
            (own_c, self.warmest_c),
            guess,
        );
        match found {
            Ok(crossing) => Ok(Some(crossing.below)),
            Err(NoRoot::AboveSpan) => Ok(None),
            // It is clear as it is.
            Err(NoRoot::BelowSpan) => Ok(Some(own_c)),
            Err(NoRoot::Function(error)) => Err(error),
        }
    }
}

/// The inside air with a heater that reaches a set point, °C. Dry heat changes the water by the
/// temperature alone. A flame inside adds to it, so its output counts; and a machine that was too
/// cold before brings heat of its own once it starts.
fn warmed<E>(
    inside: &Inside<'_>,
    before: Running,
    t_c: f64,
    dry_air_flow: &impl Fn(f64) -> Result<f64, E>,
) -> Result<MoistAir, CoupledError<E>> {
    let water_per_joule = inside.heater.map_or(0.0, |heater| heater.water_per_joule);
    let machine = inside
        .machine
        .filter(|machine| machine.lowest_room_c() <= t_c);
    if water_per_joule > 0.0 || machine.is_some() && before == Running::TooCold {
        let raised = Inside {
            heater: Some(Heater {
                rating: NO_LIMIT,
                set_point_c: Some(t_c),
                water_per_joule,
            }),
            ..*inside
        };
        let steady = Settler::new(&raised, dry_air_flow, Aim::Steady).solve()?;
        return Ok(steady.inside);
    }
    let flow = dry_air_flow(t_c).map_err(CoupledError::Flow)?;
    if !(flow.is_finite() && flow >= 0.0) {
        return Err(CoupledError::Number("the air flow"));
    }
    let machine = machine.map(|machine| machine.at(t_c, inside.outside.pressure));
    let source = inside.vapour_source + inside.liquid_source;
    let water = AtTemperature::new(inside, machine, t_c, flow, source).water(Aim::Steady);
    MoistAir::new(t_c, water.humidity_ratio, inside.outside.pressure)
        .map_err(|_| CoupledError::Number("the inside air's state"))
}

/// The inside air with its temperature held and neither machine nor heater, `flow` the dry air
/// that flows through, kg/s: what the sources and the surfaces leave in it.
///
/// # Errors
/// A temperature that cannot be.
pub fn air_without_machine(inside: &Inside<'_>, t_c: f64, flow: f64) -> Result<MoistAir, AirError> {
    let source = inside.vapour_source + inside.liquid_source;
    let water = AtTemperature::new(inside, None, t_c, flow, source).without_machine();
    MoistAir::new(t_c, water.humidity_ratio, inside.outside.pressure)
}
