//! The same as in [`super::block`], one gap after another and step by step alike, to the last bit:
//! for builds without optimisation, where wide registers cost many times what they gain.

use super::block::{Block, LEAST_PRESSURE, Lanes, Laws, SIXTH};
use crate::physics::network::path::Flow;

/// Whether this was built without optimisation, by the variable that Cargo itself reads.
pub(super) const UNOPTIMISED: bool = match option_env!("CARGO_PROFILE_DEV_OPT_LEVEL") {
    Some(level) => matches!(level.as_bytes(), b"0"),
    None => false,
};

/// Flow and its slope for four gaps, signs kept apart.
#[derive(Clone, Copy, Default)]
pub(super) struct Sums {
    pub(super) inflow: Lanes,
    pub(super) outflow: Lanes,
    pub(super) slope_in: Lanes,
    pub(super) slope: Lanes,
}

/// The law in force at one pressure difference.
struct InForce<'a> {
    laws: &'a Laws,
    is_in: bool,
    is_sharp: bool,
    x: f64,
    linear: f64,
    four_square: f64,
    root: f64,
}

fn in_force(block: &Block, lane: usize, dp: f64) -> InForce<'_> {
    let is_in = dp >= 0.0;
    let laws = if is_in { &block.inward } else { &block.outward };
    let x = dp.abs().max(LEAST_PRESSURE);
    let is_sharp = x > laws.crossing[lane];
    let (linear, four_square) = if is_sharp {
        (0.0, laws.four_sharp[lane])
    } else {
        (laws.linear[lane], laws.four_square[lane])
    };
    InForce {
        laws,
        is_in,
        is_sharp,
        x,
        linear,
        four_square,
        root: (linear * linear + four_square * x).sqrt(),
    }
}

impl Sums {
    fn add(&mut self, lane: usize, one: Flow) {
        self.inflow[lane] += one.inward;
        self.outflow[lane] += one.outward;
        self.slope_in[lane] += one.slope_in;
        self.slope[lane] += one.slope;
    }
}

/// Adds the flows of four level gaps at these pressure differences.
pub(super) fn level(block: &Block, dp: &Lanes, sums: &mut Sums) {
    for (lane, dp) in dp.iter().enumerate() {
        sums.add(lane, one_level(block, lane, *dp));
    }
}

/// The flow of one level gap.
pub(super) fn one_level(block: &Block, lane: usize, dp: f64) -> Flow {
    let law = in_force(block, lane, dp);
    let sum = law.linear + law.root;
    let shared = law.laws.mass[lane] / (law.root * sum);
    let flow = (law.x + law.x) * law.root * shared;
    let slope = sum * shared;
    if law.is_in {
        Flow {
            inward: flow,
            outward: 0.0,
            slope_in: slope,
            slope,
        }
    } else {
        Flow {
            inward: 0.0,
            outward: flow,
            slope_in: 0.0,
            slope,
        }
    }
}

/// Adds the flows of four tall gaps with these pressure differences at mid-height.
pub(super) fn tall(block: &Block, dp: &Lanes, sums: &mut Sums) {
    for (lane, dp) in dp.iter().enumerate() {
        sums.add(lane, one_tall(block, lane, *dp));
    }
}

/// The flow of one tall gap.
pub(super) fn one_tall(block: &Block, lane: usize, dp: f64) -> Flow {
    let half = block.half_span[lane];
    let top = end(block, lane, dp + half);
    let foot = end(block, lane, dp - half);
    let share = block.per_span[lane];
    let slope_in = share * (top.flow_in - foot.flow_in);
    Flow {
        inward: share * (top.integral_in - foot.integral_in),
        outward: share * (foot.integral_out - top.integral_out),
        slope_in,
        slope: slope_in + share * (foot.flow_out - top.flow_out),
    }
}

/// Flow and antiderivative at one end of a tall gap.
#[derive(Default)]
struct End {
    flow_in: f64,
    flow_out: f64,
    integral_in: f64,
    integral_out: f64,
}

fn end(block: &Block, lane: usize, dp: f64) -> End {
    let law = in_force(block, lane, dp);
    let lacking = if law.is_sharp {
        law.laws.lacking[lane]
    } else {
        0.0
    };
    let mass = law.laws.mass[lane];
    let one = (law.x + law.x) / (law.linear + law.root);
    let mean = 0.5 * law.linear + SIXTH * law.four_square * one;
    let (flow, integral) = (mass * one, mass * (one * one * mean - lacking));
    if law.is_in {
        End {
            flow_in: flow,
            integral_in: integral,
            ..End::default()
        }
    } else {
        End {
            flow_out: flow,
            integral_out: integral,
            ..End::default()
        }
    }
}
