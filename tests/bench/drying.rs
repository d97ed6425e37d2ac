//! The comparison of drying and heating: all options, every weather case, sixteen directions.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

mod vehicles;

use divan::{Bencher, black_box};
use gapledger::assess::compare;
use gapledger::survey::{Purpose, WorkState};
use vehicles::{CARAVAN, with_gaps};

fn main() {
    divan::main();
}

#[divan::bench(args = [10, 60, 300])]
fn laid_up_caravan(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}

#[divan::bench(args = [60])]
fn coach_built_in_use(bencher: Bencher<'_, '_>, gaps: usize) {
    let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
    let survey = with_gaps(text, gaps);
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}

/// As above with every unintended gap planned: everything is compared twice.
#[divan::bench(args = [60])]
fn laid_up_caravan_with_a_plan(bencher: Bencher<'_, '_>, gaps: usize) {
    let mut survey = with_gaps(CARAVAN, gaps);
    for gap in &mut survey.gaps {
        if gap.purpose == Purpose::Unintended {
            gap.state = WorkState::Planned;
        }
    }
    assert!(compare(&survey).unwrap().after_plan.is_some());
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}
