//! Several spaces joined by inner openings.
//!
//! Unknown are the pressures of the spaces and the flows through level inner openings; each step
//! solves, by elimination, for both with every law taken as a straight line:
//!
//! ```text
//! outer gaps of space s    in_s − out_s − S_s δp_s
//! level inner opening a→b  m + k (p_a − p_b + drive + δp_a − δp_b − Δp(m)),  k = 1/(dΔp/dm)
//! tall inner opening a→b   m(Δp) + k (δp_a − δp_b),  k = dm/dΔp
//! ```
//! A wide doorway levels two spaces to within less than any pressure can be told apart by its own
//! flow law: its flow is therefore an unknown of its own, and follows from the balance. A tall
//! doorway between spaces of other warmth has no such trouble, since its law is smooth.

use super::{Arranged, Ensemble, Member, State};
use crate::physics::network::edge::Edge;
use crate::physics::network::elimination::Conductances;
use crate::physics::network::path::TwoAirs;
use crate::physics::network::{Body, InnerOpening, Solved};

/// Evaluations after which the exact balance takes over.
const MOST_EVALUATIONS: u32 = 16;
/// A step that leaves more than this share of the surplus was too long: half of it is taken back.
const TOO_LONG: f64 = 0.8;
/// Times that one step is halved at most.
const HALVINGS: u32 = 3;
/// Pressure difference by which an inner opening's law may be off: it moves no air worth telling
/// through any outer gap, Pa.
const FAINT: f64 = 1e-12;
/// Pressure span over the height of an inner opening from which its law is smooth enough to be
/// solved by pressure, Pa.
const SMOOTH_SPAN: f64 = 1e-2;

/// The inner openings of a member, and room for the steps.
#[derive(Clone, Debug, Default)]
pub(super) struct InnerOpenings {
    edges: Vec<Edge>,
    /// Whether an inner opening's law is solved by pressure.
    smooth: Vec<bool>,
    conductances: Conductances,
    /// Surplus of each space; then the change of its pressure.
    change: Vec<f64>,
    /// Change of the pressures taken last.
    taken: Vec<f64>,
    /// Slope of the gross inflow of each space.
    slopes_in: Vec<f64>,
}

/// What one evaluation found.
struct Found {
    inflow: f64,
    /// Flow that surpluses are held against.
    through: f64,
    /// Greatest surplus of any space, kg/s.
    surplus: f64,
    /// Whether every inner opening's flow agrees with its law.
    lawful: bool,
}

