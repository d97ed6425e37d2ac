//! The balance of water at one inside temperature.

use std::convert::Infallible;

use super::Inside;
use super::cold::{Cold, OnSurfaces};
use crate::physics::air::{humidity_ratio, saturation_pressure, vapour_pressure};
use crate::physics::machine::MachineAt;
use crate::physics::root::{Guess, Probe, falling_root};

/// Share of the throughput at which the balance of water counts as closed.
const CLOSED: f64 = 1e-14;

/// What is asked of the balance.
#[derive(Clone, Copy, Debug)]
pub(super) enum Aim {
    /// The steady state.
    Steady,
    /// The water that evaporates from damp contents while the RH is held here, 0 to 1.
    Held(f64),
}

/// The water at one temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct Water {
    pub(super) humidity_ratio: f64,
    pub(super) removal: f64,
    pub(super) duty: f64,
    pub(super) machine_power: f64,
    /// What condenses because the air cannot hold it.
    pub(super) condensation: f64,
    pub(super) on_surfaces: OnSurfaces,
    /// Given off inside, kg/s.
    pub(super) source: f64,
    /// The part that evaporates inside, kg/s.
    pub(super) evaporated: f64,
}

/// One inside temperature.
pub(super) struct AtTemperature<'a> {
    pub(super) inside: &'a Inside<'a>,
    pub(super) machine: Option<MachineAt<'a>>,
    pub(super) flow: f64,
    /// All water given off inside, the heater's with it, kg/s.
    pub(super) source: f64,
    cold: Cold<'a>,
    saturated: f64,
    saturation: f64,
}

impl<'a> AtTemperature<'a> {
    pub(super) fn new(
        inside: &'a Inside<'a>,
        machine: Option<MachineAt<'a>>,
        t_c: f64,
        flow: f64,
        source: f64,
    ) -> Self {
        let saturation = saturation_pressure(t_c);
        Self {
            inside,
            machine,
            flow,
            source,
            cold: Cold::new(inside, t_c),
            saturated: humidity_ratio(saturation, inside.outside.pressure),
            saturation,
        }
    }

    pub(super) fn water(&self, aim: Aim) -> Water {
        match aim {
            Aim::Steady => self.steady(),
            Aim::Held(rh) => self.held(rh),
        }
    }

    fn ratio_at(&self, rh: f64) -> f64 {
        humidity_ratio(rh * self.saturation, self.inside.outside.pressure)
    }

    /// The machine's part at a humidity ratio, running all the time.
    fn full_removal(&self, ratio: f64) -> f64 {
        self.machine.map_or(0.0, |machine| machine.removal(ratio))
    }

    fn full_power(&self, ratio: f64) -> f64 {
        self.machine.map_or(0.0, |machine| machine.power(ratio))
    }

    /// What condenses on surfaces at a humidity ratio.
    fn on_surfaces(&self, ratio: f64) -> OnSurfaces {
        let vapour = vapour_pressure(ratio, self.inside.outside.pressure);
        self.cold.at(vapour)
    }

    /// Water that comes in, less what the air carries out and what condenses on surfaces, at a
    /// humidity ratio, kg/s.
    pub(super) fn surplus(&self, ratio: f64) -> f64 {
        self.source + self.flow * (self.inside.outside.humidity_ratio - ratio)
            - self.on_surfaces(ratio).condensed
    }

    fn held(&self, rh: f64) -> Water {
        let ratio = self.ratio_at(rh);
        let removal = self.full_removal(ratio);
        let from_contents = removal - self.surplus(ratio);
        Water {
            removal,
            duty: if self.machine.is_some() { 1.0 } else { 0.0 },
            machine_power: self.full_power(ratio),
            source: self.source + from_contents,
            evaporated: self.inside.liquid_source + from_contents.max(0.0),
            ..self.idle_at(ratio, 0.0)
        }
    }

    fn steady(&self) -> Water {
        if self.machine.is_none() {
            return self.without_machine();
        }
        let Some(rh) = self.inside.hygrostat else {
            return self.running();
        };
        let wanted = self.ratio_at(rh).min(self.saturated);
        let idle = self.without_machine();
        if idle.humidity_ratio <= wanted {
            return idle;
        }
        if self.balance_at(wanted) >= 0.0 {
            // Running all the time is only just enough, or not enough.
            return self.running();
        }
        let full = self.full_removal(wanted);
        let removal = self.surplus(wanted).max(0.0);
        let duty = if full > 0.0 { removal / full } else { 0.0 };
        Water {
            removal,
            duty,
            machine_power: duty * self.full_power(wanted),
            ..self.idle_at(wanted, 0.0)
        }
    }

