//! The survey report with 60 gaps and 60 photos: cold, and after a change.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::assess::Study;
use gapledger::assess::uncertainty::DRAWS;
use gapledger::sheet::blocks::Picture;
use gapledger::sheet::photos::print_copies;
use gapledger::sheet::{Choices, Kind, Material, contents, typeset};
use gapledger::survey::file::{parse, photo_folder};
use gapledger::survey::{GapId, Photo, Survey};
use gapledger::tasks::{self, processors, to_the_end};
use std::collections::BTreeMap;
use std::path::PathBuf;

fn main() {
    divan::main();
}

const COUNT: u32 = 60;

struct OnDisk {
    _folder: tempfile::TempDir,
    file: PathBuf,
    survey: Survey,
}

/// The coach-built sample with its gaps repeated until there are sixty, and a photo for each.
fn on_disk() -> OnDisk {
    let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
    let mut survey = parse(text).unwrap();
    let plain: Vec<_> = survey
        .gaps
        .iter()
        .filter(|gap| gap.behind.is_none())
        .cloned()
        .collect();
    survey.gaps.clear();
    for (id, gap) in (1..=COUNT).zip(plain.iter().cycle()) {
        let mut gap = gap.clone();
        gap.id = GapId(id);
        gap.photos = vec![Photo::new(format!("{id}.jpg"))];
        survey.gaps.push(gap);
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("van.ron");
    std::fs::create_dir(photo_folder(&file)).unwrap();
    for id in 1..=COUNT {
        photo(id)
            .save(photo_folder(&file).join(format!("{id}.jpg")))
            .unwrap();
    }
    OnDisk {
        _folder: folder,
        file,
        survey,
    }
}

/// A picture as busy as a photo: shapes, shadows and the noise of a dark corner.
fn photo(seed: u32) -> image::RgbImage {
    let mut state = seed.wrapping_mul(747_796_405) | 1;
    image::RgbImage::from_fn(1200, 900, |x, y| {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        let noise = state % 12;
        let shape = if (x / 70 + y / 50 + seed).is_multiple_of(3) {
            60
        } else {
            0
        };
        let light = 90 + (x * 60 / 1200) + (y * 30 / 900);
        let byte = |value: u32| u8::try_from(value.min(255)).unwrap();
        image::Rgb([
            byte(light + shape + noise),
            byte(light + noise),
            byte(light / 2 + noise),
        ])
    })
}

fn copies(there: &OnDisk) -> BTreeMap<String, Picture> {
    print_copies(&there.file, &there.survey, &|| false)
}

/// Contents, pages and PDF; returns the bytes.
fn report(survey: &Survey, photos: &BTreeMap<String, Picture>) -> Vec<u8> {
    let study = Study::of(survey);
    tasks::uncertainty(&study, DRAWS, processors(), &to_the_end);
    let material = Material::of(&study, Kind::Report, photos);
    let sheet = contents(&material, &Choices::new(Kind::Report));
    typeset(&sheet).unwrap().pdf().unwrap()
}

#[divan::bench(sample_count = 3)]
fn photos_made_ready(bencher: Bencher<'_, '_>) {
    let there = on_disk();
    bencher.bench(|| black_box(copies(&there)));
}

#[divan::bench(sample_count = 3)]
fn pdf_cold(bencher: Bencher<'_, '_>) {
    let there = on_disk();
    let photos = copies(&there);
    bencher
        .with_inputs(|| comemo::evict(0))
        .bench_values(|()| black_box(report(&there.survey, &photos)));
}

#[divan::bench(sample_count = 5)]
fn pdf_after_a_change(bencher: Bencher<'_, '_>) {
    let there = on_disk();
    let photos = copies(&there);
    let mut survey = there.survey.clone();
    let bytes = report(&survey, &photos).len();
    println_size(bytes);
    let mut change = 0;
    bencher.bench_local(|| {
        change += 1;
        if let Some(gap) = survey.gaps.get_mut(7) {
            gap.note = format!("change {change}");
        }
        black_box(report(&survey, &photos))
    });
}

#[expect(
    clippy::print_stdout,
    reason = "the size of the file is a result of its own"
)]
fn println_size(bytes: usize) {
    println!("the file has {bytes} bytes");
}
