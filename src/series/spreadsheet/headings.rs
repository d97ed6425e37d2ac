//! Headings of groups of columns, which stand in cells that were made one.

use calamine::Dimensions;

use super::grid::{Grid, Placed, Value};
use crate::series::date;
use crate::series::refused::ReadError;

/// Most groups that are looked at.
const MOST: usize = 2_000;

/// Whether a heading may stand over several columns: above the readings, a text with nothing beside it
/// and something below that.
pub(super) fn may_be_grouped(grid: &Grid) -> bool {
    let readings = first_readings(grid);
    grid.cells
        .iter()
        .take_while(|cell| cell.row < readings)
        .take(MOST)
        .any(|cell| {
            matches!(cell.value, Value::Text(..))
                && grid.at(cell.row, cell.column + 1).is_none()
                && grid.at(cell.row + 1, cell.column + 1).is_some()
        })
}

/// Puts the heading of a group in front of the headings of its columns.
///
/// # Errors
/// More text than is read.
pub(super) fn spread(grid: &mut Grid, merged: &[Dimensions]) -> Result<(), ReadError> {
    let readings = first_readings(grid);
    let mut gone = Vec::new();
    for group in merged
        .iter()
        .filter(|one| one.start.0 == one.end.0 && one.start.1 < one.end.1 && one.end.0 < readings)
        .take(MOST)
    {
        let (row, from, to) = (group.start.0, group.start.1, group.end.1);
        let Some(at) = grid.at(row, from) else {
            continue;
        };
        let Some(name) = grid.cells.get(at).and_then(|cell| grid.text_of(cell.value)) else {
            continue;
        };
        let name = name.trim().to_owned();
        let below: Vec<(usize, Placed)> = grid
            .cells
            .iter()
            .copied()
            .enumerate()
            .skip(at)
            .skip_while(|(_, cell)| cell.row <= row)
            .take_while(|(_, cell)| cell.row == row + 1)
            .collect();
        let is_inside = |cell: &Placed| (from..=to).contains(&cell.column);
        // What stands over all of them is a title.
        if row + 1 >= readings || below.iter().all(|(_, cell)| is_inside(cell)) {
            continue;
        }
        for (at, cell) in below.iter().filter(|(_, cell)| is_inside(cell)) {
            let Some(own) = grid.text_of(cell.value) else {
                continue;
            };
            let both = format!("{name} {}", own.trim());
            let value = grid.text(&both)?;
            if let Some(cell) = grid.cells.get_mut(*at) {
                cell.value = value;
            }
        }
        gone.push((row, from));
    }
    grid.cells
        .retain(|cell| !gone.contains(&(cell.row, cell.column)));
    Ok(())
}

/// The first row that holds both a time and a number.
fn first_readings(grid: &Grid) -> u32 {
    let is_time = |cell: &Placed| match cell.value {
        Value::Clock(..) | Value::Time(_) => true,
        value => grid
            .text_of(value)
            .is_some_and(|text| !date::orders(text).is_empty()),
    };
    let is_number = |cell: &Placed| match cell.value {
        Value::Number(..) => true,
        value => grid.text_of(value).is_some_and(|text| {
            text.trim()
                .starts_with(|sign: char| sign.is_ascii_digit() || sign == '-')
        }),
    };
    let mut rows = grid.rows();
    rows.find(|(_, cells)| {
        cells.iter().any(is_time) && cells.iter().any(|cell| is_number(cell) && !is_time(cell))
    })
    .map_or(0, |(row, _)| row)
}
