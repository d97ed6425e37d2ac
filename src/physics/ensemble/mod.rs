//! One body balanced many times over with other factors on its gaps and inner openings: for
//! trials of the uncertainty and for trying out what sealing each gap would save.
//!
//! The equations are those of [`crate::physics::network`]; only the speed differs. Gaps lie four
//! by four in memory, the search starts from a neighbouring answer, and the last step is made in the
//! flow alone:
//!
//! ```text
//! inflow at balance ≈ inflow + Σ S_in δp
//! ```
//! where S_in is the slope of the inflow of each space and δp the step its pressure would take;
//! the error is of the second order in the imbalance left, or less where the search knows more of the
//! curve. Where it does not get there in a few steps, the exact balance takes over. Changes of single
//! gaps among many are found near one balance ([`Near`]).
#![expect(
    clippy::indexing_slicing,
    reason = "slots and lanes are laid out together; a missing number must never turn into a silent default"
)]

mod block;
mod evaluate;
mod near;
mod one_space;
mod plain;
mod search;
mod several_spaces;
mod worth;

use std::ops::Range;

use self::block::{Block, LANES, Lanes, Makings};
pub use self::near::{Change, Near};
use self::several_spaces::InnerOpenings;
use super::flow_law::FlowLaw;
use super::network::path::TwoAirs;
use super::network::{Body, Network, NetworkError, Path, Solved, Workspace};
use fearless_simd::Level;

/// A body laid out to be balanced many times over.
#[derive(Clone, Debug)]
pub struct Ensemble {
    body: Body,
    /// Where each gap lies.
    gaps: Vec<GapParts>,
    /// What the laws of each block are made of, in outside air and in that of its space.
    makings: Vec<[Makings; 2]>,
    spaces: Vec<SpaceGaps>,
    /// Tested components, space by space, in the order of their slots.
    powers: Vec<usize>,
    /// Pressure at each slot that is not the wind's: `−(ρ_o − ρ_s) g (z − z_datum)`, Pa.
    stack: Vec<Lanes>,
    /// The registers that this processor has; none for one gap after another.
    level: Option<Level>,
}

/// What stays the same of a gap.
#[derive(Clone, Debug)]
struct GapParts {
    /// Half the pressure span over its height, Pa; one for a level gap.
    half_span: f64,
    /// Where its numbers lie.
    slot: usize,
    is_power: bool,
}

/// Where the gaps of one space lie: level gaps first, then tall ones, then tested components,
/// each padded to whole blocks.
#[derive(Clone, Debug)]
struct SpaceGaps {
    airs: TwoAirs,
    level: Range<usize>,
    tall: Range<usize>,
    /// First slot of the tested components.
    power_slot: usize,
    /// Its part of all tested components.
    powers: Range<usize>,
}

/// Numbers of one body's gaps in the order in which an [`Ensemble`] works on them.
#[derive(Clone, Debug, PartialEq)]
pub struct Arranged {
    lanes: Vec<Lanes>,
    /// Every number is zero: there is nothing to be added.
    is_zero: bool,
}

/// Where an answer lies, or is looked for first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// Pressure of each space at the datum, Pa.
    pub pressures: Vec<f64>,
    /// Net flow through each inner opening, kg/s.
    pub flows: Vec<f64>,
}

/// A body with given factors on its gaps and inner openings, ready to be balanced in one wind
/// after another.
#[derive(Clone, Debug)]
pub struct Member {
    /// One block for each of the stack's; those of tested components stay closed.
    blocks: Vec<Block>,
    powers: Vec<Path>,
    factors: Vec<f64>,
    opening_factors: Vec<f64>,
    discharge: f64,
    base: Vec<Lanes>,
    state: State,
    inner: InnerOpenings,
    workspace: Workspace,
}

impl Member {
    /// Pressures and flows of the balance solved last.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// Pressures and flows to look from next.
    pub fn state_mut(&mut self) -> &mut State {
        &mut self.state
    }
}

