//! Hostile files: nothing panics, nothing runs for ever, and what is read is read for good.

use crate::known;
use gapledger::survey::file::{parse, parse_bytes, print};
use proptest::prelude::*;

/// One change of a file.
#[derive(Clone, Debug)]
enum Change {
    Put(usize, &'static str),
    Byte(usize, u8),
    Cut(usize, usize),
    Repeat(usize, usize),
}

const PIECES: [&str; 24] = [
    "NaN",
    "-inf",
    "1e999",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "r#\"",
    "/*",
    "//",
    "Some(",
    "None",
    "#![enable(unwrap_newtypes)]",
    "\\u{d800}",
    "b\"x\"",
    "'x'",
    "0..=9",
    "0x",
    "-",
    "99999999999999999999",
    "form",
];

fn any_change() -> impl Strategy<Value = Change> {
    prop_oneof![
        (any::<usize>(), prop::sample::select(&PIECES[..]))
            .prop_map(|(at, put)| Change::Put(at, put)),
        (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Change::Byte(at, byte)),
        (any::<usize>(), 0..200_usize).prop_map(|(at, count)| Change::Cut(at, count)),
        (any::<usize>(), 0..200_usize).prop_map(|(at, count)| Change::Repeat(at, count)),
    ]
}

fn changed(mut bytes: Vec<u8>, changes: &[Change]) -> Vec<u8> {
    for change in changes {
        let length = bytes.len();
        match *change {
            Change::Put(at, piece) => {
                let at = at % (length + 1);
                bytes.splice(at..at, piece.bytes());
            }
            Change::Byte(at, byte) if length > 0 => bytes[at % length] = byte,
            Change::Byte(..) => {}
            Change::Cut(at, count) => {
                let at = at % (length + 1);
                bytes.drain(at..(at + count).min(length));
            }
            Change::Repeat(at, count) => {
                let at = at % (length + 1);
                let piece = bytes[at..(at + count).min(length)].to_vec();
                bytes.splice(at..at, piece);
            }
        }
    }
    bytes
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn a_changed_file_is_refused_or_read_for_good(
        changes in prop::collection::vec(any_change(), 1..4),
    ) {
        let bytes = changed(known::FILE.as_bytes().to_vec(), &changes);
        match parse_bytes(&bytes) {
            Ok(survey) => prop_assert_eq!(parse(&print(&survey)), Ok(survey)),
            Err(error) => prop_assert!(error.to_string().len() > 20),
        }
    }

    #[test]
    fn any_text_is_refused(text in "\\PC*") {
        prop_assert!(parse(&text).is_err());
    }
}

#[test]
fn deep_nesting_is_refused_even_with_little_stack() {
    // Worker threads have 2 MiB of stack; half of that must do.
    let job = std::thread::Builder::new().stack_size(1024 * 1024);
    let tries = || {
        for piece in [
            "(",
            "[",
            "{",
            "Some(",
            "gap(",
            "(a:",
            "{1:",
            "[[",
            "/*",
            "#![enable(implicit_some)]",
        ] {
            let deep = piece.repeat(100_000);
            for text in [
                deep.clone(),
                format!("(format: 2, vehicle: {deep}"),
                format!("(format: 2, vehicle: (kind: other, length_m: {deep}"),
                format!("(format: 2, vehicle: (kind: other), gaps: [(id: 1, behind: {deep}"),
            ] {
                assert!(parse(&text).is_err(), "{piece}");
            }
        }
    };
    job.spawn(tries).unwrap().join().unwrap();
}

/// A text that no person writes is refused where it stands, in each format.
#[test]
fn a_text_longer_than_a_booklet_is_refused() {
    for format in [1, 2] {
        let of = |bytes: usize| {
            let note = "n".repeat(bytes);
            format!("(format: {format}, header: (note: \"{note}\"), vehicle: (kind: other))")
        };
        assert!(gapledger::survey::file::parse(&of(65_536)).is_ok());
        let refused = gapledger::survey::file::parse(&of(65_537))
            .unwrap_err()
            .to_string();
        assert!(
            refused.contains("65537 bytes") && refused.contains("65536"),
            "{refused}"
        );
        assert!(
            refused.len() < 400,
            "the text itself is not told: {refused}"
        );
    }
}