impl Ensemble {
    /// `None` where the steps do not get there soon.
    pub(super) fn solve_several_spaces(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Option<Solved> {
        member.inner.set(&member.state.flows);
        let (mut before, mut halved) = (f64::INFINITY, 0);
        for steps in 1..=MOST_EVALUATIONS {
            let found = self.evaluate_all(member, coefficients, scale, tolerance);
            let (inner, state) = (&mut member.inner, &mut member.state);
            let enough = found.surplus <= tolerance * found.through;
            if enough && found.lawful {
                inner.conductances.solve(&mut inner.change);
                let slopes = inner.slopes_in.iter().zip(&inner.change);
                let corrected = slopes.map(|(slope, change)| slope * change).sum::<f64>();
                inner.step(state);
                let inflow = found.inflow - corrected;
                return Some(Solved {
                    inflow,
                    outflow: inflow,
                    imbalance: found.surplus,
                    steps,
                });
            }
            if !found.surplus.is_finite() {
                break;
            }
            if found.surplus > TOO_LONG * before && halved < HALVINGS && !enough {
                halved += 1;
                inner.take_back_half(state);
                continue;
            }
            (before, halved) = (found.surplus, 0);
            inner.conductances.solve(&mut inner.change);
            inner.step(state);
        }
        None
    }

    /// How the gross inflow of all spaces falls for each kg/s more that each one is given.
    pub(super) fn answers_of_several_spaces(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
    ) -> Vec<f64> {
        member.inner.set(&member.state.flows);
        self.evaluate_all(member, coefficients, scale, 0.0);
        let inner = &mut member.inner;
        inner.change.copy_from_slice(&inner.slopes_in);
        inner.conductances.solve(&mut inner.change);
        inner.change.clone()
    }

    /// All flows at the pressures and flows that the member holds; sets up the next step.
    fn evaluate_all(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Found {
        member.inner.begin(self.spaces.len());
        let (mut inflow, mut outflow) = (0.0, 0.0);
        for at in 0..self.spaces.len() {
            let pressure = member.state.pressures[at];
            let total = self.evaluate(member, (coefficients, scale), at, pressure);
            let inner = &mut member.inner;
            inner.change[at] = total.inflow - total.outflow;
            inner.slopes_in[at] = total.slope_in;
            inner.conductances.add_to_outside(at, total.slope);
            inflow += total.inflow;
            outflow += total.outflow;
        }
        let through = f64::max(inflow, outflow);
        let little = tolerance * through;
        let lawful = member.inner.flow(&member.state.pressures, little);
        let surpluses = member.inner.change.iter().map(|surplus| surplus.abs());
        Found {
            inflow,
            through,
            // A surplus that is no number must not be passed over.
            surplus: surpluses.fold(0.0, |most, one| if one <= most { most } else { one }),
            lawful,
        }
    }
}

impl InnerOpenings {
    /// Sets the factors on the flow of each, and the one on all sharp edges.
    pub(super) fn vary(&mut self, body: &Body, factors: &[f64], discharge: f64) {
        self.edges.clear();
        self.smooth.clear();
        for (([from, to], placed), factor) in body.openings.iter().zip(factors) {
            let gases = [from, to].map(|at| &body.spaces[*at].gas);
            let opening = InnerOpening {
                from: *from,
                to: *to,
                path: placed.path(gases, discharge, *factor),
            };
            let [density_from, density_to] = gases.map(|gas| gas.density);
            let airs = TwoAirs::new(density_from, density_to, body.datum);
            let mut edge = Edge::inner(&opening, airs);
            // A pascal stands for the pressures at hand: it says what flow is little.
            edge.straighten(1.0);
            self.smooth.push(edge.span() >= SMOOTH_SPAN);
            self.edges.push(edge);
        }
    }

    fn begin(&mut self, spaces: usize) {
        self.conductances.clear(spaces);
        for list in [&mut self.change, &mut self.taken, &mut self.slopes_in] {
            list.resize(spaces, 0.0);
        }
    }

    /// Takes the flows to look from.
    fn set(&mut self, flows: &[f64]) {
        for ((edge, smooth), flow) in self.edges.iter_mut().zip(&self.smooth).zip(flows) {
            if !smooth && edge.is_open() {
                edge.set(*flow);
            }
        }
    }

    /// Adds the flows through the openings to the surpluses of the spaces, and says whether all
    /// of them agree with their laws to within a `little` flow.
    fn flow(&mut self, pressures: &[f64], little: f64) -> bool {
        let mut lawful = true;
        for (edge, smooth) in self.edges.iter_mut().zip(&self.smooth) {
            let Some(from) = edge.from.filter(|_| edge.is_open()) else {
                continue;
            };
            edge.driven = pressures[from] - pressures[edge.to] + edge.drive;
            if *smooth {
                (edge.flow, edge.slope) = edge.at(edge.driven);
                edge.pressure = edge.driven;
            }
            let off = edge.driven - edge.pressure;
            let lacking = edge.slope * off;
            lawful &= off.abs() <= FAINT || lacking.abs() <= little;
            let flow = edge.flow + lacking;
            self.change[edge.to] += flow;
            self.change[from] -= flow;
            self.conductances.add_between(from, edge.to, edge.slope);
        }
        lawful
    }

    /// Moves pressures and flows by what the straight lines ask for.
    fn step(&mut self, state: &mut State) {
        for (pressure, change) in state.pressures.iter_mut().zip(&self.change) {
            *pressure += change;
        }
        self.taken.copy_from_slice(&self.change);
        let flows = self.edges.iter_mut().zip(&mut state.flows);
        for ((edge, held), smooth) in flows.zip(&self.smooth) {
            let Some(from) = edge.from.filter(|_| edge.is_open()) else {
                continue;
            };
            let change = self.change[from] - self.change[edge.to];
            edge.step = edge.slope * (edge.driven - edge.pressure + change);
            let flow = edge.flow + edge.step;
            if !smooth {
                edge.set(flow);
            }
            *held = flow;
        }
    }

    /// Takes back half of the last step.
    fn take_back_half(&mut self, state: &mut State) {
        for (pressure, taken) in state.pressures.iter_mut().zip(&mut self.taken) {
            *taken *= 0.5;
            *pressure -= *taken;
        }
        for (edge, smooth) in self.edges.iter_mut().zip(&self.smooth) {
            if !smooth && edge.is_open() {
                edge.step *= 0.5;
                edge.set(edge.flow - edge.step);
            }
        }
    }
}