impl Ensemble {
    /// Lays out the body.
    pub fn new(body: Body) -> Self {
        let airs = |space: usize| {
            let inside = body.spaces[space].gas.density;
            TwoAirs::new(body.outside.density, inside, body.datum)
        };
        let mut gaps: Vec<GapParts> = Vec::with_capacity(body.gaps.len());
        for (space, placed) in &body.gaps {
            let span = airs(*space).span_between(placed.z_low, placed.z_high);
            gaps.push(GapParts {
                half_span: if span > 0.0 { 0.5 * span } else { 1.0 },
                slot: 0,
                is_power: matches!(placed.flow.law(), FlowLaw::Power { .. }),
            });
        }
        let (mut next, mut powers, mut spaces) = (0, Vec::new(), Vec::new());
        for space in 0..body.spaces.len() {
            let airs = airs(space);
            let own = |at: usize| body.gaps[at].0 == space;
            let is_tall = |at: usize| {
                let placed = &body.gaps[at].1;
                airs.span_between(placed.z_low, placed.z_high) > 0.0
            };
            let mut place = |wanted: &dyn Fn(usize, bool) -> bool| {
                let first = next / LANES;
                for (at, gap) in gaps.iter_mut().enumerate() {
                    if own(at) && wanted(at, gap.is_power) {
                        gap.slot = next;
                        next += 1;
                    }
                }
                next = next.div_ceil(LANES) * LANES;
                first..next / LANES
            };
            let level = place(&|at, is_power| !is_power && !is_tall(at));
            let tall = place(&|at, is_power| !is_power && is_tall(at));
            place(&|_, is_power| is_power);
            let first = powers.len();
            powers.extend((0..gaps.len()).filter(|at| own(*at) && gaps[*at].is_power));
            spaces.push(SpaceGaps {
                airs,
                power_slot: tall.end * LANES,
                level,
                tall,
                powers: first..powers.len(),
            });
        }
        let mut stack = vec![[0.0; LANES]; next / LANES];
        let mut makings = vec![[Makings::CLOSED; 2]; stack.len()];
        for ((space, placed), gap) in body.gaps.iter().zip(&gaps) {
            let (block, lane) = (gap.slot / LANES, gap.slot % LANES);
            stack[block][lane] = spaces[*space].airs.weight(placed.z_low, placed.z_high);
            if !gap.is_power {
                let [outside, inside] = &mut makings[block];
                outside.set(lane, &placed.flow.resistances(&body.outside));
                inside.set(lane, &placed.flow.resistances(&body.spaces[*space].gas));
            }
        }
        Self {
            body,
            gaps,
            makings,
            spaces,
            powers,
            stack,
            level: (!plain::UNOPTIMISED).then(Level::new),
        }
    }

    /// The same with other registers than the best that the processor has, or one gap after another.
    #[cfg(test)]
    pub(in crate::physics) fn at_level(self, level: Option<Level>) -> Self {
        Self { level, ..self }
    }

    /// The body laid out.
    pub fn body(&self) -> &Body {
        &self.body
    }

    /// Puts one number for each gap, such as its pressure coefficient, into working order.
    pub fn arrange(&self, values: impl IntoIterator<Item = f64>) -> Arranged {
        let mut arranged = vec![[0.0; LANES]; self.stack.len()];
        for (value, gap) in values.into_iter().zip(&self.gaps) {
            arranged[gap.slot / LANES][gap.slot % LANES] = value;
        }
        let is_zero = arranged.as_flattened().iter().all(|value| *value == 0.0);
        Arranged {
            lanes: arranged,
            is_zero,
        }
    }

    /// The body as surveyed: every factor one.
    pub fn member(&self) -> Member {
        let (spaces, openings) = (self.body.spaces.len(), self.body.openings.len());
        let mut member = Member {
            blocks: self.blocks(),
            powers: Vec::new(),
            factors: Vec::new(),
            opening_factors: Vec::new(),
            discharge: 0.0,
            base: self.stack.clone(),
            state: State {
                pressures: vec![0.0; spaces],
                flows: vec![0.0; openings],
            },
            inner: InnerOpenings::default(),
            workspace: Workspace::default(),
        };
        let ones = vec![1.0; self.gaps.len()];
        self.vary(&mut member, &ones, &vec![1.0; openings], 1.0);
        member
    }

    /// The blocks with all that no factor changes.
    fn blocks(&self) -> Vec<Block> {
        let mut blocks = vec![Block::CLOSED; self.stack.len()];
        for gap in self.gaps.iter().filter(|gap| !gap.is_power) {
            blocks[gap.slot / LANES].set_half_span(gap.slot % LANES, gap.half_span);
        }
        blocks
    }

