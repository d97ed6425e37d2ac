//! A whole assessment, and loading and saving: what stands between an edit and its numbers.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::assess::{ach_against_wind, assess};
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

#[divan::bench(args = [10, 60, 300, 1000])]
fn whole_assessment(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| assess(black_box(&survey)));
}

#[divan::bench(args = [60, 1000])]
fn wind_curve(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| ach_against_wind(black_box(&survey)));
}

#[divan::bench(args = [60, 1000])]
fn print_and_parse(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = survey(gaps);
    bencher.bench(|| file::parse(&file::print(black_box(&survey))).unwrap());
}

/// To the disk and back, with the flush that makes it safe.
#[divan::bench(args = [60, 1000])]
fn save_and_load(bencher: Bencher<'_, '_>, gaps: usize) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bench.ron");
    let survey = survey(gaps);
    let mut backups = file::Backups::default();
    bencher.bench_local(|| {
        file::save(&path, &survey, file::Overwrite::Anyway, &mut backups).unwrap();
        file::load(&path).unwrap()
    });
}
