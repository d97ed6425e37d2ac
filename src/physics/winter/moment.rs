//! The balances of one implicit stage at a trial temperature: the vapour pressure that belongs to
//! it, and what is left of the heat.

use super::tub::Standing;
use super::{Body, Forcing};
use crate::physics::air::{humidity_ratio, saturation_pressure};
use crate::physics::machine::salt::{TUB_MASS_TRANSFER, vapour_density};
use crate::physics::machine::{Machine, MachineAt};
use crate::physics::moisture::{HEAT_OF_VAPORISATION, ventilation_conductance};

/// Share of the water stored at which its balance counts as even.
const EVEN: f64 = 1e-12;
/// Looks at the water's balance after which its bracket is as fine as doubles allow.
const MOST_LOOKS: usize = 100;

/// What stays the same through one step.
pub(super) struct Step<'a> {
    pub(super) body: &'a Body,
    pub(super) forcing: &'a Forcing,
    /// The machine, if it is warm enough for it.
    pub(super) machine: Option<&'a Machine>,
    pub(super) hygrostat: Option<f64>,
    pub(super) tub: Option<Standing>,
    /// Kilograms of vapour in the air for each Pa, V/(R_v T) at the step's first temperature.
    pub(super) air_holds: f64,
    /// Water on each surface at its start, kg.
    pub(super) films: &'a [f64],
    /// Its length, s.
    pub(super) length: f64,
}

/// What an implicit stage starts from.
#[derive(Clone, Copy)]
pub(super) struct Base {
    /// Heat, J: C T − h_fg B φ.
    pub(super) heat: f64,
    /// Water, kg: κ p + B φ.
    pub(super) water: f64,
    /// Length of the stage, s.
    pub(super) length: f64,
    /// A vapour pressure near the answer, Pa.
    pub(super) near: f64,
}

/// Rates of one moment.
#[derive(Clone, Debug, Default)]
pub(super) struct Rates {
    pub(super) t_c: f64,
    pub(super) vapour: f64,
    pub(super) dry_air: f64,
    pub(super) heater: f64,
    pub(super) machine_power: f64,
    pub(super) duty: f64,
    /// kg/s by machine and tub.
    pub(super) removal: f64,
    /// kg/s that the air cannot hold.
    pub(super) not_held: f64,
    /// kg/s onto each surface, negative where it dries.
    pub(super) onto: Vec<f64>,
    /// All of them, and with their temperature factors.
    pub(super) onto_all: f64,
    pub(super) given_back: f64,
    /// kg/s by air, net.
    pub(super) by_air: f64,
    pub(super) source: f64,
    /// W, net, without what the materials store.
    pub(super) heat: f64,
    /// Heat left over in the stage, J.
    pub(super) left: f64,
}

/// One trial temperature.
pub(super) struct AtTemperature<'a> {
    step: &'a Step<'a>,
    base: Base,
    t_c: f64,
    saturation: f64,
    dry_air: f64,
    machine: Option<MachineAt<'a>>,
    heater: f64,
    source: f64,
    /// kg/s onto a square metre for each Pa.
    per_area: f64,
    /// Vapour pressure of the air over which each surface gets wet, Pa.
    wet_above: Vec<f64>,
}

impl<'a> AtTemperature<'a> {
    pub(super) fn new(
        step: &'a Step<'a>,
        base: Base,
        t_c: f64,
        dry_air: f64,
        (heater, heater_water): (f64, f64),
    ) -> Self {
        let forcing = step.forcing;
        let of = step.body.surfaces.iter().zip(&forcing.seen_c);
        let wet_above = of.map(|(surface, seen_c)| {
            let here = seen_c + surface.temperature_factor * (t_c - seen_c);
            // Equal vapour densities, not equal pressures.
            saturation_pressure(here) * vapour_density(1.0, here) / vapour_density(1.0, t_c)
        });
        Self {
            machine: step
                .machine
                .map(|machine| machine.at(t_c, forcing.outside.pressure)),
            saturation: saturation_pressure(t_c),
            per_area: TUB_MASS_TRANSFER * vapour_density(1.0, t_c),
            wet_above: wet_above.collect(),
            source: forcing.vapour_source + forcing.liquid_source + heater_water,
            step,
            base,
            t_c,
            dry_air,
            heater,
        }
    }

    fn ratio(&self, vapour: f64) -> f64 {
        humidity_ratio(vapour, self.step.forcing.outside.pressure)
    }

    /// What the machine takes at a vapour pressure, running all the time, kg/s.
    fn full(&self, vapour: f64) -> f64 {
        let by = |machine: MachineAt<'_>| machine.removal(self.ratio(vapour));
        self.machine.map_or(0.0, by)
    }

    fn tub(&self, vapour: f64) -> f64 {
        self.step
            .tub
            .map_or(0.0, |tub| tub.removal(vapour, self.t_c))
    }

