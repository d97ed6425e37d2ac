//! How the pages of a job sheet fall, what is said where something cannot be printed or written.

use crate::headless::{OnDisk, run};
use crate::sheet::{CARAVAN, COACH_BUILT, arguments, filled_with, pages, photo, poppler};
use gapledger::assess::Study;
use gapledger::assess::shown::Units;
use gapledger::headless::{Command, Outcome};
use gapledger::report::Block;
use gapledger::sheet::{Choices, Kind, Material, Paper, contents, typeset, unprintable};
use gapledger::survey::file::{parse, photo_folder};
use gapledger::survey::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// A word on a page: where it is, points, and its letters.
struct Word {
    left: f64,
    right: f64,
    top: f64,
    text: String,
}

/// The words of each page.
fn words(pdf: &[u8]) -> Vec<Vec<Word>> {
    let boxes = poppler("pdftotext", &["-bbox"], pdf);
    let mut pages = Vec::new();
    for line in boxes.lines() {
        if line.contains("<page ") {
            pages.push(Vec::new());
        }
        let Some(word) = line.split("<word ").nth(1) else {
            continue;
        };
        let number = |name: &str| -> f64 {
            let rest = word.split(&format!("{name}=\"")).nth(1).unwrap();
            rest.split('"').next().unwrap().parse().unwrap()
        };
        let text = word.split('>').nth(1).unwrap().split('<').next().unwrap();
        pages.last_mut().unwrap().push(Word {
            left: number("xMin"),
            right: number("xMax"),
            top: number("yMin"),
            text: text.to_owned(),
        });
    }
    pages
}

/// The last line above the foot of a page.
fn last_line(page: &[Word]) -> String {
    const FOOT: f64 = 842.0 - 54.0;
    let body = || page.iter().filter(|word| word.top < FOOT);
    let lowest = body().map(|word| word.top).fold(0.0, f64::max);
    let line: Vec<&str> = body()
        .filter(|word| (word.top - lowest).abs() < 2.0)
        .map(|word| word.text.as_str())
        .collect();
    line.join(" ")
}

/// All headings of a sheet.
fn headings(survey: &Survey, kind: Kind) -> BTreeSet<String> {
    let (study, photos) = (Study::of(survey), BTreeMap::new());
    let material = Material::of(&study, kind, &photos);
    let sheet = contents(&material, &Choices::new(kind));
    let mut headings = BTreeSet::new();
    for section in sheet.text.sections {
        headings.insert(section.title);
        for block in section.blocks {
            if let Block::Heading { text } = block {
                headings.insert(text);
            }
        }
    }
    headings
}

/// Text of any length pushes everything after it down, line by line over more than a page.
#[test]
fn no_heading_stands_alone_and_nobody_signs_an_empty_page() {
    for (kind, first, every) in [
        (Kind::WorkOrder, 0, 3),
        (Kind::Completion, 1, 3),
        (Kind::Report, 2, 6),
    ] {
        for lines in (first..58).step_by(every) {
            let mut survey = parse(CARAVAN).unwrap();
            for gap in &mut survey.gaps {
                if matches!(gap.id.0, 7 | 10 | 12) {
                    gap.state = WorkState::Sealed;
                }
            }
            survey.header.scene = vec!["A line of the scene."; lines + 1].join("\n");
            let headings = headings(&survey, kind);
            assert!(headings.contains("Signatures"));
            let pages = words(&pages(&survey, kind).pdf().unwrap());
            for page in &pages {
                let last = last_line(page);
                assert!(!headings.contains(&last), "{kind:?}, {lines} lines: {last}");
                if page.iter().any(|word| word.text == "Signatures") {
                    let said = page.iter().any(|word| word.text.contains('⚠'));
                    assert!(said, "{kind:?}, {lines} lines: only room to sign");
                }
            }
        }
    }
}

/// On Letter the end of the ledger of the one, and the first table of the other, fall on the foot of a
/// page.
#[test]
fn notes_of_a_table_stay_together_and_a_warning_stays_with_its_table() {
    for (sample, first, then) in [
        (CARAVAN, "(1) Not known: an outer", "(2) Not known: width"),
        (
            include_str!("../../sample-surveys/two-opening-check.ron"),
            "Put the fixed ventilation right first",
            "upper hole",
        ),
    ] {
        let (study, photos) = (Study::of(&parse(sample).unwrap()), BTreeMap::new());
        let mut choices = Choices::new(Kind::Report);
        (choices.paper, choices.units) = (Paper::Letter, Units::UsCustomary);
        let sheet = contents(&Material::of(&study, Kind::Report, &photos), &choices);
        let text = poppler(
            "pdftotext",
            &["-layout"],
            &typeset(&sheet).unwrap().pdf().unwrap(),
        );
        let page = text.split('\u{c}').find(|page| page.contains(first));
        assert!(page.unwrap().contains(then), "{first}: {text}");
    }
}

