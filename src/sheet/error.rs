//! Why there is no sheet.

use super::shorten::SHEET;

/// Why there is no sheet.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SheetError {
    /// It would hand over what may hurt somebody.
    #[error("{0}")]
    Refused(String),
    /// The typesetter gave up.
    #[error("the sheet could not be set: {0}")]
    Typesetting(String),
    /// The pages could not be made a PDF.
    #[error("the PDF could not be made: {0}")]
    Pdf(String),
    /// There is more on it than the typesetter can take in reasonable time and memory.
    #[error(
        "the sheet would hold {letters} letters, more than the {SHEET} that can be set: leave parts out, such as \
         the workings, or shorten the longest notes"
    )]
    TooLong {
        /// Letters that are on it.
        letters: usize,
    },
    /// It takes more memory than one sheet is given.
    #[error(
        "the sheet took more than {megabytes} MB of memory and was given up: leave parts out, such as the \
         workings, or shorten the longest notes"
    )]
    TooLarge {
        /// What it is given, MB.
        megabytes: u64,
    },
    /// It takes more time than one sheet is given.
    #[error(
        "the sheet was not set after {seconds} seconds and was given up: leave parts out, such as the \
         workings, or shorten the longest notes"
    )]
    TooSlow {
        /// What it is given, s.
        seconds: u64,
    },
    /// No thread or process could be started, or it died.
    #[error("the sheet could not be set, because its worker did not finish: {0}")]
    Worker(String),
}
