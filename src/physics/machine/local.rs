//! A machine in a room of a given temperature.

use super::salt::{solution_vapour_density, vapour_density};
use super::{Kind, Machine};
use crate::physics::air::{humidity_ratio, saturation_pressure, vapour_pressure};

/// How much colder than the room a compressor's coil is, K **\[A\]**.
pub(super) const COMPRESSOR_COIL: f64 = 15.0;
/// How much colder than the room a thermoelectric plate can be, K **\[A\]**; never below 0 °C.
const THERMOELECTRIC_PLATE: f64 = 12.0;
/// Coil temperatures between which frost takes its share, °C, and what is left at the lower.
const FROST: (f64, f64, f64) = (-10.0, 3.0, 0.3);

/// What drives a kind of machine at one room temperature.
#[derive(Clone, Copy, Debug)]
pub(super) enum Drive {
    /// `x = (W − least) share`.
    Cold { least: f64, share: f64 },
    /// `x = √W clamp((RH − 0.15)/0.35, 0, 1)`.
    Rotor { saturation: f64, pressure: f64 },
    /// `x = ρ_v − ρ_solution`.
    Salt {
        solution: f64,
        t_c: f64,
        pressure: f64,
    },
}

/// Share of its removal that a compressor keeps at a coil temperature, °C.
pub(super) fn frost(coil_c: f64) -> f64 {
    let (low, high, left) = FROST;
    left + (1.0 - left) * ((coil_c - low) / (high - low)).clamp(0.0, 1.0)
}

impl Drive {
    pub(super) fn new(kind: Kind, t_c: f64, pressure: f64) -> Self {
        let saturated = |t_c: f64| humidity_ratio(saturation_pressure(t_c), pressure);
        match kind {
            Kind::Compressor => {
                let coil = t_c - COMPRESSOR_COIL;
                Self::Cold {
                    least: saturated(coil),
                    share: frost(coil),
                }
            }
            Kind::Thermoelectric => Self::Cold {
                least: saturated((t_c - THERMOELECTRIC_PLATE).max(0.0)),
                share: 1.0,
            },
            Kind::DesiccantRotor => Self::Rotor {
                saturation: saturation_pressure(t_c),
                pressure,
            },
            Kind::SaltTub => Self::Salt {
                solution: solution_vapour_density(t_c),
                t_c,
                pressure,
            },
        }
    }

    /// The driving quantity at a humidity ratio: never negative, never falling with it.
    pub(super) fn of(&self, humidity_ratio: f64) -> f64 {
        match *self {
            Self::Cold { least, share } => ((humidity_ratio - least) * share).max(0.0),
            Self::Rotor {
                saturation,
                pressure,
            } => {
                let rh = vapour_pressure(humidity_ratio, pressure) / saturation;
                humidity_ratio.max(0.0).sqrt() * ((rh - 0.15) / 0.35).clamp(0.0, 1.0)
            }
            Self::Salt {
                solution,
                t_c,
                pressure,
            } => {
                (vapour_density(vapour_pressure(humidity_ratio, pressure), t_c) - solution).max(0.0)
            }
        }
    }
}

/// A machine in a room of a given temperature and pressure, running all the time.
#[derive(Clone, Copy, Debug)]
pub struct MachineAt<'a> {
    machine: &'a Machine,
    drive: Drive,
}

impl<'a> MachineAt<'a> {
    pub(super) fn new(machine: &'a Machine, t_c: f64, pressure: f64) -> Self {
        Self {
            machine,
            drive: Drive::new(machine.kind, t_c, pressure),
        }
    }

    /// Water it takes from air with this humidity ratio, kg/s. Never falls with the ratio, zero
    /// for dry air.
    #[must_use]
    pub fn removal(&self, humidity_ratio: f64) -> f64 {
        let drive = self.drive.of(humidity_ratio);
        if drive <= 0.0 {
            return 0.0;
        }
        let scale = &self.machine.scale;
        scale
            .removal(drive)
            .min(self.machine.most(scale.power(drive)))
    }

    /// Electric power it draws in air with this humidity ratio, W.
    #[must_use]
    pub fn power(&self, humidity_ratio: f64) -> f64 {
        self.machine.scale.power(self.drive.of(humidity_ratio))
    }
}
