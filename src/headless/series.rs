//! `gapledger series`: reads a logger's file and prints what it understood.

use super::page;
use super::series_columns::{ColumnRefused, ColumnWord, column};
use crate::report::series as told;
use crate::series::{
    self, DateOrder, Decimal, Encoding, Given, Guess, MOST_BYTES, Mapping, ReadError, Separator,
    Zone,
};
use crate::survey::file::{DataError, read_data_file};
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What `series` may be told. What is not said is guessed, and every guess is printed.
#[derive(Clone, Debug, PartialEq, Args)]
pub struct SeriesArguments {
    /// The logger's file: CSV, TXT or XLSX
    pub file: PathBuf,
    /// Order of the dates, needed where both ways are possible
    #[arg(long, value_name = "ORDER")]
    pub order: Option<OrderWord>,
    /// Time zone of the logger's clock: a name such as Europe/London, or an offset such as +01:00
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true, value_parser = zone)]
    pub zone: Option<ZoneWord>,
    /// Seconds by which the logger's clock was ahead
    #[arg(long, value_name = "SECONDS", allow_hyphen_values = true,
          value_parser = seconds_ahead)]
    pub ahead: Option<i64>,
    /// Sign between columns
    #[arg(long, value_name = "SIGN")]
    pub separator: Option<SeparatorWord>,
    /// Sign before decimals
    #[arg(long, value_name = "SIGN")]
    pub decimal: Option<DecimalWord>,
    /// Encoding of the text
    #[arg(long, value_name = "ENCODING")]
    pub encoding: Option<EncodingWord>,
    /// Sheet of a spreadsheet; the first that has readings where none is named
    #[arg(long, value_name = "NAME")]
    pub sheet: Option<String>,
    /// What a column holds, by its heading or its number: "Hum in=rh", "4=temperature F", "2=left-out"
    #[arg(long, value_name = "COLUMN=WHAT", value_parser = column)]
    pub column: Vec<ColumnWord>,
}

/// Most seconds by which a clock is wrong: a hundred years, so that one that began anew in 1970 is
/// within.
const MOST_AHEAD: i64 = 3_155_760_000;

/// Seconds as typed.
fn seconds_ahead(text: &str) -> Result<i64, String> {
    let seconds = text.trim().parse::<i64>().ok();
    seconds
        .filter(|seconds| (-MOST_AHEAD..=MOST_AHEAD).contains(seconds))
        .ok_or_else(|| {
            "write whole seconds, such as 90, or -90 where the clock was behind; at most a hundred years"
                .to_owned()
        })
}

/// An order of dates as written on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum OrderWord {
    /// 2026-01-31
    YearMonthDay,
    /// 31/01/2026
    DayMonthYear,
    /// 01/31/2026
    MonthDayYear,
}

/// A sign between columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SeparatorWord {
    /// ,
    Comma,
    /// ;
    Semicolon,
    /// Tabulator
    Tab,
}

/// A sign before decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DecimalWord {
    /// 12.5
    Point,
    /// 12,5
    Comma,
}

/// An encoding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum EncodingWord {
    /// UTF-8
    Utf8,
    /// UTF-16, low byte first
    Utf16Low,
    /// UTF-16, high byte first
    Utf16High,
    /// Windows-1252
    Windows1252,
}

/// A time zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ZoneWord {
    /// Seconds ahead of universal time.
    Offset(i64),
    /// By name.
    Named(String),
}

/// A zone as typed: an offset begins with its sign.
fn zone(text: &str) -> Result<ZoneWord, String> {
    let asks = "write an offset as +01:00, or a name as Europe/London";
    let Some(sign) = text.chars().next().filter(|sign| matches!(sign, '+' | '-')) else {
        return if text.is_empty() {
            Err(String::from(asks))
        } else {
            Ok(ZoneWord::Named(text.to_owned()))
        };
    };
    let digits = text.get(1..).unwrap_or_default();
    let (hours, minutes) = match digits.split_once(':') {
        Some(both) => both,
        // As in 2026-01-31T08:00:00+0100.
        None if digits.len() == 4 => digits.split_at_checked(2).unwrap_or((digits, "0")),
        None => (digits, "0"),
    };
    match (hours.parse::<i64>(), minutes.parse::<i64>()) {
        (Ok(hours @ 0..=14), Ok(minutes @ 0..=59)) => {
            let seconds = hours * 3600 + minutes * 60;
            Ok(ZoneWord::Offset(if sign == '-' {
                -seconds
            } else {
                seconds
            }))
        }
        _ => Err(String::from(asks)),
    }
}

