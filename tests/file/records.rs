//! What was written down in a survey reaches those who read the results with another program:
//! every field in `assess --json`, every field of a gap in the ledger as CSV.

use crate::headless::{OnDisk, hole, van};
use crate::known;
use gapledger::assess::Study;
use gapledger::sheet::csv::{ByteOrderMark, ledger, plan};
use gapledger::survey::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The description of the tables.
const COLUMNS: &str = include_str!("../../src/sheet/csv/columns.md");

/// Values by the name of their field.
type ByField = Vec<(String, Value)>;

/// Every `field: value` of a survey file whose value is a number, a text or a word.
fn in_the_file(text: &str) -> ByField {
    let mut found = Vec::new();
    let mut rest = text;
    let mut field: Option<String> = None;
    while let Some(first) = rest.chars().next() {
        let (token, value) = token(rest, first);
        rest = &rest[token.len()..];
        match (value, field.take()) {
            (Some(value), Some(name)) => found.push((name, value)),
            (Some(Value::String(word)), None) if rest.starts_with(':') => {
                rest = &rest[1..];
                field = Some(word);
            }
            // A space between the colon and the value.
            (None, Some(name)) if token.trim().is_empty() => field = Some(name),
            _ => {}
        }
    }
    found
}

/// The first token of the text, and its value if it has one.
fn token(text: &str, first: char) -> (&str, Option<Value>) {
    let until = |ends: fn(char) -> bool| text.find(ends).unwrap_or(text.len());
    if first == '"' {
        let mut escaped = false;
        let end = text[1..]
            .find(|letter| {
                let closes = letter == '"' && !escaped;
                escaped = letter == '\\' && !escaped;
                closes
            })
            .unwrap();
        let token = &text[..end + 2];
        return (token, Some(serde_json::from_str(token).unwrap()));
    }
    if first.is_ascii_digit() || first == '-' {
        let token = &text[..until(|c| !(c.is_ascii_digit() || matches!(c, '-' | '.')))];
        let number: f64 = token.parse().unwrap();
        return (token, Some(json!(number)));
    }
    if first.is_ascii_lowercase() {
        let token = &text[..until(|c| !(c.is_ascii_alphanumeric() || c == '_'))];
        let value = match token {
            "true" => json!(true),
            "false" => json!(false),
            word => json!(word),
        };
        return (token, Some(value));
    }
    (&text[..first.len_utf8()], None)
}

/// Every value of the JSON by its key.
fn in_the_json(key: &str, value: &Value, found: &mut ByField) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                in_the_json(key, value, found);
            }
        }
        Value::Array(values) => {
            for value in values {
                in_the_json(key, value, found);
            }
        }
        Value::Number(number) => found.push((key.to_owned(), json!(number.as_f64().unwrap()))),
        value => found.push((key.to_owned(), value.clone())),
    }
}

/// The frozen file holds every field and word of the format; each stands in the JSON under the
/// same name, but for a few that have longer ones there.
#[test]
fn every_value_of_the_survey_file_is_in_the_json() {
    let file = in_the_file(known::FILE);
    assert!(file.len() > 400, "only {} values were found", file.len());
    let survey = known::newest();
    // The wind of a weather case stands under a longer name; at a fan test it was taken beside the
    // vehicle, and the month's is that of a winter.
    let in_a_weather_case = |wind: &Value| {
        let mut cases = survey.weather.iter();
        cases.any(|case| json!(case.wind_m_s) == *wind)
    };
    let printed = OnDisk::new(&survey).json();
    let mut json = Vec::new();
    in_the_json("", &printed, &mut json);
    for (field, value) in file {
        let (key, value) = match (field.as_str(), value) {
            // The two layouts are numbered apart.
            ("format", _) => ("format", json!(2.0)),
            ("wind_m_s", value) if in_a_weather_case(&value) => ("wind_10m_m_s", value),
            // Of a weather case; a trial has a logger inside.
            ("inside", value) if value.is_string() => ("is", value),
            // `gap(5)` is `behind_gap`, `opening(…)` is `behind_opening`.
            ("behind", value) if value == "gap" => ("behind_gap", json!(5.0)),
            ("behind", value) if value == "opening" => ("free_area_mm2", json!(5000.0)),
            // `named(…)` is `zone_name`, `offset(…)` is `zone_ahead_s`.
            ("zone", value) if value == "named" => ("zone_name", json!("Europe/London")),
            ("zone", value) if value == "offset" => ("zone_ahead_s", json!(-3600.0)),
            ("ahead_s", value) => ("zone_ahead_s", value),
            ("name", value) if value == "Europe/London" => ("zone_name", value),
            (field, value) => (field, value),
        };
        assert!(
            json.iter()
                .any(|(other, held)| other == key && *held == value),
            "{field}: {value} is not in the JSON as {key}"
        );
    }
}

