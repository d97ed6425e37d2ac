//! Intervals, ranks and shares by themselves.

use super::*;
use crate::physics::pressure_coefficient::Underside;
use proptest::prelude::*;

/// Quantiles of 0…1000 in steps of one, between neighbours in order of size.
#[test]
fn intervals_hold_the_middle_of_the_draws() {
    let found = interval((0..=1000).rev().map(f64::from).collect());
    assert!((found.low - 25.0).abs() < 1e-9 && (found.high - 975.0).abs() < 1e-9);
    assert!((found.mean - 500.0).abs() < 1e-9);
    // Variance of 1001 consecutive whole numbers with N − 1: N (N + 1)/12.
    assert!((found.standard_deviation.powi(2) - 1001.0 * 1002.0 / 12.0).abs() < 1e-6);
}

/// Spearman's rank correlation with ties, worked by hand: ranks 0, 1.5, 1.5, 3 against 1, 0, 2, 3
/// give 3/√(4.5 · 5) = 0.6325.
#[test]
fn ranks_share_ties_and_correlate() {
    let (a, b) = (ranks(&[1.0, 2.0, 2.0, 9.0]), ranks(&[5.0, 4.0, 6.0, 7.0]));
    assert_eq!(a, [0.0, 1.5, 1.5, 3.0]);
    assert_eq!(b, [1.0, 0.0, 2.0, 3.0]);
    assert!((correlation(&a, &b) - 3.0 / (4.5_f64 * 5.0).sqrt()).abs() < 1e-12);
    assert!((correlation(&a, &[0.0; 4])).abs() < 1e-300);
}

proptest! {
    /// Whatever the correlations, the shares are parts of one whole in falling order.
    #[test]
    fn shares_sum_to_one(correlations in prop::collection::vec(-1.0..1.0_f64, 1..80)) {
        let of = |at: u32| UncertainInput::Gap(GapId(at));
        let found = shares((0..).map(of).zip(correlations.iter().copied()));
        let sum: f64 = found.iter().map(|share| share.share).sum();
        prop_assert!((sum - 1.0).abs() < 1e-12);
        prop_assert!(found.windows(2).all(|pair| pair[0].share >= pair[1].share));
        // The first belongs to the greatest correlation of either sign.
        let greatest = correlations.iter().map(|r| r.abs()).fold(0.0, f64::max);
        let UncertainInput::Gap(id) = found[0].of else { unreachable!() };
        prop_assert!((correlations[id.0 as usize].abs() - greatest).abs() < 1e-15);
    }

    /// Any strictly rising function of a list has its ranks.
    #[test]
    fn ranks_do_not_depend_on_scale(values in prop::collection::vec(-5.0..5.0_f64, 2..200)) {
        let bent: Vec<f64> = values.iter().map(|x| x.exp() * 3.0 - 1.0).collect();
        prop_assert_eq!(ranks(&values), ranks(&bent));
    }
}

/// A factor for a gap has mean 1, and 95 % of its logarithms lie within ±ln k of their middle
/// (this program's own assumption [A]: k 1.2, 1.6, 3).
#[test]
fn factors_have_mean_one_and_the_stated_spread() {
    const N: u32 = 40_000;
    for (certainty, k) in [
        (Certainty::Measured, 1.2_f64),
        (Certainty::Estimated, 1.6),
        (Certainty::Guessed, 3.0),
    ] {
        let spread = Spread::of_gap(certainty);
        let uncertainty = UncertainInput::Gap(GapId(9));
        let draws = (0..N)
            .map(|n| spread.at(Draw::new(1, n).normal(uncertainty.key())))
            .collect();
        let found = interval(draws);
        let sigma = k.ln() / 1.96;
        let scatter = (sigma.powi(2).exp() - 1.0).sqrt() / f64::from(N).sqrt();
        assert!((found.mean - 1.0).abs() < 4.0 * scatter, "{found:?}");
        assert!(
            ((found.high / found.low).ln() / (2.0 * k.ln()) - 1.0).abs() < 0.03,
            "{found:?}"
        );
    }
}

/// What the draws of an input are put in order by gives the ranks of its values, cut ones included.
#[test]
fn draws_lie_in_the_order_of_their_values() {
    let round = Round::default();
    let spreads = [
        Spread::of_gap(Certainty::Guessed),
        Spread::of_common(UncertainInput::Gusts, Underside::Open),
        Spread::of_common(UncertainInput::UnderfloorPressure, Underside::Open),
        Spread::of_common(UncertainInput::UnderfloorPressure, Underside::ClosedOneSide),
        Spread::Normal {
            middle: 0.0,
            sigma: 1.0,
            least: 0.0,
        },
        Spread::Factor { sigma: 0.0 },
    ];
    for spread in spreads {
        let list = |of: &dyn Fn(u32) -> f64| ranks(&(0..500).map(of).collect::<Vec<f64>>());
        let input = UncertainInput::Gap(GapId(4));
        let places = list(&|number| round.draw(3, number).place_of(input, spread));
        let values = list(&|number| round.draw(3, number).of(input, spread));
        assert_eq!(places, values, "{spread:?}");
    }
}
