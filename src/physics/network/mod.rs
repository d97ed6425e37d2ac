//! The balance of air in a vehicle of one space, or of any number of spaces joined by inner
//! openings: the pressures at which as much air enters each space as leaves it.
//!
//! ```text
//! outer gap of space s   Δp = Cp ½ρ_o U² − p_s − (ρ_o − ρ_s) g (z − z_datum)
//! inner opening a to b   Δp = p_a − p_b − (ρ_a − ρ_b) g (z − z_datum)
//! fan of space s         m = m_free · min(1, max(0, 1 ∓ p_s/Δp_max))
//! each space             Σ mass flows in = Σ mass flows out, fans included
//! ```
//! Mass is balanced, not volume. Every space has an air of its own; air that flows carries the
//! density of where it comes from. A tall opening between a warm and a cold space passes air both
//! ways at once.
//!
//! With one space there is one unknown: what comes in falls and what goes out rises with its
//! pressure, so that a bracket always closes in on the one answer. With several,
//! the flows that obey every law and balance every space make the least of a convex function of
//! the flows, the sum of `∫ Δp dm` less what wind and weight give: Newton's method with a line
//! search finds it from anywhere. What rounding leaves over in any space is
//! passed on along the widest ways, which feel it least.
#![expect(
    clippy::indexing_slicing,
    reason = "edges, spaces and matrix are laid out together; a missing number must never turn into a silent default"
)]

mod body;
pub(in crate::physics) mod edge;
pub(in crate::physics) mod elimination;
mod fan;
mod one_space;
pub(in crate::physics) mod path;
mod settle;
mod several_spaces;

use thiserror::Error;

use self::edge::Edge;
use self::several_spaces::SeveralSpaces;
use super::air::GRAVITY;
use super::flow_law::Gas;

pub use self::body::Body;
pub use self::fan::{Fan, FanWay};
pub use self::path::{Path, PlacedFlow};

/// A space inside the vehicle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Space {
    /// Its air.
    pub gas: Gas,
}

/// A gap between a space and outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OuterGap {
    /// Index of its space.
    pub space: usize,
    /// Inward at outside air, outward at the space's air.
    pub path: Path,
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

/// Spaces, gaps and openings of a vehicle, and the air round it.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    /// The outside air.
    pub outside: Gas,
    /// Height above the ground at which pressures are stated (mid-height), m.
    pub datum: f64,
    /// Spaces.
    pub spaces: Vec<Space>,
    /// Gaps to outside.
    pub outer: Vec<OuterGap>,
    /// Openings between spaces.
    pub inner: Vec<InnerOpening>,
    /// Fans between spaces and outside.
    pub fans: Vec<Fan>,
}

/// Why a network has no answer.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
pub enum NetworkError {
    /// Fans that no pressure stops move more one way than the other, in a space that nothing joins
    /// to outside.
    #[error("The fans do not move the same air in and out, and no gap is open to make it up.")]
    NoOpening,
    /// A number is not finite, or a density or the pressure that stops a fan is not positive.
    #[error("The air balance needs finite numbers and positive densities.")]
    NotFinite,
    /// As many pressure coefficients as gaps are needed.
    #[error("The air balance has {gaps} gaps but {coefficients} pressure coefficients.")]
    CoefficientCount {
        /// Number of gaps.
        gaps: usize,
        /// Number of coefficients given.
        coefficients: usize,
    },
    /// A gap, an opening or a fan names a space that is not there, or an opening joins one to itself.
    #[error("A gap, an inner opening or a fan names a space that is not there.")]
    NoSuchSpace,
    /// The search ended before the balance was good enough.
    #[error("The air balance of the spaces could not be solved.")]
    NotSolved,
}