/// Values as they stand in the survey: what a reader of the file sees for himself.
#[test]
fn what_was_written_down_about_a_gap_is_in_the_json() {
    let json = OnDisk::new(&known::newest()).json();
    let gaps = json["gaps"].as_array().unwrap();
    let first = &gaps[0];
    assert_eq!(
        (&first["space"], &first["space_name"]),
        (&json!(2), &json!("cab"))
    );
    // The others name no space: they open into the first, the living space.
    assert_eq!(gaps[1]["space"], 1);
    assert_eq!(gaps[1]["space_name"], "living space");
    assert_eq!(first["photos"].as_array().unwrap().len(), 2);
    assert_eq!(
        first["photos"][0],
        json!({"name": "1.jpg", "caption": "", "marks": [], "after_work": false})
    );
    assert_eq!(
        first["photos"][1],
        json!({
            "name": "door seal.png",
            "caption": "lower corner, from inside",
            "marks": [
                {"kind": "circle", "across": 0.25, "down": 0.75, "radius": 0.08},
                {"kind": "arrow", "from_across": 0.5, "from_down": 0.2, "across": 0.3, "down": 0.7},
            ],
            "after_work": true,
        })
    );
    assert_eq!(first["damp"], "18 %");
    assert_eq!(first["note"], "felt a draught here");
    assert_eq!(
        (&first["along_m"], &first["across_m"]),
        (&json!(3.2), &json!(2.3))
    );
    assert_eq!(first["state_date"], "2031-02-04");
    assert_eq!(first["remedy"]["material_cost"], 4.2);
    assert_eq!(first["closing"], Value::Null);
    let closing = json!({"open_laid_up": true, "open_in_use": true, "leaves_percent": 2.5});
    assert_eq!(gaps[4]["closing"], closing);
    assert_eq!(gaps[9]["remedy"], Value::Null);
}

#[test]
fn without_spaces_a_gap_opens_into_none() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    let json = OnDisk::new(&survey).json();
    assert_eq!(json["gaps"][0]["space"], Value::Null);
    assert_eq!(json["gaps"][0]["space_name"], Value::Null);
    assert_eq!(json["spaces"], json!([]));
}

/// The lines of a table by the heads of its columns.
fn table(bytes: &[u8]) -> (Vec<String>, Vec<BTreeMap<String, String>>) {
    let mut reader = csv::Reader::from_reader(bytes);
    let heads: Vec<String> = reader
        .headers()
        .unwrap()
        .iter()
        .map(str::to_owned)
        .collect();
    let lines = reader
        .records()
        .map(|line| {
            let line = line.unwrap();
            let cells = line.iter().map(str::to_owned);
            heads.iter().cloned().zip(cells).collect()
        })
        .collect();
    (heads, lines)
}

#[test]
fn the_ledger_as_csv_says_which_space_a_gap_opens_into() {
    let mut survey = known::newest();
    survey.spaces.push(Space {
        id: SpaceId(7),
        name: " ".to_owned(),
        volume_m3: None,
        warmer_by_k: 0.0,
    });
    survey.gaps[2].space = Some(SpaceId(7));
    let written = ledger(&Study::of(&survey), ByteOrderMark::Without).unwrap();
    let (_, lines) = table(&written);
    let spaces: Vec<&str> = lines.iter().map(|line| line["space"].as_str()).collect();
    assert_eq!(
        spaces[..4],
        ["cab", "living space", "space 7", "living space"]
    );
    assert_eq!(lines[0]["photos"], "1.jpg; door seal.png");
    assert_eq!(lines[0]["photo_captions"], "; lower corner, from inside");
    survey.spaces.clear();
    survey.gaps.truncate(2);
    survey.gaps[0].space = None;
    let written = ledger(&Study::of(&survey), ByteOrderMark::Without).unwrap();
    assert!(
        table(&written)
            .1
            .iter()
            .all(|line| line["space"].is_empty())
    );
}

/// The heads in the table that begins behind these words.
fn documented(begins: &str) -> Vec<&'static str> {
    let table = &COLUMNS[COLUMNS.find(begins).unwrap()..];
    table
        .lines()
        .skip_while(|line| !line.starts_with('|'))
        .take_while(|line| line.starts_with('|'))
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next())
        .collect()
}

#[test]
fn every_column_of_both_tables_is_described_in_its_order() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    let written = ledger(&Study::of(&survey), ByteOrderMark::Without).unwrap();
    assert_eq!(table(&written).0, documented("The ledger:"));
    let written = plan(&Study::of(&survey), ByteOrderMark::Without).unwrap();
    assert_eq!(table(&written).0, documented("The plan;"));
}
