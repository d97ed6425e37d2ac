//! One body balanced many times over with other factors on its gaps: for trials of the uncertainty and
//! for trying out what sealing each gap would save.
//!
//! The equations are those of [`crate::physics::balance`]; only the speed differs. Gaps lie four
//! by four in memory, Newton's method starts from a neighbouring answer, and the last step is
//! made in the flow alone:
//!
//! ```text
//! inflow at balance ≈ inflow − (inflow − outflow) S_in/S
//! ```
//! where S_in and S are the slopes of the inflow and of all flows; the error is of the second
//! order in the imbalance left. Where Newton does not get there in a few steps, the exact
//! balance takes over.
#![expect(
    clippy::indexing_slicing,
    reason = "slots and lanes are laid out together; a missing number must never turn into a silent default"
)]

mod block;
mod joined;

use self::block::{Block, LANES, Lanes, Sums};
use super::air::GRAVITY;
use super::balance::{Balance, BalanceError, Conditions, Path};
use super::flow_law::{FlowLaw, GapFlow, Gas, Resistances};

pub use self::joined::{
    Compartment, Doorway, JoinedArranged, JoinedEnsemble, JoinedMember, JoinedState, JoinedStruck,
};

/// Pressure span over a gap's height below which the gap counts as level, Pa.
const LEVEL_SPAN: f64 = 1e-6;
/// Evaluations after which the exact balance takes over.
const MOST_EVALUATIONS: u32 = 12;

/// A gap between two heights above the ground, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Its flow.
    pub flow: GapFlow,
    /// Lower end.
    pub z_low: f64,
    /// Upper end.
    pub z_high: f64,
}

/// A body of one space with air of given states outside and inside.
#[derive(Clone, Debug)]
pub struct Ensemble {
    gaps: Vec<Placed>,
    /// Resistances in outside and inside air, per gap.
    parts: Vec<[Resistances; 2]>,
    outside: Gas,
    inside: Gas,
    datum: f64,
    supply: f64,
    extract: f64,
    /// Slot of each gap: level gaps first, then tall ones, each padded to whole blocks, then
    /// tested components.
    slots: Vec<usize>,
    level_blocks: usize,
    tall_blocks: usize,
    /// Gaps with a power law, in the order of their slots.
    powers: Vec<usize>,
    /// Pressure at each slot that is not the wind's: `−(ρ_o − ρ_i) g (z − z_datum)`, Pa.
    stack: Vec<Lanes>,
}

/// Numbers of one body's gaps in the order in which an [`Ensemble`] works on them.
#[derive(Clone, Debug, PartialEq)]
pub struct Arranged(Vec<Lanes>);

/// A body with given factors on its gaps, ready to be balanced in one wind after another.
#[derive(Clone, Debug)]
pub struct Member {
    blocks: Vec<Block>,
    powers: Vec<Path>,
    factors: Vec<f64>,
    discharge: f64,
    base: Vec<Lanes>,
}

/// A balance struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Struck {
    /// Inside pressure at the datum, Pa.
    pub inside_pressure: f64,
    /// Gross inflow of outside air, supply fans included, kg/s.
    pub inflow: f64,
    /// How often the flows were worked out; 0 where the exact balance took over.
    pub evaluations: u32,
}

impl Ensemble {
    /// Lays out the body. `supply` and `extract` are the fans' flows in kg/s.
    pub fn new(
        gaps: Vec<Placed>,
        outside: Gas,
        inside: Gas,
        datum: f64,
        supply: f64,
        extract: f64,
    ) -> Self {
        let gradient = (outside.density - inside.density) * GRAVITY;
        let is_tall = |gap: &Placed| gradient.abs() * (gap.z_high - gap.z_low).abs() >= LEVEL_SPAN;
        let is_power = |gap: &Placed| matches!(gap.flow.law(), FlowLaw::Power { .. });
        let mut slots = vec![0; gaps.len()];
        let mut place = |first: usize, wanted: &dyn Fn(&Placed) -> bool| {
            let mut next = first;
            for (slot, _) in slots.iter_mut().zip(&gaps).filter(|(_, gap)| wanted(gap)) {
                *slot = next;
                next += 1;
            }
            next.div_ceil(LANES) * LANES
        };
        let level = place(0, &|gap| !is_power(gap) && !is_tall(gap));
        let tall = place(level, &|gap| !is_power(gap) && is_tall(gap));
        let end = place(tall, &is_power);
        let powers = (0..gaps.len()).filter(|at| is_power(&gaps[*at])).collect();
        let parts = gaps
            .iter()
            .map(|gap| {
                [
                    gap.flow.resistances(&outside),
                    gap.flow.resistances(&inside),
                ]
            })
            .collect();
        let mut stack = vec![[0.0; LANES]; end / LANES];
        for (gap, slot) in gaps.iter().zip(&slots) {
            let height = 0.5 * (gap.z_low + gap.z_high) - datum;
            stack[slot / LANES][slot % LANES] = -gradient * height;
        }
        Self {
            gaps,
            parts,
            outside,
            inside,
            datum,
            supply,
            extract,
            slots,
            level_blocks: level / LANES,
            tall_blocks: (tall - level) / LANES,
            powers,
            stack,
        }
    }

