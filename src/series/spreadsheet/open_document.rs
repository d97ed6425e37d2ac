//! How many cells a sheet of an OpenDocument workbook spreads to: a cell and a row may each say how
//! often they are repeated.

use super::grid::MOST_CELLS;
use crate::series::refused::ReadError;

/// What has been gone through of one table.
#[derive(Default)]
struct Table {
    /// Cells of the row that is being read, up to the last that holds something.
    row: usize,
    /// Empty cells behind it.
    pending: usize,
    /// How often the row is repeated.
    repeated: usize,
    /// Most cells of a row.
    widest: usize,
    /// Rows up to the last that holds something.
    rows: usize,
    /// Empty rows behind it.
    pending_rows: usize,
    /// Cells as they are read, before rows are repeated.
    cells: usize,
}

impl Table {
    fn cell(&mut self, tag: &str) {
        let repeated = number(tag, "number-columns-repeated");
        if tag.ends_with('/') && !tag.contains("value") {
            self.pending = self.pending.saturating_add(repeated);
        } else {
            let before = std::mem::take(&mut self.pending);
            self.row = self.row.saturating_add(before).saturating_add(repeated);
        }
    }

    fn row_ends(&mut self) {
        let row = std::mem::take(&mut self.row);
        self.pending = 0;
        if row == 0 {
            self.pending_rows = self.pending_rows.saturating_add(self.repeated);
            return;
        }
        let before = std::mem::take(&mut self.pending_rows);
        self.rows = self
            .rows
            .saturating_add(before)
            .saturating_add(self.repeated);
        self.widest = self.widest.max(row);
        self.cells = self.cells.saturating_add(row);
    }

    fn spread(&self) -> usize {
        self.cells.max(self.rows.saturating_mul(self.widest))
    }
}

/// Whether all tables of a workbook together spread to no more cells than are read.
///
/// # Errors
/// More than that.
pub(super) fn measured(content: &[u8]) -> Result<(), ReadError> {
    let text = String::from_utf8_lossy(content);
    let mut table = Table::default();
    let mut before = 0_usize;
    for piece in text.split('<').skip(1) {
        let tag = piece.split('>').next().unwrap_or_default();
        let name = tag
            .split([' ', '\t', '\r', '\n', '/'])
            .next()
            .unwrap_or_default();
        match name {
            "table:table-row" => {
                table.repeated = number(tag, "number-rows-repeated");
                if tag.ends_with('/') {
                    table.row_ends();
                }
            }
            "table:table-cell" | "table:covered-table-cell" => table.cell(tag),
            _ if tag == "/table:table-row" => table.row_ends(),
            _ if tag == "/table:table" => {
                before = before.saturating_add(table.spread());
                table = Table::default();
            }
            _ => {}
        }
        if before
            .saturating_add(table.spread())
            .saturating_add(table.row)
            > MOST_CELLS
        {
            return Err(ReadError::TooManyCells);
        }
    }
    Ok(())
}

/// The number an attribute says, one where it is not there.
fn number(tag: &str, attribute: &str) -> usize {
    let Some((_, behind)) = tag.split_once(attribute) else {
        return 1;
    };
    let digits = behind.trim_start_matches(|sign: char| !sign.is_ascii_digit());
    let end = digits.find(|sign: char| !sign.is_ascii_digit());
    let digits = digits
        .get(..end.unwrap_or(digits.len()))
        .unwrap_or_default();
    digits.parse().unwrap_or(usize::MAX)
}
