//! How far inputs may be off: the one place for what several calculations take for it.

use crate::survey::Certainty;

/// Quantile of the normal distribution that 97.5 % lie below.
pub(crate) const TWO_SIDED_95: f64 = 1.96;
/// Factor within which 95 % of what one surveyor sees too large or too small lie **\[A\]**.
pub(crate) const SURVEYOR: f64 = 1.15;
/// The same of the discharge of sharp edges **\[A\]**.
pub(crate) const DISCHARGE: f64 = 1.08;
/// Standard deviation of the logarithm of the factor that is common to all unintended leakage, for
/// what nobody found **\[A\]**, METHOD section *Calibration*.
pub(crate) const NOT_FOUND: f64 = 0.4;

/// Standard deviation of a logarithm of which 95 % lie within a factor: `σ = ln k/1.96`.
pub(crate) fn sigma_within(factor: f64) -> f64 {
    factor.ln() / TWO_SIDED_95
}

/// Factor within which 95 % of the flows of gaps lie whose size was found so **\[A\]**.
fn factor_of_size(certainty: Certainty) -> f64 {
    match certainty {
        Certainty::Measured => 1.2,
        Certainty::Estimated => 1.6,
        Certainty::Guessed => 3.0,
    }
}

/// Standard deviation of the logarithm of the flow of a gap whose size was found so **\[A\]**.
pub(crate) fn sigma_of_size(certainty: Certainty) -> f64 {
    sigma_within(factor_of_size(certainty))
}
