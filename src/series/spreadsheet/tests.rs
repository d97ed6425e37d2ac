use std::io::{Cursor, Write};

use zip::write::SimpleFileOptions;

use super::super::{Column, DateOrder, Encoding};
use super::super::{Given, Note, ReadError, Series, Unit, What, guess, guess_with, moment, read};

/// Number formats of [`workbook`]: general, date with time, date, time, percent, `0.0 °F`, `hh:mm`
/// shown of a moment.
const STYLES: &str = "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">\
    <numFmts count=\"2\"><numFmt numFmtId=\"164\" formatCode=\"0.0&quot; °F&quot;\"/>\
    <numFmt numFmtId=\"165\" formatCode=\"[$-409]hh:mm;@\"/></numFmts><cellXfs>\
    <xf numFmtId=\"0\"/><xf numFmtId=\"22\"/><xf numFmtId=\"14\"/><xf numFmtId=\"21\"/>\
    <xf numFmtId=\"10\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/></cellXfs></styleSheet>";

/// A workbook of sheets whose rows are given as XML.
pub(in crate::series) fn workbook(sheets: &[(&str, &str)]) -> Vec<u8> {
    let mut listed = String::new();
    let mut related = String::from(
        "<Relationship Id=\"r0\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles\" Target=\"styles.xml\"/>",
    );
    let mut parts = Vec::new();
    for (at, (name, rows)) in sheets.iter().enumerate() {
        let id = at + 1;
        let (name, state) = match name.strip_prefix("hidden ") {
            Some(name) => (name, " state=\"hidden\""),
            None => (*name, ""),
        };
        listed.push_str(&format!(
            "<sheet name=\"{name}\" sheetId=\"{id}\"{state} r:id=\"r{id}\"/>"
        ));
        related.push_str(&format!(
            "<Relationship Id=\"r{id}\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet{id}.xml\"/>"
        ));
        let (rows, behind) = rows.split_once("MERGED").unwrap_or((rows, ""));
        parts.push((
            format!("xl/worksheets/sheet{id}.xml"),
            format!("<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>{rows}</sheetData>{behind}</worksheet>"),
        ));
    }
    let part = |name: &str, text: String| (String::from(name), text);
    parts.extend([
        part("[Content_Types].xml", String::from("<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>")),
        part("_rels/.rels", String::from("<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>")),
        part("xl/workbook.xml", format!("<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets>{listed}</sheets></workbook>")),
        part("xl/_rels/workbook.xml.rels", format!("<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{related}</Relationships>")),
        part("xl/styles.xml", String::from(STYLES)),
    ]);
    zipped(&parts)
}

fn zipped(parts: &[(String, String)]) -> Vec<u8> {
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        archive
            .start_file(name, SimpleFileOptions::default())
            .expect("part");
        archive.write_all(text.as_bytes()).expect("written");
    }
    archive.finish().expect("archive").into_inner()
}

/// A row of cells: text, or a number with `@` and the place of its format in [`STYLES`].
fn row(number: usize, cells: &[String]) -> String {
    let mut xml = format!("<row r=\"{number}\">");
    for (at, cell) in cells.iter().enumerate() {
        let place = format!(
            "{}{number}",
            char::from(b'A' + u8::try_from(at).expect("column"))
        );
        let (value, style) = cell.split_once('@').unwrap_or((cell, "0"));
        if cell.is_empty() {
            continue;
        }
        xml.push_str(&match value.parse::<f64>() {
            Ok(_) => format!("<c r=\"{place}\" s=\"{style}\"><v>{value}</v></c>"),
            Err(_) => format!("<c r=\"{place}\" t=\"inlineStr\"><is><t>{cell}</t></is></c>"),
        });
    }
    xml + "</row>"
}

/// Rows below a heading, of which the first is line 2.
fn rows(heading: &[&str], number: usize, cells: impl Fn(usize) -> Vec<String>) -> String {
    let heading: Vec<String> = heading.iter().map(|&cell| cell.into()).collect();
    let mut xml = row(1, &heading);
    for at in 0..number {
        xml.push_str(&row(at + 2, &cells(at)));
    }
    xml
}

/// 2026-01-20 08:00 and every ten minutes from there, as a workbook counts days.
fn day(at: usize) -> f64 {
    46_042.0 + (480.0 + 10.0 * number(at)) / 1440.0
}

fn number(at: usize) -> f64 {
    f64::from(u32::try_from(at).expect("row"))
}

fn temperature(at: usize) -> String {
    format!("{}.5", at % 9)
}

