//! The job sheet as a PDF, read back with the tools of poppler.

use crate::headless::{OnDisk, run};
use gapledger::assess::Study;
use gapledger::headless::{Command, Outcome, SheetArguments, WishArguments};
use gapledger::sheet::{Choices, Kind, Material, Paper, Typeset, contents, typeset};
use gapledger::survey::file::{parse, photo_folder};
use gapledger::survey::*;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

pub(crate) const COACH_BUILT: &str = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
pub(crate) const CARAVAN: &str = include_str!("../../sample-surveys/farmyard-caravan.ron");
pub(crate) const TWO_OPENINGS: &str = include_str!("../../sample-surveys/two-opening-check.ron");

pub(crate) fn arguments(file: &Path, output: &Path) -> SheetArguments {
    SheetArguments {
        wish: WishArguments::default(),
        file: file.to_owned(),
        output: output.to_owned(),
        kind: Kind::Report,
        paper: Paper::A4,
        units: gapledger::assess::shown::Units::Metric,
        without: Vec::new(),
        with: Vec::new(),
        workshop: "Invented Workshop".to_owned(),
        address: "1 Made-up Lane\\nNowhere".to_owned(),
        profile: None,
        logo: None,
    }
}

pub(crate) fn pages(survey: &Survey, kind: Kind) -> Typeset {
    let (study, photos) = (Study::of(survey), BTreeMap::new());
    let material = Material::of(&study, kind, &photos);
    typeset(&contents(&material, &Choices::new(kind))).unwrap()
}

