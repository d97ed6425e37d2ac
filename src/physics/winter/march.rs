//! Step by step through the season.
#![expect(
    clippy::indexing_slicing,
    reason = "films, surfaces and hours are parallel lists; a missing number must never turn into a silent default"
)]

use super::moment::{Base, Rates, Step};
use super::outcome::{Books, HourInside, Inside};
use super::solve::Stage;
use super::{Body, FILM_MOST, Forcing, SPIN_UP_DAYS, Strategy};
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
    let mut marcher = Marcher {
        body,
        strategy,
        air,
        steps,
        state: start(body, hours),
        books: Books::default(),
        tub_full_at: None,
    };
    let spin_up = hours.len().min(SPIN_UP_DAYS * 24);
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

struct Marcher<'a, A> {
    body: &'a Body,
    strategy: &'a Strategy<'a>,
    air: &'a A,
    steps: u32,
    state: Inside,
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

    /// One step: two stages, then the films and the tub.
    fn step(
        &mut self,
        at: usize,
        forcing: &Forcing,
        share: f64,
        sum: &mut HourInside,
    ) -> Result<(), E> {
        let length = share * SECONDS_PER_HOUR;
        let before = self.state.clone();
        let strategy = self.strategy;
        let warm_enough = |machine: &&crate::physics::machine::Machine| {
            before.t_c + AT_LOWEST >= machine.lowest_room_c()
        };
        let tub = strategy
            .tub
            .map(|tub| tub.standing(before.in_tub, before.t_c));
        if tub.is_some_and(|tub| tub.is_full()) {
            self.tub_full_at.get_or_insert(at);
        }
        let step = Step {
            body: self.body,
            forcing,
            machine: strategy.machine.filter(warm_enough),
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
        let one = self.stage(at, &step, first, before.t_c)?;
        let net = one.by_air + one.source - one.removal - one.onto_all - one.not_held;
        let second = Base {
            heat: heat + (1.0 - GAMMA) * length * one.heat,
            water: water + (1.0 - GAMMA) * length * net,
            length: GAMMA * length,
            near: one.vapour,
        };
        let two = self.stage(at, &step, second, one.t_c)?;
        sum.too_cold += if strategy.machine.is_some() && step.machine.is_none() {
            share
        } else {
            0.0
        };
        let air_holds = step.air_holds;
        self.state.t_c = two.t_c;
        self.state.vapour = two.vapour;
        self.take(
            &before,
            &[(1.0 - GAMMA, &one), (GAMMA, &two)],
            (share, air_holds),
            (forcing, sum),
        );
        Ok(())
    }

    fn stage(&self, at: usize, step: &Step<'_>, base: Base, near_c: f64) -> Result<Rates, E> {
        let present = step.forcing.present;
        let heating = self
            .strategy
            .heating
            .filter(|heating| present || !heating.only_present);
        Stage {
            step,
            base,
            air: |t_c| (self.air)(at, t_c),
            heating: heating.map(|heating| {
                let set_c = if present {
                    heating.set_present_c.or(heating.set_c)
                } else {
                    heating.set_c
                };
                (heating, set_c)
            }),
            near_c,
        }
        .solve()
    }

    /// Enters a step into films, tub, sums and books.
    fn take(
        &mut self,
        before: &Inside,
        stages: &[(f64, &Rates); 2],
        (share, air_holds): (f64, f64),
        (forcing, sum): (&Forcing, &mut HourInside),
    ) {
        let length = share * SECONDS_PER_HOUR;
        let mean = |of: &dyn Fn(&Rates) -> f64| {
            stages
                .iter()
                .map(|(weight, rates)| weight * of(rates))
                .sum::<f64>()
        };
        for at in 0..self.state.films.len() {
            let onto = mean(&|rates| rates.onto[at]) * length;
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
        sum.t_c += share * f64::midpoint(before.t_c, state.t_c);
        sum.vapour += share * f64::midpoint(before.vapour, state.vapour);
        sum.rh += share * f64::midpoint(rh(before.t_c, before.vapour), rh(state.t_c, state.vapour));
        sum.dry_air += share * mean(&|rates| rates.dry_air);
        sum.heater += share * mean(&|rates| rates.heater);
        sum.machine += share * mean(&|rates| rates.machine_power);
        sum.duty += share * mean(&|rates| rates.duty);
        sum.removed += removed;
        sum.condensed += not_held;
        sum.run_off += not_held;
        let (heat_before, water_before) = self.held(air_holds, before.t_c, before.vapour);
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
