//! A winter hour by hour: inside temperature and water, integrated through the weather.
//!
//! ```text
//! heat   C dT/dt = (Σ U A + H_v)(T_o − T) + Q_env + Q + P + (D + Σ f_s C_s + X) h_fg
//!                  − S_liquid h_fg + h_fg B dφ/dt
//! water  V/(R_v T) dp/dt + B dφ/dt = m_da (W_o − W) + S − D − Σ C_s − X
//! films  dm_s/dt = C_s
//! ```
//! where T and p are the temperature and the vapour pressure inside, φ = p/p_ws(T), C the heat
//! capacity of air and contents as one node, J/K, B the water that the materials store for each
//! unit of φ, kg, V the volume, m³; H_v = m_da (1006 + 1860 W_o), m_da the dry air that flows
//! through, kg/s, a function of T; Q_env what sun and sky give through the shell, Q heater and
//! people, P the machine, W; D what a machine removes, C_s what condenses on a surface or, while
//! there is water on it, evaporates from it, X what the air cannot hold, S what is given off, kg/s;
//! f_s the temperature factor of a surface. Water that the materials take up leaves its heat in
//! them (the last term of the heat).
//!
//! The weather stays as it is within its hour. The method is a two-stage, L-stable, singly diagonal
//! implicit Runge-Kutta one of second order (γ = 1 − √½; Alexander, SIAM J. Numer. Anal. 14, 1977
//! **\[M\]**) with steps of equal length, cut where the inside meets the heater's set point or passes the
//! lowest temperature of a machine: thermostat, hygrostat and saturation are met within a step, and the
//! books of heat and of water close but for rounding.

mod air_table;
mod march;
mod moment;
mod outcome;
mod solve;
mod tub;

pub use air_table::{AirTable, HourInWork};
pub use march::{Marched, Progress, march, march_from};
pub use outcome::{Books, HourInside, Inside};
pub use tub::Tub;

use super::air::MoistAir;
use super::machine::Machine;

/// Days of the first weather that come before the season, to forget the start.
pub const SPIN_UP_DAYS: usize = 14;
/// Water that a surface holds; what is more runs off, kg/m² **\[A\]**.
pub const FILM_MOST: f64 = 0.1;
/// Steps in an hour, unless more are asked for.
pub const STEPS_PER_HOUR: u32 = 6;

/// A surface on which water may condense.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Its area, m².
    pub area: f64,
    /// Temperature factor f_Rsi, 0 to 1.
    pub temperature_factor: f64,
}

/// The vehicle, all year the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Heat capacity of air and contents, J/K.
    pub heat_capacity: f64,
    /// Heat through the fabric per kelvin, Σ U A with its thermal bridges, W/K.
    pub fabric: f64,
    /// Gross volume, m³.
    pub volume: f64,
    /// Water that the materials store for each unit of relative humidity, kg:
    /// `0.1 Σ MBV A` with MBV in g/(m² %RH).
    pub buffer: f64,
    /// Where water may condense.
    pub surfaces: Vec<Surface>,
}

/// What an hour does to the vehicle, whatever is done in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Forcing {
    /// Outside air.
    pub outside: MoistAir,
    /// What sun and sky give through the shell, W; negative on a clear night.
    pub envelope_gain: f64,
    /// Outside temperature that each surface sees, °C: the sol-air temperature of its element.
    pub seen_c: Vec<f64>,
    /// Water given off as vapour, kg/s.
    pub vapour_source: f64,
    /// Water that evaporates inside, kg/s.
    pub liquid_source: f64,
    /// Heat of people and flames, W.
    pub gains: f64,
    /// Somebody is there.
    pub present: bool,
}

/// A heater by the hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heating {
    /// Most heat it gives off, W.
    pub rating: f64,
    /// Its thermostat while nobody is there, °C; `None` gives the rating all the time.
    pub set_c: Option<f64>,
    /// The same while somebody is.
    pub set_present_c: Option<f64>,
    /// It stands still while nobody is there.
    pub only_present: bool,
    /// Water it gives off with each joule, kg/J.
    pub water_per_joule: f64,
}

/// What is done against damp and cold.
#[derive(Clone, Copy, Debug, Default)]
pub struct Strategy<'a> {
    /// A drying machine.
    pub machine: Option<&'a Machine>,
    /// The relative humidity at which its hygrostat holds the air, 0 to 1.
    pub hygrostat: Option<f64>,
    /// A tub of salt.
    pub tub: Option<Tub>,
    /// A heater.
    pub heating: Option<Heating>,
}

#[cfg(test)]
mod tests;
