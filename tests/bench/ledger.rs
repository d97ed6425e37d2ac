//! A frame of the Gaps page with a ledger of 60 and of 1000 rows: laid out and turned into
//! shapes, without painting. Both should take about the same: only rows in sight are laid out.

#![expect(clippy::unwrap_used, reason = "a benchmark may stop")]

mod vehicles;

use divan::Bencher;
use eframe::egui;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use gapledger::assess::Study;
use gapledger::assess::uncertainty::SEED;
use gapledger::survey::{Edit, Facing, Form, Gap, GapId, Record, Survey, VehicleKind, file};
use gapledger::window::app::{App, Start};
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use vehicles::{CARAVAN, with_gaps};

fn main() {
    divan::main();
}

fn opened(gaps: u32) -> (tempfile::TempDir, Harness<'static, App>) {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    for id in 1..=gaps {
        let form = Form::NarrowGap {
            length_mm: Some(f64::from(100 + id)),
            width_mm: (id % 7 != 0).then_some(1.5),
            depth_mm: Some(20.0),
            bends: id % 3,
        };
        let zone = survey.zones.first().unwrap().id;
        let facing = if id % 2 == 0 {
            Facing::Offside
        } else {
            Facing::Nearside
        };
        let mut gap = Gap::new(GapId(id), zone, facing, form);
        gap.name = format!("invented seal {id}");
        gap.position.height_m = Some(1.0);
        survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ledger.ron");
    std::fs::write(&path, file::print(&survey)).unwrap();
    let mut window = Harness::builder()
        .with_size(egui::vec2(1366.0, 768.0))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, Start::test(Some(path))));
    window.run();
    (folder, window)
}

/// A frame in which nothing was pressed.
#[divan::bench(args = [60, 1000])]
fn frame_at_rest(bencher: Bencher<'_, '_>, gaps: u32) {
    let (_folder, mut window) = opened(gaps);
    bencher.bench_local(|| window.step());
}

/// A frame that takes Down: another row is selected and its form drawn.
#[divan::bench(args = [60, 1000])]
fn frame_of_an_arrow(bencher: Bencher<'_, '_>, gaps: u32) {
    let (_folder, mut window) = opened(gaps);
    bencher.bench_local(|| {
        window.key_press_modifiers(Modifiers::NONE, Key::ArrowDown);
        window.step();
    });
}

/// The same while two workers draw without end: the slowest frames say whether draws
/// hold up the window.
#[divan::bench(args = [60, 1000], sample_count = 300, sample_size = 1)]
fn frame_of_an_arrow_while_draws_run(bencher: Bencher<'_, '_>, gaps: u32) {
    const WORKERS: u32 = 2;
    const PIECE: u32 = 250;
    let (_folder, mut window) = opened(gaps);
    let study = Study::of(&with_gaps(CARAVAN, 60));
    let trials = study.trials().unwrap();
    let enough = AtomicBool::new(false);
    thread::scope(|scope| {
        for worker in 0..WORKERS {
            let enough = &enough;
            scope.spawn(move || {
                let mut from = worker * PIECE;
                while !enough.load(Ordering::Relaxed) {
                    divan::black_box(trials.draw_chunk(SEED, from..from + PIECE));
                    from += WORKERS * PIECE;
                }
            });
        }
        bencher.bench_local(|| {
            window.key_press_modifiers(Modifiers::NONE, Key::ArrowDown);
            window.step();
        });
        enough.store(true, Ordering::Relaxed);
    });
}
