//! Ten thousand draws of the doubt: three weather cases, sixteen directions, two inside airs.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::assess::uncertainty::{DRAWS, SEED, Trials};
use gapledger::survey::{Survey, file};
use std::thread;

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

/// On so many threads, in pieces of 500 draws.
fn run(survey: &Survey, threads: u32) {
    let trials = Trials::new(survey).unwrap();
    let chunks = thread::scope(|scope| {
        let workers: Vec<_> = (0..threads)
            .map(|worker| {
                let trials = &trials;
                scope.spawn(move || {
                    (worker..DRAWS / 500)
                        .step_by(threads as usize)
                        .map(|piece| trials.draw_chunk(SEED, piece * 500..(piece + 1) * 500))
                        .collect::<Vec<_>>()
                })
            })
            .collect();
        workers
            .into_iter()
            .flat_map(|worker| worker.join().unwrap())
            .collect()
    });
    black_box(trials.combine(SEED, chunks).unwrap());
}

#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn ten_thousand_draws_on_two_threads(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| run(&survey, 2));
}

#[divan::bench(args = [60], sample_count = 3)]
fn ten_thousand_draws_on_one_thread(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| run(&survey, 1));
}
