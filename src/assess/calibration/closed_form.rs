//! What measurements make of the flow of each gap, in closed form.
//!
//! ```text
//! ln f_i ~ N(−½ c_ii, c_ii)      c_ij = σ_s² + u_i u_j σ_c² + δ_ij σ_i²
//! cov(ln f_i, ln y_a) = ln(1 + Σ_j q_aj (e^(c_ij) − 1))
//! cov(ln y_a, ln y_b) = ln(1 + Σ_ij q_ai q_bj (e^(c_ij) − 1))      E ln y_a = ln ŷ_a − ½ var(ln y_a)
//! ```
//! where f_i is the factor on the flow of gap i, with mean one; σ_s the spread of the surveyor, σ_i
//! that of the gap's size, σ_c = 0.4 that of what nobody found, common to all unintended gaps
//! (u = 1), all **\[A\]**; y_a what measurement a would have shown, ŷ_a what the survey leads one to
//! expect of it, and q_aj the part that gap j has in that. A sum of lognormals is taken as lognormal
//! (Fenton and Wilkinson **\[M\]**). The measurements then come one after the other, each as in the
//! textbook case of a normal prior and a normal measurement, with its own spread σ_a and what of ln y_a
//! hangs on no size:
//!
//! ```text
//! K = cov(·, y_a)/(var(y_a) + σ_a²)      m ← m + K (ln y_a − E ln y_a)      C ← C − K cov(y_a, ·)
//! ```
//! and the factor is the mean of what is left, `exp(m_i + ½ C_ii)`. Exact for a single gap.
#![expect(
    clippy::indexing_slicing,
    reason = "square tables over one list of measurements; a missing number must never turn into a silent default"
)]

use super::target::Target;
use crate::assess::measured::CONFLICT;
use crate::assess::spread::{NOT_FOUND, SURVEYOR, sigma_within};
use crate::assess::uncertainty::UncertainInput;
use crate::survey::GapId;
use std::collections::HashMap;

/// A gap as the closed form sees it.
pub(super) struct Sized {
    pub(super) gap: GapId,
    /// Spread of the logarithm of its flow, by how its size was found.
    pub(super) sigma: f64,
    pub(super) unintended: bool,
}

/// What is expected of measurements before any of them is known.
struct Before {
    spreads: Spreads,
    targets: Vec<Shares>,
    /// Covariances of the measurements with one another, without their own spread.
    among: Vec<Vec<f64>>,
    /// Means of their logarithms.
    expected: Vec<f64>,
}

impl Before {
    fn of(gaps: &[Sized], seen: &[&Target]) -> Self {
        let spreads = Spreads::new();
        let targets: Vec<Shares> = seen.iter().map(|one| Shares::of(one, gaps)).collect();
        let many = targets.len();
        let mut among = vec![vec![0.0; many]; many];
        for (a, row) in among.iter_mut().enumerate() {
            for (b, cell) in row.iter_mut().enumerate() {
                *cell = spreads.of_two(&targets[a], &targets[b], gaps)
                    + besides(seen[a], seen[b], a == b);
            }
        }
        let expected = (0..many).map(|a| seen[a].ln_expected - 0.5 * among[a][a]);
        Self {
            expected: expected.collect(),
            spreads,
            targets,
            among,
        }
    }
}

/// The pairs of measurements that contradict each other, by their places.
///
/// ```text
/// z = |(ln y_a − E ln y_a) − (ln y_b − E ln y_b)|/√(var_a + var_b − 2 cov_ab + σ_a² + σ_b²)      z > 2
/// ```
/// What the survey does not know of its gaps shifts measurements of one state alike, and drops out.
pub(super) fn contradictions(gaps: &[Sized], seen: &[&Target]) -> Vec<(usize, usize)> {
    let Before {
        among, expected, ..
    } = Before::of(gaps, seen);
    let off = |a: usize| seen[a].ln - expected[a];
    let pairs = (0..seen.len()).flat_map(|b| (0..b).map(move |a| (a, b)));
    let apart = |&(a, b): &(usize, usize)| {
        let own = seen[a].sigma.powi(2) + seen[b].sigma.powi(2);
        // Rounding may leave less than none of what one state cannot differ in.
        let by_gaps = (among[a][a] + among[b][b] - 2.0 * among[a][b]).max(0.0);
        (off(a) - off(b)).abs() > CONFLICT * (own + by_gaps).sqrt()
    };
    pairs.filter(apart).collect()
}

