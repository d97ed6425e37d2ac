//! Spellings, both readings of a date, files cut short, hostile bytes.

use std::fmt::Write as _;
use std::ops::ControlFlow;

use proptest::prelude::*;

use super::{
    Column, DateOrder, Decimal, Encoding, Given, Note, ReadError, Separator, Series, Unit, What,
    Why, Zone, doubtful, guess, guess_with, moment, preview, read, read_watched,
};

mod rows;
mod times;

fn read_as_guessed(text: &str) -> Result<Series, ReadError> {
    let guess = guess(text.as_bytes())?;
    read(text.as_bytes(), &guess.mapping)
}

/// Ten-minute readings from a start, in the spelling of `line`.
fn file(heading: &str, rows: usize, line: impl Fn(i64) -> String) -> String {
    let mut text = format!("{heading}\n");
    for row in 0..rows {
        let _ = writeln!(text, "{}", line(i64::try_from(row).unwrap_or(0)));
    }
    text
}

#[test]
fn day_and_month_that_could_be_either_are_asked_for_with_both_readings() {
    let text = file("Date;Temp °C;RH %", 40, |row| {
        format!("03/04/2026 {:02}:{:02};12,5;61", row / 6, row % 6 * 10)
    });
    let guess = guess(text.as_bytes()).expect("understood");
    assert_eq!(guess.mapping.order, None);
    let orders: Vec<(DateOrder, &str)> = guess
        .orders
        .iter()
        .map(|reading| (reading.order, reading.first.as_str()))
        .collect();
    assert_eq!(
        orders,
        [
            (DateOrder::DayMonthYear, "2026-04-03 00:00"),
            (DateOrder::MonthDayYear, "2026-03-04 00:00"),
        ]
    );
    assert_eq!(
        read(text.as_bytes(), &guess.mapping),
        Err(ReadError::OrderNotSaid)
    );
    let mut said = guess.mapping;
    said.order = Some(DateOrder::MonthDayYear);
    let series = read(text.as_bytes(), &said).expect("read");
    assert_eq!(moment(series.times_s[0]), "2026-03-04 00:00");
    assert!((series.channels[0].values.get(0).unwrap() - 12.5).abs() < 1e-12);
}

#[test]
fn one_day_above_twelve_anywhere_settles_the_order() {
    let text = file("Date;Temp °C", 4000, |row| {
        let day = 1 + row / 144;
        format!(
            "{day:02}/02/2026 {:02}:{:02};4",
            row % 144 / 6,
            row % 6 * 10
        )
    });
    let guess = guess(text.as_bytes()).expect("understood");
    assert_eq!(guess.mapping.order, Some(DateOrder::DayMonthYear));
}

#[test]
fn units_that_the_file_does_not_say_are_told() {
    let text = "time,temperature,humidity\n2026-01-01 00:00,4.5,80\n2026-01-01 00:10,4.4,81\n";
    let guess = guess(text.as_bytes()).expect("understood");
    assert_eq!(guess.units_not_said, [1, 2]);
}

#[test]
fn other_quantities_are_known_by_their_headings_and_brought_to_one_unit() {
    let text = "Time,Dew point °F,Abs. humidity (g/m³),CO2 (ppm),Baro mmHg,Wind km/h,Wind dir °\n\
                2026-01-01T00:00Z,50,7.5,900,760,36,270\n\
                2026-01-01T00:10Z,50,7.5,900,760,36,270\n";
    let series = read_as_guessed(text).expect("read");
    let found: Vec<(What, f64)> = series
        .channels
        .iter()
        .map(|channel| (channel.what, channel.values.get(0).unwrap()))
        .collect();
    // NIST SP 811 [S]: 50 °F is 10 °C, 760 mmHg 101 325 Pa, 36 km/h 10 m/s.
    let expected = [
        (What::DewPoint, 10.0),
        (What::AbsoluteHumidity, 7.5),
        (What::CarbonDioxide, 900.0),
        (What::Pressure, 101_325.0),
        (What::Wind, 10.0),
        (What::WindDirection, 270.0),
    ];
    assert_eq!(found.len(), expected.len());
    for ((what, value), (expected_what, expected_value)) in found.iter().zip(expected) {
        assert_eq!(*what, expected_what);
        assert!((value - expected_value).abs() < 0.05, "{what:?} {value}");
    }
}

#[test]
fn an_offset_behind_the_time_is_taken_off() {
    let text = "time;t °C\n2026-01-01T01:00+01:00;4\n2026-01-01T01:10+01:00;5\n";
    let series = read_as_guessed(text).expect("read");
    assert_eq!(moment(series.times_s[0]), "2026-01-01 00:00");
}

