//! Student's t.

use statrs::distribution::{ContinuousCDF, StudentsT};

/// The z that 95 % of the normal distribution lies within, both sides together [N: scipy.stats.norm.ppf].
const NORMAL_95: f64 = 1.959_963_984_540_054;

/// Degrees of freedom above which t is taken as its expansion about the normal distribution. What
/// the expansion leaves out is below 1e-9 here, while the inverse of the library grows coarse.
const MANY: f64 = 1e5;

/// The t that a share of 95 % lies within, both sides together, for so many degrees of freedom.
///
/// ```text
/// P(|T| ≤ t) = 0.95,   for many degrees ν:  t = z + z (z² + 1) / (4 ν)
/// ```
/// The degrees need not be whole (Welch). `None` below one degree: there is no interval worth
/// stating then.
///
/// ```
/// use gapledger::physics::measurement::student::t_95;
/// // scipy.stats.t.ppf(0.975, ν) [N]: 12.7062 for 1, 3.18245 for 3, 2.77645 for 4, 1.95996 for many.
/// for (freedom, expected) in [(1.0, 12.706_204_736_2), (3.0, 3.182_446_305_28), (4.0, 2.776_445_105_2)] {
///     assert!((t_95(freedom).expect("enough") / expected - 1.0).abs() < 1e-8);
/// }
/// assert!((t_95(1e4).expect("enough") - 1.960_201_240).abs() < 1e-6);
/// assert!((t_95(2e5).expect("enough") - 1.959_975_847).abs() < 1e-6);
/// assert!((t_95(1e7).expect("enough") - 1.959_964_2).abs() < 1e-6);
/// assert!(t_95(0.9).is_none());
/// ```
#[must_use]
pub fn t_95(degrees_of_freedom: f64) -> Option<f64> {
    if !(degrees_of_freedom >= 1.0 && degrees_of_freedom.is_finite()) {
        return None;
    }
    if degrees_of_freedom > MANY {
        return Some(
            NORMAL_95 + NORMAL_95 * (NORMAL_95.powi(2) + 1.0) / (4.0 * degrees_of_freedom),
        );
    }
    let student = StudentsT::new(0.0, 1.0, degrees_of_freedom).ok()?;
    Some(student.inverse_cdf(0.975))
}
