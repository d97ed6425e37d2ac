//! The pressure of a single space at which as much air enters as leaves.
//!
//! Near the pressure at which a wide opening is balanced the flow is all but a step in the pressure:
//! Newton's steps, tangents of the surplus against the pressure, then go back and forth. The other way
//! round, the pressure against the surplus, the same law is a smooth curve, `p ~ y |y|`. So steps are
//! taken on that curve: by its tangent first, by the cubic through the last two places with their
//! tangents (Hermite's) from then on, and within a bracket. The inflow at balance is read off in the
//! same way:
//!
//! ```text
//! y = in − out,   dp/dy = −1/S,   d in/dy = S_in/S
//! ```
//! where S is the slope of both flows together and S_in that of the inflow, kg/(s Pa).

use super::evaluate::Total;
use crate::physics::network::Solved;

/// Evaluations after which the exact balance takes over.
const MOST_EVALUATIONS: u32 = 12;

/// Two places on one side are close where the surplus of the nearer is more than this share of the other's.
const CLOSE: f64 = 0.5;

/// A balance, and the pressure at which it lies.
pub(super) struct Balance {
    pub(super) pressure: f64,
    pub(super) solved: Solved,
}

/// A number and its slope, both against the surplus.
#[derive(Clone, Copy)]
struct Along {
    value: f64,
    slope: f64,
}

/// What was found at one pressure.
#[derive(Clone, Copy)]
struct Place {
    /// kg/s.
    surplus: f64,
    pressure: Along,
    inflow: Along,
    /// The greater of inflow and outflow, kg/s.
    through: f64,
}

/// Pressure and inflow where the surplus is expected to be zero.
#[derive(Clone, Copy)]
struct Expected {
    pressure: f64,
    inflow: f64,
}

/// Looks for the balance from a pressure on, with what comes in and goes out at any other told by
/// `evaluate`. What remains of the surplus is at most `tolerance` of the flow; `None` where the steps do
/// not get there soon.
#[inline(always)]
pub(super) fn search(
    start: f64,
    tolerance: f64,
    mut evaluate: impl FnMut(f64) -> Total,
) -> Option<Balance> {
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    let (mut pressure, mut before) = (start, None);
    for steps in 1..=MOST_EVALUATIONS {
        let now = Place::of(pressure, &evaluate(pressure));
        let curved = before.and_then(|before| now.curved(&before));
        if now.is_enough(tolerance) {
            let expected = curved.unwrap_or_else(|| now.straight());
            let inflow = now.within_what_flows(expected.inflow);
            return Some(Balance {
                pressure: expected.pressure,
                solved: Solved {
                    inflow,
                    outflow: inflow,
                    imbalance: now.surplus.abs(),
                    steps,
                },
            });
        }
        if now.surplus > 0.0 {
            low = pressure;
        } else {
            high = pressure;
        }
        let within = |next: &f64| *next > low && *next < high;
        let curved = curved.map(|curved| curved.pressure).filter(within);
        let straight = || Some(now.straight().pressure).filter(within);
        pressure = curved.or_else(straight).unwrap_or(0.5 * (low + high));
        if !pressure.is_finite() {
            break;
        }
        before = Some(now);
    }
    None
}

impl Place {
    #[inline]
    fn of(pressure: f64, total: &Total) -> Self {
        let per_slope = 1.0 / total.slope;
        Self {
            surplus: total.inflow - total.outflow,
            pressure: Along {
                value: pressure,
                slope: -per_slope,
            },
            inflow: Along {
                value: total.inflow,
                slope: total.slope_in * per_slope,
            },
            through: total.inflow.max(total.outflow),
        }
    }

    /// By the tangent.
    #[inline]
    fn straight(&self) -> Expected {
        let at_balance = |along: Along| along.value - self.surplus * along.slope;
        Expected {
            pressure: at_balance(self.pressure),
            inflow: at_balance(self.inflow),
        }
    }

    /// By the cubic through this place and another, with their tangents; `None` where both lie on one
    /// side and so close together that it would swing too far.
    #[inline]
    fn curved(&self, other: &Self) -> Option<Expected> {
        let on_both_sides = self.surplus * other.surplus < 0.0;
        if !on_both_sides && self.surplus.abs() > CLOSE * other.surplus.abs() {
            return None;
        }
        let apart = self.surplus - other.surplus;
        let t = -other.surplus / apart;
        // Hermite's base: 3 t² − 2 t³, t (1 − t)² and −t² (1 − t).
        let rest = 1.0 - t;
        let here = t * t * (3.0 - 2.0 * t);
        let (slope_there, slope_here) = (apart * t * rest * rest, -apart * t * t * rest);
        let at_balance = |here_along: Along, there: Along| {
            there.value
                + here * (here_along.value - there.value)
                + slope_there * there.slope
                + slope_here * here_along.slope
        };
        Some(Expected {
            pressure: at_balance(self.pressure, other.pressure),
            inflow: at_balance(self.inflow, other.inflow),
        })
    }

    /// The inflow at balance lies between what comes in here and what goes out.
    #[inline]
    fn within_what_flows(&self, inflow: f64) -> f64 {
        let out = self.inflow.value - self.surplus;
        inflow
            .max(self.inflow.value.min(out))
            .min(self.inflow.value.max(out))
    }

    /// Whether the surplus is within the tolerance, and the slopes say what it comes to.
    #[inline]
    fn is_enough(&self, tolerance: f64) -> bool {
        self.surplus.abs() <= tolerance * self.through && self.inflow.slope.is_finite()
    }
}