/// Why nothing of a file can be said.
#[derive(Debug, thiserror::Error)]
pub(super) enum SeriesFailure {
    #[error("there is no file \u{201c}{0}\u{201d}")]
    NoFile(String),
    #[error("\u{201c}{0}\u{201d} is no file with readings but a folder, a pipe or a device")]
    NotAFile(String),
    #[error("\u{201c}{0}\u{201d} is larger than {mb} MB; export a shorter stretch of time", mb = MOST_BYTES >> 20)]
    TooLarge(String),
    #[error("{0}")]
    Other(String),
}

/// What was understood of a file.
pub(super) struct Understood {
    /// To be printed.
    pub(super) text: String,
    /// Whether all of it could be read: not where a cell is wrong or day and month could be either.
    pub(super) is_whole: bool,
}

/// Reads a file and says what it understood.
pub(super) fn text(arguments: &SeriesArguments) -> Result<Understood, SeriesFailure> {
    let bytes = bytes(&arguments.file)?;
    let name = arguments.file.file_name().unwrap_or_default();
    let name = name.to_string_lossy();
    let understood = series::guess_with(&bytes, &given(arguments)).map_err(Refused::from);
    let understood = understood.and_then(|guess| {
        let mapping = mapping(arguments, &guess)?;
        if mapping.order.is_none() && guess.orders.len() > 1 {
            return Ok((told::question(&name, &guess), false));
        }
        match series::read(&bytes, &mapping) {
            Ok(series) => Ok((told::section(&name, &guess, &mapping, &series), true)),
            Err(error @ ReadError::NoColumn(_)) => {
                Ok((told::columns(&name, &guess, &mapping, &error), false))
            }
            Err(error) => Err(error.into()),
        }
    });
    Ok(match understood {
        Ok((section, is_whole)) => Understood {
            text: page::alone(&section),
            is_whole,
        },
        Err(error) => Understood {
            // Its cells may hold what would steer a terminal.
            text: page::harmless(&format!("{name}: {error}")) + "\n",
            is_whole: false,
        },
    })
}

