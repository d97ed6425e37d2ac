//! Letters that are written as several characters, on paper.

use crate::sheet::{COACH_BUILT, pages, text};
use gapledger::sheet::{Kind, unprintable};
use gapledger::survey::file::parse;

/// The name of a weather case stands in sentences, in tables and in drawings. The Unicode Standard:
/// o + U+0301 is ó, a + U+0323 is ạ; x with a dot below stays two characters.
#[test]
fn a_name_with_combining_marks_is_printed_everywhere_it_stands() {
    let mut survey = parse(COACH_BUILT).unwrap();
    survey.weather[0].name = "Gio\u{301} ma\u{323}nh x\u{323}".to_owned();
    assert_eq!(unprintable(&survey), []);
    let pages = pages(&survey, Kind::Report);
    assert_eq!(pages.replaced(), None);
    let text = text(&pages.pdf().unwrap());
    assert!(text.contains("Gió mạnh x"), "{text}");
}

#[test]
fn a_mark_that_no_font_has_for_its_letter_is_a_box_and_a_finding() {
    let mut survey = parse(COACH_BUILT).unwrap();
    survey.weather[0].name = "x\u{1ab0}".to_owned();
    let found = unprintable(&survey);
    assert!(found[0].sentence.contains("U+1AB0"), "{found:?}");
    let pages = pages(&survey, Kind::Report);
    assert!(pages.replaced().unwrap().contains("U+1AB0"));
    assert!(text(&pages.pdf().unwrap()).contains("x□"));
}
