//! Ranking of all gaps by striking the balance again with each sealed: three weather cases,
//! sixteen directions, both inside airs. The order and the best set as well.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::assess::sealing::{Aim, Prospect};
use gapledger::survey::{Survey, file};

fn main() {
    divan::main();
}

/// The farmyard caravan with its gaps repeated until there are so many.
fn survey(gaps: usize) -> Survey {
    let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
    let sample = file::parse(text).unwrap();
    let mut survey = sample.clone();
    // What lies behind an opening would have to name its own copy: leave those out.
    let plain: Vec<_> = sample
        .gaps
        .into_iter()
        .filter(|gap| gap.behind.is_none())
        .collect();
    survey.gaps.clear();
    for gap in plain.iter().cycle().take(gaps) {
        let mut gap = gap.clone();
        gap.id = survey.free_gap_id();
        survey.gaps.push(gap);
    }
    survey
}

/// 60 gaps are to take less than 30 ms.
#[divan::bench(args = [10, 60, 300])]
fn rank(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&survey(gaps)).unwrap();
    bencher.bench(|| prospect.rank(black_box(Aim::AchWindy)).unwrap());
}

#[divan::bench(args = [10, 60, 300])]
fn make_ready(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| Prospect::new(black_box(&survey)).unwrap());
}

#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn greedy_order(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&survey(gaps)).unwrap();
    bencher.bench(|| prospect.order(black_box(Aim::AchWindy)).unwrap());
}

#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn best_within_a_budget(bencher: Bencher<'_, '_>, gaps: usize) {
    let prospect = Prospect::new(&survey(gaps)).unwrap();
    bencher.bench(|| {
        prospect
            .best_within(black_box(Aim::AchWindy), 150.0)
            .unwrap()
    });
}
