//! The description of the survey file says what the program does.

use crate::known;
use gapledger::assess::{SafetyVerdict, assess};
use gapledger::survey::file::parse;
use gapledger::survey::{
    Appliance, ApplianceId, ApplianceKind, CodeOfPractice, Field, Survey, VehicleKind,
};

/// The description of the file.
const FORMAT: &str = include_str!("../../src/survey/file/v2/format.md");

/// The examples in it.
fn examples() -> Vec<&'static str> {
    FORMAT
        .split("```ron\n")
        .skip(1)
        .map(|rest| &rest[..rest.find("```").unwrap()])
        .collect()
}

#[test]
fn the_examples_are_surveys() {
    let examples = examples();
    assert_eq!(examples.len(), 2);
    let short = parse(examples[0]).unwrap();
    assert_eq!(short.vehicle.kind, VehicleKind::TouringCaravan);
    assert_eq!(short.gaps.len(), 2);
    assert!(
        gapledger::survey::findings::find(&short)
            .iter()
            .all(|finding| finding.severity != gapledger::survey::Severity::Error)
    );
    let long = parse(examples[1]).unwrap();
    assert!(!long.fabric.is_empty() && !long.machines.is_empty());
}

/// Every field and word of the format that is in the frozen file.
fn names_in_the_file() -> Vec<String> {
    // Every second piece between quotes is text of the surveyor's.
    let (_, file) = known::FILE.split_once('\n').unwrap();
    let file = file.replace("\\\"", "");
    let mut names: Vec<String> = file
        .split('"')
        .step_by(2)
        .flat_map(|piece| piece.split(|c: char| !(c.is_ascii_alphanumeric() || c == '_')))
        .filter(|word| word.starts_with(|c: char| c.is_ascii_lowercase()))
        .filter(|word| !["enable", "implicit_some"].contains(word))
        .map(str::to_owned)
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

#[test]
fn every_field_and_word_of_the_frozen_file_is_explained() {
    let names = names_in_the_file();
    assert!(names.len() > 150, "{}", names.len());
    for name in names {
        assert!(
            FORMAT.contains(&format!("`{name}`")),
            "`{name}` is not explained"
        );
    }
}

#[test]
fn every_field_of_the_catalogue_is_one_of_the_file() {
    let names = names_in_the_file();
    for field in Field::all() {
        let name = field.file_key();
        assert!(
            names.iter().any(|one| one == name),
            "{field:?}: `{name}` is not in the frozen file"
        );
    }
}

#[test]
fn every_range_is_given_as_it_is_checked() {
    for (field, range) in Field::all().filter_map(|field| Some((field, field.range()?))) {
        let field = field.file_key();
        let bounds = format!("{} to {}", range.lowest, range.highest).replace('-', "−");
        assert!(
            FORMAT
                .lines()
                .any(|line| line.contains(&format!("`{field}`")) && line.contains(&bounds)),
            "`{field}` should be {bounds}"
        );
    }
}

#[test]
fn every_word_of_the_format_is_in_the_frozen_file() {
    // The words that the program offers, asked from it by a word that is none.
    let whole = |before: &str, word: &str, after: &str| {
        let vehicle = match before.starts_with("vehicle: ") {
            true => "",
            false => "vehicle: (kind: other), ",
        };
        format!("(format: 2, {vehicle}{before}{word}{after})")
    };
    let words = |before: &str, after: &str| -> Vec<String> {
        let text = whole(before, "zzzzzzzz", after);
        let error = parse(&text).unwrap_err().to_string();
        let list = error
            .split("allowed are ")
            .nth(1)
            .unwrap_or_else(|| panic!("{error}"));
        list.split(", ").map(str::to_owned).collect()
    };
    let in_file = names_in_the_file();
    let mut seen = 0;
    for (before, after) in [
        ("set_up: ", ""),
        ("gaps: [(facing: ", ")]"),
        ("gaps: [(form: ", ")]"),
        ("gaps: [(form: grille(material: ", "))]"),
        ("gaps: [(form: stated_area(convention: ", "))]"),
        ("gaps: [(purpose: ", ")]"),
        ("gaps: [(leads_to: ", ")]"),
        ("gaps: [(behind: ", ")]"),
        ("gaps: [(certainty: ", ")]"),
        ("gaps: [(remedy: (kind: ", "))]"),
        ("gaps: [(remedy: (cost_basis: ", "))]"),
        ("gaps: [(state: ", ")]"),
        ("weather: [(inside: ", ")]"),
        ("fabric: [(part: ", ")]"),
        ("fabric: [(build_up: ", ")]"),
        ("appliances: [(kind: ", ")]"),
        ("machines: [(kind: ", ")]"),
        ("heaters: [(fuel: ", ")]"),
        ("fans: [(direction: ", ")]"),
        ("sources: [(kind: ", ")]"),
    ] {
        for word in words(before, after) {
            assert!(in_file.contains(&word), "{word} is not in the frozen file");
            seen += 1;
        }
    }
    assert!(seen > 80, "{seen}");
    // One vehicle has one kind, terrain and shelter; these words stand in the description.
    for (before, after) in [
        ("vehicle: (kind: ", ")"),
        ("vehicle: (kind: other, code_of_practice: ", ")"),
        ("site: (terrain: ", ")"),
        ("site: (shelter: ", ")"),
        ("site: (pressure_set: ", ")"),
    ] {
        for word in words(before, after) {
            assert!(FORMAT.contains(&format!("`{word}`")), "{word}");
            parse(&whole(before, &word, after)).unwrap();
        }
    }
}

/// The right-hand cell of a result's row in the table of what each needs.
fn needs(result: &str) -> &'static str {
    let start = format!("| {result} | ");
    let row = FORMAT.lines().find(|line| line.starts_with(&start));
    &row.unwrap_or_else(|| panic!("no row {start}"))[start.len()..]
}