fn plain() -> String {
    rows(&["Time", "Temp (°C)"], 100, |at| {
        vec![format!("{}@1", day(at)), temperature(at)]
    })
}

fn read_as_guessed(bytes: &[u8]) -> Series {
    let guess = guess(bytes).expect("guessed");
    read(bytes, &guess.mapping).expect("read")
}

fn span(series: &Series) -> (String, String, usize) {
    let at = |time: Option<&i64>| moment(*time.expect("time"));
    (
        at(series.times_s.first()),
        at(series.times_s.last()),
        series.times_s.len(),
    )
}

fn hundred() -> (String, String, usize) {
    ("2026-01-20 08:00".into(), "2026-01-21 00:30".into(), 100)
}

#[test]
fn a_cell_far_from_the_others_takes_no_room() {
    let far = "<row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row>";
    let alone = format!("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>{far}");
    let error = guess(&workbook(&[("S", &alone)])).expect_err("no readings");
    assert!(matches!(error, ReadError::NoReadingsInSheets(_)), "{error}");
    let series = read_as_guessed(&workbook(&[("S", &format!("{}{far}", plain()))]));
    assert_eq!(span(&series), hundred());
}

#[test]
fn what_unpacks_to_too_much_is_refused_before_it_is_held() {
    let long = format!(
        "<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>{}</t></is></c></row>",
        "x".repeat(5 << 20)
    );
    let error = guess(&workbook(&[("S", &long)])).expect_err("too large");
    assert_eq!(error, ReadError::UnpacksTooLarge);
    // Room for more texts than the memory of any machine holds.
    let strings = "<sst uniqueCount=\"99999999999999\"></sst>";
    let mut parts = vec![(String::from("xl/sharedStrings.xml"), String::from(strings))];
    assert_eq!(guess(&zipped(&parts)), Err(ReadError::NoWorkbook));
    // A cell repeated over all columns of all rows.
    let content = "<table:table><table:table-row table:number-rows-repeated=\"1048576\">\
        <table:table-cell office:value=\"1\" table:number-columns-repeated=\"16384\"/>\
        </table:table-row></table:table>";
    parts = vec![(String::from("content.xml"), String::from(content))];
    assert_eq!(guess(&zipped(&parts)), Err(ReadError::TooManyCells));
    // Empty ones behind the last that holds something take no room.
    let content = "<table:table><table:table-row><table:table-cell office:value=\"1\"/>\
        <table:table-cell table:number-columns-repeated=\"16383\"/></table:table-row>\
        <table:table-row table:number-rows-repeated=\"1048575\">\
        <table:table-cell table:number-columns-repeated=\"16384\"/></table:table-row></table:table>";
    assert_eq!(super::open_document::measured(content.as_bytes()), Ok(()));
}

#[test]
fn workbooks_of_other_kinds_are_told_from_what_is_none() {
    let old = [
        &[0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1][..],
        &[0; 600],
    ]
    .concat();
    assert_eq!(guess(&old), Err(ReadError::OldWorkbook));
    let binary = zipped(&[(String::from("xl/workbook.bin"), String::from("x"))]);
    assert_eq!(guess(&binary), Err(ReadError::BinaryWorkbook));
}

#[test]
fn the_first_sheet_with_readings_is_read_and_told() {
    let cover = row(1, &["Report".into(), "200".into()]);
    let summary = rows(&["Sensor", "First", "Lowest °C"], 1, |_| {
        vec!["Inside".into(), "46042.5@1".into(), "-8.1".into()]
    });
    for first in [cover.as_str(), summary.as_str(), ""] {
        for name in ["Cover", "hidden Cover"] {
            let bytes = workbook(&[(name, first), ("Data", &plain())]);
            let guess = guess(&bytes).expect("guessed");
            assert_eq!(guess.mapping.sheet, "Data");
            let told = Note::SheetRead("Data".into(), vec!["Cover".into()]);
            assert_eq!(guess.notes, [told]);
            assert_eq!(
                span(&read(&bytes, &guess.mapping).expect("read")),
                hundred()
            );
        }
    }
    // Of two with readings the first, and the other where it is named.
    let other = rows(&["RH (%)", "Time"], 50, |at| {
        vec!["60".into(), format!("{}@1", day(at))]
    });
    let bytes = workbook(&[("A", &plain()), ("B", &other)]);
    assert_eq!(guess(&bytes).expect("guessed").mapping.sheet, "");
    let given = Given {
        sheet: "B".into(),
        ..Given::default()
    };
    let guess = guess_with(&bytes, &given).expect("guessed");
    assert_eq!(guess.headings, ["RH (%)", "Time"]);
    assert_eq!(guess.notes, []);
    assert_eq!(
        read(&bytes, &guess.mapping).expect("read").times_s.len(),
        50
    );
    let given = Given {
        sheet: "C".into(),
        ..Given::default()
    };
    let error = guess_with(&bytes, &given)
        .expect_err("no such sheet")
        .to_string();
    assert!(
        error.contains("“C”") && error.contains("“A” and “B”"),
        "{error}"
    );
}

