//! Ten thousand draws: three weather cases, sixteen directions, two inside airs.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

mod vehicles;

use divan::{Bencher, black_box};
use gapledger::assess::Study;
use gapledger::assess::uncertainty::{DRAWS, SEED};
use gapledger::survey::{Form, InnerOpening, InnerOpeningId, Space, SpaceId, Survey};
use std::thread;
use vehicles::{CARAVAN, with_gaps};

const PIECE: u32 = 250;

fn main() {
    divan::main();
}

/// On so many threads, in pieces of 250 draws.
fn run(survey: &Survey, threads: u32, draws: u32) {
    let study = Study::of(survey);
    let trials = study.trials().unwrap();
    let chunks = thread::scope(|scope| {
        let workers: Vec<_> = (0..threads)
            .map(|worker| {
                scope.spawn(move || {
                    (worker..draws / PIECE)
                        .step_by(threads as usize)
                        .map(|piece| trials.draw_chunk(SEED, piece * PIECE..(piece + 1) * PIECE))
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
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| run(&survey, 2, DRAWS));
}

#[divan::bench(args = [60], sample_count = 3)]
fn ten_thousand_draws_on_one_thread(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| run(&survey, 1, DRAWS));
}

/// The same vehicle in four spaces one behind the other, doorways between, each so many kelvin
/// warmer than the last.
fn in_four_spaces(gaps: usize, warmer_by_k: f64) -> Survey {
    let mut survey = with_gaps(CARAVAN, gaps);
    survey.spaces = (1..=4)
        .map(|id| Space {
            id: SpaceId(id),
            name: format!("space {id}"),
            volume_m3: None,
            warmer_by_k: warmer_by_k * (f64::from(id) - 1.0),
        })
        .collect();
    survey.inner_openings = (1..4)
        .map(|id| {
            let form = Form::RectangularHole {
                width_mm: Some(600.0),
                height_mm: Some(1700.0),
            };
            let mut door =
                InnerOpening::new(InnerOpeningId(id), SpaceId(id), SpaceId(id + 1), form);
            (door.height_m, door.rise_m) = (Some(1.4), Some(1.7));
            door
        })
        .collect();
    for (gap, id) in survey.gaps.iter_mut().zip((1..=4).cycle()) {
        gap.space = Some(SpaceId(id));
    }
    survey
}

/// The balance of a network: doorways between spaces of other warmth pass air both ways.
#[divan::bench(args = [10, 60, 300], sample_count = 3)]
fn ten_thousand_draws_of_four_spaces_on_two_threads(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = in_four_spaces(gaps, 1.0);
    bencher.bench(|| run(&survey, 2, DRAWS));
}

/// The same with doorways between spaces of the same warmth, which are all but at one pressure.
#[divan::bench(args = [60], sample_count = 3)]
fn ten_thousand_draws_of_four_spaces_as_warm_on_two_threads(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = in_four_spaces(gaps, 0.0);
    bencher.bench(|| run(&survey, 2, DRAWS));
}
