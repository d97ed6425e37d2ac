//! What is not a survey is refused, with the place and a sentence.

use gapledger::survey::file::{ParseError, parse, parse_bytes};
use gapledger::survey::limits::MOST_GAPS;

/// Asserts line, column and a part of the sentence.
fn refused_at(text: &str, line: usize, column: usize, part: &str) {
    match parse(text) {
        Err(ParseError::Wrong {
            line: found_line,
            column: found_column,
            what,
        }) => {
            assert_eq!((found_line, found_column), (line, column), "{what}\n{text}");
            assert!(what.contains(part), "{what}\n{text}");
        }
        other => panic!("{other:?} for {text}"),
    }
}

/// A file with this in the place of one gap.
fn with_gaps(gaps: &str) -> String {
    format!("(\n  format: 2,\n  vehicle: (kind: other),\n  gaps: [\n{gaps}\n  ],\n)\n")
}

#[test]
fn an_unknown_field_is_refused_where_it_stands() {
    refused_at(
        "(\n  format: 2,\n  colour: \"red\",\n  vehicle: (kind: other),\n)",
        3,
        3,
        "there is no field `colour` in Survey: allowed are format, header, vehicle",
    );
    refused_at(
        "(\n  format: 2,\n  vehicle: (\n    kind: other,\n    width_m: 2.1,\n    lenght_m: 5,\n    height_m: 2,\n  ),\n)",
        6,
        5,
        "is `length_m` meant?",
    );
    refused_at(
        &with_gaps("    (id: 1, zone: 1, facing: rear, form: round_hole(diameter: 20))"),
        5,
        53,
        "there is no field `diameter` in round_hole: is `diameter_mm` meant?",
    );
    for (text, field) in [
        ("site: (wind: 1)", "wind"),
        ("targets: (x: 1)", "x"),
        ("tariffs: (x: 1)", "x"),
        ("header: (x: 1)", "x"),
        ("zones: [(id: 1, name: \"\", x: 1)]", "x"),
        ("weather: [(id: 1, x: 1)]", "x"),
        ("weather: [(id: 1, inside: held_at(x: 1))]", "x"),
        ("fabric: [(id: 1, x: 1)]", "x"),
        ("fabric: [(id: 1, build_up: stated(x: 1))]", "x"),
        ("fabric: [(id: 1, build_up: layers([(x: 1)]))]", "x"),
        ("fabric: [(id: 1, outline: (x: 1))]", "x"),
        ("appliances: [(id: 1, x: 1)]", "x"),
        ("machines: [(id: 1, x: 1)]", "x"),
        ("machines: [(id: 1, points: [(x: 1)])]", "x"),
        ("heaters: [(id: 1, x: 1)]", "x"),
        ("fans: [(id: 1, x: 1)]", "x"),
        ("sources: [(id: 1, x: 1)]", "x"),
        ("gaps: [(id: 1, x: 1)]", "x"),
        ("gaps: [(id: 1, position: (x: 1))]", "x"),
        ("gaps: [(id: 1, closing: (x: 1))]", "x"),
        ("gaps: [(id: 1, behind: opening(x: 1))]", "x"),
        ("gaps: [(id: 1, remedy: (x: 1))]", "x"),
    ] {
        let start = "(format: 2, vehicle: (kind: other),\n";
        let column = 1 + text.find(&format!("{field}: 1")).unwrap();
        let sentence = format!("there is no field `{field}` in ");
        refused_at(&format!("{start}{text})"), 2, column, &sentence);
    }
}

#[test]
fn an_unknown_word_is_refused_where_it_stands() {
    refused_at(
        "(\n  format: 2,\n  vehicle: (kind: panel_vam),\n)",
        3,
        19,
        "`panel_vam` is none of the words allowed here: is `panel_van` meant?",
    );
    refused_at(
        &with_gaps("    (id: 1, zone: 1, facing: upwards, form: round_hole())"),
        5,
        30,
        "allowed are front, rear, nearside, offside, roof, underfloor, engine_bay",
    );
}

