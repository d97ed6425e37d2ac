//! Flows at a given inside pressure.

use super::{Balance, Conditions, GRAVITY, Path};

/// Pressure span over a gap's height below which the gap counts as level, Pa.
const LEVEL_SPAN: f64 = 1e-6;

/// Conditions made ready for evaluation.
#[derive(Clone, Copy, Debug)]
pub(in crate::physics) struct Frame {
    density_out: f64,
    density_in: f64,
    dynamic_pressure: f64,
    datum: f64,
    /// Fall of the pressure difference with height, `(ρ_o − ρ_i) g`, Pa/m.
    gradient: f64,
}

/// Mass flow through one path, kg/s, and how each part answers to its pressure difference,
/// kg/(s Pa).
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::physics) struct Flow {
    inward: f64,
    outward: f64,
    pub(in crate::physics) slope: f64,
}

impl Flow {
    pub(in crate::physics) fn mass_flows(&self) -> (f64, f64) {
        (self.inward, self.outward)
    }
}

/// Sums over all paths at one inside pressure.
#[derive(Clone, Copy, Debug)]
pub(in crate::physics) struct Evaluation {
    pub(super) inflow: f64,
    pub(super) outflow: f64,
    /// −d(inflow − outflow)/dp_i, kg/(s Pa).
    pub(super) slope: f64,
    /// Index of the path with the steepest slope, and that slope.
    pub(super) steepest: usize,
    pub(super) steepest_slope: f64,
}

impl Evaluation {
    pub(in crate::physics) fn imbalance(&self) -> f64 {
        self.inflow - self.outflow
    }
}

impl Frame {
    pub(in crate::physics) fn new(given: &Conditions) -> Self {
        Self {
            density_out: given.density_out,
            density_in: given.density_in,
            dynamic_pressure: given.dynamic_pressure,
            datum: given.datum,
            gradient: (given.density_out - given.density_in) * GRAVITY,
        }
    }

    /// Inside pressure at which the pressure difference at the middle of a path is zero, Pa.
    ///
    /// Everything else is reckoned from this one rounded number, so that the difference of two
    /// paths is exact however small it is.
    #[inline]
    pub(in crate::physics) fn middle(&self, path: &Path, coefficient: f64) -> f64 {
        let height = 0.5 * (path.z_low + path.z_high) - self.datum;
        coefficient * self.dynamic_pressure - self.gradient * height
    }

    /// Pressure span over the height of a path, Pa; zero where the path counts as level.
    #[inline]
    pub(in crate::physics) fn span(&self, path: &Path) -> f64 {
        let span = self.gradient.abs() * (path.z_high - path.z_low);
        if span < LEVEL_SPAN { 0.0 } else { span }
    }

    /// Flow through one path at the inside pressure `centre + remainder`.
    #[inline]
    pub(in crate::physics) fn flow(
        &self,
        path: &Path,
        coefficient: f64,
        centre: f64,
        remainder: f64,
    ) -> Flow {
        let middle = (self.middle(path, coefficient) - centre) - remainder;
        self.flow_at(path, middle)
    }

    /// Flow through one path with a pressure difference `middle` at its mid-height.
    #[inline]
    pub(in crate::physics) fn flow_at(&self, path: &Path, middle: f64) -> Flow {
        let span = self.span(path);
        if span > 0.0 {
            return self.tall(path, middle - 0.5 * span, middle + 0.5 * span);
        }
        if middle >= 0.0 {
            let (flow, slope) = path.inward.flow_and_slope(middle);
            Flow {
                inward: self.density_out * flow,
                outward: 0.0,
                slope: self.density_out * slope,
            }
        } else {
            let (flow, slope) = path.outward.flow_and_slope(-middle);
            Flow {
                inward: 0.0,
                outward: self.density_in * flow,
                slope: self.density_in * slope,
            }
        }
    }

    /// A path over whose height the pressure difference runs from `low` to `high`. Where it
    /// changes sign, air enters through one part and leaves through the other, each at its own
    /// density: split exactly at zero.
    fn tall(&self, path: &Path, low: f64, high: f64) -> Flow {
        if low >= 0.0 {
            let (flow, slope) = path.inward.mean_and_slope(low, high);
            return Flow {
                inward: self.density_out * flow,
                outward: 0.0,
                slope: self.density_out * slope,
            };
        }
        if high <= 0.0 {
            let (flow, slope) = path.outward.mean_and_slope(-high, -low);
            return Flow {
                inward: 0.0,
                outward: self.density_in * flow,
                slope: self.density_in * slope,
            };
        }
        let (flow_high, integral_high) = path.inward.flow_and_integral(high);
        let (flow_low, integral_low) = path.outward.flow_and_integral(-low);
        let per_span = 1.0 / (high - low);
        Flow {
            inward: self.density_out * integral_high * per_span,
            outward: self.density_in * integral_low * per_span,
            slope: (self.density_out * flow_high + self.density_in * flow_low) * per_span,
        }
    }

    /// Signed mass flow through a level path at a signed pressure difference, kg/s.
    pub(in crate::physics) fn level_flow(&self, path: &Path, dp: f64) -> f64 {
        if dp >= 0.0 {
            self.density_out * path.inward.flow(dp)
        } else {
            -self.density_in * path.outward.flow(-dp)
        }
    }

    /// Signed pressure difference that drives a signed mass flow through a level path, Pa.
    pub(in crate::physics) fn level_pressure(&self, path: &Path, flow: f64) -> f64 {
        if flow >= 0.0 {
            path.inward.pressure(flow / self.density_out)
        } else {
            -path.outward.pressure(-flow / self.density_in)
        }
    }

    /// Pressure beyond its own that surely drives `flow` kg/s out (or in) through a path.
    pub(in crate::physics) fn pressure_for(&self, path: &Path, flow: f64, outward: bool) -> f64 {
        if outward {
            path.outward.pressure(flow / self.density_in)
        } else {
            path.inward.pressure(flow / self.density_out)
        }
    }

    /// All paths and fans together.
    pub(in crate::physics) fn evaluate(
        &self,
        balance: &Balance,
        coefficients: &[f64],
        centre: f64,
        remainder: f64,
    ) -> Evaluation {
        let mut sum = Evaluation {
            inflow: balance.supply,
            outflow: balance.extract,
            slope: 0.0,
            steepest: 0,
            steepest_slope: 0.0,
        };
        for (index, (path, &coefficient)) in balance.paths.iter().zip(coefficients).enumerate() {
            let flow = self.flow(path, coefficient, centre, remainder);
            sum.inflow += flow.inward;
            sum.outflow += flow.outward;
            sum.slope += flow.slope;
            if flow.slope > sum.steepest_slope {
                sum.steepest_slope = flow.slope;
                sum.steepest = index;
            }
        }
        sum
    }
}
