//! `gapledger winter`: what it prints and writes, and what it says of a weather file that is wrong.

use crate::headless::{OnDisk, Run, run};
use crate::sheet::{arguments, letters, text};
use gapledger::climate::epw;
use gapledger::headless::{Command, Outcome, WinterArguments, WinterWord};
use gapledger::survey::{
    Hung, LoggerSeries, Moment, Period, PeriodId, Ran, SeriesId, Survey, Trial, TrialId,
    TypicalWinter, VehicleKind, WorkState, file,
};
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
        "mild maritime, 1 November to 31 March: 3624 hours",
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
    let table_of_hours = columns[begins..]
        .split("The readings of a trial")
        .next()
        .unwrap();
    let documented: Vec<&str> = table_of_hours
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
    // Two years mixed within a month: no station wrote that, and no typical year is put together so.
    let mixed = whole.replacen("\n2023,1,20,", "\n2019,1,20,", 24);
    for (text, words) in [
        (cut, "line 501: the file is cut short"),
        (
            mixed,
            "line 465, column 1: the year changes from 2023 to 2019 within January: two years are mixed",
        ),
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
fn months_of_several_years_are_a_winter_and_the_page_says_so() {
    const SAID: &str = "The months of the weather file are from several years";
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.machines.clear();
    survey.gaps.truncate(6);
    survey.stay.season_first = "01-25".into();
    survey.stay.season_last = "02-07".into();
    let on_disk = OnDisk::new(&survey);
    let weather = on_disk.path("typical.epw");
    let of_one = epw::write(&gapledger::assess::winter::invented(TypicalWinter::Alpine));
    let of_two = of_one.replace("\n2023,2,", "\n1998,2,");
    for (text, says) in [(of_one, false), (of_two, true)] {
        fs::write(&weather, text).unwrap();
        let found = winter(&on_disk, Some(weather.clone()), None);
        assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
        let page = found.out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(page.contains(SAID), says, "{page}");
    }
}

/// What a weather file leaves out is said, where it counts.
#[test]
fn a_weather_file_without_wind_directions_or_with_gaps_says_so() {
    const NO_DIRECTION: &str = "does not say where the wind comes from";
    const FILLED: &str = "the weather leaves something out";
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.machines.clear();
    survey.gaps.truncate(6);
    survey.site.heading_deg = Some(90.0);
    survey.stay.season_first = "01-25".into();
    survey.stay.season_last = "02-07".into();
    let on_disk = OnDisk::new(&survey);
    let weather = on_disk.path("gaps.epw");
    let whole = gapledger::assess::winter::invented(TypicalWinter::Alpine);
    let (mut no_direction, mut gaps) = (whole.clone(), whole.clone());
    for hour in &mut no_direction.hours {
        hour.wind_from_deg = None;
    }
    for hour in gaps.hours.iter_mut().step_by(7) {
        hour.t_c = None;
    }
    for (made, says) in [
        (whole, [false, false]),
        (no_direction, [true, false]),
        (gaps, [false, true]),
    ] {
        fs::write(&weather, epw::write(&made)).unwrap();
        let found = winter(&on_disk, Some(weather.clone()), None);
        assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
        let page = found.out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(
            [NO_DIRECTION, FILLED].map(|words| page.contains(words)),
            says,
            "{page}"
        );
    }
}

/// A winter as a weather service would write it, with the columns that are named.
fn service(columns: &[&str]) -> String {
    let weather = gapledger::assess::winter::invented(TypicalWinter::Alpine);
    let mut text = format!("time,{}\n", columns.join(","));
    for hour in &weather.hours {
        let (day, o_clock) = match hour.hour {
            24 => (hour.day.next(), 0),
            other => (hour.day, other),
        };
        let (year, month, day) = (day.year, day.month, day.day);
        text += &format!("{year}-{month:02}-{day:02}T{o_clock:02}:00");
        for column in columns {
            let value = match *column {
                "temperature (°C)" => hour.t_c,
                "relative humidity (%)" => hour.rh.map(|rh| rh * 100.0),
                "wind speed (m/s)" => hour.wind,
                "wind direction (°)" => hour.wind_from_deg,
                "global radiation (W/m²)" => hour.global,
                "diffuse radiation (W/m²)" => hour.diffuse,
                _ => hour.cloud.map(|cloud| cloud * 100.0),
            };
            text += &format!(",{:.2}", value.unwrap());
        }
        text += "\n";
    }
    text
}

const SERVICE: [&str; 7] = [
    "temperature (°C)",
    "relative humidity (%)",
    "wind speed (m/s)",
    "wind direction (°)",
    "global radiation (W/m²)",
    "diffuse radiation (W/m²)",
    "cloud cover (%)",
];

#[test]
fn rows_of_a_service_are_a_winter_whose_clock_counts_as_the_suns_and_says_so() {
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.machines.clear();
    survey.gaps.truncate(6);
    survey.stay.latitude_deg = Some(47.0);
    survey.stay.season_first = "01-10".into();
    survey.stay.season_last = "01-23".into();
    let on_disk = OnDisk::new(&survey);
    let weather = on_disk.file().with_file_name("service.csv");
    fs::write(&weather, service(&SERVICE)).unwrap();
    let found = winter(&on_disk, Some(weather.clone()), None);
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    let words = |found: &Run| found.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words(&found).contains("it counts as the sun's [A]"),
        "{}",
        found.out
    );
    let made = gapledger::assess::winter::invented(TypicalWinter::Alpine);
    let epw = on_disk.file().with_file_name("hours.epw");
    fs::write(&epw, epw::write(&made)).unwrap();
    let found = winter(&on_disk, Some(epw), None);
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    assert!(
        !words(&found).contains("counts as the sun's"),
        "{}",
        found.out
    );
    // What the rows lack is told; nothing stands in for it.
    for (lacking, sentence) in [
        ("wind speed (m/s)", "the weather has no wind"),
        ("relative humidity (%)", "the weather has no humidity"),
        ("temperature (°C)", "the weather has no temperature"),
        ("diffuse radiation (W/m²)", "the weather has no sun"),
        (
            "cloud cover (%)",
            "the weather has no infrared of the sky and no clouds either",
        ),
    ] {
        let rest: Vec<&str> = SERVICE.into_iter().filter(|own| *own != lacking).collect();
        fs::write(&weather, service(&rest)).unwrap();
        let found = winter(&on_disk, Some(weather.clone()), None);
        assert_eq!(found.outcome, Outcome::Failed, "{lacking}");
        assert!(
            found.errors.contains(sentence),
            "{lacking}: {}",
            found.errors
        );
    }
}