#[test]
fn the_hour_that_comes_twice_in_autumn_is_told_apart_in_its_zone() {
    // London, 25 October 2026: 01:00 to 02:00 comes twice.
    let clock = |row: i64| {
        let minute = 30 + row * 10;
        let minute = if row >= 9 { minute - 60 } else { minute };
        format!("2026-10-25 {:02}:{:02},5,80", minute / 60, minute % 60)
    };
    let text = file("time,t °C,rh %", 24, clock);
    let mut guess = guess(text.as_bytes()).expect("understood");
    let unnamed = read(text.as_bytes(), &guess.mapping).expect("read");
    assert!(
        unnamed
            .notes
            .iter()
            .any(|note| matches!(note, Note::WentBackAnHour(_)))
    );
    guess.mapping.zone = Zone::Named(String::from("Europe/London"));
    let series = read(text.as_bytes(), &guess.mapping).expect("read");
    let steps: Vec<i64> = series
        .times_s
        .windows(2)
        .map(|pair| pair[1] - pair[0])
        .collect();
    assert_eq!(steps, vec![600; 23]);
    guess.mapping.zone = Zone::Named(String::from("Atlantis"));
    assert!(matches!(
        read(text.as_bytes(), &guess.mapping),
        Err(ReadError::NoZone(_))
    ));
}

#[test]
fn a_wrong_cell_is_told_by_line_and_column() {
    let text = "time,t °C,rh %\n2026-01-01 00:00,4,80\n2026-01-01 00:10,four,80\n";
    let guess = guess(text.as_bytes()).expect("understood");
    let error = read(text.as_bytes(), &guess.mapping).expect_err("a word");
    assert_eq!(
        error.to_string(),
        "line 3, column 2: a number was expected and \u{201c}four\u{201d} stands there"
    );
    // Lines that end in two characters are counted alike.
    let error = read(text.replace('\n', "\r\n").as_bytes(), &guess.mapping).expect_err("a word");
    assert!(error.to_string().starts_with("line 3, column 2"), "{error}");
    let short = "time,t °C,rh %\n2026-01-01 00:00,4,80\n2026-01-01 00:10,4\n";
    assert!(matches!(
        read(short.as_bytes(), &guess.mapping),
        Err(ReadError::ShortRow { line: 3, .. })
    ));
}

#[test]
fn lines_below_the_readings_are_left_out_and_told() {
    let text = "time,t °C\n2026-01-01 00:00,4\n2026-01-01 00:10,5\nMean,4.5\n";
    let series = read_as_guessed(text).expect("read");
    assert_eq!(series.times_s.len(), 2);
    assert_eq!(series.notes, [Note::Ends(4)]);
}

#[test]
fn what_is_no_logger_file_is_refused_with_a_sentence() {
    let hostile: [&[u8]; 8] = [
        b"",
        b"\n\n\n",
        b"hello world",
        b"PK\x03\x04 not a workbook",
        &[0; 4096],
        &[0xFF; 4096],
        b"\"unclosed,quote\n2026-01-01,4",
        b"a,b\n2026-99-99 00:00,4\n",
    ];
    for bytes in hostile {
        let error = match guess(bytes) {
            Err(error) => error,
            Ok(guess) => read(bytes, &guess.mapping).expect_err("no readings"),
        };
        assert!(error.to_string().len() > 20, "{error}");
    }
}

#[test]
fn odd_readings_are_marked_and_stay() {
    let rows = 400;
    let text = file("time,t °C,rh %", rows, |row| {
        let (day, of_day) = (1 + row / 144, row % 144);
        let t = match row {
            50 => String::from("65"),
            60..=250 => String::from("7.31"),
            _ => format!(
                "{:.2}",
                5.0 + 0.01 * crate::physics::counts::seconds_as_f64(row % 97)
            ),
        };
        let rh = match row {
            300 => "103",
            310 => "-5",
            _ if row % 2 == 0 => "80",
            _ => "81",
        };
        format!(
            "2026-01-{day:02} {:02}:{:02},{t},{rh}",
            of_day / 6,
            of_day % 6 * 10
        )
    });
    let series = read_as_guessed(&text).expect("read");
    assert_eq!(series.times_s.len(), rows);
    let found: Vec<(usize, usize, usize, Why)> = doubtful(&series)
        .iter()
        .map(|run| (run.channel, run.from, run.to, run.why))
        .collect();
    assert_eq!(
        found,
        [
            (0, 60, 250, Why::Stuck),
            (0, 50, 50, Why::Jump),
            (1, 300, 300, Why::AboveSaturation),
            (1, 310, 310, Why::OutOfRange),
            (1, 310, 310, Why::Jump),
        ]
    );
}

