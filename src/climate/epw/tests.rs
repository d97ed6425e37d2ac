//! Weather files that are whole, and files that are not.

use super::*;
use crate::climate::{MonthlyWeather, WinterMeans, invent, season};

fn year() -> String {
    let month = MonthlyWeather {
        mean_c: 2.0,
        daily_range_k: 6.0,
        rh_percent: 85.0,
        wind_m_s: 4.0,
        sunshine_h_per_day: 2.0,
    };
    let means = WinterMeans {
        latitude_deg: 50.0,
        altitude_m: 100.0,
        design_outside_c: -9.0,
        day_to_day_k: 3.0,
        months: [month; 12],
    };
    write(&invent(&means, "invented", 7))
}

/// The file with one cell of a line, counted from 1, replaced.
fn with_cell(text: &str, line: usize, column: usize, cell: &str) -> String {
    let lines = text.lines().zip(1..).map(|(own, number)| {
        if number != line {
            return own.to_owned();
        }
        let cells = own.split(',').zip(1..);
        let cells: Vec<&str> = cells
            .map(|(own, at)| if at == column { cell } else { own })
            .collect();
        cells.join(",")
    });
    lines.collect::<Vec<_>>().join("\n")
}

fn refused(text: &str) -> EpwError {
    read(text.as_bytes()).expect_err("it is not whole")
}

#[test]
fn a_file_cut_short_after_any_line_is_refused_with_the_line_where_it_ends() {
    let text = year();
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.len(), 8768);
    for kept in (0..40).chain([8, 9, 31, 32, 33, 744, 5000, 8743, 8744, 8767]) {
        let cut = lines[..kept].join("\n");
        let error = refused(&cut);
        assert_eq!(error.line, kept + 1, "{kept}: {error}");
        assert!(
            error.to_string().starts_with(&format!("line {}", kept + 1)),
            "{error}"
        );
    }
    assert!(read(text.as_bytes()).is_ok());
}

#[test]
fn a_row_cut_within_is_refused_with_its_line_and_column() {
    let text = year();
    let lines: Vec<&str> = text.lines().collect();
    let head: usize = lines[..99].iter().map(|line| line.len() + 1).sum();
    let error = refused(&text[..head + 25]);
    assert_eq!(error.line, 100);
    assert!(error.column.is_some(), "{error}");
}

#[test]
fn what_cannot_be_is_refused_by_line_and_column() {
    let text = year();
    for (line, column, cell, word) in [
        (1, 7, "97.2", "latitude"),
        (1, 7, "north", "latitude"),
        (1, 9, "25", "time zone"),
        (8, 3, "4", "one record an hour"),
        (50, 2, "13", "month"),
        (50, 3, "0", "day"),
        (50, 4, "25", "hour"),
        (50, 9, "114", "relative humidity"),
        (50, 22, "99", "wind"),
        (50, 7, "warm", "temperature"),
        (50, 7, "nan", "temperature"),
        (50, 7, "", "temperature"),
        (50, 1, "2019", "two years are mixed"),
        (50, 4, "9", "does not follow"),
    ] {
        let error = refused(&with_cell(&text, line, column, cell));
        assert_eq!(
            (error.line, error.column),
            (line, Some(column)),
            "{cell}: {error}"
        );
        assert!(error.sentence.contains(word), "{error}");
    }
}

#[test]
fn numbers_that_mean_missing_are_missing_and_short_gaps_are_filled() {
    let mut text = year();
    for line in 20..23 {
        text = with_cell(&text, line, 7, "99.9");
    }
    for column in [9, 13, 22] {
        text = with_cell(&text, 40, column, "9999");
    }
    text = with_cell(&text, 60, 9, "999");
    let file = read(text.as_bytes()).expect("whole");
    assert_eq!(file.rows[11].value(7), None);
    assert_eq!(file.rows[31].value(22), None);
    let weather = file.weather();
    let t_c = |at: usize| weather.hours[at].t_c.expect("filled");
    let step = (t_c(14) - t_c(10)) / 4.0;
    assert!((t_c(11) - t_c(10) - step).abs() < 1e-9);
    assert!(weather.hours[31].wind.is_some());
    // The dew point gives what the humidity does not.
    let whole = read(year().as_bytes()).expect("whole").weather();
    let (found, own) = (weather.hours[51].rh, whole.hours[51].rh);
    assert!((found.expect("from the dew point") - own.expect("there")).abs() < 1e-9);
}

