//! How much each draw weighs, and where to draw again when too few of them do.
#![expect(
    clippy::indexing_slicing,
    reason = "rows and columns of tables made together; a missing number must never turn into a silent default"
)]

use super::input::UncertainInput;
use super::round::Round;
use super::targets::Ready;
use crate::physics::counts::count;
use std::collections::BTreeMap;

/// Effective draws below which more are made, elsewhere (METHOD section *Calibration*), and the share of
/// all that is enough where few are asked for.
const ENOUGH: (f64, f64) = (400.0, 0.4);
/// Effective draws without which no interval is given, likewise.
const FEWEST: (f64, f64) = (100.0, 0.05);
/// Rounds at most.
pub(super) const MOST_ROUNDS: u32 = 4;
/// Shifts smaller than this, in standard deviations, gain nothing.
const LEAST_SHIFT: f64 = 0.05;

/// Whether so many effective draws are enough.
pub(super) fn are_enough(effective: f64, draws: usize) -> bool {
    effective >= ENOUGH.0.min(ENOUGH.1 * count(draws))
}

/// Whether so few of them say nothing.
pub(super) fn are_too_few(effective: f64, draws: usize) -> bool {
    effective < FEWEST.0.min(FEWEST.1 * count(draws))
}

/// Weights from their logarithms, the greatest one.
pub(super) fn weights(logarithms: &[f64]) -> Vec<f64> {
    let most = logarithms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if most == f64::NEG_INFINITY {
        return vec![0.0; logarithms.len()];
    }
    logarithms.iter().map(|ln| (ln - most).exp()).collect()
}

/// Effective draws (Kish **\[M\]**).
///
/// ```text
/// N_eff = (Σ w)²/Σ w²
/// ```
pub(super) fn effective(weights: &[f64]) -> f64 {
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    if squares > 0.0 {
        sum * sum / squares
    } else {
        0.0
    }
}

/// So many places of draws, each as often as it weighs: at even steps along the sum of the weights.
pub(super) fn resampled(weights: &[f64], many: usize) -> Vec<usize> {
    let sum: f64 = weights.iter().sum();
    let step = sum / count(many);
    let (mut at, mut reached) = (0, weights.first().copied().unwrap_or(0.0));
    let mut places = Vec::with_capacity(many);
    for one in 0..many {
        let wanted = (count(one) + 0.5) * step;
        while reached < wanted && at + 1 < weights.len() {
            at += 1;
            reached += weights[at];
        }
        places.push(at);
    }
    places
}

/// Where the next round is to be drawn: round the mean that the weights point to.
///
/// With few effective draws the weighted mean of each input is mostly noise. Its normal numbers z and
/// the logarithms ln y of what is predicted go nearly along a straight line, so that the mean is had
/// from how they vary together in all draws of the round:
///
/// ```text
/// μ' = C_zy (C_yy + σ²)⁻¹ (ln y_m − (E ln y − C_zy μ))
/// ```
/// where μ is the shift of this round, from which every input has moved from its own middle, and the
/// measurements y_m are taken one after the other. Exact where it is a straight line: with a single
/// lognormal factor it is the mean itself.
pub(super) fn next_round(
    round: &Round,
    normals: &[(UncertainInput, Vec<f64>)],
    (targets, predicted): (&[Ready], &[Vec<f64>]),
) -> Round {
    let many = targets.len();
    let mut among: Vec<Vec<f64>> = predicted
        .iter()
        .map(|one| {
            let others = predicted.iter();
            others.map(|other| covariance(one, other)).collect()
        })
        .collect();
    let mut with: Vec<Vec<f64>> = normals
        .iter()
        .map(|(_, z)| predicted.iter().map(|one| covariance(z, one)).collect())
        .collect();
    // What would be expected without the shift.
    let mut expected: Vec<f64> = (0..many)
        .map(|a| {
            let inputs = normals.iter().zip(&with);
            let moved = inputs.map(|((input, _), with)| with[a] * round.shift(*input));
            mean(&predicted[a]) - moved.sum::<f64>()
        })
        .collect();
    let mut shifts = vec![0.0; normals.len()];
    for a in 0..many {
        let whole = among[a][a] + targets[a].sigma * targets[a].sigma;
        let apart = targets[a].ln - expected[a];
        for (shift, with) in shifts.iter_mut().zip(&mut with) {
            let gain = with[a] / whole;
            *shift += gain * apart;
            for b in a + 1..many {
                with[b] -= gain * among[a][b];
            }
        }
        for b in a + 1..many {
            let gain = among[b][a] / whole;
            expected[b] += gain * apart;
            for c in a + 1..many {
                among[b][c] -= gain * among[a][c];
            }
        }
    }
    let shifts = normals.iter().map(|(input, _)| *input).zip(shifts);
    let shifts: BTreeMap<UncertainInput, f64> = shifts
        .filter(|(_, shift)| shift.abs() >= LEAST_SHIFT)
        .collect();
    round.next(shifts)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / count(values.len())
}

fn covariance(one: &[f64], other: &[f64]) -> f64 {
    let (a, b) = (mean(one), mean(other));
    let sum: f64 = one.iter().zip(other).map(|(x, y)| (x - a) * (y - b)).sum();
    sum / (count(one.len()) - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn effective_draws_are_all_where_they_weigh_alike_and_one_where_one_does() {
        assert!((effective(&[0.5; 40]) - 40.0).abs() < 1e-12);
        assert!((effective(&[0.0, 3.0, 0.0]) - 1.0).abs() < 1e-12);
        assert!(effective(&[0.0; 3]).abs() < 1e-12);
        // (1 + 2 + 3)²/(1 + 4 + 9), by hand.
        assert!((effective(&[1.0, 2.0, 3.0]) - 36.0 / 14.0).abs() < 1e-12);
    }

    #[test]
    fn four_hundred_are_enough_and_fewer_only_where_few_were_asked_for() {
        assert!(are_enough(400.0, 10_000) && !are_enough(399.0, 10_000));
        assert!(are_enough(40.0, 100) && !are_enough(39.0, 100));
        assert!(are_too_few(99.0, 10_000) && !are_too_few(100.0, 10_000));
        assert!(are_too_few(4.0, 100) && !are_too_few(5.0, 100));
    }

    #[test]
    fn draws_are_taken_as_often_as_they_weigh() {
        assert_eq!(resampled(&[1.0, 0.0, 2.0, 1.0], 4), [0, 2, 2, 3]);
        assert_eq!(resampled(&[1.0; 3], 3), [0, 1, 2]);
        assert_eq!(resampled(&[0.0, 0.0, 5.0], 2), [2, 2]);
    }

    #[test]
    fn weights_far_beyond_all_numbers_are_still_weights() {
        let weights = weights(&[-5000.0, -5001.0, f64::NEG_INFINITY]);
        assert!((weights[0] - 1.0).abs() < 1e-15);
        assert!((weights[1] - (-1.0_f64).exp()).abs() < 1e-15);
        assert!(weights[2].abs() < 1e-300);
    }
}
