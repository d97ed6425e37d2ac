//! The balance of air in one space: the inside pressure at which as much air enters as leaves.
//!
//! ```text
//! Δp_j = Cp_j ½ρ_o U² − p_i − (ρ_o − ρ_i) g (z_j − z_datum)
//! Σ ρ_o Q_j(Δp_j > 0) + supply = Σ ρ_i Q_j(−Δp_j > 0) + extract
//! ```
//! Mass is balanced, not volume. The left side falls and the right side rises with p_i, so there
//! is one answer, which a bracket always closes in on.

pub(super) mod evaluate;
mod search;

use thiserror::Error;

use self::evaluate::Frame;
use super::air::GRAVITY;
use super::curve::Curve;
use super::flow_law::{GapFlow, Gas};

/// Why a balance has no answer.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
pub enum BalanceError {
    /// Fans move more one way than the other and every gap is closed.
    #[error("The fans do not move the same air in and out, and no gap is open to make it up.")]
    NoOpening,
    /// A number is not finite, or a density is not positive.
    #[error("The air balance needs finite numbers and positive densities.")]
    NotFinite,
    /// As many pressure coefficients as gaps are needed.
    #[error("The air balance has {paths} gaps but {coefficients} pressure coefficients.")]
    CoefficientCount {
        /// Number of gaps.
        paths: usize,
        /// Number of coefficients given.
        coefficients: usize,
    },
}

/// A way for air between inside and outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// Law for air coming in, at the outside air's state.
    pub inward: Curve,
    /// Law for air going out, at the inside air's state.
    pub outward: Curve,
    /// Lower end above the ground, m.
    pub z_low: f64,
    /// Upper end above the ground, m; the same as the lower end for a level gap.
    pub z_high: f64,
}

impl Path {
    /// A gap between two heights (in either order), spread evenly over them.
    pub fn new(gap: &GapFlow, outside: &Gas, inside: &Gas, z_one: f64, z_other: f64) -> Self {
        Self {
            inward: gap.at(outside),
            outward: gap.at(inside),
            z_low: z_one.min(z_other),
            z_high: z_one.max(z_other),
        }
    }

    /// The same path with its flow multiplied by `factor` (zero or more) at any pressure.
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            inward: self.inward.scaled(factor),
            outward: self.outward.scaled(factor),
            ..*self
        }
    }
}

/// The air and the wind a balance is struck for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Density of the outside air ρ_o, kg/m³.
    pub density_out: f64,
    /// Density of the inside air ρ_i, kg/m³.
    pub density_in: f64,
    /// Dynamic pressure of the wind at body height, ½ ρ_o U², Pa.
    pub dynamic_pressure: f64,
    /// Height above the ground at which the inside pressure is stated (mid-height), m.
    pub datum: f64,
}

impl Conditions {
    /// Height above the ground at which inside and undisturbed outside pressure are equal, m.
    ///
    /// ```text
    /// z_n = z_datum − p_i/((ρ_o − ρ_i) g)
    /// ```
    /// `None` where the pressure differs by less than 1e-6 Pa per metre of height: there is then
    /// no such height.
    pub fn neutral_level(&self, inside_pressure: f64) -> Option<f64> {
        const LEAST_GRADIENT: f64 = 1e-6;
        let gradient = (self.density_out - self.density_in) * GRAVITY;
        (gradient.abs() > LEAST_GRADIENT).then(|| self.datum - inside_pressure / gradient)
    }
}

/// The balance struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solved {
    /// Inside pressure p_i at the datum height relative to undisturbed outside air at the same
    /// height, Pa.
    pub inside_pressure: f64,
    /// Outside air coming in, supply fans included, kg/s (gross: a tall gap may let air in and
    /// out at once).
    pub inflow: f64,
    /// Inside air going out, extract fans included, kg/s.
    pub outflow: f64,
    /// What is left over, inflow − outflow, kg/s: at most 1e-9 of the through-flow, or nothing
    /// worth the name (1e-22 kg/s).
    pub imbalance: f64,
    /// Number of times the flows were worked out.
    pub iterations: u32,
    /// The inside pressure as a large part and a small remainder: where one wide opening holds
    /// the inside at its own outside pressure, their sum would lose the remainder.
    centre: f64,
    remainder: f64,
}

