//! One way for air, and the flow through it between two airs.

use super::super::air::GRAVITY;
use super::super::curve::Curve;
use super::super::flow_law::{GapFlow, Gas};

/// Pressure span over a gap's height below which the gap counts as level, Pa.
pub(in crate::physics) const LEVEL_SPAN: f64 = 1e-6;

/// A way for air between two airs: outside and a space, or two spaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// Law for air coming in, at the state of the outside air (of the first space).
    pub inward: Curve,
    /// Law for air going out, at the state of the inside air (of the second space).
    pub outward: Curve,
    /// Lower end above the ground, m.
    pub z_low: f64,
    /// Upper end above the ground, m; the same as the lower end for a level gap.
    pub z_high: f64,
}

impl Path {
    /// A gap between two heights (in either order), spread evenly over them.
    pub fn new(gap: &GapFlow, outside: &Gas, inside: &Gas, z_one: f64, z_other: f64) -> Self {
        let placed = PlacedFlow {
            flow: *gap,
            z_low: z_one,
            z_high: z_other,
        };
        placed.path([outside, inside], 1.0, 1.0)
    }

    /// The same path with its flow multiplied by `factor` (zero or more) at any pressure.
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            inward: self.inward.scaled(factor),
            outward: self.outward.scaled(factor),
            ..*self
        }
    }

    pub(super) fn is_closed(&self) -> bool {
        self.inward.is_closed() && self.outward.is_closed()
    }
}

/// The flow of a gap or inner opening, whatever the air, between two heights above the ground, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedFlow {
    /// Its flow.
    pub flow: GapFlow,
    /// Lower end.
    pub z_low: f64,
    /// Upper end.
    pub z_high: f64,
}

impl PlacedFlow {
    /// The path between two airs, with every sharp edge passing `discharge` times and the whole
    /// `factor` times as much.
    pub(in crate::physics) fn path(
        &self,
        [one, other]: [&Gas; 2],
        discharge: f64,
        factor: f64,
    ) -> Path {
        let path = Path {
            inward: self.flow.at_discharge(one, discharge),
            outward: self.flow.at_discharge(other, discharge),
            z_low: self.z_low.min(self.z_high),
            z_high: self.z_low.max(self.z_high),
        };
        path.scaled(factor)
    }
}

/// The two airs that a path lies between: `out` and `in` for a gap, the air of its first and of
/// its second space for an inner opening.
#[derive(Clone, Copy, Debug)]
pub(in crate::physics) struct TwoAirs {
    density_out: f64,
    density_in: f64,
    datum: f64,
    /// Fall of the pressure difference with height, `(ρ_o − ρ_i) g`, Pa/m.
    gradient: f64,
}

/// Mass flow through one path, kg/s, and how each part answers to its pressure difference,
/// kg/(s Pa).
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::physics) struct Flow {
    pub(in crate::physics) inward: f64,
    pub(in crate::physics) outward: f64,
    /// Slope of the inward flow.
    pub(in crate::physics) slope_in: f64,
    /// Slope of both together.
    pub(in crate::physics) slope: f64,
}

impl TwoAirs {
    pub(in crate::physics) fn new(density_out: f64, density_in: f64, datum: f64) -> Self {
        Self {
            density_out,
            density_in,
            datum,
            gradient: (density_out - density_in) * GRAVITY,
        }
    }

    /// Inside pressure at which the pressure difference at the middle of a path is zero, with
    /// the wind pressing on it by `wind` Pa.
    ///
    /// Everything else is reckoned from this one rounded number, so that the difference of two
    /// paths is exact however small it is.
    #[inline]
    pub(in crate::physics) fn middle(&self, path: &Path, wind: f64) -> f64 {
        wind + self.weight(path.z_low, path.z_high)
    }

    /// What the weight of the airs adds to that between two heights, Pa.
    #[inline]
    pub(in crate::physics) fn weight(&self, z_low: f64, z_high: f64) -> f64 {
        let height = 0.5 * (z_low + z_high) - self.datum;
        -self.gradient * height
    }

    /// Pressure span over the height of a path, Pa; zero where the path counts as level.
    #[inline]
    pub(in crate::physics) fn span(&self, path: &Path) -> f64 {
        self.span_between(path.z_low, path.z_high)
    }

    /// The same between two heights.
    #[inline]
    pub(in crate::physics) fn span_between(&self, z_low: f64, z_high: f64) -> f64 {
        let span = self.gradient.abs() * (z_high - z_low).abs();
        if span < LEVEL_SPAN { 0.0 } else { span }
    }

    /// Flow through one path with a pressure difference `middle` at its mid-height.
    #[inline]
    pub(in crate::physics) fn flow(&self, path: &Path, middle: f64) -> Flow {
        let span = self.span(path);
        if span > 0.0 {
            return self.tall(path, middle - 0.5 * span, middle + 0.5 * span);
        }
        if middle >= 0.0 {
            self.all_inward(path.inward.flow_and_slope(middle))
        } else {
            self.all_outward(path.outward.flow_and_slope(-middle))
        }
    }

    /// A path over whose height the pressure difference runs from `low` to `high`. Where it
    /// changes sign, air enters through one part and leaves through the other, each at its own
    /// density: split exactly at zero.
    fn tall(&self, path: &Path, low: f64, high: f64) -> Flow {
        if low >= 0.0 {
            return self.all_inward(path.inward.mean_and_slope(low, high));
        }
        if high <= 0.0 {
            return self.all_outward(path.outward.mean_and_slope(-high, -low));
        }
        let (flow_high, integral_high) = path.inward.flow_and_integral(high);
        let (flow_low, integral_low) = path.outward.flow_and_integral(-low);
        let per_span = 1.0 / (high - low);
        Flow {
            inward: self.density_out * integral_high * per_span,
            outward: self.density_in * integral_low * per_span,
            slope_in: self.density_out * flow_high * per_span,
            slope: (self.density_out * flow_high + self.density_in * flow_low) * per_span,
        }
    }

    #[inline]
    fn all_inward(&self, (flow, slope): (f64, f64)) -> Flow {
        Flow {
            inward: self.density_out * flow,
            outward: 0.0,
            slope_in: self.density_out * slope,
            slope: self.density_out * slope,
        }
    }

    #[inline]
    fn all_outward(&self, (flow, slope): (f64, f64)) -> Flow {
        Flow {
            inward: 0.0,
            outward: self.density_in * flow,
            slope_in: 0.0,
            slope: self.density_in * slope,
        }
    }

    /// Signed mass flow through a level path at a signed pressure difference, kg/s.
    pub(super) fn level_flow(&self, path: &Path, dp: f64) -> f64 {
        if dp >= 0.0 {
            self.density_out * path.inward.flow(dp)
        } else {
            -self.density_in * path.outward.flow(-dp)
        }
    }

    /// Signed pressure difference that drives a signed mass flow through a level path, Pa.
    pub(super) fn level_pressure(&self, path: &Path, flow: f64) -> f64 {
        if flow >= 0.0 {
            path.inward.pressure(flow / self.density_out)
        } else {
            -path.outward.pressure(-flow / self.density_in)
        }
    }
}
