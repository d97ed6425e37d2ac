//! Four gaps at a time, laid out so that the processor works on them side by side.

use crate::physics::flow_law::Resistances;

/// Gaps in one block.
pub(super) const LANES: usize = 4;

/// One number for each gap of a block.
pub(super) type Lanes = [f64; LANES];

/// Pressure difference below which no flow is reckoned, Pa: it keeps the slope at zero finite.
const LEAST_PRESSURE: f64 = 1e-60;

/// The laws of four gaps for air flowing one way.
#[derive(Clone, Copy, Debug)]
struct Laws {
    /// `Δp = linear Q + square Q²` up to the crossing.
    linear: Lanes,
    square: Lanes,
    /// `Q = sharp √Δp` above it.
    sharp: Lanes,
    crossing: Lanes,
    /// `a Q*²/6`, what the antiderivative lacks above the crossing.
    lacking: Lanes,
    /// Density × number of gaps × factor.
    mass: Lanes,
}

/// Flow and its slope or antiderivative for four gaps, signs kept apart.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sums {
    pub(super) inflow: Lanes,
    pub(super) outflow: Lanes,
    /// Slope of the inflow and of both together, kg/(s Pa).
    pub(super) slope_in: Lanes,
    pub(super) slope: Lanes,
}

/// Four gaps of a body.
#[derive(Clone, Copy, Debug)]
pub(super) struct Block {
    inward: Laws,
    outward: Laws,
    /// Half the pressure span over the height of each, Pa; one for level gaps.
    half_span: Lanes,
}

impl Laws {
    /// Laws of gaps that let nothing through.
    const CLOSED: Self = Self {
        linear: [1.0; LANES],
        square: [1.0; LANES],
        sharp: [0.0; LANES],
        crossing: [f64::INFINITY; LANES],
        lacking: [0.0; LANES],
        mass: [0.0; LANES],
    };

    fn set(&mut self, lane: usize, parts: &Resistances, eased: f64, mass: f64) {
        let (sharp, in_front) = (parts.sharp * eased, parts.in_front * eased);
        // The crack passes less below Q* = a/(b_o − b), the opening above.
        let (crossing, lacking) = if sharp > parts.square {
            let flow = parts.linear / (sharp - parts.square);
            (
                (sharp + in_front) * flow * flow,
                parts.linear * flow * flow / 6.0,
            )
        } else {
            (f64::INFINITY, 0.0)
        };
        for (list, value) in [
            (&mut self.linear, parts.linear),
            (&mut self.square, parts.square + in_front),
            (&mut self.sharp, 1.0 / (sharp + in_front).sqrt()),
            (&mut self.crossing, crossing),
            (&mut self.lacking, lacking),
            (&mut self.mass, mass),
        ] {
            list[lane] = value;
        }
    }
}

impl Block {
    pub(super) const CLOSED: Self = Self {
        inward: Laws::CLOSED,
        outward: Laws::CLOSED,
        half_span: [1.0; LANES],
    };

    /// Sets one gap: resistances in both airs, `1/factor²` of all sharp edges, mass factors in
    /// and out, half the pressure span.
    pub(super) fn set(
        &mut self,
        lane: usize,
        parts: &[Resistances; 2],
        eased: f64,
        mass: [f64; 2],
        half_span: f64,
    ) {
        self.inward.set(lane, &parts[0], eased, mass[0]);
        self.outward.set(lane, &parts[1], eased, mass[1]);
        self.half_span[lane] = half_span;
    }

    /// Adds the flows of four level gaps at these pressure differences.
    #[inline(always)]
    pub(super) fn level(&self, dp: &Lanes, sums: &mut Sums) {
        for lane in 0..LANES {
            let is_in = dp[lane] >= 0.0;
            let x = dp[lane].abs().max(LEAST_PRESSURE);
            let pick = |inward: &Lanes, outward: &Lanes| {
                if is_in { inward[lane] } else { outward[lane] }
            };
            let a = pick(&self.inward.linear, &self.outward.linear);
            let b = pick(&self.inward.square, &self.outward.square);
            let k = pick(&self.inward.sharp, &self.outward.sharp);
            let mass = pick(&self.inward.mass, &self.outward.mass);
            let is_sharp = x > pick(&self.inward.crossing, &self.outward.crossing);
            let root = (a * a + 4.0 * b * x).sqrt();
            let sharp = k * x.sqrt();
            let flow = mass
                * if is_sharp {
                    sharp
                } else {
                    2.0 * x / (a + root)
                };
            let slope = mass
                * if is_sharp {
                    0.5 * sharp / x
                } else {
                    1.0 / root
                };
            sums.inflow[lane] += if is_in { flow } else { 0.0 };
            sums.outflow[lane] += if is_in { 0.0 } else { flow };
            sums.slope_in[lane] += if is_in { slope } else { 0.0 };
            sums.slope[lane] += slope;
        }
    }

    /// Adds the flows of four tall gaps with these pressure differences at mid-height: the mean
    /// over the height, by the antiderivative.
    #[inline(always)]
    pub(super) fn tall(&self, dp: &Lanes, sums: &mut Sums) {
        for (lane, (middle, half)) in dp.iter().zip(self.half_span).enumerate() {
            let top = self.end(lane, middle + half);
            let foot = self.end(lane, middle - half);
            let share = 0.5 / half;
            sums.inflow[lane] += share * (top.integral_in - foot.integral_in);
            sums.outflow[lane] += share * (foot.integral_out - top.integral_out);
            let slope_in = share * (top.flow_in - foot.flow_in);
            sums.slope_in[lane] += slope_in;
            sums.slope[lane] += slope_in + share * (foot.flow_out - top.flow_out);
        }
    }

    /// Flow and antiderivative at one end of a tall gap.
    #[inline(always)]
    fn end(&self, lane: usize, dp: f64) -> End {
        let is_in = dp >= 0.0;
        let x = dp.abs().max(LEAST_PRESSURE);
        let pick =
            |inward: &Lanes, outward: &Lanes| if is_in { inward[lane] } else { outward[lane] };
        let a = pick(&self.inward.linear, &self.outward.linear);
        let b = pick(&self.inward.square, &self.outward.square);
        let k = pick(&self.inward.sharp, &self.outward.sharp);
        let mass = pick(&self.inward.mass, &self.outward.mass);
        let is_sharp = x > pick(&self.inward.crossing, &self.outward.crossing);
        let lacking = pick(&self.inward.lacking, &self.outward.lacking);
        let sharp = k * x.sqrt();
        let crack = 2.0 * x / (a + (a * a + 4.0 * b * x).sqrt());
        let flow = mass * if is_sharp { sharp } else { crack };
        let integral = mass
            * if is_sharp {
                2.0 / 3.0 * sharp * x - lacking
            } else {
                crack * crack * (0.5 * a + 2.0 / 3.0 * b * crack)
            };
        End {
            flow_in: if is_in { flow } else { 0.0 },
            flow_out: if is_in { 0.0 } else { flow },
            integral_in: if is_in { integral } else { 0.0 },
            integral_out: if is_in { 0.0 } else { integral },
        }
    }
}

struct End {
    flow_in: f64,
    flow_out: f64,
    integral_in: f64,
    integral_out: f64,
}
