//! Finding the pressure of a single space: one unknown.
//!
//! Where a wide opening is all but balanced, its square root makes the imbalance infinitely
//! steep in p_i, and the answer differs from the opening's own outside pressure by less than
//! p_i can resolve. Therefore the search (1) reckons p_i from the outside pressure of the path
//! that reacts most strongly, as centre + remainder, and (2) takes Newton's step in the flow
//! through that path instead of in the pressure: in it, the imbalance is almost a straight line.
//! A bracket closes from both sides and bisection takes over where the steps gain too little.

use super::path::{Path, TwoAirs};
use super::{FanWay, Network, NetworkError, OpeningFlow, Solved, Space, Workspace};

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

/// The space and its gaps, and what is known of its pressure, all relative to `centre`.
struct Search<'a> {
    network: &'a Network,
    airs: TwoAirs,
    coefficients: &'a [f64],
    dynamic_pressure: f64,
    centre: f64,
    /// Path whose own outside pressure is the centre.
    centre_path: Option<&'a Path>,
    remainder: f64,
    low: f64,
    high: f64,
    /// Imbalance that ends the search, as a share of the through-flow.
    aim: f64,
}

/// Sums over all gaps and fans at one pressure.
#[derive(Clone, Copy)]
struct Evaluation {
    inflow: f64,
    outflow: f64,
    /// −d(inflow − outflow)/dp_i, kg/(s Pa).
    slope: f64,
    /// Index of the gap with the steepest slope, and that slope.
    steepest: usize,
    steepest_slope: f64,
}

/// What fans of one way can do.
struct Pull {
    /// kg/s.
    surplus: f64,
    /// Pa.
    stop: f64,
}

impl Evaluation {
    fn imbalance(&self) -> f64 {
        self.inflow - self.outflow
    }

    fn is_solved(&self, evaluations: u32, aim: f64) -> bool {
        let share = if evaluations <= EASY_EVALUATIONS {
            aim
        } else {
            aim.max(ACCEPTED)
        };
        self.imbalance().abs() <= (share * self.inflow.max(self.outflow)).max(NOTHING)
    }
}

/// Solves the network's only space, beginning at the pressure that the workspace holds.
pub(super) fn solve(
    network: &Network,
    space: &Space,
    dynamic_pressure: f64,
    coefficients: &[f64],
    workspace: &mut Workspace,
) -> Result<Solved, NetworkError> {
    let start = workspace.pressures.first().copied().unwrap_or_default();
    if !start.is_finite() {
        return Err(NetworkError::NotFinite);
    }
    workspace.start_from(&[start]);
    workspace.outer.clear();
    let nothing = OpeningFlow::default();
    workspace.outer.resize(network.outer.len(), nothing);
    let mut search = Search {
        network,
        airs: TwoAirs::new(network.outside.density, space.gas.density, network.datum),
        coefficients,
        dynamic_pressure,
        centre: 0.0,
        centre_path: None,
        remainder: start,
        low: 0.0,
        high: 0.0,
        aim: workspace.near_enough.unwrap_or(AIM),
    };
    let (solved, pressure) = match search.bracket()? {
        Some((low, high)) => {
            (search.low, search.high) = (low, high);
            search.remainder = start.clamp(low, high);
            search.run(&mut workspace.outer)
        }
        None => (search.sealed(start)?, start),
    };
    workspace.start_from(&[pressure]);
    workspace.fans.clear();
    let fans = network.fans.iter();
    workspace.fans.extend(fans.map(|fan| fan.at(pressure).flow));
    Ok(solved)
}

impl<'a> Search<'a> {
    /// The best balance that the steps came to, and the pressure there. The flows are left in
    /// `flows`.
    fn run(&mut self, flows: &mut [OpeningFlow]) -> (Solved, f64) {
        let mut last = f64::INFINITY;
        let mut slow = 0;
        let mut best = self.evaluate(flows);
        let mut evaluations = 1;
        let mut now = best;
        let (mut centre, mut remainder) = (self.centre, self.remainder);
        let mut best_is_last = true;
        while !now.is_solved(evaluations, self.aim) && evaluations < MOST_EVALUATIONS {
            let imbalance = now.imbalance();
            self.narrow(imbalance);
            // Two steps in a row that do not halve the imbalance: bisect.
            slow = if imbalance.abs() > 0.5 * last {
                slow + 1
            } else {
                0
            };
            last = imbalance.abs();
            if evaluations <= FREE_CENTRING || evaluations % 8 == 0 {
                self.centre_on(now.steepest);
            }
            let moved = if slow >= 2 {
                slow = 0;
                self.bisect()
            } else {
                self.step(&now)
            };
            if !moved {
                break;
            }
            now = self.evaluate(flows);
            evaluations += 1;
            best_is_last = now.imbalance().abs() <= best.imbalance().abs();
            if best_is_last {
                best = now;
                (centre, remainder) = (self.centre, self.remainder);
            }
        }
        if !best_is_last {
            (self.centre, self.remainder) = (centre, remainder);
            self.evaluate(flows);
        }
        let solved = Solved {
            inflow: best.inflow,
            outflow: best.outflow,
            imbalance: best.imbalance().abs(),
            steps: evaluations,
        };
        (solved, centre + remainder)
    }