#[test]
fn all_missing_is_no_weather_but_no_error_either() {
    let text = year();
    let lines = text.lines().enumerate().map(|(at, line)| {
        if at < 8 {
            return line.to_owned();
        }
        let own: Vec<&str> = line.split(',').take(6).collect();
        let missing = COLUMNS
            .iter()
            .map(|column| column.missing.min(999_999_999.0).to_string());
        let mut cells: Vec<String> = own.into_iter().map(str::to_owned).collect();
        cells.extend(missing);
        cells.join(",")
    });
    let file = read(lines.collect::<Vec<_>>().join("\n").as_bytes()).expect("whole");
    let weather = file.weather();
    assert!(
        weather
            .hours
            .iter()
            .all(|hour| hour.t_c.is_none() && hour.wind.is_none())
    );
}

#[test]
fn a_leap_day_may_be_there_or_not_and_years_may_change_with_the_month() {
    let text = year();
    let lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let first_of_march = 8 + 59 * 24;
    let leap = lines[first_of_march - 24..first_of_march]
        .iter()
        .map(|line| line.replacen("2023,2,28", "2023,2,29", 1));
    let mut with_leap = lines[..first_of_march].to_vec();
    with_leap.extend(leap);
    with_leap.extend_from_slice(&lines[first_of_march..]);
    let file = read(with_leap.join("\n").as_bytes()).expect("whole");
    assert_eq!(file.rows.len(), 8784);
    let typical = text.replace("\n2023,4,", "\n1998,4,");
    assert!(read(typical.as_bytes()).is_ok());
}

#[test]
fn zones_of_half_an_hour_and_names_in_an_old_encoding_are_read() {
    let text = with_cell(&with_cell(&year(), 1, 9, "5.5"), 1, 2, "Caf\u{e9}");
    let mut bytes = Vec::new();
    for letter in text.chars() {
        bytes.push(u8::try_from(u32::from(letter)).expect("of the old encoding"));
    }
    let file = read(&bytes).expect("whole");
    assert!((file.place.zone_h - 5.5).abs() < 1e-12);
    assert_eq!(file.place.name, "Caf\u{e9}");
}

#[test]
fn the_winter_is_november_to_march_and_in_the_south_may_to_september() {
    let weather = read(year().as_bytes()).expect("whole").weather();
    let hours = season(&weather).expect("a winter");
    assert_eq!(hours.len(), (30 + 31 + 31 + 28 + 31) * 24);
    assert_eq!(
        (hours[0].day.month, hours[0].day.day, hours[0].hour),
        (11, 1, 1)
    );
    let last = hours[hours.len() - 1];
    assert_eq!((last.day.month, last.day.day, last.hour), (3, 31, 24));
    let south = with_cell(&year(), 1, 7, "-43");
    let weather = read(south.as_bytes()).expect("whole").weather();
    let hours = season(&weather).expect("a winter");
    assert_eq!(hours.len(), 153 * 24);
    assert_eq!(hours[0].day.month, 5);
}

#[test]
fn a_sky_that_sends_nothing_was_never_measured_and_fog_is_saturated() {
    let text = year();
    let lines = text.lines().zip(1..).map(|(own, number)| {
        let cells = own.split(',').zip(1..);
        let cells: Vec<&str> = cells
            .map(|(own, at)| match (number > 8, at) {
                (true, 13) => "0",
                (true, 9) => "104",
                _ => own,
            })
            .collect();
        cells.join(",")
    });
    let text: String = lines.collect::<Vec<_>>().join("\n");
    let weather = read(text.as_bytes()).expect("read").weather();
    for hour in &weather.hours {
        assert_eq!(hour.infrared, None);
        assert_eq!(hour.rh, Some(1.0));
    }
}

/// Nines stand for what is missing; a number that is larger stands for nothing. No air is as hot as 61 °C.
#[test]
fn a_temperature_that_cannot_be_is_refused_by_its_line() {
    for cell in ["1e308", "61", "-70.5"] {
        let error = refused(&with_cell(&year(), 100, 7, cell));
        assert_eq!(
            (error.line, error.column),
            (100, Some(7)),
            "{cell}: {error}"
        );
    }
    for missing in ["99.9", "999", "9999"] {
        assert!(read(with_cell(&year(), 100, 7, missing).as_bytes()).is_ok());
    }
}

#[test]
fn a_name_of_a_place_without_end_is_cut() {
    let long = with_cell(&year(), 1, 2, &"x".repeat(100_000));
    let name = read(long.as_bytes()).expect("whole").place.name;
    assert_eq!(name.chars().count(), 61);
}