/// The caravan with a short winter by a weather file, and a trial: loggers outside, and 1 K warmer
/// inside, through six days of that weather, of which nobody says what ran through the last.
pub(crate) fn measured() -> OnDisk {
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.machines.clear();
    survey.gaps.truncate(12);
    survey.stay.weather_file = "hours.epw".into();
    survey.stay.season_first = "12-01".into();
    survey.stay.season_last = "12-14".into();
    let on_disk = OnDisk::new(&survey);
    let weather = gapledger::assess::winter::invented(TypicalWinter::MildMaritime);
    fs::write(on_disk.path("hours.epw"), epw::write(&weather)).unwrap();
    let folder = file::data_folder(&on_disk.file());
    fs::create_dir_all(&folder).unwrap();
    let kept = |warmer: f64, id: u32, hung: Hung| {
        let mut text = String::from("time;t °C;rh %\n");
        let days = |hour: &&gapledger::climate::Hour| {
            hour.day.month == 12 && (2..=7).contains(&hour.day.day)
        };
        for hour in weather.hours.iter().filter(days) {
            let day = hour.day;
            text += &format!(
                "{}-{:02}-{:02} {:02}:30;{:.2};{:.1}\n",
                day.year,
                day.month,
                day.day,
                hour.hour - 1,
                hour.t_c.unwrap() + warmer,
                hour.rh.unwrap() * 93.0
            );
        }
        let mapping = gapledger::series::guess(text.as_bytes()).unwrap().mapping;
        let name = file::keep_data(&folder, text.as_bytes(), "logger.csv").unwrap();
        LoggerSeries::new(SeriesId(id), hung, name, mapping)
    };
    survey.series = vec![kept(1.0, 1, Hung::Inside), kept(0.0, 2, Hung::Outside)];
    let mut trial = Trial::new(TrialId(1));
    (trial.inside, trial.outside) = (Some(SeriesId(1)), Some(SeriesId(2)));
    let period = |number: u32, ran: Ran, from: &str, to: &str| Period {
        ran,
        ..Period::new(PeriodId(number), Moment::parse(from), Moment::parse(to))
    };
    trial.periods = vec![
        period(1, Ran::Nothing, "2023-12-02 00:00", "2023-12-06 00:00"),
        period(2, Ran::NotSaid, "2023-12-06 00:00", "2023-12-08 00:00"),
    ];
    survey.trials = vec![trial];
    fs::write(on_disk.file(), file::print(&survey)).unwrap();
    on_disk
}