#[test]
fn a_missing_field_and_a_field_that_stands_twice_are_named() {
    refused_at(
        &with_gaps("    (id: 1, zone: 1, form: round_hole())"),
        5,
        40,
        "the field `facing` in Gap is missing before this place",
    );
    refused_at(
        "(format: 2)",
        1,
        11,
        "the field `vehicle` in Survey is missing",
    );
    refused_at(
        "(format: 2, vehicle: (kind: other, kind: other))",
        1,
        36,
        "the field `kind` in Vehicle stands twice",
    );
}

#[test]
fn numbers_that_are_not_finite_are_refused_where_they_stand() {
    for (word, column) in [
        ("NaN", 16),
        ("-NaN", 17),
        ("inf", 16),
        ("-inf", 17),
        ("1e999", 18),
        ("-1e999", 19),
        ("inff64", 19),
        ("NaNf64", 19),
        ("Some(NaN)", 21),
    ] {
        let text = format!(
            "(\n  format: 2,\n  vehicle: (\n    kind: other,\n    width_m: {word},\n  ),\n)"
        );
        let column_of_end = column + 1;
        let wrong = parse(&text).unwrap_err();
        let ParseError::Wrong { line, column, what } = &wrong else {
            panic!("{wrong:?}");
        };
        assert_eq!(*line, 5, "{wrong}");
        assert!((14..=column_of_end).contains(column), "{wrong}");
        assert!(what.starts_with("this number is not finite"), "{wrong}");
    }
}

#[test]
fn the_wrong_kind_of_value_is_refused() {
    let vehicle = |field: &str| format!("(format: 2, vehicle: (kind: other, {field}))");
    refused_at(
        &vehicle("width_m: \"2\""),
        1,
        45,
        "a number must stand here",
    );
    refused_at(&vehicle("berths: -2"), 1, 46, "whole number from 0");
    refused_at(&vehicle("berths: 5000000000"), 1, 54, "whole number from 0");
    refused_at(
        &vehicle("underfloor_by_place: yes"),
        1,
        57,
        "`true` or `false`",
    );
    refused_at(
        &with_gaps("    (id: 1, zone: 1, facing: rear, form: round_hole(), name: 5)"),
        5,
        62,
        "a text in double quotes",
    );
    refused_at(
        "(format: 2, vehicle: (kind: other), gaps: 3)",
        1,
        43,
        "a list",
    );
    refused_at(
        "(format: 2,\n vehicle: (kind: other)\n gaps: [])",
        3,
        2,
        "a comma is missing before this place",
    );
    refused_at(
        "(format: 2, vehicle: (kind: other)) (",
        1,
        37,
        "after the end",
    );
}

#[test]
fn formats_that_are_not_known_are_refused_before_anything_else() {
    let newer = parse("(format: 7, engine: turbo(1), gaps: 12)").unwrap_err();
    assert_eq!(newer, ParseError::NewerFormat { format: 7 });
    assert_eq!(
        newer.to_string(),
        "this file is format 7; this program reads up to 2: get a newer Gapledger"
    );
    assert_eq!(
        parse("(format: 3, vehicle: (kind: other))").unwrap_err(),
        ParseError::NewerFormat { format: 3 }
    );
    assert_eq!(
        parse("(format: 0, vehicle: (kind: other))").unwrap_err(),
        ParseError::UnknownFormat { format: 0 }
    );
    for text in [
        "(vehicle: (kind: other))",
        "()",
        "hello",
        "[1, 2]",
        "{}",
        "\"text\"",
    ] {
        assert_eq!(parse(text).unwrap_err(), ParseError::NoFormat, "{text}");
    }
    refused_at("(format: \"1\")", 1, 10, "whole number");
    for text in ["", " \n\t", "\u{feff}"] {
        assert_eq!(parse(text).unwrap_err(), ParseError::Empty, "{text:?}");
    }
}

