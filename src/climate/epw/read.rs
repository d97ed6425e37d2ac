//! A weather file read: bytes in, rows out.

use super::columns::{COLUMNS, Row, VALUES};
use super::error::EpwError;
use crate::climate::calendar::{Day, MonthDay, days_in_month};
use crate::climate::hour::{Hour, Place, Weather};
use crate::climate::words::number as number_in_words;

/// Lines of the head, and the word that each begins with.
const HEAD: [&str; 8] = [
    "LOCATION",
    "DESIGN CONDITIONS",
    "TYPICAL/EXTREME PERIODS",
    "GROUND TEMPERATURES",
    "HOLIDAYS/DAYLIGHT SAVINGS",
    "COMMENTS 1",
    "COMMENTS 2",
    "DATA PERIODS",
];
/// Columns before the first number of the weather: date, hour, minute, sources.
const BEFORE: usize = 6;
/// Columns that a row has at least: older files leave out the last three.
const LEAST_COLUMNS: usize = 32;
/// No sky sends less infrared: what is written as less was never measured, W/m² **\[A\]**.
const LEAST_INFRARED: f64 = 50.0;
/// What stands for a missing value is nines, and this at most; what is larger is no number of the
/// weather.
const LARGEST_CODE: f64 = 999_999_999.0;
/// Most letters of the name of a place.
const LONGEST_NAME: usize = 60;
/// Tenths of the sky.
const TENTHS: f64 = 10.0;
/// Percent.
const PERCENT: f64 = 100.0;

/// A weather file.
#[derive(Clone, Debug, PartialEq)]
pub struct Epw {
    /// Where it was recorded.
    pub place: Place,
    /// The hours, one after another.
    pub rows: Vec<Row>,
}

/// Reads a weather file. It is UTF-8, or where it is not, Windows-1252.
///
/// # Errors
/// [`EpwError`], with the line and the column, where it is cut short, holds no weather of this
/// format, leaves out an hour, or holds a number that cannot be.
pub fn read(bytes: &[u8]) -> Result<Epw, EpwError> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => std::borrow::Cow::Borrowed(text),
        Err(_) => encoding_rs::WINDOWS_1252.decode(bytes).0,
    };
    let text = text.trim_start_matches('\u{feff}');
    let mut lines = text.lines().zip(1..);
    let place = head(&mut lines)?;
    let mut rows: Vec<Row> = Vec::new();
    let mut last_line = HEAD.len();
    let mut columns = None;
    for (line, number) in lines {
        if line.trim().is_empty() {
            continue;
        }
        let row = row(line, number, &mut columns)?;
        if let Some(before) = rows.last() {
            follows(before, &row, number)?;
        }
        rows.push(row);
        last_line = number;
    }
    let (first, last) = match (rows.first(), rows.last()) {
        (Some(first), Some(last)) => (first, last),
        _ => {
            return Err(EpwError::line(
                last_line + 1,
                "the file ends where the hours should begin",
            ));
        }
    };
    if last.hour != 24 {
        return Err(EpwError::line(last_line + 1, cut_short(last)));
    }
    let whole_year = (first.day.month, first.day.day) == (1, 1);
    if whole_year && (last.day.month, last.day.day) != (12, 31) {
        return Err(EpwError::line(last_line + 1, cut_short(last)));
    }
    Ok(Epw { place, rows })
}

fn cut_short(last: &Row) -> String {
    format!(
        "the file is cut short: its last hour is number {} of {} {}",
        last.hour,
        last.day.day,
        MonthDay::month_name(last.day.month)
    )
}

/// The head: where the weather is from; and that there is one record an hour.
fn head<'a>(lines: &mut impl Iterator<Item = (&'a str, usize)>) -> Result<Place, EpwError> {
    let mut place = None;
    for (at, word) in HEAD.into_iter().enumerate() {
        let Some((line, number)) = lines.next() else {
            let sentence = if at == 0 {
                "the file is empty".to_owned()
            } else {
                format!("the file ends where \u{201c}{word}\u{201d} should stand")
            };
            return Err(EpwError::line(at + 1, sentence));
        };
        let begins = line.get(..word.len());
        if !begins.is_some_and(|begins| begins.eq_ignore_ascii_case(word)) {
            return Err(EpwError::line(
                number,
                format!(
                    "a weather file of building simulation (EPW) has \u{201c}{word}\u{201d} here"
                ),
            ));
        }
        match word {
            "LOCATION" => place = Some(location(line, number)?),
            "DATA PERIODS" => one_record_an_hour(line, number)?,
            _ => {}
        }
    }
    place.ok_or_else(|| EpwError::line(1, "there is no place"))
}