    /// Sets the factors on the flow of each gap and inner opening, and the one on all sharp
    /// edges. Allocates nothing.
    pub fn vary(
        &self,
        member: &mut Member,
        factors: &[f64],
        opening_factors: &[f64],
        discharge: f64,
    ) {
        let eased = 1.0 / (discharge * discharge);
        // Bits, not values: what is set already is exactly this.
        let same = |one: f64, other: f64| one.to_bits() == other.to_bits();
        let same_edges = same(member.discharge, discharge);
        let is_set = |member: &Member, at: usize| {
            let known = member.factors.get(at);
            known.is_some_and(|known| same(*known, factors[at]))
        };
        if !same_edges {
            for (block, makings) in member.blocks.iter_mut().zip(&self.makings) {
                block.ease(makings, eased);
            }
        }
        for (at, gap) in self.gaps.iter().enumerate() {
            if gap.is_power || is_set(member, at) {
                continue;
            }
            let (space, placed) = &self.body.gaps[at];
            let factor = placed.flow.multiplier() * factors[at];
            let (outside, inside) = (&self.body.outside, &self.body.spaces[*space].gas);
            let mass = [factor * outside.density, factor * inside.density];
            member.blocks[gap.slot / LANES].set_mass(gap.slot % LANES, mass);
        }
        for (place, at) in self.powers.iter().enumerate() {
            if same_edges && is_set(member, *at) {
                continue;
            }
            let (space, placed) = &self.body.gaps[*at];
            let airs = [&self.body.outside, &self.body.spaces[*space].gas];
            let path = placed.path(airs, discharge, factors[*at]);
            match member.powers.get_mut(place) {
                Some(power) => *power = path,
                None => member.powers.push(path),
            }
        }
        member.discharge = discharge;
        member.factors.clear();
        member.factors.extend_from_slice(factors);
        member.opening_factors.clear();
        member.opening_factors.extend_from_slice(opening_factors);
        member.inner.vary(&self.body, opening_factors, discharge);
    }

    /// Sets what of the outside pressure does not change with the wind's direction: the weight
    /// of the air, and `dynamic_pressure` times the sum of each list times its number.
    pub fn hold(&self, member: &mut Member, dynamic_pressure: f64, lists: &[(&Arranged, f64)]) {
        member.base.copy_from_slice(&self.stack);
        let adds = |(list, number): &&(&Arranged, f64)| !list.is_zero && number.abs() > 0.0;
        for (list, number) in lists.iter().filter(adds) {
            let scale = dynamic_pressure * number;
            for (base, value) in member.base.iter_mut().zip(&list.lanes) {
                for lane in 0..LANES {
                    base[lane] += scale * value[lane];
                }
            }
        }
    }

    /// Solves the balance with the outside pressure `scale` Pa times each gap's coefficient,
    /// besides what [`Ensemble::hold`] set, from the state that the member holds, and leaves
    /// there the one found. Ends with an imbalance of at most `tolerance` of the through-flow,
    /// corrected as said at the head of this module; [`Solved::steps`] is 0 where the exact
    /// balance took over.
    ///
    /// # Errors
    /// As [`Network::solve`].
    pub fn solve(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Result<Solved, NetworkError> {
        let found = if self.spaces.len() == 1 {
            self.solve_one_space(member, coefficients, scale, tolerance)
        } else {
            self.solve_several_spaces(member, coefficients, scale, tolerance)
        };
        found.map_or_else(|| self.exactly(member, coefficients, scale), Ok)
    }

    /// The same where the member holds no state near the answer: a single space is found from
    /// anywhere, several by the exact balance.
    ///
    /// # Errors
    /// As [`Network::solve`].
    pub fn solve_from_afar(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
        tolerance: f64,
    ) -> Result<Solved, NetworkError> {
        if self.spaces.len() == 1 {
            self.solve(member, coefficients, scale, tolerance)
        } else {
            self.exactly(member, coefficients, scale)
        }
    }

    /// The exact balance of the same body.
    ///
    /// # Errors
    /// As [`Network::solve`].
    #[cold]
    pub fn exactly(
        &self,
        member: &mut Member,
        coefficients: &Arranged,
        scale: f64,
    ) -> Result<Solved, NetworkError> {
        let network: Network = self.body.varied(
            member.discharge,
            |at| member.factors[at],
            |at| member.opening_factors[at],
        );
        // The exact balance adds the weight of the air itself.
        let outside = self.gaps.iter().map(|gap| {
            let (block, lane) = (gap.slot / LANES, gap.slot % LANES);
            let wind = scale * coefficients.lanes[block][lane];
            wind + member.base[block][lane] - self.stack[block][lane]
        });
        let outside: Vec<f64> = outside.collect();
        let (state, workspace) = (&mut member.state, &mut member.workspace);
        workspace.start_from(&state.pressures);
        let solved = network.solve(1.0, &outside, workspace)?;
        state.pressures.copy_from_slice(workspace.pressures());
        for (flow, found) in state.flows.iter_mut().zip(workspace.inner_flows()) {
            *flow = found.net();
        }
        Ok(Solved { steps: 0, ..solved })
    }
}