#[test]
fn a_date_and_a_time_in_columns_of_their_own_are_put_together() {
    let times: [fn(usize) -> String; 3] = [
        // As a cell of a time, as text, and as a moment that is shown as a time.
        |at| format!("{}@3", day(at).fract()),
        |at| {
            let minutes = 480 + 10 * at;
            format!("{:02}:{:02}", minutes / 60 % 24, minutes % 60)
        },
        |at| format!("{}@6", day(at)),
    ];
    for time in times {
        let sheet = rows(&["Date", "Time", "Temp (°C)"], 100, |at| {
            vec![format!("{}@2", day(at).floor()), time(at), temperature(at)]
        });
        assert_eq!(
            span(&read_as_guessed(&workbook(&[("S", &sheet)]))),
            hundred()
        );
    }
    // Days alone are midnights.
    let sheet = rows(&["Date", "Temp (°C)"], 20, |at| {
        vec![format!("{}@2", 46_042 + at), temperature(at)]
    });
    let series = read_as_guessed(&workbook(&[("S", &sheet)]));
    assert_eq!(span(&series).1, "2026-02-08 00:00");
}

#[test]
fn a_time_is_read_to_the_nearest_second() {
    let sheet = rows(&["Time", "Temp (°C)"], 100, |at| {
        vec![format!("{:.6}@1", day(at)), temperature(at)]
    });
    let series = read_as_guessed(&workbook(&[("S", &sheet)]));
    assert_eq!(span(&series), hundred());
    assert!(series.times_s.iter().all(|time| time % 600 == 0));
}

#[test]
fn what_a_number_format_shows_is_what_is_read() {
    let sheet = rows(&["Time", "Temp", "RH"], 100, |at| {
        let temp = format!("{}@5", 40 + at % 9);
        vec![format!("{}@1", day(at)), temp, format!("{}@4", 0.627)]
    });
    let bytes = workbook(&[("S", &sheet)]);
    let guess = guess(&bytes).expect("guessed");
    assert_eq!(guess.units_not_said, [0; 0]);
    let column = |at: usize| guess.mapping.columns.get(at).cloned();
    let readings = |what, unit| {
        Some(Column::Readings {
            what,
            unit,
            sensor: String::new(),
        })
    };
    assert_eq!(column(1), readings(What::Temperature, Unit::Fahrenheit));
    assert_eq!(column(2), readings(What::RelativeHumidity, Unit::Percent));
    let series = read(&bytes, &guess.mapping).expect("read");
    let humidity = series.channels[1].values.get(0).expect("reading");
    assert!((humidity - 62.7).abs() < 1e-6);
}

#[test]
fn numbers_kept_as_text_may_have_a_comma_before_decimals() {
    let sheet = rows(&["Time", "Temp (°C)", "RH (%)"], 100, |at| {
        vec![
            format!("{}@1", day(at)),
            format!("-1{},5", at % 9),
            "61,2".into(),
        ]
    });
    let series = read_as_guessed(&workbook(&[("S", &sheet)]));
    assert_eq!(series.channels[0].values.get(3), Some(-13.5));
    // Beside numbers with a point, a comma stands between thousands, and that is told.
    let sheet = rows(&["Time", "Temp (°C)", "CO2 (ppm)"], 100, |at| {
        vec![format!("{}@1", day(at)), temperature(at), "1,200".into()]
    });
    let series = read_as_guessed(&workbook(&[("S", &sheet)]));
    assert_eq!(series.channels[1].values.get(3), Some(1200.0));
    assert_eq!(series.notes, [Note::Thousands(100, 2, 3)]);
}

#[test]
fn plain_numbers_below_the_heading_of_a_date_are_its_days() {
    let sheet = rows(&["Time", "Temp (°C)"], 100, |at| {
        vec![day(at).to_string(), temperature(at)]
    });
    let bytes = workbook(&[("S", &sheet)]);
    assert_eq!(guess(&bytes).expect("guessed").notes, [Note::DayNumbers(1)]);
    assert_eq!(span(&read_as_guessed(&bytes)), hundred());
    // Not below any other heading.
    let sheet = rows(&["Counter", "Temp (°C)"], 100, |at| {
        vec![day(at).to_string(), temperature(at)]
    });
    assert!(guess(&workbook(&[("S", &sheet)])).is_err());
}