fn location(line: &str, number: usize) -> Result<Place, EpwError> {
    let cells: Vec<&str> = line.split(',').map(str::trim).collect();
    let value = |column: usize, name: &str, (least, most): (f64, f64)| {
        let text = cells.get(column - 1).copied().ok_or_else(|| {
            EpwError::at(number, column, format!("the line ends before the {name}"))
        })?;
        let value = text.parse::<f64>().ok();
        value
            .filter(|value| (least..=most).contains(value))
            .ok_or_else(|| {
                let shown: String = text.chars().take(20).collect();
                EpwError::at(
                    number,
                    column,
                    format!(
                        "the {name} should be a number from {} to {}, not \u{201c}{}\u{201d}",
                        number_in_words(least),
                        number_in_words(most),
                        shown.escape_debug()
                    ),
                )
            })
    };
    Ok(Place {
        name: cut(cells.get(1).copied().unwrap_or_default()),
        latitude_deg: value(7, "latitude", (-90.0, 90.0))?,
        longitude_deg: value(8, "longitude", (-180.0, 180.0))?,
        zone_h: value(9, "time zone", (-12.0, 14.0))?,
        clock_assumed: false,
        altitude_m: value(10, "altitude", (-450.0, 6000.0))?,
    })
}

/// A name, cut where no person would have written so much.
fn cut(name: &str) -> String {
    let mut cut: String = name.chars().take(LONGEST_NAME).collect();
    if cut.len() < name.len() {
        cut.push('\u{2026}');
    }
    cut
}

fn one_record_an_hour(line: &str, number: usize) -> Result<(), EpwError> {
    let text = line.split(',').nth(2).map(str::trim).unwrap_or_default();
    if text
        .parse::<f64>()
        .is_ok_and(|records| (records - 1.0).abs() < 1e-9)
    {
        return Ok(());
    }
    let shown: String = text.chars().take(20).collect();
    Err(EpwError::at(
        number,
        3,
        format!(
            "one record an hour is needed, not \u{201c}{}\u{201d}",
            shown.escape_debug()
        ),
    ))
}

fn row(line: &str, number: usize, columns: &mut Option<usize>) -> Result<Row, EpwError> {
    let cells: Vec<&str> = line.split(',').map(str::trim).collect();
    let wanted = *columns.get_or_insert(cells.len().clamp(LEAST_COLUMNS, BEFORE + VALUES));
    if cells.len() < wanted {
        return Err(EpwError::at(
            number,
            cells.len() + 1,
            format!("the row ends after {} of {wanted} columns", cells.len()),
        ));
    }
    let (day, hour) = when(&cells, number)?;
    let mut values = [None; VALUES];
    for ((column, text), value) in COLUMNS
        .iter()
        .zip(cells.iter().skip(BEFORE))
        .zip(&mut values)
    {
        // The codes of the observation are nine digits, or spaces in old files.
        if text.is_empty() && column.number > 22 {
            continue;
        }
        let found = text
            .parse::<f64>()
            .ok()
            .filter(|found| found.is_finite())
            .ok_or_else(|| EpwError::value(number, column, text))?;
        if (column.missing..=LARGEST_CODE).contains(&found) {
            continue;
        }
        if !(column.least..=column.most).contains(&found) {
            return Err(EpwError::value(number, column, text));
        }
        *value = Some(found);
    }
    Ok(Row {
        day,
        hour,
        sources: cells.get(5).copied().unwrap_or_default().to_owned(),
        values,
    })
}

