//! One way for air between two spaces, or a space and outside.

use super::{InnerOpening, OpeningFlow, OuterGap, Surroundings};
use crate::physics::balance::evaluate::Frame;
use crate::physics::balance::{Conditions, Path};

/// An opening with its flow as the search has it.
#[derive(Clone, Debug)]
pub(in crate::physics) struct Edge {
    /// Index of the space it comes from; none is outside.
    pub(in crate::physics) from: Option<usize>,
    /// Index of the space it leads to.
    pub(in crate::physics) to: usize,
    path: Path,
    frame: Frame,
    /// Pressure that drives it forward when both ends are at zero, Pa.
    pub(in crate::physics) drive: f64,
    is_tall: bool,
    /// Net mass flow forward, kg/s.
    pub(in crate::physics) flow: f64,
    /// Flow both ways together, kg/s.
    pub(in crate::physics) gross: f64,
    /// Least flow that the slope is taken at, kg/s.
    least: f64,
    /// Pressure difference at mid-height that drives that flow, Pa.
    pub(in crate::physics) pressure: f64,
    /// How the flow answers to pressure there, kg/(s Pa).
    pub(in crate::physics) slope: f64,
    /// Pressure difference that the spaces' pressures make, Pa.
    pub(in crate::physics) driven: f64,
    /// Change of the flow that the search proposes.
    pub(in crate::physics) step: f64,
}

/// Share of the flow at the greatest pressure at hand that is little for an opening.
const LEAST_SHARE: f64 = 1e-12;
/// Newton steps of the inverse of a tall opening's law at most; bisection keeps it bracketed.
const INVERSE_STEPS: usize = 200;

impl Edge {
    pub(in crate::physics) fn outer(gap: &OuterGap, given: &Surroundings, density: f64) -> Self {
        let frame = Frame::new(&Conditions {
            density_out: given.density,
            density_in: density,
            dynamic_pressure: given.dynamic_pressure,
            datum: given.datum,
        });
        let drive = frame.middle(&gap.path, gap.coefficient);
        Self::new(None, gap.space, gap.path, frame, drive)
    }

    pub(in crate::physics) fn inner(
        opening: &InnerOpening,
        given: &Surroundings,
        [density_from, density_to]: [f64; 2],
    ) -> Self {
        let frame = Frame::new(&Conditions {
            density_out: density_from,
            density_in: density_to,
            dynamic_pressure: 0.0,
            datum: given.datum,
        });
        let drive = frame.middle(&opening.path, 0.0);
        Self::new(Some(opening.from), opening.to, opening.path, frame, drive)
    }

    fn new(from: Option<usize>, to: usize, path: Path, frame: Frame, drive: f64) -> Self {
        Self {
            is_tall: frame.span(&path) > 0.0,
            from,
            to,
            path,
            frame,
            drive,
            flow: 0.0,
            gross: 0.0,
            least: 0.0,
            pressure: 0.0,
            slope: 0.0,
            driven: 0.0,
            step: 0.0,
        }
    }

    pub(in crate::physics) fn is_open(&self) -> bool {
        !(self.path.inward.is_closed() && self.path.outward.is_closed())
    }

    /// Pressure span over its height, Pa; zero where it counts as level.
    pub(in crate::physics) fn span(&self) -> f64 {
        self.frame.span(&self.path)
    }

    /// Net flow at a pressure difference at mid-height, and its slope.
    pub(in crate::physics) fn at(&self, pressure: f64) -> (f64, f64) {
        let flow = self.frame.flow_at(&self.path, pressure);
        let (forward, back) = flow.mass_flows();
        (forward - back, flow.slope)
    }

    /// Pressure difference at mid-height that drives a net flow, Pa.
    pub(in crate::physics) fn pressure_for(&self, flow: f64) -> f64 {
        if !self.is_tall {
            return self.frame.level_pressure(&self.path, flow);
        }
        // Beyond half the span the air goes one way, and the mean over the height is less than
        // what the same gap passes level at the greater end.
        let reach = 0.5 * self.frame.span(&self.path);
        let level = self.frame.level_pressure(&self.path, flow);
        let (mut low, mut high) = (level - 2.0 * reach, level + 2.0 * reach);
        let mut pressure = if self.pressure > low && self.pressure < high {
            self.pressure
        } else {
            level
        };
        for _ in 0..INVERSE_STEPS {
            let (found, slope) = self.at(pressure);
            let excess = found - flow;
            if excess.abs() <= 1e-15 * flow.abs() {
                break;
            }
            if excess > 0.0 {
                high = pressure;
            } else {
                low = pressure;
            }
            let newton = pressure - excess / slope;
            let next = if newton > low && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
            if next.to_bits() == pressure.to_bits() || !(next > low && next < high) {
                break;
            }
            pressure = next;
        }
        pressure
    }

    /// Makes the law a straight line through its flow at a pressure span, and remembers what flow
    /// is little for this opening.
    pub(in crate::physics) fn straighten(&mut self, span: f64) {
        let widest = 0.5 * (self.at(span).0 - self.at(-span).0);
        self.least = LEAST_SHARE * widest;
        self.flow = 0.0;
        self.pressure = 0.0;
        self.slope = widest / span;
    }

    /// Takes a flow, with the pressure and slope that belong to it. The slope is that of the
    /// least flow where there is less: a square root's has no end at nothing.
    pub(in crate::physics) fn set(&mut self, flow: f64) {
        self.flow = flow;
        self.pressure = self.pressure_for(flow);
        let steep = if self.is_tall || flow.abs() >= self.least {
            self.pressure
        } else {
            self.pressure_for(self.least.copysign(flow))
        };
        self.slope = self.at(steep).1;
        let flows = self.flows();
        self.gross = flows.forward + flows.back;
    }

    /// Flow each way.
    pub(in crate::physics) fn flows(&self) -> OpeningFlow {
        if !self.is_open() {
            return OpeningFlow::default();
        }
        if !self.is_tall {
            return OpeningFlow {
                forward: self.flow.max(0.0),
                back: (-self.flow).max(0.0),
            };
        }
        // The greater of the two follows from the net flow, which the spaces are balanced by.
        let (forward, back) = self.frame.flow_at(&self.path, self.pressure).mass_flows();
        if self.flow >= 0.0 {
            let forward = back + self.flow;
            OpeningFlow { forward, back }
        } else {
            let back = forward - self.flow;
            OpeningFlow { forward, back }
        }
    }
}
