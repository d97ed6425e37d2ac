//! Inside temperature and humidity together: one steady balance of heat and of water.
//!
//! ```text
//! water  m_da (W_o − W_i) + S − D(T_i, W_i) − Σ C_s − C = 0
//! heat   (Σ U A + H_v)(T_i − T_o) = Q + gains + P + (D + Σ f_s C_s + C) h_fg − S_liquid h_fg
//! ```
//! where m_da is the dry air that flows through in kg/s, a function of T_i; H_v = m_da
//! (1006 + 1860 W_o) in W/K; S the water given off inside, S_liquid the part of it that
//! evaporates inside, D the water a machine removes, C_s what condenses on a cold surface
//! ([`ColdSurface::condensation`]) and f_s its temperature factor, C what the air cannot hold
//! besides, all kg/s; Q the heater, P the machine's electric power, gains people, flames and sun,
//! all W; h_fg 2.5 MJ/kg. Steady balances of mass and energy.
//!
//! Cold surfaces take water before the air as a whole is saturated; of its heat the share f_s
//! comes back to the room, the rest leaves through the surface **\[A\]**. The air never holds more
//! than saturation: the surplus condenses and leaves its heat inside. A hygrostat scales D and P by a duty of 0 to
//! 1 so that the RH inside stays at its setting; a thermostat gives what its set point needs, up
//! to the rating. Both are continuous in T_i, so the heat balance is one falling function of T_i
//! whose zero a bracket closes in on: it always ends.
//!
//! A machine with a lowest inside temperature runs only where the vehicle is at least that warm
//! without it: it cannot start in a colder one, however warm it would make it.

mod clear;
mod cold;
mod settle;
mod water;

use thiserror::Error;

pub use clear::{AirFlow, Clearing, air_without_machine, clearing};
pub use cold::{ColdSurface, SURFACE_MASS_TRANSFER};

use self::settle::Settler;
use super::air::{MoistAir, TEMPERATURE_SPAN_C};
use super::machine::Machine;
use super::root::NoRoot;

/// A heater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heater {
    /// Most heat it gives off, W.
    pub rating: f64,
    /// Thermostat, °C; `None` gives the rating all the time.
    pub set_point_c: Option<f64>,
    /// Water it gives off with each joule, kg/J: zero unless its flame burns inside.
    pub water_per_joule: f64,
}

/// All that the balance knows but the air flow.
#[derive(Clone, Copy, Debug)]
pub struct Inside<'a> {
    /// Outside air.
    pub outside: MoistAir,
    /// Heat through the fabric per kelvin, Σ U A, W/K.
    pub fabric: f64,
    /// Water given off as vapour, kg/s.
    pub vapour_source: f64,
    /// Water that evaporates inside and takes its heat from the air there, kg/s.
    pub liquid_source: f64,
    /// Heat of people (sensible part), flames (net heating value), sun, W.
    pub gains: f64,
    /// Heater.
    pub heater: Option<Heater>,
    /// Machine.
    pub machine: Option<&'a Machine>,
    /// Relative humidity at which the machine's hygrostat holds the inside air, 0 to 1; `None` lets it
    /// run all the time.
    pub hygrostat: Option<f64>,
    /// Surfaces on which water may condense.
    pub surfaces: &'a [ColdSurface],
}

/// Why there is no steady state.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum CoupledError<E> {
    /// The air flow is not known.
    #[error("{0}")]
    Flow(E),
    /// A number is negative or not finite.
    #[error("the balance of heat and water needs {0} to be a finite number and not negative")]
    Number(&'static str),
    /// The inside would be warmer than moist-air formulas reach.
    #[error(
        "so much heat would bring the inside above {highest} °C: a thermostat or a smaller heater is needed",
        highest = TEMPERATURE_SPAN_C.1
    )]
    TooWarm,
    /// The inside would be colder than moist-air formulas reach.
    #[error("the inside would be below {lowest} °C", lowest = TEMPERATURE_SPAN_C.0)]
    TooCold,
}

/// What the machine does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Running {
    /// There is none.
    NoMachine,
    /// It runs, all the time or on its hygrostat.
    Runs,
    /// The vehicle is too cold for it.
    TooCold,
}

/// The steady state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steady {
    /// Inside air.
    pub inside: MoistAir,
    /// Dry air that flows through, kg/s.
    pub dry_air_flow: f64,
    /// Water the machine removes, kg/s.
    pub removal: f64,
    /// Share of the time that the machine runs, 0 to 1.
    pub duty: f64,
    /// Electric power of the machine, mean, W.
    pub machine_power: f64,
    /// Heat of the heater, mean, W.
    pub heater_power: f64,
    /// Water that condenses because the air cannot hold it, besides what the surfaces take, kg/s.
    pub condensation: f64,
    /// Water that condenses on the surfaces, kg/s.
    pub on_surfaces: f64,
    /// The part of it whose heat comes back to the room, kg/s.
    pub given_back: f64,
    /// Water given off inside, kg/s: the sources' and the heater's.
    pub source: f64,
    /// Part of it that evaporates inside, kg/s.
    pub evaporated: f64,
    /// What the machine does.
    pub running: Running,
}

impl Steady {
    /// Relative humidity inside, 0 to 1.
    #[must_use]
    pub fn relative_humidity(&self) -> f64 {
        self.inside.relative_humidity()
    }

    /// Dew point inside, °C; `None` for dry air.
    #[must_use]
    pub fn dew_point_c(&self) -> Option<f64> {
        self.inside.dew_point_c()
    }