    /// What condenses on a surface at a vapour pressure, kg/s; it dries no faster than its water
    /// lasts for the whole step.
    fn onto(&self, at: usize, vapour: f64) -> f64 {
        let (surfaces, films) = (&self.step.body.surfaces, self.step.films);
        let (Some(surface), Some(wet), Some(film)) =
            (surfaces.get(at), self.wet_above.get(at), films.get(at))
        else {
            return 0.0;
        };
        let rate = self.per_area * surface.area * (vapour - wet);
        rate.max(-film / self.step.length)
    }

    fn onto_all(&self, vapour: f64) -> f64 {
        (0..self.wet_above.len())
            .map(|at| self.onto(at, vapour))
            .sum()
    }

    /// Water stored at a vapour pressure, kg.
    fn stored(&self, vapour: f64) -> f64 {
        self.step.air_holds * vapour + self.step.body.buffer * vapour / self.saturation
    }

    /// Water left over in the stage at a vapour pressure, kg, with the machine's share of the time.
    fn water_left(&self, vapour: f64, duty: f64) -> f64 {
        let by_air = self.dry_air * (self.step.forcing.outside.humidity_ratio - self.ratio(vapour));
        let machine = if duty > 0.0 {
            duty * self.full(vapour)
        } else {
            0.0
        };
        let net = by_air + self.source - machine - self.tub(vapour) - self.onto_all(vapour);
        self.base.water + self.base.length * net - self.stored(vapour)
    }

    /// The vapour pressure up to saturation at which no water is left over; what is left over at
    /// saturation the air cannot hold, kg.
    fn vapour(&self, duty: f64) -> (f64, f64) {
        let most = self.saturation;
        let left = self.water_left(most, duty);
        if left >= 0.0 {
            return (most, left);
        }
        let near_enough = EVEN * (self.base.water.abs() + self.stored(most));
        let (mut low, mut high) = (0.0, most);
        let (mut before, mut value_before) = (most, left);
        let mut x = self.base.near.clamp(0.001 * most, 0.999 * most);
        for _ in 0..MOST_LOOKS {
            let value = self.water_left(x, duty);
            if value.abs() <= near_enough {
                return (x, 0.0);
            }
            if value > 0.0 {
                low = x;
            } else {
                high = x;
            }
            let slope = (value - value_before) / (x - before);
            (before, value_before) = (x, value);
            let next = x - value / slope;
            x = if next > low && next < high {
                next
            } else {
                f64::midpoint(low, high)
            };
            if high - low <= 4.0 * f64::EPSILON * most {
                break;
            }
        }
        (x, 0.0)
    }

    /// The water at this temperature: vapour pressure, share of the time that the machine runs, and
    /// what the air cannot hold, kg.
    fn water(&self) -> (f64, f64, f64) {
        if self.machine.is_none() {
            let (vapour, left) = self.vapour(0.0);
            return (vapour, 0.0, left);
        }
        let Some(rh) = self.step.hygrostat else {
            let (vapour, left) = self.vapour(1.0);
            return (vapour, 1.0, left);
        };
        let wanted = rh * self.saturation;
        let idle = self.water_left(wanted, 0.0);
        if idle <= 0.0 {
            let (vapour, left) = self.vapour(0.0);
            return (vapour, 0.0, left);
        }
        let full = self.base.length * self.full(wanted);
        if full <= idle {
            let (vapour, left) = self.vapour(1.0);
            return (vapour, 1.0, left);
        }
        (wanted, idle / full, 0.0)
    }

    /// All rates, and what is left over of the heat.
    pub(super) fn rates(&self) -> Rates {
        let (step, forcing) = (self.step, self.step.forcing);
        let (vapour, duty, left) = self.water();
        let onto: Vec<f64> = (0..self.wet_above.len())
            .map(|at| self.onto(at, vapour))
            .collect();
        let given_back = onto.iter().zip(&step.body.surfaces);
        let given_back: f64 = given_back
            .map(|(rate, surface)| rate * surface.temperature_factor)
            .sum();
        let removal = duty * self.full(vapour) + self.tub(vapour);
        let not_held = left / self.base.length;
        let power = |machine: MachineAt<'_>| machine.power(self.ratio(vapour));
        let machine_power = duty * self.machine.map_or(0.0, power);
        let outside = &forcing.outside;
        let conductance =
            step.body.fabric + ventilation_conductance(self.dry_air, outside.humidity_ratio);
        let heat = conductance * (outside.t_c - self.t_c)
            + forcing.envelope_gain
            + forcing.gains
            + self.heater
            + machine_power
            + (removal + given_back + not_held - forcing.liquid_source) * HEAT_OF_VAPORISATION;
        let stored = step.body.heat_capacity * self.t_c
            - HEAT_OF_VAPORISATION * step.body.buffer * vapour / self.saturation;
        Rates {
            t_c: self.t_c,
            vapour,
            dry_air: self.dry_air,
            heater: self.heater,
            machine_power,
            duty,
            removal,
            not_held,
            onto_all: onto.iter().sum(),
            onto,
            given_back,
            by_air: self.dry_air * (outside.humidity_ratio - self.ratio(vapour)),
            source: self.source,
            heat,
            left: self.base.heat + self.base.length * heat - stored,
        }
    }
}