#[test]
fn the_calculation_is_held_against_what_was_measured_before_anything_is_said_of_options() {
    let on_disk = measured();
    let found = winter(&on_disk, None, None);
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    let page = found.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let at = |words: &str| {
        page.find(words)
            .unwrap_or_else(|| panic!("{words}: {page}"))
    };
    assert!(at("HELD AGAINST WHAT WAS MEASURED") < at("EVERY OPTION THROUGH THE WINTER"));
    assert!(at("Over 96 hours of 1 period the calculation is") > 0);
    assert!(at("what ran in it is none of the options compared") > 0);
}

#[test]
fn a_file_of_nothing_but_missing_values_is_no_winter_and_says_what_it_lacks() {
    let on_disk = OnDisk::new(&file::parse(CARAVAN).unwrap());
    let mut made = gapledger::assess::winter::invented(TypicalWinter::Alpine);
    for hour in &mut made.hours {
        *hour = gapledger::climate::Hour::blank(hour.day, hour.hour);
    }
    let weather = on_disk.file().with_file_name("weather.epw");
    fs::write(&weather, epw::write(&made)).unwrap();
    let found = winter(&on_disk, Some(weather), None);
    assert_eq!(found.outcome, Outcome::Failed);
    let words = "no hour of the winter is known: the weather has no temperature";
    assert!(found.errors.contains(words), "{}", found.errors);
}

