//! Headings that stand over other columns than they belong to.

use super::cells::{cells, is_moment};
use super::heading::said;
use super::mapping::Separator;
use super::number::{self, Cell, Decimal};
use super::refused::ReadError;
use super::timing;

/// The lines above the first row as cells; a heading whose quotes go on over a line's end is one.
pub(super) fn above(
    text: &str,
    separator: Separator,
    lines: &[Vec<String>],
    first: usize,
) -> Vec<Vec<String>> {
    let raw: Vec<&str> = text.split('\n').take(first).collect();
    let is_odd = |line: &str| line.matches('"').count() % 2 == 1;
    let odd = raw.iter().filter(|line| is_odd(line)).count();
    if odd == 0 || odd % 2 == 1 {
        return lines.get(..first).unwrap_or_default().to_vec();
    }
    let mut joined = Vec::new();
    let mut open: Option<String> = None;
    for line in raw {
        let whole = match open.take() {
            Some(before) => format!("{before} {}", line.trim_start()),
            None => line.trim_end_matches('\r').to_owned(),
        };
        if is_odd(&whole) {
            open = Some(whole.trim_end().to_owned());
        } else {
            joined.push(cells(&whole, separator));
        }
    }
    joined
}

/// Headings over their columns: a column of row numbers may stand before the first without one.
///
/// # Errors
/// Where there are more columns with readings than headings, and nothing tells which belongs to which.
pub(super) fn set_right(
    headings: &mut Vec<String>,
    rows: &[Vec<String>],
    width: usize,
    line: usize,
) -> Result<(), ReadError> {
    let is_full = |cell: &String| !cell.trim().is_empty();
    let named = headings.iter().rposition(is_full).map_or(0, |at| at + 1);
    if !headings.iter().any(|heading| said(heading).is_some()) {
        return Ok(());
    }
    let of_width = || rows.iter().filter(|row| row.len() == width);
    let used = of_width()
        .filter_map(|row| row.iter().rposition(is_full))
        .max()
        .map_or(0, |at| at + 1);
    let is_reading = |cell: &String| {
        let mut decimals = Decimal::ALL.into_iter();
        is_moment(cell)
            || decimals.any(|decimal| matches!(number::cell(cell, decimal), Cell::Number(_)))
    };
    let mut beyond = of_width().flat_map(|row| row.iter().skip(named));
    if used <= named || !beyond.any(is_reading) {
        return Ok(());
    }
    let time_at = rows
        .first()
        .and_then(|row| row.iter().position(|cell| is_moment(cell)));
    let is_time = |at: usize| {
        headings
            .get(at)
            .is_some_and(|text| timing::is_named_time(text))
    };
    if used == named + 1
        && let Some(time_at) = time_at.filter(|at| *at > 0)
        && is_time(time_at - 1)
        && !is_time(time_at)
    {
        headings.insert(0, String::new());
        return Ok(());
    }
    Err(ReadError::HeadingsShort {
        line,
        headings: named,
        cells: used,
    })
}
