//! Whole vehicles.

use super::*;
use crate::physics::Underside;
use crate::survey::Survey;
use crate::survey::file;
use proptest::prelude::*;

/// Holes into a cavity of a given coefficient, in cm², with their heights.
fn holes(sizes: &[(f64, f64)]) -> Survey {
    let mut survey = bare();
    for (at, (area_cm2, height_m)) in sizes.iter().enumerate() {
        let id = hole(&mut survey, FACE, *height_m, *area_cm2);
        let gap = gap_mut(&mut survey, id);
        gap.cavity_pressure_coefficient = Some(if at % 2 == 0 { 0.4 } else { -0.5 });
        gap.certainty = Certainty::Estimated;
    }
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    survey
}

/// Leakage area of independent openings with lognormal factors: mean and variance of the sum are
/// exact, and for a single opening the interval itself is (product of lognormals).
#[test]
fn one_opening_is_lognormal() {
    let survey = holes(&[(100.0, 1.0), (1e-4, 1.0)]);
    let found = uncertainty(&survey, 3, 100_000).unwrap();
    let plain = assess(&survey).leakage.all.unwrap().figures.eqla;
    // Gap 1.6, surveyor 1.15, discharge 1.08 [A]; σ = ln k/1.96, each with mean 1.
    let square: f64 = [1.6_f64, 1.15, 1.08]
        .iter()
        .map(|k| (k.ln() / 1.96).powi(2))
        .sum();
    let bound = |z: f64| plain * (z * square.sqrt() - 0.5 * square).exp();
    let allowed = 0.03 * square.sqrt() * plain;
    assert!(
        (found.eqla.low - bound(-1.959_964)).abs() < allowed,
        "{:?}",
        found.eqla
    );
    assert!(
        (found.eqla.high - bound(1.959_964)).abs() < 2.0 * allowed,
        "{:?}",
        found.eqla
    );
    assert!((found.eqla.mean / plain - 1.0).abs() < 4.0 * square.sqrt() / 100_000_f64.sqrt());
}

/// Mean and standard deviation of a sum of openings: factors common to all multiply the variance
/// of the sum of the independent ones.
#[test]
fn a_sum_of_openings_has_the_exact_variance() {
    let sizes = [
        (20.0, 0.6),
        (50.0, 1.0),
        (80.0, 1.4),
        (10.0, 2.0),
        (40.0, 2.2),
    ];
    let survey = holes(&sizes);
    let found = uncertainty(&survey, 5, 60_000).unwrap().eqla;
    let plain = assess(&survey).leakage.all.unwrap().figures.eqla;
    let square = |k: f64| ((k.ln() / 1.96).powi(2)).exp();
    let whole: f64 = sizes.iter().map(|size| size.0).sum();
    let own: f64 = sizes
        .iter()
        .map(|size| (size.0 / whole).powi(2))
        .sum::<f64>()
        * (square(1.6) - 1.0);
    let relative = (square(1.15) * square(1.08) * (1.0 + own) - 1.0).sqrt();
    assert!((found.mean / plain - 1.0).abs() < 0.003);
    let deviation = found.standard_deviation / plain;
    assert!(
        (deviation / relative - 1.0).abs() < 0.02,
        "{deviation} {relative}"
    );
}

/// Wind across two openings and nothing else: `m ∝ U Cd √ΔCp/√(1/A₁² + 1/A₂²)` (closed form of
/// BS 5925 [R]); the draws of the closed form by the same numbers give the same interval.
#[test]
fn wind_across_two_openings_follows_its_closed_form() {
    let survey = holes(&[(100.0, 1.0), (200.0, 1.0)]);
    let draws = 4000;
    let found = uncertainty(&survey, 11, draws).unwrap();
    let case = &found.cases[2];
    let plain = assess(&survey).cases[2]
        .air
        .clone()
        .unwrap()
        .mean_ach_per_h
        .unwrap();
    let closed = (0..draws).map(|n| {
        let draw = Draw::new(11, n);
        let of = |uncertainty| match uncertainty {
            UncertainInput::Gap(_) => {
                Spread::of_gap(Certainty::Estimated).at(draw.normal(uncertainty.key()))
            }
            _ => Spread::of_common(uncertainty, Underside::Open).at(draw.normal(uncertainty.key())),
        };
        let (one, other) = (
            of(UncertainInput::Gap(GapId(1))),
            of(UncertainInput::Gap(GapId(2))),
        );
        plain
            * of(UncertainInput::Surveyor)
            * of(UncertainInput::Wind)
            * two_in_line(
                [one, 2.0 * other],
                0.9,
                of(UncertainInput::Discharge),
                of(UncertainInput::Gusts),
            )
            / two_in_line([1.0, 2.0], 0.9, 1.0, 1.0)
    });
    let closed = interval(closed.collect());
    let ach = case.ach_per_h.clone().unwrap();
    for (found, closed) in [
        (ach.low, closed.low),
        (ach.high, closed.high),
        (ach.mean, closed.mean),
    ] {
        assert!((found / closed - 1.0).abs() < 1e-6, "{found} {closed}");
    }
}

