//! Where a result very likely lies.

/// The middle 95 % of a result, with mean and standard deviation of all draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// 2.5 % of the draws lie below.
    pub low: f64,
    /// 97.5 % of the draws lie below.
    pub high: f64,
    /// Mean of the draws.
    pub mean: f64,
    /// Standard deviation of the draws.
    pub standard_deviation: f64,
}
