//! The balances of one implicit stage at a trial temperature: the vapour pressure that belongs to
//! it, and what is left of the heat.

use super::tub::Standing;
use super::{Body, Forcing};
use crate::physics::air::{humidity_ratio, saturation_pressure};
use crate::physics::machine::salt::{TUB_MASS_TRANSFER, vapour_density};
use crate::physics::machine::{Machine, MachineAt};
use crate::physics::moisture::{HEAT_OF_VAPORISATION, ventilation_conductance};
use std::cell::OnceCell;

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
    /// kg/s onto each surface, negative where it dries; `None` where all are dry and stay so.
    pub(super) onto: Option<Vec<f64>>,
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
    /// What a kelvin more left less of it near the answer, J/K; `None` where nothing was looked for.
    pub(super) slope: Option<f64>,
}

impl Rates {
    /// Those of two moments next to each other by their shares of the time: `share` of the other's.
    pub(super) fn shared(&self, other: &Self, share: f64) -> Self {
        let of = |one: f64, other: f64| one + share * (other - one);
        let surfaces = self.onto.as_ref().or(other.onto.as_ref()).map(Vec::len);
        let onto = surfaces.map(|count| {
            let rate = |rates: &Self, at: usize| {
                let onto = rates.onto.as_ref();
                onto.and_then(|onto| onto.get(at)).copied().unwrap_or(0.0)
            };
            (0..count)
                .map(|at| of(rate(self, at), rate(other, at)))
                .collect()
        });
        Self {
            t_c: of(self.t_c, other.t_c),
            vapour: of(self.vapour, other.vapour),
            dry_air: of(self.dry_air, other.dry_air),
            heater: of(self.heater, other.heater),
            machine_power: of(self.machine_power, other.machine_power),
            duty: of(self.duty, other.duty),
            removal: of(self.removal, other.removal),
            not_held: of(self.not_held, other.not_held),
            onto,
            onto_all: of(self.onto_all, other.onto_all),
            given_back: of(self.given_back, other.given_back),
            by_air: of(self.by_air, other.by_air),
            source: of(self.source, other.source),
            heat: of(self.heat, other.heat),
            left: of(self.left, other.left),
            slope: None,
        }
    }
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
    /// Vapour pressure of the air up to which all surfaces are dry and stay so, Pa.
    dry_up_to: f64,
    /// Vapour pressure of the air over which each surface gets wet, Pa: asked for only where
    /// something is wet.
    wet_above: OnceCell<Vec<f64>>,
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
        let saturation = saturation_pressure(t_c);
        let mut own = Self {
            machine: step
                .machine
                .map(|machine| machine.at(t_c, forcing.outside.pressure)),
            saturation,
            per_area: TUB_MASS_TRANSFER * vapour_density(1.0, t_c),
            dry_up_to: f64::NEG_INFINITY,
            wet_above: OnceCell::new(),
            source: forcing.vapour_source + forcing.liquid_source + heater_water,
            step,
            base,
            t_c,
            dry_air,
            heater,
        };
        if step.films.iter().all(|film| *film <= 0.0) {
            let coldest = own.surfaces_c().fold(f64::INFINITY, f64::min);
            if coldest.is_finite() {
                own.dry_up_to = own.wet_above(coldest);
            } else {
                own.dry_up_to = f64::INFINITY;
            }
        }
        own
    }

    /// Temperature of each surface, °C.
    fn surfaces_c(&self) -> impl Iterator<Item = f64> {
        let of = self.step.body.surfaces.iter();
        of.zip(&self.step.forcing.seen_c)
            .map(|(surface, seen_c)| seen_c + surface.temperature_factor * (self.t_c - seen_c))
    }

    /// Vapour pressure of the air over which a surface at a temperature gets wet, Pa; it rises with
    /// the temperature.
    fn wet_above(&self, here: f64) -> f64 {
        // Equal vapour densities, not equal pressures.
        saturation_pressure(here) * vapour_density(1.0, here) / vapour_density(1.0, self.t_c)
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

    /// What condenses on each surface at a vapour pressure, kg/s; it dries no faster than its water
    /// lasts for the whole step.
    fn onto(&self, vapour: f64) -> impl Iterator<Item = f64> {
        let wet_above = self
            .wet_above
            .get_or_init(|| self.surfaces_c().map(|here| self.wet_above(here)).collect());
        let (surfaces, films) = (&self.step.body.surfaces, self.step.films);
        let of = surfaces.iter().zip(wet_above).zip(films);
        of.map(move |((surface, wet), film)| {
            let rate = self.per_area * surface.area * (vapour - wet);
            rate.max(-film / self.step.length)
        })
    }

    fn onto_all(&self, vapour: f64) -> f64 {
        if vapour <= self.dry_up_to {
            return 0.0;
        }
        self.onto(vapour).sum()
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

    /// How much less water is left over for each Pa more, kg/Pa: a guess that knows no surface and
    /// no machine.
    fn water_slope(&self, vapour: f64) -> f64 {
        let pressure = self.step.forcing.outside.pressure;
        let carried = self.dry_air * self.ratio(vapour) * pressure / (pressure - vapour);
        self.step.air_holds
            + self.step.body.buffer / self.saturation
            + self.base.length * carried / vapour
    }

    /// The vapour pressure up to saturation at which no water is left over; what is left over at
    /// saturation the air cannot hold, kg.
    fn vapour(&self, duty: f64) -> (f64, f64) {
        let most = self.saturation;
        let near_enough = EVEN * (self.base.water.abs() + self.stored(most));
        let (mut low, mut high) = (0.0, most);
        // Whether it is still possible that the air cannot hold it all.
        let mut open = true;
        let mut before: Option<(f64, f64)> = None;
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
                open = false;
            }
            let secant = before.map(|(other, left)| (value - left) / (x - other));
            let slope = secant.filter(|slope| *slope < 0.0);
            let slope = slope.unwrap_or_else(|| -self.water_slope(x));
            before = Some((x, value));
            let mut next = x - value / slope;
            if open && next >= most {
                let left = self.water_left(most, duty);
                if left >= 0.0 {
                    return (most, left);
                }
                open = false;
                next = x + value * (most - x) / (value - left);
            }
            x = if next > low && next < high {
                next
            } else {
                f64::midpoint(low, high)
            };
            if high - low <= 4.0 * f64::EPSILON * most {
                break;
            }
        }
        if open {
            return (most, self.water_left(most, duty).max(0.0));
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
        let onto: Option<Vec<f64>> = (vapour > self.dry_up_to).then(|| self.onto(vapour).collect());
        let (mut onto_all, mut given_back) = (0.0, 0.0);
        for (rate, surface) in onto.iter().flatten().zip(&step.body.surfaces) {
            onto_all += rate;
            given_back += rate * surface.temperature_factor;
        }
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
            onto_all,
            onto,
            given_back,
            by_air: self.dry_air * (outside.humidity_ratio - self.ratio(vapour)),
            source: self.source,
            heat,
            left: self.base.heat + self.base.length * heat - stored,
            slope: None,
        }
    }
}
