//! Pictures of pages of the three sheets, drawn from the PDF by poppler: one of each kind of page.

use egui_kittest::{SnapshotOptions, SnapshotResults};
use gapledger::headless::{Command, Outcome, SheetArguments, run_to};
use gapledger::sheet::{Kind, Paper};
use image::RgbaImage;
use std::path::{Path, PathBuf};

/// Dots to the inch: enough to tell a digit from another.
const DOTS: &str = "60";

/// Few enough differing pixels that one other letter is noticed.
fn options() -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(0.6)
        .max_failed_pixels(4_usize)
        .output_path("tests/pictures")
}

fn sample() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/vineyard-coachbuilt.ron")
}

/// Prints a sheet of the sample into a folder.
fn print(kind: Kind, workshop: &str, folder: &Path) -> PathBuf {
    let output = folder.join("sheet.pdf");
    let (mut words, mut errors) = (Vec::new(), Vec::new());
    let command = Command::Sheet(SheetArguments {
        wish: gapledger::headless::WishArguments::default(),
        file: sample(),
        output: output.clone(),
        kind,
        paper: Paper::A4,
        units: gapledger::assess::shown::Units::Metric,
        without: Vec::new(),
        with: Vec::new(),
        workshop: workshop.to_owned(),
        address: "1 Made-up Lane\\nNowhere".to_owned(),
        profile: None,
        logo: None,
    });
    let outcome = run_to(command, &mut words, &mut errors);
    assert_ne!(
        outcome,
        Outcome::Failed,
        "{}",
        String::from_utf8_lossy(&errors)
    );
    output
}

/// Its pages as poppler draws them, in their order.
fn pages(pdf: &Path, folder: &Path) -> Vec<RgbaImage> {
    let drawn = std::process::Command::new("pdftoppm")
        .args(["-r", DOTS, "-png"])
        .arg(pdf)
        .arg(folder.join("page"))
        .status()
        .unwrap_or_else(|error| panic!("pdftoppm of poppler-utils is needed: {error}"));
    assert!(drawn.success(), "{drawn}");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "png"))
        .collect();
    files.sort();
    files
        .iter()
        .map(|file| image::open(file).unwrap().to_rgba8())
        .collect()
}

/// Compares the pages of these numbers.
fn compare(kind: Kind, name: &str, numbers: &[usize]) {
    let folder = tempfile::tempdir().unwrap();
    let pdf = print(kind, "Invented Workshop", folder.path());
    let pages = pages(&pdf, folder.path());
    let mut results = SnapshotResults::new();
    for number in numbers {
        let page = pages
            .get(number - 1)
            .unwrap_or_else(|| panic!("page {number} is gone"));
        let name = format!("{name}-{number:02}");
        results.add(egui_kittest::try_image_snapshot_options(
            page,
            &name,
            &options(),
        ));
    }
}

/// Summary, the body, rose and ledger, plan and photos, drying, workings.
#[test]
fn the_report() {
    compare(Kind::Report, "sheet-report", &[1, 3, 7, 8, 10]);
}

/// The work, and costs with what must not be closed.
#[test]
fn the_work_order() {
    compare(Kind::WorkOrder, "sheet-work-order", &[1, 3]);
}

/// Before and after.
#[test]
fn the_completion_sheet() {
    compare(Kind::Completion, "sheet-completion", &[1]);
}

/// The comparison itself: one other word on a page is noticed.
#[test]
fn another_word_on_paper_is_noticed() {
    let kept = tempfile::tempdir().unwrap();
    let first = |workshop: &str| {
        let folder = tempfile::tempdir().unwrap();
        let pdf = print(Kind::Completion, workshop, folder.path());
        pages(&pdf, folder.path()).swap_remove(0)
    };
    let usual = first("Invented Workshop");
    usual.save(kept.path().join("page.png")).unwrap();
    let options = options().output_path(kept.path());
    let compare = |page: &_| egui_kittest::try_image_snapshot_options(page, "page", &options);
    assert!(compare(&usual).is_ok());
    assert!(compare(&first("Invented Workship")).is_err());
}
