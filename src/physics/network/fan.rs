//! A fan between a space and outside: one law among the others.
//!
//! ```text
//! m = m_free · min(1, max(0, 1 − Δp/Δp_max))
//! ```
//! where m is what the fan moves, kg/s, m_free what it moves against no pressure, kg/s, Δp the
//! pressure it works against, Pa, and Δp_max the pressure that stops it, Pa **\[A\]**. It never moves
//! more than its free flow, and air never blows back through it. Its outer end is at the static
//! pressure of undisturbed outside air, and both its ends at mid-height, where pressures are stated
//! **\[A\]**. So an extract fan works against `−p_s` and a supply fan against `p_s`, the pressure of
//! its space: what enters falls and what leaves rises with it, as with any gap.

/// Which way a fan moves air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FanWay {
    /// From outside into the space.
    Supply,
    /// From the space to outside.
    Extract,
}

/// A fan between a space and outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fan {
    /// Index of its space.
    pub space: usize,
    /// Which way it moves air.
    pub way: FanWay,
    /// Flow against no pressure, kg/s: m³/s times the density of the air the fan moves, that of
    /// outside for supply and of the space for extract.
    pub free_flow: f64,
    /// Pressure that stops it, Pa; infinite where it moves its flow whatever the pressure.
    pub most_pressure: f64,
}

/// Slope beyond the ends of the law as a share of that between them: it gives every flow a
/// pressure, as the search by flows wants it, and moves no air worth the name.
const FAINT_SLOPE: f64 = 1e-12;
/// Share of the free flow within which a step that ends at an end of the law is at that end.
const AT_END: f64 = 1e-12;

/// What a fan moves at one pressure of its space.
#[derive(Clone, Copy, Debug)]
pub(in crate::physics) struct FanFlow {
    /// kg/s, never below zero.
    pub(in crate::physics) flow: f64,
    /// How what enters less what leaves falls as the space's pressure rises, kg/(s Pa).
    pub(in crate::physics) slope: f64,
}

impl Fan {
    /// What it moves with its space at a pressure, Pa.
    #[inline]
    pub(in crate::physics) fn at(&self, pressure: f64) -> FanFlow {
        let against = match self.way {
            FanWay::Supply => pressure,
            FanWay::Extract => -pressure,
        };
        let factor = 1.0 - against / self.most_pressure;
        let works = factor > 0.0 && factor < 1.0;
        FanFlow {
            flow: self.free_flow * factor.clamp(0.0, 1.0),
            slope: if works {
                self.free_flow / self.most_pressure
            } else {
                0.0
            },
        }
    }

    /// Whether it moves its flow whatever the pressure.
    pub(super) fn is_constant(&self) -> bool {
        self.most_pressure.is_infinite()
    }

    /// What it brings its space against no pressure, kg/s; below zero where it takes air away.
    pub(super) fn free_gain(&self) -> f64 {
        match self.way {
            FanWay::Supply => self.free_flow,
            FanWay::Extract => -self.free_flow,
        }
    }

    pub(super) fn is_sound(&self) -> bool {
        self.free_flow.is_finite() && self.free_flow >= 0.0 && self.most_pressure > 0.0
    }
}

/// Where on its law a fan is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// The pressure stops it.
    Stopped,
    /// The flow falls with the pressure.
    Falling,
    /// It moves its free flow.
    Free,
}

/// The law of a fan turned round: the pressure outside less that of the space, Pa, that belongs to
/// an inward flow, for the search by flows. Flows beyond the ends have steep pressures of their own.
#[derive(Clone, Copy, Debug)]
pub(super) struct FanLaw {
    /// One for supply, minus one for extract.
    sign: f64,
    free_flow: f64,
    most_pressure: f64,
    part: Part,
}

impl FanLaw {
    pub(super) fn new(fan: &Fan) -> Self {
        Self {
            sign: match fan.way {
                FanWay::Supply => 1.0,
                FanWay::Extract => -1.0,
            },
            free_flow: fan.free_flow,
            most_pressure: fan.most_pressure,
            part: Part::Falling,
        }
    }

    pub(super) fn is_open(&self) -> bool {
        self.free_flow > 0.0
    }

    /// Inward flow against no pressure, kg/s.
    pub(super) fn free(&self) -> f64 {
        self.sign * self.free_flow
    }

    /// Inward flow at a pressure difference, and its slope.
    pub(super) fn at(&self, pressure: f64) -> (f64, f64) {
        let factor = 1.0 + self.sign * pressure / self.most_pressure;
        let held = factor.clamp(0.0, 1.0);
        let share = held + FAINT_SLOPE * (factor - held);
        let falling = self.free_flow / self.most_pressure;
        let works = factor > 0.0 && factor < 1.0;
        (
            self.free() * share,
            if works {
                falling
            } else {
                FAINT_SLOPE * falling
            },
        )
    }

    /// Pressure difference that belongs to an inward flow, Pa.
    pub(super) fn pressure_for(&self, flow: f64) -> f64 {
        let share = self.sign * flow / self.free_flow;
        let held = share.clamp(0.0, 1.0);
        self.sign * self.most_pressure * ((held - 1.0) + (share - held) / FAINT_SLOPE)
    }

    /// How the flow answers to the pressure difference where it is, kg/(s Pa).
    pub(super) fn slope(&self) -> f64 {
        let falling = self.free_flow / self.most_pressure;
        match self.part {
            Part::Falling => falling,
            Part::Stopped | Part::Free => FAINT_SLOPE * falling,
        }
    }

    /// Notes where on the law a flow is that was come to by a step.
    pub(super) fn come_to(&mut self, flow: f64, step: f64) {
        let (share, outwards) = (self.sign * flow / self.free_flow, self.sign * step > 0.0);
        self.part = if share >= 1.0 || (outwards && share >= 1.0 - AT_END) {
            Part::Free
        } else if share <= 0.0 || (!outwards && share <= AT_END) {
            Part::Stopped
        } else {
            Part::Falling
        };
    }

    /// Share of a step from a flow that may be taken before the law bends.
    pub(super) fn reach(&self, flow: f64, step: f64) -> f64 {
        if self.part != Part::Falling {
            return 1.0;
        }
        let (share, step) = (self.sign * flow, self.sign * step);
        let room = if step > 0.0 {
            self.free_flow - share
        } else {
            -share
        };
        if step.abs() > room.abs() {
            room / step
        } else {
            1.0
        }
    }

    /// The flow without what lies beyond the ends of the law.
    pub(super) fn held(&self, flow: f64) -> f64 {
        self.sign * (self.sign * flow).clamp(0.0, self.free_flow)
    }

    /// Whether a flow is one that the fan can have.
    pub(super) fn allows(&self, flow: f64) -> bool {
        const ROUNDING: f64 = 1e-9;
        (flow - self.held(flow)).abs() <= ROUNDING * self.free_flow
    }
}
