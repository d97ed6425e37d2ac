//! A fan in the door: flows at several pressures, and the leakage they stand for.

use std::fmt;
use std::ops::RangeInclusive;

use super::Limits;
use super::line::{Line, LineError};
use crate::physics::leakage::LeakageArea;
use crate::physics::{FlowLaw, Gas};

/// Which way the fan blows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Out of the vehicle: inside lies below outside.
    Depressurising,
    /// Into the vehicle.
    Pressurising,
}

/// One steady reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Its number among all that were written down, from 1.
    pub number: usize,
    /// Pressure difference read, Pa, as a size without sign.
    pub pressure_pa: f64,
    /// Flow through the fan, m³/s at the air that passes it.
    pub flow: f64,
}

/// One set of readings in one direction.
#[derive(Clone, Debug, PartialEq)]
pub struct Readings<'a> {
    /// Which way.
    pub direction: Direction,
    /// The readings.
    pub points: &'a [Point],
    /// Pressure difference with the fan covered, before and after, Pa, in the sense in which the
    /// readings count as positive; their mean is subtracted. Empty where none was taken.
    pub zero_flow_pa: &'a [f64],
    /// Density of the inside air, kg/m³.
    pub inside_density: f64,
    /// Density of the outside air, kg/m³.
    pub outside_density: f64,
}

/// Flow exponents of openings: turbulent to laminar.
const EXPONENTS: RangeInclusive<f64> = 0.5..=1.0;

/// What makes a test not valid by the standard; its numbers are given all the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doubt {
    /// Fewer than five points.
    FewPoints(usize),
    /// The highest pressure lies below 50 Pa, so that 50 Pa is extrapolated.
    LowPressure(f64),
    /// An exponent outside 0.5 to 1, with its limits.
    Exponent(Limits),
    /// r² below 0.98.
    Scatter(f64),
    /// A zero-flow pressure above 5 Pa.
    ZeroFlow(f64),
    /// No zero-flow pressure was taken.
    NoZeroFlow,
}

/// Why a test gives no numbers.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum FanTestError {
    /// A pressure is not positive once the zero-flow pressure is subtracted, or a flow is not.
    #[error(
        "reading {0} has no pressure or no flow left once the zero-flow pressure is subtracted"
    )]
    NothingLeft(usize),
    /// The line failed.
    #[error(transparent)]
    Line(#[from] LineError),
}

/// The power law of an envelope as tested, and what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct FanTest {
    /// ln of the flow at the reference air in m³/s against ln of the pressure in Pa.
    line: Line,
    /// Flow at the test's air for a unit of flow at the reference air.
    to_reference: f64,
    /// What the standard would not accept.
    pub doubts: Vec<Doubt>,
    /// The readings as they were fitted: pressure Pa, flow of the envelope in m³/s at its own air.
    pub fitted: Vec<Point>,
}

impl FanTest {
    /// Works out one set of readings.
    ///
    /// ```text
    /// q_env = q ρ_i/ρ_o   depressurising        q_env = q ρ_o/ρ_i   pressurising
    /// ln q_env = ln C_env + n ln Δp             Δp = read − zero flow
    /// C_L = C_env (ρ/ρ₀)^(1−n)                  ρ = ρ_o depressurising, ρ_i pressurising
    /// ```
    /// where ρ₀ is 1.2041 kg/m³ (20 °C, 101 325 Pa). ISO 9972, ASTM E779 **\[R\]**. The flow read is
    /// that of the air which passes the fan: inside air depressurising, outside air pressurising.
    ///
    /// # Errors
    /// A reading with nothing left of pressure or flow, or too few for a line.
    pub fn from_readings(readings: &Readings<'_>) -> Result<Self, FanTestError> {
        let zero = mean(readings.zero_flow_pa).unwrap_or(0.0);
        let (through_envelope, density) = match readings.direction {
            Direction::Depressurising => (
                readings.inside_density / readings.outside_density,
                readings.outside_density,
            ),
            Direction::Pressurising => (
                readings.outside_density / readings.inside_density,
                readings.inside_density,
            ),
        };
        let mut fitted = Vec::with_capacity(readings.points.len());
        for point in readings.points {
            let left = Point {
                number: point.number,
                pressure_pa: point.pressure_pa - zero,
                flow: point.flow * through_envelope,
            };
            if !(left.pressure_pa > 0.0 && left.flow > 0.0) {
                return Err(FanTestError::NothingLeft(point.number));
            }
            fitted.push(left);
        }
        let logarithms: Vec<(f64, f64)> = fitted
            .iter()
            .map(|point| (point.pressure_pa.ln(), point.flow.ln()))
            .collect();
        let line = Line::through(&logarithms)?;
        let to_reference = (density / Gas::REFERENCE.density).powf(1.0 - line.slope);
        let doubts = doubts(&line, &fitted, readings.zero_flow_pa);
        Ok(Self {
            line,
            to_reference,
            doubts,
            fitted,
        })
    }

    /// Flow exponent n with its limits.
    #[must_use]
    pub fn exponent(&self) -> Limits {
        self.line.slope_limits()
    }