/// A row's time and values in one of the spellings.
#[derive(Clone, Debug)]
struct Spelling {
    separator: Separator,
    decimal: Decimal,
    order: DateOrder,
    seconds: bool,
    half_days: bool,
    fahrenheit: bool,
    preamble: usize,
    carriage: bool,
}

fn spellings() -> impl Strategy<Value = Spelling> {
    (
        prop::sample::select(&Separator::ALL[..]),
        prop::sample::select(&Decimal::ALL[..]),
        prop::sample::select(&DateOrder::ALL[..]),
        any::<[bool; 4]>(),
        0_usize..4,
    )
        .prop_filter_map(
            "a comma cannot be both",
            |(separator, decimal, order, flags, preamble)| {
                let [seconds, half_days, fahrenheit, carriage] = flags;
                (!(separator == Separator::Comma && decimal == Decimal::Comma)).then_some(
                    Spelling {
                        separator,
                        decimal,
                        order,
                        seconds,
                        half_days,
                        fahrenheit,
                        preamble,
                        carriage,
                    },
                )
            },
        )
}

impl Spelling {
    fn number(&self, value: f64) -> String {
        let text = format!("{value:.4}");
        match self.decimal {
            Decimal::Point => text,
            Decimal::Comma => text.replace('.', ","),
        }
    }

    fn time(&self, day: i64, minute: i64) -> String {
        let date = match self.order {
            DateOrder::YearMonthDay => format!("2026-01-{day:02}"),
            DateOrder::DayMonthYear => format!("{day:02}/01/2026"),
            DateOrder::MonthDayYear => format!("01/{day:02}/2026"),
        };
        let (hour, of_hour) = (minute / 60, minute % 60);
        let seconds = if self.seconds { ":00" } else { "" };
        if self.half_days {
            let half = if hour < 12 { "AM" } else { "PM" };
            let shown = if hour % 12 == 0 { 12 } else { hour % 12 };
            format!("{date} {shown}:{of_hour:02}{seconds} {half}")
        } else {
            format!("{date} {hour:02}:{of_hour:02}{seconds}")
        }
    }

    fn text(&self, readings: &[(f64, f64)]) -> String {
        let end = if self.carriage { "\r\n" } else { "\n" };
        let sign = char::from(self.separator.byte());
        let unit = if self.fahrenheit { "°F" } else { "°C" };
        let mut text = String::new();
        for line in 0..self.preamble {
            let _ = write!(text, "Logger no. {line}{end}");
        }
        let _ = write!(text, "Time{sign}Temp {unit}{sign}RH %{end}");
        for (row, (t_c, rh)) in readings.iter().enumerate() {
            let row = i64::try_from(row).unwrap_or(0);
            let shown = if self.fahrenheit {
                t_c * 1.8 + 32.0
            } else {
                *t_c
            };
            let _ = write!(
                text,
                "{}{sign}{}{sign}{}{end}",
                self.time(13 + row / 24, row % 24 * 60),
                self.number(shown),
                self.number(*rh)
            );
        }
        text
    }
}

proptest! {
    #[test]
    fn every_spelling_reads_as_the_same_numbers(
        spelling in spellings(),
        readings in prop::collection::vec((-20.0..40.0_f64, 0.0..100.0_f64), 3..60),
    ) {
        let text = spelling.text(&readings);
        let guess = guess(text.as_bytes()).expect("understood");
        prop_assert_eq!(guess.mapping.order, Some(spelling.order));
        let series = read(text.as_bytes(), &guess.mapping).expect("read");
        prop_assert_eq!(series.times_s.len(), readings.len());
        prop_assert_eq!(moment(series.times_s[0]), "2026-01-13 00:00");
        for (row, (t_c, rh)) in readings.iter().enumerate() {
            prop_assert!((series.channels[0].values.get(row).unwrap() - t_c).abs() < 1e-4);
            prop_assert!((series.channels[1].values.get(row).unwrap() - rh).abs() < 1e-4);
        }
    }

    #[test]
    fn no_bytes_bring_the_reader_down(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        if let Ok(guess) = guess(&bytes) {
            let _ = read(&bytes, &guess.mapping);
        }
    }

    #[test]
    fn a_file_cut_short_anywhere_is_read_up_to_there_or_refused(
        spelling in spellings(),
        cut in 0.0..1.0_f64,
    ) {
        let readings: Vec<(f64, f64)> = (0..40).map(|row| (f64::from(row), 50.0)).collect();
        let text = spelling.text(&readings);
        let at = crate::physics::counts::whole(cut * crate::physics::counts::count(text.len()));
        let bytes = &text.as_bytes()[..at];
        if let Ok(guess) = guess(bytes) && let Ok(series) = read(bytes, &guess.mapping) {
            prop_assert!(series.times_s.len() <= readings.len());
            for (row, value) in series.channels[0].values.iter().enumerate().take(series.times_s.len().saturating_sub(1)) {
                prop_assert!((value - readings[row].0).abs() < 1e-3);
            }
        }
    }
}

