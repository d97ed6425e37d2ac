//! Four gaps at a time, laid out so that the processor works on them side by side: every gap takes
//! the same steps, and what differs is picked instead of branched for.
//!
//! Crack and sharp edge are one formula with other numbers, so that one root and one division do
//! for flow and slope together:
//!
//! ```text
//! r = √(a² + 4 b x),   Q = 2 x/(a + r),   dQ/dx = 1/r
//! ```
//! where
//! * x: pressure difference, Pa,
//! * a, b: `x = a Q + b Q²`; of a sharp edge a is zero.
//!
//! Which registers the processor has is found when the program runs. Sums, quotients and roots are
//! rounded alike in all of them, so that the answers are the same to the last bit.

use crate::physics::flow_law::Resistances;
use fearless_simd::prelude::*;
use fearless_simd::{f64x4, mask64x4};

/// Gaps in one block.
pub(super) const LANES: usize = 4;

/// One number for each gap of a block.
pub(super) type Lanes = [f64; LANES];

/// Pressure difference below which no flow is reckoned, Pa: it keeps the slope at zero finite.
pub(super) const LEAST_PRESSURE: f64 = 1e-60;

/// The laws of four gaps for air flowing one way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Laws {
    /// a and 4 b up to the crossing.
    pub(super) linear: Lanes,
    pub(super) four_square: Lanes,
    /// 4 b above it, where a is zero.
    pub(super) four_sharp: Lanes,
    pub(super) crossing: Lanes,
    /// `a Q*²/6`, what the antiderivative lacks above the crossing.
    pub(super) lacking: Lanes,
    /// Density × number of gaps × factor.
    pub(super) mass: Lanes,
}

/// Flow and its slope or antiderivative for four gaps, signs kept apart.
#[derive(Clone, Copy)]
pub(super) struct Sums<S: Simd> {
    pub(super) inflow: f64x4<S>,
    pub(super) outflow: f64x4<S>,
    /// Slope of the inflow and of both together, kg/(s Pa).
    pub(super) slope_in: f64x4<S>,
    pub(super) slope: f64x4<S>,
}

impl<S: Simd> Sums<S> {
    /// Nothing added yet.
    #[inline(always)]
    pub(super) fn zero(simd: S) -> Self {
        let zero = f64x4::splat(simd, 0.0);
        Self {
            inflow: zero,
            outflow: zero,
            slope_in: zero,
            slope: zero,
        }
    }
}

/// Four gaps of a body.
#[derive(Clone, Copy, Debug)]
pub(super) struct Block {
    pub(super) inward: Laws,
    pub(super) outward: Laws,
    /// Half the pressure span over the height of each, Pa; one for level gaps.
    pub(super) half_span: Lanes,
    /// One in the span.
    pub(super) per_span: Lanes,
}

impl Laws {
    /// Laws of gaps that let nothing through.
    const CLOSED: Self = Self {
        linear: [1.0; LANES],
        four_square: [4.0; LANES],
        four_sharp: [0.0; LANES],
        crossing: [f64::INFINITY; LANES],
        lacking: [0.0; LANES],
        mass: [0.0; LANES],
    };

    /// With `1/factor²` of all sharp edges.
    #[inline]
    fn ease(&mut self, makings: &Makings, eased: f64) {
        for lane in 0..LANES {
            let (linear, square) = (makings.linear[lane], makings.square[lane]);
            let in_front = makings.in_front[lane] * eased;
            let own = makings.sharp[lane] * eased;
            let sharp = own + in_front;
            // The crack passes less below Q* = a/(b_o − b), the opening above.
            let flow = linear / (own - square);
            let is_sharp_above = own > square;
            let crossing = sharp * flow * flow;
            self.linear[lane] = linear;
            self.four_square[lane] = 4.0 * (square + in_front);
            self.four_sharp[lane] = 4.0 * sharp;
            self.crossing[lane] = if is_sharp_above {
                crossing
            } else {
                f64::INFINITY
            };
            self.lacking[lane] = if is_sharp_above {
                SIXTH * linear * flow * flow
            } else {
                0.0
            };
        }
    }
}

/// What the laws of four gaps are made of, for air flowing one way: see [`Resistances`].
#[derive(Clone, Copy, Debug)]
pub(super) struct Makings {
    linear: Lanes,
    square: Lanes,
    sharp: Lanes,
    in_front: Lanes,
}

impl Makings {
    /// Those of gaps that let nothing through.
    pub(super) const CLOSED: Self = Self {
        linear: [1.0; LANES],
        square: [1.0; LANES],
        sharp: [0.0; LANES],
        in_front: [0.0; LANES],
    };

    pub(super) fn set(&mut self, lane: usize, of: &Resistances) {
        self.linear[lane] = of.linear;
        self.square[lane] = of.square;
        self.sharp[lane] = of.sharp;
        self.in_front[lane] = of.in_front;
    }
}

/// The one where it is so, else the other.
#[inline(always)]
fn pick<S: Simd>(simd: S, is_so: mask64x4<S>, one: &Lanes, other: &Lanes) -> f64x4<S> {
    is_so.select(f64x4::simd_from(simd, *one), f64x4::simd_from(simd, *other))
}

