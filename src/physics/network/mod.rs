//! The balance of air in any number of spaces joined by inner openings.
//!
//! ```text
//! outer gap of space s   Δp = Cp ½ρ_o U² − p_s − (ρ_o − ρ_s) g (z − z_datum)
//! inner opening a to b   Δp = p_a − p_b − (ρ_a − ρ_b) g (z − z_datum)
//! each space             Σ mass flows in + supply = Σ mass flows out + extract
//! ```
//! Every space has an air of its own; air that flows carries the density of where it comes from.
//! A tall opening between a warm and a cold space passes air both ways at once.
//!
//! The flows that obey every law and balance every space make the least of a convex function of
//! the flows, the sum of `∫ Δp dm` less what wind and weight give. Newton's method with a line
//! search finds it from anywhere: each step solves for the pressures by elimination and moves the
//! flows. What rounding leaves over in any space is passed on along the widest ways, which feel
//! it least. For one space see [`crate::physics::balance`].
#![expect(
    clippy::indexing_slicing,
    reason = "edges, spaces and matrix are laid out together; a missing number must never turn into a silent default"
)]

pub(in crate::physics) mod edge;
pub(in crate::physics) mod elimination;
mod search;
mod settle;

use thiserror::Error;

use self::edge::Edge;
use self::elimination::Conductances;
use self::settle::WidestWays;
use super::balance::Path;

pub use self::search::SolvedNetwork;

/// A space inside the vehicle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Space {
    /// Density of its air, kg/m³.
    pub density: f64,
    /// Outside air blown in by fans, kg/s.
    pub supply: f64,
    /// Air drawn out to outside by fans, kg/s.
    pub extract: f64,
}

/// A gap between a space and outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OuterGap {
    /// Index of its space.
    pub space: usize,
    /// Inward at outside air, outward at the space's air.
    pub path: Path,
    /// Pressure coefficient.
    pub coefficient: f64,
}

/// An opening between two spaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InnerOpening {
    /// Index of one space.
    pub from: usize,
    /// Index of the other.
    pub to: usize,
    /// Inward is from `from` to `to`, at the air of `from`; outward back, at the air of `to`.
    pub path: Path,
}

/// Air outside, and wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Density of the outside air, kg/m³.
    pub density: f64,
    /// Dynamic pressure of the wind at body height, Pa.
    pub dynamic_pressure: f64,
    /// Height above the ground at which pressures are stated, m.
    pub datum: f64,
}

/// Spaces, gaps and openings of a vehicle.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Network {
    /// Spaces.
    pub spaces: Vec<Space>,
    /// Gaps to outside.
    pub outer: Vec<OuterGap>,
    /// Openings between spaces.
    pub inner: Vec<InnerOpening>,
}

/// Why a network has no answer.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
pub enum NetworkError {
    /// Fans of a space that nothing joins to outside move more one way than the other.
    #[error("The fans of a closed space do not move the same air in and out.")]
    NoOpening,
    /// A number is not finite, or a density is not positive.
    #[error("The air balance needs finite numbers and positive densities.")]
    NotFinite,
    /// A gap or an opening names a space that is not there, or joins one to itself.
    #[error("A gap or an inner opening names a space that is not there.")]
    NoSuchSpace,
    /// The search ended before the balance was good enough.
    #[error("The air balance of the spaces could not be struck.")]
    NotStruck,
}

/// Air through one opening, kg/s: `forward` from outside in, or from `from` to `to`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpeningFlow {
    /// In its first direction.
    pub forward: f64,
    /// Back.
    pub back: f64,
}

/// Room to work in; made once, used for balance after balance without allocating.
#[derive(Clone, Debug, Default)]
pub struct NetworkRoom {
    edges: Vec<Edge>,
    /// What fans bring each space, kg/s net.
    sources: Vec<f64>,
    /// Flow sums of each space.
    balance: Vec<f64>,
    conductances: Conductances,
    pressures: Vec<f64>,
    /// What the pressures' own digits cannot hold, Pa.
    remainders: Vec<f64>,
    /// Group of joined spaces that each belongs to, and whether the group has a way outside.
    group: Vec<usize>,
    opens: Vec<bool>,
    widest: WidestWays,
}