/// Why a file is not read.
#[derive(Debug, thiserror::Error)]
enum Refused {
    #[error("{0}")]
    File(#[from] ReadError),
    #[error("{0}")]
    Column(#[from] ColumnRefused),
}

/// What was said of the file as a whole; the rest is guessed by it.
fn given(arguments: &SeriesArguments) -> Given {
    Given {
        encoding: arguments.encoding.map(|encoding| match encoding {
            EncodingWord::Utf8 => Encoding::Utf8,
            EncodingWord::Utf16Low => Encoding::Utf16Low,
            EncodingWord::Utf16High => Encoding::Utf16High,
            EncodingWord::Windows1252 => Encoding::Windows1252,
        }),
        separator: arguments.separator.map(|separator| match separator {
            SeparatorWord::Comma => Separator::Comma,
            SeparatorWord::Semicolon => Separator::Semicolon,
            SeparatorWord::Tab => Separator::Tab,
        }),
        decimal: arguments.decimal.map(|decimal| match decimal {
            DecimalWord::Point => Decimal::Point,
            DecimalWord::Comma => Decimal::Comma,
        }),
        sheet: arguments.sheet.clone().unwrap_or_default(),
    }
}

fn mapping(arguments: &SeriesArguments, guess: &Guess) -> Result<Mapping, ColumnRefused> {
    let mut mapping = guess.mapping.clone();
    let mut said = BTreeSet::new();
    for column in &arguments.column {
        let at = column.put(guess, &mut mapping)?;
        if !said.insert(at) {
            return Err(ColumnRefused::Twice(at + 1));
        }
    }
    if let Some(order) = arguments.order {
        mapping.order = Some(match order {
            OrderWord::YearMonthDay => DateOrder::YearMonthDay,
            OrderWord::DayMonthYear => DateOrder::DayMonthYear,
            OrderWord::MonthDayYear => DateOrder::MonthDayYear,
        });
    }
    match &arguments.zone {
        Some(ZoneWord::Offset(seconds)) => mapping.zone = Zone::Offset(*seconds),
        Some(ZoneWord::Named(name)) => mapping.zone = Zone::Named(name.clone()),
        None => {}
    }
    mapping.clock_ahead_s = arguments.ahead.unwrap_or(0);
    Ok(mapping)
}

/// The bytes of a regular file of a size that can be read; what is anything else is not opened.
fn bytes(path: &Path) -> Result<Vec<u8>, SeriesFailure> {
    let shown = || page::harmless(&path.display().to_string());
    read_data_file(path).map_err(|error| match error {
        DataError::Missing { .. } => SeriesFailure::NoFile(shown()),
        DataError::NotAFile { .. } => SeriesFailure::NotAFile(shown()),
        DataError::TooLarge { .. } => SeriesFailure::TooLarge(shown()),
        other => SeriesFailure::Other(page::harmless(&other.to_string())),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;

    #[derive(Parser)]
    struct Line {
        #[command(flatten)]
        arguments: SeriesArguments,
    }

    fn parsed(words: &[&str]) -> Result<SeriesArguments, clap::Error> {
        let line = ["series"].iter().chain(words);
        Line::try_parse_from(line).map(|line| line.arguments)
    }

    /// What is said of a text with these words behind its name.
    fn said(text: &str, words: &[&str]) -> String {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("log\u{1b}[31m.csv");
        std::fs::write(&file, text).unwrap();
        let mut all = vec![file.to_str().unwrap()];
        all.extend(words);
        super::text(&parsed(&all).unwrap()).unwrap().text
    }

    #[test]
    fn what_was_said_of_a_file_is_known_before_the_rest_is_guessed() {
        let mut text = String::from("Time,Temp (°C),RH (%)\n");
        for row in 10..40 {
            text.push_str(&format!("2026-01-20 08:{row},\"4,25\",\"61,75\"\n"));
        }
        let words = ["--separator", "comma", "--decimal", "comma"];
        assert!(said(&text, &words).contains("61.8"));
    }

    #[test]
    fn columns_that_are_left_out_are_named_and_can_be_read() {
        let mut text = String::from("Time,Temp (°C),Clamminess\n");
        for row in 10..40 {
            text.push_str(&format!("2026-01-20 08:{row},4.25,61.75\n"));
        }
        let before = said(&text, &[]);
        assert!(before.contains("3 \u{201c}Clamminess\u{201d}"), "{before}");
        let after = said(&text, &["--column", "Clamminess=rh"]);
        assert!(
            !after.contains("left out") && after.contains("61.8"),
            "{after}"
        );
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn what_calls_itself_empty_and_makes_a_reader_wait_is_not_read() {
        // It says that it holds nothing, and does: what waits for the next message of the system
        // would be read too where this is.
        let version = Path::new("/proc/version");
        assert!(!std::fs::read(version).unwrap().is_empty());
        assert!(bytes(version).unwrap().is_empty());
        let missing = bytes(Path::new("/no-such-folder/x.csv")).unwrap_err();
        assert!(missing.to_string().starts_with("there is no file"));
    }

    #[test]
    fn a_column_that_is_told_twice_is_refused() {
        let text = "Time,Temp (°C)\n2026-01-20 08:00,12\n2026-01-20 08:10,13\n";
        for twice in [["2=rh", "2=temperature"], ["2=rh", "temp (°c)=rh"]] {
            let said = said(text, &["--column", twice[0], "--column", twice[1]]);
            assert!(said.contains("column 2 is told twice"), "{said}");
        }
    }

    #[test]
    fn nothing_of_a_file_steers_the_terminal() {
        for text in [
            "x",
            "Time,Temp °C\n\u{1b}[31mEVIL\u{1b}[0m,12\n",
            "Time,Temp °C\n2026-01-20 08:00,12\n2026-01-20 08:10,\u{1b}[2J\n",
        ] {
            assert!(!said(text, &[]).contains('\u{1b}'));
        }
    }

    #[test]
    fn a_clock_is_wrong_by_less_than_a_lifetime() {
        assert!(parsed(&["f", "--ahead", "-1800000000"]).is_ok());
        for wrong in ["9223372036854775807", "9000000000", "x", "1.5"] {
            let refused = parsed(&["f", "--ahead", wrong]).unwrap_err().to_string();
            assert!(refused.contains("write whole seconds"), "{refused}");
        }
        let quarter = Some(ZoneWord::Offset(-12_600));
        assert_eq!(parsed(&["f", "--zone", "-0330"]).unwrap().zone, quarter);
    }
}
