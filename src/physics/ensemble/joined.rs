//! The same for a body of several spaces joined by inner openings.
//!
//! The equations are those of [`crate::physics::network`]. Unknown are the pressures of the
//! spaces and the flows through level inner openings; each step solves, by elimination, for both
//! with every law taken as a straight line:
//!
//! ```text
//! outer gaps of space s    in_s − out_s − S_s δp_s
//! level inner opening a→b  m + k (p_a − p_b + drive + δp_a − δp_b − Δp(m)),  k = 1/(dΔp/dm)
//! tall inner opening a→b   m(Δp) + k (δp_a − δp_b),  k = dm/dΔp
//! ```
//! A wide doorway levels two spaces to within less than any pressure can be told apart by its own
//! flow law: its flow is therefore an unknown of its own, and follows from the balance. A tall
//! doorway between spaces of other warmth has no such trouble, since its law is smooth.
//!
//! Answers start from the surveyed body's, moved as far as the last wind direction's was, so that
//! they depend on nothing but what is given. Where the steps do not get there soon, the exact
//! balance takes over.

use super::{Arranged, Ensemble, Member, Placed};
use crate::physics::balance::Path;
use crate::physics::flow_law::Gas;
use crate::physics::network::edge::Edge;
use crate::physics::network::elimination::Conductances;
use crate::physics::network::{
    InnerOpening, Network, NetworkError, NetworkRoom, OuterGap, Space, Surroundings,
};

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

/// A space and its fans.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compartment {
    /// Its air.
    pub gas: Gas,
    /// Outside air blown in, kg/s.
    pub supply: f64,
    /// Air drawn out to outside, kg/s.
    pub extract: f64,
}

/// An opening between two spaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doorway {
    /// Index of one space.
    pub from: usize,
    /// Index of the other.
    pub to: usize,
    /// Its flow, and where it is.
    pub placed: Placed,
}

/// A body of several spaces with air of given states outside and inside.
#[derive(Clone, Debug)]
pub struct JoinedEnsemble {
    spaces: Vec<Ensemble>,
    doorways: Vec<Doorway>,
    outside: Gas,
    datum: f64,
    /// Space of each gap, in the order in which the gaps were given.
    of_gap: Vec<usize>,
}

/// Numbers of the gaps, in the order in which a [`JoinedEnsemble`] works on them.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinedArranged(Vec<Arranged>);

/// Where an answer lies, or is looked for first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JoinedState {
    /// Pressure of each space at the datum, Pa.
    pub pressures: Vec<f64>,
    /// Net flow through each inner opening, kg/s.
    pub flows: Vec<f64>,
}

/// A body with given factors on its gaps and inner openings, with room to work in.
#[derive(Clone, Debug)]
pub struct JoinedMember {
    members: Vec<Member>,
    /// Factors of one space's gaps, while they are handed on.
    factors: Vec<f64>,
    paths: Vec<Path>,
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
    state: JoinedState,
    room: NetworkRoom,
}

impl JoinedMember {
    /// Pressures and flows of the balance struck last.
    pub fn state(&self) -> &JoinedState {
        &self.state
    }

    /// Pressures and flows to look from next.
    pub fn state_mut(&mut self) -> &mut JoinedState {
        &mut self.state
    }
}

/// A balance struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JoinedStruck {
    /// Gross inflow of outside air into all spaces, supply fans included, kg/s.
    pub inflow: f64,
    /// How often the flows were worked out; 0 where the exact balance took over.
    pub evaluations: u32,
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

impl JoinedEnsemble {
    /// Lays out the body; each gap comes with the index of its space.
    pub fn new(
        compartments: &[Compartment],
        gaps: &[(usize, Placed)],
        doorways: Vec<Doorway>,
        outside: Gas,
        datum: f64,
    ) -> Self {
        let spaces = compartments.iter().enumerate().map(|(at, compartment)| {
            let own = gaps.iter().filter(|(space, _)| *space == at);
            Ensemble::new(
                own.map(|(_, placed)| *placed).collect(),
                outside,
                compartment.gas,
                datum,
                compartment.supply,
                compartment.extract,
            )
        });
        Self {
            spaces: spaces.collect(),
            doorways,
            outside,
            datum,
            of_gap: gaps.iter().map(|(space, _)| *space).collect(),
        }
    }

    /// Number of inner openings.
    pub fn doorways(&self) -> usize {
        self.doorways.len()
    }

