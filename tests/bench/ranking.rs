//! Ranking of all gaps by solving the balance again with each sealed: three weather cases,
//! sixteen directions, both inside airs. The order and the best set as well.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

mod vehicles;

use divan::{Bencher, black_box};
use gapledger::assess::sealing::{Aim, Prospect};
use vehicles::{CARAVAN, with_gaps};

fn main() {
    divan::main();
}

/// 60 gaps are to take less than 30 ms.
#[divan::bench(args = [10, 60, 300])]
fn rank(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&with_gaps(CARAVAN, gaps)).unwrap();
    bencher.bench(|| prospect.rank(black_box(Aim::AchWindy)).unwrap());
}

#[divan::bench(args = [10, 60, 300])]
fn make_ready(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| Prospect::new(black_box(&survey)).unwrap());
}

#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn greedy_order(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&with_gaps(CARAVAN, gaps)).unwrap();
    bencher.bench(|| prospect.order(black_box(Aim::AchWindy)).unwrap());
}

#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn best_within_a_budget(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&with_gaps(CARAVAN, gaps)).unwrap();
    bencher.bench(|| {
        prospect
            .best_within(black_box(Aim::AchWindy), 150.0)
            .unwrap()
    });
}
