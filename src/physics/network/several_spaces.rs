//! Finding the flows of several spaces, or of none.
//!
//! ```text
//! least of  Σ ∫₀^m (Δp(m) − Δp driven) dm  over the flows m that balance every space
//! Newton    m += share · slope · (Δp of the spaces' new pressures − Δp(m))
//! ```
//! The function is convex, since every law rises, and goes on rising in every direction. The slope
//! of no law is taken steeper than at its least flow worth telling, so that the step is always one
//! downhill and never loses its way; the line search takes most of the fall along it. Such steps
//! come as near to the one lowest point as wanted from anywhere, and near it they are Newton's,
//! which double the digits (Todini and Pilati's gradient method for pipe networks \[M\], with a
//! line search).

use super::edge::Edge;
use super::elimination::Conductances;
use super::path::TwoAirs;
use super::settle::WidestWays;
use super::{Fan, Network, NetworkError, Solved};

/// Mismatch from which one more step is the last: Newton's method then leaves next to nothing.
const LAST_STEP: f64 = 1e-9;
/// Mismatch from which every step is taken whole: a line search would see nothing but rounding.
/// It is also the greatest that an answer may have when rounding lets no step come nearer.
const NEAR: f64 = 1e-6;
/// Steps that bring no law nearer after which nothing is left but rounding.
const STALLED: u32 = 4;
/// Share of the pressure span by which no law is ever told to be off.
const FAINT: f64 = 1e-20;
/// Flow that is no air worth the name, kg/s: a litre in some four hundred thousand years.
const NOTHING: f64 = 1e-16;
/// Steps of Newton's method at most.
const MOST_STEPS: u32 = 400;
/// Evaluations of one line search at most.
const LINE_STEPS: u32 = 100;
/// A step is taken whole if it leaves no more than this share of the fall it began with.
const WHOLE: f64 = 0.1;

/// What the search has of a network.
#[derive(Clone, Debug, Default)]
pub(super) struct SeveralSpaces {
    /// Outer gaps, then inner openings, then fans that a pressure stops, in the network's order.
    pub(super) edges: Vec<Edge>,
    /// What fans that no pressure stops bring each space, kg/s net.
    pub(super) sources: Vec<f64>,
    /// Flow sums of each space.
    pub(super) balance: Vec<f64>,
    conductances: Conductances,
    pub(super) pressures: Vec<f64>,
    /// What the pressures' own digits cannot hold, Pa.
    remainders: Vec<f64>,
    /// Group of joined spaces that each belongs to, and whether the group has a way outside.
    pub(super) group: Vec<usize>,
    pub(super) opens: Vec<bool>,
    pub(super) widest: WidestWays,
}

impl SeveralSpaces {
    /// Solves a network that was found sound.
    pub(super) fn solve(
        &mut self,
        network: &Network,
        dynamic_pressure: f64,
        coefficients: &[f64],
    ) -> Result<Solved, NetworkError> {
        self.lay_out(network, dynamic_pressure, coefficients);
        self.join(network)?;
        let span = self.pressure_span();
        self.begin(span);
        let (mut steps, mut stalled, mut best) = (0, 0, f64::INFINITY);
        loop {
            self.solve_pressures();
            let mismatch = self.propose(FAINT * span);
            if !mismatch.is_finite() {
                return Err(NetworkError::NotFinite);
            }
            if mismatch < 0.5 * best {
                (best, stalled) = (mismatch, 0);
            } else {
                stalled += 1;
            }
            let near = mismatch <= NEAR;
            if steps >= MOST_STEPS && !near {
                return Err(NetworkError::NotSolved);
            }
            let share = if near { 1.0 } else { self.line_search() };
            self.take(share);
            steps += 1;
            if near && (mismatch <= LAST_STEP || stalled >= STALLED || steps >= MOST_STEPS) {
                break;
            }
        }
        self.edges.iter_mut().for_each(Edge::hold_within);
        self.settle();
        if self.edges.iter().all(Edge::is_lawful) {
            Ok(self.sum_up(network, steps))
        } else {
            Err(NetworkError::NoOpening)
        }
    }

