//! The balance of heat: one falling function of the inside temperature.

use super::cold::OnSurfaces;
use super::water::{Aim, AtTemperature, Water};
use super::{CoupledError, Heater, Inside, Running, Steady};
use crate::physics::air::{MoistAir, TEMPERATURE_SPAN_C};
use crate::physics::machine::Machine;
use crate::physics::moisture::{HEAT_OF_VAPORISATION, ventilation_conductance};
use crate::physics::root::{Guess, Probe, falling_root};

/// Share of the throughput at which the balance of heat counts as closed.
const CLOSED: f64 = 1e-11;

/// Temperatures and heater outputs nearer than this are the same.
const FINEST_KELVIN: f64 = 1e-13;
const FINEST_WATT: f64 = 1e-12;

/// Solves the balance of one inside air.
pub(super) struct Settler<'a, Flow> {
    inside: &'a Inside<'a>,
    flow: Flow,
    aim: Aim,
}

/// Everything at one temperature and heater output.
#[derive(Clone, Copy)]
struct Look {
    t_c: f64,
    flow: f64,
    heater: f64,
    water: Water,
    /// Gains and losses, W; each a sum of what is not negative.
    gains: f64,
    losses: f64,
}

impl Look {
    fn probe(&self) -> Probe {
        let value = self.gains - self.losses;
        Probe {
            value,
            close: value.abs() <= CLOSED * self.gains.max(self.losses),
        }
    }
}

impl<'a, E, Flow: Fn(f64) -> Result<f64, E>> Settler<'a, Flow> {
    pub(super) fn new(inside: &'a Inside<'a>, flow: Flow, aim: Aim) -> Self {
        Self { inside, flow, aim }
    }

    pub(super) fn solve(&self) -> Result<Steady, CoupledError<E>> {
        let Some(machine) = self.inside.machine else {
            return self.settle(None, Running::NoMachine);
        };
        if self.warm_enough(machine)? {
            self.settle(Some(machine), Running::Runs)
        } else {
            self.settle(None, Running::TooCold)
        }
    }

    /// Whether the vehicle without the machine is at least as warm as the machine needs.
    fn warm_enough(&self, machine: &Machine) -> Result<bool, CoupledError<E>> {
        let lowest = machine.lowest_room_c();
        if lowest <= TEMPERATURE_SPAN_C.0 {
            return Ok(true);
        }
        if lowest >= TEMPERATURE_SPAN_C.1 {
            return Ok(false);
        }
        let output = match self.inside.heater {
            Some(heater) if heater.set_point_c.is_none_or(|set| lowest <= set) => heater.rating,
            _ => 0.0,
        };
        Ok(self.look(None, lowest, output)?.probe().value >= 0.0)
    }

    fn look(
        &self,
        machine: Option<&'a Machine>,
        t_c: f64,
        heater: f64,
    ) -> Result<Look, CoupledError<E>> {
        let inside = self.inside;
        let flow = (self.flow)(t_c).map_err(CoupledError::Flow)?;
        if !(flow.is_finite() && flow >= 0.0) {
            return Err(CoupledError::Number("the air flow"));
        }
        let per_joule = inside.heater.map_or(0.0, |heater| heater.water_per_joule);
        let source = inside.vapour_source + inside.liquid_source + per_joule * heater;
        let at = machine.map(|machine| machine.at(t_c, inside.outside.pressure));
        let water = AtTemperature::new(inside, at, t_c, flow, source).water(self.aim);
        let (gains, losses) = heat(inside, t_c, flow, heater, &water);
        Ok(Look {
            t_c,
            flow,
            heater,
            water,
            gains,
            losses,
        })
    }

    /// Finds temperature and heater output with the machine running or without it.
    fn settle(
        &self,
        machine: Option<&'a Machine>,
        running: Running,
    ) -> Result<Steady, CoupledError<E>> {
        let lowest = machine.map_or(f64::NEG_INFINITY, Machine::lowest_room_c);
        let span = (TEMPERATURE_SPAN_C.0.max(lowest), TEMPERATURE_SPAN_C.1);
        let look = match self.inside.heater {
            None => self.temperature(machine, span, 0.0)?,
            Some(Heater {
                rating,
                set_point_c: None,
                ..
            }) => self.temperature(machine, span, rating)?,
            Some(Heater {
                rating,
                set_point_c: Some(set),
                ..
            }) => self.thermostat(machine, span, rating, set)?,
        };
        self.steady(&look, running)
    }

    /// The temperature at which a given heater output balances.
    fn temperature(
        &self,
        machine: Option<&'a Machine>,
        span: (f64, f64),
        output: f64,
    ) -> Result<Look, CoupledError<E>> {
        let outside = &self.inside.outside;
        let start = outside.t_c.clamp(span.0, span.1);
        let first = self.look(machine, start, output)?;
        let guess = Guess {
            start,
            slope: self.inside.fabric + ventilation_conductance(first.flow, outside.humidity_ratio),
            finest: FINEST_KELVIN,
        };
        let crossing = falling_root(
            |t_c| {
                if t_c.total_cmp(&start).is_eq() {
                    return Ok(first.probe());
                }
                Ok(self.look(machine, t_c, output)?.probe())
            },
            span,
            guess,
        )?;
        let (colder, warmer) = (crossing.above, crossing.below);
        Ok(self.blend(
            self.look(machine, colder, output)?,
            self.look(machine, warmer, output)?,
        ))
    }

