//! A sheet as text: commas between columns, points before decimals, dates as year-month-day.

use std::fmt::Write as _;

use super::columns::{Clocks, Columns, How, Numbers};
use super::grid::{DAY, Grid, Placed, Shown, Value};
use crate::series::date;
use crate::series::refused::ReadError;
use crate::series::rows::MOST_BYTES;

/// All rows. Line numbers are those of the sheet: empty rows count.
///
/// # Errors
/// More text than is read.
pub(super) fn text(grid: &Grid, columns: &Columns) -> Result<String, ReadError> {
    let mut out = String::new();
    let mut next = 0;
    for (row, cells) in grid.rows() {
        while next <= row {
            if next > 0 {
                out.push('\n');
            }
            next += 1;
        }
        let mut at = 0;
        for cell in cells {
            while at < cell.column {
                out.push(',');
                at += 1;
            }
            let how = usize::try_from(cell.column).ok();
            let how = how.and_then(|at| columns.how.get(at)).copied();
            written(&mut out, grid, cell, how.unwrap_or_default());
        }
        while at + 1 < columns.width {
            out.push(',');
            at += 1;
        }
        if out.len() > MOST_BYTES {
            return Err(ReadError::TooLarge);
        }
    }
    out.push('\n');
    Ok(out)
}

fn written(out: &mut String, grid: &Grid, cell: &Placed, how: How) {
    match cell.value {
        Value::Number(value, Shown::Plain) => {
            match (how.numbers, grid.clock(value, Shown::Plain)) {
                (Numbers::Moments, Value::Clock(seconds, _)) => moment(out, seconds),
                (Numbers::Days, Value::Clock(seconds, _)) => day(out, seconds),
                (Numbers::TimesOfDay, Value::Time(seconds)) => of_day(out, seconds),
                _ => number(out, value),
            }
        }
        Value::Number(value, Shown::Percent) => {
            number(out, (value * 100.0 * 1e9).round() / 1e9);
            out.push('%');
        }
        Value::Number(value, Shown::Unit(sign)) => {
            number(out, value);
            out.push(' ');
            out.push_str(sign);
        }
        Value::Number(value, Shown::TimeOfDay) => number(out, value),
        Value::Clock(seconds, _) => match how.clocks {
            Clocks::Full => moment(out, seconds),
            Clocks::Day => day(out, seconds),
            Clocks::TimeOfDay => of_day(out, seconds.rem_euclid(DAY)),
        },
        Value::Time(seconds) => of_day(out, seconds),
        Value::Text(..) => {
            let text = grid.text_of(cell.value).unwrap_or_default();
            let clock = how.text_dates.and_then(|order| date::moment(text, order));
            match clock {
                Some(clock) if how.clocks == Clocks::Day => day(out, clock.seconds),
                Some(clock) => moment(out, clock.seconds),
                None if how.has_commas && text.contains(|sign: char| sign.is_ascii_digit()) => {
                    quoted(out, &text.replacen(',', ".", 1));
                }
                None => quoted(out, text),
            }
        }
        Value::Truth(truth) => out.push_str(if truth { "true" } else { "false" }),
        Value::Error => out.push_str("error"),
    }
}

// Writing to a text cannot fail.

fn number(out: &mut String, value: f64) {
    let _ = write!(out, "{value}");
}

fn of_day(out: &mut String, seconds: i64) {
    let (hour, rest) = (seconds.div_euclid(3600), seconds.rem_euclid(3600));
    let _ = write!(out, "{hour:02}:{:02}:{:02}", rest / 60, rest % 60);
}

fn day(out: &mut String, seconds: i64) {
    let written = date::written(seconds - seconds.rem_euclid(DAY));
    out.push_str(written.split(' ').next().unwrap_or_default());
}

fn moment(out: &mut String, seconds: i64) {
    day(out, seconds);
    out.push(' ');
    of_day(out, seconds.rem_euclid(DAY));
}

/// Text in quotes where it needs them, on one line.
fn quoted(out: &mut String, text: &str) {
    let needs = text.contains(['"', ',', '\r', '\n']) || text.starts_with(' ');
    if !needs {
        out.push_str(text);
        return;
    }
    out.push('"');
    for sign in text.chars() {
        match sign {
            '"' => out.push_str("\"\""),
            '\r' | '\n' => out.push(' '),
            other => out.push(other),
        }
    }
    out.push('"');
}