    fn lay_out(&mut self, network: &Network, dynamic_pressure: f64, coefficients: &[f64]) {
        let count = network.spaces.len();
        let density = |space: usize| network.spaces[space].gas.density;
        let airs = |out: f64, space: usize| TwoAirs::new(out, density(space), network.datum);
        self.edges.clear();
        let outer = network.outer.iter().zip(coefficients);
        self.edges.extend(outer.map(|(gap, coefficient)| {
            let airs = airs(network.outside.density, gap.space);
            Edge::outer(gap, airs, coefficient * dynamic_pressure)
        }));
        let inner = network.inner.iter();
        self.edges.extend(
            inner.map(|opening| Edge::inner(opening, airs(density(opening.from), opening.to))),
        );
        self.sources.clear();
        self.sources.resize(count, 0.0);
        for fan in &network.fans {
            if fan.is_constant() {
                self.sources[fan.space] += fan.free_gain();
            } else {
                self.edges.push(Edge::fan(fan));
            }
        }
        for list in [&mut self.balance, &mut self.pressures, &mut self.remainders] {
            list.clear();
            list.resize(count, 0.0);
        }
    }

    /// Finds which spaces are joined, and which of those groups have a way outside.
    fn join(&mut self, network: &Network) -> Result<(), NetworkError> {
        let count = network.spaces.len();
        self.group.clear();
        self.group.extend(0..count);
        // Each pass hands the least number on to a neighbour; a chain needs as many as spaces.
        for _ in 0..count {
            for edge in self.edges.iter().filter(|edge| edge.is_open()) {
                if let Some(from) = edge.from {
                    let least = self.group[from].min(self.group[edge.to]);
                    self.group[from] = least;
                    self.group[edge.to] = least;
                }
            }
        }
        self.opens.clear();
        self.opens.resize(count, false);
        for edge in self.edges.iter().filter(|edge| edge.is_open()) {
            if edge.from.is_none() {
                self.opens[self.group[edge.to]] = true;
            }
        }
        for first in (0..count).filter(|at| self.group[*at] == *at && !self.opens[*at]) {
            let spaces = (0..count).filter(|at| self.group[*at] == first);
            let (mut net, mut gross) = (0.0, 0.0);
            for at in spaces {
                let fans = network.fans.iter().filter(|fan| fan.space == at);
                net += self.sources[at];
                gross += fans.map(|fan| fan.free_flow).sum::<f64>();
            }
            if net.abs() > 1e-12 * gross {
                return Err(NetworkError::NoOpening);
            }
        }
        Ok(())
    }

    /// What wind and weight amount to, Pa; never zero.
    fn pressure_span(&self) -> f64 {
        let drives = self.edges.iter().map(|edge| edge.drive.abs());
        drives.fold(1e-3, f64::max)
    }

    /// Flows to begin with: those of straight laws.
    fn begin(&mut self, span: f64) {
        for edge in &mut self.edges {
            edge.straighten(span);
        }
        self.solve_pressures();
        self.propose(0.0);
        self.take(1.0);
    }

    /// Moves the pressures to where the laws, taken as straight lines at the flows they have,
    /// balance every space.
    fn solve_pressures(&mut self) {
        let n = self.sources.len();
        self.conductances.clear(n);
        self.balance.copy_from_slice(&self.sources);
        self.drive();
        for edge in self.edges.iter().filter(|edge| edge.is_open()) {
            let flow = edge.flow + edge.slope * (edge.driven - edge.pressure);
            self.balance[edge.to] += flow;
            match edge.from {
                Some(from) => {
                    self.conductances.add_between(from, edge.to, edge.slope);
                    self.balance[from] -= flow;
                }
                None => self.conductances.add_to_outside(edge.to, edge.slope),
            }
        }
        // A group without a way outside has any pressure: its first space stays at zero.
        for at in 0..n {
            if self.group[at] == at && !self.opens[at] {
                self.conductances.add_to_outside(at, 1.0);
            }
        }
        self.conductances.solve(&mut self.balance);
        for at in 0..n {
            let (sum, lost) = two_sum(self.pressures[at], self.balance[at]);
            let (pressure, remainder) = two_sum(sum, self.remainders[at] + lost);
            self.pressures[at] = pressure;
            self.remainders[at] = remainder;
        }
    }

    /// Pressure differences that the spaces' pressures make. What a pressure's own digits cannot
    /// hold lies in its remainder: two spaces that a wide doorway levels differ by less.
    fn drive(&mut self) {
        for edge in &mut self.edges {
            let to = (self.pressures[edge.to], self.remainders[edge.to]);
            let from = edge.from.map_or((0.0, 0.0), |from| {
                (self.pressures[from], self.remainders[from])
            });
            let (between, lost) = two_sum(from.0, -to.0);
            let (driven, lost_too) = two_sum(between, edge.drive);
            edge.driven = driven + (lost + lost_too + (from.1 - to.1));
        }
    }

