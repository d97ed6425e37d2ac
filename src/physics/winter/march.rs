//! Step by step through the season.
#![expect(
    clippy::indexing_slicing,
    reason = "films, surfaces and hours are parallel lists; a missing number must never turn into a silent default"
)]

use super::moment::{Base, Rates, Step};
use super::outcome::{Books, HourInside, Inside};
use super::solve::Stage;
use super::{Body, FILM_MOST, Forcing, Heating, SPIN_UP_DAYS, Strategy};
use crate::physics::air::saturation_pressure;
use crate::physics::machine::salt::vapour_density;
use crate::physics::moisture::HEAT_OF_VAPORISATION;
use crate::physics::units::SECONDS_PER_HOUR;
use std::ops::ControlFlow;

/// The method's only coefficient, 1 − √½.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// The humidity that the inside starts with, at most.
const FIRST_RH: f64 = 0.95;
/// A machine runs from this little below its lowest temperature: a thermostat set to it holds it.
const AT_LOWEST: f64 = 1e-6;
/// The inside is at a set point this near to it, K.
const AT_SET: f64 = 1e-6;
/// Turns of machine and heater that are looked for in one step.
const MOST_TURNS: u32 = 24;
/// Parts in which the rest of a step is taken once the heater has met its set point.
const SETTLES_IN: f64 = 8.0;
/// Less of an hour than this is left over by rounding alone.
const NO_MORE: f64 = 1e-12;
/// Looks at the moment of a turn, and how closely it is found, as a share of an hour.
const TURN_LOOKS: u32 = 40;
const TURN_FINE: f64 = 1e-9;

/// Asked once a day whether to go on.
pub trait Progress: Fn() -> ControlFlow<()> {}

impl<T: Fn() -> ControlFlow<()>> Progress for T {}

/// A season marched through.
#[derive(Clone, Debug, PartialEq)]
pub struct Marched {
    /// Hour by hour.
    pub hours: Vec<HourInside>,
    /// The state at the end.
    pub end: Inside,
    /// Water and heat of the season.
    pub books: Books,
    /// Hour in which the tub was first full.
    pub tub_full_at: Option<usize>,
}

/// One strategy through a season of hours, after days of the first weather to forget the start.
/// `air` gives the dry air that flows through by hour and inside temperature, kg/s. `None` where
/// `progress` gave it up.
///
/// # Errors
/// Those of `air`.
pub fn march<E>(
    body: &Body,
    hours: &[Forcing],
    strategy: &Strategy<'_>,
    air: &impl Fn(usize, f64) -> Result<f64, E>,
    (steps, progress): (u32, &impl Progress),
) -> Result<Option<Marched>, E> {
    march_from(None, body, hours, (strategy, air), (steps, progress))
}