/// The factor on the flow of each gap that these measurements leave.
pub(super) fn factors(gaps: &[Sized], seen: &[&Target]) -> Vec<(GapId, f64)> {
    let Before {
        spreads,
        targets,
        mut among,
        mut expected,
    } = Before::of(gaps, seen);
    let mut with: Vec<Vec<f64>> = gaps
        .iter()
        .enumerate()
        .map(|(at, gap)| {
            let each = targets.iter();
            each.map(|target| spreads.of_gap(gap, at, target)).collect()
        })
        .collect();
    let mut logarithms = vec![0.0; gaps.len()];
    for (a, seen) in seen.iter().enumerate() {
        let whole = among[a][a] + seen.sigma * seen.sigma;
        let apart = seen.ln - expected[a];
        let row = among[a].clone();
        for (logarithm, with) in logarithms.iter_mut().zip(&mut with) {
            let gain = with[a] / whole;
            // Of the mean, and half of what the variance loses.
            *logarithm += gain * apart - 0.5 * gain * with[a];
            for (with, other) in with.iter_mut().zip(&row).skip(a + 1) {
                *with -= gain * other;
            }
        }
        for (cells, expected) in among.iter_mut().zip(&mut expected).skip(a + 1) {
            let gain = cells[a] / whole;
            *expected += gain * apart;
            for (cell, other) in cells.iter_mut().zip(&row).skip(a + 1) {
                *cell -= gain * other;
            }
        }
    }
    let each = gaps.iter().zip(logarithms);
    each.map(|(gap, logarithm)| (gap.gap, logarithm.exp()))
        .collect()
}

/// What two measurements share besides sizes. The wind of a test is its own.
fn besides(one: &Target, other: &Target, same: bool) -> f64 {
    let each = one.besides.iter().flat_map(|(input, by)| {
        let others = other.besides.iter();
        let alike = others.filter(move |(of, _)| of == input);
        alike.map(move |(_, other)| (*input, by * other))
    });
    let shared = each.filter(|(input, _)| same || *input != UncertainInput::Wind);
    shared.map(|(_, product)| product).sum()
}

/// The parts of the gaps in one measurement.
struct Shares {
    /// One for each gap of the survey.
    each: Vec<f64>,
    all: f64,
    unintended: f64,
}

impl Shares {
    fn of(target: &Target, gaps: &[Sized]) -> Self {
        let known: HashMap<GapId, f64> = target.parts.iter().copied().collect();
        let share = |gap: &Sized| known.get(&gap.gap).copied().unwrap_or(0.0);
        let each: Vec<f64> = gaps.iter().map(share).collect();
        let unintended = gaps.iter().zip(&each).filter(|(gap, _)| gap.unintended);
        Self {
            all: each.iter().sum(),
            unintended: unintended.map(|(_, share)| share).sum(),
            each,
        }
    }
}

/// `e^c − 1` for the spreads that gaps share.
struct Spreads {
    surveyor: f64,
    both: f64,
}

impl Spreads {
    fn new() -> Self {
        let surveyor = sigma_within(SURVEYOR).powi(2);
        Self {
            surveyor: surveyor.exp_m1(),
            both: (surveyor + NOT_FOUND * NOT_FOUND).exp_m1(),
        }
    }

    /// `e^c − 1` of what a gap shares with the unintended ones, or with itself.
    fn shared(&self, gap: &Sized) -> f64 {
        if gap.unintended {
            self.both
        } else {
            self.surveyor
        }
    }

    /// What its own size adds to `e^c − 1`.
    fn own(&self, gap: &Sized) -> f64 {
        (1.0 + self.shared(gap)) * (gap.sigma * gap.sigma).exp_m1()
    }

    fn of_gap(&self, gap: &Sized, at: usize, target: &Shares) -> f64 {
        let unintended = target.unintended * self.shared(gap);
        let meant = (target.all - target.unintended) * self.surveyor;
        (unintended + meant + target.each[at] * self.own(gap)).ln_1p()
    }

    fn of_two(&self, one: &Shares, other: &Shares, gaps: &[Sized]) -> f64 {
        let unintended = one.unintended * other.unintended;
        let rest = one.all * other.all - unintended;
        let own = gaps.iter().zip(one.each.iter().zip(&other.each));
        let own: f64 = own.map(|(gap, (a, b))| a * b * self.own(gap)).sum();
        (unintended * self.both + rest * self.surveyor + own).ln_1p()
    }
}