    /// Number of gaps.
    pub fn len(&self) -> usize {
        self.gaps.len()
    }

    /// Whether there is no gap at all.
    pub fn is_empty(&self) -> bool {
        self.gaps.is_empty()
    }

    /// Density of the inside air, kg/m³.
    pub fn density_in(&self) -> f64 {
        self.inside.density
    }

    /// Density of the outside air, kg/m³.
    pub fn density_out(&self) -> f64 {
        self.outside.density
    }

    /// Puts one number for each gap, such as its pressure coefficient, into working order.
    pub fn arrange(&self, values: &[f64]) -> Arranged {
        let mut arranged = vec![[0.0; LANES]; self.stack.len()];
        for (value, slot) in values.iter().zip(&self.slots) {
            arranged[slot / LANES][slot % LANES] = *value;
        }
        Arranged(arranged)
    }

    /// The body as surveyed: every factor one.
    pub fn member(&self) -> Member {
        let mut member = Member {
            blocks: vec![Block::CLOSED; self.level_blocks + self.tall_blocks],
            powers: Vec::with_capacity(self.powers.len()),
            factors: vec![0.0; self.gaps.len()],
            discharge: 0.0,
            base: self.stack.clone(),
        };
        self.vary(&mut member, &vec![1.0; self.gaps.len()], 1.0);
        member
    }

    /// Sets the factors on the flow of each gap, and the one on all sharp edges. Allocates
    /// nothing.
    pub fn vary(&self, member: &mut Member, factors: &[f64], discharge: f64) {
        let gradient = (self.outside.density - self.inside.density) * GRAVITY;
        let eased = 1.0 / (discharge * discharge);
        member.discharge = discharge;
        member.factors.clear();
        member.factors.extend_from_slice(factors);
        let in_blocks = (self.level_blocks + self.tall_blocks) * LANES;
        for (at, (gap, slot)) in self.gaps.iter().zip(&self.slots).enumerate() {
            if *slot < in_blocks {
                let factor = gap.flow.multiplier() * factors[at];
                let mass = [factor * self.outside.density, factor * self.inside.density];
                let span = gradient.abs() * (gap.z_high - gap.z_low).abs();
                let half = if span < LEVEL_SPAN { 1.0 } else { 0.5 * span };
                member.blocks[slot / LANES].set(slot % LANES, &self.parts[at], eased, mass, half);
            }
        }
        member.powers.clear();
        member.powers.extend(
            self.powers
                .iter()
                .map(|at| self.path(member.discharge, *at, factors[*at])),
        );
    }

    fn path(&self, discharge: f64, at: usize, factor: f64) -> Path {
        let gap = &self.gaps[at];
        Path {
            inward: gap.flow.at_discharge(&self.outside, discharge),
            outward: gap.flow.at_discharge(&self.inside, discharge),
            z_low: gap.z_low.min(gap.z_high),
            z_high: gap.z_low.max(gap.z_high),
        }
        .scaled(factor)
    }

    /// Sets what of the outside pressure does not change with the wind's direction: the weight
    /// of the air, and `dynamic_pressure` times the sum of each list times its number.
    pub fn hold(&self, member: &mut Member, dynamic_pressure: f64, lists: &[(&Arranged, f64)]) {
        member.base.copy_from_slice(&self.stack);
        for (list, number) in lists {
            let scale = dynamic_pressure * number;
            for (base, value) in member.base.iter_mut().zip(&list.0) {
                for lane in 0..LANES {
                    base[lane] += scale * value[lane];
                }
            }
        }
    }

    /// Strikes the balance with the outside pressure `scale` Pa times each gap's coefficient,
    /// besides what [`Ensemble::hold`] set. Ends with an imbalance of at most `tolerance` of the
    /// through-flow, corrected as said at the head of this module.
    ///
    /// # Errors
    /// As [`Balance::solve`].
    pub fn solve(
        &self,
        member: &Member,
        coefficients: &Arranged,
        scale: f64,
        start: f64,
        tolerance: f64,
    ) -> Result<Struck, BalanceError> {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let mut pressure = start;
        for evaluations in 1..=MOST_EVALUATIONS {
            let total = self.evaluate(member, &coefficients.0, scale, pressure);
            let surplus = total.inflow - total.outflow;
            if surplus.abs() <= tolerance * total.inflow.max(total.outflow) && total.slope > 0.0 {
                return Ok(Struck {
                    inside_pressure: pressure + surplus / total.slope,
                    inflow: total.inflow - surplus * (total.slope_in / total.slope),
                    evaluations,
                });
            }
            if surplus > 0.0 {
                low = pressure;
            } else {
                high = pressure;
            }
            let next = pressure + surplus / total.slope;
            pressure = if next > low && next < high {
                next
            } else {
                0.5 * (low + high)
            };
            if !pressure.is_finite() {
                break;
            }
        }
        self.exactly(member, &coefficients.0, scale, start)
    }