    /// Puts one number for each gap into working order.
    pub fn arrange(&self, values: &[f64]) -> JoinedArranged {
        let spaces = self.spaces.iter().enumerate();
        let own = spaces.map(|(at, ensemble)| {
            let mut list = Vec::new();
            self.pick(values, at, &mut list);
            ensemble.arrange(&list)
        });
        JoinedArranged(own.collect())
    }

    /// Numbers of one space's gaps.
    fn pick(&self, values: &[f64], space: usize, list: &mut Vec<f64>) {
        list.clear();
        let own = values.iter().zip(&self.of_gap);
        list.extend(own.filter(|(_, of)| **of == space).map(|(value, _)| *value));
    }

    /// The body as surveyed: every factor one.
    pub fn member(&self) -> JoinedMember {
        let mut member = JoinedMember {
            members: self.spaces.iter().map(Ensemble::member).collect(),
            factors: Vec::new(),
            paths: Vec::new(),
            edges: Vec::new(),
            smooth: Vec::new(),
            conductances: Conductances::default(),
            change: vec![0.0; self.spaces.len()],
            taken: vec![0.0; self.spaces.len()],
            slopes_in: vec![0.0; self.spaces.len()],
            state: JoinedState {
                pressures: vec![0.0; self.spaces.len()],
                flows: vec![0.0; self.doorways.len()],
            },
            room: NetworkRoom::default(),
        };
        let ones = vec![1.0; self.of_gap.len()];
        self.vary(&mut member, &ones, &vec![1.0; self.doorways.len()], 1.0);
        member
    }

    /// Sets the factors on the flow of each gap and inner opening, and the one on all sharp
    /// edges. Allocates nothing.
    pub fn vary(
        &self,
        member: &mut JoinedMember,
        factors: &[f64],
        doorway_factors: &[f64],
        discharge: f64,
    ) {
        for (at, ensemble) in self.spaces.iter().enumerate() {
            self.pick(factors, at, &mut member.factors);
            ensemble.vary(&mut member.members[at], &member.factors, discharge);
        }
        member.paths.clear();
        member.edges.clear();
        member.smooth.clear();
        let given = self.surroundings();
        for (doorway, factor) in self.doorways.iter().zip(doorway_factors) {
            let gases = [doorway.from, doorway.to].map(|at| self.spaces[at].inside);
            let Placed {
                flow,
                z_low,
                z_high,
            } = doorway.placed;
            let path = Path {
                inward: flow.at_discharge(&gases[0], discharge),
                outward: flow.at_discharge(&gases[1], discharge),
                z_low: z_low.min(z_high),
                z_high: z_low.max(z_high),
            }
            .scaled(*factor);
            let opening = InnerOpening {
                from: doorway.from,
                to: doorway.to,
                path,
            };
            let mut edge = Edge::inner(&opening, &given, gases.map(|gas| gas.density));
            // A pascal stands for the pressures at hand: it says what flow is little.
            edge.straighten(1.0);
            member.paths.push(path);
            member.smooth.push(edge.span() >= SMOOTH_SPAN);
            member.edges.push(edge);
        }
    }

    fn surroundings(&self) -> Surroundings {
        Surroundings {
            density: self.outside.density,
            dynamic_pressure: 1.0,
            datum: self.datum,
        }
    }

    /// As [`Ensemble::hold`].
    pub fn hold(
        &self,
        member: &mut JoinedMember,
        dynamic_pressure: f64,
        lists: [(&JoinedArranged, f64); 2],
    ) {
        for (at, ensemble) in self.spaces.iter().enumerate() {
            let own = lists.map(|(list, number)| (&list.0[at], number));
            ensemble.hold(&mut member.members[at], dynamic_pressure, &own);
        }
    }

    /// Strikes the balance, as [`Ensemble::solve`], from the pressures and flows that the member
    /// holds, and leaves there those found.
    ///
    /// # Errors
    /// As [`Network::solve`].
    pub fn solve(
        &self,
        member: &mut JoinedMember,
        coefficients: &JoinedArranged,
        scale: f64,
        tolerance: f64,
    ) -> Result<JoinedStruck, NetworkError> {
        let doorways = member.edges.iter_mut().zip(&member.smooth);
        for ((edge, smooth), flow) in doorways.zip(&member.state.flows) {
            if !smooth && edge.is_open() {
                edge.set(*flow);
            }
        }
        let (mut before, mut halved) = (f64::INFINITY, 0);
        for evaluations in 1..=MOST_EVALUATIONS {
            let found = self.evaluate(member, coefficients, scale, tolerance);
            let enough = found.surplus <= tolerance * found.through;
            if enough && found.lawful {
                member.conductances.solve(&mut member.change);
                let slopes = member.slopes_in.iter().zip(&member.change);
                let corrected = slopes.map(|(slope, change)| slope * change).sum::<f64>();
                member.step();
                return Ok(JoinedStruck {
                    inflow: found.inflow - corrected,
                    evaluations,
                });
            }
            if !found.surplus.is_finite() {
                break;
            }
            if found.surplus > TOO_LONG * before && halved < HALVINGS && !enough {
                halved += 1;
                member.take_back_half();
                continue;
            }
            (before, halved) = (found.surplus, 0);
            member.conductances.solve(&mut member.change);
            member.step();
        }
        self.exactly(member, coefficients, scale)
    }