    /// A thermostat: full output below its set point, none above, what is needed at it.
    fn thermostat(
        &self,
        machine: Option<&'a Machine>,
        span: (f64, f64),
        rating: f64,
        set: f64,
    ) -> Result<Look, CoupledError<E>> {
        if set < span.0 {
            return self.temperature(machine, span, 0.0);
        }
        let off = self.look(machine, set, 0.0)?;
        if off.probe().value >= 0.0 {
            return self.temperature(machine, (set, span.1), 0.0);
        }
        let full = self.look(machine, set, rating)?;
        if full.probe().value <= 0.0 {
            return self.temperature(machine, (span.0, set), rating);
        }
        // Falling in minus the output.
        let crossing = falling_root(
            |minus: f64| Ok(self.look(machine, set, -minus)?.probe()),
            (-rating, 0.0),
            Guess {
                start: off.gains - off.losses,
                slope: 1.0,
                finest: FINEST_WATT,
            },
        )?;
        Ok(self.blend(
            self.look(machine, set, -crossing.above)?,
            self.look(machine, set, -crossing.below)?,
        ))
    }

    /// Two looks as near as can matter, between which a machine on its hygrostat switches: it
    /// finds nothing to take, and its warmth alone brings the inside to its setting. It then runs
    /// just the share of the time that closes the balance of heat.
    fn blend(&self, above: Look, below: Look) -> Look {
        let (surplus, lack) = (above.probe().value, below.probe().value);
        if !(surplus > 0.0 && lack < 0.0) || above.probe().close {
            return above;
        }
        if below.probe().close {
            return below;
        }
        let share = lack / (lack - surplus);
        let mix = |one: f64, other: f64| other + share * (one - other);
        let outside = self.inside.outside.humidity_ratio;
        let carried = |look: &Look| look.flow * (outside - look.water.humidity_ratio);
        let flow = mix(above.flow, below.flow);
        // What the air carries is mixed, not its parts, so that the books of water still close.
        let humidity_ratio = if flow > 0.0 {
            (outside - mix(carried(&above), carried(&below)) / flow).max(0.0)
        } else {
            above.water.humidity_ratio
        };
        let (one, other) = (above.water, below.water);
        Look {
            t_c: above.t_c,
            flow,
            heater: mix(above.heater, below.heater),
            water: Water {
                humidity_ratio,
                removal: mix(one.removal, other.removal),
                duty: mix(one.duty, other.duty),
                machine_power: mix(one.machine_power, other.machine_power),
                condensation: mix(one.condensation, other.condensation),
                on_surfaces: OnSurfaces {
                    condensed: mix(one.on_surfaces.condensed, other.on_surfaces.condensed),
                    given_back: mix(one.on_surfaces.given_back, other.on_surfaces.given_back),
                },
                source: mix(one.source, other.source),
                evaporated: mix(one.evaporated, other.evaporated),
            },
            gains: mix(above.gains, below.gains),
            losses: mix(above.losses, below.losses),
        }
    }

    fn steady(&self, look: &Look, running: Running) -> Result<Steady, CoupledError<E>> {
        let inside = MoistAir::new(
            look.t_c,
            look.water.humidity_ratio,
            self.inside.outside.pressure,
        )
        .map_err(|_| CoupledError::Number("the inside air's state"))?;
        Ok(Steady {
            inside,
            dry_air_flow: look.flow,
            removal: look.water.removal,
            duty: look.water.duty,
            machine_power: look.water.machine_power,
            heater_power: look.heater,
            condensation: look.water.condensation,
            on_surfaces: look.water.on_surfaces.condensed,
            given_back: look.water.on_surfaces.given_back,
            source: look.water.source,
            evaporated: look.water.evaporated,
            running,
        })
    }
}

/// Gains and losses, W, each a sum of what is not negative: inside colder than outside, the
/// fabric and the air bring heat in.
fn heat(inside: &Inside<'_>, t_c: f64, flow: f64, heater: f64, water: &Water) -> (f64, f64) {
    let conductance = inside.fabric + ventilation_conductance(flow, inside.outside.humidity_ratio);
    let through = conductance * (t_c - inside.outside.t_c);
    let gains = heater
        + inside.gains
        + water.machine_power
        + (water.removal + water.condensation + water.on_surfaces.given_back)
            * HEAT_OF_VAPORISATION
        + (-through).max(0.0);
    let losses = through.max(0.0) + water.evaporated * HEAT_OF_VAPORISATION;
    (gains, losses)
}

/// Gains less losses, and the gains, W.
#[cfg(test)]
pub(super) fn heat_book(inside: &Inside<'_>, steady: &Steady) -> (f64, f64) {
    let water = Water {
        humidity_ratio: steady.inside.humidity_ratio,
        removal: steady.removal,
        duty: steady.duty,
        machine_power: steady.machine_power,
        condensation: steady.condensation,
        on_surfaces: OnSurfaces {
            condensed: steady.on_surfaces,
            given_back: steady.given_back,
        },
        source: steady.source,
        evaporated: steady.evaporated,
    };
    let (gains, losses) = heat(
        inside,
        steady.inside.t_c,
        steady.dry_air_flow,
        steady.heater_power,
        &water,
    );
    (gains - losses, gains.max(losses))
}
