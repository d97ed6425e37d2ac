//! Leakage areas by their conventions, and laws made from stated areas and test results.

#[cfg(test)]
use super::flow_law::from_reference;
use super::flow_law::{FlowLaw, Gas, SHARP_DISCHARGE};

/// Flow exponent of an effective leakage area stated without one **\[M\]**.
pub const DEFAULT_EXPONENT: f64 = 0.65;

/// A convention that turns a flow into an area. Always name it beside the number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LeakageArea {
    /// Effective leakage area ELA: 4 Pa, Cd 1.0. ASTM E779, Sherman and Grimsrud **\[R\]**.
    Ela4Pa,
    /// Equivalent leakage area EqLA: 10 Pa, Cd 0.611. CAN/CGSB-149.10 **\[R\]**; it is 0.61 there, the
    /// third figure **\[M\]**.
    Eqla10Pa,
}

impl LeakageArea {
    /// Reference pressure difference, Pa.
    pub fn reference_pressure(self) -> f64 {
        match self {
            Self::Ela4Pa => 4.0,
            Self::Eqla10Pa => 10.0,
        }
    }

    /// Discharge coefficient.
    pub fn discharge(self) -> f64 {
        match self {
            Self::Ela4Pa => 1.0,
            Self::Eqla10Pa => 0.611,
        }
    }

    /// Area from the flow at this convention's reference pressure, m².
    pub fn area(self, flow: f64) -> f64 {
        area(flow, self.reference_pressure(), self.discharge())
    }
}

/// Speed of a frictionless jet of reference air, m/s: `√(2 Δp/ρ₀)`.
fn jet_speed(dp: f64) -> f64 {
    (2.0 * dp / Gas::REFERENCE.density).sqrt()
}

/// Leakage area from a flow at a reference pressure difference, m².
///
/// ```text
/// A = Q/(Cd √(2 Δp/ρ₀))
/// ```
/// where Q is the flow at Δp in m³/s at reference air (20 °C, ρ₀ 1.2041 kg/m³).
///
/// ```
/// use gapledger::physics::leakage::LeakageArea::{Ela4Pa, Eqla10Pa};
/// // A single envelope with n 0.65 has EqLA/ELA = 1.878: (10/4)^0.65 √(4/10)/0.611.
/// let flow = |dp: f64| 0.01 * dp.powf(0.65);
/// let ratio = Eqla10Pa.area(flow(10.0)) / Ela4Pa.area(flow(4.0));
/// assert!((ratio - 1.878).abs() < 5e-4);
/// ```
pub fn area(flow: f64, dp: f64, discharge: f64) -> f64 {
    flow / (discharge * jet_speed(dp))
}

/// Flow exponent of a sum of gaps between 4 and 50 Pa: `n = ln(Q50/Q4)/ln(50/4)`.
///
/// `None` unless both flows are positive and finite.
pub fn fitted_exponent(flow_50: f64, flow_4: f64) -> Option<f64> {
    let usable = |flow: f64| flow.is_finite() && flow > 0.0;
    (usable(flow_50) && usable(flow_4)).then(|| (flow_50 / flow_4).ln() / (50.0_f64 / 4.0).ln())
}

/// Side of the square hole that has a given area, m.
pub fn square_side(area: f64) -> f64 {
    area.sqrt()
}

/// Power law of a component whose leakage area is stated by a convention; `exponent` as stated,
/// or [`DEFAULT_EXPONENT`].
pub fn from_leakage_area(area: f64, convention: LeakageArea, exponent: f64) -> FlowLaw {
    let dp = convention.reference_pressure();
    from_flow(area * convention.discharge() * jet_speed(dp), dp, exponent)
}

/// Power law of a component whose flow at one pressure difference is known at reference air,
/// m³/s and Pa.
pub fn from_flow(flow: f64, dp: f64, exponent: f64) -> FlowLaw {
    FlowLaw::Power {
        coefficient: flow / dp.powf(exponent),
        exponent,
    }
}

/// Power law tested with air of another state, brought to reference air.
///
/// ```text
/// C₀ = C (ρ/ρ₀)^(1−n) (μ/μ₀)^(2n−1)
/// ```
/// ASTM E779 **\[R\]**. C in m³/(s Paⁿ) at the state `tested`.
#[cfg(test)]
pub fn from_test(coefficient: f64, exponent: f64, tested: &Gas) -> FlowLaw {
    FlowLaw::Power {
        coefficient: coefficient / from_reference(tested, exponent),
        exponent,
    }
}

/// Opening from a stated *equivalent* area, which already contains the loss: the sharp opening
/// with Cd 0.61 that passes the same flow at 1 Pa. EN 13141-1 **\[M\]**.
pub fn from_equivalent_area(area: f64) -> FlowLaw {
    FlowLaw::Opening {
        area,
        discharge: SHARP_DISCHARGE,
    }
}

/// Opening from a *free* area: the open cross-section of a hole, grille or mesh.
pub fn from_free_area(area: f64) -> FlowLaw {
    FlowLaw::Opening {
        area,
        discharge: SHARP_DISCHARGE,
    }
}

/// Free share of the gross area of a grille or louvre that is not known better: metal 75 %,
/// wood 25 %. NFPA 54 as quoted in a gas guide **\[S\]**.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GrilleMaterial {
    /// Metal louvres.
    Metal,
    /// Wood louvres.
    Wood,
}

impl GrilleMaterial {
    /// Free share of the gross area.
    pub fn free_share(self) -> f64 {
        match self {
            Self::Metal => 0.75,
            Self::Wood => 0.25,
        }
    }
}
