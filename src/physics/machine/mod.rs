//! Drying machines: the water they take from air of any state, and the power they draw.
//!
//! Four kinds with a generic behaviour each **\[A\]**. All of them follow one driving quantity x
//! of the room's air, zero where the machine finds nothing to take:
//!
//! ```text
//! compressor      x = (W − W_sat(T − 15 K)) frost,   frost = 1 at a coil of 3 °C and above,
//!                                                    falling linearly to 0.3 at −10 °C
//! thermoelectric  x = W − W_sat(max(T − 12 K, 0 °C))
//! rotor           x = √W · clamp((RH − 0.15)/0.35, 0, 1)
//! salt tub        x = ρ_v − ρ_v,solution
//! ```
//! A maker's figure fixes the scale, `D = D_rated x/x_rated`. Two or more figures give a line of
//! straight pieces from the origin through (x, D), beyond the last in proportion to x; the power
//! is interpolated in x the same way and held outside. So the removal at the maker's own states is
//! the maker's, it never falls as the air gets wetter, and it is zero where the generic machine
//! gathers nothing. Where two figures that neither state dominates lie the wrong way round in x,
//! both are replaced by their mean; where the warmer and wetter of two gathers clearly less, the
//! figures contradict each other and there is no machine.

mod local;
pub mod salt;
mod scale;

use thiserror::Error;

pub use local::MachineAt;
use scale::Scale;

use super::air::{AirError, MoistAir, STANDARD_PRESSURE};
use super::moisture::HEAT_OF_VAPORISATION;

/// Lowest room temperature of a compressor whose maker gives none, °C **\[A\]**.
pub const COMPRESSOR_LOWEST_ROOM_C: f64 = 5.0;
/// A rotor never gathers more than this many times its best figure **\[A\]**.
pub const ROTOR_MOST: f64 = 1.2;
/// How much less the wetter and warmer of two states may gather before the figures contradict
/// each other: makers round **\[A\]**.
const ROUNDING: f64 = 0.95;

/// How a machine takes water from the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Compressor and cold coil.
    Compressor,
    /// Desiccant rotor whose water is condensed into a tank.
    DesiccantRotor,
    /// Thermoelectric cold plate.
    Thermoelectric,
    /// Tub of calcium chloride.
    SaltTub,
}

/// One figure of the maker's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MakerPoint {
    /// Room temperature, °C.
    pub t_c: f64,
    /// Room relative humidity, 0 to 1.
    pub rh: f64,
    /// Water removed, kg/s.
    pub removal: f64,
    /// Electric power, W.
    pub power: f64,
}

/// Why there is no machine.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum MachineError {
    /// No figure at all.
    #[error("no removal is given together with the temperature and humidity it was stated at")]
    NoPoint,
    /// A number is negative or not finite, or the tub has no surface.
    #[error("its removal, its power and its surface must be positive numbers")]
    NotPositive,
    /// A state cannot be.
    #[error(transparent)]
    State(#[from] AirError),
    /// A figure at a state where this kind of machine gathers nothing.
    #[error(
        "at {t_c} °C and {rh_percent} % a machine of this kind gathers nothing, yet a removal is given there"
    )]
    NothingThere {
        /// Room temperature, °C.
        t_c: f64,
        /// Room relative humidity, %.
        rh_percent: f64,
    },
    /// The warmer and wetter of two states gathers less.
    #[error(
        "the figures contradict each other: at {wetter_c} °C and {wetter_percent} % it is said to gather less than at {drier_c} °C and {drier_percent} %"
    )]
    Contradiction {
        /// Temperature of the warmer and wetter state, °C.
        wetter_c: f64,
        /// Its relative humidity, %.
        wetter_percent: f64,
        /// Temperature of the other, °C.
        drier_c: f64,
        /// Its relative humidity, %.
        drier_percent: f64,
    },
}

/// A drying machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    kind: Kind,
    scale: Scale,
    lowest_room_c: f64,
}