/// All openings on one side: 0.025 A U (BS 5925 [R]), 95 % within 0.016 to 0.07 (EN 16798-7 [R]). The
/// wind, 95 % within a factor of 1.2, the surveyor, 1.15, and the size, 1.6 [A], widen that by the root
/// of the sum of squares, each with mean 1.
#[test]
fn gusts_through_one_side_are_as_uncertain_as_measured() {
    let mut survey = bare();
    let id = hole(&mut survey, Facing::Nearside, 1.0, 100.0);
    gap_mut(&mut survey, id).certainty = Certainty::Estimated;
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    let found = uncertainty(&survey, 3, 40_000).unwrap();
    let found = found.cases[2].ach_per_h.clone().unwrap();
    let plain = assess(&survey).cases[2].air.clone().unwrap();
    let plain = plain.mean_ach_per_h.unwrap();
    let sigma = |k: f64| k.ln() / 1.96;
    let others = [1.6, 1.15, 1.2].map(|k| sigma(k).powi(2));
    let others: f64 = others.iter().sum();
    // By trapezoids over both normal variates: P(x < bound) of the product.
    let below = |bound: f64| {
        let steps = (-400..=400).map(|at| f64::from(at) * 0.02);
        let part = steps.map(|z| {
            let gusts = z * if z < 0.0 {
                sigma(0.025 / 0.016)
            } else {
                sigma(0.07 / 0.025)
            };
            let rest = (bound.ln() - gusts + 0.5 * others) / others.sqrt();
            let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
            0.02 * density * normal_below(rest.max(-8.0))
        });
        part.sum::<f64>()
    };
    assert!(
        (below(found.low / plain) - 0.025).abs() < 0.003,
        "{found:?}"
    );
    assert!(
        (below(found.high / plain) - 0.975).abs() < 0.003,
        "{found:?}"
    );
}

/// Share of a normal distribution below z, by Simpson's rule from −8.
fn normal_below(z: f64) -> f64 {
    let (from, to) = (-8.0, z.min(8.0));
    let step = (to - from) / 400.0;
    let density = |x: f64| (-0.5 * x * x).exp() / std::f64::consts::TAU.sqrt();
    let weighted = (0..=400_u32).map(|at| {
        let weight = match at {
            0 | 400 => 1.0,
            at if at % 2 == 1 => 4.0,
            _ => 2.0,
        };
        weight * density(from + step * f64::from(at))
    });
    weighted.sum::<f64>() * step / 3.0
}

/// The gap that carries the leak and was only guessed heads the list of what to measure.
#[test]
fn the_guessed_gap_is_measured_next() {
    let mut survey = holes(&[(60.0, 0.6), (60.0, 1.0), (60.0, 1.4), (60.0, 1.8)]);
    for gap in &mut survey.gaps {
        gap.certainty = Certainty::Measured;
    }
    survey.gaps[2].certainty = Certainty::Guessed;
    survey.gaps[2].name = "door seal".to_owned();
    let found = uncertainty(&survey, SEED, 2000).unwrap();
    let first = &found.measure_next[0];
    assert_eq!(first.item, Item::Gap(GapId(3)));
    assert!(first.share > 0.8 && first.share_of_all > 0.4, "{first:?}");
    let percent = format!(
        "it carries {:.0}\u{a0}% of the uncertainty",
        first.share * 100.0
    );
    assert!(
        first
            .sentence
            .starts_with("measure the area of gap 3 \u{201c}door seal\u{201d} by taking the sizes")
    );
    assert!(first.sentence.contains(&percent), "{}", first.sentence);
    for list in [&found.air_change_shares, &found.leakage_shares] {
        let sum: f64 = list.iter().map(|share| share.share).sum();
        assert!((sum - 1.0).abs() < 1e-12);
        // Four gaps and six common causes.
        assert_eq!(list.len(), 10);
    }
}