/// A balance solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solved {
    /// Outside air coming in through all gaps and supply fans, kg/s (gross: a tall gap may let air
    /// in and out at once).
    pub inflow: f64,
    /// Air going out through all gaps and extract fans, kg/s.
    pub outflow: f64,
    /// Greatest surplus or lack left in any space, kg/s: at most 1e-9 of the through-flow, or what
    /// the workspace is content with, or nothing worth the name.
    pub imbalance: f64,
    /// Number of times the flows were worked out.
    pub steps: u32,
}

/// Air through one opening, kg/s: `forward` from outside in, or from `from` to `to`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpeningFlow {
    /// In its first direction.
    pub forward: f64,
    /// Back.
    pub back: f64,
}

impl OpeningFlow {
    /// What goes forward less what goes back, kg/s.
    pub fn net(&self) -> f64 {
        self.forward - self.back
    }
}

/// Memory to work in, and the answer found in it last. Made once, it is used for balance after
/// balance without allocating.
#[derive(Clone, Debug, Default)]
pub struct Workspace {
    pressures: Vec<f64>,
    outer: Vec<OpeningFlow>,
    inner: Vec<OpeningFlow>,
    fans: Vec<f64>,
    several: SeveralSpaces,
    near_enough: Option<f64>,
}

impl Workspace {
    /// A workspace in which the search for the pressure of a single space ends where surplus or lack
    /// is this share of the through-flow: for flows that are read off between others anyway.
    pub fn content_with(share: f64) -> Self {
        Self {
            near_enough: Some(share),
            ..Self::default()
        }
    }

    /// Pressure of each space at the datum relative to undisturbed outside air there, Pa.
    pub fn pressures(&self) -> &[f64] {
        &self.pressures
    }

    /// Flow through each outer gap, in the network's order.
    pub fn outer_flows(&self) -> &[OpeningFlow] {
        &self.outer
    }

    /// Flow through each inner opening, in the network's order.
    pub fn inner_flows(&self) -> &[OpeningFlow] {
        &self.inner
    }

    /// What each fan moves, kg/s, in the network's order.
    pub fn fan_flows(&self) -> &[f64] {
        &self.fans
    }

    /// Sets the pressures to look near, Pa.
    pub fn start_from(&mut self, pressures: &[f64]) {
        self.pressures.clear();
        self.pressures.extend_from_slice(pressures);
    }
}

