//! A sheet of a spreadsheet as text with columns, so that it is understood as a text file is.

use std::io::Cursor;

use calamine::{Data, Reader, open_workbook_auto_from_rs};

use super::refused::ReadError;

/// Whether bytes are a workbook: the mark of a zip archive, which no text begins with.
#[must_use]
pub(super) fn is_workbook(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// Names of the sheets.
///
/// # Errors
/// What is no workbook that can be read.
pub(super) fn sheets(bytes: &[u8]) -> Result<Vec<String>, ReadError> {
    let workbook =
        open_workbook_auto_from_rs(Cursor::new(bytes)).map_err(|_| ReadError::NoWorkbook)?;
    Ok(workbook.sheet_names())
}

/// A sheet as text: commas between columns, points before decimals, dates as year-month-day. The first
/// sheet where none is named. Line numbers are those of the sheet's rows.
///
/// # Errors
/// No workbook, or no sheet of that name.
pub(super) fn text(bytes: &[u8], sheet: &str) -> Result<String, ReadError> {
    let mut workbook =
        open_workbook_auto_from_rs(Cursor::new(bytes)).map_err(|_| ReadError::NoWorkbook)?;
    let name = if sheet.is_empty() {
        workbook.sheet_names().first().cloned().unwrap_or_default()
    } else {
        sheet.to_owned()
    };
    let range = workbook
        .worksheet_range(&name)
        .map_err(|_| ReadError::NoSheet(name.clone()))?;
    let (first_row, first_column) = range.start().unwrap_or((0, 0));
    let mut writer = csv::WriterBuilder::new()
        .flexible(true)
        .from_writer(Vec::new());
    // Empty rows above the first count as lines, so that what is said of a line can be found.
    let mut written = "\n".repeat(usize::try_from(first_row).unwrap_or(0));
    for row in range.rows() {
        let empty = (0..first_column).map(|_| String::new());
        let cells = empty.chain(row.iter().map(cell));
        writer
            .write_record(cells)
            .map_err(|_| ReadError::NoWorkbook)?;
    }
    let rows = writer.into_inner().map_err(|_| ReadError::NoWorkbook)?;
    written.push_str(&String::from_utf8_lossy(&rows));
    Ok(written)
}

fn cell(data: &Data) -> String {
    match data {
        Data::Empty => String::new(),
        Data::DateTime(moment) if moment.is_datetime() => {
            let (year, month, day, hour, minute, second, _) = moment.to_ymd_hms_milli();
            // A time of day alone is a moment of day zero.
            if moment.as_f64() < 1.0 {
                format!("{hour:02}:{minute:02}:{second:02}")
            } else {
                format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}:{second:02}")
            }
        }
        Data::Error(_) => String::from("error"),
        other => other.to_string().replace(['\r', '\n'], " "),
    }
}