fn when(cells: &[&str], number: usize) -> Result<(Day, u8), EpwError> {
    let whole = |column: usize, name: &str, (least, most): (i32, i32)| {
        let text = cells.get(column - 1).copied().unwrap_or_default();
        let value = text
            .parse::<f64>()
            .ok()
            .filter(|value| value.fract().abs() < 1e-9);
        (least..=most)
            .find(|wanted| value.is_some_and(|value| (value - f64::from(*wanted)).abs() < 0.5))
            .ok_or_else(|| {
                let shown: String = text.chars().take(20).collect();
                EpwError::at(
                    number,
                    column,
                    format!(
                        "the {name} should be a whole number from {least} to {most}, not \u{201c}{}\u{201d}",
                        shown.escape_debug()
                    ),
                )
            })
    };
    let year = whole(1, "year", (1800, 2200))?;
    let month = whole(2, "month", (1, 12))?;
    let month = u8::try_from(month).unwrap_or_default();
    // A leap day may stand in a year that has none, where typical months were put together.
    let longest = if month == 2 {
        29
    } else {
        days_in_month(year, month)
    };
    let day = whole(3, "day", (1, i32::from(longest)))?;
    let hour = whole(4, "hour", (1, 24))?;
    let small = |value: i32| u8::try_from(value).unwrap_or_default();
    let day = Day {
        year,
        month,
        day: small(day),
    };
    Ok((day, small(hour)))
}

/// The hour after another: none may be left out or come twice. The year may change where a month
/// begins, and the leap day may be there or not.
fn follows(before: &Row, row: &Row, number: usize) -> Result<(), EpwError> {
    let (last, now) = (before.day, row.day);
    let wrong = |column: usize, sentence: String| Err(EpwError::at(number, column, sentence));
    let same_day = (last.month, last.day) == (now.month, now.day);
    let in_sequence = if before.hour < 24 {
        same_day && row.hour == before.hour + 1
    } else {
        row.hour == 1 && is_next_day(last, now)
    };
    if !in_sequence {
        return wrong(
            4,
            format!(
                "hour {} of {} {} does not follow hour {} of {} {}: an hour is missing or stands twice",
                row.hour,
                now.day,
                MonthDay::month_name(now.month),
                before.hour,
                last.day,
                MonthDay::month_name(last.month)
            ),
        );
    }
    if now.month == last.month && now.year != last.year {
        return wrong(
            1,
            format!(
                "the year changes from {} to {} within {}: two years are mixed",
                last.year,
                now.year,
                MonthDay::month_name(now.month)
            ),
        );
    }
    Ok(())
}

fn is_next_day(last: Day, now: Day) -> bool {
    let next = last.next();
    let as_the_calendar = (next.month, next.day) == (now.month, now.day);
    let leap =
        (last.month, last.day) == (2, 28) && matches!((now.month, now.day), (2, 29) | (3, 1));
    let after_leap = (last.month, last.day) == (2, 29) && (now.month, now.day) == (3, 1);
    as_the_calendar || leap || after_leap
}

impl Epw {
    /// The hours as weather, short gaps filled ([`Weather::fill`]). Of direct, diffuse and global
    /// sun one that is missing all along stays missing here.
    #[must_use]
    pub fn weather(&self) -> Weather {
        let mut weather = Weather {
            place: self.place.clone(),
            hours: self.rows.iter().map(hour).collect(),
            invented: false,
        };
        weather.fill();
        weather
    }
}

fn hour(row: &Row) -> Hour {
    let t_c = row.value(7);
    let dew_point = row.value(8);
    let from_dew_point = || Some(Hour::rh_from_dew_point(t_c?, dew_point?));
    Hour {
        day: row.day,
        hour: row.hour,
        t_c,
        rh: row
            .value(9)
            .map(|rh| (rh / PERCENT).min(1.0))
            .or_else(from_dew_point),
        pressure: row.value(10),
        infrared: row.value(13).filter(|infrared| *infrared >= LEAST_INFRARED),
        global: row.value(14),
        direct: row.value(15),
        diffuse: row.value(16),
        wind_from_deg: row.value(21),
        wind: row.value(22),
        cloud: row.value(23).map(|tenths| tenths / TENTHS),
        filled: false,
    }
}
