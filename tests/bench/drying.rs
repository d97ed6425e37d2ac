//! The comparison of drying and heating: all options, every weather case, sixteen directions.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::assess::compare;
use gapledger::survey::{Purpose, Survey, WorkState, file};

fn main() {
    divan::main();
}

/// A sample's gaps repeated until there are so many.
fn survey(text: &str, gaps: usize) -> Survey {
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

#[divan::bench(args = [10, 60, 300])]
fn laid_up_caravan(bencher: Bencher<'_, '_>, gaps: usize) {
    let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
    let survey = survey(text, gaps);
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}

#[divan::bench(args = [60])]
fn coach_built_in_use(bencher: Bencher<'_, '_>, gaps: usize) {
    let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
    let survey = survey(text, gaps);
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}

/// As above with every unintended gap planned: everything is compared twice.
#[divan::bench(args = [60])]
fn laid_up_caravan_with_a_plan(bencher: Bencher<'_, '_>, gaps: usize) {
    let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
    let mut survey = survey(text, gaps);
    for gap in &mut survey.gaps {
        if gap.purpose == Purpose::Unintended {
            gap.state = WorkState::Planned;
        }
    }
    assert!(compare(&survey).unwrap().after_plan.is_some());
    bencher.bench(|| compare(black_box(&survey)).unwrap());
}