    /// Change of each flow that the straight lines ask for; gives the greatest as a share of its
    /// flow, leaving out what is no more than a `faint` pressure off.
    fn propose(&mut self, faint: f64) -> f64 {
        self.drive();
        let mut most = 0.0_f64;
        for edge in self.edges.iter_mut().filter(|edge| edge.is_open()) {
            let off = edge.driven - edge.pressure;
            edge.step = edge.slope * off;
            if !edge.step.is_finite() {
                return f64::INFINITY;
            }
            if off.abs() > faint {
                most = most.max(edge.step.abs() / edge.gross.max(NOTHING / LAST_STEP));
            }
        }
        most
    }

    /// How the function that is made least changes along the proposed change, after a share of
    /// it: `Σ (Δp(m) − Δp driven) dm`. The pressures of the spaces add nothing to the sum, since
    /// the change balances every space; with them it is below zero at the start whatever the
    /// rounding.
    fn fall(&self, share: f64) -> f64 {
        let open = self.edges.iter().filter(|edge| edge.is_open());
        open.map(|edge| {
            let flow = edge.flow + share * edge.step;
            let pressure = edge.pressure_for(flow);
            (pressure - edge.driven) * edge.step
        })
        .sum()
    }

    /// Share of the change to make: all of it where that comes near the lowest point of the
    /// line, otherwise the lowest point. The slope along the line grows, so that a bracket
    /// always closes in on it. A change ends where the first fan's law bends: beyond it the
    /// straight lines do not hold.
    fn line_search(&self) -> f64 {
        let open = self.edges.iter().filter(|edge| edge.is_open());
        let whole = open.map(Edge::reach).fold(1.0, f64::min);
        let first = self.fall(0.0);
        let last = self.fall(whole);
        if last <= WHOLE * first.abs() {
            return whole;
        }
        let (mut low, mut high) = ((0.0, first), (whole, last));
        for step in 0..LINE_STEPS {
            let secant = low.0 + (high.0 - low.0) * (-low.1) / (high.1 - low.1);
            // A secant that keeps moving one end only is followed by halving.
            let share = if step % 2 == 0 && secant > low.0 && secant < high.0 {
                secant
            } else {
                0.5 * (low.0 + high.0)
            };
            let fall = self.fall(share);
            if fall.abs() <= WHOLE * first.abs() {
                return share;
            }
            if fall < 0.0 {
                low = (share, fall);
            } else {
                high = (share, fall);
            }
        }
        0.5 * (low.0 + high.0)
    }

    /// What each fan moves, kg/s, in the network's order.
    pub(super) fn fan_flows<'a>(&'a self, network: &'a Network) -> impl Iterator<Item = f64> + 'a {
        let mut edges = self
            .edges
            .iter()
            .skip(network.outer.len() + network.inner.len());
        network.fans.iter().map(move |fan: &Fan| {
            let edge = if fan.is_constant() {
                None
            } else {
                edges.next()
            };
            edge.map_or(fan.free_flow, |edge| edge.flow.abs())
        })
    }

    fn take(&mut self, share: f64) {
        for edge in self.edges.iter_mut().filter(|edge| edge.is_open()) {
            edge.set(edge.flow + share * edge.step);
        }
    }

    /// Surplus of each space, into `balance`, kg/s.
    pub(super) fn find_surpluses(&mut self) {
        self.balance.copy_from_slice(&self.sources);
        for edge in &self.edges {
            self.balance[edge.to] += edge.flow;
            if let Some(from) = edge.from {
                self.balance[from] -= edge.flow;
            }
        }
    }

    /// Greatest surplus of any space, kg/s.
    fn surplus(&mut self) -> f64 {
        self.find_surpluses();
        let surpluses = self.balance.iter();
        surpluses.fold(0.0, |most, left| left.abs().max(most))
    }

    fn sum_up(&mut self, network: &Network, steps: u32) -> Solved {
        let (mut inflow, mut outflow) = (0.0, 0.0);
        for fan in network.fans.iter().filter(|fan| fan.is_constant()) {
            inflow += fan.free_gain().max(0.0);
            outflow += (-fan.free_gain()).max(0.0);
        }
        for edge in self.edges.iter().filter(|edge| edge.from.is_none()) {
            let flows = edge.flows();
            inflow += flows.forward;
            outflow += flows.back;
        }
        Solved {
            inflow,
            outflow,
            imbalance: self.surplus(),
            steps,
        }
    }
}

/// A sum and what its rounding lost (Knuth).
fn two_sum(a: f64, b: f64) -> (f64, f64) {
    let sum = a + b;
    let of_b = sum - a;
    (sum, (a - (sum - of_b)) + (b - of_b))
}