/// What a tool of poppler says about a PDF.
pub(crate) fn poppler(tool: &str, arguments: &[&str], pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("sheet.pdf");
    fs::write(&file, pdf).unwrap();
    let mut command = std::process::Command::new(tool);
    command.args(arguments).arg(&file);
    if tool == "pdftotext" {
        command.arg("-");
    }
    let output = command
        .output()
        .unwrap_or_else(|error| panic!("{tool} of poppler-utils is needed: {error}"));
    assert!(output.status.success(), "{tool}: {output:?}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The text in the order it was set, every space a single one.
pub(crate) fn text(pdf: &[u8]) -> String {
    let raw = poppler("pdftotext", &["-raw"], pdf);
    raw.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Without spaces and places to break, for texts that may be broken anywhere.
pub(crate) fn letters(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .collect()
}

/// Two significant digits, worked out from the digits of Rust's own exponent form.
fn two_digits(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let rounded: f64 = format!("{value:.1e}").parse().unwrap();
    let exponent: i32 = format!("{value:.1e}")
        .split('e')
        .nth(1)
        .unwrap()
        .parse()
        .unwrap();
    let decimals = usize::try_from((1 - exponent).max(0)).unwrap();
    format!("{rounded:.decimals$}")
}

#[test]
fn the_report_says_what_assess_says() {
    for sample in [COACH_BUILT, CARAVAN] {
        let survey = parse(sample).unwrap();
        let on_disk = OnDisk::new(&survey);
        let output = on_disk.path("report.pdf");
        let run = run(Command::Sheet(arguments(&on_disk.file(), &output)));
        assert_ne!(run.outcome, Outcome::Failed, "{}", run.errors);
        let pdf = fs::read(&output).unwrap();
        let (json, text) = (on_disk.json(), text(&pdf));
        let area = json["leakage"]["unintended"]["eqla_10pa_mm2"].as_f64();
        let area = area.unwrap_or_else(|| panic!("{:#}", json["leakage"]["unintended"]));
        assert!(
            text.contains(&format!("{:.0} cm²", area / 100.0)),
            "{area}: {text}"
        );
        let cases = json["cases"].as_array().unwrap();
        assert!(cases.len() > 2);
        // Weather cases stand side by side: a row for each result.
        for (label, result) in [
            ("Mean, /h", "/air/ach_mean_per_h"),
            (
                "Inside held at",
                "/drying/at_set_temperature/removal_l_per_day",
            ),
            ("Together, W", "/heat/set_temperature/heat_w"),
        ] {
            let from = text
                .find(label)
                .unwrap_or_else(|| panic!("{label}: {text}"));
            let row: String = text[from..].chars().take(60).collect();
            for case in cases {
                let number = case
                    .pointer(result)
                    .and_then(|value| value.as_f64())
                    .unwrap();
                let digits = two_digits(number);
                assert!(
                    row.split(' ').any(|word| word == digits),
                    "{digits} in {row}"
                );
            }
        }
        for gap in &survey.gaps {
            assert!(text.contains(gap.name.trim()), "{}", gap.name);
        }
        assert!(text.contains("Invented Workshop 1 Made-up Lane Nowhere"));
        let last = poppler("pdfinfo", &[], &pdf);
        let count = last
            .lines()
            .find_map(|line| line.strip_prefix("Pages:"))
            .unwrap()
            .trim();
        assert!(text.contains(&format!("page {count} of {count}")));
    }
}

#[test]
fn the_pdf_is_for_the_archive() {
    let pdf = pages(&parse(COACH_BUILT).unwrap(), Kind::Report)
        .pdf()
        .unwrap();
    let bytes = String::from_utf8_lossy(&pdf);
    for mark in [
        "/OutputIntents",
        "/StructTreeRoot",
        "/Lang(en)",
        "<pdfaid:part>2</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
    ] {
        assert!(bytes.replace("/Lang (", "/Lang(").contains(mark), "{mark}");
    }
    let fonts = poppler("pdffonts", &[], &pdf);
    let fonts: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(fonts.len() >= 3, "{fonts:?}");
    for font in fonts {
        // Embedded, a subset, and its letters known as Unicode.
        assert!(font.contains("yes yes yes"), "{font}");
    }
    let info = poppler("pdfinfo", &[], &pdf);
    assert!(
        info.contains("Title:           Coach-built on the open coast – survey report"),
        "{info}"
    );
    assert!(info.contains("Tagged:          yes"), "{info}");
}

#[test]
fn the_same_survey_gives_the_same_bytes() {
    let survey = parse(TWO_OPENINGS).unwrap();
    let first = pages(&survey, Kind::Report).pdf().unwrap();
    let between = pages(&parse(CARAVAN).unwrap(), Kind::WorkOrder);
    assert!(between.pages() > 1);
    assert!(first == pages(&survey, Kind::Report).pdf().unwrap());
}

/// Puts a text into every field that takes text.
pub(crate) fn filled_with(text: &str) -> Survey {
    let mut survey = parse(CARAVAN).unwrap();
    let own = || text.to_owned();
    survey.header = Header {
        title: own(),
        scene: own(),
        surveyor: own(),
        date: own(),
        reference: own(),
        note: own(),
    };
    survey.tariffs.currency = own();
    survey.zones.iter_mut().for_each(|zone| zone.name = own());
    for gap in &mut survey.gaps {
        (gap.name, gap.note, gap.damp, gap.state_date) = (own(), own(), own(), own());
        gap.photos = vec![Photo::new(own())];
        gap.photos[0].caption = own();
        if let Some(remedy) = &mut gap.remedy {
            remedy.words = own();
        }
    }
    survey.weather.iter_mut().for_each(|case| case.name = own());
    survey
        .fabric
        .iter_mut()
        .for_each(|element| element.name = own());
    survey
        .appliances
        .iter_mut()
        .for_each(|one| one.name = own());
    survey.machines.iter_mut().for_each(|one| one.name = own());
    survey.heaters.iter_mut().for_each(|one| one.name = own());
    survey.fans.iter_mut().for_each(|one| one.name = own());
    survey.sources.iter_mut().for_each(|one| one.name = own());
    survey.gaps.truncate(4);
    survey
}

#[test]
fn text_is_printed_and_never_taken_as_the_typesetters_language() {
    let hostile = "#panic(\"no\") #import \"x\" $x^2$ *b* _i_ `r` ```c``` = h <l> @r \\# // c /* d */ \
                   ~ -- ... 'q' \"p\" [b] {c} &amp; </text> %s \\u{41}";
    let survey = filled_with(hostile);
    for kind in Kind::ALL {
        let pdf = pages(&survey, kind).pdf().unwrap();
        let found = letters(&text(&pdf));
        assert!(found.contains(&letters(hostile)), "{kind:?}: {found}");
    }
}

#[test]
fn characters_without_a_glyph_become_boxes_and_are_named() {
    let survey = filled_with(
        "a 🚪\u{1}\u{e000}\u{fffe}\u{200d}\u{feff}\u{202e}b\r\n\u{7f}漢\u{301}e\u{301}",
    );
    let pages = pages(&survey, Kind::Report);
    let sentence = pages.replaced().unwrap().to_owned();
    for name in ["U+0001", "U+007F", "U+6F22", "U+E000", "U+FFFE", "U+1F6AA"] {
        assert!(sentence.contains(name), "{sentence}");
    }
    let text = text(&pages.pdf().unwrap());
    assert!(text.contains("a □□□□b"), "{text}");
    assert!(text.contains("□ stands for characters"), "{text}");
}

#[test]
fn words_from_right_to_left_survive() {
    let (hebrew, arabic) = ("חלון אחורי", "باب خلفي");
    let mut survey = parse(TWO_OPENINGS).unwrap();
    survey.gaps[0].name = format!("{hebrew} 12 mm");
    survey.gaps[1].name = arabic.to_owned();
    survey.weather[0].name = hebrew.to_owned();
    let text = text(&pages(&survey, Kind::Report).pdf().unwrap());
    // In the order they are read, whatever way they are set. Arabic letters may come back as
    // their joined forms, so their count stands for them.
    let found: String = text
        .chars()
        .filter(|letter| !matches!(letter, '\u{202a}'..='\u{202e}'))
        .collect();
    assert!(found.contains("חלון"), "{found}");
    assert!(found.contains("אחורי"), "{found}");
    let arabic_letters = |text: &str| {
        text.chars()
            .filter(|letter| matches!(letter, '\u{600}'..='\u{6ff}' | '\u{fe70}'..='\u{feff}'))
            .count()
    };
    assert!(arabic_letters(&found) >= arabic_letters(arabic), "{found}");
}

/// The words of a report, written to a file and read by their boxes.
fn pdf_of(survey: &Survey) -> Vec<u8> {
    pages(survey, Kind::Report).pdf().unwrap()
}

#[test]
fn no_gap_one_gap_and_three_hundred() {
    let mut survey = parse(CARAVAN).unwrap();
    let gaps: Vec<Gap> = survey
        .gaps
        .iter()
        .filter(|gap| gap.behind.is_none())
        .cloned()
        .collect();
    survey.gaps.clear();
    assert!(text(&pdf_of(&survey)).contains("No gap has been written down yet."));
    survey.gaps.push(gaps[0].clone());
    assert!(text(&pdf_of(&survey)).contains(gaps[0].name.trim()));
    survey.gaps.clear();
    for (id, gap) in (1001..1301).zip(gaps.iter().cycle()) {
        let mut gap = gap.clone();
        gap.id = GapId(id);
        gap.name = format!("copy {id} of a gap");
        survey.gaps.push(gap);
    }
    let pages = pages(&survey, Kind::Report);
    let text = text(&pages.pdf().unwrap());
    for id in 1001..1301 {
        assert!(text.contains(&format!("copy {id} of a gap")), "{id}");
    }
    let headers = text
        .matches("What and where Form and sizes How sure")
        .count();
    assert!(headers >= 10, "{headers} headers of the ledger");
}

pub(crate) fn photo(path: &Path, width: u32, height: u32) {
    let picture = image::RgbImage::from_fn(width, height, |x, y| {
        let byte = |value: u32| u8::try_from(value % 256).unwrap();
        image::Rgb([byte(x * 7 + y), byte(x ^ y), byte(y * 3)])
    });
    picture.save(path).unwrap();
}

#[test]
fn photos_are_printed_small_and_missing_ones_named() {
    let mut survey = parse(TWO_OPENINGS).unwrap();
    survey.gaps[0].photos = vec![Photo::new("one.jpg"), Photo::new("gone.jpg")];
    survey.gaps[1].photos = vec![Photo::new("two.png"), Photo::new("text.jpg")];
    let on_disk = OnDisk::new(&survey);
    let folder = photo_folder(&on_disk.file());
    fs::create_dir(&folder).unwrap();
    photo(&folder.join("one.jpg"), 3000, 2000);
    photo(&folder.join("two.png"), 600, 900);
    fs::write(folder.join("text.jpg"), "no picture at all").unwrap();
    let output = on_disk.path("report.pdf");
    let run = run(Command::Sheet(arguments(&on_disk.file(), &output)));
    assert_ne!(run.outcome, Outcome::Failed, "{}", run.errors);
    let pdf = fs::read(&output).unwrap();
    let images = poppler("pdfimages", &["-list"], &pdf);
    let images: Vec<&str> = images.lines().skip(2).collect();
    assert_eq!(images.len(), 2, "{images:?}");
    assert!(
        images[0].contains(" 800 ") && images[0].contains(" jpeg "),
        "{images:?}"
    );
    let text = text(&pdf);
    assert!(text.contains("gone.jpg (gap "), "{text}");
    assert!(text.contains("text.jpg (gap "), "{text}");
    assert!(pdf.len() < 900_000, "{}", pdf.len());
}

#[test]
fn each_sheet_goes_on_either_paper() {
    let on_disk = OnDisk::new(&parse(CARAVAN).unwrap());
    for (kind, head) in [
        (Kind::WorkOrder, "WORK ORDER"),
        (Kind::Completion, "COMPLETION SHEET"),
    ] {
        let output = on_disk.path("sheet.pdf");
        let mut asked = arguments(&on_disk.file(), &output);
        (asked.kind, asked.paper) = (kind, Paper::Letter);
        let run = run(Command::Sheet(asked));
        assert_ne!(run.outcome, Outcome::Failed, "{}", run.errors);
        let pdf = fs::read(&output).unwrap();
        assert!(poppler("pdfinfo", &[], &pdf).contains("612 x 792 pts (letter)"));
        assert!(text(&pdf).contains(head));
    }
}

#[test]
fn a_survey_or_a_wrong_logo_ends_in_a_sentence() {
    let on_disk = OnDisk::new(&parse(TWO_OPENINGS).unwrap());
    let file = on_disk.file();
    let before = fs::read(&file).unwrap();
    let over = run(Command::Sheet(arguments(&file, &file)));
    assert_eq!(over.outcome, Outcome::Failed);
    assert!(
        over.errors
            .contains("never overwritten: write to a name that ends in .pdf"),
        "{}",
        over.errors
    );
    assert_eq!(fs::read(&file).unwrap(), before);
    let mut asked = arguments(&file, &on_disk.path("sheet.pdf"));
    asked.logo = Some(file.clone());
    let wrong = run(Command::Sheet(asked));
    assert_eq!(wrong.outcome, Outcome::Failed);
    assert!(
        wrong.errors.contains("choose a JPEG, PNG or WebP file"),
        "{}",
        wrong.errors
    );
    assert!(!on_disk.path("sheet.pdf").exists());
}

#[test]
fn the_plan_as_csv_follows_the_work_and_runs_nothing() {
    let mut survey = parse(CARAVAN).unwrap();
    for gap in &mut survey.gaps {
        gap.name = format!("=cmd|{}", gap.id);
    }
    let on_disk = OnDisk::new(&survey);
    let output = on_disk.path("plan.csv");
    let command = |byte_order_mark| Command::Plan {
        wish: WishArguments::default(),
        file: on_disk.file(),
        output: output.clone(),
        byte_order_mark,
    };
    assert_ne!(run(command(true)).outcome, Outcome::Failed);
    let marked = fs::read(&output).unwrap();
    assert!(marked.starts_with(&[0xEF, 0xBB, 0xBF]));
    assert_ne!(run(command(false)).outcome, Outcome::Failed);
    let plain = fs::read(&output).unwrap();
    assert_eq!(&marked[3..], plain);
    let study = Study::of(&survey);
    let work = study.work().as_ref().unwrap();
    let mut reader = csv::Reader::from_reader(plain.as_slice());
    let headers = reader.headers().unwrap().clone();
    let at = |name: &str| headers.iter().position(|header| header == name).unwrap();
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(records.len(), work.steps.len());
    let mut spent = 0.0;
    for (record, step) in records.iter().zip(&work.steps) {
        assert_eq!(&record[at("gap")], step.sealable.gap().to_string());
        assert!(record[at("name")].starts_with("'=cmd|"), "{record:?}");
        spent += record[at("total_cost")].parse::<f64>().unwrap();
    }
    // Each line has its own part of the tax, which the whole rounds to the cent.
    assert!((spent - work.plan.cost).abs() < 0.005_001);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn any_text_becomes_a_pdf(text in any::<String>(), other in "\\PC{0,60}") {
        let mut survey = filled_with(&text);
        survey.header.scene = other;
        let pages = pages(&survey, Kind::WorkOrder);
        prop_assert!(pages.pdf().is_ok(), "{:?}", pages.pdf().err());
    }
}
