//! Finding the inside pressure.
//!
//! Where a wide opening is all but balanced, its square root makes the imbalance infinitely
//! steep in p_i, and the answer differs from the opening's own outside pressure by less than
//! p_i can resolve. Therefore the search (1) reckons p_i from the outside pressure of the path
//! that reacts most strongly, as centre + remainder, and (2) takes Newton's step in the flow
//! through that path instead of in the pressure: in it, the imbalance is almost a straight line.
//! A bracket closes from both sides and bisection takes over where the steps gain too little.

use super::evaluate::{Evaluation, Frame};
use super::{Balance, BalanceError, Path, Solved};

/// Imbalance aimed at, as a share of the through-flow.
const AIM: f64 = 1e-12;
/// Imbalance accepted once [`EASY_EVALUATIONS`] did not reach the aim.
const ACCEPTED: f64 = 1e-9;
/// Imbalance that is no air at all, kg/s: some thousand molecules a second.
const NOTHING: f64 = 1e-22;
/// Evaluations after which [`ACCEPTED`] is good enough.
const EASY_EVALUATIONS: u32 = 16;
/// Evaluations after which the search ends whatever was reached. Bisection needs about 60 to
/// exhaust the digits of a number, and may do so anew after each change of the centre.
const MOST_EVALUATIONS: u32 = 400;
/// Evaluations during which the centre may follow the steepest path at every step.
const FREE_CENTRING: u32 = 12;

/// What is known of the inside pressure, all relative to `centre`.
struct Search<'a> {
    balance: &'a Balance,
    frame: &'a Frame,
    coefficients: &'a [f64],
    centre: f64,
    /// Path whose own outside pressure is the centre.
    centre_path: Option<&'a Path>,
    remainder: f64,
    low: f64,
    high: f64,
}

pub(super) fn solve(
    balance: &Balance,
    frame: &Frame,
    coefficients: &[f64],
    start: f64,
) -> Result<Solved, BalanceError> {
    let Some((low, high)) = bracket(balance, frame, coefficients)? else {
        return sealed(balance, start);
    };
    let mut search = Search {
        balance,
        frame,
        coefficients,
        centre: 0.0,
        centre_path: None,
        remainder: start.clamp(low, high),
        low,
        high,
    };
    let mut last = f64::INFINITY;
    let mut slow = 0;
    let mut best = search.evaluate();
    let mut iterations = 1;
    let mut now = best;
    let (mut centre, mut remainder) = (search.centre, search.remainder);
    while !is_struck(&now, iterations) && iterations < MOST_EVALUATIONS {
        let imbalance = now.imbalance();
        search.narrow(imbalance);
        // Two steps in a row that do not halve the imbalance: bisect.
        slow = if imbalance.abs() > 0.5 * last {
            slow + 1
        } else {
            0
        };
        last = imbalance.abs();
        if iterations <= FREE_CENTRING || iterations % 8 == 0 {
            search.centre_on(now.steepest);
        }
        let moved = if slow >= 2 {
            search.bisect()
        } else {
            search.step(&now)
        };
        if slow >= 2 {
            slow = 0;
        }
        if !moved {
            break;
        }
        now = search.evaluate();
        iterations += 1;
        if now.imbalance().abs() <= best.imbalance().abs() {
            best = now;
            (centre, remainder) = (search.centre, search.remainder);
        }
    }
    Ok(Solved {
        inside_pressure: centre + remainder,
        inflow: best.inflow,
        outflow: best.outflow,
        imbalance: best.imbalance(),
        iterations,
        centre,
        remainder,
    })
}

fn is_struck(now: &Evaluation, iterations: u32) -> bool {
    let share = if iterations <= EASY_EVALUATIONS {
        AIM
    } else {
        ACCEPTED
    };
    now.imbalance().abs() <= (share * now.inflow.max(now.outflow)).max(NOTHING)
}

/// A body with nothing open keeps the pressure it had.
fn sealed(balance: &Balance, start: f64) -> Result<Solved, BalanceError> {
    let imbalance = balance.supply - balance.extract;
    if imbalance.abs() > NOTHING {
        return Err(BalanceError::NoOpening);
    }
    Ok(Solved {
        inside_pressure: start,
        inflow: balance.supply,
        outflow: balance.extract,
        imbalance,
        iterations: 0,
        centre: 0.0,
        remainder: start,
    })
}

