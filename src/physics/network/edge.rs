//! One way for air between two spaces, or a space and outside: a gap, an inner opening or a fan.

use super::fan::FanLaw;
use super::path::{Path, TwoAirs};
use super::{Fan, InnerOpening, OpeningFlow, OuterGap};

/// An opening with its flow as the search has it.
#[derive(Clone, Debug)]
pub(in crate::physics) struct Edge {
    /// Index of the space it comes from; none is outside.
    pub(in crate::physics) from: Option<usize>,
    /// Index of the space it leads to.
    pub(in crate::physics) to: usize,
    law: Law,
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

/// What a way passes.
#[derive(Clone, Copy, Debug)]
enum Law {
    /// A gap or inner opening between its two airs.
    Path(Path, TwoAirs),
    /// A fan.
    Fan(FanLaw),
}

/// Share of the flow at the greatest pressure at hand that is little for an opening.
const LEAST_SHARE: f64 = 1e-12;
/// Newton steps of the inverse of a tall opening's law at most; bisection keeps it bracketed.
const INVERSE_STEPS: usize = 200;

impl Edge {
    /// A gap with the wind pressing on it by `wind` Pa, the outside air and that of its space.
    pub(super) fn outer(gap: &OuterGap, airs: TwoAirs, wind: f64) -> Self {
        let drive = airs.middle(&gap.path, wind);
        Self::new(None, gap.space, Law::Path(gap.path, airs), drive)
    }

    /// A fan between outside and its space.
    pub(super) fn fan(fan: &Fan) -> Self {
        Self::new(None, fan.space, Law::Fan(FanLaw::new(fan)), 0.0)
    }

    /// An inner opening with the airs of its two spaces.
    pub(in crate::physics) fn inner(opening: &InnerOpening, airs: TwoAirs) -> Self {
        let drive = airs.middle(&opening.path, 0.0);
        let law = Law::Path(opening.path, airs);
        Self::new(Some(opening.from), opening.to, law, drive)
    }

    fn new(from: Option<usize>, to: usize, law: Law, drive: f64) -> Self {
        Self {
            is_tall: law.span() > 0.0,
            drive,
            from,
            to,
            law,
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
        match &self.law {
            Law::Path(path, _) => !path.is_closed(),
            Law::Fan(fan) => fan.is_open(),
        }
    }

    /// Pressure span over its height, Pa; zero where it counts as level.
    pub(in crate::physics) fn span(&self) -> f64 {
        self.law.span()
    }

    /// Net flow at a pressure difference at mid-height, and its slope.
    pub(in crate::physics) fn at(&self, pressure: f64) -> (f64, f64) {
        match &self.law {
            Law::Path(path, airs) => {
                let flow = airs.flow(path, pressure);
                (flow.inward - flow.outward, flow.slope)
            }
            Law::Fan(fan) => fan.at(pressure),
        }
    }

    /// Pressure difference at mid-height that drives a net flow, Pa.
    pub(in crate::physics) fn pressure_for(&self, flow: f64) -> f64 {
        let level = match &self.law {
            Law::Path(path, airs) => airs.level_pressure(path, flow),
            Law::Fan(fan) => fan.pressure_for(flow),
        };
        if !self.is_tall {
            return level;
        }
        // Beyond half the span the air goes one way, and the mean over the height is less than
        // what the same gap passes level at the greater end.
        let reach = 0.5 * self.span();
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
        if let Law::Fan(fan) = &self.law {
            self.flow = fan.free();
            self.pressure = fan.pressure_for(self.flow);
            self.slope = fan.slope();
            return;
        }
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
        if let Law::Fan(fan) = &mut self.law {
            fan.come_to(flow, self.step);
            self.slope = fan.slope();
            self.gross = flow.abs();
            return;
        }
        let steep = if self.is_tall || flow.abs() >= self.least {
            self.pressure
        } else {
            self.pressure_for(self.least.copysign(flow))
        };
        self.slope = self.at(steep).1;
        let flows = self.flows();
        self.gross = flows.forward + flows.back;
    }

    /// Share of the proposed change that may be made before the law bends: a fan's does, at its
    /// free flow and where the pressure stops it.
    pub(super) fn reach(&self) -> f64 {
        match &self.law {
            Law::Path(..) => 1.0,
            Law::Fan(fan) => fan.reach(self.flow, self.step),
        }
    }

    /// Takes off what a fan's flow has beyond the ends of its law.
    pub(super) fn hold_within(&mut self) {
        if let Law::Fan(fan) = &self.law {
            self.flow = fan.held(self.flow);
        }
    }

    /// Whether the flow is one that the law can have.
    pub(super) fn is_lawful(&self) -> bool {
        match &self.law {
            Law::Path(..) => true,
            Law::Fan(fan) => fan.allows(self.flow),
        }
    }

    /// Flow each way.
    pub(in crate::physics) fn flows(&self) -> OpeningFlow {
        if !self.is_open() {
            return OpeningFlow::default();
        }
        let (Law::Path(path, airs), true) = (&self.law, self.is_tall) else {
            return OpeningFlow {
                forward: self.flow.max(0.0),
                back: (-self.flow).max(0.0),
            };
        };
        // The greater of the two follows from the net flow, which the spaces are balanced by.
        let found = airs.flow(path, self.pressure);
        if self.flow >= 0.0 {
            OpeningFlow {
                forward: found.outward + self.flow,
                back: found.outward,
            }
        } else {
            OpeningFlow {
                forward: found.inward,
                back: found.inward - self.flow,
            }
        }
    }
}

impl Law {
    fn span(&self) -> f64 {
        match self {
            Self::Path(path, airs) => airs.span(path),
            Self::Fan(_) => 0.0,
        }
    }
}