#[test]
fn dates_kept_as_text_among_others_are_read_only_where_their_order_can_be_told() {
    let sheet = |first: fn(usize) -> f64| {
        rows(&["Time", "Temp (°C)"], 48, |at| {
            let date = if at < 30 {
                format!("{}@1", first(at))
            } else {
                format!("{:02}/01/2026 08:00", at - 17)
            };
            vec![date, temperature(at)]
        })
    };
    // From 20 December on day by day, or each on the first of a month.
    let steady = workbook(&[("S", &sheet(|at| 46_004.0 + number(at) * 0.8))]);
    let guess = guess(&steady).expect("guessed");
    assert_eq!(
        guess.notes,
        [Note::DatesAsText(18, DateOrder::DayMonthYear)]
    );
    assert_eq!(
        read(&steady, &guess.mapping).map(|series| series.times_s.len()),
        Ok(48)
    );
    let swapped = workbook(&[("S", &sheet(|at| 46_023.0 + number(at) * 11.0))]);
    let error = super::super::guess(&swapped).expect_err("swapped");
    assert_eq!(
        error,
        ReadError::MixedDates {
            line: 32,
            column: 1
        }
    );
}

#[test]
fn the_heading_of_a_group_stands_before_those_of_its_columns() {
    let mut sheet = row(1, &["Climate log".into()]);
    let texts = |cells: &[&str]| {
        cells
            .iter()
            .map(|&cell| cell.into())
            .collect::<Vec<String>>()
    };
    sheet += &row(3, &texts(&["Time", "Inside", "", "Outside", ""]));
    sheet += &row(
        4,
        &texts(&["", "Temp (°C)", "RH (%)", "Temp (°C)", "RH (%)"]),
    );
    for at in 0..60 {
        let (time, inside, outside) = (format!("{}@1", day(at)), temperature(at), "3.5".into());
        sheet += &row(at + 5, &[time, inside, "60".into(), outside, "80".into()]);
    }
    sheet += "MERGED<mergeCells><mergeCell ref=\"A1:C1\"/><mergeCell ref=\"B3:C3\"/>\
              <mergeCell ref=\"D3:E3\"/></mergeCells>";
    let series = read_as_guessed(&workbook(&[("S", &sheet)]));
    let sensors: Vec<&str> = series
        .channels
        .iter()
        .map(|one| one.sensor.as_str())
        .collect();
    assert_eq!(sensors, ["Inside", "Inside", "Outside", "Outside"]);
}

#[test]
fn what_was_said_of_another_text_does_not_hold_for_a_workbook() {
    let bytes = workbook(&[("S", &plain())]);
    let given = Given {
        encoding: Some(Encoding::Windows1252),
        decimal: Some(super::super::Decimal::Comma),
        ..Given::default()
    };
    let guess = guess_with(&bytes, &given).expect("guessed");
    assert_eq!(
        span(&read(&bytes, &guess.mapping).expect("read")),
        hundred()
    );
}

#[test]
fn a_file_wider_than_any_loggers_is_refused() {
    let wide = format!(
        "Time{}\n2026-01-20 08:00{}\n",
        ",T °C".repeat(5_000),
        ",1".repeat(5_000)
    );
    assert_eq!(guess(wide.as_bytes()), Err(ReadError::ManyColumns(1)));
    let long = "x".repeat(2 << 20);
    assert_eq!(guess(long.as_bytes()), Err(ReadError::LongLine(1)));
}

#[test]
fn a_sentence_shows_nothing_that_steers_a_terminal() {
    let text = "Time,Temp °C\n2026-01-20 08:00,12\n2026-01-20 08:10,x\u{1b}[2J\u{202e}2\n";
    let guess = guess(text.as_bytes()).expect("guessed");
    let error = read(text.as_bytes(), &guess.mapping)
        .expect_err("no number")
        .to_string();
    assert!(!error.contains(['\u{1b}', '\u{202e}']), "{error:?}");
    assert!(error.contains("\\u{1b}[2J"), "{error}");
}

#[test]
fn no_reading_is_larger_than_any_instrument_shows() {
    let text = "Time,Temp °C\n2026-01-20 08:00,12\n2026-01-20 08:10,1e308\n";
    let guess = guess(text.as_bytes()).expect("guessed");
    let error = read(text.as_bytes(), &guess.mapping).expect_err("too large");
    assert!(matches!(error, ReadError::Cell { line: 3, .. }), "{error}");
}