/// The laws in force at four pressure differences.
struct InForce<S: Simd> {
    is_in: mask64x4<S>,
    is_sharp: mask64x4<S>,
    /// Size of the pressure differences, Pa.
    x: f64x4<S>,
    linear: f64x4<S>,
    four_square: f64x4<S>,
    root: f64x4<S>,
}

impl Block {
    pub(super) const CLOSED: Self = Self {
        inward: Laws::CLOSED,
        outward: Laws::CLOSED,
        half_span: [1.0; LANES],
        per_span: [0.5; LANES],
    };

    /// Sets half the pressure span of one gap.
    pub(super) fn set_half_span(&mut self, lane: usize, half_span: f64) {
        self.half_span[lane] = half_span;
        self.per_span[lane] = 0.5 / half_span;
    }

    /// Sets the laws of all four, in outside air and in that of the space, with `1/factor²` of all
    /// sharp edges, and leaves how much each passes.
    #[inline]
    pub(super) fn ease(&mut self, [outside, inside]: &[Makings; 2], eased: f64) {
        self.inward.ease(outside, eased);
        self.outward.ease(inside, eased);
    }

    /// Sets the mass factors of one gap, in and out, and leaves the rest of it.
    #[inline]
    pub(super) fn set_mass(&mut self, lane: usize, mass: [f64; 2]) {
        self.inward.mass[lane] = mass[0];
        self.outward.mass[lane] = mass[1];
    }

    #[inline(always)]
    fn in_force<S: Simd>(&self, simd: S, dp: f64x4<S>) -> InForce<S> {
        let (inward, outward) = (&self.inward, &self.outward);
        let is_in = dp.simd_ge(0.0);
        let x = dp.abs().max(LEAST_PRESSURE);
        let is_sharp = x.simd_gt(pick(simd, is_in, &inward.crossing, &outward.crossing));
        let none = f64x4::splat(simd, 0.0);
        let linear = is_sharp.select(none, pick(simd, is_in, &inward.linear, &outward.linear));
        let four_square = is_sharp.select(
            pick(simd, is_in, &inward.four_sharp, &outward.four_sharp),
            pick(simd, is_in, &inward.four_square, &outward.four_square),
        );
        InForce {
            is_in,
            is_sharp,
            x,
            linear,
            four_square,
            root: (linear * linear + four_square * x).sqrt(),
        }
    }

    /// Adds the flows of four level gaps at these pressure differences.
    #[inline(always)]
    pub(super) fn level<S: Simd>(&self, simd: S, dp: f64x4<S>, sums: &mut Sums<S>) {
        let law = self.in_force(simd, dp);
        let none = f64x4::splat(simd, 0.0);
        let mass = pick(simd, law.is_in, &self.inward.mass, &self.outward.mass);
        let sum = law.linear + law.root;
        let shared = mass / (law.root * sum);
        let flow = (law.x + law.x) * law.root * shared;
        let slope = sum * shared;
        sums.inflow += law.is_in.select(flow, none);
        sums.outflow += law.is_in.select(none, flow);
        sums.slope_in += law.is_in.select(slope, none);
        sums.slope += slope;
    }

    /// Adds the flows of four tall gaps with these pressure differences at mid-height: the mean
    /// over the height, by the antiderivative.
    #[inline(always)]
    pub(super) fn tall<S: Simd>(&self, simd: S, dp: f64x4<S>, sums: &mut Sums<S>) {
        let half = f64x4::simd_from(simd, self.half_span);
        let (top, foot) = (self.end(simd, dp + half), self.end(simd, dp - half));
        let share = f64x4::simd_from(simd, self.per_span);
        let slope_in = share * (top.flow_in - foot.flow_in);
        sums.inflow += share * (top.integral_in - foot.integral_in);
        sums.outflow += share * (foot.integral_out - top.integral_out);
        sums.slope_in += slope_in;
        sums.slope += slope_in + share * (foot.flow_out - top.flow_out);
    }

    /// Flow and antiderivative at one end of four tall gaps:
    /// `∫Q dx = Q² (a/2 + 2/3 b Q)`, less what lacks above the crossing.
    #[inline(always)]
    fn end<S: Simd>(&self, simd: S, dp: f64x4<S>) -> End<S> {
        let law = self.in_force(simd, dp);
        let none = f64x4::splat(simd, 0.0);
        let mass = pick(simd, law.is_in, &self.inward.mass, &self.outward.mass);
        let lacking = pick(simd, law.is_in, &self.inward.lacking, &self.outward.lacking);
        let lacking = law.is_sharp.select(lacking, none);
        let one = (law.x + law.x) / (law.linear + law.root);
        let mean = 0.5 * law.linear + SIXTH * law.four_square * one;
        let (flow, integral) = (mass * one, mass * (one * one * mean - lacking));
        End {
            flow_in: law.is_in.select(flow, none),
            flow_out: law.is_in.select(none, flow),
            integral_in: law.is_in.select(integral, none),
            integral_out: law.is_in.select(none, integral),
        }
    }
}

pub(super) const SIXTH: f64 = 1.0 / 6.0;

struct End<S: Simd> {
    flow_in: f64x4<S>,
    flow_out: f64x4<S>,
    integral_in: f64x4<S>,
    integral_out: f64x4<S>,
}
