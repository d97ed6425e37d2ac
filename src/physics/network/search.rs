//! Finding the flows.

use super::cholesky;
use super::{Network, NetworkError, NetworkRoom};

/// Mismatch of any law, as a share of the greatest flow, from which one more step is the last:
/// Newton's method then leaves next to nothing.
const LAST_STEP: f64 = 1e-9;
/// Mismatch from which every step is taken whole: a line search would see nothing but rounding.
const NEAR: f64 = 1e-6;
/// Share of the span that no law need be held to: a gate without limit passes any flow at it.
const RESOLVED: f64 = 1e-15;
/// Flow that is no air at all, kg/s: some thousand molecules a second.
const NOTHING: f64 = 1e-22;
/// Steps of Newton's method at most.
const MOST_STEPS: u32 = 200;
/// Evaluations of one line search at most.
const LINE_STEPS: u32 = 30;
/// A step is taken whole if it leaves no more than this share of the fall it began with.
const WHOLE: f64 = 0.1;
/// Greatest slope, in greatest flow over greatest pressure: far beyond, Cholesky's factors would
/// lose all their digits.
const STEEPEST: f64 = 1e12;

/// A network's balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SolvedNetwork {
    /// Outside air coming in through all gaps and supply fans, kg/s.
    pub inflow: f64,
    /// Air going out through all gaps and extract fans, kg/s.
    pub outflow: f64,
    /// Greatest surplus left in any space, kg/s.
    pub imbalance: f64,
    /// Steps taken.
    pub steps: u32,
}

pub(super) fn solve(
    network: &Network,
    room: &mut NetworkRoom,
) -> Result<SolvedNetwork, NetworkError> {
    let span = room.pressure_span();
    room.begin(span);
    let mut steps = 0;
    loop {
        let flow = room.greatest_flow();
        if !flow.is_finite() {
            return Err(NetworkError::NotFinite);
        }
        if flow <= 0.0 {
            break;
        }
        let steepest = STEEPEST * flow / span;
        room.take(0.0, steepest);
        if !room.solve_pressures() {
            return Err(NetworkError::NotStruck);
        }
        let mismatch = room.propose();
        if steps >= MOST_STEPS && mismatch > NEAR * flow {
            return Err(NetworkError::NotStruck);
        }
        let share = if mismatch <= NEAR * flow {
            1.0
        } else {
            room.line_search()
        };
        room.take(share, steepest);
        steps += 1;
        if mismatch <= (LAST_STEP * flow).max(NOTHING) || steps > MOST_STEPS {
            break;
        }
    }
    Ok(room.sum_up(network, steps))
}

impl NetworkRoom {
    /// What wind and weight amount to, Pa; never zero.
    fn pressure_span(&self) -> f64 {
        let drives = self.edges.iter().map(|edge| edge.drive.abs());
        drives.fold(1e-3, f64::max)
    }

    fn greatest_flow(&self) -> f64 {
        let fans = self.sources.iter().copied();
        let flows = self.edges.iter().map(|edge| edge.gross);
        flows
            .chain(fans)
            .fold(0.0, |most, flow| most.max(flow.abs()))
    }

    /// Flows to begin with: every law a straight line through its flow at the span.
    fn begin(&mut self, span: f64) {
        for edge in &mut self.edges {
            let (forward, back) = (edge.at(span).0, edge.at(-span).0);
            edge.flow = 0.0;
            edge.pressure = 0.0;
            edge.slope = 0.5 * (forward - back) / span;
        }
        if self.solve_pressures() {
            self.propose();
            self.take(1.0, f64::INFINITY);
        }
    }

    /// Moves the pressures to where the laws, taken as straight lines at the flows they have,
    /// balance every space.
    fn solve_pressures(&mut self) -> bool {
        let n = self.sources.len();
        self.matrix.fill(0.0);
        self.balance.copy_from_slice(&self.sources);
        let mut strongest = 0.0_f64;
        self.drive();
        for edge in self.edges.iter().filter(|edge| edge.is_open()) {
            let flow = edge.flow + edge.slope * (edge.driven - edge.pressure);
            self.matrix[edge.to * n + edge.to] += edge.slope;
            self.balance[edge.to] += flow;
            if let Some(from) = edge.from {
                self.matrix[from * n + from] += edge.slope;
                self.matrix[from * n + edge.to] -= edge.slope;
                self.matrix[edge.to * n + from] -= edge.slope;
                self.balance[from] -= flow;
            }
            strongest = strongest.max(edge.slope);
        }
        // A group without a way outside has any pressure: its first space stays at zero.
        for at in 0..n {
            if self.group[at] == at && !self.opens[at] {
                self.matrix[at * n + at] += strongest.max(1.0);
            }
        }
        if !cholesky::solve(&mut self.matrix, &mut self.balance) {
            return false;
        }
        for at in 0..n {
            let (sum, lost) = two_sum(self.pressures[at], self.balance[at]);
            let (pressure, remainder) = two_sum(sum, self.remainders[at] + lost);
            self.pressures[at] = pressure;
            self.remainders[at] = remainder;
        }
        true
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

    /// Change of each flow that the straight lines ask for; the greatest is what laws and
    /// pressures disagree by, where they disagree by any pressure worth the name.
    fn propose(&mut self) -> f64 {
        let resolved = RESOLVED * self.pressure_span();
        self.drive();
        let mut most = 0.0_f64;
        for edge in &mut self.edges {
            edge.step = if edge.is_open() {
                edge.slope * (edge.driven - edge.pressure)
            } else {
                0.0
            };
            if (edge.driven - edge.pressure).abs() > resolved {
                most = most.max(edge.step.abs());
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
            let pressure = edge.pressure_for(edge.flow + share * edge.step);
            (pressure - edge.driven) * edge.step
        })
        .sum()
    }

    /// Share of the change to make: all of it where that comes near the lowest point of the
    /// line, otherwise the lowest point. The slope along the line grows, so that a bracket
    /// always closes in on it.
    fn line_search(&self) -> f64 {
        let first = self.fall(0.0);
        let last = self.fall(1.0);
        if last <= WHOLE * first.abs() {
            return 1.0;
        }
        let (mut low, mut high) = ((0.0, first), (1.0, last));
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

    fn take(&mut self, share: f64, steepest: f64) {
        for edge in self.edges.iter_mut().filter(|edge| edge.is_open()) {
            edge.set(edge.flow + share * edge.step, steepest);
        }
    }

    fn sum_up(&mut self, network: &Network, steps: u32) -> SolvedNetwork {
        self.balance.copy_from_slice(&self.sources);
        let (mut inflow, mut outflow) = (0.0, 0.0);
        for space in &network.spaces {
            inflow += space.supply;
            outflow += space.extract;
        }
        for edge in &self.edges {
            let flows = edge.flows();
            let net = flows.forward - flows.back;
            self.balance[edge.to] += net;
            match edge.from {
                Some(from) => self.balance[from] -= net,
                None => {
                    inflow += flows.forward;
                    outflow += flows.back;
                }
            }
        }
        SolvedNetwork {
            inflow,
            outflow,
            imbalance: self
                .balance
                .iter()
                .fold(0.0, |most, left| left.abs().max(most)),
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
