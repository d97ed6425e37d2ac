//! How a measurement and the survey stand to each other.

use crate::assess::spread::NOT_FOUND;

/// Beyond so many joint standard deviations they contradict each other.
pub(crate) const CONFLICT: f64 = 2.0;

/// How a measurement and the survey stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within two standard deviations of both together.
    Agrees,
    /// More leaks than the survey can explain.
    MoreThanFound,
    /// Less leaks than the survey says.
    LessThanFound,
}

impl Verdict {
    /// The verdict on what was measured and what is expected.
    ///
    /// ```text
    /// z = ln(y_m/y_p)/√(σ_m² + σ_p²)     contradict where |z| > 2
    /// ```
    /// where σ_m is the spread of the logarithm of what was measured and σ_p that of what is expected, with
    /// 0.4 for what nobody found **\[A\]** where more was measured: what was not found can only be
    /// added to what was, so that less than the survey says is never excused by it.
    pub(crate) fn on(measured: (f64, f64), expected: (f64, f64)) -> Self {
        let more = (measured.0 / expected.0).ln();
        let survey = if more > 0.0 {
            expected.1.hypot(NOT_FOUND)
        } else {
            expected.1
        };
        let apart = more / measured.1.hypot(survey);
        if apart > CONFLICT {
            Self::MoreThanFound
        } else if apart < -CONFLICT {
            Self::LessThanFound
        } else {
            Self::Agrees
        }
    }
}
