//! Sheets of long texts: cut with a sign, or refused with a sentence.

use super::sheet::{TWO_OPENINGS, filled_with, letters, pages, poppler};
use gapledger::assess::Study;
use gapledger::sheet::{Choices, Kind, Material, contents, typeset};
use gapledger::survey::file::parse;
use std::collections::BTreeMap;

#[test]
fn long_notes_are_whole_and_what_paper_does_not_take_is_cut_with_a_sign() {
    let word = "abcdefghij".repeat(1000);
    let note = "A sentence that goes on. ".repeat(44);
    let mut survey = parse(TWO_OPENINGS).unwrap();
    survey.gaps[0].name = word.clone();
    survey.gaps[1].note.clone_from(&note);
    survey.header.note.clone_from(&word);
    let pages = pages(&survey, Kind::Report);
    let pdf = pages.pdf().unwrap();
    let without_feet: String = poppler("pdftotext", &["-raw"], &pdf);
    let found = letters(&without_feet);
    // The note stands whole below the ledger; one or two sentences may be broken by a page's end.
    let sentences = found.matches("Asentencethatgoeson.").count();
    assert!(sentences >= 42, "{sentences}");
    // The name in a cell and the notes on the survey, each as far as it is printed.
    let repeats = found.matches("abcdefghij").count();
    assert!(
        (600..1_200).contains(&repeats),
        "{repeats} of twice a thousand"
    );
    assert!(found.contains("(longerthanisprinted)"));
    // Nothing hangs over the edge: every word lies within the page.
    let boxes = poppler("pdftotext", &["-bbox"], &pdf);
    for line in boxes.lines().filter(|line| line.contains("<word ")) {
        let number = |name: &str| -> f64 {
            let rest = line.split(&format!("{name}=\"")).nth(1).unwrap();
            rest.split('"').next().unwrap().parse().unwrap()
        };
        assert!(
            number("xMin") > 30.0 && number("xMax") < 595.3 - 30.0,
            "{line}"
        );
    }
}

/// Four thousand letters in each of its fields once took 14 GB: in words and without a space to break
/// at, every sheet of it is set, and one that would be too long says so.
#[test]
fn a_survey_full_of_long_texts_is_printed() {
    for text in [
        "long words ".repeat(364),
        "x".repeat(4_000),
        "漢".repeat(4_000),
    ] {
        let mut survey = filled_with(&text);
        survey.gaps.truncate(2);
        for kind in Kind::ALL {
            let pages = pages(&survey, kind);
            // Some 130 texts of a page and a half each, most of them said once or twice.
            assert!(pages.pages() < 300, "{kind:?}: {} pages", pages.pages());
        }
        let found = gapledger::sheet::unprintable(&survey);
        assert!(
            found
                .iter()
                .any(|one| one.sentence.contains("4000 letters: sheets cut it")
                    || one.sentence.contains("4004 letters: sheets cut it"))
        );
    }
}

#[test]
fn a_sheet_longer_than_can_be_set_ends_in_a_sentence() {
    let (survey, photos) = (parse(TWO_OPENINGS).unwrap(), BTreeMap::new());
    let study = Study::of(&survey);
    let material = Material::of(&study, Kind::WorkOrder, &photos);
    let mut sheet = contents(&material, &Choices::new(Kind::WorkOrder));
    let section = sheet.text.sections[0].clone();
    let mut long = section.clone();
    for _ in 0..400 {
        long.paragraph("a word ".repeat(800));
    }
    sheet.text.sections.push(long);
    let refused = typeset(&sheet).err().unwrap().to_string();
    assert!(refused.contains("leave parts out"), "{refused}");
}
