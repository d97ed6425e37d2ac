//! Times in the spellings that are met, two-digit years, columns of times, offsets, summer time.

use super::super::{Column, DateOrder, Note, ReadError, Zone, guess, moment, read};
use super::{file, read_as_guessed};

fn first_time(text: &str) -> String {
    let series = read_as_guessed(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    moment(series.times_s[0])
}

#[test]
fn a_spelling_that_means_one_time_alone_is_read() {
    for written in [
        "20-Jan-2026 14:30",
        "\"Jan 20, 2026 02:30 PM\"",
        "\"Tue, 20 Jan 2026 14:30:00 GMT\"",
        "Tue Jan 20 14:30:00 2026",
        "20. Januar 2026 14:30",
        "20 janv. 2026 14h30",
        "20 ene 2026 14:30",
        "20. gennaio 2026 14:30",
        "Di 20.01.2026 14:30",
        "20.01.2026 14:30 Uhr",
        "20/01/2026 à 14:30",
        "20.01.2026 - 14:30",
        "2026-01-20_14:30:00",
        "2026-01-20 14-30-00",
        "2026:01:20 14:30:00",
        "2026. 01. 20. 14:30",
        "20. 1. 2026 14:30",
        "01.20.2026 14:30",
        "20260120T143000Z",
        "20260120143000",
        "202601201430",
        "20260120 1430",
        "2026-01-20 14:30:00 UTC",
        "2026-01-20 15:30:00 GMT+01:00",
        "2026-01-20T15:30:00+01:00[Europe/Berlin]",
        "2026-01-20T09:30:00\u{2212}05:00",
        "20/01/2026 02:30 p. m.",
        "2026/01/20 PM 02:30:00",
        "20.01.2026 14:30:00:250",
        "=\"2026-01-20 14:30\"",
        "'2026-01-20 14:30'",
    ] {
        let text = format!("Time,Temp °C,RH %\n{written},7.5,60\n");
        assert_eq!(first_time(&text), "2026-01-20 14:30", "{written}");
    }
    for (heading, written) in [
        ("Unix time", "1768919400"),
        ("timestamp_ms", "1768919400000"),
        ("Date", "46042.6041666667"),
    ] {
        let text = format!("{heading},Temp °C\n{written},7.5\n");
        assert_eq!(first_time(&text), "2026-01-20 14:30", "{written}");
    }
    // Numbers that no heading calls times are none, nor is a month in a language that is not known.
    for text in [
        "Counter,Temp °C\n1768919400,7.5\n",
        "Time,Temp °C\n20 sty 2026 08:00,7.5\n",
    ] {
        assert!(matches!(
            guess(text.as_bytes()),
            Err(ReadError::NoRow {
                line: 2,
                column: 1,
                ..
            })
        ));
    }
}

#[test]
fn a_time_of_day_of_its_own_is_read_or_the_file_refused_and_never_put_at_midnight() {
    let half = [("02:30", "PM")];
    for (heading, written) in [
        ("Zeit", "14.30"),
        ("Zeit", "1430"),
        ("Zeit", "143000"),
        ("Heure", "14h30"),
        ("Uhrzeit", "14:30 Uhr"),
        ("Time", "1899-12-30 14:30:00"),
        ("Time", "2:30 p. m."),
    ] {
        let text = format!("Date;{heading};Temp °C\n2026-01-20;{written};7.5\n");
        assert_eq!(first_time(&text), "2026-01-20 14:30", "{written}");
    }
    let text = "Date;Time;Temp °C\n20-Jan-26;14:30;7.5\n";
    assert_eq!(first_time(text), "2026-01-20 14:30");
    let text = "Date;Hour;Temp °C\n2026-01-20;14;7.5\n2026-01-20;15;7.6\n";
    assert_eq!(first_time(text), "2026-01-20 14:00");
    let text = "Date;Time;Temp °C\n2026-01-20 00:00:00;14:30;7.5\n2026-01-20 00:00:00;14:40;7.5\n";
    assert_eq!(first_time(text), "2026-01-20 14:30");
    for (time, half) in half {
        let text = format!("Date;Time;AM/PM;Temp °C\n2026-01-20;{time};{half};7.5\n");
        assert_eq!(first_time(&text), "2026-01-20 14:30");
    }
    // 30 is no hour where 100 is one o'clock.
    let text = "Date;Time;Temp °C\n2026-01-20;20;7.5\n2026-01-20;120;7.6\n";
    let error = read_as_guessed(text).expect_err("two kinds");
    assert!(error.to_string().starts_with("line 3, column 2"), "{error}");
    // Nothing tells what the second column is.
    let text = file("Date;Slot;Temp °C", 30, |row| {
        format!("2026-01-20;{row}a;{row}")
    });
    assert_eq!(read_as_guessed(&text), Err(ReadError::NoTimeOfDay(29)));
}

#[test]
fn a_year_of_two_digits_may_stand_at_either_end() {
    let of = |date: fn(i64) -> String, rows: usize| {
        file("Time,Temp °C", rows, |row| {
            format!("{} {:02}:00,{row}", date(20 + row / 24), row % 24)
        })
    };
    // Over midnight the year does not pass.
    let first = of(|day| format!("26-01-{day}"), 60);
    assert_eq!(first_time(&first), "2026-01-20 00:00");
    let last = of(|day| format!("{day}.01.26"), 60);
    assert_eq!(first_time(&last), "2026-01-20 00:00");
    // Within a day nothing tells.
    let text = of(|day| format!("26-01-{day}"), 20);
    let guess = guess(text.as_bytes()).expect("understood");
    let orders: Vec<(DateOrder, &str)> = guess
        .orders
        .iter()
        .map(|reading| (reading.order, reading.first.as_str()))
        .collect();
    assert_eq!(
        orders,
        [
            (DateOrder::YearMonthDay, "2026-01-20 00:00"),
            (DateOrder::DayMonthYear, "2020-01-26 00:00"),
        ]
    );
    let mut mapping = guess.mapping;
    assert_eq!(
        read(text.as_bytes(), &mapping),
        Err(ReadError::OrderNotSaid)
    );
    mapping.order = Some(DateOrder::YearMonthDay);
    let series = read(text.as_bytes(), &mapping).expect("read");
    assert_eq!(moment(series.times_s[0]), "2026-01-20 00:00");
}

#[test]
fn midnight_without_its_time_of_day_is_midnight() {
    let text = file("Time,Temp °C", 30, |row| match row % 24 {
        0 => format!("2026-01-{},{row}", 20 + row / 24),
        hour => format!("2026-01-{} {hour:02}:00,{row}", 20 + row / 24),
    });
    let series = read_as_guessed(&text).expect("read");
    assert_eq!(series.times_s.len(), 30);
    assert_eq!(series.times_s[24] - series.times_s[23], 3600);
}

#[test]
fn the_time_is_that_which_goes_on_from_row_to_row() {
    let first = |heading: &str, line: fn(i64) -> String| first_time(&file(heading, 20, line));
    let heading = "Calibrated;Date;Time;Temp °C";
    let at = first(heading, |row| {
        format!("2025-03-01;2026-01-20;{row:02}:00;5")
    });
    assert_eq!(at, "2026-01-20 00:00");
    let heading = "Serial;Date;Time;Temp °C";
    let at = first(heading, |row| format!("20211104;2026-01-20;{row:02}:00;5"));
    assert_eq!(at, "2026-01-20 00:00");
    let heading = "Start;Time;Temp °C";
    let at = first(heading, |row| {
        format!("2025-03-01 12:00;2026-01-20 {row:02}:00;5")
    });
    assert_eq!(at, "2026-01-20 00:00");
    let heading = "Date;Elapsed;Time;Temp °C";
    let at = first(heading, |row| {
        format!("2026-01-20;00:{row:02}:00;09:{:02}:00;5", row + 30)
    });
    assert_eq!(at, "2026-01-20 09:30");
    let heading = "Uploaded;Measured;Temp °C";
    let at = first(heading, |row| {
        format!("2026-01-23 {row:02}:00;2026-01-20 {row:02}:00;5")
    });
    assert_eq!(at, "2026-01-20 00:00");
}

#[test]
fn times_of_another_column_that_go_on_too_are_told() {
    let text = file("Time 1,T1 °C,Time 2,T2 °C", 20, |row| {
        format!("2026-01-20 {row:02}:00,5,2026-01-21 {row:02}:00,6")
    });
    let series = read_as_guessed(&text).expect("read");
    assert_eq!(series.notes, [Note::OtherTimes(3)]);
}

#[test]
fn an_offset_is_the_zone_and_the_times_are_told_to_be_universal() {
    for text in [
        "time;t °C\n2026-01-01T01:00+01:00;4\n2026-01-01T01:10+01:00;5\n",
        "time;zone;t °C\n2026-01-01 01:00;+01:00;4\n2026-01-01 01:10;+01:00;5\n",
    ] {
        let mut mapping = guess(text.as_bytes()).expect("understood").mapping;
        assert_eq!(mapping.zone, Zone::Offset(3600));
        // What a cell says counts, whatever is named.
        for zone in [
            Zone::Offset(3600),
            Zone::Named(String::from("America/New_York")),
        ] {
            mapping.zone = zone;
            let series = read(text.as_bytes(), &mapping).expect("read");
            assert_eq!(moment(series.times_s[0]), "2026-01-01 00:00");
            assert_eq!(series.notes, [Note::UniversalTime]);
        }
    }
    let mixed = "time;t °C\n2026-01-01T01:00Z;4\n2026-01-01T01:10;5\n";
    let error = read_as_guessed(mixed).expect_err("two clocks");
    assert!(error.to_string().starts_with("line 3, column 1"), "{error}");
}

#[test]
fn the_hour_that_comes_twice_is_told_apart_with_the_newest_first_too() {
    for step in [1, 10, 30, 60] {
        // Brussels, 25 October 2026: 02:00 to 03:00 comes twice.
        let rows = 360 / step;
        let clock = |row: i64| {
            let minute = row * step;
            let shown = if minute >= 180 { minute - 60 } else { minute };
            format!("2026-10-25 {:02}:{:02},{row},80", shown / 60, shown % 60)
        };
        let last = rows - 1;
        let text = file("time,t °C,rh %", usize::try_from(rows).unwrap(), |row| {
            clock(last - row)
        });
        let mut mapping = guess(text.as_bytes()).expect("understood").mapping;
        let unnamed = read(text.as_bytes(), &mapping).expect("read");
        let hint = |note: &Note| matches!(note, Note::WentBackAnHour(_));
        assert!(
            unnamed.notes.iter().any(hint),
            "{step}: {:?}",
            unnamed.notes
        );
        mapping.zone = Zone::Named(String::from("Europe/Brussels"));
        let series = read(text.as_bytes(), &mapping).expect("read");
        let steps = series.times_s.windows(2).map(|pair| pair[1] - pair[0]);
        assert!(
            steps.clone().all(|one| one == step * 60),
            "{step}: {:?}",
            steps.collect::<Vec<_>>()
        );
        assert_eq!(series.times_s.len(), usize::try_from(rows).unwrap());
        // Values stand at their own times.
        assert_eq!(series.channels[0].values.get(0), Some(0.0));
    }
}

#[test]
fn a_column_of_parts_of_a_date_is_refused_with_its_place() {
    let text = "Year;Month;Day;Hour;Temp °C\n2026;01;20;08;7.5\n";
    assert_eq!(guess(text.as_bytes()), Err(ReadError::DateInParts(1, 3)));
}

#[test]
fn times_that_are_taken_otherwise_than_guessed_are_taken_so() {
    let text = "Uploaded,Measured,Temp °C\n2026-01-23 00:00,2026-01-20 00:00,5\n";
    let mut mapping = guess(text.as_bytes()).expect("understood").mapping;
    mapping.columns.swap(0, 1);
    assert_eq!(mapping.columns[0], Column::Moment);
    let series = read(text.as_bytes(), &mapping).expect("read");
    assert_eq!(moment(series.times_s[0]), "2026-01-23 00:00");
}
