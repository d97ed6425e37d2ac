//! A workbook that was opened, and the cells of one of its sheets.

use std::io::Cursor;

use calamine::{
    Data, DataRef, Dimensions, Ods, Reader, Sheet, SheetType, SheetVisible, Xlsx,
    open_workbook_from_rs,
};

use super::archive::{self, Kind};
use super::grid::{Grid, Shown, Value};
use crate::series::date::{self, DateOrder};
use crate::series::refused::ReadError;

/// A workbook.
pub(super) enum Book<'a> {
    OpenXml(Box<Xlsx<Cursor<&'a [u8]>>>),
    OpenDocument(Box<Ods<Cursor<&'a [u8]>>>),
}

impl<'a> Book<'a> {
    /// Opens a workbook, once what it unpacks to is known to be little enough.
    ///
    /// # Errors
    /// What is none, or too large.
    pub(super) fn open(bytes: &'a [u8]) -> Result<Self, ReadError> {
        let file = Cursor::new(bytes);
        Ok(match archive::measured(bytes)? {
            Kind::OpenXml => Self::OpenXml(Box::new(
                open_workbook_from_rs(file).map_err(|_| ReadError::NoWorkbook)?,
            )),
            Kind::OpenDocument => Self::OpenDocument(Box::new(
                open_workbook_from_rs(file).map_err(|_| ReadError::NoWorkbook)?,
            )),
        })
    }

    /// Names of its sheets, and whether each is shown. What holds a chart alone is none.
    pub(super) fn sheets(&self) -> Vec<(String, bool)> {
        let all: &[Sheet] = match self {
            Self::OpenXml(book) => book.sheets_metadata(),
            Self::OpenDocument(book) => book.sheets_metadata(),
        };
        all.iter()
            .filter(|sheet| sheet.typ == SheetType::WorkSheet)
            .map(|sheet| (sheet.name.clone(), sheet.visible == SheetVisible::Visible))
            .collect()
    }

    /// The cells of a sheet.
    ///
    /// # Errors
    /// No such sheet, or one that is too large.
    pub(super) fn grid(&mut self, name: &str) -> Result<Grid, ReadError> {
        let mut grid = match self {
            Self::OpenXml(book) => open_xml(book, name)?,
            Self::OpenDocument(book) => open_document(book, name)?,
        };
        grid.sort();
        Ok(grid)
    }

    /// Where cells were made one; none where that cannot be told.
    pub(super) fn merged(&mut self, name: &str) -> Vec<Dimensions> {
        match self {
            Self::OpenXml(book) => book.merge_cells_by_sheet_name(name).unwrap_or_default(),
            Self::OpenDocument(_) => Vec::new(),
        }
    }
}

fn open_xml(book: &mut Xlsx<Cursor<&[u8]>>, name: &str) -> Result<Grid, ReadError> {
    let mut grid = Grid::new(book.has_1904_epoch());
    let mut reader = book
        .worksheet_cells_reader(name)
        .map_err(|_| ReadError::NoSheet(name.to_owned(), Vec::new()))?;
    let shown: Vec<Shown> = reader
        .styles()
        .iter()
        .map(|style| {
            let format = style.number_format.as_ref();
            format.map_or(Shown::Plain, |format| Shown::of(&format.format_code))
        })
        .collect();
    while let Some((cell, style)) = reader
        .next_cell_with_style_id()
        .map_err(|_| ReadError::NoWorkbook)?
    {
        let shown = shown.get(style).copied().unwrap_or_default();
        let value = match cell.get_value() {
            DataRef::Empty => continue,
            DataRef::Int(number) => Value::Number(whole(*number), shown),
            DataRef::Float(number) => Value::Number(*number, shown),
            DataRef::String(text) => grid.text(text)?,
            DataRef::SharedString(text) => grid.text(text)?,
            DataRef::Bool(truth) => Value::Truth(*truth),
            DataRef::DateTime(days) if days.is_duration() => {
                Value::Time(super::grid::seconds(days.as_f64()))
            }
            DataRef::DateTime(days) => grid.clock(days.as_f64(), shown),
            DataRef::DateTimeIso(text) => iso(&mut grid, text, shown)?,
            DataRef::DurationIso(text) => stretch(&mut grid, text)?,
            DataRef::Error(_) => Value::Error,
        };
        grid.push(cell.get_position(), value)?;
    }
    Ok(grid)
}

fn open_document(book: &mut Ods<Cursor<&[u8]>>, name: &str) -> Result<Grid, ReadError> {
    let mut grid = Grid::new(false);
    let range = book
        .worksheet_range(name)
        .map_err(|_| ReadError::NoSheet(name.to_owned(), Vec::new()))?;
    let (first_row, first_column) = range.start().unwrap_or((0, 0));
    for (row, column, data) in range.used_cells() {
        let value = match data {
            Data::Empty => continue,
            Data::Int(number) => Value::Number(whole(*number), Shown::Plain),
            Data::Float(number) => Value::Number(*number, Shown::Plain),
            Data::String(text) => grid.text(text)?,
            Data::Bool(truth) => Value::Truth(*truth),
            Data::DateTime(days) => grid.clock(days.as_f64(), Shown::Plain),
            Data::DateTimeIso(text) => iso(&mut grid, text, Shown::Plain)?,
            Data::DurationIso(text) => stretch(&mut grid, text)?,
            Data::Error(_) => Value::Error,
        };
        let at = |first: u32, at: usize| {
            u32::try_from(at).map_or(u32::MAX, |at| first.saturating_add(at))
        };
        grid.push((at(first_row, row), at(first_column, column)), value)?;
    }
    Ok(grid)
}

#[expect(clippy::cast_precision_loss, reason = "readings have fewer digits")]
fn whole(number: i64) -> f64 {
    number as f64
}

/// A date as the standard writes it, or else the text.
fn iso(grid: &mut Grid, text: &str, shown: Shown) -> Result<Value, ReadError> {
    match date::moment(text, DateOrder::YearMonthDay) {
        Some(clock) if clock.offset_s.is_none() => {
            Ok(Value::Clock(clock.seconds, shown == Shown::TimeOfDay))
        }
        _ => grid.text(text),
    }
}

/// `PT08H30M00S` as a time, or else the text.
fn stretch(grid: &mut Grid, text: &str) -> Result<Value, ReadError> {
    let mut seconds = Some(0_i64);
    let mut digits = String::new();
    for sign in text.trim_start_matches("PT").chars() {
        if sign.is_ascii_digit() || sign == '.' || sign == ',' {
            digits.push(sign);
            continue;
        }
        let factor = match sign {
            'H' => 3600,
            'M' => 60,
            'S' => 1,
            _ => 0,
        };
        let number = digits.split(['.', ',']).next().unwrap_or_default();
        let number: Option<i64> = number.parse().ok().filter(|number| *number < 1_000_000);
        seconds = seconds
            .zip(number)
            .map(|(all, number)| all + factor * number);
        digits.clear();
        if factor == 0 {
            seconds = None;
        }
    }
    match seconds.filter(|_| text.starts_with("PT") && digits.is_empty()) {
        Some(seconds) => Ok(Value::Time(seconds)),
        None => grid.text(text),
    }
}