impl Machine {
    /// A machine with its maker's figures: one, or more to interpolate between.
    ///
    /// `lowest_room_c` is the lowest room temperature the maker allows; a compressor without one
    /// stops below 5 °C **\[A\]**, the other kinds have none.
    ///
    /// # Errors
    /// No figure, a figure that cannot be, or figures that contradict each other.
    ///
    /// ```
    /// use gapledger::physics::MoistAir;
    /// use gapledger::physics::machine::{Kind, Machine, MakerPoint};
    /// let rated = MakerPoint { t_c: 30.0, rh: 0.8, removal: 20.0 / 86_400.0, power: 280.0 };
    /// let machine = Machine::new(Kind::Compressor, &[rated], None)?;
    /// let there = MoistAir::from_relative_humidity(30.0, 0.8, 101_325.0)?;
    /// assert!((machine.removal(&there) * 86_400.0 - 20.0).abs() < 1e-9);
    /// // At 8 °C and 60 % its coil of −7 °C finds a tenth of that.
    /// let cold = MoistAir::from_relative_humidity(8.0, 0.6, 101_325.0)?;
    /// assert!(machine.removal(&cold) < 0.1 * machine.removal(&there));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new(
        kind: Kind,
        points: &[MakerPoint],
        lowest_room_c: Option<f64>,
    ) -> Result<Self, MachineError> {
        let mut scaled = Vec::with_capacity(points.len());
        for point in points {
            let sound = |value: f64| value.is_finite() && value >= 0.0;
            if !(sound(point.removal) && sound(point.power)) {
                return Err(MachineError::NotPositive);
            }
            let air = MoistAir::from_relative_humidity(point.t_c, point.rh, STANDARD_PRESSURE)?;
            let drive = local::Drive::new(kind, air.t_c, air.pressure).of(air.humidity_ratio);
            if drive <= 0.0 && point.removal > 0.0 {
                return Err(MachineError::NothingThere {
                    t_c: point.t_c,
                    rh_percent: point.rh * 100.0,
                });
            }
            if drive > 0.0 {
                scaled.push((drive, point.removal, point.power));
            }
        }
        no_contradiction(points)?;
        let most = points.iter().map(|point| point.removal).fold(0.0, f64::max);
        if most <= 0.0 {
            return Err(MachineError::NoPoint);
        }
        let usual = match kind {
            Kind::Compressor => COMPRESSOR_LOWEST_ROOM_C,
            _ => f64::NEG_INFINITY,
        };
        Ok(Self {
            kind,
            scale: Scale::through(scaled),
            lowest_room_c: lowest_room_c.unwrap_or(usual),
        })
    }

    /// A tub of calcium chloride with this free surface, m², while salt remains in it.
    ///
    /// ```text
    /// D = h_m A (ρ_v,room − ρ_v,solution)
    /// ```
    /// where h_m is [`salt::TUB_MASS_TRANSFER`] and the solution is saturated. It draws no power.
    ///
    /// # Errors
    /// A surface that is not a positive number.
    pub fn salt_tub(surface: f64) -> Result<Self, MachineError> {
        if !(surface.is_finite() && surface > 0.0) {
            return Err(MachineError::NotPositive);
        }
        Ok(Self {
            kind: Kind::SaltTub,
            scale: Scale::through(vec![(1.0, salt::TUB_MASS_TRANSFER * surface, 0.0)]),
            lowest_room_c: f64::NEG_INFINITY,
        })
    }

    /// How it works.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Lowest room temperature at which it runs, °C; minus infinity where there is none.
    #[must_use]
    pub fn lowest_room_c(&self) -> f64 {
        self.lowest_room_c
    }

    /// The machine in a room at this temperature, °C, and total pressure, Pa, whether or not it
    /// is too cold there for it to run.
    #[must_use]
    pub fn at(&self, t_c: f64, pressure: f64) -> MachineAt<'_> {
        MachineAt::new(self, t_c, pressure)
    }

    /// Water it takes from air of this state when it runs all the time, kg/s; none where it is
    /// too cold for it.
    #[must_use]
    pub fn removal(&self, air: &MoistAir) -> f64 {
        if air.t_c < self.lowest_room_c {
            return 0.0;
        }
        self.at(air.t_c, air.pressure).removal(air.humidity_ratio)
    }

    /// Electric power it draws in air of this state when it runs all the time, W.
    #[must_use]
    pub fn power(&self, air: &MoistAir) -> f64 {
        if air.t_c < self.lowest_room_c {
            return 0.0;
        }
        self.at(air.t_c, air.pressure).power(air.humidity_ratio)
    }

    /// Share of its removal that ice leaves to a compressor in a room at this temperature, °C; `None`
    /// for the other kinds, whose coil does not ice.
    ///
    /// ```
    /// use gapledger::physics::machine::{Kind, Machine, MakerPoint};
    /// let rated = MakerPoint { t_c: 30.0, rh: 0.8, removal: 1e-4, power: 280.0 };
    /// let machine = Machine::new(Kind::Compressor, &[rated], None)?;
    /// // The coil is 15 K colder: 1 from 18 °C up, 0.3 at 5 °C and below, half way 0.65 [A].
    /// assert_eq!(machine.ice_leaves(18.0), Some(1.0));
    /// assert_eq!(machine.ice_leaves(5.0), Some(0.3));
    /// assert!((machine.ice_leaves(11.5).unwrap() - 0.65).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn ice_leaves(&self, room_c: f64) -> Option<f64> {
        match self.kind {
            Kind::Compressor => Some(local::frost(room_c - local::COMPRESSOR_COIL)),
            Kind::DesiccantRotor | Kind::Thermoelectric | Kind::SaltTub => None,
        }
    }

    /// What it may gather at most, kg/s, when it draws this power.
    ///
    /// A rotor has to heat its wheel: never above 1.44 kg per kWh (2.5 MJ/kg), and at most 1.2
    /// times its best figure **\[A\]**. The other kinds have no such limit.
    fn most(&self, power: f64) -> f64 {
        match self.kind {
            Kind::DesiccantRotor => {
                (ROTOR_MOST * self.scale.best_removal()).min(power / HEAT_OF_VAPORISATION)
            }
            _ => f64::INFINITY,
        }
    }
}

/// A state that is no colder and no drier than another must not gather clearly less.
fn no_contradiction(points: &[MakerPoint]) -> Result<(), MachineError> {
    for drier in points {
        for wetter in points {
            let dominates = wetter.t_c >= drier.t_c && wetter.rh >= drier.rh;
            if dominates && wetter.removal < ROUNDING * drier.removal {
                return Err(MachineError::Contradiction {
                    wetter_c: wetter.t_c,
                    wetter_percent: wetter.rh * 100.0,
                    drier_c: drier.t_c,
                    drier_percent: drier.rh * 100.0,
                });
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
