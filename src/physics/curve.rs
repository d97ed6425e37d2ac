//! The flow through a gap as a function of the pressure difference, for air of one state.
//!
//! A [`Curve`] holds everything worked out beforehand, so that the balance evaluates it with a
//! square root or two. Flows are m³/s at the density of the air flowing through the gap.

/// Pressure difference below which no flow is reckoned, Pa: it keeps the slope at zero finite.
const LEAST_PRESSURE: f64 = 1e-60;

/// Shape of the law for one gap, before its count or share is applied.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Shape {
    /// `Q = k √Δp`
    Sharp { k: f64 },
    /// `Δp = a Q + b Q²` up to the crossing, `Q = k √Δp` above it.
    Crack {
        a: f64,
        b: f64,
        k: f64,
        crossing: f64,
    },
    /// `Q = c Δpⁿ`
    Power { c: f64, n: f64 },
    /// `(Q/c)^(1/n) + b Q² = Δp`
    PowerBehind { c: f64, n: f64, b: f64 },
}

/// Flow against pressure difference for one gap and one state of the air.
///
/// Made by [`GapFlow::at`](crate::physics::GapFlow::at). Every method taking `dp` expects a
/// pressure difference of zero or more in Pa, save `flow_signed`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    shape: Shape,
    /// Factor on the flow of the whole arrangement (count × share left).
    scale: f64,
}

impl Curve {
    /// `Q = k √Δp` with `k = 1/√b`.
    pub(super) fn sharp(b: f64, scale: f64) -> Self {
        Self {
            shape: Shape::Sharp { k: 1.0 / b.sqrt() },
            scale,
        }
    }

    /// A crack `Δp = a Q + b Q²`, never passing more than the sharp opening `Δp = b_o Q²`, both
    /// behind another opening `Δp = b_s Q²`.
    ///
    /// The crack passes less below `Q* = a/(b_o − b)`, the opening above; if `b_o ≤ b` the crack
    /// always does.
    pub(super) fn crack(a: f64, b: f64, b_o: f64, b_s: f64, scale: f64) -> Self {
        let crossing = if b_o > b {
            let flow = a / (b_o - b);
            (b_o + b_s) * flow * flow
        } else {
            f64::INFINITY
        };
        let k = 1.0 / (b_o + b_s).sqrt();
        Self {
            shape: Shape::Crack {
                a,
                b: b + b_s,
                k,
                crossing,
            },
            scale,
        }
    }

    /// `Q = c Δpⁿ`, optionally behind another opening `Δp = b_s Q²`.
    pub(super) fn power(c: f64, n: f64, b_s: Option<f64>, scale: f64) -> Self {
        let shape = match b_s {
            Some(b) => Shape::PowerBehind { c, n, b },
            None => Shape::Power { c, n },
        };
        Self { shape, scale }
    }

    /// The same curve with its flow multiplied by `factor` (zero or more).
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            shape: self.shape,
            scale: self.scale * factor,
        }
    }

    /// Whether nothing ever flows: the factor on the flow is zero.
    pub fn is_closed(&self) -> bool {
        self.scale <= 0.0
    }

    /// Pressure difference Δp* above which a crack is limited by the sharp-edged opening law, Pa.
    /// `None` where the gap is no crack or the two laws never cross.
    #[cfg(test)]
    pub fn crossing_pressure(&self) -> Option<f64> {
        match self.shape {
            Shape::Crack { crossing, .. } if crossing.is_finite() => Some(crossing),
            _ => None,
        }
    }

    /// Flow at `dp` ≥ 0, m³/s.
    pub fn flow(&self, dp: f64) -> f64 {
        self.flow_and_slope(dp).0
    }

    /// Flow with the sign of `dp`, m³/s.
    #[cfg(test)]
    pub fn flow_signed(&self, dp: f64) -> f64 {
        self.flow(dp.abs()).copysign(dp)
    }

    /// Slope dQ/dΔp at `dp` ≥ 0, m³/(s Pa).
    ///
    /// A square root is infinitely steep at zero: there a very large, finite number is returned.
    pub fn slope(&self, dp: f64) -> f64 {
        self.flow_and_slope(dp).1
    }

    /// Flow and slope at `dp` ≥ 0 together.
    #[inline]
    pub fn flow_and_slope(&self, dp: f64) -> (f64, f64) {
        let (flow, slope) = self.shape.flow_and_slope(dp);
        (self.scale * flow, self.scale * slope)
    }

    /// Antiderivative `∫₀^Δp Q dΔp`, m³ Pa/s, exact and without cancellation near zero.
    ///
    /// ```text
    /// opening      ⅔ Q Δp
    /// power law    Q Δp/(n + 1)
    /// crack        a Q²/2 + 2 b Q³/3; above Δp*  ⅔ Q Δp − a Q*²/6
    /// power law behind an opening, P = (Q/C)^(1/n), S = b Q²   Q (P/(n + 1) + ⅔ S)
    /// ```
    pub fn integral(&self, dp: f64) -> f64 {
        self.scale * self.shape.integral(dp)
    }

    /// Pressure difference that drives `flow` ≥ 0 through the gap, Pa: the inverse of
    /// [`Curve::flow`]. Infinite where the gap is closed and the flow is not zero.
    pub fn pressure(&self, flow: f64) -> f64 {
        if flow <= 0.0 {
            return 0.0;
        }
        self.shape.pressure(flow / self.scale)
    }

    /// Mean flow over pressure differences spread evenly from `low` ≥ 0 to `high` > `low`, and
    /// the derivative of that mean when both ends move together.
    ///
    /// This is the flow of a gap that spans a height: the pressure difference changes evenly
    /// with height. `(F(high) − F(low))/(high − low)` with F the antiderivative; where the span
    /// is small beside the pressure itself that difference would lose digits, and two-point
    /// Gauss quadrature is used, exact there to 1e-14.
    #[inline]
    pub fn mean_and_slope(&self, low: f64, high: f64) -> (f64, f64) {
        const SMALL_SPAN: f64 = 2e-3;
        const GAUSS: f64 = 0.288_675_134_594_812_9;
        let span = high - low;
        if span < SMALL_SPAN * low && self.shape.same_law(low, high) {
            let (middle, reach) = (0.5 * (low + high), GAUSS * span);
            let (q1, s1) = self.flow_and_slope(middle - reach);
            let (q2, s2) = self.flow_and_slope(middle + reach);
            return (0.5 * (q1 + q2), 0.5 * (s1 + s2));
        }
        let (q_low, f_low) = self.shape.flow_and_integral(low);
        let (q_high, f_high) = self.shape.flow_and_integral(high);
        let factor = self.scale / span;
        (factor * (f_high - f_low), factor * (q_high - q_low))
    }

    /// Flow and antiderivative at `dp` ≥ 0 together.
    #[inline]
    pub(super) fn flow_and_integral(&self, dp: f64) -> (f64, f64) {
        let (flow, integral) = self.shape.flow_and_integral(dp);
        (self.scale * flow, self.scale * integral)
    }
}