    /// Water left over at a humidity ratio with the machine running all the time, kg/s.
    fn balance_at(&self, ratio: f64) -> f64 {
        self.surplus(ratio) - self.full_removal(ratio)
    }

    /// At a humidity ratio, and with what the air cannot hold, while no machine runs.
    fn idle_at(&self, humidity_ratio: f64, condensation: f64) -> Water {
        Water {
            humidity_ratio,
            removal: 0.0,
            duty: 0.0,
            machine_power: 0.0,
            condensation,
            on_surfaces: self.on_surfaces(humidity_ratio),
            source: self.source,
            evaporated: self.inside.liquid_source,
        }
    }

    pub(super) fn without_machine(&self) -> Water {
        let (ratio, condensation) = self.idle_ratio();
        self.idle_at(ratio, condensation)
    }

    /// Nothing flows and nothing is given off: the air can only be as humid as it came in, or as
    /// the coldest surface leaves it.
    fn nothing_moves(&self) -> bool {
        self.flow <= 0.0 && self.source <= 0.0
    }

    /// As humid as the air came in, and no more than it and the surfaces let it be.
    fn as_it_came_in(&self) -> f64 {
        let dry = self.cold.dry_up_to(self.inside.outside.pressure);
        self.inside
            .outside
            .humidity_ratio
            .min(self.saturated)
            .min(dry)
    }

    /// Humidity ratio without a machine, and the water that the air cannot hold.
    fn idle_ratio(&self) -> (f64, f64) {
        if self.nothing_moves() {
            return (self.as_it_came_in(), 0.0);
        }
        let outside = self.inside.outside.humidity_ratio;
        let level = if self.source <= 0.0 {
            outside
        } else if self.flow > 0.0 {
            outside + self.source / self.flow
        } else {
            f64::INFINITY
        };
        let most = level.min(self.saturated);
        let left = self.surplus(most);
        if left >= 0.0 || most <= self.cold.dry_up_to(self.inside.outside.pressure) {
            let held = if level > self.saturated {
                left.max(0.0)
            } else {
                0.0
            };
            return (most, held);
        }
        (self.crossing(most, |ratio| self.surplus(ratio)), 0.0)
    }

    fn running(&self) -> Water {
        let (ratio, condensation) = self.running_ratio();
        Water {
            removal: self.full_removal(ratio),
            duty: 1.0,
            machine_power: self.full_power(ratio),
            ..self.idle_at(ratio, condensation)
        }
    }

    /// Humidity ratio with the machine running all the time, and the water that the air cannot hold.
    fn running_ratio(&self) -> (f64, f64) {
        if self.nothing_moves() {
            return (self.floor().min(self.as_it_came_in()), 0.0);
        }
        let most = self.saturated;
        let left = self.balance_at(most);
        if left >= 0.0 {
            return (most, left);
        }
        (self.crossing(most, |ratio| self.balance_at(ratio)), 0.0)
    }

    /// The humidity ratio below `most` at which a balance of water that falls with it is even. At
    /// zero the balance is what comes in, which is not negative, and at `most` it is negative.
    fn crossing(&self, most: f64, balance: impl Fn(f64) -> f64) -> f64 {
        let outside = self.inside.outside;
        let into = self.source + self.flow * outside.humidity_ratio;
        let onto_surfaces = if most > self.cold.dry_up_to(outside.pressure) {
            self.cold.steepest() * vapour_pressure(most, outside.pressure)
        } else {
            0.0
        };
        let guess = Guess {
            start: outside.humidity_ratio.min(most),
            slope: self.flow + (self.full_removal(most) + onto_surfaces) / most,
            finest: 0.0,
        };
        let found = falling_root::<Infallible>(
            |ratio| {
                let value = balance(ratio);
                Ok(Probe {
                    value,
                    close: value.abs() <= CLOSED * into,
                })
            },
            (0.0, most),
            guess,
        );
        found.map_or(0.0, |found| found.below)
    }

    /// The most humid air from which the machine takes nothing, kg/kg: bisected, the removal
    /// being zero below and rising above.
    fn floor(&self) -> f64 {
        let (mut dry, mut moist) = (0.0, self.saturated);
        for _ in 0..80 {
            let middle = f64::midpoint(dry, moist);
            if self.full_removal(middle) > 0.0 {
                moist = middle;
            } else {
                dry = middle;
            }
        }
        dry
    }
}