#[test]
fn bytes_that_are_not_text_are_refused_with_line_and_column() {
    let mut bytes = "(\n  format: 2,\n  header: (title: \"Grö"
        .as_bytes()
        .to_vec();
    bytes.push(0xff);
    bytes.extend(b"\"),\n)");
    // Three letters of the title, the second of two bytes, then the byte that is no letter.
    assert_eq!(
        parse_bytes(&bytes).unwrap_err(),
        ParseError::NotUtf8 {
            line: 3,
            column: 23
        }
    );
    assert!(matches!(
        parse_bytes(b"\x89PNG\r\n\x1a\n"),
        Err(ParseError::NotUtf8 { line: 1, column: 1 })
    ));
}

#[test]
fn an_id_that_stands_twice_is_refused() {
    let gap = "    (id: 3, zone: 1, facing: rear, form: round_hole()),";
    let text = with_gaps(&format!("{gap}\n{gap}"));
    let error = parse(&text).unwrap_err().to_string();
    assert!(error.contains("the gap that ends here has id 3"), "{error}");
    assert!(
        error.starts_with("line 6, column ") || error.starts_with("line 7, column "),
        "{error}"
    );
    for (list, word) in [
        ("zones: [(id: 1, name: \"\"), (id: 1, name: \"\")]", "zone"),
        (
            "weather: [(id: 1, wind_m_s: 0, outside_c: 0, outside_rh_percent: 9), (id: 1, wind_m_s: 0, outside_c: 0, outside_rh_percent: 9)]",
            "weather case",
        ),
        (
            "fabric: [(id: 1, part: wall, build_up: stated(), bridge_percent: 0), (id: 1, part: wall, build_up: stated(), bridge_percent: 0)]",
            "fabric element",
        ),
        (
            "appliances: [(id: 1, kind: hob, room_sealed: false), (id: 1, kind: hob, room_sealed: false)]",
            "appliance",
        ),
        (
            "machines: [(id: 1, kind: salt_tub), (id: 1, kind: salt_tub)]",
            "machine",
        ),
        (
            "heaters: [(id: 1, fuel: electricity), (id: 1, fuel: electricity)]",
            "heater",
        ),
        (
            "fans: [(id: 1, direction: supply, on_laid_up: true, on_in_use: true), (id: 1, direction: supply, on_laid_up: true, on_in_use: true)]",
            "fan",
        ),
        (
            "sources: [(id: 1, kind: cooking, hours_per_day: 1, laid_up: true, in_use: true), (id: 1, kind: cooking, hours_per_day: 1, laid_up: true, in_use: true)]",
            "moisture source",
        ),
    ] {
        let error = parse(&format!("(format: 2, vehicle: (kind: other), {list})")).unwrap_err();
        let part = format!("the {word} that ends here has id 1");
        assert!(error.to_string().contains(&part), "{error}");
    }
}

#[test]
fn a_gap_in_a_zone_that_is_not_listed_is_refused() {
    let text = with_gaps("    (id: 5, zone: 8, facing: rear, form: round_hole())");
    assert_eq!(
        parse(&text).unwrap_err(),
        ParseError::NoSuchZone { gap: 5, zone: 8 }
    );
    assert!(parse(&text.replace("zone: 8", "zone: 7")).is_ok());
}

#[test]
fn a_photo_name_that_leads_elsewhere_is_refused() {
    for name in [
        "../secret.jpg",
        "/etc/passwd",
        "a/b.jpg",
        "a\\\\b.jpg",
        "C:x.jpg",
        "..",
        ".",
        "",
        "a\\u{0}b",
        "line\\nend",
    ] {
        let gap = format!(
            "    (id: 1, zone: 1, facing: rear, form: round_hole(), photos: [(name: \"ok.jpg\"), (name: \"{name}\")])"
        );
        let error = parse(&with_gaps(&gap)).unwrap_err().to_string();
        assert!(
            error.contains("is not a plain file name"),
            "{name}: {error}"
        );
        assert!(error.starts_with("line 5, column "), "{error}");
    }
    let long = "x".repeat(256);
    let gap = |name: &str| {
        format!("(id: 1, zone: 1, facing: rear, form: round_hole(), photos: [(name: \"{name}\")])")
    };
    assert!(parse(&with_gaps(&gap(&long))).is_err());
    assert!(parse(&with_gaps(&gap(&long[1..]))).is_ok());
}