impl Network {
    /// Solves the balance with the wind pressing by `dynamic_pressure`, ½ ρ_o U² at body height,
    /// Pa; `coefficients` holds one pressure coefficient per outer gap, in the same order.
    /// Pressures and flows are left in the workspace.
    ///
    /// A single space is looked for near the pressure that the workspace holds, such as the answer
    /// for the last wind direction: a good one saves time, a bad one does no harm. With nothing
    /// open and no fans it keeps that pressure. Several spaces start from nothing.
    ///
    /// # Errors
    /// [`NetworkError`].
    ///
    /// ```
    /// use gapledger::physics::network::*;
    /// use gapledger::physics::{FlowLaw, GapFlow, Gas};
    /// let air = Gas { density: 1.2, viscosity: 1.81e-5 };
    /// let hole = |area| {
    ///     let gap = GapFlow::new(FlowLaw::Opening { area, discharge: 0.61 })?;
    ///     Ok::<_, gapledger::physics::OpeningError>(Path::new(&gap, &air, &air, 1.0, 1.0))
    /// };
    /// // Wind across 100 and 200 cm², ΔCp 0.9, 4 m/s, ρ 1.2: 20.70 L/s (closed form of BS 5925 [R]).
    /// let one = Network {
    ///     outside: air,
    ///     datum: 1.0,
    ///     spaces: vec![Space { gas: air }],
    ///     outer: vec![
    ///         OuterGap { space: 0, path: hole(0.01)? },
    ///         OuterGap { space: 0, path: hole(0.02)? },
    ///     ],
    ///     inner: vec![],
    ///     fans: vec![],
    /// };
    /// let mut workspace = Workspace::default();
    /// let solved = one.solve(0.5 * 1.2 * 4.0 * 4.0, &[0.6, -0.3], &mut workspace)?;
    /// assert!((solved.inflow / 1.2 - 0.02070).abs() < 5e-6);
    /// // Three equal openings in line: front wall, doorway, rear wall. A third of the pressure is
    /// // lost at each, so m = Cd A √(2 ρ Δp/3) (series form of BS 5925 [R]).
    /// let two = Network {
    ///     spaces: vec![Space { gas: air }; 2],
    ///     outer: vec![
    ///         OuterGap { space: 0, path: hole(0.01)? },
    ///         OuterGap { space: 1, path: hole(0.01)? },
    ///     ],
    ///     inner: vec![InnerOpening { from: 0, to: 1, path: hole(0.01)? }],
    ///     ..one
    /// };
    /// let solved = two.solve(9.6, &[0.6, -0.3], &mut workspace)?;
    /// let exact = 0.61 * 0.01 * (2.0 * 1.2 * 0.9 * 9.6 / 3.0_f64).sqrt();
    /// assert!((solved.inflow / exact - 1.0).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn solve(
        &self,
        dynamic_pressure: f64,
        coefficients: &[f64],
        workspace: &mut Workspace,
    ) -> Result<Solved, NetworkError> {
        self.check(dynamic_pressure, coefficients)?;
        workspace.inner.clear();
        if let [space] = self.spaces.as_slice() {
            return one_space::solve(self, space, dynamic_pressure, coefficients, workspace);
        }
        let several = &mut workspace.several;
        let solved = several.solve(self, dynamic_pressure, coefficients)?;
        let (outer, others) = several.edges.split_at(self.outer.len());
        workspace.outer.clear();
        workspace.outer.extend(outer.iter().map(Edge::flows));
        let inner = others.iter().take(self.inner.len());
        workspace.inner.extend(inner.map(Edge::flows));
        workspace.fans.clear();
        workspace.fans.extend(several.fan_flows(self));
        workspace.pressures.clear();
        workspace.pressures.extend_from_slice(&several.pressures);
        Ok(solved)
    }

    /// Height above the ground at which a space at some pressure (Pa, at the datum) and undisturbed
    /// outside air are at the same, m.
    ///
    /// ```text
    /// z_n = z_datum − p_s/((ρ_o − ρ_s) g)
    /// ```
    /// `None` where the pressure differs by less than 1e-6 Pa per metre of height: there is then
    /// no such height.
    pub fn neutral_level(&self, space: &Space, pressure: f64) -> Option<f64> {
        const LEAST_GRADIENT: f64 = 1e-6;
        let gradient = (self.outside.density - space.gas.density) * GRAVITY;
        (gradient.abs() > LEAST_GRADIENT).then(|| self.datum - pressure / gradient)
    }

    fn check(&self, dynamic_pressure: f64, coefficients: &[f64]) -> Result<(), NetworkError> {
        if coefficients.len() != self.outer.len() {
            return Err(NetworkError::CoefficientCount {
                gaps: self.outer.len(),
                coefficients: coefficients.len(),
            });
        }
        let count = self.spaces.len();
        let outer = self.outer.iter().all(|gap| gap.space < count);
        let inner = self.inner.iter().all(|opening| {
            opening.from < count && opening.to < count && opening.from != opening.to
        });
        let fans = self.fans.iter().all(|fan| fan.space < count);
        if !(outer && inner && fans) {
            return Err(NetworkError::NoSuchSpace);
        }
        let positive = |density: f64| density.is_finite() && density > 0.0;
        let spaces = self.spaces.iter().all(|space| positive(space.gas.density));
        let numbers = [dynamic_pressure, self.datum].into_iter();
        if spaces
            && self.fans.iter().all(Fan::is_sound)
            && positive(self.outside.density)
            && numbers
                .chain(coefficients.iter().copied())
                .all(f64::is_finite)
        {
            Ok(())
        } else {
            Err(NetworkError::NotFinite)
        }
    }
}