/// Whether a field is named in a result's row, or in that of a result named there.
fn is_needed(result: &str, field: &str) -> bool {
    let row = needs(result);
    let through = ["air flow in weather", "heat through the fabric"];
    row.contains(&format!("`{field}`"))
        || through
            .into_iter()
            .any(|other| other != result && row.contains(other) && is_needed(other, field))
}

#[test]
fn a_result_needs_the_fields_that_it_is_said_to_need() {
    // With the set that needs length and width, so that every row holds as it stands.
    let text = examples()[1].replace(
        "terrain: open_flat,",
        "terrain: open_flat, pressure_set: wall_average,",
    );
    let mut survey = parse(&text).unwrap();
    survey.vehicle = parse(examples()[0]).unwrap().vehicle;
    survey.vehicle.volume_m3 = Some(20.0);
    (
        survey.vehicle.inside_length_m,
        survey.vehicle.inside_width_m,
    ) = (None, None);
    survey.gaps = parse(examples()[0]).unwrap().gaps;
    survey.appliances_confirmed = true;
    survey.appliances = vec![Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::Hob,
        name: String::new(),
        room_sealed: false,
        input_mj_per_h: Some(20.0),
    }];
    let known = |survey: &Survey| {
        let found = assess(survey);
        let case = &found.cases[0];
        let ach = case.air.clone().and_then(|air| air.mean_ach_per_h);
        let leakage = &found.leakage;
        [
            ("leakage areas and flows at a pressure", leakage.all.is_ok()),
            ("air changes at 50 Pa (n50)", leakage.n50_per_h.is_ok()),
            (
                "leakage for each m² of envelope",
                leakage.q50_per_envelope_m3_per_h_m2.is_ok(),
            ),
            ("air flow in weather", case.air.is_ok()),
            ("air changes an hour", ach.is_ok()),
            ("heat through the fabric", found.fabric.is_ok()),
            (
                "safety ventilation",
                !matches!(found.safety.verdict, SafetyVerdict::NotKnown(_)),
            ),
        ]
    };
    for (result, known) in known(&survey) {
        assert!(known, "{result}");
    }
    type LeaveOut = fn(&mut Survey);
    let fields: [(&str, LeaveOut); 8] = [
        ("length_m", |survey| survey.vehicle.length_m = None),
        ("width_m", |survey| survey.vehicle.width_m = None),
        ("height_m", |survey| survey.vehicle.height_m = None),
        ("floor_height_m", |survey| {
            survey.vehicle.floor_height_m = None
        }),
        ("volume_m3", |survey| survey.vehicle.volume_m3 = None),
        ("area_m2", |survey| survey.fabric[0].area_m2 = None),
        ("appliances_confirmed", |survey| {
            survey.appliances_confirmed = false
        }),
        ("berths", |survey| survey.vehicle.berths = 0),
    ];
    for (field, leave_out) in fields {
        let mut without = survey.clone();
        leave_out(&mut without);
        for (result, known) in known(&without) {
            assert_eq!(known, !is_needed(result, field), "{result} without {field}");
        }
    }
    survey.vehicle.code_of_practice = CodeOfPractice::AsNzs5601;
    survey.vehicle.length_m = None;
    assert!(known(&survey)[6].1);
    survey.appliances[0].input_mj_per_h = None;
    assert!(!known(&survey)[6].1 && is_needed("safety ventilation", "input_mj_per_h"));
}