/// The same from a temperature inside, °C, and a vapour pressure, Pa, at the first hour, where they are
/// known, without days before it.
///
/// # Errors
/// Those of `air`.
pub fn march_from<E>(
    known: Option<(f64, f64)>,
    body: &Body,
    hours: &[Forcing],
    (strategy, air): (&Strategy<'_>, &impl Fn(usize, f64) -> Result<f64, E>),
    (steps, progress): (u32, &impl Progress),
) -> Result<Option<Marched>, E> {
    let mut marcher = Marcher {
        body,
        strategy,
        air,
        steps,
        state: match known {
            Some((t_c, vapour)) => Inside {
                t_c,
                vapour: vapour.min(saturation_pressure(t_c)),
                ..start(body, hours)
            },
            None => start(body, hours),
        },
        running: false,
        slope: None,
        books: Books::default(),
        tub_full_at: None,
    };
    marcher.running = marcher.is_warm(marcher.state.t_c);
    let spin_up = match known {
        Some(_) => 0,
        None => hours.len().min(SPIN_UP_DAYS * 24),
    };
    for (at, forcing) in hours.iter().enumerate().take(spin_up) {
        if at % 24 == 0 && progress().is_break() {
            return Ok(None);
        }
        marcher.hour(at, forcing)?;
    }
    marcher.state.in_tub = 0.0;
    marcher.books = Books::default();
    marcher.tub_full_at = None;
    let mut found = Vec::with_capacity(hours.len());
    for (at, forcing) in hours.iter().enumerate() {
        if at % 24 == 0 && progress().is_break() {
            return Ok(None);
        }
        found.push(marcher.hour(at, forcing)?);
    }
    Ok(Some(Marched {
        hours: found,
        end: marcher.state,
        books: marcher.books,
        tub_full_at: marcher.tub_full_at,
    }))
}

fn start(body: &Body, hours: &[Forcing]) -> Inside {
    let first = hours.first().map(|forcing| forcing.outside);
    let (t_c, rh) = first.map_or((0.0, 0.0), |air| (air.t_c, air.relative_humidity()));
    Inside {
        t_c,
        vapour: rh.min(FIRST_RH) * saturation_pressure(t_c),
        films: vec![0.0; body.surfaces.len()],
        in_tub: 0.0,
    }
}

/// A step worked out, not yet entered.
struct Stages {
    /// Of an hour.
    share: f64,
    one: Rates,
    end: Rates,
    /// Kilograms of vapour in the air for each Pa.
    air_holds: f64,
    tub_full: bool,
}

/// What the heater does in a part of a step.
///
/// A stage that is held at a set point beside which the step began would be carried on too far by the next
/// stage: so steps end where the set point is met.
#[derive(Clone, Copy)]
enum Drive {
    /// What the set point needs, up to the rating; the rating without a set point.
    Held,
    /// The rating, until the set point is reached from below.
    Full { set_c: f64 },
    /// Nothing, until the inside has cooled down to the set point.
    Off { set_c: f64 },
}

impl Drive {
    /// The set point, if it is passed at a temperature inside, °C.
    fn met(self, t_c: f64) -> Option<f64> {
        match self {
            Self::Full { set_c } if t_c > set_c + AT_SET => Some(set_c),
            Self::Off { set_c } if t_c < set_c - AT_SET => Some(set_c),
            _ => None,
        }
    }
}

struct Marcher<'a, A> {
    body: &'a Body,
    strategy: &'a Strategy<'a>,
    air: &'a A,
    steps: u32,
    state: Inside,
    /// It is warm enough for the machine.
    running: bool,
    /// Heat that a kelvin more took in the last stage, J/K.
    slope: Option<f64>,
    books: Books,
    tub_full_at: Option<usize>,
}

