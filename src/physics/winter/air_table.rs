//! The air that flows through in each hour, by the inside temperature: worked out at a few
//! temperatures and read off between them.

use crate::physics::counts::count;
use std::sync::OnceLock;

/// Step between two of the temperatures, in the root of the kelvin between inside and outside.
const STEP: f64 = 0.25;
/// Steps to either side of no difference: up to 100 K.
const REACH: usize = 40;
/// Places in an hour's list.
const PLACES: usize = 2 * REACH + 1;

/// Root of the kelvin below which the flow is always worked out: there it may turn between two places
/// without any curve through them showing it.
const EXACT: f64 = 1.0;

/// Share by which curves through neighbouring places may differ for what is read off between them to
/// be trusted.
const TRUSTED: f64 = 0.001;

/// The parabola through three values at 0, 1 and 2.
fn parabola([a, b, c]: [f64; 3], x: f64) -> f64 {
    a * (x - 1.0) * (x - 2.0) / 2.0 - b * x * (x - 2.0) + c * x * (x - 1.0) / 2.0
}

/// Dry air by hour and inside temperature.
///
/// A stack draws with about the root of the temperature difference, so the flow is nearly a straight
/// line in `s = ± √|T_i − T_o|`. It is worked out at every quarter of s that is asked for and read off
/// between by the cubic through the four next to it, or worked out exactly where these do not lie on a
/// smooth curve; a test holds the error under 1 % for every sample vehicle. Each place is worked out from nothing and at most once, so what is read off does
/// not depend on who asked first, nor on the number of threads.
pub struct AirTable<E> {
    /// By hour and place; an error in what is worked out stays.
    places: Vec<OnceLock<Result<f64, E>>>,
    outside_c: Vec<f64>,
    exact: Box<dyn Fn(usize, f64) -> Result<f64, E> + Send + Sync>,
}

impl<E: Clone> AirTable<E> {
    /// Nothing worked out yet. `exact` gives the dry air of an hour at an inside temperature, kg/s.
    pub fn new(
        outside_c: Vec<f64>,
        exact: impl Fn(usize, f64) -> Result<f64, E> + Send + Sync + 'static,
    ) -> Self {
        let mut places = Vec::new();
        places.resize_with(outside_c.len() * PLACES, OnceLock::new);
        Self {
            places,
            outside_c,
            exact: Box::new(exact),
        }
    }

    /// Dry air in an hour with the inside at a temperature, kg/s.
    ///
    /// # Errors
    /// Those of the exact flow.
    pub fn flow(&self, hour: usize, inside_c: f64) -> Result<f64, E> {
        let outside_c = self.outside_c.get(hour).copied().unwrap_or(f64::NAN);
        let warmer = inside_c - outside_c;
        let root = warmer.abs().sqrt().copysign(warmer);
        if root.abs() < EXACT {
            return (self.exact)(hour, inside_c);
        }
        let most = count(REACH);
        let at = (root / STEP + most).clamp(1.0, 2.0 * most - 1.5);
        let low = crate::physics::counts::whole(at);
        // A cubic that reached across equal temperatures would round off the corner there.
        let first = if low < REACH {
            (low - 1).min(REACH - 3)
        } else {
            (low - 1).max(REACH)
        };
        let x = at - count(first);
        let weights = [
            -(x - 1.0) * (x - 2.0) * (x - 3.0) / 6.0,
            x * (x - 2.0) * (x - 3.0) / 2.0,
            -x * (x - 1.0) * (x - 3.0) / 2.0,
            x * (x - 1.0) * (x - 2.0) / 6.0,
        ];
        let flows = [
            self.place(hour, first)?,
            self.place(hour, first + 1)?,
            self.place(hour, first + 2)?,
            self.place(hour, first + 3)?,
        ];
        let cubic: f64 = flows.iter().zip(weights).map(|(flow, w)| flow * w).sum();
        // Where wind and stack work against each other the flow turns sharply, and no smooth curve
        // follows it: there the parabolas through three of the four stray from the cubic.
        let [a, b, c, d] = flows;
        let strays = [parabola([a, b, c], x), parabola([b, c, d], x - 1.0)]
            .iter()
            .any(|other| (other - cubic).abs() > TRUSTED * cubic.abs());
        if strays {
            return (self.exact)(hour, inside_c);
        }
        Ok(cubic.max(0.0))
    }

    fn place(&self, hour: usize, place: usize) -> Result<f64, E> {
        let work = || {
            let root = (count(place) - count(REACH)) * STEP;
            let outside_c = self.outside_c.get(hour).copied().unwrap_or(f64::NAN);
            (self.exact)(hour, outside_c + root * root.abs())
        };
        match self.places.get(hour * PLACES + place) {
            Some(known) => known.get_or_init(work).clone(),
            None => work(),
        }
    }

    /// How many flows were worked out.
    #[must_use]
    pub fn worked_out(&self) -> usize {
        self.places
            .iter()
            .filter(|place| place.get().is_some())
            .count()
    }
}