    /// All flows at the pressures and flows that the member holds; sets up the next step.
    fn evaluate(
        &self,
        member: &mut JoinedMember,
        coefficients: &JoinedArranged,
        scale: f64,
        tolerance: f64,
    ) -> Found {
        member.conductances.clear(self.spaces.len());
        let (mut inflow, mut outflow) = (0.0, 0.0);
        for (at, ensemble) in self.spaces.iter().enumerate() {
            let pressure = member.state.pressures[at];
            let own = &coefficients.0[at].0;
            let total = ensemble.evaluate(&member.members[at], own, scale, pressure);
            member.change[at] = total.inflow - total.outflow;
            member.slopes_in[at] = total.slope_in;
            member.conductances.add_to_outside(at, total.slope);
            inflow += total.inflow;
            outflow += total.outflow;
        }
        let through = f64::max(inflow, outflow);
        let lawful = member.through_doorways(tolerance * through);
        let surpluses = member.change.iter().map(|surplus| surplus.abs());
        Found {
            inflow,
            through,
            // A surplus that is no number must not be passed over.
            surplus: surpluses.fold(0.0, |most, one| if one <= most { most } else { one }),
            lawful,
        }
    }

    /// The exact balance of the same body.
    ///
    /// # Errors
    /// As [`Network::solve`].
    #[cold]
    pub fn exactly(
        &self,
        member: &mut JoinedMember,
        coefficients: &JoinedArranged,
        scale: f64,
    ) -> Result<JoinedStruck, NetworkError> {
        let network = self.network(member, coefficients, scale);
        let solved = network.solve(&self.surroundings(), &mut member.room)?;
        let state = &mut member.state;
        state.pressures.copy_from_slice(member.room.pressures());
        for (flow, found) in state
            .flows
            .iter_mut()
            .zip(member.room.inner_flows(&network))
        {
            *flow = found.forward - found.back;
        }
        Ok(JoinedStruck {
            inflow: solved.inflow,
            evaluations: 0,
        })
    }

    fn network(&self, member: &JoinedMember, coefficients: &JoinedArranged, scale: f64) -> Network {
        let mut network = Network::default();
        for (space, (ensemble, own)) in self.spaces.iter().zip(&member.members).enumerate() {
            network.spaces.push(Space {
                density: ensemble.inside.density,
                supply: ensemble.supply,
                extract: ensemble.extract,
            });
            let outside = ensemble.outside_pressures(own, &coefficients.0[space].0, scale);
            let gaps = outside.enumerate().map(|(at, pressure)| OuterGap {
                space,
                path: ensemble.path(own.discharge, at, own.factors[at]),
                coefficient: pressure,
            });
            network.outer.extend(gaps);
        }
        let doorways = self.doorways.iter().zip(&member.paths);
        network
            .inner
            .extend(doorways.map(|(doorway, path)| InnerOpening {
                from: doorway.from,
                to: doorway.to,
                path: *path,
            }));
        network
    }
}

impl JoinedMember {
    /// Adds the flows through the inner openings to the surpluses of the spaces, and says whether
    /// all of them agree with their laws to within a `little` flow.
    fn through_doorways(&mut self, little: f64) -> bool {
        let mut lawful = true;
        for (edge, smooth) in self.edges.iter_mut().zip(&self.smooth) {
            let Some(from) = edge.from.filter(|_| edge.is_open()) else {
                continue;
            };
            let pressures = &self.state.pressures;
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
    fn step(&mut self) {
        for (pressure, change) in self.state.pressures.iter_mut().zip(&self.change) {
            *pressure += change;
        }
        self.taken.copy_from_slice(&self.change);
        let flows = self.edges.iter_mut().zip(&mut self.state.flows);
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
    fn take_back_half(&mut self) {
        let pressures = self.state.pressures.iter_mut();
        for (pressure, taken) in pressures.zip(&mut self.taken) {
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
