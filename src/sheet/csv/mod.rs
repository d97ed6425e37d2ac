//! Tables for spreadsheets: the ledger of gaps, the sealing plan and the hours of a winter as CSV.
//!
//! Comma-separated after RFC 4180, UTF-8, a dot as decimal point; the unit of each column is in
//! its header. A size that was not taken is an empty cell. Text that a spreadsheet would take for
//! a formula is preceded by an apostrophe. Some spreadsheets know UTF-8 only by the byte-order
//! mark in front; others show it as stray letters, so it is a choice.
//!
#![doc = include_str!("columns.md")]

mod cells;
mod ledger;
mod plan;
mod trial;
mod winter;

use super::output::{self, OutputError};
use crate::assess::winter::{Season, Winter};
use crate::assess::{Answer, NotKnown, Study};
use crate::figure::trial::{Band, Lines};
use cells::Writer;
use std::path::Path;

/// Why a table was not written.
#[derive(Debug, thiserror::Error)]
pub enum CsvError {
    /// The file could not be written.
    #[error(transparent)]
    Output(#[from] OutputError),
    /// The plan could not be worked out.
    #[error("there is no sealing plan to write: {}", .0.reason)]
    NoPlan(NotKnown),
    /// The table itself could not be made.
    #[error("the table could not be put into CSV: {0}")]
    Csv(#[from] csv::Error),
}

/// Whether the file begins with the byte-order mark of UTF-8.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ByteOrderMark {
    /// It does not: what most programs expect.
    #[default]
    Without,
    /// It does: for spreadsheets that take the file for another encoding otherwise.
    With,
}

impl ByteOrderMark {
    /// With or without.
    #[must_use]
    pub fn asked(with: bool) -> Self {
        if with { Self::With } else { Self::Without }
    }
}

/// The byte-order mark in UTF-8.
const MARK: [u8; 3] = [0xEF, 0xBB, 0xBF];

/// The usual ending of a table's name.
const ENDING: &str = ".csv";

/// The ledger of gaps, one line for each, as bytes of a CSV file.
///
/// # Errors
/// [`CsvError::Csv`], which plain text never gives.
pub fn ledger(study: &Study, mark: ByteOrderMark) -> Result<Vec<u8>, CsvError> {
    table(mark, |writer| {
        ledger::lines(writer, study.survey(), study.assessment())
    })
}

/// The sealing plan, one line for each gap in the order of work, as bytes of a CSV file.
///
/// # Errors
/// [`CsvError::NoPlan`] where the air change is not known.
pub fn plan(study: &Study, mark: ByteOrderMark) -> Result<Vec<u8>, CsvError> {
    let work = study.work().as_ref();
    let work = work.map_err(|unknown| CsvError::NoPlan(unknown.clone()))?;
    table(mark, |writer| plan::lines(writer, study.survey(), work))
}

/// The hours of a winter, one line for each option and hour, as bytes of a CSV file.
///
/// # Errors
/// [`CsvError::Csv`], which plain text never gives.
pub fn winter(
    winter: &Winter,
    seasons: &[Answer<Season>],
    mark: ByteOrderMark,
) -> Result<Vec<u8>, CsvError> {
    table(mark, |writer| winter::lines(writer, winter, seasons))
}

/// The readings of a trial, one line for each, as bytes of a CSV file.
///
/// # Errors
/// [`CsvError::Csv`], which plain text never gives.
pub fn trial(lines: &Lines, bands: &[Band], mark: ByteOrderMark) -> Result<Vec<u8>, CsvError> {
    table(mark, |writer| trial::lines(writer, lines, bands))
}

/// Writes a table to `output`.
///
/// # Errors
/// [`CsvError`]; the old file is then still there.
pub fn write(survey_file: &Path, output: &Path, table: &[u8]) -> Result<(), CsvError> {
    write_beside((survey_file, &[]), output, table)
}

/// The same for a table that is made from other files too, none of which is replaced.
///
/// # Errors
/// As [`fn@write`].
pub fn write_beside(
    made_from: (&Path, &[&Path]),
    output: &Path,
    table: &[u8],
) -> Result<(), CsvError> {
    Ok(output::write_beside(made_from, output, ENDING, table)?)
}

fn table(
    mark: ByteOrderMark,
    lines: impl FnOnce(&mut Writer) -> Result<(), csv::Error>,
) -> Result<Vec<u8>, CsvError> {
    let begin = match mark {
        ByteOrderMark::Without => Vec::new(),
        ByteOrderMark::With => MARK.to_vec(),
    };
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(begin);
    lines(&mut writer)?;
    writer
        .into_inner()
        .map_err(|error| CsvError::Csv(csv::Error::from(error.into_error())))
}
