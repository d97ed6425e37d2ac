//! How full the pages of sheets are. `GAPLEDGER_WRITE_SHEETS=FOLDER` keeps every sheet of every sample,
//! to be looked at.

use crate::sheet::poppler;
use gapledger::assess::Study;
use gapledger::sheet::photos::print_copies;
use gapledger::sheet::{Choices, Kind, Material, Paper, contents, typeset};
use gapledger::survey::file::load;
use gapledger::survey::{Survey, WorkState};
use gapledger::tasks::{self, Shelf, to_the_end};
use proptest::prelude::*;
use std::fs;
use std::path::Path;

const SAMPLES: [&str; 7] = [
    "coastal-coachbuilt",
    "farmyard-caravan",
    "forest-integrated",
    "orchard-trial",
    "street-panel-van",
    "two-opening-check",
    "vineyard-coachbuilt",
];

/// Lines of a page that the head and the foot take, of a hundred.
const HEAD: usize = 7;
const FOOT: usize = 7;
/// What a page but the last must at least be filled, of a hundred.
const LEAST: usize = 33;

/// How far down each page something stands, of a hundred, between head and foot.
fn fills(pdf: &[u8]) -> Vec<usize> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("sheet.pdf");
    fs::write(&file, pdf).unwrap();
    let drawn = std::process::Command::new("pdftoppm")
        .args(["-r", "20", "-gray", "-png"])
        .arg(&file)
        .arg(folder.path().join("page"))
        .status()
        .unwrap_or_else(|error| panic!("pdftoppm of poppler-utils is needed: {error}"));
    assert!(drawn.success());
    let mut pages: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "png"))
        .collect();
    pages.sort();
    pages.iter().map(|path| fill(path)).collect()
}

/// The numbers at the feet of the pages, in order, as they are printed.
fn numbers(pdf: &[u8]) -> Vec<String> {
    let words = poppler("pdftotext", &["-layout"], pdf);
    let pages = words.split('\u{c}').filter(|page| !page.trim().is_empty());
    let foot = |page: &str| {
        let line = page.lines().rfind(|line| line.contains("page "))?;
        line.rsplit_once("page ")
            .map(|(_, number)| number.trim().to_owned())
    };
    pages.map(|page| foot(page).unwrap_or_default()).collect()
}

/// The rows of gaps above the sum of the ledger on its page.
fn rows_above_the_sum(pdf: &[u8]) -> Option<usize> {
    let words = poppler("pdftotext", &["-layout"], pdf);
    let page = words
        .split('\u{c}')
        .find(|page| page.lines().any(|line| line.trim().starts_with("All gaps")))?;
    let above = page
        .lines()
        .take_while(|line| !line.trim().starts_with("All gaps"));
    let is_row = |line: &&str| {
        let mut words = line.split_whitespace();
        let number = words.next().is_some_and(|word| word.parse::<u32>().is_ok());
        number && words.count() > 4
    };
    Some(above.filter(is_row).count())
}

fn fill(page: &Path) -> usize {
    let picture = image::open(page).unwrap().into_luma8();
    let (wide, high) = picture.dimensions();
    let (wide, high) = (wide as usize, high as usize);
    let rows: Vec<&[u8]> = picture.as_raw().chunks(wide).collect();
    let (from, to) = (high * HEAD / 100, high * (100 - FOOT) / 100);
    let lowest = (from..to)
        .rev()
        .find(|row| rows[*row].iter().any(|grey| *grey < 200));
    lowest.map_or(0, |row| (row - from) * 100 / (to - from))
}

/// The sample with its plan carried out, for the sheets that tell of done work.
fn with_work(survey: &Survey, kind: Kind) -> Survey {
    let mut survey = survey.clone();
    if matches!(kind, Kind::Completion | Kind::Invoice) {
        let study = Study::of(&survey);
        let steps: Vec<_> = study.work().iter().flat_map(|work| &work.steps).collect();
        let ids: Vec<_> = steps.iter().map(|step| step.sealable.gap()).collect();
        for gap in survey.gaps.iter_mut().filter(|gap| ids.contains(&gap.id)) {
            gap.state = WorkState::Sealed;
            gap.state_date = "2031-03-01".to_owned();
        }
    }
    survey
}

