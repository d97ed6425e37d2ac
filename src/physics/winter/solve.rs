//! One implicit stage: the temperature at which no heat is left over, with the thermostat.

use super::Heating;
use super::moment::{AtTemperature, Base, Rates, Step};
use crate::physics::moisture::HEAT_OF_VAPORISATION;

/// Kelvin to which a temperature is found.
const FINE: f64 = 1e-8;
/// A bracket so narrow, K, in which heat is left over at one end and lacks at the other is a jump.
const CLOSE: f64 = 0.1 * FINE;
/// Looks along secants before the bracket is halved.
const SECANT_LOOKS: usize = 12;
/// A slope of this share of the guess is believed at least, and its inverse at most.
const LEAST_SLOPE: f64 = 0.02;
/// Looks after which a bracket is as fine as doubles allow.
const MOST_LOOKS: usize = 100;
/// How much of the humidity a kelvin more takes away: a guess for the first step.
const USUAL_FALL: f64 = 0.068;

/// A stage to be solved; `air` gives the dry air for an inside temperature, kg/s.
pub(super) struct Stage<'a, A> {
    pub(super) step: &'a Step<'a>,
    pub(super) base: Base,
    pub(super) air: A,
    /// The heater, with the set point of the hour.
    pub(super) heating: Option<(Heating, Option<f64>)>,
    /// A temperature near the answer, °C.
    pub(super) near_c: f64,
    /// What a kelvin more took in the stage before, J/K.
    pub(super) slope: Option<f64>,
}

impl<E, A: Fn(f64) -> Result<f64, E>> Stage<'_, A> {
    fn look(&self, t_c: f64, heater: f64) -> Result<Rates, E> {
        let water = self
            .heating
            .map_or(0.0, |(heating, _)| heating.water_per_joule);
        let flow = (self.air)(t_c)?;
        let heat = (heater, heater * water);
        Ok(AtTemperature::new(self.step, self.base, t_c, flow, heat).rates())
    }

    /// Heat that a kelvin more takes, J/K, without what condenses: a guess.
    fn guess(&self) -> f64 {
        let body = self.step.body;
        body.heat_capacity
            + self.base.length * body.fabric
            + HEAT_OF_VAPORISATION * body.buffer * USUAL_FALL * 0.7
    }

    /// By the guess alone: a slope that was found over next to nothing may be anything.
    fn is_even(&self, rates: &Rates) -> bool {
        rates.left.abs() <= FINE * self.guess()
    }

    /// What it took in the stage before, where that is believable, or the guess.
    fn first_slope(&self) -> f64 {
        let guess = self.guess();
        let believable = |slope: &f64| (LEAST_SLOPE * guess..=guess / LEAST_SLOPE).contains(slope);
        self.slope.filter(believable).unwrap_or(guess)
    }

    /// The temperature where no heat is left over with a given heater.
    ///
    /// Where a machine turns off at a temperature at which it still has heat to give, none may be: there it
    /// runs for a part of the time, and the rates are those of both sides by their shares.
    fn temperature(&self, heater: f64, start_c: f64) -> Result<Rates, E> {
        let mut ends: (Option<Rates>, Option<Rates>) = (None, None);
        let mut before: Option<(f64, f64)> = None;
        let mut x = start_c;
        let mut found = self.slope;
        let mut rates = self.look(x, heater)?;
        for looks in 0..MOST_LOOKS {
            if self.is_even(&rates) {
                break;
            }
            let left = rates.left;
            if left > 0.0 {
                ends.0 = Some(rates);
            } else {
                ends.1 = Some(rates);
            }
            let low = ends.0.as_ref().map_or(f64::NEG_INFINITY, |rates| rates.t_c);
            let high = ends.1.as_ref().map_or(f64::INFINITY, |rates| rates.t_c);
            if let (Some(one), Some(other)) = (&ends.0, &ends.1)
                && high - low <= CLOSE
            {
                rates = one.shared(other, one.left / (one.left - other.left));
                break;
            }
            let apart = before.filter(|(other, _)| (x - other).abs() > FINE);
            let secant = apart.map(|(other, before)| (left - before) / (x - other));
            let secant = secant.filter(|slope| *slope < 0.0);
            let slope = secant.unwrap_or_else(|| -self.first_slope());
            before = Some((x, left));
            found = Some(-slope);
            // No stage moves further than this, whatever the guess says.
            let next = x + (-left / slope).clamp(-30.0, 30.0);
            // A jump is closed in on by halves alone.
            x = if next > low && next < high && looks < SECANT_LOOKS {
                next
            } else {
                f64::midpoint(low.max(x - 30.0), high.min(x + 30.0))
            };
            rates = self.look(x, heater)?;
        }
        Ok(Rates {
            slope: found,
            ..rates
        })
    }

    /// The state at the end of the stage: a thermostat gives what its set point needs, up to the
    /// rating.
    pub(super) fn solve(&self) -> Result<Rates, E> {
        let Some((heating, set_c)) = self.heating else {
            return self.temperature(0.0, self.near_c);
        };
        let Some(set_c) = set_c else {
            return self.temperature(heating.rating, self.near_c);
        };
        let off = self.look(set_c, 0.0)?;
        if off.left >= 0.0 {
            return self.temperature(0.0, self.near_c.max(set_c));
        }
        let full = self.look(set_c, heating.rating)?;
        if full.left <= 0.0 {
            return self.temperature(heating.rating, self.near_c.min(set_c));
        }
        // Nearly a straight line in the heat; dry heat exactly.
        let (mut less, mut more) = ((0.0, off.left), (heating.rating, full.left));
        let mut found = full;
        for _ in 0..MOST_LOOKS {
            let heater = less.0 + (more.0 - less.0) * less.1 / (less.1 - more.1);
            found = self.look(set_c, heater)?;
            if self.is_even(&found) || more.0 - less.0 <= FINE {
                break;
            }
            if found.left > 0.0 {
                more = (heater, found.left);
            } else {
                less = (heater, found.left);
            }
        }
        found.slope = self.slope;
        Ok(found)
    }
}