#[test]
fn photos_of_any_shape_stay_within_the_page_with_their_words() {
    let mut survey = parse(COACH_BUILT).unwrap();
    survey.gaps.truncate(9);
    let shapes = [(1600, 130), (60, 1200), (1200, 450), (450, 1200), (40, 30)];
    let mut captions = Vec::new();
    for (at, gap) in survey.gaps.iter_mut().enumerate() {
        let (wide, high) = shapes[at % shapes.len()];
        let mut one = Photo::new(format!("{wide}x{high}.png"));
        one.caption = format!("from outside, torch behind it, number{at}");
        captions.push(format!("number{at}"));
        gap.photos = vec![one];
    }
    let on_disk = OnDisk::new(&survey);
    let folder = photo_folder(&on_disk.file());
    fs::create_dir(&folder).unwrap();
    for (wide, high) in shapes {
        photo(&folder.join(format!("{wide}x{high}.png")), wide, high);
    }
    let output = on_disk.path("report.pdf");
    let run = run(Command::Sheet(arguments(&on_disk.file(), &output)));
    assert_ne!(run.outcome, Outcome::Failed, "{}", run.errors);
    let pdf = fs::read(&output).unwrap();
    let pages = words(&pdf);
    let all: Vec<&Word> = pages.iter().flatten().collect();
    for caption in &captions {
        assert!(all.iter().any(|word| word.text == *caption), "{caption}");
    }
    for word in &all {
        // Margins are 17 mm, 48 points.
        assert!(
            word.left > 47.0 && word.right < 595.3 - 47.0,
            "{}",
            word.text
        );
    }
    let images = poppler("pdfimages", &["-list"], &pdf);
    assert_eq!(images.lines().count() - 2, survey.gaps.len(), "{images}");
}

#[test]
fn what_cannot_be_printed_is_a_finding_of_check() {
    let mut survey = parse(CARAVAN).unwrap();
    survey.gaps[2].name = "corner trim \u{7a93}".to_owned();
    let on_disk = OnDisk::new(&survey);
    let run = run(Command::Check {
        file: on_disk.file(),
        strict: false,
        units: Units::Metric,
    });
    let id = survey.gaps[2].id;
    let printed = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        format!(
            "NOTE gap {id}, name gap {id}: its name holds characters that cannot be printed: \u{7a93} (U+7A93)"
        ),
        "→ write it with other characters, or sheets show □ in their place".to_owned(),
    ] {
        assert!(printed.contains(&words), "{words}: {printed}");
    }
    survey.gaps[2].name = "corner trim".to_owned();
    assert!(unprintable(&survey).is_empty());
}

/// Whatever a sheet shows as a box is a finding, and no finding is about what it can show.
#[test]
fn the_findings_are_about_just_what_sheets_replace() {
    for (text, boxed) in [
        ("a \u{1f6aa}\u{1}\u{e000}b", true),
        ("漢", true),
        (
            "d\u{f6}rr \u{2013} \u{5d7}\u{5dc}\u{5d5}\u{5df} \u{627}\u{644} \u{2300}\u{feff}\u{202e}\t\r\n",
            false,
        ),
    ] {
        let survey = filled_with(text);
        let pages = pages(&survey, Kind::WorkOrder);
        assert_eq!(pages.replaced().is_some(), boxed, "{text:?}");
        let found = unprintable(&survey);
        assert_eq!(!found.is_empty(), boxed, "{text:?}: {found:?}");
        if boxed {
            for gap in &survey.gaps {
                let about = |one: &&Finding| one.place.item == Item::Gap(gap.id);
                let fields: BTreeSet<&str> = found
                    .iter()
                    .filter(about)
                    .map(|one| one.place.field_key())
                    .collect();
                for field in ["name", "note", "damp", "state_date", "photos"] {
                    assert!(fields.contains(field), "{field}: {fields:?}");
                }
            }
        }
    }
}

#[test]
fn each_wrong_input_is_told_with_what_to_do() {
    let on_disk = OnDisk::new(&parse(CARAVAN).unwrap());
    let file = on_disk.file();
    let said = |asked| {
        let run = run(Command::Sheet(asked));
        assert_eq!(run.outcome, Outcome::Failed);
        assert!(run.errors.starts_with("gapledger: "), "{}", run.errors);
        run.errors
    };
    let nowhere = on_disk.path("no/such/folder").join("sheet.pdf");
    let words = said(arguments(&file, &nowhere));
    assert!(
        words.contains("there is no folder") && words.contains("make it first"),
        "{words}"
    );
    let folder = on_disk.path("a-folder.pdf");
    fs::create_dir(&folder).unwrap();
    let words = said(arguments(&file, &folder));
    assert!(
        words.contains("not an ordinary file: write to a file name that ends in .pdf"),
        "{words}"
    );
    let words = said(arguments(
        &on_disk.path("none.ron"),
        &on_disk.path("sheet.pdf"),
    ));
    assert!(words.contains("there is no file"), "{words}");
    let mut asked = arguments(&file, &on_disk.path("sheet.pdf"));
    asked.logo = Some(on_disk.path("no-logo.png"));
    let words = said(asked.clone());
    assert!(
        words.contains("no-logo.png") && words.contains("or leave it out"),
        "{words}"
    );
    asked.kind = Kind::WorkOrder;
    let text = on_disk.path("text.png");
    fs::write(&text, "no picture").unwrap();
    asked.logo = Some(text);
    let words = said(asked);
    assert!(
        words.contains("text.png") && words.contains("choose a JPEG, PNG or WebP file"),
        "{words}"
    );
    assert!(!on_disk.path("sheet.pdf").exists());
}