#[test]
fn every_page_has_its_number_and_none_but_the_last_is_under_a_third_full() {
    let kept = std::env::var_os("GAPLEDGER_WRITE_SHEETS");
    let mut empty = Vec::new();
    for sample in SAMPLES {
        let file =
            Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-surveys/{sample}.ron"));
        let found = load(&file).unwrap().survey;
        let photos = print_copies(&file, &found, &|| false);
        for kind in Kind::ALL {
            let survey = with_work(&found, kind);
            let study = Study::of(&survey);
            let (folders, shelf) = (tasks::data_folders(Some(&file), None), Shelf::default());
            tasks::tried(&study, &folders, file.parent(), &shelf, &to_the_end);
            for paper in Paper::ALL {
                let mut choices = Choices::new(kind);
                choices.paper = paper;
                choices.workshop.texts.name = "Invented Workshop".to_owned();
                choices.workshop.texts.address = "1 Made-up Lane\nNowhere".to_owned();
                let material = Material::of(&study, kind, &photos);
                let pdf = typeset(&contents(&material, &choices))
                    .unwrap()
                    .pdf()
                    .unwrap();
                let name = format!("{sample}-{}-{}", kind.name(), paper.name()).replace(' ', "-");
                if let Some(folder) = &kept {
                    fs::write(Path::new(folder).join(format!("{name}.pdf")), &pdf).unwrap();
                }
                let fills = fills(&pdf);
                let pages = fills.len();
                let told: Vec<String> = (1..=pages)
                    .map(|page| format!("{page} of {pages}"))
                    .collect();
                assert_eq!(numbers(&pdf), told, "{name}");
                if kind == Kind::Report {
                    let rows = rows_above_the_sum(&pdf);
                    let rows = rows.unwrap_or_else(|| panic!("{name}: no ledger"));
                    let least = survey.gaps.len().min(3);
                    assert!(rows >= least, "{name}: {rows} rows with the sum");
                }
                for (page, fill) in fills.iter().enumerate() {
                    if page + 1 < pages && *fill < LEAST {
                        empty.push(format!(
                            "{name}: page {} of {pages} is {fill} % full",
                            page + 1
                        ));
                    }
                }
            }
        }
    }
    assert!(empty.is_empty(), "{}", empty.join("\n"));
}

/// The amounts at the ends of the lines that begin with some words.
fn at_the_ends(words: &str, label: &str) -> Vec<String> {
    let lines = words.lines().map(str::trim);
    let lines = lines.filter(|line| line.starts_with(label));
    let ends = lines.filter_map(|line| line.split_whitespace().last());
    ends.map(str::to_owned).collect()
}

/// A price with up to four digits behind the point, as it is typed.
fn price(most: u32) -> impl Strategy<Value = f64> {
    (0..most * 10_000).prop_map(|parts| f64::from(parts) / 10_000.0)
}

proptest! {
    // Each case sets two sheets.
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// What is printed is what the JSON says, to the cent, and adds up.
    #[test]
    fn the_sums_of_quotation_and_invoice_are_those_of_the_json(
        rate in price(200),
        (tax, material_tax) in (1_u32..300, proptest::option::of(1_u32..300)),
        prices in proptest::collection::vec(price(50), 3),
    ) {
        let tenths = |tenths: u32| f64::from(tenths) / 10.0;
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let mut survey = gapledger::survey::file::parse(text).unwrap();
        survey.tariffs.workshop_per_hour = Some(rate);
        survey.tariffs.tax_percent = Some(tenths(tax));
        survey.tariffs.material_tax_percent = material_tax.map(tenths);
        let remedies = survey.gaps.iter_mut().filter_map(|gap| gap.remedy.as_mut());
        for (remedy, price) in remedies.zip(prices.iter().cycle()) {
            remedy.material_cost = Some(*price);
        }
        for (kind, key) in [(Kind::Quotation, "quotation"), (Kind::Invoice, "invoice")] {
            let survey = with_work(&survey, kind);
            let pdf = crate::sheet::pages(&survey, kind).pdf().unwrap();
            let words = poppler("pdftotext", &["-layout"], &pdf);
            let json = crate::headless::OnDisk::new(&survey).json();
            let bill = &json["papers"][key];
            let told = |amount: &serde_json::Value| format!("{:.2}", amount.as_f64().unwrap());
            let printed = |label| {
                let ends = at_the_ends(&words, label);
                assert!(!ends.is_empty(), "no {label}: {words}");
                ends[0].clone()
            };
            prop_assert_eq!(printed("Net"), told(&bill["net"]));
            prop_assert_eq!(printed("Total with tax"), told(&bill["gross"]));
            let taxes = at_the_ends(&words, "Tax, ");
            let expected: Vec<String> =
                bill["taxes"].as_array().unwrap().iter().map(|tax| told(&tax["tax"])).collect();
            prop_assert_eq!(&taxes, &expected);
            // In whole cents, by what stands on paper alone.
            let cents = |amount: &String| amount.replace('.', "").parse::<i64>().unwrap();
            let sum = cents(&printed("Net")) + taxes.iter().map(cents).sum::<i64>();
            prop_assert_eq!(sum, cents(&printed("Total with tax")));
        }
    }
}