impl Shape {
    #[inline]
    fn flow_and_slope(&self, dp: f64) -> (f64, f64) {
        if dp < LEAST_PRESSURE {
            return (0.0, self.flow_and_slope(LEAST_PRESSURE).1);
        }
        match *self {
            Shape::Sharp { k } => sharp(k, dp),
            Shape::Crack { a, b, k, crossing } => {
                if dp > crossing {
                    return sharp(k, dp);
                }
                // Stable root of Δp = a Q + b Q²; the slope is 1/(a + 2 b Q).
                let root = (a * a + 4.0 * b * dp).sqrt();
                (2.0 * dp / (a + root), 1.0 / root)
            }
            Shape::Power { c, n } => {
                let flow = c * dp.powf(n);
                (flow, n * flow / dp)
            }
            Shape::PowerBehind { c, n, b } => {
                let (flow, through_power) = behind(c, n, b, dp);
                (flow, flow / (through_power / n + 2.0 * b * flow * flow))
            }
        }
    }

    fn integral(&self, dp: f64) -> f64 {
        self.flow_and_integral(dp).1
    }

    #[inline]
    fn flow_and_integral(&self, dp: f64) -> (f64, f64) {
        if dp <= 0.0 {
            return (0.0, 0.0);
        }
        match *self {
            Shape::Sharp { k } => {
                let flow = k * dp.sqrt();
                (flow, 2.0 / 3.0 * flow * dp)
            }
            Shape::Crack { a, b, k, crossing } => {
                if dp > crossing {
                    let flow = k * dp.sqrt();
                    let at_crossing = k * crossing.sqrt();
                    return (
                        flow,
                        2.0 / 3.0 * flow * dp - a * at_crossing * at_crossing / 6.0,
                    );
                }
                let flow = 2.0 * dp / (a + (a * a + 4.0 * b * dp).sqrt());
                (flow, flow * flow * (0.5 * a + 2.0 / 3.0 * b * flow))
            }
            Shape::Power { c, n } => {
                let flow = c * dp.powf(n);
                (flow, flow * dp / (n + 1.0))
            }
            Shape::PowerBehind { c, n, b } => {
                let (flow, through_power) = behind(c, n, b, dp);
                let through_opening = b * flow * flow;
                (
                    flow,
                    flow * (through_power / (n + 1.0) + 2.0 / 3.0 * through_opening),
                )
            }
        }
    }

    fn pressure(&self, flow: f64) -> f64 {
        match *self {
            Shape::Sharp { k } => (flow / k) * (flow / k),
            Shape::Crack { a, b, k, crossing } => {
                let as_crack = flow * (a + b * flow);
                if as_crack > crossing {
                    (flow / k) * (flow / k)
                } else {
                    as_crack
                }
            }
            Shape::Power { c, n } => (flow / c).powf(1.0 / n),
            Shape::PowerBehind { c, n, b } => (flow / c).powf(1.0 / n) + b * flow * flow,
        }
    }

    fn same_law(&self, low: f64, high: f64) -> bool {
        match *self {
            Shape::Crack { crossing, .. } => (low > crossing) == (high > crossing),
            _ => true,
        }
    }
}

#[inline]
fn sharp(k: f64, dp: f64) -> (f64, f64) {
    let root = dp.sqrt();
    (k * root, 0.5 * k / root)
}

/// Flow Q solving `(Q/c)^(1/n) + b Q² = Δp`, and the part of Δp lost in the power law.
///
/// The left side grows and bends upwards, and each part alone would pass more than both: Newton
/// from the smaller of the two lone flows descends to the root without ever passing it.
fn behind(c: f64, n: f64, b: f64, dp: f64) -> (f64, f64) {
    const STEPS: usize = 60;
    let mut flow = (c * dp.powf(n)).min((dp / b).sqrt());
    let mut through_power = (flow / c).powf(1.0 / n);
    for _ in 0..STEPS {
        let through_opening = b * flow * flow;
        let excess = through_power + through_opening - dp;
        let step = excess * flow / (through_power / n + 2.0 * through_opening);
        if step.is_nan() || step <= 1e-16 * flow {
            break;
        }
        flow -= step;
        through_power = (flow / c).powf(1.0 / n);
    }
    (flow, through_power)
}
