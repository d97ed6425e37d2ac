//! The cells of a sheet as they are held until the whole sheet is known.

use crate::series::refused::ReadError;
use crate::series::rows::MOST_BYTES;

/// Most cells of a workbook that are held: a million rows of sixteen columns.
pub(super) const MOST_CELLS: usize = 16_000_000;

/// Rows and columns that a sheet can have at all.
const MOST_ROWS: u32 = 1 << 20;
const MOST_COLUMNS: u32 = 1 << 14;

/// Days from the start of a workbook's count to the start of 1970: from the end of 1899, or of 1904.
const DAYS_FROM_1900: f64 = 25_569.0;
const DAYS_FROM_1904: f64 = 24_107.0;

/// Seconds of a day.
pub(super) const DAY: i64 = 86_400;

/// How a number is shown by the format of its cell, as far as it tells what it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Shown {
    /// As it stands.
    #[default]
    Plain,
    /// A hundred times, with a percent sign.
    Percent,
    /// With this sign behind it.
    Unit(&'static str),
    /// As a time of day, whatever day it is of.
    TimeOfDay,
}

impl Shown {
    /// By the code of a number format.
    pub(super) fn of(code: &str) -> Self {
        let first = code.split(';').next().unwrap_or_default();
        let mut bare = String::new();
        let mut signs = first.chars();
        let (mut is_quoted, mut in_brackets) = (false, false);
        while let Some(sign) = signs.next() {
            match sign {
                '"' => is_quoted = !is_quoted,
                '[' if !is_quoted => in_brackets = true,
                ']' if !is_quoted => in_brackets = false,
                // A colour or a language.
                _ if in_brackets => {}
                '\\' | '_' | '*' if !is_quoted => {
                    signs.next();
                }
                _ if !is_quoted => bare.push(sign.to_ascii_lowercase()),
                _ => {}
            }
        }
        if bare.contains('%') {
            return Self::Percent;
        }
        if bare.contains('h') && bare.contains('m') && !bare.contains(['d', 'y']) {
            return Self::TimeOfDay;
        }
        let said = first.replace(['"', '\\'], "");
        ["°C", "°F"]
            .into_iter()
            .find(|unit| said.trim_end().ends_with(unit))
            .map_or(Self::Plain, Self::Unit)
    }
}

/// What a cell holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Value {
    /// A number.
    Number(f64, Shown),
    /// A date, s since the start of 1970, and whether its format shows the time of day alone.
    Clock(i64, bool),
    /// A time of day, or a stretch of time, s.
    Time(i64),
    /// Text: where it stands among the texts.
    Text(u32, u32),
    /// True or false.
    Truth(bool),
    /// An error.
    Error,
}

/// A cell in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Placed {
    pub(super) row: u32,
    pub(super) column: u32,
    pub(super) value: Value,
}

/// All cells that hold something, by row and column.
#[derive(Clone, Debug, Default)]
pub(super) struct Grid {
    pub(super) cells: Vec<Placed>,
    texts: String,
    is_1904: bool,
}

impl Grid {
    pub(super) fn new(is_1904: bool) -> Self {
        Self {
            is_1904,
            ..Self::default()
        }
    }

    /// Takes a cell.
    ///
    /// # Errors
    /// More cells or more text than are read, or a place that no sheet has.
    pub(super) fn push(
        &mut self,
        (row, column): (u32, u32),
        value: Value,
    ) -> Result<(), ReadError> {
        if row >= MOST_ROWS || column >= MOST_COLUMNS {
            return Err(ReadError::NoWorkbook);
        }
        if self.cells.len() >= MOST_CELLS {
            return Err(ReadError::TooManyCells);
        }
        self.cells.push(Placed { row, column, value });
        Ok(())
    }

    /// Text as a value.
    ///
    /// # Errors
    /// More text than is read.
    pub(super) fn text(&mut self, text: &str) -> Result<Value, ReadError> {
        let start = self.texts.len();
        if start + text.len() > MOST_BYTES {
            return Err(ReadError::TooLarge);
        }
        self.texts.push_str(text);
        let place = |at: usize| u32::try_from(at).map_err(|_| ReadError::TooLarge);
        Ok(Value::Text(place(start)?, place(self.texts.len())?))
    }

    /// A day number of the workbook, by the second.
    pub(super) fn clock(&self, days: f64, shown: Shown) -> Value {
        let start = if self.is_1904 {
            DAYS_FROM_1904
        } else {
            DAYS_FROM_1900
        };
        if !(0.0..=2_958_466.0).contains(&days) {
            return Value::Error;
        }
        if days < 1.0 {
            return Value::Time(seconds(days));
        }
        Value::Clock(seconds(days - start), shown == Shown::TimeOfDay)
    }

    /// The text of a cell that holds text.
    pub(super) fn text_of(&self, value: Value) -> Option<&str> {
        let Value::Text(from, to) = value else {
            return None;
        };
        self.texts
            .get(usize::try_from(from).ok()?..usize::try_from(to).ok()?)
    }

    /// The cell at a place.
    pub(super) fn at(&self, row: u32, column: u32) -> Option<usize> {
        let place = |cell: &Placed| (cell.row, cell.column);
        self.cells.binary_search_by_key(&(row, column), place).ok()
    }

    /// Puts the cells in order of row and column, one for each place.
    pub(super) fn sort(&mut self) {
        let place = |cell: &Placed| (cell.row, cell.column);
        if !self
            .cells
            .is_sorted_by(|one, next| place(one) < place(next))
        {
            self.cells.sort_by_key(place);
            self.cells.dedup_by_key(|cell| place(cell));
        }
    }

    /// The rows that hold something, each with its number counted from 0.
    pub(super) fn rows(&self) -> impl Iterator<Item = (u32, &[Placed])> {
        self.cells
            .chunk_by(|one, next| one.row == next.row)
            .map(|row| (row.first().map_or(0, |cell| cell.row), row))
    }
}

/// Days as whole seconds: what a workbook holds of a time is a little less or more than it.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a float that does not fit becomes the nearest number that does"
)]
pub(super) fn seconds(days: f64) -> i64 {
    (days * 86_400.0).round() as i64
}