    /// The books of water, kg/s: what comes in less what goes out, zero but for rounding; and
    /// the sum of what comes in, to hold it against.
    #[must_use]
    #[cfg(test)]
    pub fn water_book(&self, inside: &Inside<'_>) -> (f64, f64) {
        let into = self.dry_air_flow * inside.outside.humidity_ratio + self.source;
        let out = self.dry_air_flow * self.inside.humidity_ratio
            + self.removal
            + self.on_surfaces
            + self.condensation;
        (into - out, into)
    }

    /// The books of heat, W: gains less losses, zero but for rounding; and the sum of the gains,
    /// to hold it against.
    #[must_use]
    #[cfg(test)]
    pub fn heat_book(&self, inside: &Inside<'_>) -> (f64, f64) {
        settle::heat_book(inside, self)
    }
}

/// Solves the balance. `dry_air_flow` gives the dry air that flows through in kg/s for an inside
/// temperature in °C.
///
/// # Errors
/// A number that cannot be, an air flow that is not known, or no steady state between −60 and
/// 60 °C.
///
/// ```
/// use std::convert::Infallible;
/// use gapledger::physics::MoistAir;
/// use gapledger::physics::coupled::{Heater, Inside, solve};
/// // 280 W into 70 W/K, fabric and air together, is +4 K, which alone takes outside air of 6 °C
/// // and 80 % to about 61 % (closed form: RH 0.80 p_ws(6 °C)/p_ws(10 °C)).
/// let outside = MoistAir::from_relative_humidity(6.0, 0.80, 101_325.0)?;
/// let air = 10.0 / 3600.0;
/// let inside = Inside {
///     outside,
///     fabric: 70.0 - air * (1006.0 + 1860.0 * outside.humidity_ratio),
///     vapour_source: 0.0,
///     liquid_source: 0.0,
///     gains: 0.0,
///     heater: Some(Heater { rating: 280.0, set_point_c: None, water_per_joule: 0.0 }),
///     machine: None,
///     hygrostat: None,
///     surfaces: &[],
/// };
/// let steady = solve(&inside, |_| Ok::<_, Infallible>(air))?;
/// assert!((steady.inside.t_c - 10.0).abs() < 1e-9);
/// assert!((steady.relative_humidity() - 0.61).abs() < 0.005);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve<E>(
    inside: &Inside<'_>,
    dry_air_flow: impl Fn(f64) -> Result<f64, E>,
) -> Result<Steady, CoupledError<E>> {
    check(inside)?;
    Settler::new(inside, dry_air_flow, water::Aim::Steady).solve()
}

/// Water that a machine running all the time, or without one the air alone, can take from damp
/// contents while the RH inside is held at `rh` (0 to 1).
///
/// The same balance with W_i = W at that RH and the evaporation from the contents as the unknown:
///
/// ```text
/// E = D(T_i, W) + m_da (W − W_o) + Σ C_s − S,   E takes E h_fg from the air there
/// ```
/// `source` and `evaporated` of the answer hold S + E. E is negative where the machine cannot
/// even hold the RH with the contents dry.
///
/// # Errors
/// As [`solve`].
pub fn dry_out<E>(
    inside: &Inside<'_>,
    rh: f64,
    dry_air_flow: impl Fn(f64) -> Result<f64, E>,
) -> Result<DryOut, CoupledError<E>> {
    check(inside)?;
    if !(rh > 0.0 && rh <= 1.0) {
        return Err(CoupledError::Number("the relative humidity to hold"));
    }
    let steady = Settler::new(inside, dry_air_flow, water::Aim::Held(rh)).solve()?;
    let own = inside.vapour_source
        + inside.liquid_source
        + steady.heater_power * inside.heater.map_or(0.0, |heater| heater.water_per_joule);
    Ok(DryOut {
        from_contents: steady.source - own,
        steady,
    })
}

/// What drying out comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DryOut {
    /// Water taken from the contents, kg/s; negative where there is nothing to spare.
    pub from_contents: f64,
    /// The state meanwhile.
    pub steady: Steady,
}

fn check<E>(inside: &Inside<'_>) -> Result<(), CoupledError<E>> {
    let heater = inside.heater.unwrap_or(Heater {
        rating: 0.0,
        set_point_c: None,
        water_per_joule: 0.0,
    });
    let in_span = |t_c: f64| (TEMPERATURE_SPAN_C.0..=TEMPERATURE_SPAN_C.1).contains(&t_c);
    let not_negative = [
        (inside.fabric, "the fabric's loss"),
        (inside.vapour_source, "the vapour given off"),
        (inside.liquid_source, "the water that evaporates"),
        (inside.gains, "the heat of people and sun"),
        (heater.rating, "the heater's rating"),
        (heater.water_per_joule, "the heater's water"),
        (inside.hygrostat.unwrap_or(0.0), "the hygrostat's setting"),
    ];
    let surface = |surface: &ColdSurface| {
        surface.area.is_finite()
            && surface.area >= 0.0
            && (0.0..=1.0).contains(&surface.temperature_factor)
            && in_span(surface.outside_seen_c)
    };
    if !inside.surfaces.iter().all(surface) {
        return Err(CoupledError::Number("every cold surface"));
    }
    for (value, what) in not_negative {
        if !(value.is_finite() && value >= 0.0) {
            return Err(CoupledError::Number(what));
        }
    }
    if !in_span(inside.outside.t_c) {
        return Err(CoupledError::Number("the outside temperature"));
    }
    match heater.set_point_c {
        Some(set_point) if !in_span(set_point) => {
            Err(CoupledError::Number("the thermostat's set point"))
        }
        _ => Ok(()),
    }
}

impl<E> From<NoRoot<CoupledError<E>>> for CoupledError<E> {
    fn from(none: NoRoot<Self>) -> Self {
        match none {
            NoRoot::AboveSpan => Self::TooWarm,
            NoRoot::BelowSpan => Self::TooCold,
            NoRoot::Function(error) => error,
        }
    }
}

#[cfg(test)]
mod tests;
