//! How a logger's file is read, as one line of text: for what keeps it outside a survey.

use super::limits::reading;
use super::stored::Stored;
use super::v2::StoredMapping;
use crate::series::Mapping;

/// A mapping on one line, as the newest format writes it.
///
/// ```
/// use gapledger::series::guess;
/// use gapledger::survey::file::{parse_mapping, print_mapping};
/// let guess = guess(b"Time,Temp C\n2026-01-05 10:00,5.1\n").unwrap();
/// let line = print_mapping(&guess.mapping);
/// assert!(!line.contains('\n'));
/// assert_eq!(parse_mapping(&line), Some(guess.mapping));
/// ```
#[must_use]
pub fn print_mapping(mapping: &Mapping) -> String {
    // What was made in memory is always written.
    ron::to_string(&StoredMapping::stored(mapping)).unwrap_or_default()
}

/// The mapping that such a line holds; `None` where it holds none.
#[must_use]
pub fn parse_mapping(line: &str) -> Option<Mapping> {
    let stored: StoredMapping = reading().from_str(line).ok()?;
    Some(stored.live())
}