/// Pressures between which the answer lies; `None` where nothing is open.
///
/// Without fans the inside cannot lie beyond the outside pressures at the gaps. Fans shift it by
/// no more than it takes to drive all their surplus through any one gap alone.
fn bracket(
    balance: &Balance,
    frame: &Frame,
    coefficients: &[f64],
) -> Result<Option<(f64, f64)>, BalanceError> {
    let surplus = balance.supply - balance.extract;
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut beyond = f64::INFINITY;
    let mut finite = true;
    for (path, &coefficient) in balance.paths.iter().zip(coefficients) {
        let middle = frame.middle(path, coefficient);
        let reach = 0.5 * frame.span(path);
        finite &= (middle + reach).is_finite();
        if path.inward.is_closed() && path.outward.is_closed() {
            continue;
        }
        low = low.min(middle - reach);
        high = high.max(middle + reach);
        if surplus.abs() > 0.0 {
            beyond = beyond.min(frame.pressure_for(path, surplus.abs(), surplus > 0.0));
        }
    }
    if !finite {
        return Err(BalanceError::NotFinite);
    }
    if low > high {
        return Ok(None);
    }
    // A single gap needs exactly that; the answer must lie inside the bracket, not at its end.
    const ROOM: f64 = 1.01;
    if surplus > 0.0 {
        high += ROOM * beyond;
    } else if surplus < 0.0 {
        low -= ROOM * beyond;
    }
    if low.is_finite() && high.is_finite() {
        Ok(Some((low, high)))
    } else {
        Err(BalanceError::NoOpening)
    }
}

impl<'a> Search<'a> {
    fn evaluate(&self) -> Evaluation {
        self.frame
            .evaluate(self.balance, self.coefficients, self.centre, self.remainder)
    }

    /// Too much air coming in means that the answer lies higher, and the reverse.
    fn narrow(&mut self, imbalance: f64) {
        if imbalance > 0.0 {
            self.low = self.remainder;
        } else {
            self.high = self.remainder;
        }
    }

    /// Reckons from the outside pressure of another path, without losing the answer to rounding.
    fn centre_on(&mut self, index: usize) {
        let (Some(path), Some(&coefficient)) =
            (self.balance.paths.get(index), self.coefficients.get(index))
        else {
            return;
        };
        let centre = self.frame.middle(path, coefficient);
        self.centre_path = (self.frame.span(path) <= 0.0).then_some(path);
        let shift = self.centre - centre;
        if shift.abs() > 0.0 {
            let rounding = 4.0 * f64::EPSILON * (self.centre.abs() + centre.abs());
            let slack = |end: f64| rounding + 4.0 * f64::EPSILON * end.abs();
            self.low += shift - slack(self.low);
            self.high += shift + slack(self.high);
            self.remainder += shift;
            self.centre = centre;
        }
    }

    /// Newton's step in the flow through the steepest path, or in the pressure where that path is
    /// tall; bisection where the step leaves the bracket.
    fn step(&mut self, now: &Evaluation) -> bool {
        let next = match self.centre_path {
            Some(path) => {
                let flow = self.frame.level_flow(path, -self.remainder);
                let next = flow - now.imbalance() * (now.steepest_slope / now.slope);
                -self.frame.level_pressure(path, next)
            }
            None => self.remainder + now.imbalance() / now.slope,
        };
        if next > self.low && next < self.high {
            let moved = next.to_bits() != self.remainder.to_bits();
            self.remainder = next;
            return moved || self.bisect();
        }
        self.bisect()
    }

    /// Halves the bracket in the flow through the centre's path, which tells apart pressures of
    /// very different size; in the pressure where that fails. False once nothing is left between.
    fn bisect(&mut self) -> bool {
        let within = |value: f64| value > self.low && value < self.high;
        let by_flow = self.centre_path.map(|path| {
            let sum =
                self.frame.level_flow(path, -self.low) + self.frame.level_flow(path, -self.high);
            -self.frame.level_pressure(path, 0.5 * sum)
        });
        let by_pressure = 0.5 * (self.low + self.high);
        match by_flow.filter(|value| within(*value)) {
            Some(value) => self.remainder = value,
            None if within(by_pressure) => self.remainder = by_pressure,
            None => return false,
        }
        true
    }
}
