//! The best set within a budget.

use super::best::Choice;
use super::*;

/// Numbers from 0 to 1 in a fixed order.
pub(super) struct Numbers(pub(super) u64);

impl Numbers {
    #[expect(clippy::cast_precision_loss, reason = "53 bits are what a float holds")]
    pub(super) fn next(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * (self.0 >> 11) as f64 / 9_007_199_254_740_992.0
    }
}

/// Every set of an aim's twelve gaps with its cost and the figure it leaves, tried one by one.
fn all_sets(prospect: &Prospect, aim: Aim) -> Vec<(f64, f64)> {
    let mut trial = prospect.trial();
    (0..1_usize << prospect.candidates.len())
        .map(|set| {
            let mut cost = 0.0;
            for (at, candidate) in prospect.candidates.iter().enumerate() {
                let sealed = set >> at & 1 == 1;
                trial.set(at, sealed);
                if sealed {
                    cost += candidate.sealable.cost().unwrap().priced;
                }
            }
            (cost, trial.value(aim).unwrap())
        })
        .collect()
}

/// 300 budgets on 30 random vehicles of twelve gaps: greedy and exchange save at least 99 % of
/// what the best of all 4096 sets saves, and are mostly that very set.
#[test]
fn greedy_and_exchange_come_within_one_percent() {
    let mut numbers = Numbers(42);
    let (mut exact, mut worst, mut tried) = (0, 1.0_f64, 0);
    for vehicle_number in 0..30 {
        let sizes: Vec<(f64, f64)> = (0..12)
            .map(|_| (numbers.next(0.5, 11.0).powi(2), numbers.next(2.0, 60.0)))
            .collect();
        let survey = vehicle(&sizes);
        let prospect = Prospect::new(&survey).unwrap();
        let aim = [Aim::AchWindy, Aim::Heat][vehicle_number % 2];
        let sets = all_sets(&prospect, aim);
        let whole: f64 = sizes.iter().map(|size| size.1).sum();
        for share in 1..=10 {
            let budget = whole * f64::from(share) / 11.0;
            let affordable = sets.iter().filter(|(cost, _)| *cost <= budget + 1e-9);
            let best = affordable.map(|set| set.1).fold(f64::INFINITY, f64::min);
            let mut search = prospect.search(aim, budget).unwrap();
            let found: Choice = search.greedy_and_exchange().unwrap();
            let cost: f64 = found
                .sealed
                .iter()
                .zip(&sizes)
                .filter(|(sealed, _)| **sealed)
                .map(|(_, size)| size.1)
                .sum();
            assert!(cost <= budget + 1e-6, "{cost} of {budget}");
            let saved = (search.nothing - found.value) / (search.nothing - best).max(1e-12);
            tried += 1;
            worst = worst.min(saved);
            exact += usize::from(saved > 1.0 - 1e-6);
        }
    }
    println!("{exact} of {tried} budgets exact, the worst saves {worst:.4} of the best");
    assert_eq!(tried, 300);
    assert!(worst >= 0.99, "{worst}");
    assert!(exact >= 280, "{exact} of 300");
}

/// Up to twelve gaps the answer is the best of all sets.
#[test]
fn few_gaps_are_searched_exhaustively() {
    let survey = vehicle(&[
        (80.0, 10.0),
        (60.0, 5.0),
        (40.0, 8.0),
        (30.0, 2.0),
        (50.0, 4.0),
        (9.0, 1.0),
    ]);
    let prospect = Prospect::new(&survey).unwrap();
    for budget in [0.0, 3.0, 9.0, 14.0, 21.0, 100.0] {
        let sets = all_sets(&prospect, Aim::Water);
        let affordable = sets.iter().filter(|(cost, _)| *cost <= budget + 1e-9);
        let best = affordable.map(|set| set.1).fold(f64::INFINITY, f64::min);
        let chosen = prospect.best_within(Aim::Water, budget).unwrap();
        let plan = plan(&survey, &chosen).unwrap();
        assert!(plan.cost <= budget);
        let found = plan.after.removal_l_per_day.unwrap();
        assert!(
            (found - best).abs() <= 1e-6 * best,
            "{budget}: {found} {best}"
        );
    }
}

/// Many gaps: never over the budget, and never worse than the greedy order cut off there.
#[test]
fn many_gaps_beat_the_greedy_order() {
    let mut numbers = Numbers(7);
    let sizes: Vec<(f64, f64)> = (0..40)
        .map(|_| (numbers.next(1.0, 9.0).powi(2), numbers.next(2.0, 40.0)))
        .collect();
    let survey = vehicle(&sizes);
    let prospect = Prospect::new(&survey).unwrap();
    let order = prospect.order(Aim::AchWindy).unwrap();
    assert_eq!(order.steps.len(), 40);
    for budget in [30.0, 95.0, 220.0] {
        let chosen = prospect.best_within(Aim::AchWindy, budget).unwrap();
        let plan = plan(&survey, &chosen).unwrap();
        assert!(plan.cost <= budget + 1e-9);
        let cut = order
            .steps
            .iter()
            .rev()
            .find(|step| step.spent <= budget)
            .unwrap();
        let (best, greedy) = (
            plan.after.ach_windy_per_h,
            cut.after.ach_windy_per_h.clone(),
        );
        assert!(best.unwrap() <= greedy.unwrap() * (1.0 + 1e-6));
    }
}

/// A watched search tells its way from the beginning to the end, changes nothing, and ends at
/// once where it is told to.
#[test]
fn a_search_that_is_watched_finds_the_same_and_can_be_given_up() {
    use std::ops::ControlFlow;
    let mut numbers = Numbers(11);
    let sizes: Vec<(f64, f64)> = (0..20)
        .map(|_| (numbers.next(1.0, 9.0).powi(2), numbers.next(2.0, 40.0)))
        .collect();
    let survey = vehicle(&sizes);
    let prospect = Prospect::new(&survey).unwrap();
    for few in [false, true] {
        // With little money fewer than twelve are affordable, and every set is tried.
        let budget = if few { 15.0 } else { 120.0 };
        let mut told = Vec::new();
        let mut watch = |share: f64| {
            told.push(share);
            ControlFlow::Continue(())
        };
        let watched = prospect.best_within_watched(Aim::AchWindy, budget, &mut watch);
        assert_eq!(watched, prospect.best_within(Aim::AchWindy, budget));
        assert!(told.is_sorted() && told.iter().all(|share| (0.0..=1.0).contains(share)));
        assert!(told.last().unwrap() > &0.5);
        let mut asked = 0;
        let mut stop = |_: f64| {
            asked += 1;
            if asked == 7 {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        };
        let given_up = prospect.best_within_watched(Aim::AchWindy, budget, &mut stop);
        assert!(given_up.unwrap_err().reason.contains("given up"));
        assert_eq!(asked, 7);
    }
    let mut steps = 0;
    let mut watch = |_: f64| {
        steps += 1;
        ControlFlow::Continue(())
    };
    let sequence = prospect.sequence_watched(Aim::Heat, &mut watch).unwrap();
    let order = prospect.order(Aim::Heat).unwrap();
    assert_eq!((steps, sequence.steps()), (order.steps.len(), steps));
    let mut stop = |_: f64| ControlFlow::Break(());
    assert!(prospect.sequence_watched(Aim::Heat, &mut stop).is_err());
}