/// Leakage not found is a line of its own: the headline stays, the interval rises.
#[test]
fn leakage_not_found_is_added_beside_the_headline() {
    let mut survey = holes(&[(60.0, 0.6), (60.0, 2.0)]);
    let without = uncertainty(&survey, SEED, 2000).unwrap();
    assert!(without.not_found.is_none());
    survey.leakage_not_found_percent = Some(20.0);
    let with = uncertainty(&survey, SEED, 2000).unwrap();
    let line = with.not_found.clone().unwrap();
    let plain = assess(&survey).leakage.all.unwrap().figures.eqla;
    assert!((line.eqla / plain - 0.2).abs() < 1e-9);
    assert!(
        line.ach_per_h
            .iter()
            .all(|more| *more.as_ref().unwrap() > 0.0)
    );
    assert!((with.eqla.mean / without.eqla.mean - 1.2).abs() < 0.02);
    assert!(
        with.leakage_shares
            .iter()
            .any(|share| share.of == UncertainInput::NotFound)
    );
    survey.leakage_not_found_percent = Some(300.0);
    assert!(
        uncertainty(&survey, SEED, 200)
            .unwrap_err()
            .reason
            .contains("not possible")
    );
}

#[test]
fn missing_or_doubled_draws_are_refused() {
    let study = Study::of(&holes(&[(60.0, 0.6), (60.0, 2.0)]));
    let trials = study.trials().unwrap();
    let piece = |from, to| trials.draw_chunk(1, from..to);
    assert!(
        trials
            .combine(1, vec![piece(0, 100), piece(101, 200)])
            .is_err()
    );
    assert!(
        trials
            .combine(1, vec![piece(0, 100), piece(99, 200)])
            .is_err()
    );
    assert!(trials.combine(2, vec![piece(0, 200)]).is_err());
    assert!(trials.combine(1, vec![piece(0, 99)]).is_err());
    assert!(trials.combine(1, vec![piece(0, 100)]).is_ok());
}

#[test]
fn a_survey_without_gaps_has_no_interval() {
    assert!(
        uncertainty(&bare(), 1, 200)
            .unwrap_err()
            .reason
            .contains("no gap")
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// The same seed gives the same numbers to the last bit, however the draws are shared out
    /// and in whatever order the pieces arrive; another seed gives others.
    #[test]
    fn pieces_make_no_difference(
        sizes in prop::collection::vec((1.0..200.0_f64, 0.5..2.5_f64), 2..8),
        cuts in prop::collection::btree_set(1..400_u32, 0..6),
        seed in any::<u64>(),
    ) {
        let survey = holes(&sizes);
        let whole = uncertainty(&survey, seed, 400).unwrap();
        let pieces = in_pieces(&survey, seed, 400, cuts);
        // `{:?}` prints every bit of a number.
        prop_assert_eq!(format!("{whole:?}"), format!("{pieces:?}"));
        let other = uncertainty(&survey, seed.wrapping_add(1), 400).unwrap();
        prop_assert!(other.eqla.mean.to_bits() != whole.eqla.mean.to_bits());
    }
}

/// The imbalance that a draw may be left with moves no interval by more than 1e-5 of it, in any sample.
#[test]
fn intervals_stay_where_balances_are_solved_further() {
    let samples = [
        include_str!("../../../../sample-surveys/coastal-coachbuilt.ron"),
        include_str!("../../../../sample-surveys/farmyard-caravan.ron"),
        include_str!("../../../../sample-surveys/forest-integrated.ron"),
        include_str!("../../../../sample-surveys/street-panel-van.ron"),
    ];
    for text in samples {
        let survey = file::parse(text).unwrap();
        let found = |tolerance: Option<f64>| {
            let prepared = Prepared::new(&survey, &Factors::default());
            let model = || Model::new(&survey, &prepared, false).map(Arc::new);
            let calibration = Calibration::of(&survey);
            let mut trials = Trials::new(&survey, &prepared, &calibration, model).unwrap();
            trials.tolerance = tolerance.unwrap_or(trials.tolerance);
            let chunks = vec![trials.draw_chunk(SEED, 0..2_000)];
            trials.combine(SEED, chunks).unwrap()
        };
        let (plain, fine) = (found(None), found(Some(1e-10)));
        for (plain, fine) in plain.cases.iter().zip(&fine.cases) {
            let ends = |case: &CaseUncertainty| {
                let found = case.ach_per_h.clone().unwrap();
                [found.low, found.high, found.mean, found.standard_deviation]
            };
            for (plain, fine) in ends(plain).into_iter().zip(ends(fine)) {
                assert!((plain / fine - 1.0).abs() < 1e-5, "{plain} {fine}");
            }
        }
    }
}