#[test]
fn the_winter_stands_on_the_report_with_its_draws_and_after_the_plan_and_in_short() {
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.stay.winter = Some(TypicalWinter::Alpine);
    survey.stay.season_first = "01-10".into();
    survey.stay.season_last = "01-23".into();
    for gap in &mut survey.gaps {
        if gap.state == WorkState::Open {
            gap.state = WorkState::Planned;
        }
    }
    let on_disk = OnDisk::new(&survey);
    let output = on_disk.path("report.pdf");
    let found = run(Command::Sheet(arguments(&on_disk.file(), &output)));
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    let printed = text(&fs::read(&output).unwrap());
    for words in [
        "The winter hour by hour",
        "Alpine, 10 January to 23 January: 336 hours",
        "Every option through the winter: share of the hours by relative humidity inside",
        "Small figures: where nine draws in ten lie.",
        "The winter as the vehicle stands, and once the planned gaps are sealed.",
        "Nothing, once the planned gaps are sealed",
        "Every option once the planned gaps are sealed",
        "How sure the winter is",
        "30 draws of this winter",
        "Frost in the water system",
        "In a closed locker or behind cushions on the coldest wall",
        "What the winter stands on",
    ] {
        let (words, printed) = (letters(words), letters(&printed));
        let there = printed.to_lowercase().contains(&words.to_lowercase());
        assert!(there, "{words}: {printed}");
    }
    // Frost nights of doing nothing are the same on paper, in JSON and in short.
    let nights = {
        let study = gapledger::assess::Study::of(&survey);
        let run = gapledger::tasks::winter(&study, &[], 1, &gapledger::tasks::to_the_end);
        let run = run.unwrap().as_ref().unwrap();
        run.nothing().unwrap().frost.nights
    };
    assert!(nights > 3, "{nights}");
    let words = letters(&format!("With nothing done it freezes on {nights} nights"));
    assert!(letters(&printed).contains(&words), "{words}");
    let short = run(Command::Assess {
        file: on_disk.file(),
        full: false,
        json: false,
        set_up: None,
        budget: None,
        aim: None,
        units: gapledger::assess::shown::Units::Metric,
        draws: 0,
    });
    assert!(letters(&short.out).contains(&words), "{}", short.out);
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

#[test]
fn a_value_of_a_table_that_cannot_be_is_told_by_line_and_column() {
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.stay.latitude_deg = Some(51.0);
    let on_disk = OnDisk::new(&survey);
    let before = fs::read(on_disk.file()).unwrap();
    let table = on_disk.path("service.csv");
    let rows = |line: usize, wrong: &str| {
        let mut text = String::from("time,temperature (°C),relative humidity (%),wind (m/s)\n");
        for hour in 0..72 {
            let row = if hour + 2 == line { wrong } else { "4.0,80,3" };
            text += &format!("2024-01-{:02} {:02}:00,{row}\n", 10 + hour / 24, hour % 24);
        }
        text
    };
    for (line, wrong, words) in [
        (
            17,
            "4.0,140,3",
            ["line 17, column 3", "relative humidity is 140"],
        ),
        (60, "4.0,80,99", ["line 60, column 4", "wind speed is 99"]),
        (2, "75,80,3", ["line 2, column 2", "temperature is 75"]),
        (73, "4.0,80 ±1,3", ["line 73, column 3", "80 ±1"]),
    ] {
        fs::write(&table, rows(line, wrong)).unwrap();
        let found = winter(&on_disk, Some(table.clone()), None);
        assert_eq!(found.outcome, Outcome::Failed, "{wrong}");
        for words in words {
            assert!(found.errors.contains(words), "{wrong}: {}", found.errors);
        }
    }
    // The thirtieth of February, and a day of another century.
    for wrong in ["2024-02-30 01:00", "1024-01-10 05:00"] {
        let text = rows(0, "").replace("2024-01-10 05:00", wrong);
        fs::write(&table, text).unwrap();
        let found = winter(&on_disk, Some(table.clone()), None);
        assert_eq!(found.outcome, Outcome::Failed, "{wrong}");
        let told = found.errors.contains("line 7, column 1") || found.errors.contains("ten years");
        assert!(told, "{wrong}: {}", found.errors);
    }
    assert_eq!(fs::read(on_disk.file()).unwrap(), before);
}

#[test]
fn a_weather_file_kept_with_the_survey_is_found_there_on_another_machine() {
    let mut survey = file::parse(CARAVAN).unwrap();
    survey.machines.clear();
    survey.gaps.truncate(12);
    let on_disk = OnDisk::new(&survey);
    let data = file::data_folder(&on_disk.file());
    let weather = epw::write(&gapledger::assess::winter::invented(
        TypicalWinter::Northern,
    ));
    let kept = file::keep_data(&data, weather.as_bytes(), "Far Hill.epw").unwrap();
    survey.stay.weather_file.clone_from(&kept);
    survey.stay.weather_original = "Far Hill.epw".to_owned();
    survey.stay.season_first = "12-01".into();
    survey.stay.season_last = "12-14".into();
    fs::write(on_disk.file(), file::print(&survey)).unwrap();
    let found = winter(&on_disk, None, None);
    assert_ne!(found.outcome, Outcome::Failed, "{}", found.errors);
    assert!(found.out.contains("336 hours"), "{}", found.out);
    assert_eq!(fs::read(data.join(&kept)).unwrap(), weather.as_bytes());
    fs::remove_file(data.join(&kept)).unwrap();
    let gone = winter(&on_disk, None, None);
    assert_eq!(gone.outcome, Outcome::Failed);
    for words in ["Far Hill.epw", &kept, "choose it again"] {
        assert!(gone.errors.contains(words), "{}", gone.errors);
    }
}