impl Network {
    /// Strikes the balance. The answer starts from nothing, so that it depends on nothing but
    /// what is given.
    ///
    /// # Errors
    /// [`NetworkError`].
    ///
    /// ```
    /// use gapledger::physics::network::*;
    /// use gapledger::physics::{FlowLaw, GapFlow, Gas, Path};
    /// // Three equal openings in line: front wall, doorway, rear wall. A third of the pressure is
    /// // lost at each, so m = Cd A √(2 ρ Δp/3) (series form of BS 5925 [R]).
    /// let air = Gas { density: 1.2, viscosity: 1.81e-5 };
    /// let hole = GapFlow::new(FlowLaw::Opening { area: 0.01, discharge: 0.61 })?;
    /// let path = Path::new(&hole, &air, &air, 1.0, 1.0);
    /// let space = Space { density: 1.2, ..Space::default() };
    /// let network = Network {
    ///     spaces: vec![space, space],
    ///     outer: vec![
    ///         OuterGap { space: 0, path, coefficient: 0.6 },
    ///         OuterGap { space: 1, path, coefficient: -0.3 },
    ///     ],
    ///     inner: vec![InnerOpening { from: 0, to: 1, path }],
    /// };
    /// let wind = Surroundings { density: 1.2, dynamic_pressure: 9.6, datum: 1.0 };
    /// let solved = network.solve(&wind, &mut NetworkRoom::default())?;
    /// let exact = 0.61 * 0.01 * (2.0 * 1.2 * 0.9 * 9.6 / 3.0_f64).sqrt();
    /// assert!((solved.inflow / exact - 1.0).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn solve(
        &self,
        surroundings: &Surroundings,
        room: &mut NetworkRoom,
    ) -> Result<SolvedNetwork, NetworkError> {
        self.check(surroundings)?;
        room.lay_out(self, surroundings);
        room.join(self)?;
        search::solve(self, room)
    }

    fn check(&self, given: &Surroundings) -> Result<(), NetworkError> {
        let count = self.spaces.len();
        let outer = self.outer.iter().all(|gap| gap.space < count);
        let inner = self.inner.iter().all(|opening| {
            opening.from < count && opening.to < count && opening.from != opening.to
        });
        if !(outer && inner) {
            return Err(NetworkError::NoSuchSpace);
        }
        let positive = |density: f64| density.is_finite() && density > 0.0;
        let spaces = self.spaces.iter().all(|space| {
            positive(space.density) && space.supply.is_finite() && space.extract.is_finite()
        });
        let numbers = [given.dynamic_pressure, given.datum];
        let coefficients = self.outer.iter().map(|gap| gap.coefficient);
        if spaces
            && positive(given.density)
            && numbers.into_iter().chain(coefficients).all(f64::is_finite)
        {
            Ok(())
        } else {
            Err(NetworkError::NotFinite)
        }
    }
}

impl NetworkRoom {
    /// Pressure of each space at the datum relative to undisturbed outside air there, Pa.
    pub fn pressures(&self) -> &[f64] {
        &self.pressures
    }

    /// Flow through each outer gap of the balance struck last, in the network's order.
    pub fn outer_flows<'a>(
        &'a self,
        network: &Network,
    ) -> impl ExactSizeIterator<Item = OpeningFlow> + use<'a> {
        self.edges[..network.outer.len()].iter().map(Edge::flows)
    }

    /// Flow through each inner opening of the balance struck last, in the network's order.
    pub fn inner_flows<'a>(
        &'a self,
        network: &Network,
    ) -> impl ExactSizeIterator<Item = OpeningFlow> + use<'a> {
        self.edges[network.outer.len()..].iter().map(Edge::flows)
    }

    fn lay_out(&mut self, network: &Network, given: &Surroundings) {
        let count = network.spaces.len();
        self.edges.clear();
        let outer = network.outer.iter();
        self.edges
            .extend(outer.map(|gap| Edge::outer(gap, given, network.spaces[gap.space].density)));
        let inner = network.inner.iter();
        self.edges.extend(inner.map(|opening| {
            let densities = [opening.from, opening.to].map(|at| network.spaces[at].density);
            Edge::inner(opening, given, densities)
        }));
        self.sources.clear();
        let net = |space: &Space| space.supply - space.extract;
        self.sources.extend(network.spaces.iter().map(net));
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
                net += self.sources[at];
                gross += network.spaces[at].supply + network.spaces[at].extract;
            }
            if net.abs() > 1e-12 * gross {
                return Err(NetworkError::NoOpening);
            }
        }
        Ok(())
    }
}
