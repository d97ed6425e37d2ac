//! Lines that are no rows, before, among and behind them; what is left out of rows and told.

use super::super::{Decimal, Note, ReadError, Series, What, guess, moment, read};
use super::{file, read_as_guessed};

/// Twenty rows, an hour apart, with a line put in before the row of a number.
fn with_line(before: i64, line: &str) -> String {
    file("time,t °C,rh %", 20, |row| {
        let own = format!("2026-01-20 {row:02}:00,{row}.5,60");
        if row == before {
            format!("{line}\n{own}")
        } else {
            own
        }
    })
}

fn rows(text: &str) -> Series {
    let series = read_as_guessed(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    assert_eq!(series.times_s.len(), 20);
    assert_eq!(series.channels[0].values.get(19), Some(19.5));
    series
}

#[test]
fn a_line_without_a_time_among_the_rows_is_passed_over_and_told() {
    for line in [
        "# battery changed",
        "Logger stopped,,",
        "# restarted 2026-01-20",
        "time,t °C,rh %",
        ",7.5,60",
        "Device: TH-12",
        "12.3,,",
    ] {
        for text in [with_line(7, line), with_line(1, line)] {
            let notes = rows(&text).notes;
            assert!(
                matches!(notes.as_slice(), [Note::PassedOver(1, 3 | 9)]),
                "{line}: {notes:?}"
            );
        }
    }
    assert_eq!(rows(&with_line(7, "   ")).notes, []);
    let two = with_line(7, "Device: TH-12\nInterval: 10 min\n\ntime,t °C,rh %");
    assert_eq!(rows(&two).notes, [Note::PassedOver(3, 9)]);
    for line in [
        "200 records",
        "Total: 200,,",
        "Percentile 95,12.1,60",
        "Page 1 of 1",
    ] {
        let text = format!("{}{line}\n", with_line(99, ""));
        assert_eq!(rows(&text).notes, [Note::Ends(22)], "{line}");
    }
}

#[test]
fn what_was_meant_as_a_time_or_says_that_columns_change_is_no_line_to_pass_over() {
    for line in [
        "2026-01-32 07:00,7.5,60",
        "2026-01-20 25:00,7.5,60",
        "07:00 2026-01-20,7.5,60",
    ] {
        let error = read_as_guessed(&with_line(7, line)).expect_err("no such time");
        assert!(error.to_string().starts_with("line 9, column 1"), "{error}");
    }
    let error = read_as_guessed(&with_line(7, "time,rh %,t °C")).expect_err("other columns");
    assert!(
        matches!(
            error,
            ReadError::OtherHeadings {
                line: 9,
                column: 2,
                ..
            }
        ),
        "{error}"
    );
    let error = read_as_guessed(&with_line(7, "time,t °F,rh %")).expect_err("another unit");
    assert!(
        matches!(
            error,
            ReadError::OtherHeadings {
                line: 9,
                column: 2,
                ..
            }
        ),
        "{error}"
    );
}

#[test]
fn a_quote_that_goes_on_over_rows_is_told_by_its_line() {
    let noted = |closed: &str| {
        file("time,t °C,rh %,note", 20, |row| match row {
            7 => format!("2026-01-20 {row:02}:00,{row}.5,60,\"vent open{closed}"),
            9 => format!("2026-01-20 {row:02}:00,{row}.5,60,shut\""),
            _ => format!("2026-01-20 {row:02}:00,{row}.5,60,"),
        })
    };
    for text in [noted(""), noted("").replace("shut\"", "")] {
        for text in [text.replace('\n', "\r\n"), text] {
            let error = read_as_guessed(&text).expect_err("not closed");
            assert_eq!(error, ReadError::QuoteNotClosed { line: 9 });
        }
    }
    // A remark of two lines is one.
    rows(&noted("\nand shut\"").replace("shut\"\n2026-01-20 10", "shut\n2026-01-20 10"));
}

#[test]
fn words_among_numbers_and_rows_cut_short_are_left_out_and_told() {
    for word in [
        "LO",
        "----",
        "...",
        "#N/A",
        "no data",
        "Err1",
        "E-02",
        "?",
        "unavailable",
    ] {
        let text = with_line(99, "").replace("07:00,7.5", &format!("07:00,{word}"));
        let text = text.replace("08:00,8.5", &format!("08:00,{word}"));
        let series = rows(&text);
        let told = Note::Words {
            column: 2,
            cells: 2,
            line: 9,
            found: word.to_owned(),
        };
        assert_eq!(series.notes, [told]);
        assert!(series.channels[0].values.get(7).unwrap().is_nan());
    }
    // What holds a number is no word, and a word that says nothing of a reading is a mistake.
    for cell in ["7,5", "> 7", "7:5", "warm"] {
        let text = with_line(99, "").replace("07:00,7.5", &format!("07:00,\"{cell}\""));
        assert!(matches!(
            read_as_guessed(&text),
            Err(ReadError::Cell {
                line: 9,
                column: 2,
                ..
            })
        ));
    }
    let text = with_line(99, "").replace("07:00,7.5,60", "07:00,7.5");
    let series = read_as_guessed(&text).expect("read");
    assert_eq!(series.times_s.len(), 19);
    assert_eq!(series.notes, [Note::ShortRows(1, 9)]);
}

#[test]
fn a_time_and_a_number_above_the_headings_are_no_row() {
    for above in [
        "Start time,2026-01-20 08:00,Interval,600\n",
        "Created,2026-11-29 10:00:00,12\n",
        "First reading,2026-01-20 08:00,1.3\nLast reading,2026-01-20 09:00,2.3\n\n",
        "2026-11-29 10:00,van,3.1\n",
        "2026-11-29 10:00,3\n\n",
    ] {
        assert_eq!(
            rows(&format!("{above}{}", with_line(99, ""))).notes,
            [],
            "{above}"
        );
    }
}

#[test]
fn rows_without_a_reading_come_first_too() {
    for (t, notes) in [("--,--", 2), (",", 2), ("nan,nan", 2)] {
        let text = with_line(99, "").replace("00:00,0.5,60", &format!("00:00,{t}"));
        let series = rows(&text);
        assert_eq!(moment(series.times_s[0]), "2026-01-20 00:00", "{t}");
        assert_eq!(series.notes, [Note::Missing(notes)]);
    }
    let text = with_line(99, "").replace("00:00,0.5,60", "00:00,Started,60");
    assert!(matches!(
        rows(&text).notes.as_slice(),
        [Note::Words { line: 2, .. }]
    ));
}

#[test]
fn sensors_one_below_the_other_are_refused_and_not_mixed() {
    let names = ["Inside", "Outside"];
    let turns = file("Sensor,time,t °C", 40, |row| {
        let name = names[usize::try_from(row % 2).unwrap()];
        format!(
            "{name},2026-01-20 {:02}:00:{:02},{row}",
            row / 2,
            row % 2 * 37
        )
    });
    let at_once = turns.replace(":37,", ":00,");
    let blocks = file("Sensor,time,t °C", 40, |row| {
        let name = names[usize::try_from(row / 20).unwrap()];
        format!(
            "{name},2026-01-20 {:02}:00:{:02},{row}",
            row % 20,
            row / 20 * 37
        )
    });
    for text in [turns, at_once.clone(), blocks] {
        assert_eq!(
            read_as_guessed(&text),
            Err(ReadError::SensorsBelowEachOther {
                column: 1,
                first: String::from("Inside"),
                second: String::from("Outside"),
            })
        );
    }
    // Nobody names them.
    let unnamed = at_once.replace("Inside", "x").replace("Outside", "x");
    assert!(matches!(
        read_as_guessed(&unnamed),
        Err(ReadError::SameTimes(20, _))
    ));
    // A state is no sensor.
    let state = file("State,time,t °C", 20, |row| {
        format!(
            "{},2026-01-20 {row:02}:00,{row}.5",
            if row % 5 < 2 { "on" } else { "off" }
        )
    });
    assert_eq!(rows(&state).notes, []);
}

#[test]
fn headings_belong_to_their_columns_or_the_file_is_refused() {
    let numbered = "\"time\",\"temp_c\",\"rh\"\n\"1\",2026-01-20 08:00:00,7.5,60\n\"2\",2026-01-20 08:10:00,7.5,60\n";
    let two_lines =
        "\"Time\",\"Temp\n(°C)\",\"RH\n(%)\"\n2026-01-20 08:00,7.5,60\n2026-01-20 08:10,7.5,60\n";
    for text in [numbered, two_lines] {
        let series = read_as_guessed(text).expect("read");
        let found: Vec<_> = series
            .channels
            .iter()
            .map(|channel| (channel.what, channel.values.get(0)))
            .collect();
        let expected = [
            (What::Temperature, Some(7.5)),
            (What::RelativeHumidity, Some(60.0)),
        ];
        assert_eq!(found, expected, "{text}");
    }
    let parted = "Time,Temp °C,RH %\n2026-01-20 08:00,7,63,62,7\n2026-01-20 08:10,7,61,62,7\n";
    assert_eq!(
        guess(parted.as_bytes()),
        Err(ReadError::HeadingsShort {
            line: 1,
            headings: 3,
            cells: 5
        })
    );
    let quoted = "Time,Temp °C,RH %\n2026-01-20 08:00,\"7,63\",\"62,7\"\n";
    let series = read_as_guessed(quoted).expect("read");
    assert_eq!(series.channels[0].values.get(0), Some(7.63));
}

#[test]
fn whole_numbers_first_tell_nothing_of_the_sign_before_decimals() {
    for (sign, decimal) in [('.', Decimal::Point), (',', Decimal::Comma)] {
        let text = file("time;t °C", 600, |row| {
            let (day, hour) = (1 + row / 24, row % 24);
            let value = if row < 500 {
                "7".to_owned()
            } else {
                format!("7{sign}25")
            };
            format!("2026-01-{day:02} {hour:02}:00;{value}")
        });
        let mapping = guess(text.as_bytes()).expect("understood").mapping;
        assert_eq!(mapping.decimal, decimal);
        let series = read(text.as_bytes(), &mapping).expect("read");
        assert_eq!(series.channels[0].values.get(599), Some(7.25));
    }
}

#[test]
fn lines_that_end_in_a_carriage_return_alone_are_lines() {
    let series = rows(&with_line(99, "").replace('\n', "\r"));
    assert_eq!(series.notes, []);
}

#[test]
fn a_text_without_rows_is_refused_by_the_line_that_looks_most_like_one() {
    for (text, told) in [
        (
            "Time;Temp\nfirst of May;7.5;60\n1st of May 8;7.5;60\n",
            "line 3 looks most like one, where column 1 holds \u{201c}1st of May 8\u{201d}: a date with a time \
             of day was expected",
        ),
        (
            "Time  Temp\n2026-01-20 08:00  7.5  60\n",
            "line 2 looks most like one, where column 1 holds \u{201c}2026-01-20 08:00  7.5  60\u{201d}: columns \
             parted by commas",
        ),
        (
            "Time;Temp\n2026-01-20 08:00;warm\n",
            "line 2 looks most like one, where column 2 holds \u{201c}warm\u{201d}: a number was expected",
        ),
    ] {
        let error = guess(text.as_bytes()).expect_err("no rows");
        assert!(error.to_string().contains(told), "{error}");
    }
}

#[test]
fn quotes_that_keep_a_spreadsheet_from_changing_a_cell_are_no_part_of_it() {
    let quoted = file("'time','t °C','rh %'", 20, |row| {
        format!("'2026-01-20 {row:02}:00','{row}.5','60'")
    });
    let kept = file("time,t °C,rh %", 20, |row| {
        format!("=\"2026-01-20 {row:02}:00\",=\"{row}.5\",60")
    });
    for text in [quoted, kept] {
        assert_eq!(rows(&text).notes, []);
    }
}
