//! `gapledger winter`: what it prints and writes, and what it says of a weather file that is wrong.

use crate::headless::{OnDisk, Run, run};
use gapledger::climate::epw;
use gapledger::headless::{Command, Outcome, WinterArguments, WinterWord};
use gapledger::survey::{Survey, TypicalWinter, VehicleKind, file};
use std::fs;
use std::path::PathBuf;

const CARAVAN: &str = include_str!("../../sample-surveys/farmyard-caravan.ron");

fn winter(on_disk: &OnDisk, weather: Option<PathBuf>, output: Option<PathBuf>) -> Run {
    run(Command::Winter(WinterArguments {
        weather,
        output,
        ..WinterArguments::of(on_disk.file())
    }))
}

#[test]
fn a_winter_is_printed_and_its_hours_are_written() {
    let mut survey = file::parse(CARAVAN).unwrap();
    // Fewer machines and gaps, to be quicker.
    survey.machines.clear();
    survey.gaps.truncate(12);
    let on_disk = OnDisk::new(&survey);
    let output = on_disk.file().with_file_name("hours.csv");
    let found = winter(&on_disk, None, Some(output.clone()));
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    for words in [
        "The winter hour by hour",
        "mild maritime: 3624 hours",
        "assumed",
        "Every option through the winter",
        "Nothing",
        "Draining pipes, pump, boiler and tanks is the first advice",
        "Mould",
        "[A]",
    ] {
        // Headings are printed in capitals.
        let printed = found.out.to_uppercase();
        assert!(
            printed.contains(&words.to_uppercase()),
            "{words}\n{}",
            found.out
        );
    }
    let written = fs::read_to_string(&output).unwrap();
    let mut table = csv::Reader::from_reader(written.as_bytes());
    let heads: Vec<String> = table.headers().unwrap().iter().map(str::to_owned).collect();
    let columns = include_str!("../../src/sheet/csv/columns.md");
    let begins = columns.find("The hours of a winter").unwrap();
    let documented: Vec<&str> = columns[begins..]
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next())
        .collect();
    assert_eq!(heads, documented);
    let rows = table.records().count();
    assert!(rows >= 2 * 3624 && rows.is_multiple_of(3624), "{rows}");
}

#[test]
fn a_weather_file_that_is_wrong_is_refused_by_line_and_column_and_the_survey_stays() {
    let on_disk = OnDisk::new(&file::parse(CARAVAN).unwrap());
    let before = fs::read(on_disk.file()).unwrap();
    let weather = on_disk.file().with_file_name("weather.epw");
    let whole = epw::write(&gapledger::assess::winter::invented(TypicalWinter::Alpine));
    let cut: String = whole
        .lines()
        .take(500)
        .flat_map(|line| [line, "\n"])
        .collect();
    for (text, words) in [
        (cut, "line 501: the file is cut short"),
        (
            "not weather".to_owned(),
            "line 1: a weather file of building simulation (EPW) has \u{201c}LOCATION\u{201d} here",
        ),
        (String::new(), "line 1: the file is empty"),
    ] {
        fs::write(&weather, text).unwrap();
        let found = winter(&on_disk, Some(weather.clone()), None);
        assert_eq!(found.outcome, Outcome::Failed);
        assert!(found.errors.contains(words), "{}", found.errors);
        assert!(found.out.is_empty());
    }
    fs::remove_file(&weather).unwrap();
    let missing = winter(&on_disk, Some(weather), None);
    assert!(
        missing.errors.contains("there is no weather file"),
        "{}",
        missing.errors
    );
    let folder = on_disk.file().parent().unwrap().to_owned();
    let not_a_file = winter(&on_disk, Some(folder), None);
    assert!(
        not_a_file.errors.contains("ordinary file"),
        "{}",
        not_a_file.errors
    );
    assert_eq!(fs::read(on_disk.file()).unwrap(), before);
}

#[test]
fn a_vehicle_without_walls_has_no_winter_and_hears_why() {
    let on_disk = OnDisk::new(&Survey::starting(VehicleKind::PanelVan));
    let found = winter(&on_disk, None, None);
    assert_eq!(found.outcome, Outcome::Failed);
    assert!(
        found.errors.contains("the winter is not known"),
        "{}",
        found.errors
    );
}

#[test]
fn every_typical_winter_can_be_named() {
    use clap::ValueEnum;
    let named: Vec<TypicalWinter> = WinterWord::value_variants()
        .iter()
        .map(|word| TypicalWinter::from(*word))
        .collect();
    assert_eq!(named, TypicalWinter::ALL);
}
