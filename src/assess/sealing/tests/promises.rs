//! Very many gaps, told apart by the slopes of the inflow.

use super::super::prospect::TRY_ALL_UP_TO;
use super::budgets::Numbers;
use super::*;
use crate::survey::{InnerOpening, InnerOpeningId, Space, SpaceId};

/// Gaps of 0.3 to 3 cm² between two great ones; in two spaces with a doorway between them if asked
/// for.
fn many_small_gaps(gaps: usize, spaces: bool) -> Survey {
    let mut numbers = Numbers(5);
    let mut sizes = vec![(200.0, 500.0), (150.0, 500.0)];
    sizes.extend((2..gaps).map(|_| (numbers.next(0.3, 3.0), numbers.next(2.0, 60.0))));
    let mut survey = vehicle(&sizes);
    if spaces {
        let space = |id, volume| Space {
            id: SpaceId(id),
            name: format!("space {id}"),
            volume_m3: Some(volume),
            warmer_by_k: 0.0,
        };
        survey.spaces = vec![space(1, 20.0), space(2, 5.0)];
        for gap in survey.gaps.iter_mut().skip(1).step_by(2) {
            gap.space = Some(SpaceId(2));
        }
        let form = Form::RectangularHole {
            width_mm: Some(90.0),
            height_mm: Some(90.0),
        };
        let mut opening = InnerOpening::new(InnerOpeningId(1), SpaceId(1), SpaceId(2), form);
        opening.height_m = Some(1.4);
        survey.inner_openings = vec![opening];
    }
    survey
}

/// What the slopes promise of small gaps is what sealing each by itself saves, by a balance of its
/// own, to 12 % of it; and what opening one again loses, where several are sealed.
#[test]
fn the_slopes_promise_what_a_balance_finds() {
    for (spaces, aim) in [
        (false, Aim::AchWindy),
        (false, Aim::Heat),
        (true, Aim::AchWindy),
        (true, Aim::Water),
    ] {
        let survey = many_small_gaps(24, spaces);
        let prospect = Prospect::new(&survey).unwrap();
        let mut trial = prospect.trial();
        for sealed in (2..24).step_by(5) {
            trial.seal(sealed);
        }
        let (value, promises) = trial.promises(aim).unwrap();
        let mut greatest = 0.0_f64;
        for (at, promised) in promises.iter().enumerate().skip(2) {
            let was_sealed = (at - 2) % 5 == 0;
            trial.set(at, !was_sealed);
            let other = trial.value(aim).unwrap();
            trial.set(at, was_sealed);
            let saves = if was_sealed {
                other - value
            } else {
                value - other
            };
            greatest = greatest.max(saves);
            let off = (promised - saves).abs();
            assert!(
                off <= 0.12 * saves.abs() + 3e-6 * value,
                "{spaces} {aim:?} {at}: {promised} {saves}"
            );
        }
        assert!(greatest > 1e-3 * value, "{greatest} of {value}");
    }
}

/// The best set of ninety gaps saves at least as much as the greedy one that tries every gap at
/// every step, and costs no more than the budget.
#[test]
fn very_many_gaps_save_as_much_as_the_greedy_order_that_tries_all() {
    let mut numbers = Numbers(23);
    let sizes: Vec<(f64, f64)> = (0..90)
        .map(|_| (numbers.next(0.6, 6.0).powi(2), numbers.next(2.0, 40.0)))
        .collect();
    let survey = vehicle(&sizes);
    let prospect = Prospect::new(&survey).unwrap();
    for (aim, budget) in [(Aim::AchWindy, 150.0), (Aim::Heat, 600.0)] {
        let chosen = prospect.best_within(aim, budget).unwrap();
        let plan = plan(&survey, &chosen).unwrap();
        assert!(plan.cost <= budget + 1e-9);
        let found = plan.after.of(aim).unwrap();
        let (mut trial, mut spent) = (prospect.trial(), 0.0);
        let mut value = trial.value(aim).unwrap();
        let before = value;
        let mut left: Vec<usize> = (0..sizes.len()).collect();
        loop {
            left.retain(|at| spent + sizes[*at].1 <= budget);
            let mut best: Option<(f64, usize, f64)> = None;
            for at in &left {
                trial.seal(*at);
                let after = trial.value(aim).unwrap();
                trial.open(*at);
                let merit = (value - after) / sizes[*at].1;
                if best.is_none_or(|(most, ..)| merit > most) {
                    best = Some((merit, *at, after));
                }
            }
            let Some((_, at, after)) = best else { break };
            trial.seal(at);
            (value, spent) = (after, spent + sizes[at].1);
            left.retain(|other| *other != at);
        }
        assert!(
            before - found >= (before - value) * 0.999,
            "{aim:?}: {found} or {value} of {before}"
        );
    }
}

/// What sealing each of very many gaps comes to is what the vehicle with that gap sealed comes to,
/// balanced by itself, and does not hang on how many are asked for at once.
#[test]
fn sealing_each_of_very_many_gaps_comes_to_what_its_own_balance_finds() {
    for spaces in [false, true] {
        let survey = many_small_gaps(120, spaces);
        let prospect = Prospect::new(&survey).unwrap();
        let all = prospect.sealables().len();
        assert!(all > TRY_ALL_UP_TO);
        let found = prospect.singly(0..all).unwrap();
        let again = prospect.singly(7..9).unwrap();
        assert_eq!(found[7..9], again);
        let mut trial = prospect.trial();
        for (at, found) in found.iter().enumerate() {
            trial.seal(at);
            let expected = trial.figures().unwrap();
            trial.open(at);
            for aim in Aim::ALL {
                let (found, expected) = (found.of(aim).unwrap(), expected.of(aim).unwrap());
                let before = prospect.before().of(aim).unwrap();
                assert!(
                    (found - expected).abs() <= 1e-7 * before.abs(),
                    "{spaces} {aim:?} {at}: {found} instead of {expected} of {before}"
                );
            }
        }
    }
}
