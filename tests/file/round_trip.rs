//! What is printed is parsed back, to the last bit.

use crate::invented::any_survey;
use crate::known;
use gapledger::survey::file::{parse, print};
use gapledger::survey::{Survey, VehicleKind};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_survey_comes_back_as_it_was(survey in any_survey()) {
        let text = print(&survey);
        let back = parse(&text).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(&back, &survey);
        prop_assert_eq!(print(&back), text);
        // Equality takes 0 and −0 for the same; this does not.
        prop_assert_eq!(format!("{back:?}"), format!("{survey:?}"));
    }
}

#[test]
fn the_file_of_each_format_gives_the_known_survey() {
    for (file, expected) in [
        (known::FORMAT_1, known::survey()),
        (known::FILE, known::newest()),
    ] {
        let survey = parse(file).unwrap();
        // First the parts, so that a failure shows where it is.
        assert_eq!(survey.header, expected.header);
        assert_eq!(survey.vehicle, expected.vehicle);
        for (gap, expected) in survey.gaps.iter().zip(&expected.gaps) {
            assert_eq!(gap, expected);
        }
        assert_eq!(survey, expected);
    }
}

/// `GAPLEDGER_WRITE_FILE=1` writes the file anew while its format is open: read what changed.
#[test]
fn printing_the_known_survey_gives_the_file_byte_for_byte() {
    let printed = print(&known::newest());
    if std::env::var_os("GAPLEDGER_WRITE_FILE").is_some() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/file/format-2.ron");
        return std::fs::write(path, printed).unwrap();
    }
    assert_eq!(printed, known::FILE);
}

#[test]
fn a_file_of_format_1_is_written_as_format_2_and_stays_the_same_survey() {
    let survey = parse(known::FORMAT_1).unwrap();
    let printed = print(&survey);
    let start = "// Gapledger survey\n#![enable(implicit_some)]\n(\n  format: 2,\n";
    assert!(printed.starts_with(start), "{printed}");
    assert_eq!(parse(&printed).unwrap(), survey);
}

/// What came with format 2, each as a file could hold it: a field, or a word of an older field.
const NEW_IN_FORMAT_2: &[(&str, &str)] = &[
    ("fittings", "vehicle: (kind: other), fittings: []"),
    ("job", "vehicle: (kind: other), job: (customer: \"Nobody\")"),
    ("stay", "vehicle: (kind: other), stay: (covered: true)"),
    (
        "fan_tests",
        "vehicle: (kind: other), fan_tests: [(id: 1, tested: as_found, set_up: in_use)]",
    ),
    (
        "air_tests",
        "vehicle: (kind: other), air_tests: [(id: 1, by: gas, tested: as_found, set_up: in_use)]",
    ),
    ("calibrated", "vehicle: (kind: other), calibrated: false"),
    (
        "series",
        "vehicle: (kind: other), series: [(id: 1, hung: inside, file: \"a.csv\", mapping: (encoding: utf_8, separator: comma, decimal: point, lines_before: 0, columns: []))]",
    ),
    (
        "trials",
        "vehicle: (kind: other), trials: [(id: 1, outside_from: cases)]",
    ),
    ("usual", "vehicle: (kind: other), usual: (altitude: true)"),
    (
        "most_pressure_pa",
        "vehicle: (kind: other), fans: [(id: 1, direction: supply, most_pressure_pa: 80, on_laid_up: true, on_in_use: true)]",
    ),
    (
        "code_of_practice",
        "vehicle: (kind: other, code_of_practice: as_nzs_5601_2)",
    ),
    ("underside", "vehicle: (kind: other, underside: open)"),
    (
        "skirt_free_area_mm2",
        "vehicle: (kind: other, skirt_free_area_mm2: 900)",
    ),
    (
        "underfloor_by_place",
        "vehicle: (kind: other, underfloor_by_place: true)",
    ),
    (
        "vehicle_body",
        "vehicle: (kind: other), site: (pressure_set: vehicle_body)",
    ),
    (
        "input_mj_per_h",
        "vehicle: (kind: other), appliances: [(id: 1, kind: hob, room_sealed: false, input_mj_per_h: 9)]",
    ),
    (
        "part",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), part: hole)]",
    ),
    (
        "purpose_confirmed",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), purpose_confirmed: true)]",
    ),
    (
        "purpose_was",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), purpose_was: drain)]",
    ),
    (
        "not_said",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), purpose: not_said)]",
    ),
    (
        "trap",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), remedy: (kind: trap))]",
    ),
    (
        "appliances_confirmed",
        "vehicle: (kind: other), appliances_confirmed: true",
    ),
    (
        "tub_l",
        "vehicle: (kind: other), machines: [(id: 1, kind: salt_tub, tub_l: 2)]",
    ),
    (
        "price",
        "vehicle: (kind: other), heaters: [(id: 1, fuel: electricity, price: 60)]",
    ),
    (
        "upkeep_per_month",
        "vehicle: (kind: other), machines: [(id: 1, kind: salt_tub, upkeep_per_month: 3)]",
    ),
    (
        "owned",
        "vehicle: (kind: other), machines: [(id: 1, kind: compressor, owned: true)]",
    ),
    (
        "material_tax_percent",
        "vehicle: (kind: other), tariffs: (material_tax_percent: 7)",
    ),
    (
        "after_work",
        "vehicle: (kind: other), gaps: [(id: 1, zone: 1, facing: rear, form: round_hole(), photos: [(name: \"a.jpg\", after_work: true)])]",
    ),
    (
        "walk",
        "vehicle: (kind: other), walk: [(station: \"roof\", place: \"aerial\", outcome: nothing)]",
    ),
];