    #[inline]
    fn evaluate(&self, member: &Member, coefficients: &[Lanes], scale: f64, inside: f64) -> Total {
        let mut sums = Sums::default();
        let dp = |at: usize| -> Lanes {
            let (wind, base) = (&coefficients[at], &member.base[at]);
            std::array::from_fn(|lane| scale * wind[lane] + base[lane] - inside)
        };
        for (at, block) in member.blocks[..self.level_blocks].iter().enumerate() {
            block.level(&dp(at), &mut sums);
        }
        let tall_ends = member.blocks.len();
        for at in self.level_blocks..tall_ends {
            member.blocks[at].tall(&dp(at), &mut sums);
        }
        let sum = |lanes: &Lanes| (lanes[0] + lanes[1]) + (lanes[2] + lanes[3]);
        let mut total = Total {
            inflow: self.supply + sum(&sums.inflow),
            outflow: self.extract + sum(&sums.outflow),
            slope_in: sum(&sums.slope_in),
            slope: sum(&sums.slope),
        };
        for (at, path) in member.powers.iter().enumerate() {
            let slot = tall_ends * LANES + at;
            let dp = dp(slot / LANES)[slot % LANES];
            self.add_power(path, dp, &mut total);
        }
        total
    }

    fn add_power(&self, path: &Path, dp: f64, total: &mut Total) {
        let gradient = (self.outside.density - self.inside.density) * GRAVITY;
        let span = gradient.abs() * (path.z_high - path.z_low);
        let reach = if span < LEVEL_SPAN { 0.0 } else { 0.5 * span };
        let (foot, top) = (dp - reach, dp + reach);
        let (inward, outward) = if reach <= 0.0 {
            if dp >= 0.0 {
                (path.inward.flow_and_slope(dp), (0.0, 0.0))
            } else {
                ((0.0, 0.0), path.outward.flow_and_slope(-dp))
            }
        } else if foot >= 0.0 {
            (path.inward.mean_and_slope(foot, top), (0.0, 0.0))
        } else if top <= 0.0 {
            ((0.0, 0.0), path.outward.mean_and_slope(-top, -foot))
        } else {
            let share = 1.0 / span;
            let (flow_in, integral_in) = path.inward.flow_and_integral(top);
            let (flow_out, integral_out) = path.outward.flow_and_integral(-foot);
            (
                (share * integral_in, share * flow_in),
                (share * integral_out, share * flow_out),
            )
        };
        let (density_out, density_in) = (self.outside.density, self.inside.density);
        total.inflow += density_out * inward.0;
        total.outflow += density_in * outward.0;
        total.slope_in += density_out * inward.1;
        total.slope += density_out * inward.1 + density_in * outward.1;
    }

    /// Outside pressure at each gap without the weight of the air, which the exact balance adds
    /// itself, Pa.
    fn outside_pressures<'a>(
        &'a self,
        member: &'a Member,
        coefficients: &'a [Lanes],
        scale: f64,
    ) -> impl Iterator<Item = f64> + 'a {
        self.slots.iter().map(move |slot| {
            let (block, lane) = (slot / LANES, slot % LANES);
            scale * coefficients[block][lane] + member.base[block][lane] - self.stack[block][lane]
        })
    }

    /// The exact balance of the same body.
    #[cold]
    fn exactly(
        &self,
        member: &Member,
        coefficients: &[Lanes],
        scale: f64,
        start: f64,
    ) -> Result<Struck, BalanceError> {
        let paths = (0..self.gaps.len())
            .map(|at| self.path(member.discharge, at, member.factors[at]))
            .collect();
        let outside: Vec<f64> = self
            .outside_pressures(member, coefficients, scale)
            .collect();
        let conditions = Conditions {
            density_out: self.outside.density,
            density_in: self.inside.density,
            dynamic_pressure: 1.0,
            datum: self.datum,
        };
        let balance = Balance {
            paths,
            supply: self.supply,
            extract: self.extract,
        };
        let solved = balance.solve(&conditions, &outside, start)?;
        Ok(Struck {
            inside_pressure: solved.inside_pressure,
            inflow: solved.inflow,
            evaluations: 0,
        })
    }
}

/// All flows at one inside pressure.
struct Total {
    inflow: f64,
    outflow: f64,
    slope_in: f64,
    slope: f64,
}