    /// Standard error of the exponent.
    #[must_use]
    pub fn exponent_error(&self) -> f64 {
        self.line.slope_error
    }

    /// Flow coefficient of the envelope at the test's air, m³/s at 1 Pa.
    #[must_use]
    pub fn coefficient(&self) -> Limits {
        self.line.intercept_limits().map(f64::exp)
    }

    /// Standard error of the coefficient, by its logarithm: `C s_lnC`.
    #[must_use]
    pub fn coefficient_error(&self) -> f64 {
        self.line.intercept.exp() * self.line.intercept_error
    }

    /// r² of the fit.
    #[must_use]
    pub fn r_squared(&self) -> f64 {
        self.line.r_squared
    }

    /// Flow at a pressure, m³/s at the reference air.
    #[must_use]
    pub fn flow_at(&self, pressure_pa: f64) -> Limits {
        self.line
            .at(pressure_pa.ln())
            .map(|logarithm| logarithm.exp() * self.to_reference)
    }

    /// Leakage area by a convention, m².
    #[must_use]
    pub fn area(&self, convention: LeakageArea) -> Limits {
        self.flow_at(convention.reference_pressure())
            .map(|flow| convention.area(flow))
    }

    /// Air changes per hour at 50 Pa in a volume, m³.
    #[must_use]
    pub fn n50(&self, volume_m3: f64) -> Limits {
        self.flow_at(50.0)
            .map(|flow| flow * crate::physics::units::SECONDS_PER_HOUR / volume_m3)
    }

    /// The law as an opening of the air balance.
    #[must_use]
    pub fn law(&self) -> FlowLaw {
        FlowLaw::Power {
            coefficient: self.line.intercept.exp() * self.to_reference,
            exponent: self.line.slope,
        }
    }
}

/// Mean of both directions, as ISO 9972 asks, of a quantity worked out from each; the limits are
/// those of two independent tests.
///
/// ```text
/// value = (v₁ + v₂)/2     half = √(h₁² + h₂²)/2   (on each side)
/// ```
#[must_use]
pub fn both_directions(one: Limits, other: Limits) -> Limits {
    let side = |a: f64, b: f64| a.hypot(b) / 2.0;
    let value = f64::midpoint(one.value, other.value);
    Limits {
        low: value - side(one.value - one.low, other.value - other.low),
        value,
        high: value + side(one.high - one.value, other.high - other.value),
    }
}

/// What the standard would not accept **\[R\]**.
fn doubts(line: &Line, fitted: &[Point], zero_flow: &[f64]) -> Vec<Doubt> {
    let highest = fitted
        .iter()
        .map(|point| point.pressure_pa)
        .fold(0.0, f64::max);
    let worst_zero = zero_flow.iter().map(|one| one.abs()).fold(0.0, f64::max);
    let asked = [
        (fitted.len() < 5).then_some(Doubt::FewPoints(fitted.len())),
        (highest < 50.0).then_some(Doubt::LowPressure(highest)),
        (!EXPONENTS.contains(&line.slope)).then(|| Doubt::Exponent(line.slope_limits())),
        (line.r_squared < 0.98).then_some(Doubt::Scatter(line.r_squared)),
        (worst_zero > 5.0).then_some(Doubt::ZeroFlow(worst_zero)),
        zero_flow.is_empty().then_some(Doubt::NoZeroFlow),
    ];
    asked.into_iter().flatten().collect()
}

fn mean(of: &[f64]) -> Option<f64> {
    (!of.is_empty()).then(|| of.iter().sum::<f64>() / crate::physics::counts::count(of.len()))
}

impl fmt::Display for Doubt {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FewPoints(count) => write!(out, "{count} readings; five or more are asked for"),
            Self::LowPressure(highest) => write!(
                out,
                "the highest pressure is {highest:.0}\u{a0}Pa; 50\u{a0}Pa are asked for, so what is said \
                 at 50\u{a0}Pa reaches beyond the readings"
            ),
            Self::Exponent(Limits { low, value, high }) => {
                write!(
                    out,
                    "the flow exponent is {value:.3} ({low:.3} to {high:.3}); no set of openings has one \
                     outside 0.5 to 1, "
                )?;
                out.write_str(if EXPONENTS.contains(low) || EXPONENTS.contains(high) {
                    "but the scatter of the readings alone can bring it there; the standard does not accept \
                     it: read more pressures, in calm weather"
                } else {
                    "so something moved or was misread"
                })
            }
            Self::Scatter(r_squared) => write!(
                out,
                "the readings scatter: r² is {r_squared:.3}; 0.98 is asked for (gusts, most often)"
            ),
            Self::ZeroFlow(worst) => write!(
                out,
                "the pressure with the fan covered was {worst:.1}\u{a0}Pa; more than 5\u{a0}Pa is too \
                 windy for a test"
            ),
            Self::NoZeroFlow => out.write_str(
                "no pressure was taken with the fan covered, so what the wind and warmth add is in the \
                 readings",
            ),
        }
    }
}
