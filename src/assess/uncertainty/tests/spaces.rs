//! Vehicles of two spaces.

use super::*;
use crate::survey::{AreaConvention, Form, InnerOpening, InnerOpeningId, Space, SpaceId, Survey};
use proptest::prelude::*;

/// Two holes into cavities, one in each space, and an inner opening between the spaces, in cm².
fn in_line(holes: [f64; 2], inner: f64) -> Survey {
    let mut survey = bare();
    let spaces = (1..=2).zip(holes).zip([0.4, -0.5]);
    for ((number, area_cm2), coefficient) in spaces {
        let id = hole(&mut survey, FACE, 1.0, area_cm2);
        let gap = gap_mut(&mut survey, id);
        gap.cavity_pressure_coefficient = Some(coefficient);
        gap.certainty = Certainty::Estimated;
        gap.space = Some(SpaceId(number));
        survey.spaces.push(Space {
            id: SpaceId(number),
            name: String::new(),
            volume_m3: None,
            warmer_by_k: 0.0,
        });
    }
    let form = Form::StatedArea {
        area_mm2: Some(inner * 100.0),
        convention: AreaConvention::Free,
        exponent: None,
    };
    let mut opening = InnerOpening::new(InnerOpeningId(1), SpaceId(1), SpaceId(2), form);
    opening.height_m = Some(1.0);
    opening.certainty = Certainty::Guessed;
    survey.inner_openings = vec![opening];
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    survey
}

/// `1/√(Σ 1/A²)`, the openings' areas in line (series form of BS 5925 [R]).
fn series(areas: [f64; 3]) -> f64 {
    areas
        .map(|area| 1.0 / (area * area))
        .iter()
        .sum::<f64>()
        .sqrt()
        .recip()
}