impl<E, A: Fn(usize, f64) -> Result<f64, E>> Marcher<'_, A> {
    fn hour(&mut self, at: usize, forcing: &Forcing) -> Result<HourInside, E> {
        let mut sum = HourInside::default();
        let share = 1.0 / f64::from(self.steps);
        for _ in 0..self.steps {
            self.step(at, forcing, share, &mut sum)?;
        }
        Ok(sum)
    }

    /// Heat and water that the materials and the air hold.
    fn held(&self, air_holds: f64, t_c: f64, vapour: f64) -> (f64, f64) {
        let rh = vapour / saturation_pressure(t_c);
        let body = self.body;
        (
            body.heat_capacity * t_c - HEAT_OF_VAPORISATION * body.buffer * rh,
            air_holds * vapour + body.buffer * rh,
        )
    }

    /// Whether a machine runs at a temperature inside, °C.
    fn is_warm(&self, t_c: f64) -> bool {
        let machine = self.strategy.machine;
        machine.is_some_and(|machine| t_c + AT_LOWEST >= machine.lowest_room_c())
    }

    /// The heater of the hour with its set point; without one it gives its rating.
    fn heating(&self, forcing: &Forcing) -> Option<(Heating, Option<f64>)> {
        let heating = self.strategy.heating?;
        if !forcing.present {
            return (!heating.only_present).then_some((heating, heating.set_c));
        }
        Some((heating, heating.set_present_c.or(heating.set_c)))
    }

    /// What the heater does until the set point is met: beside it a thermostat gives all or nothing.
    fn drive(&self, forcing: &Forcing) -> Drive {
        match self.heating(forcing) {
            Some((_, Some(set_c))) if self.state.t_c < set_c - AT_SET => Drive::Full { set_c },
            Some((_, Some(set_c))) if self.state.t_c > set_c + AT_SET => Drive::Off { set_c },
            _ => Drive::Held,
        }
    }

    /// One step, cut where the inside meets the heater's set point and where it passes the lowest
    /// temperature of the machine.
    fn step(
        &mut self,
        at: usize,
        forcing: &Forcing,
        share: f64,
        sum: &mut HourInside,
    ) -> Result<(), E> {
        let (mut left, mut most) = (share, share);
        for turn in 0..=MOST_TURNS {
            let last = turn == MOST_TURNS;
            let drive = if last {
                Drive::Held
            } else {
                self.drive(forcing)
            };
            let length = if last { left } else { left.min(most) };
            let mut part = self.stages(at, forcing, (length, drive))?;
            if let Some(set_c) = drive.met(part.end.t_c) {
                // What the sudden warmth drives out of the contents settles in less than a step.
                if matches!(drive, Drive::Full { .. }) {
                    most = share / SETTLES_IN;
                }
                part = self.crossing(at, forcing, (part, drive, set_c))?;
            }
            let turns = self.strategy.machine.is_some()
                && !last
                && self.is_warm(part.end.t_c) != self.running;
            if let Some(machine) = self.strategy.machine.filter(|_| turns) {
                let level = machine.lowest_room_c() - AT_LOWEST;
                part = self.crossing(at, forcing, (part, drive, level))?;
            }
            left -= part.share;
            self.take(at, &part, (forcing, sum));
            self.running ^= turns;
            if left <= NO_MORE || last {
                return Ok(());
            }
        }
        Ok(())
    }

    /// The part of a step at whose end the inside has just passed a temperature.
    fn crossing(
        &mut self,
        at: usize,
        forcing: &Forcing,
        (whole, drive, level): (Stages, Drive, f64),
    ) -> Result<Stages, E> {
        // Kelvin beyond it at both ends of the bracket; the one kept is halved so that both close in.
        let (mut low, mut high) = (0.0, whole.share);
        let mut beyond = (self.state.t_c - level, whole.end.t_c - level);
        let rises = whole.end.t_c > self.state.t_c;
        let mut found = whole;
        for _ in 0..TURN_LOOKS {
            if high - low <= TURN_FINE {
                break;
            }
            let straight = low + (high - low) * beyond.0 / (beyond.0 - beyond.1);
            let share = if straight > low && straight < high {
                straight
            } else {
                f64::midpoint(low, high)
            };
            let part = self.stages(at, forcing, (share, drive))?;
            let over = part.end.t_c - level;
            if (over >= 0.0) != rises {
                (low, beyond) = (share, (over, 0.5 * beyond.1));
            } else {
                (high, beyond) = (share, (0.5 * beyond.0, over));
                found = part;
                if over.abs() <= AT_LOWEST * AT_LOWEST.sqrt() {
                    break;
                }
            }
        }
        Ok(found)
    }

    /// The two stages of a step of this share of an hour, from where things stand.
    fn stages(
        &mut self,
        at: usize,
        forcing: &Forcing,
        (share, drive): (f64, Drive),
    ) -> Result<Stages, E> {
        let length = share * SECONDS_PER_HOUR;
        let before = &self.state;
        let strategy = self.strategy;
        let tub = strategy
            .tub
            .map(|tub| tub.standing(before.in_tub, before.t_c));
        let step = Step {
            body: self.body,
            forcing,
            machine: strategy.machine.filter(|_| self.running),
            hygrostat: strategy.hygrostat,
            tub,
            air_holds: self.body.volume * vapour_density(1.0, before.t_c),
            films: &before.films,
            length,
        };
        let (heat, water) = self.held(step.air_holds, before.t_c, before.vapour);
        let first = Base {
            heat,
            water,
            length: GAMMA * length,
            near: before.vapour,
        };
        let one = self.stage(at, (&step, drive), first, (before.t_c, self.slope))?;
        let net = one.by_air + one.source - one.removal - one.onto_all - one.not_held;
        let second = Base {
            heat: heat + (1.0 - GAMMA) * length * one.heat,
            water: water + (1.0 - GAMMA) * length * net,
            length: GAMMA * length,
            near: one.vapour,
        };
        let end = self.stage(at, (&step, drive), second, (one.t_c, one.slope))?;
        let (air_holds, tub_full) = (step.air_holds, tub.is_some_and(|tub| tub.is_full()));
        self.slope = end.slope;
        Ok(Stages {
            share,
            one,
            end,
            air_holds,
            tub_full,
        })
    }

    fn stage(
        &self,
        at: usize,
        (step, drive): (&Step<'_>, Drive),
        base: Base,
        (near_c, slope): (f64, Option<f64>),
    ) -> Result<Rates, E> {
        let heating = self.heating(step.forcing);
        Stage {
            step,
            base,
            air: |t_c| (self.air)(at, t_c),
            heating: match drive {
                Drive::Held => heating,
                Drive::Full { .. } => heating.map(|(heating, _)| (heating, None)),
                Drive::Off { .. } => None,
            },
            near_c,
            slope,
        }
        .solve()
    }

    /// Enters a step into state, films, tub, sums and books.
    fn take(&mut self, at: usize, stages: &Stages, (forcing, sum): (&Forcing, &mut HourInside)) {
        let Stages {
            share,
            one,
            end,
            air_holds,
            tub_full,
        } = stages;
        let (share, air_holds) = (*share, *air_holds);
        if *tub_full {
            self.tub_full_at.get_or_insert(at);
        }
        if self.strategy.machine.is_some() && !self.running {
            sum.too_cold += share;
        }
        let before = (self.state.t_c, self.state.vapour);
        (self.state.t_c, self.state.vapour) = (end.t_c, end.vapour);
        let stages = [(1.0 - GAMMA, one), (GAMMA, end)];
        let length = share * SECONDS_PER_HOUR;
        let mean = |of: &dyn Fn(&Rates) -> f64| {
            stages
                .iter()
                .map(|(weight, rates)| weight * of(rates))
                .sum::<f64>()
        };
        let wet = one.onto.is_some() || end.onto.is_some();
        for at in 0..if wet { self.state.films.len() } else { 0 } {
            let onto = mean(&|rates| rates.onto.as_ref().map_or(0.0, |onto| onto[at])) * length;
            let film = (self.state.films[at] + onto).max(0.0);
            let most = FILM_MOST * self.body.surfaces[at].area;
            sum.condensed += onto.max(0.0);
            sum.run_off += (film - most).max(0.0);
            self.state.films[at] = film.min(most);
        }
        let removed = mean(&|rates| rates.removal) * length;
        let not_held = mean(&|rates| rates.not_held) * length;
        if self.strategy.tub.is_some() {
            self.state.in_tub += removed;
        }
        let rh = |t_c: f64, vapour: f64| vapour / saturation_pressure(t_c);
        let state = &self.state;
        sum.t_c += share * f64::midpoint(before.0, state.t_c);
        sum.vapour += share * f64::midpoint(before.1, state.vapour);
        sum.rh += share * f64::midpoint(rh(before.0, before.1), rh(state.t_c, state.vapour));
        sum.dry_air += share * mean(&|rates| rates.dry_air);
        sum.heater += share * mean(&|rates| rates.heater);
        sum.machine += share * mean(&|rates| rates.machine_power);
        sum.duty += share * mean(&|rates| rates.duty);
        sum.removed += removed;
        sum.condensed += not_held;
        sum.run_off += not_held;
        let (heat_before, water_before) = self.held(air_holds, before.0, before.1);
        let (heat_after, water_after) = self.held(air_holds, self.state.t_c, self.state.vapour);
        let outside = forcing.outside.humidity_ratio;
        let books = &mut self.books;
        let brought = mean(&|rates| rates.dry_air * outside) * length;
        books.water_by_air += brought;
        books.water_out_by_air += brought - mean(&|rates| rates.by_air) * length;
        books.water_sources += mean(&|rates| rates.source) * length;
        books.water_removed += removed;
        books.water_to_films += mean(&|rates| rates.onto_all) * length;
        books.water_not_held += not_held;
        books.water_stored += water_after - water_before;
        let inside = mean(&|rates| rates.heater + rates.machine_power + forcing.gains) * length;
        let of_water = mean(&|rates| {
            rates.removal + rates.given_back + rates.not_held - forcing.liquid_source
        }) * length
            * HEAT_OF_VAPORISATION;
        let envelope = forcing.envelope_gain * length;
        let through = mean(&|rates| rates.heat) * length - inside - of_water - envelope;
        books.heat_inside += inside;
        books.heat_of_water += of_water;
        books.heat_envelope += envelope;
        books.heat_through += through;
        books.heat_stored += heat_after - heat_before;
        books.heat_moved += inside.abs() + of_water.abs() + envelope.abs() + through.abs();
    }
}