#[test]
fn columns_may_be_told_otherwise_than_guessed() {
    let text = "time,a,b\n2026-01-01 00:00,68,0.8\n2026-01-01 00:10,50,0.7\n";
    let mut guess = guess(text.as_bytes()).expect("understood");
    assert!(matches!(
        read(text.as_bytes(), &guess.mapping),
        Err(ReadError::NoColumn("readings"))
    ));
    let readings = |what, unit| Column::Readings {
        what,
        unit,
        sensor: String::from("cab"),
    };
    guess.mapping.columns = vec![
        Column::Moment,
        readings(What::Temperature, Unit::Fahrenheit),
        readings(What::RelativeHumidity, Unit::Share),
    ];
    let series = read(text.as_bytes(), &guess.mapping).expect("read");
    assert!((series.channels[0].values.get(0).unwrap() - 20.0).abs() < 1e-12);
    assert!((series.channels[1].values.get(1).unwrap() - 70.0).abs() < 1e-12);
    assert_eq!(series.channels[1].sensor, "cab");
}

#[test]
fn what_was_said_of_a_file_is_not_guessed() {
    // Thousands written with a point and decimals with a comma read as either: it can be said.
    let text = file("Date;Temp °C", 30, |row| {
        format!("2026-01-{:02} 00:00;12,5", row % 28 + 1)
    });
    let by_itself = guess(text.as_bytes()).expect("understood");
    assert_eq!(by_itself.mapping.separator, Separator::Semicolon);
    let said = Given {
        separator: Some(Separator::Comma),
        ..Given::default()
    };
    // By commas the only time stands together with what is no number.
    assert!(matches!(
        guess_with(text.as_bytes(), &said),
        Err(ReadError::NoRow { line: 2, .. })
    ));
    let said = Given {
        encoding: Some(Encoding::Windows1252),
        decimal: Some(Decimal::Comma),
        ..Given::default()
    };
    let by_word = guess_with(text.as_bytes(), &said).expect("understood");
    assert_eq!(by_word.mapping.encoding, Encoding::Windows1252);
    assert_eq!(by_word.mapping.decimal, Decimal::Comma);
}

#[test]
fn the_first_rows_are_those_of_the_whole_and_no_more() {
    let text = file("Time,Temp °C", 500, |row| {
        format!("2026-01-{:02} {:02}:00,{row}", row / 24 + 1, row % 24)
    });
    let mapping = guess(text.as_bytes()).expect("understood").mapping;
    let whole = read(text.as_bytes(), &mapping).expect("read");
    let first = preview(text.as_bytes(), &mapping, 6).expect("read");
    assert_eq!(*first.times_s, whole.times_s[..6]);
    assert!(
        first.channels[0]
            .values
            .iter()
            .eq(whole.channels[0].values.iter().take(6))
    );
}

#[test]
fn reading_can_be_stopped_and_tells_how_far_it_is() {
    let text = file("Time,Temp °C", 60_000, |row| {
        format!("2026-01-{:02} {:02}:00,{row}", row / 24 % 28 + 1, row % 24)
    });
    let mapping = guess(text.as_bytes()).expect("understood").mapping;
    let mut heard = Vec::new();
    let watched = read_watched(text.as_bytes(), &mapping, &mut |share| {
        heard.push(share);
        if share > 0.5 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    });
    assert_eq!(watched, Err(ReadError::Stopped));
    assert!(heard.len() >= 2 && heard.is_sorted(), "{heard:?}");
    assert!(heard.iter().all(|share| (0.0..=1.0).contains(share)));
}

#[test]
fn a_moment_reads_back_as_it_is_written() {
    // Seconds by Python's datetime.
    for (text, seconds) in [
        ("2026-11-05 14:30", 1_793_889_000),
        ("1970-01-01 00:00", 0),
        ("2100-12-31 23:59:59", 4_133_980_799),
    ] {
        assert_eq!(super::moment_from(text), Some(seconds));
        assert_eq!(super::moment(seconds), text);
    }
    for text in [
        "",
        "5-11-2026 14:30",
        "2026-11-05 14",
        "2026-13-05 14:30",
        "2026-11-05 24:30",
        "26-11-05 14:30",
    ] {
        assert_eq!(super::moment_from(text), None, "{text}");
    }
}
