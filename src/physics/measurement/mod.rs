//! From readings to results: a straight line with its limits, means of days and their difference,
//! the fan test, the decay of a tracer, and the balance of water collected.

pub mod daily_means;
pub mod fan_test;
pub mod line;
pub mod logger;
pub mod student;
pub mod tracer;
pub mod water_balance;

/// A value with the limits between which it lies with 95 % confidence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Lower limit.
    pub low: f64,
    /// The value itself.
    pub value: f64,
    /// Upper limit.
    pub high: f64,
}

impl Limits {
    /// A value, so much either side of it.
    #[must_use]
    pub fn around(value: f64, half: f64) -> Self {
        Self {
            low: value - half,
            value,
            high: value + half,
        }
    }

    /// All three through a function that never falls.
    #[must_use]
    pub fn map(self, rising: impl Fn(f64) -> f64) -> Self {
        Self {
            low: rising(self.low),
            value: rising(self.value),
            high: rising(self.high),
        }
    }

    /// Whether it holds a number.
    #[must_use]
    pub fn holds(&self, number: f64) -> bool {
        self.low <= number && number <= self.high
    }

    /// Half of its width as a share of the value, taken on the logarithm: `√(high/low) − 1`.
    /// `None` where a limit is not positive.
    #[must_use]
    pub fn relative_half(&self) -> Option<f64> {
        (self.low > 0.0 && self.high.is_finite()).then(|| (self.high / self.low).sqrt() - 1.0)
    }
}
