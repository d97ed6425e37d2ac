//! A straight line through points by least squares, with its 95 % limits.

use super::{Limits, student::t_95};

/// Why there is no line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LineError {
    /// Fewer than three points.
    #[error("a line with limits needs three points or more")]
    TooFewPoints,
    /// A coordinate is no number.
    #[error("a point is not a finite number")]
    NotFinite,
    /// All points stand at the same place along the line.
    #[error("all points stand at the same place, so nothing can be said of a slope")]
    OnePlace,
}

/// The line `y = a + n x` of least squares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Number of points N.
    pub points: usize,
    /// Slope n.
    pub slope: f64,
    /// Intercept a.
    pub intercept: f64,
    /// Standard error of the slope.
    pub slope_error: f64,
    /// Standard error of the intercept.
    pub intercept_error: f64,
    /// Standard deviation of the residuals, with N − 2 degrees of freedom.
    pub residual: f64,
    /// Coefficient of determination r².
    pub r_squared: f64,
    mean_x: f64,
    sum_xx: f64,
    t: f64,
}

impl Line {
    /// Fits a line to points (x, y).
    ///
    /// ```text
    /// n = S_xy/S_xx        a = ȳ − n x̄
    /// s² = Σ(y − a − n x)²/(N − 2)
    /// s_n = s/√Σ(x − x̄)²    s_a = s_n √(Σx²/N)
    /// ```
    /// ISO 9972 and ASTM E779 use it on logarithms **\[R\]**. Sums are taken about the means, so that
    /// nothing is lost where the points lie far from zero.
    ///
    /// ```
    /// use gapledger::physics::measurement::line::Line;
    /// // A line has no residual: 1 + 2 x.
    /// let line = Line::through(&[(0.0, 1.0), (1.0, 3.0), (3.0, 7.0)]).expect("a line");
    /// assert!((line.slope - 2.0).abs() < 1e-12 && (line.intercept - 1.0).abs() < 1e-12);
    /// assert!((line.r_squared - 1.0).abs() < 1e-12);
    /// ```
    ///
    /// # Errors
    /// Fewer than three points, a number that is not finite, or no spread along x.
    pub fn through(points: &[(f64, f64)]) -> Result<Self, LineError> {
        if points.len() < 3 {
            return Err(LineError::TooFewPoints);
        }
        if points
            .iter()
            .any(|(x, y)| !(x.is_finite() && y.is_finite()))
        {
            return Err(LineError::NotFinite);
        }
        let count = crate::physics::counts::count(points.len());
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / count;
        let (mean_x, mean_y) = (mean(|point| point.0), mean(|point| point.1));
        let sum = |of: &dyn Fn(f64, f64) -> f64| -> f64 {
            points.iter().map(|(x, y)| of(x - mean_x, y - mean_y)).sum()
        };
        let (sum_xx, sum_xy, sum_yy) = (sum(&|x, _| x * x), sum(&|x, y| x * y), sum(&|_, y| y * y));
        // Rounding leaves a trace of spread where there is none.
        if sum_xx <= count * (mean_x.abs() * f64::EPSILON).powi(2) || sum_xx <= 0.0 {
            return Err(LineError::OnePlace);
        }
        let slope = sum_xy / sum_xx;
        let left = sum(&|x, y| (y - slope * x).powi(2));
        let freedom = count - 2.0;
        let residual = (left / freedom).sqrt();
        let slope_error = residual / sum_xx.sqrt();
        let mean_square = points.iter().map(|(x, _)| x * x).sum::<f64>() / count;
        Ok(Self {
            points: points.len(),
            slope,
            intercept: mean_y - slope * mean_x,
            slope_error,
            intercept_error: slope_error * mean_square.sqrt(),
            residual,
            r_squared: if sum_yy > 0.0 {
                1.0 - left / sum_yy
            } else {
                1.0
            },
            mean_x,
            sum_xx,
            t: t_95(freedom).unwrap_or(f64::INFINITY),
        })
    }

    /// Slope with its 95 % limits, `n ± t s_n`, t for N − 2 degrees of freedom.
    #[must_use]
    pub fn slope_limits(&self) -> Limits {
        Limits::around(self.slope, self.t * self.slope_error)
    }

    /// Intercept with its 95 % limits.
    #[must_use]
    pub fn intercept_limits(&self) -> Limits {
        Limits::around(self.intercept, self.t * self.intercept_error)
    }

    /// The line's height at x with its 95 % limits.
    ///
    /// ```text
    /// y(x) ± t s_n √(Σ(x − x̄)²/N + (x − x̄)²)
    /// ```
    /// which is what ISO 9972 writes with sample variances, `(N − 1)/N S_xx` **\[R\]**.
    #[must_use]
    pub fn at(&self, x: f64) -> Limits {
        let count = crate::physics::counts::count(self.points);
        let off = x - self.mean_x;
        let spread = (self.sum_xx / count + off * off).sqrt();
        Limits::around(
            self.intercept + self.slope * x,
            self.t * self.slope_error * spread,
        )
    }
}
