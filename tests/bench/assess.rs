//! A whole assessment, and loading and saving: what stands between an edit and its numbers.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

mod vehicles;

use divan::{Bencher, black_box};
use gapledger::assess::{Study, assess};
use gapledger::survey::file;
use vehicles::{CARAVAN, with_gaps};

fn main() {
    divan::main();
}

#[divan::bench(args = [10, 60, 300, 1000])]
fn whole_assessment(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| assess(black_box(&survey)));
}

#[divan::bench(args = [60, 1000])]
fn wind_curve(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| Study::of(black_box(&survey)).wind_curve().clone());
}

#[divan::bench(args = [60, 1000])]
fn print_and_parse(bencher: Bencher<'_, '_>, gaps: usize) {
    let survey = with_gaps(CARAVAN, gaps);
    bencher.bench(|| file::parse(&file::print(black_box(&survey))).unwrap());
}

/// To the disk and back, with the flush that makes it safe.
#[divan::bench(args = [60, 1000])]
fn save_and_load(bencher: Bencher<'_, '_>, gaps: usize) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bench.ron");
    let survey = with_gaps(CARAVAN, gaps);
    let mut backups = file::Backups::default();
    bencher.bench_local(|| {
        file::save(&path, &survey, file::Overwrite::Anyway, &mut backups).unwrap();
        file::load(&path).unwrap()
    });
}