/// First and second moment of the flow through openings in line, each multiplied by a lognormal
/// factor of mean 1 with 95 % within `k`; by the trapezoidal rule over the normal variates, which
/// for such an integrand has no error worth telling.
fn moments(areas: [f64; 3], k: [f64; 3]) -> (f64, f64) {
    const STEP: f64 = 0.25;
    let nodes: Vec<(f64, f64)> = (-26..=26)
        .map(|at| {
            let z = STEP * f64::from(at);
            (
                z,
                STEP * (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt(),
            )
        })
        .collect();
    let factor = |z: f64, k: f64| {
        let sigma = k.ln() / 1.96;
        (sigma * z - 0.5 * sigma * sigma).exp()
    };
    let (mut first, mut second) = (0.0, 0.0);
    for (z0, w0) in &nodes {
        for (z1, w1) in &nodes {
            for (z2, w2) in &nodes {
                let flow = series([
                    areas[0] * factor(*z0, k[0]),
                    areas[1] * factor(*z1, k[1]),
                    areas[2] * factor(*z2, k[2]),
                ]);
                first += w0 * w1 * w2 * flow;
                second += w0 * w1 * w2 * flow * flow;
            }
        }
    }
    (first, second)
}

/// Wind through two spaces in line: the flow goes with `U Cd/√(Σ 1/A²)`, so mean and variance are
/// those of the three areas by quadrature, times those of the factors common to all (wind 1.2,
/// discharge 1.08, surveyor 1.15 [A]). Without the uncertainty of the inner opening the spread would be
/// far less.
#[test]
fn the_spread_of_openings_in_line_is_that_of_the_quadrature() {
    const DRAWS: u32 = 20_000;
    let areas = [100.0, 200.0, 80.0];
    let survey = in_line([areas[0], areas[1]], areas[2]);
    let found = uncertainty(&survey, 17, DRAWS).unwrap().cases[2]
        .ach_per_h
        .clone()
        .unwrap();
    let plain = assess(&survey).cases[2].air.clone().unwrap();
    let plain = plain.mean_ach_per_h.unwrap() / series(areas);
    let spread = |k: [f64; 3]| {
        let (first, second) = moments(areas, k);
        let common: f64 = [1.2_f64, 1.08, 1.15]
            .iter()
            .map(|k| (k.ln() / 1.96).powi(2))
            .sum();
        (first, (second * common.exp() - first * first).sqrt())
    };
    let (mean, deviation) = spread([1.6, 1.6, 3.0]);
    let error = deviation / f64::from(DRAWS).sqrt();
    assert!((found.mean / plain - mean).abs() < 4.0 * error, "{found:?}");
    // The error of a standard deviation is 1/√(2 N) of it, somewhat more where tails are long.
    let apart = found.standard_deviation / plain / deviation - 1.0;
    assert!(
        apart.abs() < 6.0 / (2.0 * f64::from(DRAWS)).sqrt(),
        "{apart}"
    );
    let (_, without) = spread([1.6, 1.6, 1.0 + 1e-9]);
    assert!(without < 0.8 * deviation, "{without} {deviation}");
}

/// A guessed inner opening that throttles the flow heads the list of what to measure; measured, it
/// leaves the list, and it never counts as leakage to outside.
#[test]
fn a_guessed_inner_opening_is_measured_next() {
    let mut survey = in_line([100.0, 200.0], 80.0);
    survey.inner_openings[0].name = "curtain".to_owned();
    let found = uncertainty(&survey, SEED, 2000).unwrap();
    let first = &found.measure_next[0];
    assert_eq!(first.item, Item::InnerOpening(InnerOpeningId(1)));
    assert!(first.share > 0.5, "{first:?}");
    let begins = "measure the area of inner opening 1 \u{201c}curtain\u{201d} by taking the sizes of the opening \
                  itself: now guessed";
    assert!(first.sentence.starts_with(begins), "{}", first.sentence);
    let sum: f64 = found
        .air_change_shares
        .iter()
        .map(|share| share.share)
        .sum();
    assert!((sum - 1.0).abs() < 1e-12);
    let of_area = found.leakage_shares.iter();
    let inner = of_area.filter(|share| share.of == UncertainInput::InnerOpening(InnerOpeningId(1)));
    assert!(inner.map(|share| share.share).sum::<f64>() < 0.01);
    survey.inner_openings[0].certainty = Certainty::Measured;
    let measured = uncertainty(&survey, SEED, 2000).unwrap();
    assert!(matches!(measured.measure_next[0].item, Item::Gap(_)));
    // A gap of the same number draws numbers of its own.
    let keys = [
        UncertainInput::Gap(GapId(1)),
        UncertainInput::InnerOpening(InnerOpeningId(1)),
    ]
    .map(UncertainInput::key);
    assert!(keys[0] != keys[1]);
}

/// With a single space left, what joins nothing adds no uncertainty.
#[test]
fn a_single_space_has_no_inner_openings_in_uncertainty() {
    let mut survey = in_line([100.0, 200.0], 80.0);
    survey.spaces.truncate(1);
    survey.gaps[1].space = None;
    survey.inner_openings.clear();
    let found = uncertainty(&survey, SEED, 200).unwrap();
    let mut shares = found.air_change_shares.iter();
    assert!(shares.all(|share| !matches!(share.of, UncertainInput::InnerOpening(_))));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Spaces make no difference to this: the same seed gives the same numbers to the last bit,
    /// however the draws are shared out and in whatever order the pieces arrive.
    #[test]
    fn pieces_make_no_difference(
        holes in [1.0..200.0_f64, 1.0..200.0],
        inner in 0.5..20_000.0_f64,
        warmer in prop_oneof![Just(0.0), -8.0..8.0_f64],
        rise in prop_oneof![Just(None), (0.2..1.6_f64).prop_map(Some)],
        cuts in prop::collection::btree_set(1..300_u32, 0..6),
        seed in any::<u64>(),
    ) {
        let mut survey = in_line(holes, inner);
        survey.spaces[1].warmer_by_k = warmer;
        survey.inner_openings[0].rise_m = rise;
        let whole = uncertainty(&survey, seed, 300).unwrap();
        let pieces = in_pieces(&survey, seed, 300, cuts);
        // `{:?}` prints every bit of a number.
        prop_assert_eq!(format!("{whole:?}"), format!("{pieces:?}"));
    }
}