/// Flow through one gap of a struck balance, kg/s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PathFlow {
    /// Outside air coming in, kg/s.
    pub inward: f64,
    /// Inside air going out, kg/s.
    pub outward: f64,
}

impl PathFlow {
    /// Net inflow, kg/s.
    pub fn net(&self) -> f64 {
        self.inward - self.outward
    }
}

/// All ways for air in and out of one space.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Balance {
    /// Gaps.
    pub paths: Vec<Path>,
    /// Outside air blown in by fans, kg/s (a fan's m³/s times the outside density).
    pub supply: f64,
    /// Inside air drawn out by fans, kg/s (a fan's m³/s times the inside density).
    pub extract: f64,
}

impl Balance {
    /// Strikes the balance.
    ///
    /// `coefficients` holds one pressure coefficient per path, in the same order. `start` is a
    /// guess of the inside pressure in Pa, such as the answer for the last wind direction; a
    /// good one saves time, a bad one does no harm. A body with nothing open and no fans keeps
    /// whatever pressure it had: `start` comes back with no flow.
    ///
    /// Newton's method on the flow through the gap that reacts most strongly, kept inside a
    /// closing bracket. Allocates nothing.
    ///
    /// # Errors
    /// A number that is not finite, a density that is not positive, a wrong number of
    /// coefficients, or fans with nothing open to make up their air.
    ///
    /// ```
    /// use gapledger::physics::{Balance, Conditions, FlowLaw, GapFlow, Gas, Path};
    /// // Wind across 100 and 200 cm², ΔCp 0.9, 4 m/s, ρ 1.2: 20.70 L/s (closed form of BS 5925 [R]).
    /// let air = Gas { density: 1.2, viscosity: 1.81e-5 };
    /// let hole = |area| {
    ///     let gap = GapFlow::new(FlowLaw::Opening { area, discharge: 0.61 })?;
    ///     Ok::<_, gapledger::physics::OpeningError>(Path::new(&gap, &air, &air, 1.0, 1.0))
    /// };
    /// let body = Balance { paths: vec![hole(0.01)?, hole(0.02)?], ..Balance::default() };
    /// let case = Conditions {
    ///     density_out: 1.2,
    ///     density_in: 1.2,
    ///     dynamic_pressure: 0.5 * 1.2 * 4.0 * 4.0,
    ///     datum: 1.0,
    /// };
    /// let solved = body.solve(&case, &[0.6, -0.3], 0.0)?;
    /// assert!((solved.inflow / 1.2 - 0.02070).abs() < 5e-6);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn solve(
        &self,
        conditions: &Conditions,
        coefficients: &[f64],
        start: f64,
    ) -> Result<Solved, BalanceError> {
        let frame = self.frame(conditions, coefficients)?;
        if !start.is_finite() {
            return Err(BalanceError::NotFinite);
        }
        search::solve(self, &frame, coefficients, start)
    }

    /// Flow through every path of a struck balance, in the order of the paths.
    ///
    /// # Errors
    /// As [`Balance::solve`], which was given the same conditions and coefficients.
    pub fn flows<'a>(
        &'a self,
        conditions: &Conditions,
        coefficients: &'a [f64],
        solved: &Solved,
    ) -> Result<impl ExactSizeIterator<Item = PathFlow> + 'a, BalanceError> {
        let frame = self.frame(conditions, coefficients)?;
        let (centre, remainder) = (solved.centre, solved.remainder);
        Ok(self
            .paths
            .iter()
            .zip(coefficients)
            .map(move |(path, &coefficient)| {
                let (inward, outward) = frame
                    .flow(path, coefficient, centre, remainder)
                    .mass_flows();
                PathFlow { inward, outward }
            }))
    }

    fn frame(&self, given: &Conditions, coefficients: &[f64]) -> Result<Frame, BalanceError> {
        if coefficients.len() != self.paths.len() {
            return Err(BalanceError::CoefficientCount {
                paths: self.paths.len(),
                coefficients: coefficients.len(),
            });
        }
        let densities = [given.density_out, given.density_in];
        let numbers = [
            given.dynamic_pressure,
            given.datum,
            self.supply,
            self.extract,
        ];
        if densities
            .iter()
            .all(|density| density.is_finite() && *density > 0.0)
            && numbers.iter().all(|number| number.is_finite())
        {
            Ok(Frame::new(given))
        } else {
            Err(BalanceError::NotFinite)
        }
    }
}
