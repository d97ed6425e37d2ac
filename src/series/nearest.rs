//! Why no line of a text is a row, told by the one that looks most like one.

use super::cells::{cells, is_moment};
use super::mapping::Separator;
use super::number::{self, Cell, Decimal};
use super::refused::ReadError;
use super::taken::short;

/// Words for the parts of a date, by which columns of their own are headed.
const PARTS: [&[&str]; 3] = [
    &[
        "year", "jahr", "année", "annee", "año", "anno", "jaar", "yyyy",
    ],
    &["month", "monat", "mois", "mes", "mese", "maand", "mm"],
    &["day", "tag", "jour", "día", "dia", "giorno", "dag", "dd"],
];

/// The refusal of a text without rows.
pub(super) fn refused(text: &str, separators: &[Separator], most: usize) -> ReadError {
    let holds_a_digit = |cell: &&String| cell.bytes().any(|byte| byte.is_ascii_digit());
    let mut best: Option<((usize, bool), usize, Vec<String>)> = None;
    for (at, line) in text.split('\n').take(most).enumerate() {
        for separator in separators {
            let cells = cells(line.trim_end_matches('\r'), *separator);
            if let Some(refused) = date_in_parts(&cells) {
                return refused;
            }
            let digits = cells.iter().filter(holds_a_digit).count();
            let worth = (digits, digits > 0 && cells.len() > 1);
            if worth > best.as_ref().map_or((0, false), |(most, ..)| *most) {
                best = Some((worth, at + 1, cells));
            }
        }
    }
    let Some((_, line, cells)) = best else {
        return ReadError::NoReadings;
    };
    let is_number = |cell: &str| {
        let mut decimals = Decimal::ALL.into_iter();
        decimals.any(|decimal| matches!(number::cell(cell, decimal), Cell::Number(_)))
    };
    let find = |wanted: &dyn Fn(&str) -> bool| cells.iter().position(|cell| wanted(cell));
    let (column, expected) = match (cells.len(), find(&is_moment)) {
        (1, _) => (
            0,
            "columns parted by commas, semicolons or tabs were expected, a time in one and numbers in others",
        ),
        (_, Some(time)) => {
            let other = find(&|cell| holds_a_digit(&&cell.to_owned()) && !is_moment(cell));
            let beside = if time == 0 { 1 } else { 0 };
            (other.unwrap_or(beside), "a number was expected")
        }
        (_, None) => (
            find(&|cell| holds_a_digit(&&cell.to_owned()) && !is_number(cell))
                .or_else(|| find(&|cell| holds_a_digit(&&cell.to_owned())))
                .unwrap_or(0),
            "a date with a time of day was expected, such as 2026-01-31 14:30",
        ),
    };
    ReadError::NoRow {
        line,
        column: column + 1,
        found: cells
            .get(column)
            .map_or_else(String::new, |cell| short(cell)),
        expected,
    }
}

/// Headings that put year, month and day into columns of their own.
fn date_in_parts(cells: &[String]) -> Option<ReadError> {
    let place = |words: &&[&str]| {
        let is_word = |cell: &String| words.contains(&cell.trim().to_lowercase().as_str());
        cells.iter().position(is_word)
    };
    let [year, month, day] = PARTS.each_ref().map(place);
    let places = [year?, month?, day?];
    let first = places.iter().min()?;
    let last = places.iter().max()?;
    Some(ReadError::DateInParts(first + 1, last + 1))
}