#[test]
fn what_came_with_format_2_is_refused_in_format_1() {
    for (name, fields) in NEW_IN_FORMAT_2 {
        let of = |format: u32| format!("(format: {format}, {fields})");
        parse(&of(2)).unwrap();
        let refused = parse(&of(1)).unwrap_err().to_string();
        assert!(refused.contains(&format!("`{name}`")), "{refused}");
    }
}

#[test]
fn the_shortest_file_is_a_new_survey() {
    let read =
        |format: u32| parse(&format!("(format: {format}, vehicle: (kind: coach_built))")).unwrap();
    let mut new = Survey::new(VehicleKind::CoachBuilt);
    assert_eq!(read(2), new);
    // What a file of format 1 left out is what it was, whatever a new survey starts with.
    for case in &mut new.weather {
        (case.outside_c, case.outside_rh_percent) = (5.0, 87.0);
    }
    assert_eq!(read(1), new);
}

#[test]
fn empty_lists_stay_empty() {
    let text = "(format: 2, vehicle: (kind: other), zones: [], weather: [])";
    let survey = parse(text).unwrap();
    assert!(survey.zones.is_empty() && survey.weather.is_empty());
    assert_eq!(parse(&print(&survey)).unwrap(), survey);
}

#[test]
fn other_ways_to_write_the_same_are_read() {
    let survey = parse("(format: 2, vehicle: (kind: other, length_m: 5.2))").unwrap();
    for text in [
        // With the line that says so, and `Some` all the same.
        "#![enable(implicit_some)]\n(format: 2, vehicle: (kind: other, length_m: Some(5.2)))",
        // Windows line ends, a byte order mark, comments, a trailing comma, another order.
        "\u{feff}(\r\n  vehicle: (length_m: 5.2e0, kind: other, width_m: None), // says the owner\r\n  /* one */ format: 2,\r\n)\r\n",
    ] {
        assert_eq!(parse(text).unwrap(), survey, "{text}");
    }
}

#[test]
fn every_truncation_is_refused_unless_only_white_space_is_lost() {
    let text = format!("{}  \n\n", known::FILE);
    let whole = parse(&text).unwrap();
    let end = text.trim_end().len();
    for length in 0..=text.len() {
        let parsed = gapledger::survey::file::parse_bytes(&text.as_bytes()[..length]);
        match parsed {
            Ok(survey) => {
                assert!(
                    length >= end,
                    "cut after {length} of {end} bytes and still read"
                );
                assert_eq!(survey, whole);
            }
            Err(error) => {
                assert!(length < end, "only white space lost, but: {error}");
                assert!(error.to_string().len() > 20, "no sentence: {error}");
            }
        }
    }
}

#[test]
fn texts_are_written_as_they_are_read_and_hidden_letters_as_escapes() {
    let mut survey = Survey::new(VehicleKind::Other);
    survey.header.note = "driver's \"Größe\"\n\u{202e}\u{200b}\u{7}\\".to_owned();
    let text = print(&survey);
    let expected = r#"note: "driver's \"Größe\"\n\u{202e}\u{200b}\u{7}\\","#;
    assert!(text.contains(expected), "{text}");
    assert_eq!(parse(&text).unwrap(), survey);
}
