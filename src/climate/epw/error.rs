//! What is wrong with a weather file, and where.

use super::columns::Column;
use crate::climate::words::number as number_in_words;
use thiserror::Error;

/// Why a weather file is not taken.
#[derive(Clone, Debug, Error, PartialEq)]
#[error("line {line}{}: {sentence}", column_words(*.column))]
pub struct EpwError {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, where one is to blame.
    pub column: Option<usize>,
    /// What is wrong there.
    pub sentence: String,
}

fn column_words(column: Option<usize>) -> String {
    column.map_or_else(String::new, |column| format!(", column {column}"))
}

impl EpwError {
    /// A whole line is to blame.
    pub(super) fn line(line: usize, sentence: impl Into<String>) -> Self {
        Self {
            line,
            column: None,
            sentence: sentence.into(),
        }
    }

    /// One column, from 1, is.
    pub(super) fn at(line: usize, column: usize, sentence: impl Into<String>) -> Self {
        Self {
            line,
            column: Some(column),
            sentence: sentence.into(),
        }
    }

    /// A value of a row is no number, or none that can be.
    pub(super) fn value(line: usize, column: &Column, text: &str) -> Self {
        let shown: String = text.chars().take(20).collect();
        Self::at(
            line,
            column.number,
            format!(
                "the {} should be a number from {} to {}{}, not \u{201c}{}\u{201d}",
                column.name,
                number_in_words(column.least),
                number_in_words(column.most),
                column.unit,
                shown.escape_debug()
            ),
        )
    }
}