    /// A space with nothing open, and no fan that a pressure stops, keeps the pressure it had.
    fn sealed(&self, pressure: f64) -> Result<Solved, NetworkError> {
        let now = self.with_fans(pressure);
        let imbalance = now.imbalance().abs();
        if imbalance > NOTHING {
            return Err(NetworkError::NoOpening);
        }
        Ok(Solved {
            inflow: now.inflow,
            outflow: now.outflow,
            imbalance,
            steps: 0,
        })
    }

    /// Pressures between which the answer lies; `None` where nothing is open and no fan is one that
    /// a pressure stops.
    ///
    /// Without fans the inside cannot lie beyond the outside pressures at the gaps. Fans shift it
    /// by no more than it takes to drive all their surplus through any one gap alone, and no
    /// further than to the pressure that stops them.
    fn bracket(&self) -> Result<Option<(f64, f64)>, NetworkError> {
        let [raises, lowers] = [FanWay::Supply, FanWay::Extract].map(|way| self.pull(way));
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let (mut above, mut below) = (f64::INFINITY, f64::INFINITY);
        let mut finite = true;
        for (gap, &coefficient) in self.network.outer.iter().zip(self.coefficients) {
            let middle = self.middle(&gap.path, coefficient);
            let reach = 0.5 * self.airs.span(&gap.path);
            finite &= (middle + reach).is_finite();
            if gap.path.is_closed() {
                continue;
            }
            low = low.min(middle - reach);
            high = high.max(middle + reach);
            let alone = |flow: f64| self.airs.level_pressure(&gap.path, flow).abs();
            if raises.surplus > 0.0 {
                above = above.min(alone(-raises.surplus));
            }
            if lowers.surplus > 0.0 {
                below = below.min(alone(lowers.surplus));
            }
        }
        if !finite {
            return Err(NetworkError::NotFinite);
        }
        let sealed = low > high;
        if sealed {
            if self.network.fans.iter().all(|fan| fan.is_constant()) {
                return Ok(None);
            }
            (low, high) = (0.0, 0.0);
        }
        // A single gap needs exactly that; the answer must lie inside the bracket, not at its end.
        const MARGIN: f64 = 1.01;
        if raises.surplus > 0.0 {
            high = (high + MARGIN * above).min(high.max(MARGIN * raises.stop));
        }
        if lowers.surplus > 0.0 {
            low = (low - MARGIN * below).max(low.min(-MARGIN * lowers.stop));
        }
        let ends = [low, high].map(|end| self.with_fans(end).imbalance());
        if low.is_finite() && high.is_finite() && !(sealed && (ends[0] < 0.0 || ends[1] > 0.0)) {
            Ok(Some((low, high)))
        } else {
            Err(NetworkError::NoOpening)
        }
    }

    /// What the fans of one way may move beyond what constant ones of the other way take up, and
    /// the pressure that stops them all.
    fn pull(&self, way: FanWay) -> Pull {
        let mut pull = Pull {
            surplus: 0.0,
            stop: 0.0,
        };
        for fan in &self.network.fans {
            if fan.free_flow <= 0.0 {
                continue;
            }
            if fan.way == way {
                pull.surplus += fan.free_flow;
                pull.stop = f64::max(pull.stop, fan.most_pressure);
            } else if fan.is_constant() {
                pull.surplus -= fan.free_flow;
            }
        }
        pull
    }

    fn middle(&self, path: &Path, coefficient: f64) -> f64 {
        self.airs.middle(path, coefficient * self.dynamic_pressure)
    }

    /// All gaps and fans at the inside pressure `centre + remainder`; leaves the flows in `flows`.
    fn evaluate(&self, flows: &mut [OpeningFlow]) -> Evaluation {
        let mut sum = self.with_fans(self.centre + self.remainder);
        let gaps = self.network.outer.iter().zip(self.coefficients);
        for (index, ((gap, &coefficient), through)) in gaps.zip(flows).enumerate() {
            let middle = (self.middle(&gap.path, coefficient) - self.centre) - self.remainder;
            let flow = self.airs.flow(&gap.path, middle);
            sum.inflow += flow.inward;
            sum.outflow += flow.outward;
            sum.slope += flow.slope;
            (through.forward, through.back) = (flow.inward, flow.outward);
            if flow.slope > sum.steepest_slope {
                sum.steepest_slope = flow.slope;
                sum.steepest = index;
            }
        }
        sum
    }

    /// The fans alone at an inside pressure.
    fn with_fans(&self, pressure: f64) -> Evaluation {
        let mut sum = Evaluation {
            inflow: 0.0,
            outflow: 0.0,
            slope: 0.0,
            steepest: 0,
            steepest_slope: 0.0,
        };
        for fan in &self.network.fans {
            let found = fan.at(pressure);
            sum.slope += found.slope;
            match fan.way {
                FanWay::Supply => sum.inflow += found.flow,
                FanWay::Extract => sum.outflow += found.flow,
            }
        }
        sum
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
        let (Some(gap), Some(&coefficient)) =
            (self.network.outer.get(index), self.coefficients.get(index))
        else {
            return;
        };
        let centre = self.middle(&gap.path, coefficient);
        self.centre_path = (self.airs.span(&gap.path) <= 0.0).then_some(&gap.path);
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
                let flow = self.airs.level_flow(path, -self.remainder);
                let next = flow - now.imbalance() * (now.steepest_slope / now.slope);
                -self.airs.level_pressure(path, next)
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
                self.airs.level_flow(path, -self.low) + self.airs.level_flow(path, -self.high);
            -self.airs.level_pressure(path, 0.5 * sum)
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
