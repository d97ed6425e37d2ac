//! What two stretches of time differ by, as far as weather that lasts lets anybody tell.
//!
//! Hours of one day resemble each other, and so do neighbouring days: taking each reading for an
//! independent one claims far too much. So the days' means are what is compared, and where one day
//! resembles the day before, fewer of them count.

use super::student::t_95;
use super::{Limits, line::LineError};
use crate::physics::counts::count;

/// Fewest days for which limits are given.
pub const FEWEST_DAYS: usize = 4;

/// Mean of days with what its limits hang on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Period {
    /// Days counted.
    pub days: usize,
    /// Mean over them.
    pub mean: f64,
    /// Variance of one day.
    pub variance: f64,
    /// Days that count as independent, `n (1 − r₁)/(1 + r₁)`.
    pub effective_days: f64,
}

impl Period {
    /// Takes daily means, in order.
    ///
    /// ```text
    /// r₁ = Σ(x_k − x̄)(x_{k+1} − x̄)/Σ(x_k − x̄)²      n_eff = n (1 − r₁)/(1 + r₁)
    /// ```
    /// kept between 2 and n: days that swing against each other do not count for more than days.
    ///
    /// # Errors
    /// Fewer than two days, or one that is no number.
    pub fn of_days(days: &[f64]) -> Result<Self, LineError> {
        if days.len() < 2 {
            return Err(LineError::TooFewPoints);
        }
        if days.iter().any(|day| !day.is_finite()) {
            return Err(LineError::NotFinite);
        }
        let number = count(days.len());
        let mean = days.iter().sum::<f64>() / number;
        let squares: f64 = days.iter().map(|day| (day - mean).powi(2)).sum();
        let neighbours: f64 = days
            .iter()
            .zip(days.iter().skip(1))
            .map(|(day, next)| (day - mean) * (next - mean))
            .sum();
        let alike = if squares > 0.0 {
            neighbours / squares
        } else {
            0.0
        };
        let effective = number * (1.0 - alike) / (1.0 + alike);
        Ok(Self {
            days: days.len(),
            mean,
            variance: squares / (number - 1.0),
            effective_days: effective.clamp(2.0, number),
        })
    }

    /// Variance of the mean.
    fn of_mean(&self) -> f64 {
        self.variance / self.effective_days
    }

    /// The mean with its 95 % limits, by Student's t for `n_eff − 1` degrees of freedom. `None` for
    /// fewer than [`FEWEST_DAYS`].
    #[must_use]
    pub fn limits(&self) -> Option<Limits> {
        if self.days < FEWEST_DAYS {
            return None;
        }
        let t = t_95(self.effective_days - 1.0)?;
        Some(Limits::around(self.mean, t * self.of_mean().sqrt()))
    }
}

/// By how much `later` differs from `earlier`, with 95 % limits by Welch's t.
///
/// ```text
/// d = x̄₂ − x̄₁      v_k = s_k²/n_k      half = t √(v₁ + v₂)
/// ν = (v₁ + v₂)²/(v₁²/(n₁ − 1) + v₂²/(n₂ − 1))
/// ```
/// with the effective days for n. B. L. Welch, Biometrika 34, 1947 **\[M\]**. `None` where either has
/// fewer than [`FEWEST_DAYS`].
#[must_use]
pub fn difference(earlier: &Period, later: &Period) -> Option<Limits> {
    if earlier.days.min(later.days) < FEWEST_DAYS {
        return None;
    }
    let (one, two) = (earlier.of_mean(), later.of_mean());
    let both = one + two;
    let of_mean = later.mean - earlier.mean;
    if both <= 0.0 {
        return Some(Limits::around(of_mean, 0.0));
    }
    let freedom = both * both
        / (one * one / (earlier.effective_days - 1.0) + two * two / (later.effective_days - 1.0));
    Some(Limits::around(of_mean, t_95(freedom)? * both.sqrt()))
}

/// The mean of differences taken pair by pair, on against off, with 95 % limits. `None` for fewer
/// than two pairs.
///
/// ```text
/// d̄ ± t_{k−1} s_d/√k
/// ```
#[must_use]
pub fn paired(differences: &[f64]) -> Option<Limits> {
    let number = count(differences.len());
    let t = t_95(number - 1.0)?;
    let mean = differences.iter().sum::<f64>() / number;
    let squares: f64 = differences.iter().map(|one| (one - mean).powi(2)).sum();
    Some(Limits::around(
        mean,
        t * (squares / (number - 1.0) / number).sqrt(),
    ))
}

/// Days that each of two periods of equal length must last for an effect to stand out from zero,
/// told beforehand from how much days differ and how alike neighbouring ones are.
///
/// ```text
/// smallest n with  t_{2(n_e − 1)} √(2 s²/n_e) ≤ |effect|,    n_e = n (1 − r₁)/(1 + r₁)
/// ```
/// `None` if half a year would not do.
#[must_use]
pub fn days_needed(effect: f64, daily_variance: f64, alike: f64) -> Option<usize> {
    let share = ((1.0 - alike) / (1.0 + alike)).min(1.0);
    (FEWEST_DAYS..=183).find(|days| {
        let effective = count(*days) * share;
        t_95(2.0 * (effective - 1.0))
            .is_some_and(|t| t * (2.0 * daily_variance / effective).sqrt() <= effect.abs())
    })
}

/// By how much *on* differs from *off* over several pairs of neighbouring periods, with 95 % limits.
///
/// ```text
/// d̄ = (1/k) Σ d_j      v = (1/k²) Σ (v_off,j + v_on,j)      half = t √v
/// ν = v²/Σ (v_p/k²)²/(n_p − 1)
/// ```
/// over the k pairs j and their 2k periods p, each with the variance of its mean and its effective
/// days n_p; ν by Satterthwaite, Biometrics Bulletin 2, 1946 **\[M\]**. The days of all pairs count,
/// which the scatter of two or three pair means could never make up for. For one pair it is
/// [`difference`]. `None` without a pair, or where a period has fewer than [`FEWEST_DAYS`].
///
/// ```
/// use gapledger::physics::measurement::daily_means::{Period, difference, over_pairs};
/// let off = Period::of_days(&[80.0, 83.0, 79.0, 84.0, 80.0]).unwrap();
/// let on = Period::of_days(&[61.0, 63.0, 60.0, 62.0, 60.0]).unwrap();
/// assert_eq!(over_pairs(&[(off, on)]), difference(&off, &on));
/// ```
#[must_use]
pub fn over_pairs(pairs: &[(Period, Period)]) -> Option<Limits> {
    let shortest = pairs.iter().map(|(off, on)| off.days.min(on.days)).min()?;
    if shortest < FEWEST_DAYS {
        return None;
    }
    let number = count(pairs.len());
    let mean = pairs
        .iter()
        .map(|(off, on)| on.mean - off.mean)
        .sum::<f64>()
        / number;
    let periods = || pairs.iter().flat_map(|(off, on)| [off, on]);
    let share = |period: &Period| period.of_mean() / (number * number);
    let variance: f64 = periods().map(share).sum();
    if variance <= 0.0 {
        return Some(Limits::around(mean, 0.0));
    }
    let spread: f64 = periods()
        .map(|period| share(period).powi(2) / (period.effective_days - 1.0))
        .sum();
    let t = t_95(variance * variance / spread)?;
    Some(Limits::around(mean, t * variance.sqrt()))
}