#[test]
fn there_may_be_5000_gaps_and_no_more() {
    let gaps = |count: usize| {
        let gaps: Vec<String> = (1..=count)
            .map(|id| format!("(id: {id}, zone: 1, facing: rear, form: round_hole())"))
            .collect();
        with_gaps(&gaps.join(",\n"))
    };
    assert_eq!(parse(&gaps(MOST_GAPS)).unwrap().gaps.len(), 5000);
    let error = parse(&gaps(MOST_GAPS + 1)).unwrap_err().to_string();
    assert!(error.contains("more than 5000 gaps"), "{error}");
    // The gaps start on line 5, so the one too many stands on line 5005.
    assert!(
        error.starts_with("line 5005, ") || error.starts_with("line 5006, "),
        "{error}"
    );
}

#[test]
fn a_word_without_end_is_repeated_in_sixty_letters() {
    let endless = "x".repeat(1_000_000);
    for text in [
        format!("(format: 2, {endless}: 1)"),
        format!("(format: 2, vehicle: (kind: {endless}))"),
        format!("(format: 2, vehicle: (kind: other), gaps: [(id: 1, zone: 5, facing: {endless})])"),
    ] {
        let refused = parse(&text).unwrap_err().to_string();
        assert!(refused.contains(&"x".repeat(60)), "{refused:.200}");
        assert!(!refused.contains(&"x".repeat(61)) && refused.len() < 1000);
    }
}

#[test]
fn signs_that_are_missing_are_told_in_plain_words() {
    for (text, part) in [
        (
            "(format: 2, vehicle (kind: other))",
            "a colon must stand here",
        ),
        ("(format: 2, r#1: 3)", ""),
        (
            "(format: 2, header: (title: \"\\q\"))",
            "two of them for one",
        ),
        ("(format: 2, vehicle: [])", "an opening bracket ("),
        (
            "(format: 2, vehicle: (kind: other) gaps: [])",
            "a comma is missing",
        ),
        ("(format: 2, header: (title: \"no end))", ""),
        ("(format: 2, vehicle: (kind: other, length_m: _5))", ""),
        ("(format: 2, 5: 3)", ""),
    ] {
        let refused = parse(text).unwrap_err().to_string();
        assert!(refused.contains(part), "{text}: {refused}");
        for jargon in [
            "Expected",
            "r#",
            "Rust",
            "identifier",
            "struct",
            "Option",
            "underscore at",
        ] {
            assert!(!refused.contains(jargon), "{text}: {refused}");
        }
    }
}

#[test]
fn a_survey_cut_anywhere_says_so_first() {
    let whole = include_str!("../../sample-surveys/farmyard-caravan.ron").trim_end();
    let mut told = 0;
    for (end, _) in whole.char_indices().skip(2000).step_by(997) {
        let cut = whole.get(..end).unwrap();
        let refused = parse(cut).unwrap_err().to_string();
        assert!(refused.contains("cut short"), "{end}: {refused}");
        assert!(refused.contains(".bak"), "{end}: {refused}");
        told += 1;
    }
    assert!(told > 10);
}

#[test]
fn decimals_where_a_whole_number_must_stand_are_told() {
    for text in [
        "(format: 2.0, vehicle: (kind: other))".to_owned(),
        with_gaps("    (id: 1.5, zone: 1, facing: rear, form: round_hole())"),
    ] {
        let refused = parse(&text).unwrap_err().to_string();
        assert!(
            refused.contains("a whole number must stand here"),
            "{refused}"
        );
    }
}
